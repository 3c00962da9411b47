package paging

import (
	"maps"
	"math"
	"slices"

	"trammel/geom"
)

// sheets is a list of pages with their windows, each shrunk by slack on every side, for
// the literal test whether they cover the piece or its edges and one can walk once round
// by them. It asks nothing of the search that made the list.
type sheets struct {
	pageSet
	g     grid
	slack float64
}

func newSheets(pages []page, g grid, slack float64) *sheets {
	s := &sheets{g: g, slack: slack - grow}
	s.clear()
	for _, n := range pages {
		s.put(n)
	}
	return s
}

// part is the times of an edge, 0 at its start and 1 at its end, at which a page
// shows it.
type part struct {
	page     page
	from, to float64
}

func (s *sheets) parts(a, b geom.Vector) []part {
	var all []part
	for _, n := range s.list {
		lo, hi := s.window(n)
		if from, to, ok := clip(a, b, lo, hi); ok {
			all = append(all, part{n, from, to})
		}
	}
	return all
}

// window is the closed rectangle that a page can be relied on to show.
func (s *sheets) window(n page) (lo, hi geom.Vector) {
	x, y := float64(n.i)*s.g.p, float64(n.j)*s.g.q
	return geom.Vector{X: x + s.slack, Y: y + s.slack}, geom.Vector{X: x + s.g.p + s.g.u - s.slack, Y: y + s.g.q + s.g.v - s.slack}
}

// clip is the times at which the way from a to b is in the closed rectangle.
func clip(a, b, lo, hi geom.Vector) (from, to float64, ok bool) {
	from, to = 0, 1
	for _, c := range [2][4]float64{{a.X, b.X - a.X, lo.X, hi.X}, {a.Y, b.Y - a.Y, lo.Y, hi.Y}} {
		at, way, low, high := c[0], c[1], c[2], c[3]
		if way == 0 {
			if at < low || at > high {
				return 0, 0, false
			}
			continue
		}
		t0, t1 := (low-at)/way, (high-at)/way
		from, to = max(from, min(t0, t1)), min(to, max(t0, t1))
	}
	return from, to, from <= to
}

// walk goes once round the outline, from page to side neighbour at points that
// both show. Where that fails it says at which point.
func (s *sheets) walk(p []geom.Vector) (stuck geom.Vector, ok bool) {
	edges := make([][]part, len(p))
	for k := range p {
		edges[k] = s.parts(p[k], p[(k+1)%len(p)])
	}
	stuck = p[0]
	first := showing(edges[0], 0, 0)
	tried := make(map[page]bool)
	for _, n := range first {
		if tried[n] {
			continue
		}
		from := joined(map[page]bool{n: true}, first)
		maps.Copy(tried, from)
		at, last := s.round(p, edges, maps.Clone(from))
		for m := range last {
			if from[m] { // what is reached at the end is where it began
				return geom.Vector{}, true
			}
		}
		stuck = at
	}
	return stuck, false
}

// round follows all edges from the pages reached to those reached at the end; where there
// are none, it has come to a point beyond which no page leads.
func (s *sheets) round(p []geom.Vector, edges [][]part, reached map[page]bool) (at geom.Vector, last map[page]bool) {
	for k, parts := range edges {
		way := p[(k+1)%len(p)].Minus(p[k])
		times := []float64{0, 1} // at which a page comes or goes
		for _, c := range parts {
			times = append(times, c.from, c.to)
		}
		slices.Sort(times)
		before := 0.0
		for _, t := range slices.Compact(times) {
			along := showing(parts, before, t)
			maps.DeleteFunc(reached, func(n page, _ bool) bool { return !slices.Contains(along, n) })
			if len(reached) == 0 {
				return p[k].Plus(way.Times(before)), nil
			}
			before, reached = t, joined(reached, showing(parts, t, t))
		}
	}
	return p[0], reached
}

// showing is the pages that show an edge between two times.
func showing(parts []part, from, to float64) (all []page) {
	for _, c := range parts {
		if c.from <= from && to <= c.to {
			all = append(all, c.page)
		}
	}
	return all
}

// joined is those of the pages here that lead, neighbour by neighbour, from one that
// is reached.
func joined(reached map[page]bool, here []page) map[page]bool {
	got := make(map[page]bool, len(here))
	for more := true; more; {
		more = false
		for _, n := range here {
			if !got[n] && (reached[n] || got[page{n.i - 1, n.j}] || got[page{n.i + 1, n.j}] || got[page{n.i, n.j - 1}] || got[page{n.i, n.j + 1}]) {
				got[n], more = true, true
			}
		}
	}
	return got
}

// missing is a page that shows a point of the piece that no page of the list
// shows. The border lines of all windows cut the plane into rectangles; it looks
// at those that no page shows.
func (s *sheets) missing(p []geom.Vector) (page, bool) {
	lo, hi := extent(p)
	i0, i1 := floor((lo.X-s.g.u)/s.g.p)-1, floor(hi.X/s.g.p)+1
	j0, j1 := floor((lo.Y-s.g.v)/s.g.q)-1, floor(hi.Y/s.g.q)+1
	for j := j0; j <= j1; j++ {
		// What of row j is shown by it alone, then what row j + 1 shows as well.
		y := [3]float64{float64(j)*s.g.q + s.g.v - s.slack, float64(j+1)*s.g.q + s.slack, float64(j+1)*s.g.q + s.g.v - s.slack}
		for i := i0; i <= i1; i++ {
			x := [3]float64{float64(i)*s.g.p + s.g.u - s.slack, float64(i+1)*s.g.p + s.slack, float64(i+1)*s.g.p + s.g.u - s.slack}
			for c := range 4 {
				shown := false
				for d := range 4 {
					// Page (i + 1, …) shows only the part of the strip, and so on.
					if d&1 <= c&1 && d>>1 <= c>>1 && s.has(page{i + d&1, j + d>>1}) {
						shown = true
					}
				}
				if !shown && meets(p, geom.Vector{X: x[c&1], Y: y[c>>1]}, geom.Vector{X: x[c&1+1], Y: y[c>>1+1]}) {
					return page{i, j}, true
				}
			}
		}
	}
	return page{}, false
}

// meets says whether the piece has a point in the open rectangle.
func meets(p []geom.Vector, lo, hi geom.Vector) bool {
	if lo.X >= hi.X || lo.Y >= hi.Y {
		return false
	}
	in := func(a geom.Vector) bool { return lo.X < a.X && a.X < hi.X && lo.Y < a.Y && a.Y < hi.Y }
	for k, a := range p {
		b := p[(k+1)%len(p)]
		if in(a) {
			return true
		}
		if from, to, ok := clip(a, b, lo, hi); ok && in(geom.Vector{X: a.X + (b.X-a.X)*(from+to)/2, Y: a.Y + (b.Y-a.Y)*(from+to)/2}) {
			return true
		}
	}
	return inside(p, geom.Vector{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2})
}

// inside says whether a point lies inside the shape.
func inside(p []geom.Vector, a geom.Vector) bool {
	in := false
	for k, b := range p {
		c := p[(k+1)%len(p)]
		if (b.Y > a.Y) != (c.Y > a.Y) && a.X < b.X+(c.X-b.X)*((a.Y-b.Y)/(c.Y-b.Y)) {
			in = !in
		}
	}
	return in
}

// confirm returns the pages, with more where they do not cover or cannot be
// walked, every window shrunk by slack on each side; added is how many.
func confirm(p []geom.Vector, pages []page, g grid, c Cover, slack float64) (all []page, added int) {
	s := newSheets(pages, g, slack)
	for {
		n, lacks := page{}, false
		if c == Full {
			n, lacks = s.missing(p)
		}
		if lacks {
			if !s.put(n) {
				return nil, math.MaxInt // windows shrunk until they leave gaps
			}
			continue
		}
		at, ok := s.walk(p)
		if ok {
			return s.list, len(s.list) - len(pages)
		}
		more := false
		i, j := floor(at.X/g.p), floor(at.Y/g.q)
		for d := range 9 {
			n := page{i + d%3 - 1, j + d/3 - 1}
			if lo, hi := s.window(n); lo.X <= at.X && at.X <= hi.X && lo.Y <= at.Y && at.Y <= hi.Y {
				more = s.put(n) || more
			}
		}
		if !more {
			return nil, math.MaxInt
		}
	}
}
