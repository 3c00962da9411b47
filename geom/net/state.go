package net

import (
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
)

// state is a net partly found.
type state struct {
	*problem
	at      []geom.Vector
	known   []bool
	found   []Placed
	misfit  float64   // of all that is measured between known points
	options []*option // of each point, as far as worked out
	eased   int       // points known when they were adjusted last
}

func (p *problem) blank() *state {
	n := len(p.Names)
	return &state{problem: p, at: make([]geom.Vector, n), known: make([]bool, n), options: make([]*option, n)}
}

// allBut has all points known but some.
func (p *problem) allBut(unknown []int) *state {
	s := p.blank()
	for i := range s.known {
		s.known[i] = !slices.Contains(unknown, i)
	}
	return s
}

func (s *state) clone() *state {
	t := *s
	t.at, t.known, t.found, t.options = slices.Clone(s.at), slices.Clone(s.known), slices.Clone(s.found), slices.Clone(s.options)
	return &t
}

func (s *state) all() bool { return s.count() == len(s.Names) }

func (s *state) count() int { return len(s.found) }

// set hangs on the point of an option, at one of its places.
func (s *state) set(o *option, i int) {
	s.at[o.point], s.known[o.point] = o.places[i], true
	s.found = append(s.found, o.found[i])
}

// close says whether two nets with the same known points are about one.
func (s *state) close(t *state, within float64) bool {
	for i, c := range s.at {
		if s.known[i] && !(c.To(t.at[i]) <= within) {
			return false
		}
	}
	return true
}

// ties u says whether all points of an observation but u are known.
func ties(o *adjust.Observation, u int, known []bool) bool {
	return !slices.ContainsFunc(o.Points(), func(q int) bool { return q != u && !known[q] })
}

// ties are the observations of u whose other points are all known.
func (s *state) ties(u int) (all []*adjust.Observation) {
	for _, i := range s.Of[u] {
		if o := &s.Obs[i]; ties(o, u, s.known) {
			all = append(all, o)
		}
	}
	return all
}

// tied counts the measurements of a point whose other points are known.
func (p *problem) tied(u int, known []bool) (n int) {
	for _, i := range p.Of[u] {
		if ties(&p.Obs[i], u, known) {
			n++
		}
	}
	return n
}

// baseOf are the known points that two measurements of u come from, in the order of the
// alphabet, so that a line has one name.
func (s *state) baseOf(u int, one, two *adjust.Observation) (base []int) {
	for _, x := range []*adjust.Observation{one, two} {
		_, from := x.Loci(u, s.at)
		base = append(base, from...)
	}
	slices.Sort(base)
	return slices.Compact(base)
}

// sideLine is one line that a point must lie on one side of.
type sideLine struct {
	point, a, b int
	right       bool
}

// over is how far over the line a place lies, on the wrong side of it.
func (x sideLine) over(c geom.Vector, at []geom.Vector) float64 {
	over := geom.Side(at[x.a], at[x.b], c) / at[x.a].To(at[x.b])
	if x.right {
		return over
	}
	return -over
}

func (x sideLine) wrong(c geom.Vector, at []geom.Vector) bool {
	return geom.IsLeft(at[x.a], at[x.b], c) == x.right
}

func (p *problem) sideLines() (all []sideLine) {
	for _, x := range p.asked.Sides {
		if x.Of != ([2]geom.Name{}) {
			all = append(all, sideLine{p.Number[x.Point], p.Number[x.Of[0]], p.Number[x.Of[1]], x.Right})
		}
	}
	return all
}

// sidesOf is what Net.Sides says of the point, as far as the lines are known.
func (s *state) sidesOf(u int, base []int) (all []sideLine) {
	all = slices.DeleteFunc(s.sideLines(), func(x sideLine) bool { return x.point != u || !s.known[x.a] || !s.known[x.b] })
	for _, x := range s.asked.Sides {
		if s.Number[x.Point] == u && x.Of == ([2]geom.Name{}) && len(base) > 1 {
			all = append(all, sideLine{u, base[0], base[1], x.Right})
		}
	}
	return all
}
