package setout

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// work is a sheet being made.
type work struct {
	*Sheet
	measured []geom.Measurement
	net      net
	taken    map[geom.Name]bool

	left, right, apex geom.Name // corners 0, 1, 2 of the triangle
	foot              geom.Name // a corner's name where the foot falls on it
	mid               geom.Name // of the baseline; the foot's name where both are one mark
	midRight, midLeft geom.Name // of the sides from the right and the left end to the apex
}

func newWork(s *Sheet, m []geom.Measurement) *work {
	n := s.Triangle.Names
	w := &work{Sheet: s, measured: m, left: n[0], right: n[1], apex: n[2], taken: map[geom.Name]bool{}}
	for _, name := range n {
		w.taken[name] = true
	}
	s.Baseline.Measured = w.sideMeasured(w.left, w.right)
	return w
}

// free takes the wished letter for a mark, or where a corner has it the next
// letter that is free. I and O are left out: they read as figures.
func (w *work) free(wish geom.Name) geom.Name {
	for c := wish[0]; ; c++ {
		if c > 'Z' {
			c = 'A'
		}
		if n := geom.Name(c); c != 'I' && c != 'O' && !w.taken[n] {
			w.taken[n] = true
			return n
		}
	}
}

// sideMeasured says whether the side was measured and is printed as it was: one
// that an adjustment has moved counts as computed.
func (w *work) sideMeasured(a, b geom.Name) bool {
	for _, m := range w.measured {
		if m.Kind == geom.Distance && (m.At[0] == a && m.At[1] == b || m.At[0] == b && m.At[1] == a) {
			return w.Figure(m.Value.Length()) == w.Figure(w.sideOf(a, b))
		}
	}
	return false
}

// heightMeasured says the same of the height over the baseline; where the foot is
// an end of the baseline, the height is a side.
func (w *work) heightMeasured() bool {
	for _, m := range w.measured {
		if m.Kind == geom.Height && m.At[0] == w.apex {
			return w.Figure(m.Value.Length()) == w.Figure(w.Triangle.Heights[2])
		}
	}
	return (w.foot == w.left || w.foot == w.right) && w.sideMeasured(w.foot, w.apex)
}

// sideOf is the side between two corners.
func (w *work) sideOf(a, b geom.Name) unit.Length {
	for i, n := range w.Triangle.Names {
		if n != a && n != b {
			return w.Triangle.Sides[i]
		}
	}
	return 0
}

// sameMark is how close two marks are one and the same: half of the finest
// figure that is printed, which no tape can tell apart.
const sameMark unit.Length = 0.05

// onePeg is how close two marks share one peg, each with its own nail: pegs are
// 40 to 50 mm wide (common practice, no source).
const onePeg unit.Length = 60

func near(a, b, d unit.Length) bool { return math.Abs(float64(a-b)) <= float64(d) }

// along is the running distance of a place x from the triangle's corner 0.
func (w *work) along(x unit.Length) unit.Length {
	if w.Baseline.Zero == 1 {
		return w.Baseline.Length - x
	}
	return x
}

// nameMarks lists the pegs: corners, foot and middles.
func (w *work) nameMarks() {
	p, b := w.Triangle.Points, w.Baseline.Length
	add := func(n geom.Name, r Role, at geom.Point, note string, of ...geom.Name) *Peg {
		peg := Peg{Name: n, Role: r, At: at, Along: w.along(at.X), Offset: at.Y, Note: note}
		copy(peg.Of[:], of)
		w.Pegs = append(w.Pegs, peg)
		return &w.Pegs[len(w.Pegs)-1]
	}
	from, to := w.Baseline.From, w.Baseline.To
	z := w.Baseline.Zero
	add(from, Corner, p[z], "tape's zero")
	add(to, Corner, p[1-z], "baseline's end")
	add(w.apex, Corner, p[2], "apex")

	x := p[2].X
	switch {
	case near(x, 0, sameMark):
		w.foot = w.left
	case near(x, b, sameMark):
		w.foot = w.right
	default:
		w.foot = w.free("F")
		peg := add(w.foot, Foot, geom.Point{X: x}, "foot of the height", w.apex)
		if peg.Also = near(x, b/2, sameMark); peg.Also {
			peg.Note = "foot, middle of " + string(from+to)
		}
	}
	if w.mid = w.foot; !near(x, b/2, sameMark) {
		w.mid = w.free("M")
		add(w.mid, Middle, geom.Point{X: b / 2}, "middle of "+string(from+to), from, to)
	}
	w.midRight = w.free("N")
	add(w.midRight, Middle, geom.Line{From: p[1], To: p[2]}.At(0.5), "middle of "+string(w.right+w.apex), w.right, w.apex)
	w.midLeft = w.free("P")
	add(w.midLeft, Middle, geom.Line{From: p[0], To: p[2]}.At(0.5), "middle of "+string(w.left+w.apex), w.left, w.apex)

	c := Crossing{At: w.apex, Angle: w.Triangle.Angles[2]}
	c.Sound = c.Angle >= Flattest && c.Angle <= Bluntest
	c.Spread = Ratio(math.Sqrt2 / math.Sin(float64(c.Angle)))
	w.Crossing = c
}

// Peg finds a peg by its name.
func (s Sheet) Peg(n geom.Name) (Peg, bool) {
	for _, p := range s.Pegs {
		if p.Name == n {
			return p, true
		}
	}
	return Peg{}, false
}

// side is the exact length between an end of the baseline and the apex.
func (w *work) side(end geom.Name) unit.Length { return w.sideOf(end, w.apex) }
