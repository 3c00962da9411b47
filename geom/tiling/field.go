package tiling

import "math"

// field is the region in coarse squares, so that a tile that no edge touches is known
// at once for whole or outside.
type field struct {
	low     vec
	step    float64
	nx, ny  int
	in      []bool  // of squares without an edge
	touched []int32 // sums over the squares below and to the left: how many an edge touches
}

// where a tile lies.
type where int

const (
	outside where = iota
	within
	across
)

// fieldOf lays squares over a region, fine enough for tiles of a side.
func fieldOf(r Region, side float64) *field {
	b := r.bounds().grown(1, 1)
	step := max(side/5, math.Sqrt(b.area()/60000))
	f := &field{low: b.min, step: step, nx: int(b.width()/step) + 1, ny: int(b.height()/step) + 1}
	touched := make([]bool, f.nx*f.ny)
	for _, ring := range r.rings {
		for i, q := range ring {
			f.touch(touched, ring[(i+len(ring)-1)%len(ring)], q)
		}
	}
	f.in = make([]bool, f.nx*f.ny)
	c := newClipper(r)
	for y := range f.ny {
		for x := range f.nx {
			k := y*f.nx + x
			switch {
			case touched[k]:
			case x > 0 && !touched[k-1]:
				f.in[k] = f.in[k-1]
			default:
				f.in[k] = c.holds(vec{X: f.low.X + (float64(x)+0.5)*step, Y: f.low.Y + (float64(y)+0.5)*step})
			}
		}
	}
	f.sum(touched)
	return f
}

// touch marks the squares along an edge, and those that rounding might have meant.
func (f *field) touch(touched []bool, p, q vec) {
	const near = 1e-3
	if p.Y > q.Y {
		p, q = q, p
	}
	for y := f.cell(p.Y-near-f.low.Y, f.ny); y <= f.cell(q.Y+near-f.low.Y, f.ny); y++ {
		low, high := p.X, q.X
		if q.Y-p.Y > near {
			at := func(level float64) float64 {
				return p.X + (q.X-p.X)*min(max((level-p.Y)/(q.Y-p.Y), 0), 1)
			}
			low, high = at(f.low.Y+float64(y)*f.step-near), at(f.low.Y+float64(y+1)*f.step+near)
		}
		low, high = min(low, high), max(low, high)
		for x := f.cell(low-near-f.low.X, f.nx); x <= f.cell(high+near-f.low.X, f.nx); x++ {
			touched[y*f.nx+x] = true
		}
	}
}

func (f *field) cell(d float64, n int) int { return min(max(int(d/f.step), 0), n-1) }

func (f *field) sum(touched []bool) {
	f.touched = make([]int32, (f.nx+1)*(f.ny+1))
	for y := range f.ny {
		for x := range f.nx {
			k := (y+1)*(f.nx+1) + x + 1
			f.touched[k] = f.touched[k-1] + f.touched[k-f.nx-1] - f.touched[k-f.nx-2]
			if touched[y*f.nx+x] {
				f.touched[k]++
			}
		}
	}
}

// of says where a box lies; across means that its squares do not tell.
func (f *field) of(b box) where {
	if b.min.X < f.low.X || b.min.Y < f.low.Y || b.max.X > f.low.X+float64(f.nx)*f.step || b.max.Y > f.low.Y+float64(f.ny)*f.step {
		return across
	}
	x0, x1 := f.cell(b.min.X-f.low.X, f.nx), f.cell(b.max.X-f.low.X, f.nx)
	y0, y1 := f.cell(b.min.Y-f.low.Y, f.ny), f.cell(b.max.Y-f.low.Y, f.ny)
	w := f.nx + 1
	switch {
	case f.touched[(y1+1)*w+x1+1]-f.touched[y0*w+x1+1]-f.touched[(y1+1)*w+x0]+f.touched[y0*w+x0] > 0:
		return across
	case f.in[y0*f.nx+x0]:
		return within
	}
	return outside
}
