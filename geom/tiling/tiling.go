// Package tiling finds where the first tile of a floor goes: what is whole, what is
// cut and how, how many tiles that takes, and which start is best, with a proof.
//
// A floor is a ring with openings; less the gap along each wall it is the Region that
// is tiled. A Grid says how tiles of one size lie to one another; a shift puts its
// tile (0,0) somewhere. All reckoning is float64 in mm, in the frame of the grid: the
// floor turned back by the grid's angle about the origin.
//
// # What is cut and how wide
//
// A tile is whole where all of it but Slack all round lies in the region. Of any other
// tile each connected part is a piece of its own, if it is wider than Slack; a smaller
// part is dropped: it is left to the gap. The width of a piece is its caliper, the
// least distance of two parallel lines that hold it, or its neck where that is less:
// from a corner that points inward to an edge across, inside the piece and at least
// 45° off both sides of the corner.
//
// # What is best
//
// Three layouts, none of which is best in all: balanced (a joint or the middle of a
// tile on the middle line), widest (the narrowest cut as wide as it can be) and fewest
// cuts. Pieces under a quarter of a tile come first in each. Widths count in classes,
// so that a millimetre never costs a row of cuts.
//
// # The proof
//
// Shifts are searched by branch and bound on a lattice of Slack. In a box of shifts
// each tile lies between the tile shrunk and the tile grown by half of the box, and
// width and area grow with what holds them: so what is in the grown one bounds
// widths from above, what is in the shrunk one areas and counts from below. A search that ends
// within its effort has shown that no shift of the lattice and no exact start (flush
// with a wall, balanced) is better. Off the lattice a width changes by no more than a
// millimetre in a millimetre.
//
// # Cutting
//
// The search cuts a rectangle out of the region with a clipper of its own: some
// 0.5 µs a tile, where the general one of geom/area takes 9. geom/area makes the
// region, and tests hold the one to the other.
//
// Files, from the top floor to the ground: best.go, numbers.go, search.go, bound.go, starts.go,
// evaluate.go, report.go, bought.go, bought_least.go, matching.go, kinds.go, fit.go, score.go, width.go, field.go,
// clip.go, grid.go, region.go, strips.go, tiling.go.
package tiling

import "trammel/geom"

// Slack is how finely a floor is set out, in mm: nothing that hangs on less is told
// from one another.
const Slack = 0.5

// lostArea is how much of a tile less Slack may lie outside a whole one, in mm²:
// rounding, and no more.
const lostArea = 1e-3

type vec = geom.Vector

// box is an upright rectangle in bare mm.
type box struct{ min, max vec }

func (b box) grown(x, y float64) box {
	return box{vec{X: b.min.X - x, Y: b.min.Y - y}, vec{X: b.max.X + x, Y: b.max.Y + y}}
}

func (b box) width() float64  { return b.max.X - b.min.X }
func (b box) height() float64 { return b.max.Y - b.min.Y }
func (b box) area() float64   { return b.width() * b.height() }
func (b box) empty() bool     { return b.width() <= 0 || b.height() <= 0 }

func (b box) meets(c box) bool {
	return b.min.X < c.max.X && c.min.X < b.max.X && b.min.Y < c.max.Y && c.min.Y < b.max.Y
}

func (b box) has(p vec) bool {
	return b.min.X < p.X && p.X < b.max.X && b.min.Y < p.Y && p.Y < b.max.Y
}

// boxOf is the smallest box round points.
func boxOf(points []vec) box {
	b := box{points[0], points[0]}
	for _, p := range points[1:] {
		b.min.X, b.min.Y = min(b.min.X, p.X), min(b.min.Y, p.Y)
		b.max.X, b.max.Y = max(b.max.X, p.X), max(b.max.Y, p.Y)
	}
	return b
}

// signed area of a ring, positive counter-clockwise.
func signed(ring []vec) float64 {
	var twice float64
	for i := 2; i < len(ring); i++ {
		twice += ring[i-1].Minus(ring[0]).Cross(ring[i].Minus(ring[0]))
	}
	return twice / 2
}
