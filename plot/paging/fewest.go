package paging

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
)

// pose is how the piece lies: turned about its middle, then moved.
type pose struct{ turn, x, y float64 }

// search looks for the place that takes the fewest pages and proves that there
// is no better one, by branch and bound: a box of places, none of which moves a
// point by more than (dx, dy) from where the box's centre puts it, takes at
// least as many pages as the centre takes with windows grown by (dx, dy).
type search struct {
	g      grid
	cover  Cover
	base   []geom.Vector // corners from the middle of the piece, not turned
	centre geom.Vector   // where that middle lies in the piece
	radius float64
	w      walker

	turned []geom.Vector // scratch
	shape  []geom.Vector

	best  int // the fewest pages found
	at    pose
	goal  int     // so few are enough
	open  [][]box // boxes not decided, by their bound
	work  int     // steps done, of some 10 ns where the outline has few corners
	limit int
	cost  int // what all that was done takes, in steps of about 10 ns
	most  int // beyond which the search is given up
	tell  func(share float64)
	told  int  // the cost at the last telling
	short bool // work ran out before all boxes were there
}

// box is a set of places: those within the half sizes of the centre.
type box struct {
	pose
	ht, hx, hy float64
}

// resolution is how finely the proof looks: what fits only because every window is
// larger by less than this cannot be printed.
const resolution = 0.02

// start is the half size of the first boxes, in mm of displacement.
const start = 24

// fine is the displacement under which a bound by rows that is not enough is
// followed by the one by spots.
const fine = 3.0

func newSearch(base []geom.Vector, g grid, c Cover, limit int) *search {
	s := &search{g: g, cover: c, base: base, limit: limit, best: math.MaxInt, goal: 1, most: math.MaxInt}
	s.w.g, s.w.cover = g, c
	s.w.needed.clear()
	s.w.taken.clear()
	s.turned, s.shape = make([]geom.Vector, len(base)), make([]geom.Vector, len(base))
	for _, a := range base {
		s.radius = max(s.radius, a.Size())
	}
	return s
}

// middle is about the centre of the smallest circle round the points; any point
// would do, this one makes bounds tight.
func middle(p []geom.Vector) geom.Vector {
	c := p[0]
	for k := 1; k < 300; k++ {
		f, d := c, 0.0
		for _, a := range p {
			if e := c.To(a); e > d {
				f, d = a, e
			}
		}
		c.X += (f.X - c.X) / float64(k+1)
		c.Y += (f.Y - c.Y) / float64(k+1)
	}
	return c
}

func rotate(to, from []geom.Vector, turn float64) {
	s, c := math.Sincos(turn)
	for k, a := range from {
		to[k] = geom.Vector{X: c*a.X - s*a.Y, Y: s*a.X + c*a.Y}
	}
}

func (s *search) moved(t []geom.Vector, x, y float64) []geom.Vector {
	for k, a := range t {
		s.shape[k] = geom.Vector{X: a.X + x, Y: a.Y + y}
	}
	return s.shape
}

// bound is that of a pose, with the turned piece moved to at and from there by as much
// as by; it looks no further than want.
func (s *search) bound(t []geom.Vector, at, by geom.Vector, want int) int {
	n := 1
	if len(t) == 3 {
		rows := 4 + int((max(t[0].Y, t[1].Y, t[2].Y)-min(t[0].Y, t[1].Y, t[2].Y))/s.g.q)
		s.work += rows
		s.cost += rows + rows/2
		if s.cover == OutlineOnly { // chains have several ways to go
			s.cost += 3 * rows
		}
		n = boundTriangle([3]geom.Vector{t[0], t[1], t[2]}, at, by.X, by.Y, s.g, s.cover)
	}
	if n < want && (len(t) > 3 || max(by.X, by.Y) < fine) {
		n = max(n, s.w.bound(s.moved(t, at.X, at.Y), by.X, by.Y, want))
		s.count()
	}
	return n
}

// visit takes the place for the best where it is.
func (s *search) visit(t []geom.Vector, at pose) {
	if s.bound(t, geom.Vector{X: at.x, Y: at.y}, geom.Vector{}, s.best) >= s.best {
		return
	}
	if n := len(s.w.lay(s.moved(t, at.x, at.y), 0)); n > 0 && n < s.best {
		s.best, s.at = n, at
	}
	s.count()
}

// count takes over what the walker has done since it was counted last.
func (s *search) count() {
	s.work, s.cost = s.work+s.w.work, s.cost+s.w.cost
	s.w.work, s.w.cost = 0, 0
}

// spent says that the search is to be given up.
func (s *search) spent() bool {
	if s.tell != nil && s.cost >= s.told+tellEvery {
		s.told = s.cost
		s.tell(min(1, max(float64(s.work)/float64(s.limit), float64(s.cost)/float64(s.most))))
	}
	return s.work > s.limit || s.cost > s.most
}

// seeds visits the places at a turn that bring a corner onto borders of windows:
// what just fits is found only there.
func (s *search) seeds(turn float64) {
	rotate(s.turned, s.base, turn)
	for _, at := range borderPlaces(s.turned, turn, s.g) {
		if s.best <= s.goal || s.spent() {
			return
		}
		s.visit(s.turned, at)
	}
}

// seedCorners is how many corners of a shape are tried on borders.
const seedCorners = 6

// borderPlaces are those that bring one corner onto upright borders and another,
// or the same, onto level ones.
func borderPlaces(t []geom.Vector, turn float64, g grid) []pose {
	some := t
	if len(t) > seedCorners {
		byX := func(a, b geom.Vector) int { return cmp.Compare(a.X, b.X) }
		byY := func(a, b geom.Vector) int { return cmp.Compare(a.Y, b.Y) }
		some = []geom.Vector{slices.MinFunc(t, byX), slices.MaxFunc(t, byX), slices.MinFunc(t, byY), slices.MaxFunc(t, byY)}
		for k := len(some); k < seedCorners; k++ {
			some = append(some, t[k*len(t)/seedCorners])
		}
	}
	var all []pose
	for _, a := range some {
		for _, b := range some {
			for _, x := range [2]float64{0, g.u} {
				for _, y := range [2]float64{0, g.v} {
					all = append(all, pose{turn, modulo(x-a.X, g.p), modulo(y-b.Y, g.q)})
				}
			}
		}
	}
	return all
}

// shifts searches all shifts at a turn, turns all turns as well. No place of those takes
// fewer pages than it returns: best where that is proven.
func (s *search) shifts(turn float64) int {
	s.roots(turn, 0, 1)
	return s.run()
}

func (s *search) turns() int {
	n := s.parts(math.Pi*s.radius, start)
	h := math.Pi / float64(2*n)
	s.roots(h, h, n)
	return s.run()
}

func (s *search) parts(size, h float64) int {
	h = min(h, (s.g.p-s.g.u)/8, (s.g.q-s.g.v)/8)
	return max(1, ceil(size/(2*h)))
}

func (s *search) roots(turn, ht float64, n int) {
	s.short = false
	for k := range s.open {
		s.open[k] = s.open[k][:0]
	}
	nx, ny := s.parts(s.g.p, start), s.parts(s.g.q, start)
	hx, hy := s.g.p/float64(2*nx), s.g.q/float64(2*ny)
	for k := range n {
		t := turn + float64(2*k)*ht
		rotate(s.turned, s.base, t)
		for i := range nx {
			for j := range ny {
				if s.spent() || s.best <= s.goal {
					s.short = true
					return
				}
				s.admit(box{pose{t, float64(2*i+1) * hx, float64(2*j+1) * hy}, ht, hx, hy}, s.turned, 1)
			}
		}
	}
}

// reach is how far a point moves at most within the box.
func (b box) reach(t []geom.Vector) (dx, dy float64) {
	if b.ht == 0 {
		return b.hx, b.hy
	}
	var mx, my float64
	for _, a := range t {
		mx, my = max(mx, math.Abs(a.X)), max(my, math.Abs(a.Y))
	}
	sin, cos := math.Sincos(b.ht)
	return b.hx + my*sin + mx*(1-cos), b.hy + mx*sin + my*(1-cos)
}

// admit puts a box among the open ones unless it is decided.
// What holds for a box that it is part of, at least known, holds for it as well.
func (s *search) admit(b box, t []geom.Vector, known int) {
	dx, dy := b.reach(t)
	n := max(known, s.bound(t, geom.Vector{X: b.x, Y: b.y}, geom.Vector{X: dx, Y: dy}, s.best))
	if n >= s.best {
		return
	}
	s.visit(t, b.pose)
	if b.ht == 0 && max(dx, dy) < snap {
		s.visitBorders(t, b)
	}
	if n >= s.best || max(dx, dy) < resolution {
		return
	}
	for len(s.open) <= n {
		s.open = append(s.open, nil)
	}
	s.open[n] = append(s.open[n], b)
}

// snap is the size of boxes in which corners are brought onto borders.
const snap = 0.5

// visitBorders visits the places of a box that bring a corner exactly onto a
// border: an edge that lies along borders may fit nowhere else in the box.
func (s *search) visitBorders(t []geom.Vector, b box) {
	for _, a := range t[:min(len(t), seedCorners)] {
		for _, border := range [2]float64{0, 1} {
			x := b.x + math.Remainder(border*s.g.u-a.X-b.x, s.g.p)
			y := b.y + math.Remainder(border*s.g.v-a.Y-b.y, s.g.q)
			if math.Abs(x-b.x) <= b.hx {
				s.visit(t, pose{b.turn, x, b.y})
			}
			if math.Abs(y-b.y) <= b.hy {
				s.visit(t, pose{b.turn, b.x, y})
			}
		}
	}
}

// run decides the open boxes, those of the least bound first.
func (s *search) run() int {
	for n := 0; n < len(s.open) && n < s.best && s.best > s.goal; {
		k := len(s.open[n])
		if k == 0 {
			n++
			continue
		}
		if s.spent() {
			if s.short {
				return 1
			}
			return n
		}
		b := s.open[n][k-1]
		s.open[n] = s.open[n][:k-1]
		lo, hi := b, b
		switch turn := b.ht * s.radius; {
		case turn >= max(b.hx, b.hy):
			lo.ht, hi.ht = b.ht/2, b.ht/2
			lo.turn, hi.turn = b.turn-b.ht/2, b.turn+b.ht/2
		case b.hx >= b.hy:
			lo.hx, hi.hx = b.hx/2, b.hx/2
			lo.x, hi.x = b.x-b.hx/2, b.x+b.hx/2
		default:
			lo.hy, hi.hy = b.hy/2, b.hy/2
			lo.y, hi.y = b.y-b.hy/2, b.y+b.hy/2
		}
		rotate(s.turned, s.base, lo.turn)
		s.admit(lo, s.turned, n)
		if hi.turn != lo.turn {
			rotate(s.turned, s.base, hi.turn)
		}
		s.admit(hi, s.turned, n)
	}
	if s.short && s.best > s.goal {
		return 1
	}
	return s.best
}
