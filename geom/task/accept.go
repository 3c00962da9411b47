package task

import "math"

// How far a careful hand is off, twice what is usual (95 of 100): lengths and radii, angles by
// the protractor, angles by the set square, heights by sliding it; and reading off a length or
// an angle. Judgement; simulated hands hold it (see the tests).
const (
	ofLength = 1.0
	ofAngle  = 1.0
	ofSquare = 0.5
	ofHeight = 1.1
	readMM   = 0.5
	readDeg  = 1.0
)

// Tolerance is what marking accepts: a length and an angle to each side.
type Tolerance struct {
	MM, Deg float64
	// Grows: a box whose careful hands are further off than that gets as much as they need, in
	// whole halves.
	Grows bool
}

// Maths is what lower secondary mathematics accepts, Drawing what technical drawing does:
// ±2 mm and ±2°, ±1 mm and ±1° in public mark schemes.
var (
	Maths   = Tolerance{2, 2, true}
	Drawing = Tolerance{1, 1, false}
)

func (t Tolerance) of(q Quantity) float64 {
	if q.IsAngle() {
		return t.Deg
	}
	return t.MM
}

// Box is what is measured: its true value, how far a careful hand is off, what is accepted to
// each side, and the whole range that is printed.
type Box struct {
	Of        Quantity
	Value     float64
	Error     float64
	Accept    float64
	Low, High int
}

// Accepts says whether a whole reading lies in the range.
func (b Box) Accepts(x float64) bool { return x >= float64(b.Low) && x <= float64(b.High) }

// within says whether a value lies so near to the range that it may be read into it.
func (b Box) within(x, more float64) bool { return math.Abs(x-b.Value) <= b.Accept+more }

// Measured are the boxes of a task.
func (t Task) Measured(tol Tolerance) (all []Box) { return t.boxes(t.Solve(), tol) }

func (t Task) boxes(shapes []Shape, tol Tolerance) (all []Box) {
	for i, q := range t.Kind.Boxes() {
		b := Box{Of: q}
		switch {
		case t.Kind == SSA0:
			c, deg := float64(t.Given[0]), float64(t.Given[1])
			b.Value = c * sin(deg)
			b.Error = math.Sqrt(squares(sin(deg)*ofLength, c*cos(deg)*rad*ofAngle, readMM))
		case i >= len(shapes) && q == CA2 || len(shapes) == 0:
			return nil
		case q == CA2:
			b.Value, b.Error = shapes[1].Side[1], t.hand(shapes[1], CA)
		default:
			b.Value, b.Error = shapes[0].Value(q), t.hand(shapes[0], q)
		}
		b.Accept = tol.of(q)
		if tol.Grows {
			b.Accept = max(b.Accept, math.Ceil(2*b.Error-1e-9)/2)
		}
		b.Low, b.High = int(math.Ceil(b.Value-b.Accept-0.5)), int(math.Floor(b.Value+b.Accept+0.5))
		all = append(all, b)
	}
	return all
}

// hand is by how much a careful hand is off in what is measured: U = √(Σ(∂y/∂g·δ)² + r²) over
// what the hand sets, not what is given.
func (t Task) hand(s Shape, q Quantity) float64 {
	sum := readMM * readMM
	if q.IsAngle() {
		sum = readDeg * readDeg
	}
	for _, d := range t.slopes(s, q) {
		sum += d.by * d.by * d.off * d.off
	}
	return math.Sqrt(sum)
}

// slope is how far something measured moves with something that a hand sets.
type slope struct {
	of  Quantity
	by  float64 // mm or degrees for each
	off float64 // how far a careful hand is off in it
}

// slopes of a quantity with what is set. Each line that C is drawn on holds C in one
// direction; where both hold it follows from two equations.
func (t Task) slopes(s Shape, q Quantity) (all []slope) {
	k := about[t.Kind]
	a, b := s.Side[0], s.Side[1]
	ua, ub := [2]float64{s.X / b, s.Y / b}, [2]float64{(s.X - s.Side[2]) / a, s.Y / a}
	// Each line: its normal, what C moves along it for one of its own setting, and for one of AB.
	var normal [2][2]float64
	var own, base [2]float64
	var of [2]Quantity
	for i, l := range k.loci {
		switch l {
		case arcA:
			normal[i], own[i], of[i] = ua, 1, CA
		case arcB:
			normal[i], own[i], base[i], of[i] = ub, 1, ub[0], BC
		case rayA:
			normal[i], own[i], of[i] = [2]float64{-ua[1], ua[0]}, b*rad, A
		case rayB:
			normal[i], own[i], base[i], of[i] = [2]float64{-ub[1], ub[0]}, -a*rad, -ub[1], B
		case level:
			normal[i], own[i], of[i] = [2]float64{0, 1}, 1, Height
		}
	}
	moves := func(right [2]float64) (x, y float64) {
		m := normal
		det := m[0][0]*m[1][1] - m[0][1]*m[1][0]
		return (right[0]*m[1][1] - m[0][1]*right[1]) / det, (m[0][0]*right[1] - right[0]*m[1][0]) / det
	}
	add := func(what Quantity, right [2]float64, along, off float64) {
		x, y := moves(right)
		all = append(all, slope{what, seen(s, q, x, y, along), off})
	}
	add(AB, base, 1, ofLength)
	if t.Kind == ISO { // the compasses are opened once
		add(BC, own, 0, ofLength)
		return all
	}
	for i := range 2 {
		var right [2]float64
		right[i] = own[i]
		off := ofLength
		switch {
		case of[i] == A && k.square:
			off = ofSquare
		case of[i].IsAngle():
			off = ofAngle
		case of[i] == Height:
			off = ofHeight
		}
		add(of[i], right, 0, off)
	}
	return all
}

// seen is by how much a quantity moves where C moves by x and y and B by along.
func seen(s Shape, q Quantity, x, y, along float64) float64 {
	a, b := s.Side[0], s.Side[1]
	atA := (-s.Y*x + s.X*y) / (b * b) / rad
	atB := (s.Y*(x-along) + (s.Side[2]-s.X)*y) / (a * a) / rad
	switch q {
	case BC:
		return ((s.X-s.Side[2])*(x-along) + s.Y*y) / a
	case CA:
		return (s.X*x + s.Y*y) / b
	case Height:
		return y
	case A:
		return atA
	case B:
		return atB
	case C:
		return -atA - atB
	}
	return along
}

func squares(all ...float64) (sum float64) {
	for _, x := range all {
		sum += x * x
	}
	return sum
}
