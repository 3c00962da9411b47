package place

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// FreeGrid is which places of an area are taken, in small squares, so that thousands
// of positions can be tried for a block. A square counts as taken where anything
// comes into it, so a block that the grid says is free is free.
type FreeGrid struct {
	area   geom.Rect
	step   unit.Length
	nx, ny int
	taken  []bool
	sum    []int32 // of taken squares below and left of each corner
	x0, y0 int     // squares left of x0 and below y0 are as they were counted
}

// Level makes a grid of an area in squares of a size, all free, in the memory of the
// last one.
func (g *FreeGrid) Level(area geom.Rect, step unit.Length) {
	const hair = 1e-9
	n := func(l unit.Length) int { return int(math.Ceil(float64(l/step) - hair)) }
	if nx, ny := n(area.Width()), n(area.Height()); g.nx != nx || g.ny != ny {
		*g = FreeGrid{nx: nx, ny: ny, taken: make([]bool, nx*ny), sum: make([]int32, (nx+1)*(ny+1))}
	}
	g.area, g.step, g.x0, g.y0 = area, step, 0, 0
	clear(g.taken)
}

// Mark takes the squares that meet a rectangle and for which is returns true.
func (g *FreeGrid) Mark(r geom.Rect, is func(square geom.Rect) bool) {
	n := func(l unit.Length) int { return int(math.Floor(float64(l / g.step))) }
	for j := max(0, n(r.Min.Y-g.area.Min.Y)); j <= min(g.ny-1, n(r.Max.Y-g.area.Min.Y)); j++ {
		for i := max(0, n(r.Min.X-g.area.Min.X)); i <= min(g.nx-1, n(r.Max.X-g.area.Min.X)); i++ {
			if at := j*g.nx + i; !g.taken[at] && is(g.square(i, j)) {
				g.taken[at] = true
				g.x0, g.y0 = min(g.x0, i), min(g.y0, j)
			}
		}
	}
}

// Take takes the squares that a convex shape with a pad about it comes into; a shape of
// two points is a line.
func (g *FreeGrid) Take(shape []geom.Point, pad unit.Length) {
	box := geom.RectOf(shape[0], shape...)
	edges := len(shape)
	if edges == 2 {
		edges = 1
	}
	first := max(0, int((box.Min.Y-pad-g.area.Min.Y)/g.step))
	last := min(g.ny-1, int((box.Max.Y+pad-g.area.Min.Y)/g.step))
	for row := first; row <= last; row++ {
		y0 := g.area.Min.Y + unit.Length(row)*g.step - pad
		y1 := y0 + g.step + 2*pad
		x0, x1 := unit.Length(math.Inf(1)), unit.Length(math.Inf(-1))
		for i := range edges {
			a, b := shape[i], shape[(i+1)%len(shape)]
			if a.Y > b.Y {
				a, b = b, a
			}
			if a.Y > y1 || b.Y < y0 {
				continue
			}
			from, to := a.X, b.X
			if a.Y < y0 {
				from = a.X + (b.X-a.X)*((y0-a.Y)/(b.Y-a.Y))
			}
			if b.Y > y1 {
				to = a.X + (b.X-a.X)*((y1-a.Y)/(b.Y-a.Y))
			}
			x0, x1 = min(x0, from, to), max(x1, from, to)
		}
		if x0 > x1 {
			continue
		}
		i := max(0, int(math.Floor(float64((x0-pad-g.area.Min.X)/g.step))))
		j := min(g.nx-1, int(math.Floor(float64((x1+pad-g.area.Min.X)/g.step))))
		if i <= j {
			g.x0, g.y0 = min(g.x0, i), min(g.y0, row)
		}
		for ; i <= j; i++ {
			g.taken[row*g.nx+i] = true
		}
	}
}

// Count adds up what is taken since it was counted last; free can be asked after that.
func (g *FreeGrid) Count() {
	w, x0 := g.nx+1, g.x0
	for j := g.y0; j < g.ny; j++ {
		above, here := g.sum[j*w+x0:(j+1)*w], g.sum[(j+1)*w+x0:(j+2)*w]
		row := here[0] - above[0]
		above, here = above[1:], here[1:]
		for i, t := range g.taken[j*g.nx+x0 : (j+1)*g.nx] {
			if t {
				row++
			}
			here[i] = above[i] + row
		}
	}
	g.x0, g.y0 = g.nx, g.ny
}

// Block is something to be placed as one: the rectangles it needs clear and what
// it draws, both about an origin of its own.
type Block struct {
	Rects []geom.Rect
	Ops   draw.Drawing
	Right bool // look for a place from the right
	Top   bool // look for a place from the top
}

// Fits says whether a block with its origin at p lies within the bounds and
// keeps its room.
func (g *FreeGrid) Fits(b Block, p geom.Point, room unit.Length, within geom.Rect) bool {
	for _, r := range b.Rects {
		r := r.Shift(p)
		if !within.Holds(r) || g.blocked(g.cells(r.Grow(room))) > 0 {
			return false
		}
	}
	return true
}

// cells is a rectangle in squares: those from x0 and y0 up to before x1 and y1.
type cells struct{ x0, y0, x1, y1 int }

// cells is the squares that a rectangle comes into, on the page or off it.
func (g *FreeGrid) cells(r geom.Rect) cells {
	const hair = 1e-9 // so that rounding takes a square too many, never one too few
	at := func(d unit.Length) int { return int(math.Floor(float64(d / g.step))) }
	return cells{
		at(r.Min.X - g.area.Min.X - hair), at(r.Min.Y - g.area.Min.Y - hair),
		at(r.Max.X-g.area.Min.X+hair) + 1, at(r.Max.Y-g.area.Min.Y+hair) + 1}
}

// blocked is how many squares of a rectangle are taken; what lies off the page does not count.
func (g *FreeGrid) blocked(c cells) int32 {
	x0, y0, x1, y1 := max(0, c.x0), max(0, c.y0), min(g.nx, c.x1), min(g.ny, c.y1)
	if x0 >= x1 || y0 >= y1 {
		return 0
	}
	w := g.nx + 1
	return g.sum[y1*w+x1] - g.sum[y0*w+x1] - g.sum[y1*w+x0] + g.sum[y0*w+x0]
}

// Spot looks for a place for a block, in rows from the bottom (or top), each from
// the left (or right), that accept agrees to. Where it does not, it is not asked
// again about places that the block could be slid to along the row, and the next
// looked at is as far on as the first rectangle is wide: nothing slips between.
func (g *FreeGrid) Spot(b Block, room unit.Length, within geom.Rect, accept func(geom.Point) bool) (geom.Point, bool) {
	box := b.Rects[0]
	for _, r := range b.Rects[1:] {
		box = box.Join(r)
	}
	lo, hi := within.Min.Minus(box.Min), within.Max.Minus(box.Max)
	if lo.X > hi.X || lo.Y > hi.Y {
		return geom.Point{}, false
	}
	// One step along is one square, so that the squares under the block are
	// worked out once.
	from, dx, dy := lo, 1, 1
	if b.Right {
		from.X, dx = hi.X, -1
	}
	if b.Top {
		from.Y, dy = hi.Y, -1
	}
	var under []cells
	for _, r := range b.Rects {
		under = append(under, g.cells(r.Shift(from).Grow(room)))
	}
	nx, ny := int((hi.X-lo.X)/g.step), int((hi.Y-lo.Y)/g.step)
	for j := 0; j <= ny; j++ {
		refused := false
	row:
		for i := 0; i <= nx; {
			for _, c := range under {
				c = cells{c.x0 + dx*i, c.y0 + dy*j, c.x1 + dx*i, c.y1 + dy*j}
				if g.blocked(c) > 0 {
					i += g.past(c, dx)
					refused = false
					continue row
				}
			}
			p := geom.Point{X: from.X + unit.Length(dx*i)*g.step, Y: from.Y + unit.Length(dy*j)*g.step}
			if !refused && (accept == nil || accept(p)) {
				return p, true
			}
			refused = true
			i += under[0].x1 - under[0].x0
		}
	}
	return geom.Point{}, false
}

// past is how many squares a blocked rectangle must be moved along to have what
// blocks it behind.
func (g *FreeGrid) past(c cells, dx int) int {
	lo, hi := 1, c.x1-c.x0 // hi is enough; halve towards the least that is
	for lo < hi {
		mid := (lo + hi) / 2
		rest := c
		if dx > 0 {
			rest.x0 += mid
		} else {
			rest.x1 -= mid
		}
		if g.blocked(rest) == 0 {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
}

func (g *FreeGrid) square(i, j int) geom.Rect {
	at := g.area.Min.Plus(geom.Point{X: unit.Length(i) * g.step, Y: unit.Length(j) * g.step})
	return geom.Rect{Min: at, Max: at.Plus(geom.Point{X: g.step, Y: g.step})}
}
