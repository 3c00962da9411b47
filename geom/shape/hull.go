package shape

import (
	"cmp"
	"slices"

	"trammel/geom"
)

// hull is the convex hull, counter-clockwise (A. M. Andrew, Another Efficient
// Algorithm for Convex Hulls in Two Dimensions, 1979).
func hull(points []geom.Point) geom.Polygon {
	points = slices.Clone(points)
	slices.SortFunc(points, func(p, q geom.Point) int {
		return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
	})
	var h geom.Polygon
	half := func(least int, p geom.Point) {
		for n := len(h); n >= least && geom.VectorOf(h[n-1].Minus(h[n-2])).FineCross(geom.VectorOf(p.Minus(h[n-1]))) <= 0; n-- {
			h = h[:n-1]
		}
		h = append(h, p)
	}
	for _, p := range points {
		half(2, p)
	}
	below := len(h) + 1
	for _, p := range slices.Backward(points[:len(points)-1]) {
		half(below, p)
	}
	return h[:len(h)-1]
}
