package geom

import (
	"math"

	"trammel/geom/unit"
)

// Segment is one run of a contour: a Line or an Arc, nothing else.
type Segment interface {
	// At is the point a share t of the way along.
	At(t float64) Point
	Length() unit.Length
	Bounds() Rect
	segment()
}

func (Line) segment() {}
func (Arc) segment()  {}

// Bounds is the smallest upright rectangle round the line.
func (l Line) Bounds() Rect { return RectOf(l.From, l.To) }

// Length of the arc along its curve.
func (a Arc) Length() unit.Length {
	return a.Radius * unit.Length(math.Abs(float64(a.Sweep)))
}

// Contour is a closed line of straight runs and arcs, once round
// counter-clockwise: each run starts where the one before it ends, to the
// rounding of float64, and the first where the last ends. It never crosses itself.
type Contour []Segment

// Contour of the polygon, its edges in order.
func (p Polygon) Contour() Contour {
	c := make(Contour, len(p))
	for i := range p {
		c[i] = p.Edge(i)
	}
	return c
}

// Length once round.
func (c Contour) Length() unit.Length {
	var sum unit.Length
	for _, s := range c {
		sum += s.Length()
	}
	return sum
}

// Bounds is the smallest upright rectangle round the contour.
func (c Contour) Bounds() Rect {
	r := c[0].Bounds()
	for _, s := range c[1:] {
		r = r.Join(s.Bounds())
	}
	return r
}

// Area inside, by Green's theorem: the polygon of the chords, and between each
// arc and its chord r²/2·(sweep − sin sweep). Within a few ulp of the area of the
// bounds.
func (c Contour) Area() unit.Area {
	if len(c) == 0 {
		return 0
	}
	o := c[0].At(0) // near by, so that a place far from the origin costs nothing
	var twice float64
	for _, s := range c {
		p, q := s.At(0).Minus(o), s.At(1).Minus(o)
		twice += float64(p.X*q.Y - p.Y*q.X)
		if a, ok := s.(Arc); ok {
			r, w := float64(a.Radius), float64(a.Sweep)
			twice += r * r * (w - math.Sin(w))
		}
	}
	return unit.Area(twice / 2)
}

// Has says whether p lies inside; on the contour itself it may say either.
func (c Contour) Has(p Point) bool {
	in := false
	for _, s := range c {
		from, to := s.At(0), s.At(1)
		// The polygon of the chords, by the crossings of a ray to the right …
		if passes(from, to, p) {
			in = !in
		}
		// … and each place between an arc and its chord the other way round.
		if a, ok := s.(Arc); ok && a.behindChord(p, from, to) {
			in = !in
		}
	}
	return in
}

// behindChord says whether p lies between the arc and its chord.
func (a Arc) behindChord(p, from, to Point) bool {
	if p.Distance(a.Centre) >= a.Radius {
		return false
	}
	if math.Abs(float64(a.Sweep)) >= 2*math.Pi {
		return true
	}
	return IsLeft(VectorOf(from), VectorOf(to), VectorOf(p)) == (a.Sweep < 0)
}

// Distance from p to the nearest place of the contour, inside or out.
func (c Contour) Distance(p Point) unit.Length {
	_, d := c.Nearest(p)
	return d
}

// Nearest is the segment that is nearest to p, and how far it is.
func (c Contour) Nearest(p Point) (segment int, d unit.Length) {
	d = unit.Length(math.Inf(1))
	for i, s := range c {
		var far unit.Length
		switch s := s.(type) {
		case Line:
			far = s.Distance(p)
		case Arc:
			far = s.distance(p)
		}
		if far < d {
			segment, d = i, far
		}
	}
	return segment, d
}

// Distance from p to the nearest place of the line.
func (l Line) Distance(p Point) unit.Length { return p.Distance(l.Nearest(p)) }

// distance from p to the nearest place of the arc.
func (a Arc) distance(p Point) unit.Length {
	if l := (Line{a.Centre, p}); l.From != l.To && a.Spans(l.Direction()) {
		return unit.Length(math.Abs(float64(p.Distance(a.Centre) - a.Radius)))
	}
	return min(p.Distance(a.At(0)), p.Distance(a.At(1)))
}

// Contour moves a contour.
func (m Placement) Contour(c Contour) Contour {
	moved := make(Contour, len(c))
	for i, s := range c {
		switch s := s.(type) {
		case Line:
			moved[i] = m.Line(s)
		case Arc:
			moved[i] = m.Arc(s)
		}
	}
	return moved
}

// Mirror is a plane turned over: about the line that crosses Base square in its
// middle, so that the ends of Base change places.
type Mirror struct{ Base Line }

// Apply turns over a point. Two times gives the point back within 4 ulp of the
// coordinates.
func (m Mirror) Apply(p Point) Point {
	way, mid := m.Base.To.Minus(m.Base.From), m.Base.At(0.5)
	if way.Y == 0 { // the usual baseline: nothing but x changes
		return Point{m.Base.From.X + m.Base.To.X - p.X, p.Y}
	}
	long := m.Base.Length()
	u := Point{way.X / long, way.Y / long}
	d := p.Minus(mid)
	k := -2 * float64(d.X*u.X+d.Y*u.Y)
	return p.Plus(u.Times(k))
}

// Around is a polygon round the contour, nowhere more than sag outside it and
// nowhere inside: tangents of the arcs that bulge out, chords of those that bulge
// in. What must hold every point of a piece can hold this.
func (c Contour) Around(sag unit.Length) Polygon {
	var p Polygon
	add := func(q Point) {
		if len(p) == 0 || p[len(p)-1] != q {
			p = append(p, q)
		}
	}
	for _, s := range c {
		a, ok := s.(Arc)
		if !ok {
			add(s.At(0))
			continue
		}
		turn := math.Abs(float64(a.Sweep))
		// A tangent lies r·(sec − 1) outside at the middle of its part, a chord
		// r·(1 − cos) inside: the first is the larger.
		const widest = math.Pi / 3 // tangents that meet flatter than this never run far out
		half := min(math.Acos(1/(1+float64(sag/a.Radius))), widest)
		n := max(1, int(math.Ceil(turn/(2*half))))
		half = turn / float64(2*n)
		add(a.At(0))
		if a.Sweep < 0 {
			for i := 1; i < n; i++ {
				add(a.At(float64(i) / float64(n)))
			}
			continue
		}
		far := a
		far.Radius = a.Radius / unit.Length(math.Cos(half))
		for i := range n {
			add(far.At((float64(i) + 0.5) / float64(n)))
		}
	}
	if n := len(p); n > 1 && p[0] == p[n-1] {
		p = p[:n-1]
	}
	return p
}

// Crossing finds two edges of a polygon, i before j, that cross or touch, but for
// neighbours where they join; and neighbours that run back on one another.
func (p Polygon) Crossing() (i, j int, found bool) {
	n := len(p)
	for i := range n {
		a := p.Edge(i)
		for j := i + 1; j < n; j++ {
			b := p.Edge(j)
			shared := meet
			if j == i+1 || i == 0 && j == n-1 {
				shared = back
			}
			if shared(a, b) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// back says whether of two lines, one of which begins where the other ends, the
// second runs back along the first.
func back(a, b Line) bool {
	v, w := VectorOf(a.To.Minus(a.From)), VectorOf(b.To.Minus(b.From))
	return math.Abs(v.Cross(w)) <= 1e-12*float64(a.Length()*b.Length()) && v.Dot(w) < 0
}

// meet says whether two lines share a point.
func meet(a, b Line) bool {
	side := func(l Line, q Point) float64 { return Side(VectorOf(l.From), VectorOf(l.To), VectorOf(q)) }
	return a.Bounds().Meets(b.Bounds()) && side(a, b.From)*side(a, b.To) <= 0 && side(b, a.From)*side(b, a.To) <= 0
}
