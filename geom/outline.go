package geom

import (
	"math"
	"slices"

	"trammel/geom/unit"
)

// Outline is the edge of a piece with the names of its corners and its figures,
// once round counter-clockwise; corners 0 and 1 are the ends of the baseline. It
// may be hollow and never crosses itself.
type Outline struct {
	Names  []Name
	Points Polygon
	Sides  []unit.Length // Sides[i] from corner i to the next
	Angles []unit.Angle  // inside the piece, more than half a turn at a corner that points inward
}

// OutlineOf works out the figures of a polygon, each within 2 ulp of the polygon's
// extent (an angle: of that over the shorter of its sides).
func OutlineOf(names []Name, points Polygon) Outline {
	o := Outline{Names: names, Points: points, Sides: make([]unit.Length, len(points)), Angles: make([]unit.Angle, len(points))}
	for i := range points {
		e := points.Edge(i)
		o.Sides[i] = e.Length()
		a := math.Mod(float64(Line{e.From, points[o.Before(i)]}.Direction()-e.Direction()), 2*math.Pi)
		if a < 0 {
			a += 2 * math.Pi
		}
		o.Angles[i] = unit.Angle(a)
	}
	return o
}

// Next and Before are the corners beside corner i.
func (o Outline) Next(i int) int   { return (i + 1) % len(o.Names) }
func (o Outline) Before(i int) int { return (i + len(o.Names) - 1) % len(o.Names) }

// Side is the name of the side from corner i to the next: AB.
func (o Outline) Side(i int) string { return string(o.Names[i] + o.Names[o.Next(i)]) }

// Corner is the number of the corner of a name; ok is false where there is none.
func (o Outline) Corner(n Name) (i int, ok bool) {
	i = slices.Index(o.Names, n)
	return max(i, 0), i >= 0
}

// Longest is the longest side, the first of those alike.
func (o Outline) Longest() int {
	l := 0
	for i, s := range o.Sides {
		if s > o.Sides[l]*(1+1e-12) { // alike but for rounding
			l = i
		}
	}
	return l
}

// Perimeter is the length once round.
func (o Outline) Perimeter() (sum unit.Length) {
	for _, s := range o.Sides {
		sum += s
	}
	return sum
}

// Area inside.
func (o Outline) Area() unit.Area { return o.Points.Contour().Area() }

// Hollow says whether a corner points inward.
func (o Outline) Hollow() bool {
	return slices.ContainsFunc(o.Angles, func(a unit.Angle) bool { return a > unit.Turn/2+1e-9 })
}
