package net

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
)

const (
	// mostFollowed nets that differ by a choice are followed side by side.
	mostFollowed = 128
	// hopeless is by how much worse than the best a net must fit to be dropped:
	// more than one slip alone does.
	hopeless = 130
	// ordinary is the misfit in σ beyond which more of it counts for less and less,
	// so that one slip does not drown what all others say.
	ordinary = 3
)

// grow hangs point after point on what is known, the surest first and those with
// a choice last. Where nothing decides as yet, every choice is followed, all with
// the same points, until what is measured to later points tells: those that fit
// hopelessly worse than the best are dropped. It returns what is left, the best
// first; cut says that there were too many to follow all. Where that has
// lost the right one, nothing is left.
func (p *problem) grow(seed *state) (leaves []*state, cut bool) {
	all := []*state{seed}
	for {
		u := p.next(all)
		if u < 0 {
			return all, cut
		}
		var grown []*state
		for _, s := range all {
			near := p.hanging(u, s)
			o := p.looked(u, near, s)
			if len(o.places) == 0 && len(all) > 1 {
				o = p.option(u, near, s, true)
			}
			for i := range o.places {
				t := s
				if i < len(o.places)-1 {
					t = s.clone()
				}
				t.set(o, i)
				t.misfit += loss(near, t.at)
				grown = append(grown, t)
			}
		}
		slices.SortStableFunc(grown, func(s, t *state) int { return cmp.Compare(s.misfit, t.misfit) })
		for i, s := range grown {
			if i == mostFollowed || s.misfit > grown[0].misfit+hopeless {
				cut = cut || i == mostFollowed && s.misfit <= grown[0].misfit+hopeless
				grown = grown[:i]
				break
			}
		}
		all = p.eased(grown)
		if cut && all[0].misfit > 3*hopeless+astray*float64(p.more(all[0])) {
			return nil, true
		}
	}
}

// eased adjusts what is known of each net where what is measured in it has come
// to fit badly, be it that the errors of the first points have grown with each
// one hung on. More points by a quarter come between one time and the next.
func (p *problem) eased(all []*state) []*state {
	known, more := all[0].count(), p.more(all[0])
	if all[0].misfit < uneasy*float64(more) || 4*known < 5*all[0].eased || more < 1 {
		return all
	}
	for i, t := range all {
		t.eased = known
		if n := float64(known); i == 0 || float64(i)*n*n*n < mostEased {
			p.ease(t)
		}
	}
	slices.SortStableFunc(all, func(s, t *state) int { return cmp.Compare(s.misfit, t.misfit) })
	var kept []*state
	for _, t := range all { // what began as two may have become one
		if !slices.ContainsFunc(kept, func(k *state) bool { return k.same(t) }) {
			kept = append(kept, t)
		}
	}
	return kept
}

const (
	// uneasy is the misfit of one measurement more than needed above which a net is
	// adjusted on the way: by chance it is 0.9.
	uneasy = 2
	// mostEased bounds the work of one time.
	mostEased = 3e6
	// astray is the same of a net of which nothing is right.
	astray = 8
)

// more counts what is measured in the known part of a net beyond what fixes it.
func (p *problem) more(s *state) int {
	free := 3
	if len(p.control) > 0 {
		free = 2 * len(p.control)
	}
	more := free - 2*s.count()
	for i := range p.Obs {
		if p.Obs[i].Among(s.known) {
			more++
		}
	}
	return more
}

// ease adjusts what is known of a net, if it then fits better.
func (p *problem) ease(s *state) {
	var obs []adjust.Observation
	for i := range p.Obs {
		if p.Obs[i].Among(s.known) {
			obs = append(obs, p.Obs[i])
		}
	}
	first, second := p.Number[s.found[0].Point], p.Number[s.found[1].Point]
	free := adjust.NewUnknowns(len(p.Names), func(i int) (x, y bool) {
		_, held := p.control[i]
		held = held || !s.known[i]
		loose := len(p.control) == 0
		return held || loose && i == first, held || loose && (i == first || i == second)
	})
	adjust.Orient(obs, s.at)
	const steps = 4 // near enough: it is adjusted again
	f := adjust.Equations{Obs: obs, Free: free}.Nearby(s.at, steps)
	var all []*adjust.Observation
	for i := range obs {
		all = append(all, &obs[i])
	}
	if m := loss(all, f.At); m < s.misfit {
		s.at, s.misfit = f.At, m
		clear(s.options)
	}
}

// same says whether two nets with the same known points are one.
func (s *state) same(t *state) bool {
	for i, c := range s.at {
		if s.known[i] && c.To(t.at[i]) > float64(adjust.Shortest) {
			return false
		}
	}
	return true
}

// loss is how badly measurements fit: the sum of squares in σ where they fit
// about, the logarithm of it where they do not (Cauchy).
func loss(near []*adjust.Observation, at []geom.Vector) (sum float64) {
	for _, x := range near {
		v := (x.Unsigned(at) - x.Value) / (ordinary * x.Sigma)
		if math.IsNaN(v) {
			return math.Inf(1)
		}
		sum += ordinary * ordinary * math.Log1p(v*v)
	}
	return sum
}

func (s *state) set(o *option, i int) {
	s.at[o.point], s.known[o.point] = o.places[i], true
	s.found = append(s.found, o.found[i])
}

// looked is the option of a point, worked out anew only where more is known.
func (p *problem) looked(u int, near []*adjust.Observation, s *state) *option {
	o := s.options[u]
	if o == nil || o.seen != len(near) || o.early || p.sided[u] {
		o = p.option(u, near, s, false)
		s.options[u] = o
	}
	return o
}

// next is the point to be hung on next, as the best of the nets has it that has
// one; −1 where there is none.
func (p *problem) next(all []*state) int {
	for _, s := range all {
		var best *option
		var open []*option
		for u := range p.Names {
			if s.known[u] {
				continue
			}
			near := p.hanging(u, s)
			if len(near) < 2 {
				continue
			}
			o := p.looked(u, near, s)
			if len(o.places) == 0 {
				continue
			}
			if o.open || o.doubt && len(all) == 1 {
				open = append(open, o)
			} else if best == nil || o.before(best) {
				best = o
			}
		}
		if best == nil {
			for _, o := range open {
				c := *o
				if c.closes = never - 1; o.open { // what holds a slip can wait for a fourth
					c.closes = p.closes(o.point, s)
				}
				c.open = true
				if best == nil || c.before(best) {
					best = &c
				}
			}
		}
		if best != nil {
			return best.point
		}
	}
	return -1
}

// never: a choice that no measurement is seen to end.
const never = 8

// closes is how many points, this one the first, must be hung on with a choice
// until one has three measurements, which tell the choices apart.
func (p *problem) closes(u int, s *state) int {
	known := slices.Clone(s.known)
	for depth := 1; depth < never; depth++ {
		tries := 2000
		if p.closed(u, known, depth, &tries) {
			return depth
		}
		if tries < 0 {
			return depth + 1
		}
	}
	return never
}

// closed says whether at most so many points more, each next to one before, end
// a choice.
func (p *problem) closed(u int, known []bool, depth int, tries *int) bool {
	if *tries--; *tries < 0 {
		return false
	}
	known[u] = true
	defer func() { known[u] = false }()
	var next []int
	for _, i := range p.Of[u] {
		for _, v := range p.Obs[i].Points() {
			if known[v] || slices.Contains(next, v) {
				continue
			}
			n := p.held(v, known)
			if n > 2 {
				return true
			}
			if n == 2 {
				next = append(next, v)
			}
		}
	}
	if depth < 2 {
		return false
	}
	for _, v := range next {
		if p.closed(v, known, depth-1, tries) {
			return true
		}
	}
	return false
}

// held counts the measurements of a point whose other points are known.
func (p *problem) held(u int, known []bool) (n int) {
	for _, i := range p.Of[u] {
		free := false
		for _, q := range p.Obs[i].Points() {
			free = free || q != u && !known[q]
		}
		if !free {
			n++
		}
	}
	return n
}
