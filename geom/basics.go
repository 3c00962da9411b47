package geom

import (
	"math"

	"trammel/geom/unit"
)

// Plus is p moved by q.
func (p Point) Plus(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Minus is the way from q to p.
func (p Point) Minus(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Times is p stretched by k from the origin.
func (p Point) Times(k float64) Point {
	return Point{p.X * unit.Length(k), p.Y * unit.Length(k)}
}

// Distance between two points, within 1 ulp of the coordinates' difference.
func (p Point) Distance(q Point) unit.Length {
	return unit.Length(math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)))
}

// Toward is the point at distance d from p in the direction a.
func (p Point) Toward(a unit.Angle, d unit.Length) Point {
	s, c := math.Sincos(float64(a))
	return Point{p.X + d*unit.Length(c), p.Y + d*unit.Length(s)}
}

// Length of the line.
func (l Line) Length() unit.Length { return l.From.Distance(l.To) }

// Direction of the line, in (−π, π]; 0 for a line without length.
func (l Line) Direction() unit.Angle {
	return unit.Angle(math.Atan2(float64(l.To.Y-l.From.Y), float64(l.To.X-l.From.X)))
}

// At is the point a share t of the way along.
func (l Line) At(t float64) Point { return l.From.Plus(l.To.Minus(l.From).Times(t)) }

// At is the point of the arc a share t of the way through its sweep.
func (a Arc) At(t float64) Point {
	return a.Centre.Toward(a.Start+unit.Angle(t)*a.Sweep, a.Radius)
}

// Bounds is the smallest upright rectangle round the arc.
func (a Arc) Bounds() Rect {
	r := RectOf(a.At(0), a.At(1))
	for q := unit.Angle(0); q < 4; q++ {
		if d := q * unit.Turn / 4; a.Spans(d) {
			r = r.Join(RectOf(a.Centre.Toward(d, a.Radius)))
		}
	}
	return r
}

// Spans says whether the direction d from the centre meets the arc, ends included.
func (a Arc) Spans(d unit.Angle) bool {
	start, sweep := float64(a.Start), float64(a.Sweep)
	if sweep < 0 {
		start, sweep = start+sweep, -sweep
	}
	const full = 2 * math.Pi
	if sweep >= full {
		return true
	}
	x := math.Mod(float64(d)-start, full)
	if x < 0 {
		x += full
	}
	return x <= sweep
}

// RectOf is the smallest upright rectangle round the points, of which there is at least one.
func RectOf(first Point, more ...Point) Rect {
	r := Rect{first, first}
	for _, p := range more {
		r.Min.X, r.Min.Y = min(r.Min.X, p.X), min(r.Min.Y, p.Y)
		r.Max.X, r.Max.Y = max(r.Max.X, p.X), max(r.Max.Y, p.Y)
	}
	return r
}

// Join is the smallest upright rectangle round both.
func (r Rect) Join(s Rect) Rect { return RectOf(r.Min, r.Max, s.Min, s.Max) }

// Grow moves every edge outward by d (inward where negative).
func (r Rect) Grow(d unit.Length) Rect {
	return Rect{Point{r.Min.X - d, r.Min.Y - d}, Point{r.Max.X + d, r.Max.Y + d}}
}

// Width is the extent in x, Height in y.
func (r Rect) Width() unit.Length  { return r.Max.X - r.Min.X }
func (r Rect) Height() unit.Length { return r.Max.Y - r.Min.Y }

// Centre of the rectangle.
func (r Rect) Centre() Point { return Line{r.Min, r.Max}.At(0.5) }

// Has says whether p lies in the closed rectangle.
func (r Rect) Has(p Point) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Meets says whether the closed rectangles share a point.
func (r Rect) Meets(s Rect) bool {
	return r.Min.X <= s.Max.X && s.Min.X <= r.Max.X && r.Min.Y <= s.Max.Y && s.Min.Y <= r.Max.Y
}

// Apply moves a point.
func (m Placement) Apply(p Point) Point {
	s, c := math.Sincos(float64(m.Turn))
	x, y := float64(p.X), float64(p.Y)
	return Point{unit.Length(c*x-s*y) + m.Shift.X, unit.Length(s*x+c*y) + m.Shift.Y}
}

// Line moves a line.
func (m Placement) Line(l Line) Line { return Line{m.Apply(l.From), m.Apply(l.To)} }

// Arc moves an arc.
func (m Placement) Arc(a Arc) Arc {
	a.Centre, a.Start = m.Apply(a.Centre), a.Start+m.Turn
	return a
}

// Polygon moves a polygon.
func (m Placement) Polygon(p Polygon) Polygon {
	q := make(Polygon, len(p))
	for i := range p {
		q[i] = m.Apply(p[i])
	}
	return q
}

// Bounds is the smallest upright rectangle round the polygon.
func (p Polygon) Bounds() Rect { return RectOf(p[0], p[1:]...) }

// Edge i runs from corner i to the next one round.
func (p Polygon) Edge(i int) Line { return Line{p[i], p[(i+1)%len(p)]} }

// Vector is a place or a way in the plane as bare numbers, in mm, for reckoning: where
// lengths are multiplied they are lengths no more.
type Vector struct{ X, Y float64 }

// VectorOf is the way from the origin to p.
func VectorOf(p Point) Vector { return Vector{float64(p.X), float64(p.Y)} }

// Point is the place at the end of the way from the origin.
func (p Vector) Point() Point { return Point{X: unit.Length(p.X), Y: unit.Length(p.Y)} }

func (p Vector) Plus(q Vector) Vector   { return Vector{p.X + q.X, p.Y + q.Y} }
func (p Vector) Minus(q Vector) Vector  { return Vector{p.X - q.X, p.Y - q.Y} }
func (p Vector) Times(k float64) Vector { return Vector{p.X * k, p.Y * k} }
func (p Vector) Dot(q Vector) float64   { return p.X*q.X + p.Y*q.Y }

// Cross is positive where q lies to the left of p.
func (p Vector) Cross(q Vector) float64 { return p.X*q.Y - p.Y*q.X }

// FineCross is Cross within 1.5 ulp, also where both products are nearly equal
// (W. Kahan's way with a fused multiply and add): at a needle's corner it is all that
// is known of the angle.
func (p Vector) FineCross(q Vector) float64 {
	w := p.Y * q.X
	return math.FMA(p.X, q.Y, -w) + math.FMA(-p.Y, q.X, w)
}

// Size is the length of the way, without overflow.
func (p Vector) Size() float64 { return math.Hypot(p.X, p.Y) }

// Left is the way turned by a quarter to the left, exactly.
func (p Vector) Left() Vector { return Vector{-p.Y, p.X} }

// Right is the way turned by a quarter to the right, exactly: outward of a side, where
// the outline runs counter-clockwise.
func (p Vector) Right() Vector { return Vector{p.Y, -p.X} }

// Turned is the way turned to the left by a.
func (p Vector) Turned(a unit.Angle) Vector {
	s, c := math.Sincos(float64(a))
	return Vector{c*p.X - s*p.Y, s*p.X + c*p.Y}
}

// Unit is the way of size 1 in the same direction; p is not zero.
func (p Vector) Unit() Vector { return p.Times(1 / p.Size()) }

// To is the distance from p to q.
func (p Vector) To(q Vector) float64 { return q.Minus(p).Size() }

// Side is twice the area of the triangle a, b, p: positive where p lies to the left of
// the way from a to b.
func Side(a, b, p Vector) float64 { return b.Minus(a).Cross(p.Minus(a)) }

// IsLeft says whether p lies to the left of the way from a to b.
func IsLeft(a, b, p Vector) bool { return Side(a, b, p) > 0 }
