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
	// hopeless is by how much worse than the best a net must fit to be dropped: more than one slip alone does.
	hopeless = 130
	// ordinary is the misfit in σ beyond which more of it counts for less and less,
	// so that one slip does not drown what all others say.
	ordinary = 3
	// uneasy is the misfit of one measurement more than needed above which a net is
	// adjusted on the way: by chance it is 0.9.
	uneasy = 2
	// astray is the same of a net of which nothing is right.
	astray = 8
	// mostEased bounds the work of one time.
	mostEased = 3e6
	// never: a choice that no measurement is seen to end.
	never = 8
)

func byMisfit(s, t *state) int { return cmp.Compare(s.misfit, t.misfit) }

// grow hangs point after point on what is known, the surest first and those with a choice last. Where nothing
// decides as yet, every choice is followed, all with the same points, until what is measured to later points
// tells: those that fit hopelessly worse than the best are dropped. It returns what is left, the best first;
// cut says that there were too many to follow all. Where that has lost the right one, nothing is left.
func grow(seed *state) (leaves []*state, cut bool) {
	all := []*state{seed}
	for {
		u := nextOf(all)
		if u < 0 {
			return all, cut
		}
		var grown []*state
		for _, s := range all {
			near := s.ties(u)
			o := s.remembered(u, near, true, decided)
			if len(o.places) == 0 && len(all) > 1 {
				o = s.decided(u, near, true)
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
		slices.SortStableFunc(grown, byMisfit)
		fit := func(s *state) bool { return s.misfit <= grown[0].misfit+hopeless }
		cut = cut || len(grown) > mostFollowed && fit(grown[mostFollowed])
		grown = slices.DeleteFunc(grown[:min(len(grown), mostFollowed)], func(s *state) bool { return !fit(s) })
		all = eased(grown)
		if cut && all[0].misfit > 3*hopeless+astray*float64(all[0].more()) {
			return nil, true
		}
	}
}

// eased adjusts what is known of each net where it is time. What began as two may have become one.
func eased(all []*state) (kept []*state) {
	known := all[0].count()
	if !all[0].strained() {
		return all
	}
	for i, t := range all {
		t.eased = known
		if n := float64(known); i == 0 || float64(i)*n*n*n < mostEased {
			t.ease()
		}
	}
	slices.SortStableFunc(all, byMisfit)
	for _, t := range all {
		if !slices.ContainsFunc(kept, func(k *state) bool { return k.close(t, float64(adjust.Shortest)) }) {
			kept = append(kept, t)
		}
	}
	return kept
}

// strained: what is measured in the known part has come to fit badly, be it that the errors of the first
// points have grown with each one hung on. More points by a quarter come between one time and the next.
func (s *state) strained() bool {
	more := s.more()
	return !(s.misfit < uneasy*float64(more)) && 4*s.count() >= 5*s.eased && more > 0
}

// more counts what is measured in the known part of a net beyond what fixes it.
func (s *state) more() int {
	free := 3
	if len(s.control) > 0 {
		free = 2 * len(s.control)
	}
	more := free - 2*s.count()
	for i := range s.Obs {
		if s.Obs[i].Among(s.known) {
			more++
		}
	}
	return more
}

// ease adjusts what is known of a net, if it then fits better.
func (s *state) ease() {
	var obs []adjust.Observation
	for i := range s.Obs {
		if s.Obs[i].Among(s.known) {
			obs = append(obs, s.Obs[i])
		}
	}
	first, second := s.Number[s.found[0].Point], s.Number[s.found[1].Point]
	free := adjust.NewUnknowns(len(s.Names), func(i int) (x, y bool) {
		_, held := s.control[i]
		held = held || !s.known[i]
		anywhere := len(s.control) == 0
		return held || anywhere && i == first, held || anywhere && (i == first || i == second)
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

// nextOf is the point to be hung on next, as the best of the nets has it that has one; −1 where there is none.
func nextOf(all []*state) int {
	for _, s := range all {
		var best *option
		var open []*option
		for u := range s.Names {
			if s.known[u] || s.tied(u, s.known) < 2 {
				continue
			}
			o := s.remembered(u, s.ties(u), true, decided)
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
					c.closes = s.closes(o.point)
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

// closes is how many points, this one the first, must be hung on with a choice
// until one has three measurements, which tell the choices apart.
func (s *state) closes(u int) int {
	known := slices.Clone(s.known)
	for depth := 1; depth < never; depth++ {
		tries := 2000
		if s.closed(u, known, depth, &tries) {
			return depth
		}
		if tries < 0 {
			return depth + 1
		}
	}
	return never
}

// closed says whether at most so many points more, each next to one before, end a choice.
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
			n := p.tied(v, known)
			if n > 2 {
				return true
			}
			if n == 2 {
				next = append(next, v)
			}
		}
	}
	return depth > 1 && slices.ContainsFunc(next, func(v int) bool { return p.closed(v, known, depth-1, tries) })
}
