package paging

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// ground is which places of a page are taken, in small squares, so that thousands
// of positions can be tried for a block. A square counts as taken where anything
// comes into it, so a block that the ground says is free is free.
type ground struct {
	rect   geom.Rect
	step   unit.Length
	nx, ny int
	taken  []bool
	sum    []int32 // of taken squares below and left of each corner
}

// Squares are 1.5 mm, on large paper larger: at most so many of them.
const (
	square      unit.Length = 1.5
	mostSquares float64     = 60000
)

// level makes a ground for a page, all free, in the memory of the last one.
func (g *ground) level(r geom.Rect) {
	step := max(square, unit.Length(math.Sqrt(float64(r.Width()*r.Height())/mostSquares)))
	nx, ny := int(math.Ceil(float64(r.Width()/step))), int(math.Ceil(float64(r.Height()/step)))
	if g.nx != nx || g.ny != ny {
		*g = ground{nx: nx, ny: ny, taken: make([]bool, nx*ny), sum: make([]int32, (nx+1)*(ny+1))}
	}
	g.rect, g.step = r, step
	clear(g.taken)
}

// take marks the squares that a shape comes into.
func (g *ground) take(s shape, more unit.Length) {
	pad := s.pad + more
	lo, hi := s.p[0].Y, s.p[0].Y
	for _, p := range s.p[:s.n] {
		lo, hi = min(lo, p.Y), max(hi, p.Y)
	}
	first := max(0, int((lo-pad-g.rect.Min.Y)/g.step))
	last := min(g.ny-1, int((hi+pad-g.rect.Min.Y)/g.step))
	for row := first; row <= last; row++ {
		y0 := g.rect.Min.Y + unit.Length(row)*g.step - pad
		y1 := y0 + g.step + 2*pad
		x0, x1 := unit.Length(math.Inf(1)), unit.Length(math.Inf(-1))
		for i := range s.edges() {
			a, b := s.p[i], s.p[(i+1)%s.n]
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
		i := max(0, int(math.Floor(float64((x0-pad-g.rect.Min.X)/g.step))))
		j := min(g.nx-1, int(math.Floor(float64((x1+pad-g.rect.Min.X)/g.step))))
		for ; i <= j; i++ {
			g.taken[row*g.nx+i] = true
		}
	}
}

// takeRect marks the squares of a rectangle.
func (g *ground) takeRect(r geom.Rect) {
	g.take(shape{p: [4]geom.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}, n: 4}, 0)
}

// count adds up what is taken; free can be asked after that.
func (g *ground) count() {
	w := g.nx + 1
	for j := range g.ny {
		var row int32
		above, here := g.sum[j*w:(j+1)*w], g.sum[(j+1)*w:(j+2)*w]
		for i, t := range g.taken[j*g.nx : (j+1)*g.nx] {
			if t {
				row++
			}
			here[i+1] = above[i+1] + row
		}
	}
}

// block is something to be placed as one: the rectangles it needs clear and what
// it draws, both about an origin of its own.
type block struct {
	rects []geom.Rect
	ops   draw.Drawing
	right bool // look for a place from the right
	top   bool // look for a place from the top
}

// fits says whether a block with its origin at p lies within the bounds and
// keeps its room.
func (g *ground) fits(b block, p geom.Point, room unit.Length, within geom.Rect) bool {
	for _, r := range b.rects {
		r := shifted(r, p)
		if !holds(within, r) || !g.free(r.Grow(room)) {
			return false
		}
	}
	return true
}

func shifted(r geom.Rect, by geom.Point) geom.Rect {
	return geom.Rect{Min: r.Min.Plus(by), Max: r.Max.Plus(by)}
}

// cells is a rectangle in squares: those from x0 and y0 up to before x1 and y1.
type cells struct{ x0, y0, x1, y1 int }

// cells is the squares that a rectangle comes into, on the page or off it.
func (g *ground) cells(r geom.Rect) cells {
	const hair = 1e-9 // so that rounding takes a square too many, never one too few
	at := func(d unit.Length) int { return int(math.Floor(float64(d / g.step))) }
	return cells{
		at(r.Min.X - g.rect.Min.X - hair), at(r.Min.Y - g.rect.Min.Y - hair),
		at(r.Max.X-g.rect.Min.X+hair) + 1, at(r.Max.Y-g.rect.Min.Y+hair) + 1}
}

// blocked is how many squares of a rectangle are taken.
func (g *ground) blocked(c cells) int32 {
	x0, y0, x1, y1 := max(0, c.x0), max(0, c.y0), min(g.nx, c.x1), min(g.ny, c.y1)
	if x0 >= x1 || y0 >= y1 {
		return 0
	}
	w := g.nx + 1
	return g.sum[y1*w+x1] - g.sum[y0*w+x1] - g.sum[y1*w+x0] + g.sum[y0*w+x0]
}

// free says whether nothing is taken within a rectangle, of which what lies off
// the page does not count.
func (g *ground) free(r geom.Rect) bool { return g.blocked(g.cells(r)) == 0 }

// spot looks for a place for a block, in rows from the bottom (or top), each from
// the left (or right), that accept agrees to. Where it does not, it is not asked
// again about places that the block could be slid to along the row, and the next
// looked at is as far on as the first rectangle is wide: nothing slips between.
func (g *ground) spot(b block, room unit.Length, within geom.Rect, accept func(geom.Point) bool) (geom.Point, bool) {
	box := b.rects[0]
	for _, r := range b.rects[1:] {
		box = box.Join(r)
	}
	lo, hi := within.Min.Minus(box.Min), within.Max.Minus(box.Max)
	if lo.X > hi.X || lo.Y > hi.Y {
		return geom.Point{}, false
	}
	// One step along is one square, so that the squares under the block are
	// worked out once.
	from, dx, dy := lo, 1, 1
	if b.right {
		from.X, dx = hi.X, -1
	}
	if b.top {
		from.Y, dy = hi.Y, -1
	}
	var under [4]cells
	n := copy(under[:], g.under(b, from, room))
	nx, ny := int((hi.X-lo.X)/g.step), int((hi.Y-lo.Y)/g.step)
	for j := 0; j <= ny; j++ {
		refused := false
	row:
		for i := 0; i <= nx; {
			for _, c := range under[:n] {
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

// under is the squares under a block.
func (g *ground) under(b block, p geom.Point, room unit.Length) (all []cells) {
	for _, r := range b.rects {
		all = append(all, g.cells(shifted(r, p).Grow(room)))
	}
	return all
}

// past is how many squares a blocked rectangle must be moved along to have what
// blocks it behind.
func (g *ground) past(c cells, dx int) int {
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
