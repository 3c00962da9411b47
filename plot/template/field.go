package template

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// field files things by place, in squares of the plane, so that what is near is
// found without asking everything.
type field[T any] struct {
	size unit.Length
	in   map[[2]int32][]T
}

func newField[T any](size unit.Length) field[T] {
	return field[T]{size, map[[2]int32][]T{}}
}

func (f field[T]) squares(r geom.Rect, do func(at [2]int32) bool) bool {
	n := func(l unit.Length) int32 { return int32(math.Floor(float64(l / f.size))) }
	for x := n(r.Min.X); x <= n(r.Max.X); x++ {
		for y := n(r.Min.Y); y <= n(r.Max.Y); y++ {
			if !do([2]int32{x, y}) {
				return false
			}
		}
	}
	return true
}

// put files t under every square that its bounds r meet.
func (f field[T]) put(r geom.Rect, t T) {
	f.squares(r, func(at [2]int32) bool { f.in[at] = append(f.in[at], t); return true })
}

// every asks all things filed near r, some perhaps twice, and says whether ok
// held for all; it stops at the first for which it did not.
func (f field[T]) every(r geom.Rect, ok func(T) bool) bool {
	return f.squares(r, func(at [2]int32) bool {
		for _, t := range f.in[at] {
			if !ok(t) {
				return false
			}
		}
		return true
	})
}

// box is four corners of words, once round.
type box [4]geom.Point

func (b box) bounds() geom.Rect { return geom.RectOf(b[0], b[1:]...) }

func (b box) edge(i int) geom.Line { return geom.Line{From: b[i], To: b[(i+1)%4]} }

func (b box) has(p geom.Point) bool {
	for i := range b {
		if cross(b[(i+1)%4].Minus(b[i]), p.Minus(b[i])) < 0 {
			return false
		}
	}
	return true
}

// toLine is the distance between the box and a line, 0 where they meet.
func (b box) toLine(l geom.Line) unit.Length {
	if b.has(l.From) {
		return 0
	}
	d := unit.Length(math.Inf(1))
	for i := range b {
		d = min(d, lineToLine(b.edge(i), l))
	}
	return d
}

// toBox is the distance between two boxes, 0 where they meet.
func (b box) toBox(c box) unit.Length {
	if b.has(c[0]) || c.has(b[0]) {
		return 0
	}
	d := unit.Length(math.Inf(1))
	for i := range c {
		d = min(d, b.toLine(c.edge(i)))
	}
	return d
}

func cross(p, q geom.Point) float64 {
	return float64(p.X)*float64(q.Y) - float64(p.Y)*float64(q.X)
}

func dot(p, q geom.Point) float64 {
	return float64(p.X)*float64(q.X) + float64(p.Y)*float64(q.Y)
}

// lineToLine is the least distance between two lines, 0 where they cross.
func lineToLine(l, m geom.Line) unit.Length {
	u, v, w := l.To.Minus(l.From), m.To.Minus(m.From), m.From.Minus(l.From)
	if d := cross(u, v); d != 0 {
		s, t := cross(w, v)/d, cross(w, u)/d
		if s >= 0 && s <= 1 && t >= 0 && t <= 1 {
			return 0
		}
	}
	return min(pointToLine(l.From, m), pointToLine(l.To, m), pointToLine(m.From, l), pointToLine(m.To, l))
}

func pointToLine(p geom.Point, l geom.Line) unit.Length {
	u := l.To.Minus(l.From)
	t := 0.0
	if n := dot(u, u); n > 0 {
		t = math.Max(0, math.Min(1, dot(p.Minus(l.From), u)/n))
	}
	return p.Distance(l.At(t))
}
