package plan

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// apart is the distance between two convex shapes, 0 where they overlap; a shape
// of two points is a line.
func apart(p, q geom.Polygon) unit.Length {
	if inside(p, q[0]) || inside(q, p[0]) {
		return 0
	}
	d := unit.Length(math.Inf(1))
	for i := range p[:edges(p)] {
		for j := range q[:edges(q)] {
			d = min(d, between(p.Edge(i), q.Edge(j)))
		}
	}
	return d
}

func edges(p geom.Polygon) int {
	if len(p) == 2 {
		return 1
	}
	return len(p)
}

func inside(p geom.Polygon, at geom.Point) bool {
	if len(p) < 3 {
		return false
	}
	for i := range p {
		if side(p.Edge(i), at) < 0 {
			return false
		}
	}
	return true
}

// side is twice the area of the triangle of a line and a place: positive on its left.
func side(l geom.Line, at geom.Point) float64 {
	return float64(l.To.X-l.From.X)*float64(at.Y-l.From.Y) - float64(l.To.Y-l.From.Y)*float64(at.X-l.From.X)
}

// between is the distance of two lines, 0 where they cross.
func between(a, b geom.Line) unit.Length {
	if side(a, b.From)*side(a, b.To) < 0 && side(b, a.From)*side(b, a.To) < 0 {
		return 0
	}
	return unit.Length(math.Sqrt(min(square(a, b.From), square(a, b.To), square(b, a.From), square(b, a.To))))
}

// square of the distance of a place from a line.
func square(l geom.Line, p geom.Point) float64 {
	n := nearest(l, p)
	dx, dy := float64(p.X-n.X), float64(p.Y-n.Y)
	return dx*dx + dy*dy
}

// onto is the distance of a place from a line.
func onto(l geom.Line, p geom.Point) unit.Length { return nearest(l, p).Distance(p) }

func nearest(l geom.Line, p geom.Point) geom.Point {
	dx, dy := float64(l.To.X-l.From.X), float64(l.To.Y-l.From.Y)
	n := dx*dx + dy*dy
	if n == 0 {
		return l.From
	}
	t := (float64(p.X-l.From.X)*dx + float64(p.Y-l.From.Y)*dy) / n
	return l.At(min(1, max(0, t)))
}

// nearestOn is the place on a shape's edge that is nearest to p.
func nearestOn(q geom.Polygon, p geom.Point) geom.Point {
	best := q[0]
	for i := range q {
		if n := nearest(q.Edge(i), p); n.Distance(p) < best.Distance(p) {
			best = n
		}
	}
	return best
}
