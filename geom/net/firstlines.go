package net

import (
	"cmp"
	"slices"
	"sync"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
)

// mostSeeds is how many first lines are tried before a net counts as not fixed.
const mostSeeds = 60

// finder looks for where the points of a net lie.
type finder struct {
	*problem
	lines   []int             // measured distances, in the order in which they are tried as the first line
	soonest func() []*state   // the first lines whose first choices end the soonest
	firsts  func() [][]*state // the seeds from which all points can be reached, those that belong together in one list
}

func (p *problem) finder() *finder {
	f := &finder{problem: p}
	f.lines = f.firstLines()
	f.soonest, f.firsts = sync.OnceValue(f.findSoonest), sync.OnceValue(f.findFirsts)
	return f
}

// firstLines are the measured distances: the baseline before the edges of the outline
// before the rest, the longest first.
func (f *finder) firstLines() (all []int) {
	rank := func(o *adjust.Observation) int {
		a, b := o.At[0], o.At[1]
		switch base := f.asked.Base; {
		case [2]geom.Name{f.Names[a], f.Names[b]} == base, [2]geom.Name{f.Names[b], f.Names[a]} == base:
			return 0
		case f.follows(a, b) || f.follows(b, a):
			return 1
		}
		return 2
	}
	for i := range f.Obs {
		if f.Obs[i].Kind == triangle.Distance {
			all = append(all, i)
		}
	}
	slices.SortStableFunc(all, func(i, j int) int {
		a, b := &f.Obs[i], &f.Obs[j]
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(b.Value, a.Value))
	})
	return all
}

// start finds every point by closed form. Where a choice stays open the
// measurements decide if they can, each branch being adjusted to all of them.
func (f *finder) start() (*state, error) {
	if err := f.checkJoined(); err != nil {
		return nil, err
	}
	var most *state
	var done [][]bool // what hung together from an earlier seed
	for seed := range f.seeds {
		within := func(known []bool) bool {
			return !slices.ContainsFunc(seed.found, func(p Placed) bool { return !known[f.Number[p.Point]] })
		}
		if slices.ContainsFunc(done, within) {
			continue // it leads no further than that did
		}
		leaves := f.grown(seed)
		if leaves == nil {
			return nil, notFixed("give the outline, say of some points on which side of a line they lie, or measure more lines",
				"too many points may lie at two places: more than %d nets are open at a time", mostFollowed)
		}
		if leaves[0].all() {
			return f.meant(leaves)
		}
		for _, l := range leaves {
			if most == nil || l.count() > most.count() {
				most = l
			}
			if !l.blocked() {
				done = append(done, l.known)
			}
		}
	}
	return nil, f.unfixed(most)
}

// grown grows a seed, or where too many choices are open at a time or it comes to fit badly (the first line
// may hold a slip), others in its stead: those whose first choices end the soonest.
func (f *finder) grown(seed *state) []*state {
	best, cut := grow(seed.clone())
	if best != nil && (!cut && !best[0].all() || best[0].sound()) || len(f.control) > 0 {
		return best
	}
	for _, s := range f.soonest() {
		leaves, _ := grow(s.clone())
		if leaves == nil || !leaves[0].all() {
			continue
		}
		if leaves[0].sound() {
			return leaves
		}
		if best == nil || leaves[0].misfit < best[0].misfit {
			best = leaves
		}
	}
	return best
}

// sound: it fits as by chance, but for a slip.
func (s *state) sound() bool { return s.misfit < hopeless+uneasy*float64(s.more()) }

func (f *finder) findSoonest() (all []*state) {
	const most = 6
	closes := map[*state]int{}
	for _, i := range f.lines {
		s := f.line(i)
		closes[s] = never
		for u := range f.Names {
			if !s.known[u] && f.tied(u, s.known) > 1 {
				closes[s] = min(closes[s], s.closes(u))
			}
		}
		all = append(all, s)
	}
	slices.SortStableFunc(all, func(s, t *state) int { return cmp.Compare(closes[s], closes[t]) })
	return all[:min(most, len(all))]
}

// line is the start from one measured distance.
func (f *finder) line(i int) *state {
	o, s := f.Obs[i], f.blank()
	a, b := o.At[0], o.At[1]
	s.known[a], s.known[b] = true, true
	s.at[b].X = o.Value
	s.found = []Placed{{Point: f.Names[a]}, {Point: f.Names[b], From: []geom.Name{f.Names[a]}, By: []int{o.Index}}}
	return s
}

// blocked: two measurements that do not meet keep a point from being found; from another line there may be a third.
func (s *state) blocked() bool {
	for u := range s.Names {
		if !s.known[u] && s.tied(u, s.known) > 1 {
			return true
		}
	}
	return false
}

// seeds are the first lines, the best first: known points; or one measured distance; or, where no distance
// leads on, a triangle that three other measurements fix.
func (f *finder) seeds(yield func(*state) bool) {
	if len(f.control) > 0 {
		s := f.blank()
		for i, name := range f.Names {
			if at, given := f.control[i]; given {
				s.at[i], s.known[i] = at, true
				s.found = append(s.found, Placed{Point: name})
			}
		}
		yield(s)
		return
	}
	for _, i := range f.lines[:min(len(f.lines), mostSeeds)] {
		if !yield(f.line(i)) {
			return
		}
	}
	if len(f.lines) > mostSeeds {
		return
	}
	order, in := byThree(f.Obs, func(o *adjust.Observation) bool { return o.N == 3 })
	tried := 0
	for _, key := range order {
		for _, s := range f.triangles(in[key]) {
			if tried++; tried > mostSeeds || !yield(s) {
				return
			}
		}
	}
}

// byThree groups observations by the three points that each is of, in the order of the first of each.
func byThree(obs []adjust.Observation, counts func(*adjust.Observation) bool) (order [][3]int, in map[[3]int][]int) {
	in = map[[3]int][]int{}
	for i := range obs {
		if o := &obs[i]; counts(o) {
			key := o.At
			slices.Sort(key[:])
			if in[key] == nil {
				order = append(order, key)
			}
			in[key] = append(in[key], i)
		}
	}
	return order, in
}

// triangles are those of the first three observations that fix one without any of its sides.
func (f *finder) triangles(obs []int) (all []*state) {
	for i := range obs {
		for j := range i {
			for k := range j {
				three := []int{obs[k], obs[j], obs[i]}
				var ms []triangle.Measurement
				for _, x := range three {
					m := f.Measured[f.Obs[x].Index]
					if m.Kind == triangle.Angle { // a corner's name alone is enough for one triangle, not here
						for n, q := range f.Obs[x].At {
							m.At[n] = f.Names[q]
						}
					}
					ms = append(ms, m)
				}
				s, err := triangle.Solve(ms, [2]geom.Name{})
				if err != nil {
					continue
				}
				for _, a := range s.Answers {
					all = append(all, f.placed(a.Triangle, three))
				}
				return all
			}
		}
	}
	return nil
}

// placed is the start from a triangle.
func (f *finder) placed(t triangle.Triangle, by []int) *state {
	s := f.blank()
	var at [3]int
	for i, n := range t.Names {
		at[i] = f.Number[n]
	}
	right, _ := f.handOf(at[2], at[:2])
	for i, q := range at {
		s.known[q], s.at[q] = true, geom.VectorOf(t.Points[i])
		x := Placed{Point: t.Names[i], From: slices.Clone(t.Names[:i])}
		if right {
			s.at[q].Y *= -1
		}
		if i == 2 {
			for _, k := range by {
				x.By = append(x.By, f.Obs[k].Index)
			}
			x.Right, x.Why = right, ByAlphabet
		}
		s.found = append(s.found, x)
	}
	return s
}
