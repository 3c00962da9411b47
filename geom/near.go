package geom

import (
	"math"

	"trammel/geom/unit"
)

// Nearest is the place of the line that is nearest to p.
func (l Line) Nearest(p Point) Point {
	way, to := VectorOf(l.To.Minus(l.From)), VectorOf(p.Minus(l.From))
	n := way.Dot(way)
	if n == 0 {
		return l.From
	}
	return l.At(min(1, max(0, to.Dot(way)/n)))
}

// square of the distance from p to the nearest place of the line.
func (l Line) square(p Point) float64 {
	d := VectorOf(p.Minus(l.Nearest(p)))
	return d.Dot(d)
}

// Apart is the least distance between two lines, 0 where they meet.
func (l Line) Apart(m Line) unit.Length {
	u, v, w := VectorOf(l.To.Minus(l.From)), VectorOf(m.To.Minus(m.From)), VectorOf(m.From.Minus(l.From))
	if d := u.Cross(v); d != 0 {
		if s, t := w.Cross(v)/d, w.Cross(u)/d; s >= 0 && s <= 1 && t >= 0 && t <= 1 {
			return 0
		}
	}
	return unit.Length(math.Sqrt(min(l.square(m.From), l.square(m.To), m.square(l.From), m.square(l.To))))
}

// Has says whether p lies in the polygon, of which edges may cross: whether a line from
// it to the right crosses an odd number of them.
func (p Polygon) Has(q Point) bool {
	in := false
	for i, a := range p {
		if passes(a, p[(i+1)%len(p)], q) {
			in = !in
		}
	}
	return in
}

// passes says whether the edge from a to b crosses the line from q to the right.
func passes(a, b, q Point) bool {
	return (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(b.X-a.X)*((q.Y-a.Y)/(b.Y-a.Y))
}

// ApartFrom is the least distance between a convex polygon, counter-clockwise, and a
// line, 0 where they meet.
func (p Polygon) ApartFrom(l Line) unit.Length {
	if p.around(l.From) {
		return 0
	}
	d := unit.Length(math.Inf(1))
	for i := range p {
		d = min(d, p.Edge(i).Apart(l))
	}
	return d
}

// Apart is the least distance between two convex polygons, counter-clockwise, 0 where
// they meet.
func (p Polygon) Apart(q Polygon) unit.Length {
	if q.around(p[0]) {
		return 0
	}
	d := unit.Length(math.Inf(1))
	for i := range q {
		d = min(d, p.ApartFrom(q.Edge(i)))
	}
	return d
}

// around says whether q lies in a convex polygon, counter-clockwise, or on its edge.
func (p Polygon) around(q Point) bool {
	for i, a := range p {
		if Side(VectorOf(a), VectorOf(p[(i+1)%len(p)]), VectorOf(q)) < 0 {
			return false
		}
	}
	return true
}

// Corners of the rectangle, counter-clockwise from the lower left one.
func (r Rect) Corners() [4]Point {
	return [4]Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// Shift moves a rectangle.
func (r Rect) Shift(by Point) Rect { return Rect{r.Min.Plus(by), r.Max.Plus(by)} }

// Holds says whether s lies in r, but for rounding.
func (r Rect) Holds(s Rect) bool {
	const rounding = 1e-9
	w := r.Grow(rounding)
	return w.Has(s.Min) && w.Has(s.Max)
}
