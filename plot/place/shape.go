package place

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Shape is a convex part of what is drawn, for keeping clear of it: a straight
// stroke, a chord of an arc, the box of some words.
type Shape struct {
	P    [4]geom.Point
	N    int         // points in use: 2, 3 or 4
	Pad  unit.Length // half the pen's width, and what a chord lacks of its arc
	Text bool
}

// Shapes adds the shapes of an operation to dst.
func Shapes(dst []Shape, op draw.Op, r draw.Ruler) []Shape {
	switch o := op.(type) {
	case draw.Text:
		return append(dst, Shape{P: o.Box(r), N: 4, Text: true})
	case draw.Polyline:
		if o.Solid {
			for i := 1; i+1 < len(o.Points); i++ {
				dst = append(dst, Shape{P: [4]geom.Point{o.Points[0], o.Points[i], o.Points[i+1]}, N: 3})
			}
			return dst
		}
	}
	for _, k := range Strokes(op, unit.Length(math.Inf(1))) {
		dst = append(dst, Shape{P: [4]geom.Point{k.From, k.To}, N: 2, Pad: k.Half})
	}
	return dst
}

// Gap is the clear distance between a shape and an upright rectangle; negative or
// 0 where they touch.
func (s Shape) Gap(r geom.Rect) unit.Length {
	corners := r.Corners()
	if s.N > 2 {
		for _, c := range corners {
			if s.has(c) {
				return -s.Pad
			}
		}
	}
	d := unit.Length(math.Inf(1))
	for i := range s.edges() {
		l := geom.Line{From: s.P[i], To: s.P[(i+1)%s.N]}
		if _, ok := geom.ClipLine(l, r); ok {
			return -s.Pad
		}
		d = min(d, r.Distance(l.From), r.Distance(l.To))
		for _, c := range corners {
			d = min(d, l.Distance(c))
		}
	}
	return d - s.Pad
}

func (s Shape) edges() int {
	if s.N == 2 {
		return 1
	}
	return s.N
}

// has says whether a convex shape, its corners either way round, has a point.
func (s Shape) has(q geom.Point) bool {
	left, right := false, false
	for i := range s.N {
		a, b := s.P[i], s.P[(i+1)%s.N]
		c := float64((b.X-a.X)*(q.Y-a.Y) - (b.Y-a.Y)*(q.X-a.X))
		left, right = left || c > 0, right || c < 0
	}
	return !left || !right
}

// Shadow is the stretch of the line n = at, told by t, that lies nearer to the
// shape than clear. In an upright frame t is y and n is x, otherwise the other
// way round.
func (s Shape) Shadow(at, clear unit.Length, upright bool) (from, to unit.Length, ok bool) {
	frame := func(p geom.Point) (t, n unit.Length) {
		if upright {
			return p.Y, p.X - at
		}
		return p.X, p.Y - at
	}
	from, to = unit.Length(math.Inf(1)), unit.Length(math.Inf(-1))
	mark := func(t unit.Length) { from, to = min(from, t), max(to, t) }
	cross := func(t0, n0, t1, n1 unit.Length) { // where a straight piece meets n = 0
		if (n0 > 0) != (n1 > 0) {
			mark(t0 + (t1-t0)*(n0/(n0-n1)))
		}
	}
	reach := clear + s.Pad
	for i := range s.edges() {
		t0, n0 := frame(s.P[i])
		t1, n1 := frame(s.P[(i+1)%s.N])
		for _, e := range [2][2]unit.Length{{t0, n0}, {t1, n1}} { // round the ends
			if h := halfChord(reach, e[1]); h >= 0 {
				mark(e[0] - h)
				mark(e[0] + h)
			}
		}
		cross(t0, n0, t1, n1)
		if l := unit.Length(math.Hypot(float64(t1-t0), float64(n1-n0))); l > 0 { // beside it
			ot, on := -(n1-n0)/l*reach, (t1-t0)/l*reach
			cross(t0+ot, n0+on, t1+ot, n1+on)
			cross(t0-ot, n0-on, t1-ot, n1-on)
		}
	}
	return from, to, from <= to
}

func halfChord(radius, d unit.Length) unit.Length {
	if d < -radius || d > radius {
		return -1
	}
	return unit.Length(math.Sqrt(float64((radius - d) * (radius + d))))
}
