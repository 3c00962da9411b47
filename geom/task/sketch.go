package task

// Sketch is a shape that is not to scale: C with A at 0 and B at (1, 0).
type Sketch struct{ X, Y float64 }

// shapes of the sketches, the first the usual one. The same stand on all sheets, so that no
// sketch says anything of the numbers; what is obtuse or square stays so.
var (
	acuteSketch  = []Sketch{{0.34, 0.52}, {0.66, 0.58}, {0.5, 0.78}, {0.24, 0.8}, {0.78, 0.42}}
	obtuseAtA    = []Sketch{{-0.3, 0.62}, {-0.42, 0.6}, {-0.2, 0.7}}
	obtuseAtB    = []Sketch{{1.3, 0.62}, {1.42, 0.6}, {1.2, 0.7}}
	squareSketch = []Sketch{{0, 0.62}, {0, 0.86}, {0, 0.45}}
	equalSketch  = []Sketch{{0.5, 0.55}, {0.5, 0.8}, {0.5, 0.4}}
	twoFitSketch = []Sketch{{0.62, 0.5}, {0.55, 0.36}, {0.74, 0.66}}
)

// Sketch is the first shape of the task's that tells no answer: measured, and scaled by AB, it
// comes into no box, nor within 3 mm or 3° of one; of none such the one that comes into fewest.
func (t Task) Sketch() Sketch {
	all := acuteSketch
	a, knowsA := t.of(A)
	b, knowsB := t.of(B)
	switch {
	case t.Kind.BySquare():
		all = squareSketch
	case t.Kind == ISO:
		all = equalSketch
	case knowsA && a > 90:
		all = obtuseAtA
	case knowsB && b > 90:
		all = obtuseAtB
	case t.Kind == SSA2 || t.Kind == SSA0:
		all = twoFitSketch
	}
	best, fewest := all[0], 3
	for _, s := range all {
		if n := t.told(s); n < fewest {
			best, fewest = s, n
		}
	}
	return best
}

// told is how many boxes could be filled by measuring a sketch.
func (t Task) told(k Sketch) (n int) {
	c := float64(t.Given[0])
	s := shapeAt(c, k.X*c, k.Y*c)
	for _, b := range t.Measured(Maths) {
		q := b.Of
		if q == CA2 {
			q = CA
		}
		if b.within(s.Value(q), margin) {
			n++
		}
	}
	return n
}
