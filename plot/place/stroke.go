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
	if o, ok := op.(draw.Line); ok { // most are
		return append(dst, Shape{P: [4]geom.Point{o.Line.At(0), o.Line.At(1)}, N: 2, Pad: o.Pen.Width / 2})
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
	box, shape := geom.Polygon(corners[:]), geom.Polygon(s.P[:s.N])
	if shape.Has(r.Min) {
		return -s.Pad
	}
	d := unit.Length(math.Inf(1))
	for i := range s.edges() {
		d = min(d, box.ApartFrom(shape.Edge(i)))
	}
	return d - s.Pad
}

// Clears says whether the gap between a shape and an upright rectangle is at least so much.
func (s Shape) Clears(r geom.Rect, by unit.Length) bool {
	const hair = 1e-9 // what is so near is reckoned
	far := r.Grow(by + s.Pad + hair)
	left, right, below, above := true, true, true, true
	for _, p := range s.P[:s.N] {
		left, right = left && p.X < far.Min.X, right && p.X > far.Max.X
		below, above = below && p.Y < far.Min.Y, above && p.Y > far.Max.Y
	}
	return left || right || below || above || s.Gap(r) >= by
}

func (s Shape) edges() int {
	if s.N == 2 {
		return 1
	}
	return s.N
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

// Stroke is a straight bit of a line's ink, half its width to each side.
type Stroke struct {
	geom.Line
	Half unit.Length
	Of   int // the line that it is a bit of, where that matters
}

// Sag is how far the chords that stand for an arc may lie from it: their half width
// is that much more.
const Sag unit.Length = 0.05

// Strokes cuts an operation into straight bits no longer than so much, so that a side of
// 15 m is not looked at everywhere in its bounds. Words have none.
func Strokes(op draw.Op, longest unit.Length) []Stroke {
	var all []Stroke
	line := func(l geom.Line, half unit.Length) {
		n := max(1, math.Ceil(float64(l.Length()/longest)))
		for i := range int(n) {
			all = append(all, Stroke{Line: geom.Line{From: l.At(float64(i) / n), To: l.At(float64(i+1) / n)}, Half: half})
		}
	}
	switch o := op.(type) {
	case draw.Line:
		line(o.Line, o.Pen.Width/2)
	case draw.Arc:
		if o.Radius <= 0 {
			break
		}
		step := 2 * math.Acos(1-min(1, float64(Sag/o.Radius)))
		n := max(1, math.Ceil(math.Abs(float64(o.Sweep))/step))
		for i := range int(n) {
			line(geom.Line{From: o.At(float64(i) / n), To: o.At(float64(i+1) / n)}, o.Pen.Width/2+Sag)
		}
	case draw.Path:
		for _, part := range o.Parts() {
			all = append(all, Strokes(part, longest)...)
		}
	case draw.Polyline:
		for i := range o.Points {
			if i < len(o.Points)-1 || o.Closed || o.Solid {
				line(geom.Polygon(o.Points).Edge(i), o.Pen.Width/2)
			}
		}
	}
	return all
}
