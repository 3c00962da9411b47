// Package geom is the geometry of a plane: points, lines, arcs, polygons, outlines and
// what is cut out of them. It knows nobody: no paper, no files, no trades.
//
// Files, from the top floor to the ground: clip.go, affine_fit.go, affine.go,
// outline.go, contour.go, near.go, meet.go, basics.go, name.go, geom.go.
package geom

import "trammel/geom/unit"

// Point is a place in a plane, y up.
type Point struct{ X, Y unit.Length }

// Line is the straight piece between two points.
type Line struct{ From, To Point }

// Arc is a part of a circle, from Start through Sweep, counter-clockwise where
// Sweep is positive. Start is measured from the direction of x. A sweep of a
// whole turn is the whole circle.
type Arc struct {
	Centre       Point
	Radius       unit.Length
	Start, Sweep unit.Angle
}

// Rect is an upright rectangle, closed: its edges belong to it.
type Rect struct{ Min, Max Point }

// Polygon is a closed shape, its corners once round counter-clockwise; it may be
// hollow (not convex) but never crosses itself.
type Polygon []Point

// Placement moves a plane without stretching it: turn about the origin, then shift.
type Placement struct {
	Turn  unit.Angle
	Shift Point
}
