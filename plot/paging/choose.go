package paging

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// mostSlack is as far as windows are shrunk in the search for a place that
// forgives a printer that feeds badly.
const mostSlack = 4.0

// A page should carry so much of the outline, and a corner keep so far from
// what two pages show.
const (
	sliver = 20.0
	clear3 = 3.0
)

// layout is a place with its pages, and what decides between equals, so that the same
// piece always gives the same pages.
type layout struct {
	pose
	pages   []page
	slack   float64 // every window may shrink by so much on each side
	slivers int     // pages that carry next to nothing
	unclear int     // corners in or near a strip
	lines   int     // rows and columns
	joins   int
}

func (a *layout) compare(b *layout) int {
	return cmp.Or(
		cmp.Compare(len(a.pages), len(b.pages)),
		-cmp.Compare(math.Round(a.slack*10), math.Round(b.slack*10)),
		cmp.Compare(a.slivers, b.slivers),
		cmp.Compare(a.unclear, b.unclear),
		cmp.Compare(a.lines, b.lines),
		cmp.Compare(a.joins, b.joins),
		cmp.Compare(math.Round(math.Abs(a.turn)*1e9), math.Round(math.Abs(b.turn)*1e9)),
		cmp.Compare(math.Round(a.turn*1e9), math.Round(b.turn*1e9)),
		cmp.Compare(math.Round(a.x*1e3), math.Round(b.x*1e3)),
		cmp.Compare(math.Round(a.y*1e3), math.Round(b.y*1e3)),
	)
}

// choose takes the best of the places at the given turns that need n pages. One
// such place is known.
func (s *search) choose(turns []float64, n int, known pose) layout {
	if n == 1 {
		return s.single(turns, known)
	}
	most := min(mostSlack, s.g.u/2, s.g.v/2)
	// The largest slack, in steps of a sixty-fourth.
	const steps = 64
	lo, hi := 0, steps+1
	found := []pose{known}
	for try := steps; hi-lo > 1; try = (lo + hi) / 2 {
		if at := s.withSlack(turns, n, most*float64(try)/steps); len(at) > 0 {
			lo, found = try, at
		} else {
			hi = try
		}
	}
	slack := most * float64(lo) / steps
	all := append(found, s.spread(turns, n, slack)...)
	var best layout
	for _, at := range all {
		l, ok := s.lay(s.round(at), max(0, slack-0.01), n) // a round pose, where it is as good
		if !ok {
			l, ok = s.lay(at, slack, n)
		}
		if ok && (best.pages == nil || l.compare(&best) < 0) {
			best = l
		}
	}
	if best.pages == nil {
		best, _ = s.lay(known, 0, n)
	}
	return best
}

// round moves a place so that the shift of the piece is in hundredths of a millimetre.
func (s *search) round(at pose) pose {
	c := s.centre.Turned(unit.Angle(at.turn))
	at.x += math.Round((at.x-c.X)*100)/100 - (at.x - c.X)
	at.y += math.Round((at.y-c.Y)*100)/100 - (at.y - c.Y)
	return at
}

// shrunk is a search for the same piece with every window shrunk by slack.
func (s *search) shrunk(slack float64, limit int) *search {
	g := s.g
	g.u, g.v = max(0, g.u-2*slack), max(0, g.v-2*slack)
	return newSearch(s.base, g, s.cover, limit)
}

// slackWork is how much work goes into one step of the search for slack.
const slackWork = 400_000

// withSlack looks for places at the given turns that need no more than n pages
// though every window is shrunk by slack: at most one a turn.
func (s *search) withSlack(turns []float64, n int, slack float64) []pose {
	var found []pose
	t := s.shrunk(slack, 0)
	for _, turn := range turns {
		t.best, t.goal, t.limit = n+1, n, t.work+slackWork/len(turns)
		if t.seeds(turn); t.best > n {
			t.shifts(turn)
		}
		if t.best <= n {
			found = append(found, pose{turn, t.at.x + slack, t.at.y + slack})
		}
	}
	s.work, s.cost = s.work+t.work, s.cost+t.cost
	return found
}

// spread is places at the given turns, evenly spread over all shifts, that need
// no more than n pages with slack: some tens at most.
func (s *search) spread(turns []float64, n int, slack float64) []pose {
	t := s.shrunk(slack, slackWork)
	var all []pose
	const parts = 12
	most := max(1, min(parts, 3000/n))
	for _, turn := range turns {
		rotate(t.turned, t.base, turn)
		some := 0
		for k := range parts * parts {
			at := pose{turn, float64(k%parts) / parts * s.g.p, float64(k/parts) / parts * s.g.q}
			if t.work > t.limit || some >= most {
				break
			}
			if t.bound(t.turned, geom.Vector{X: at.x, Y: at.y}, geom.Vector{}, n+1) <= n {
				all = append(all, pose{turn, at.x + slack, at.y + slack})
				some++
			}
		}
	}
	s.work, s.cost = s.work+t.work, s.cost+t.cost
	return all
}

// lay is the layout of a place with no more than n pages.
func (s *search) lay(at pose, slack float64, n int) (layout, bool) {
	rotate(s.turned, s.base, at.turn)
	p := s.moved(s.turned, at.x, at.y)
	pages := s.w.lay(p, slack)
	if len(pages) == 0 || len(pages) > n {
		return layout{}, false
	}
	l := layout{pose: at, pages: slices.Clone(pages), slack: slack}
	l.judge(p, s.g)
	return l, true
}

// judge counts what decides between equals.
func (l *layout) judge(p []geom.Vector, g grid) {
	s := newSheets(l.pages, g, 0)
	i0, j0, i1, j1 := span(l.pages)
	for _, n := range s.list {
		if s.has(page{n.i + 1, n.j}) {
			l.joins++
		}
		if s.has(page{n.i, n.j + 1}) {
			l.joins++
		}
		lo, hi := s.window(n)
		carried := 0.0
		for k, a := range p {
			b := p[(k+1)%len(p)]
			if from, to, ok := clip(a, b, lo, hi); ok {
				carried += (to - from) * math.Hypot(b.X-a.X, b.Y-a.Y)
			}
		}
		if carried > 0 && carried < sliver {
			l.slivers++
		}
	}
	l.lines = i1 - i0 + 1 + j1 - j0 + 1
	for _, a := range p {
		shown := 0
		i, j := floor(a.X/g.p), floor(a.Y/g.q)
		for d := range 9 {
			n := page{i + d%3 - 1, j + d/3 - 1}
			lo, hi := s.window(n)
			if s.has(n) && lo.X-clear3 < a.X && a.X < hi.X+clear3 && lo.Y-clear3 < a.Y && a.Y < hi.Y+clear3 {
				shown++
			}
		}
		if shown > 1 {
			l.unclear++
		}
	}
}

// single is the layout of a piece that fits on one page: in its middle, at the
// least turn that leaves slack enough.
func (s *search) single(turns []float64, known pose) layout {
	var best layout
	for _, turn := range append(slices.Clone(turns), known.turn) {
		rotate(s.turned, s.base, turn)
		lo, hi := extent(s.turned)
		w, h := s.g.p+s.g.u, s.g.q+s.g.v
		slack := min(mostSlack, (w-hi.X+lo.X)/2, (h-hi.Y+lo.Y)/2)
		if slack < -grow {
			continue
		}
		l := layout{pose: pose{turn, w/2 - (lo.X+hi.X)/2, h/2 - (lo.Y+hi.Y)/2}, pages: []page{{0, 0}}, slack: max(0, slack), lines: 2}
		if best.pages == nil || l.compare(&best) < 0 {
			best = l
		}
	}
	return best
}
