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
	square     unit.Length = 1.5
	mostSquare             = 60000
)

// level makes a ground for a page, all free, in the memory of the last one.
func (g *ground) level(r geom.Rect) {
	step := max(square, unit.Length(math.Sqrt(float64(r.Width()*r.Height())/mostSquare)))
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

// free says whether nothing is taken within a rectangle, of which what lies off
// the page does not count.
func (g *ground) free(r geom.Rect) bool {
	x0, y0 := max(0, int((r.Min.X-g.rect.Min.X)/g.step)), max(0, int((r.Min.Y-g.rect.Min.Y)/g.step))
	x1, y1 := min(g.nx, int((r.Max.X-g.rect.Min.X)/g.step)+1), min(g.ny, int((r.Max.Y-g.rect.Min.Y)/g.step)+1)
	if x0 >= x1 || y0 >= y1 {
		return true
	}
	w := g.nx + 1
	return g.sum[y1*w+x1]-g.sum[y0*w+x1]-g.sum[y1*w+x0]+g.sum[y0*w+x0] == 0
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

// spot looks for a place for a block, in rows from the bottom (or top), each from
// the left (or right), that accept agrees to.
func (g *ground) spot(b block, room unit.Length, within geom.Rect, accept func(geom.Point) bool) (geom.Point, bool) {
	box := b.rects[0]
	for _, r := range b.rects[1:] {
		box = box.Join(r)
	}
	lo, hi := within.Min.Minus(box.Min), within.Max.Minus(box.Max)
	if lo.X > hi.X || lo.Y > hi.Y {
		return geom.Point{}, false
	}
	nx, ny := int((hi.X-lo.X)/g.step), int((hi.Y-lo.Y)/g.step)
	for j := 0; j <= ny; j++ {
		y := lo.Y + unit.Length(j)*g.step
		if b.top {
			y = hi.Y - unit.Length(j)*g.step
		}
		for i := 0; i <= nx; i++ {
			x := lo.X + unit.Length(i)*g.step
			if b.right {
				x = hi.X - unit.Length(i)*g.step
			}
			if p := (geom.Point{X: x, Y: y}); g.fits(b, p, room, within) && (accept == nil || accept(p)) {
				return p, true
			}
		}
	}
	return geom.Point{}, false
}
