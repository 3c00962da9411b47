package task

import (
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom/gate"
)

// How an answer moves with what is set: the slopes against differences of the same triangle
// with the setting a little more and a little less, 1e-6 relative to the slope's size.
func TestSlopesAgainstDifferences(t *testing.T) {
	const step = 1e-4
	for _, k := range Kinds() {
		if k == SSA0 {
			continue
		}
		s := StockOf(k, Fives, School)
		for i := 0; i < len(s.Kept); i += max(1, len(s.Kept)/gate.Of(20, 300)) {
			for nth, shape := range s.Kept[i].Solve() {
				for _, box := range s.Kept[i].Kind.Boxes() {
					if box == CA2 {
						box = CA
					}
					for _, d := range s.Kept[i].slopes(shape, box) {
						more, less := moved(s.Kept[i], shape, d.of, step), moved(s.Kept[i], shape, d.of, -step)
						got := (more.Value(box) - less.Value(box)) / (2 * step)
						if math.Abs(got-d.by) > 1e-6*max(1, math.Abs(d.by)) {
							t.Errorf("%s %v, triangle %d: %s moves by %g for %s, not %g", k, s.Kept[i].Given, nth+1, box, got, d.of, d.by)
						}
					}
				}
			}
		}
	}
}

// moved is the triangle that a hand comes to that sets one thing so much more.
func moved(t Task, s Shape, of Quantity, more float64) Shape {
	set := map[Quantity]float64{AB: s.Side[2], BC: s.Side[0], CA: s.Side[1], A: s.Deg[0], B: s.Deg[1], Height: s.Y}
	set[of] += more
	if t.Kind == ISO && of == BC {
		set[CA] += more
	}
	c := set[AB]
	p, q := about[t.Kind].loci[0], about[t.Kind].loci[1]
	line := func(l locus) Line {
		switch l {
		case arcA:
			return Line{Radius: set[CA]}
		case arcB:
			return Line{X: c, Radius: set[BC]}
		case rayA:
			return Line{Deg: set[A]}
		case rayB:
			return Line{X: c, Deg: 180 - set[B]}
		}
		return Line{Y: set[Height]}
	}
	x, y, _ := crossing(line(p), line(q), s.X, s.Y)
	return shapeAt(c, x, y)
}

// The formulae as they were published with the rules, written out by hand for six kinds.
func TestPublishedFormulae(t *testing.T) {
	const deg = 180 / math.Pi
	for _, k := range []Kind{SSS, SAS, ASA, RHS, BHA, BHS} {
		for _, task := range StockOf(k, Centimetres, School).Kept {
			s := task.Solve()[0]
			a, b, c, h := s.Side[0], s.Side[1], s.Side[2], s.Y
			over := c * h / a // the height over BC
			A, B, C := s.Deg[0]/deg, s.Deg[1]/deg, s.Deg[2]/deg
			var box Quantity
			var want map[Quantity]float64
			switch k {
			case SSS:
				box, want = 3, map[Quantity]float64{BC: deg / over, CA: -math.Cos(C) * deg / over, AB: -math.Cos(B) * deg / over}
			case SAS:
				box, want = BC, map[Quantity]float64{AB: math.Cos(B), 3: over / deg, CA: math.Cos(C)}
			case ASA:
				box, want = BC, map[Quantity]float64{AB: a / c, 3: b / (deg * math.Sin(C)), 4: a / math.Tan(C) / deg}
			case RHS:
				box, want = CA, map[Quantity]float64{AB: -math.Cos(B) / math.Cos(C), 3: -b * math.Tan(C) / deg, BC: 1 / math.Cos(C)}
			case BHA:
				box, want = BC, map[Quantity]float64{AB: math.Cos(B), 3: h * math.Cos(B) / (deg * math.Sin(A) * math.Sin(A)), Height: math.Cos(C) / math.Sin(A)}
			case BHS:
				box, want = BC, map[Quantity]float64{AB: math.Cos(B), CA: -math.Cos(B) / math.Cos(A), Height: math.Sin(C) / math.Cos(A)}
			}
			for _, d := range task.slopes(s, box) {
				if math.Abs(d.by-want[d.of]) > 1e-9*max(1, math.Abs(d.by)) {
					t.Errorf("%s %v: %s moves by %g for %s, not %g", k, task.Given, box, d.by, d.of, want[d.of])
				}
			}
		}
	}
}

// hand is one that draws with slips of its own: the spreads are judgement, of needle and
// centre, rule, opening of compasses, protractor, set square, sliding, and of reading.
type hand struct{ *rand.Rand }

func (h hand) off(spread float64) float64 { return h.NormFloat64() * spread }

// draws a task; mistaken is what it was set by, where not by what was given.
func (h hand) draws(t Task, s Shape) (Shape, bool) {
	c := s.Side[2] + h.off(0.3)
	opening := 0.4
	line := func(l locus) Line {
		x, y := h.off(0.25), h.off(0.25)
		if h.Float64() < 0.15 {
			opening = 0.7
		}
		degrees := math.Sqrt(0.3*0.3 + 0.35*0.35 + 0.3*0.3)
		switch l {
		case arcA:
			return Line{X: x, Y: y, Radius: s.Side[1] + h.off(opening)}
		case arcB:
			return Line{X: c + x, Y: y, Radius: s.Side[0] + h.off(opening)}
		case rayA:
			if about[t.Kind].square {
				degrees = 0.25
			}
			return Line{X: x, Y: y, Deg: s.Deg[0] + h.off(degrees)}
		case rayB:
			return Line{X: c + x, Y: y, Deg: 180 - s.Deg[1] + h.off(degrees)}
		}
		return Line{Y: s.Y + h.off(0.5), X: 0, Deg: h.off(0.15)}
	}
	k := about[t.Kind].loci
	x, y, ok := crossing(line(k[0]), line(k[1]), s.X, s.Y)
	return shapeAt(c, x, y), ok
}

func (h hand) reads(s Shape, q Quantity) float64 {
	if q == CA2 {
		q = CA
	}
	spread := 0.3
	if q.IsAngle() {
		spread = 0.5
	}
	return math.Round(s.Value(q) + h.off(spread))
}

// Careful hands fall into each box in 97.5 of 100 by the tolerance of mathematics; how many do
// by that of technical drawing is logged.
func TestCarefulHands(t *testing.T) {
	r := hand{rand.New(rand.NewPCG(12, 1))}
	for _, k := range Kinds() {
		if k == SSA0 { // the foot of a perpendicular is another matter
			continue
		}
		s := StockOf(k, Fives, School)
		var in, fine, all [2]int
		for range gate.Of(60, 400) {
			task := s.Kept[r.IntN(len(s.Kept))]
			shapes, boxes, narrow := task.Solve(), task.Measured(Maths), task.Measured(Drawing)
			for range gate.Of(80, 1000) {
				for i, b := range boxes {
					shape := shapes[0]
					if b.Of == CA2 {
						shape = shapes[1]
					}
					drawn, ok := r.draws(task, shape)
					all[i]++
					if !ok {
						continue
					}
					x := r.reads(drawn, b.Of)
					if b.Accepts(x) {
						in[i]++
					}
					if narrow[i].Accepts(x) {
						fine[i]++
					}
				}
			}
		}
		for i, q := range k.Boxes() {
			share := float64(in[i]) / float64(all[i])
			t.Logf("%-4s %-4s %.1f of 100 by mathematics, %.1f by drawing", k, q, 100*share, 100*float64(fine[i])/float64(all[i]))
			if share < gate.Of(0.97, 0.975) { // of a few, chance is larger
				t.Errorf("%s %s: %.1f of 100", k, q, 100*share)
			}
		}
	}
}

// What a wrong method gives, drawn by a careful hand, is accepted in all boxes in 1 of 100 at
// most in any task.
func TestWrongMethodsAreSeen(t *testing.T) {
	r := hand{rand.New(rand.NewPCG(12, 2))}
	for _, k := range Kinds() {
		s := StockOf(k, Fives, School)
		for range gate.Of(60, 1000) {
			task := s.Kept[r.IntN(len(s.Kept))]
			boxes := task.Measured(Maths)
			for _, w := range task.Mistakes() {
				passed, n := 0, gate.Of(200, 2000)
				for range n {
					all := true
					for i, b := range boxes {
						all = all && w.Has[i] != Blank && b.Accepts(math.Round(w.Has[i]+r.off(b.Error/2)))
					}
					if all {
						passed++
					}
				}
				if float64(passed) > 0.01*float64(n) {
					t.Errorf("%s %v: mistake %d passes %d of %d times", k, task.Given, w.Mistake, passed, n)
				}
			}
		}
	}
}
