package survey

import (
	"math"
	"slices"
)

// state is a net partly found.
type state struct {
	at    []xy
	known []bool
	found []Found
	fork  []int // points for which two places were open and one was taken
}

func (s *state) clone() *state {
	return &state{slices.Clone(s.at), slices.Clone(s.known), slices.Clone(s.found), slices.Clone(s.fork)}
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
	return &state{at: make([]xy, len(p.names)), known: make([]bool, len(p.names))}
}

// option is the places where the next point may lie: one where something
// decides, else all that are open.
type option struct {
	point  int
	places []xy
	found  []Found // of each place
	trace  float64 // of the covariance that the two measurements give it
	seen   int     // observations to known points when this was worked out
	open   bool
	early  bool // worked out while nothing told left from right
}

// mostLeaves that a net with open choices is followed to.
const mostLeaves = 32

// grow hangs point after point on what is known, the surest first and those
// with a choice last, and follows every choice that nothing decides.
func (p *problem) grow(s *state) (leaves []*state) {
	stack := []*state{s}
	for len(stack) > 0 && len(leaves) < mostLeaves {
		s := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		o := p.extend(s)
		if o == nil {
			leaves = append(leaves, s)
			continue
		}
		for i := len(o.places) - 1; i >= 0; i-- {
			t := s.clone()
			t.fork = append(t.fork, o.point)
			t.set(o, i)
			stack = append(stack, t)
		}
	}
	return leaves
}

func (s *state) set(o *option, i int) {
	s.at[o.point], s.known[o.point] = o.places[i], true
	s.found = append(s.found, o.found[i])
}

// extend finds points until none can be found (nil) or a choice is open.
func (p *problem) extend(s *state) *option {
	options := make([]*option, len(p.names))
	for {
		var best *option
		for u := range p.names {
			if s.known[u] {
				continue
			}
			near := p.hanging(u, s)
			if len(near) < 2 {
				continue
			}
			o := options[u]
			if o == nil || o.seen != len(near) || o.early || p.sided[u] {
				o = p.option(u, near, s)
				options[u] = o
			}
			if len(o.places) > 0 && (best == nil || o.before(best)) {
				best = o
			}
		}
		if best == nil || best.open {
			return best
		}
		s.set(best, 0)
	}
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
	if a, b := rank(o), rank(q); a != b {
		return a < b
	}
	return o.trace < q.trace
}

// hanging are the observations of u whose other points are all known.
func (p *problem) hanging(u int, s *state) (all []*observation) {
	for _, i := range p.of[u] {
		o := &p.obs[i]
		free := false
		for _, q := range o.points() {
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

// option works out where u may lie.
func (p *problem) option(u int, near []*observation, s *state) *option {
	best := &option{point: u, seen: len(near), trace: math.Inf(1)}
	agreed := -1
	tried := near[:min(len(near), mostTried)]
	var one, two *observation
	missed := math.Inf(1)
	var between xy
	var mone, mtwo *observation
	for i, a := range tried {
		la, _ := a.loci(u, s.at)
		for _, b := range tried[:i] {
			lb, _ := b.loci(u, s.at)
			var places []xy
			for _, l := range la {
				for _, m := range lb {
					meet, near, miss := l.meet(m)
					places = append(places, meet...)
					if miss {
						s.at[u] = near
						if off := math.Abs(a.plainly(s.at)-a.value)/a.sigma + math.Abs(b.plainly(s.at)-b.value)/b.sigma; off < missed {
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
		if mone == nil || len(near) < 3 {
			return best
		}
		best.places, one, two = []xy{between}, mtwo, mone
	}
	p.decide(best, one, two, near, s)
	return best
}

// tidy keeps the places that have both observations as measured, each once.
func (p *problem) tidy(u int, places []xy, a, b *observation, s *state) (kept []xy) {
	for _, c := range places {
		s.at[u] = c
		same := func(o xy) bool { return o.to(c) <= 1e-9*(1+a.value+b.value) }
		if !math.IsNaN(c.x+c.y) && a.keeps(s.at) && b.keeps(s.at) && !slices.ContainsFunc(kept, same) {
			kept = append(kept, c)
		}
	}
	return kept
}

// hanger is a place of u that two observations hold.
type hanger struct {
	p        *problem
	u        int
	one, two *observation
	at       xy
	*state
}

// trace of the covariance of the place.
func (h hanger) trace() float64 {
	h.state.at[h.u] = h.at
	g, k := h.one.pull(h.u, h.state.at), h.two.pull(h.u, h.state.at)
	d := g.cross(k)
	return (g.dot(g) + k.dot(k)) / (d * d)
}

// off is how far another observation is from the place in σ, its own and that
// of the place together.
func (h hanger) off(x *observation) float64 {
	h.state.at[h.u] = h.at
	g, k, q := h.one.pull(h.u, h.state.at), h.two.pull(h.u, h.state.at), x.pull(h.u, h.state.at)
	v := (x.plainly(h.state.at) - x.value) / x.sigma
	d := g.cross(k)
	if d == 0 {
		return math.Abs(v)
	}
	a, b := q.cross(k)/d, g.cross(q)/d
	return math.Abs(v) / math.Sqrt(1+a*a+b*b)
}

// agree counts the other observations that the place fits: a single slip then
// does not lead it astray.
func (h hanger) agree(near []*observation) (n int) {
	for _, x := range near {
		if x != h.one && x != h.two && h.off(x) < fits {
			n++
		}
	}
	return n
}

// pull is how the observation changes with its point u, in σ.
func (o *observation) pull(u int, at []xy) xy {
	t := *o
	t.orient(at)
	_, by := t.look(at)
	for k, q := range t.points() {
		if q == u {
			return by[k].times(1 / t.sigma)
		}
	}
	return xy{}
}
