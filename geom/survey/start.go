package survey

import (
	"math"
	"slices"

	"trammel/geom"
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

// Of two places the better one is what the other measurements mean where it fits
// them within fits σ (root mean square) and the other is so many times worse.
const (
	fits    = 10
	clearly = 4
)

// decide takes the one place that is meant, where something says so.
func (p *problem) decide(o *option, one, two *observation, near []*observation, s *state) {
	f := Found{Point: p.names[o.point], By: []int{one.index, two.index}}
	var base []int
	for _, x := range []*observation{one, two} {
		_, from := x.loci(o.point, s.at)
		for _, q := range from {
			if !slices.Contains(base, q) {
				base = append(base, q)
			}
		}
	}
	slices.Sort(base) // as they stand in the alphabet, so that a line has one name
	slices.Sort(f.By)
	for _, q := range base {
		f.From = append(f.From, p.names[q])
	}
	if len(o.places) == 1 {
		f.Why = OnlyPlace
	}
	right := func(c xy) bool { return len(base) > 1 && !isLeft(s.at[base[0]], s.at[base[1]], c) }
	keep := func(why Reason, good func(xy) bool) {
		var kept []xy
		for _, c := range o.places {
			if good(c) {
				kept = append(kept, c)
			}
		}
		o.places, f.Why = kept, why
	}
	first := len(s.found) == 2 && len(p.control) == 0
	o.early = first
	sides := p.sidesOf(o.point, base, s)
	for _, x := range sides {
		keep(BySide, func(c xy) bool { return isLeft(s.at[x.a], s.at[x.b], c) != x.right })
	}
	if len(sides) > 0 && len(o.places) < 2 {
		// settled
	} else if i := p.better(o, one, two, near, s); i >= 0 {
		o.places, f.Why = o.places[i:i+1], ByMeasurement
	} else if len(o.places) > 1 {
		if wantRight, said := p.byOutline(o.point, base); said {
			keep(ByOutline, func(c xy) bool { return right(c) == wantRight })
		} else if first && len(p.round) == 0 {
			// No one can tell it from its mirror image.
			keep(ByAlphabet, func(c xy) bool { return right(c) == p.clockwise(base[0], base[1], o.point) })
		}
		if i := p.better(o, one, two, near, s); i >= 0 {
			o.places = o.places[i : i+1]
		}
	}
	o.open = len(o.places) > 1
	for _, c := range o.places {
		g := f
		g.Right = right(c)
		o.found = append(o.found, g)
	}
}

// better is the place that the other measurements mean, −1 where they do not tell.
func (p *problem) better(o *option, one, two *observation, near []*observation, s *state) int {
	if len(o.places) < 2 || len(near) < 3 {
		return -1
	}
	off := make([]float64, len(o.places))
	for i, c := range o.places {
		h := hanger{p, o.point, one, two, c, s}
		sum := 0.0
		for _, x := range near {
			if x != one && x != two {
				v := h.off(x)
				sum += v * v
			}
		}
		off[i] = math.Sqrt(sum / float64(len(near)-2))
	}
	best := 0
	for i := range off {
		if off[i] < off[best] {
			best = i
		}
	}
	for i := range off {
		if i != best && off[i] < clearly*max(off[best], 1) {
			return -1
		}
	}
	if !(off[best] < fits) {
		return -1
	}
	return best
}

// sideLine is one line that a point must lie on one side of.
type sideLine struct {
	a, b  int
	right bool
}

// sidesOf is what Net.Sides says of the point, as far as the lines are known.
func (p *problem) sidesOf(u int, base []int, s *state) (all []sideLine) {
	for _, x := range p.Sides {
		if p.number[x.Point] != u {
			continue
		}
		if x.Of == ([2]geom.Name{}) {
			if len(base) > 1 {
				all = append(all, sideLine{base[0], base[1], x.Right})
			}
			continue
		}
		if a, b := p.number[x.Of[0]], p.number[x.Of[1]]; s.known[a] && s.known[b] {
			all = append(all, sideLine{a, b, x.Right})
		}
	}
	return all
}

// byOutline says on which side of its base a corner lies when the outline is
// walked counter-clockwise: left of QR where the walk meets Q, R and it in this
// order. It holds where the outline is not hollow; elsewhere measurements or
// Net.Sides must say. A point off the outline lies inside its edges.
func (p *problem) byOutline(u int, base []int) (right, said bool) {
	if len(base) < 2 {
		return false, false
	}
	n := len(p.round)
	q, atQ := p.place[base[0]]
	r, atR := p.place[base[1]]
	c, atC := p.place[u]
	switch {
	case !atQ || !atR:
		return false, false
	case atC:
		return (r-q+n)%n > (c-q+n)%n, true
	case (r-q+n)%n == 1:
		return false, true
	case (q-r+n)%n == 1:
		return true, true
	}
	return false, false
}

// clockwise says whether a, b, c run against the alphabet.
func (p *problem) clockwise(a, b, c int) bool {
	rising := 0
	for _, up := range [...]bool{a < b, b < c, c < a} {
		if up {
			rising++
		}
	}
	return rising == 1
}
