package paging

import "trammel/geom"

// The border lines of all windows cut the plane into spots: cores, which one page
// shows, strips, which two side neighbours show, and the corner squares where
// strips cross, which four show. All that counts for cover and walk is through
// which spots the outline goes, in order.

// spot is one of them: in x number 2i is the core of column i, 2i − 1 the strip
// that columns i − 1 and i show; in y alike.
type spot struct{ x, y int32 }

func (s spot) core() bool { return (s.x|s.y)&1 == 0 }

// pages is those that show the spot: from column i and row j, ni columns and nj rows.
func (s spot) pages() (i, j, ni, nj int) {
	return int(s.x >> 1), int(s.y >> 1), int(s.x&1) + 1, int(s.y&1) + 1
}

// showing is those with their numbers in the square of four: di + 2·dj.
func (s spot) showing(yield func(bit int, n page) bool) {
	i, j, ni, nj := s.pages()
	for b := range 4 {
		if b&1 < ni && b>>1 < nj && !yield(b, page{i + b&1, j + b>>1}) {
			return
		}
	}
}

// walker finds few pages for one placement. It keeps its memory between placements.
type walker struct {
	g       grid
	cover   Cover
	spots   []spot  // once round; the first is a core where there is one
	corners []int   // numbers of the spots that corners of the piece lie in
	cores   int     // how many spots are cores, repeats counted
	needed  pageSet // pages whose core the outline meets
	inner   int     // pages needed whose core lies inside the piece (Full)
	rows    [][]int // Full: for each row the columns before whose middle the outline crosses
	i0, i1  int     // columns of use
	j0, j1  int     // rows of use

	taken pageSet // pages taken besides, and those tried
	tried []page
	pack  pageSet // pages that are counted for parts of the outline
	uses  []int   // for how many parts each of pack may serve
	once  pageSet
	last  []int // the spot at which each page of once was met last
	steps []step
	work  int // spots gone through, for the one who counts
	cost  int // what all of it takes, in steps of about 10 ns
}

// trace lists the spots along the outline and what is needed at any rate: the
// pages whose core the outline or, with Full, the piece meets. Windows are grown
// by dx and dy. It says false where that makes three windows show one point.
//
// A page beyond the first or last row or column of use shows nothing that its
// neighbour on the inside does not show as well, so it is never better: spots
// are moved inside accordingly.
func (w *walker) trace(p []geom.Vector, dx, dy float64) bool {
	g := w.g
	dx, dy = dx+grow, dy+grow
	g.u, g.v = g.u+2*dx, g.v+2*dy
	if g.u >= g.p || g.v >= g.q {
		return false
	}
	lo, hi := extent(p)
	w.i0, w.i1 = inUse(lo.X+dx, hi.X+dx, g.p, g.u)
	w.j0, w.j1 = inUse(lo.Y+dy, hi.Y+dy, g.q, g.v)
	w.spots, w.corners, w.cores, w.inner = w.spots[:0], w.corners[:0], 0, 0
	w.needed.clear()
	full := w.cover == Full
	if full {
		for len(w.rows) < w.j1-w.j0+1 {
			w.rows = append(w.rows, nil)
		}
		for j := range w.rows {
			w.rows[j] = w.rows[j][:0]
		}
	}
	last := p[len(p)-1]
	a := geom.Vector{X: last.X + dx, Y: last.Y + dy}
	for _, b := range p {
		b = geom.Vector{X: b.X + dx, Y: b.Y + dy}
		w.edge(a, b, g)
		w.corners = append(w.corners, len(w.spots)-1)
		if full {
			w.crossings(a, b, g)
		}
		a = b
	}
	// Close the round, and let it start at a core.
	for len(w.spots) > 1 && w.spots[len(w.spots)-1] == w.spots[0] {
		if w.spots[0].core() {
			w.cores--
		}
		w.spots = w.spots[:len(w.spots)-1]
	}
	if w.cores > 0 {
		k := 0
		for !w.spots[k].core() {
			k++
		}
		w.spots = append(w.spots, w.spots[:k]...)
		w.spots = w.spots[:copy(w.spots, w.spots[k:])]
		for c, at := range w.corners {
			w.corners[c] = (at - k + len(w.spots)) % len(w.spots)
		}
	}
	if full {
		w.countInner()
	}
	w.work += 3 * len(w.spots)
	w.cost += 2*len(p) + 4*len(w.spots)
	return true
}

// inUse is the first and the last row or column of use.
func inUse(lo, hi, p, u float64) (int, int) {
	a := floor(lo / p)
	return a, max(a, ceil((hi-u)/p)-1)
}

// extent is the corners of the smallest upright rectangle round the points.
func extent(p []geom.Vector) (lo, hi geom.Vector) {
	lo, hi = p[0], p[0]
	for _, a := range p {
		lo.X, lo.Y, hi.X, hi.Y = min(lo.X, a.X), min(lo.Y, a.Y), max(hi.X, a.X), max(hi.Y, a.Y)
	}
	return lo, hi
}

// edge appends the spots from a to b.
func (w *walker) edge(a, b geom.Vector, g grid) {
	kx, ky := number(a.X, g.p, g.u), number(a.Y, g.q, g.v)
	nx, ny := number(b.X, g.p, g.u)-kx, number(b.Y, g.q, g.v)-ky
	fx, fy := 1/(b.X-a.X), 1/(b.Y-a.Y)
	dx, dy, bx, by := 1, 1, 0, 0
	if nx < 0 {
		nx, dx, bx = -nx, -1, -1
	}
	if ny < 0 {
		ny, dy, by = -ny, -1, -1
	}
	w.add(kx, ky)
	// When the next border in x and in y is met; 0 at a, 1 at b.
	tx, ty := (border(kx+bx, g.p, g.u)-a.X)*fx, (border(ky+by, g.q, g.v)-a.Y)*fy
	for nx > 0 || ny > 0 {
		if ny == 0 || nx > 0 && tx <= ty {
			kx += dx
			nx--
			tx = (border(kx+bx, g.p, g.u) - a.X) * fx
		} else {
			ky += dy
			ny--
			ty = (border(ky+by, g.q, g.v) - a.Y) * fy
		}
		w.add(kx, ky)
	}
}

// number of the strip or core that x lies in; strips are closed.
func number(x, p, u float64) int {
	i := floor(x / p)
	if x-float64(i)*p <= u {
		return 2*i - 1
	}
	return 2 * i
}

// border is where number k ends and k + 1 begins.
func border(k int, p, u float64) float64 {
	if k&1 == 0 {
		return float64(k/2+1) * p
	}
	return float64((k+1)/2)*p + u
}

func (w *walker) add(kx, ky int) {
	s := spot{int32(min(max(kx, 2*w.i0), 2*w.i1)), int32(min(max(ky, 2*w.j0), 2*w.j1))}
	if n := len(w.spots); n > 0 && w.spots[n-1] == s {
		return
	}
	w.spots = append(w.spots, s)
	if s.core() {
		w.cores++
		w.needed.put(page{int(s.x >> 1), int(s.y >> 1)})
	}
}

// crossings notes where the edge crosses the middle lines of rows.
func (w *walker) crossings(a, b geom.Vector, g grid) {
	if a.Y > b.Y {
		a, b = b, a
	}
	middle := (g.q + g.v) / 2
	m := (b.X - a.X) / (b.Y - a.Y)
	for j := max(w.j0, floor((a.Y-middle)/g.q)); j <= w.j1; j++ {
		y := float64(j)*g.q + middle
		if y < a.Y {
			continue
		}
		if y >= b.Y {
			break
		}
		x := a.X + (y-a.Y)*m
		c := floor((x-(g.p+g.u)/2)/g.p) + 1
		r := append(w.rows[j-w.j0], c)
		for k := len(r) - 1; k > 0 && r[k-1] > r[k]; k-- {
			r[k-1], r[k] = r[k], r[k-1]
			w.cost++
		}
		w.rows[j-w.j0] = r
	}
}

// countInner counts the pages whose core no edge meets but which lies inside. Where
// no edge meets a core, its middle speaks for all of it.
func (w *walker) countInner() {
	for _, r := range w.rows[:w.j1-w.j0+1] {
		for k := 0; k+1 < len(r); k += 2 {
			w.inner += r[k+1] - r[k]
		}
	}
	for _, n := range w.needed.list {
		if w.middleIn(n) {
			w.inner--
		}
	}
}

// middleIn says whether the middle of the page's core lies in the piece (Full).
func (w *walker) middleIn(n page) bool {
	if n.j < w.j0 || n.j > w.j1 {
		return false
	}
	r := w.rows[n.j-w.j0]
	w.cost += 1 + len(r)/8
	for k := 0; k+1 < len(r); k += 2 {
		if r[k] <= n.i && n.i < r[k+1] {
			return true
		}
	}
	return false
}

// must says whether the page is needed at any rate.
func (w *walker) must(n page) bool {
	w.cost++
	return w.needed.has(n) || w.cover == Full && w.middleIn(n)
}

// innerPages appends those that countInner counts.
func (w *walker) innerPages(to []page) []page {
	if w.cover != Full {
		return to
	}
	for j, r := range w.rows[:w.j1-w.j0+1] {
		for k := 0; k+1 < len(r); k += 2 {
			for i := r[k]; i < r[k+1]; i++ {
				if n := (page{i, j + w.j0}); !w.needed.has(n) {
					to = append(to, n)
				}
			}
		}
	}
	return to
}
