package net

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
)

// state is a net partly found.
type state struct {
	at      []geom.Vector
	known   []bool
	found   []Placed
	misfit  float64   // of all that is measured between known points
	options []*option // of each point, as far as worked out
	eased   int       // points known when they were adjusted last
}

func (s *state) clone() *state {
	return &state{slices.Clone(s.at), slices.Clone(s.known), slices.Clone(s.found), s.misfit, slices.Clone(s.options), s.eased}
}

func (s *state) all() bool { return !slices.Contains(s.known, false) }

func (s *state) count() (n int) {
	for _, k := range s.known {
		if k {
			n++
		}
	}
	return n
}

func (p *problem) blank() *state {
	return &state{at: make([]geom.Vector, len(p.Names)), known: make([]bool, len(p.Names)), options: make([]*option, len(p.Names))}
}

// option is the places where the next point may lie: one where something
// decides, else all that are open.
type option struct {
	point  int
	places []geom.Vector
	found  []Placed // of each place
	trace  float64  // of the covariance that the two measurements give it
	seen   int      // observations to known points when this was worked out
	open   bool
	closes int  // how many points must be hung on until a measurement tells which place is meant; 0 unless open
	doubt  bool // there are three measurements or more, and no third agrees with any two
	early  bool // worked out while nothing told left from right
}

// before: what is decided by what was measured comes first, then what the
// outline decides, then what is open; among equals the surest.
func (o *option) before(q *option) bool {
	rank := func(o *option) int {
		switch {
		case o.open:
			return 2
		case o.found[0].Why >= ByOutline:
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(rank(o), rank(q)), cmp.Compare(o.closes, q.closes), cmp.Compare(o.trace, q.trace)) < 0
}

// hanging are the observations of u whose other points are all known.
func (p *problem) hanging(u int, s *state) (all []*adjust.Observation) {
	for _, i := range p.Of[u] {
		o := &p.Obs[i]
		free := false
		for _, q := range o.Points() {
			free = free || q != u && !s.known[q]
		}
		if !free {
			all = append(all, o)
		}
	}
	return all
}

// mostTried bounds the observations of one point that are tried with each other.
const mostTried = 8

// option works out where u may lie. Where two measurements do not quite meet, a
// third says that the place is between them; so does forced.
func (p *problem) option(u int, near []*adjust.Observation, s *state, forced bool) *option {
	best := &option{point: u, seen: len(near), trace: math.Inf(1)}
	agreed := -1
	var one, two *adjust.Observation
	missed := adjust.Meetings(u, near[:min(len(near), mostTried)], s.at, func(a, b *adjust.Observation, places []geom.Vector) {
		for _, c := range places {
			h := adjust.Intersection{Point: u, One: b, Two: a, At: c, Places: s.at}
			n, trace := h.Agree(near), h.Trace()
			if n > agreed || n == agreed && trace < best.trace || one == nil {
				agreed, best.trace, best.places, one, two = n, trace, places, b, a
			}
		}
	})
	if one == nil {
		if missed.One == nil || len(near) < 3 && !forced {
			return best
		}
		best.places, one, two = []geom.Vector{missed.At}, missed.Two, missed.One
	}
	best.doubt = len(near) > 2 && agreed < 1
	p.decide(best, one, two, near, s)
	for i, c := range best.places {
		best.places[i] = adjust.Intersection{Point: u, One: one, Two: two, At: c, Places: s.at}.Polished(near)
	}
	return best
}
