package tiling

import (
	"math"
	"slices"
)

// starts are the exact shifts that a tiler would think of: flush with a wall that runs
// with the grid, on either side of it, or balanced on the middle lines.
func starts(r Region, g grid, m middle) []vec {
	us, vs := flush(r, g)
	bu, bv := balanced(g, m)
	us, vs = append(us, bu...), append(vs, bv...)
	var all []vec
	for _, u := range us {
		for _, v := range vs {
			all = append(all, g.normal(vec{X: u, Y: v}))
		}
	}
	return all
}

// most is how many different positions each way are taken as exact starts: a round
// room has walls without end, and each pair costs a layout.
const mostStarts = 24

// flush are the positions each way at which a tile's edge lies on a wall that runs
// with the grid to Slack; those of the longest walls first.
func flush(r Region, g grid) (us, vs []float64) {
	type wall struct{ at, long float64 }
	var upright, level []wall
	for _, ring := range r.rings {
		for i, b := range ring {
			a := ring[(i+len(ring)-1)%len(ring)]
			switch way := b.Minus(a); {
			case math.Abs(way.X) < Slack && math.Abs(way.Y) > Slack:
				upright = append(upright, wall{(a.X + b.X) / 2, math.Abs(way.Y)})
			case math.Abs(way.Y) < Slack && math.Abs(way.X) > Slack:
				level = append(level, wall{(a.Y + b.Y) / 2, math.Abs(way.X)})
			}
		}
	}
	take := func(walls []wall, sides []float64, pitch float64) (all []float64) {
		slices.SortStableFunc(walls, func(a, b wall) int {
			switch {
			case a.long > b.long+1e-6:
				return -1
			case a.long < b.long-1e-6:
				return 1
			}
			return 0
		})
		for _, w := range walls {
			for _, side := range sides {
				at := w.at - side
				same := func(b float64) bool { return math.Abs(math.Remainder(at-b, pitch)) < 1e-6 }
				if len(all) < mostStarts && !slices.ContainsFunc(all, same) {
					all = append(all, at)
				}
			}
		}
		return all
	}
	if g.pattern == Herringbone {
		far := math.Inf(1)
		return take(upright, []float64{0, g.t1, g.t2, -g.p2, g.t2 - g.p2}, far), take(level, []float64{0, g.t1, g.t2}, far)
	}
	return take(upright, []float64{0, g.t1}, g.p1), take(level, []float64{0, g.t2}, g.p2)
}

// balanced are the positions each way with a joint or a tile's middle on the middle
// line; none that way where there is no line.
func balanced(g grid, m middle) (us, vs []float64) {
	if !math.IsNaN(m.x) {
		us = []float64{m.x - g.t1/2, m.x - g.t1 - g.j/2}
	}
	if !math.IsNaN(m.y) {
		vs = []float64{m.y - g.t2/2, m.y - g.t2 - g.j/2}
	}
	return us, vs
}
