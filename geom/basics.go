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
