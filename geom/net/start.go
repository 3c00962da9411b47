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
	found   []Found
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
	found  []Found // of each place
	trace  float64 // of the covariance that the two measurements give it
	seen   int     // observations to known points when this was worked out
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
	tried := near[:min(len(near), mostTried)]
	var one, two *adjust.Observation
	missed := math.Inf(1)
	var between geom.Vector
	var mone, mtwo *adjust.Observation
	for i, a := range tried {
		la, _ := loci(a, u, s.at)
		for _, b := range tried[:i] {
			lb, _ := loci(b, u, s.at)
			var places []geom.Vector
			for _, l := range la {
				for _, m := range lb {
					meet, near, miss := l.Meet(m)
					places = append(places, meet...)
					if miss {
						s.at[u] = near
						if off := math.Abs(a.Unsigned(s.at)-a.Value)/a.Sigma + math.Abs(b.Unsigned(s.at)-b.Value)/b.Sigma; off < missed {
							missed, between, mone, mtwo = off, near, a, b
						}
					}
				}
			}
			places = p.tidy(u, places, a, b, s)
			if len(places) == 0 {
				continue
			}
			for _, c := range places {
				h := hanger{p, u, b, a, c, s}
				n, trace := h.agree(near), h.trace()
				if n > agreed || n == agreed && trace < best.trace || one == nil {
					agreed, best.trace, best.places, one, two = n, trace, places, b, a
				}
			}
		}
	}
	if one == nil {
		if mone == nil || len(near) < 3 && !forced {
			return best
		}
		best.places, one, two = []geom.Vector{between}, mtwo, mone
	}
	best.doubt = len(near) > 2 && agreed < 1
	p.decide(best, one, two, near, s)
	for i, c := range best.places {
		best.places[i] = hanger{p, u, one, two, c, s}.polished(near)
	}
	return best
}

// tidy keeps the places that have both observations as measured, each once.
func (p *problem) tidy(u int, places []geom.Vector, a, b *adjust.Observation, s *state) (kept []geom.Vector) {
	for _, c := range places {
		s.at[u] = c
		same := func(o geom.Vector) bool { return o.To(c) <= 1e-9*(1+a.Value+b.Value) }
		if !math.IsNaN(c.X+c.Y) && keeps(a, s.at) && keeps(b, s.at) && !slices.ContainsFunc(kept, same) {
			kept = append(kept, c)
		}
	}
	return kept
}

// hanger is a place of u that two observations hold.
type hanger struct {
	p        *problem
	u        int
	one, two *adjust.Observation
	at       geom.Vector
	*state
}

// trace of the covariance of the place.
func (h hanger) trace() float64 {
	h.state.at[h.u] = h.at
	g, k := h.one.Gradient(h.u, h.state.at), h.two.Gradient(h.u, h.state.at)
	d := g.Cross(k)
	return (g.Dot(g) + k.Dot(k)) / (d * d)
}

// off is how far another observation is from the place in σ, its own and that
// of the place together.
func (h hanger) off(x *adjust.Observation) float64 {
	h.state.at[h.u] = h.at
	g, k, q := h.one.Gradient(h.u, h.state.at), h.two.Gradient(h.u, h.state.at), x.Gradient(h.u, h.state.at)
	v := (x.Unsigned(h.state.at) - x.Value) / x.Sigma
	d := g.Cross(k)
	if d == 0 {
		return math.Abs(v)
	}
	a, b := q.Cross(k)/d, g.Cross(q)/d
	return math.Abs(v) / math.Sqrt(1+a*a+b*b)
}

// agree counts the other observations that the place fits: a single slip then
// does not lead it astray.
func (h hanger) agree(near []*adjust.Observation) (n int) {
	for _, x := range near {
		if x != h.one && x != h.two && h.off(x) < fits {
			n++
		}
	}
	return n
}

// polished is the place that fits best what it agrees with of all that goes to
// it, so that the error of one point is not handed on to the next and grows.
func (h hanger) polished(near []*adjust.Observation) geom.Vector {
	if len(near) < 3 {
		return h.at
	}
	with := []*adjust.Observation{h.one, h.two}
	for _, x := range near {
		if x != h.one && x != h.two && h.off(x) < fits {
			with = append(with, x)
		}
	}
	sum := func() (sum float64) {
		for _, x := range with {
			v := (x.Unsigned(h.state.at) - x.Value) / x.Sigma
			sum += v * v
		}
		return sum
	}
	h.state.at[h.u] = h.at
	least, at := sum(), h.at
	for range 4 {
		var xx, xyy, yy float64
		var g geom.Vector
		for _, x := range with {
			q := x.Gradient(h.u, h.state.at)
			xx, xyy, yy = xx+q.X*q.X, xyy+q.X*q.Y, yy+q.Y*q.Y
			g = g.Plus(q.Times((x.Value - x.Unsigned(h.state.at)) / x.Sigma))
		}
		det := xx*yy - xyy*xyy
		step := geom.Vector{X: (yy*g.X - xyy*g.Y) / det, Y: (xx*g.Y - xyy*g.X) / det}
		h.state.at[h.u] = at.Plus(step)
		s := sum()
		if !(s < least) {
			break
		}
		least, at = s, h.state.at[h.u]
	}
	h.state.at[h.u] = at
	for _, x := range with { // not over a line that it must stay on one side of
		a, b := *x, *x
		h.state.at[h.u] = h.at
		a.Orient(h.state.at)
		h.state.at[h.u] = at
		if b.Orient(h.state.at); a.Left() != b.Left() {
			return h.at
		}
	}
	return at
}
