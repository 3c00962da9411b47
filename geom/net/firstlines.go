package net

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
)

// mostSeeds is how many first lines are tried before a net counts as not fixed.
const mostSeeds = 60

// start finds every point by closed form. Where a choice stays open the
// measurements decide if they can, each branch being adjusted to all of them.
func (p *problem) start() (*state, error) {
	if err := p.halves(); err != nil {
		return nil, err
	}
	var most *state
	var done [][]bool // what hung together from an earlier seed
	for _, seed := range p.seeds() {
		if slices.ContainsFunc(done, func(known []bool) bool { return within(seed.known, known) }) {
			continue // it leads no further than that did
		}
		leaves := p.grown(seed)
		if leaves == nil {
			return nil, notFixed("give the outline, say of some points on which side of a line they lie, or measure more lines",
				"too many points may lie at two places: more than %d nets are open at a time", mostFollowed)
		}
		if leaves[0].all() {
			return p.choose(leaves)
		}
		for _, l := range leaves {
			if most == nil || l.count() > most.count() {
				most = l
			}
			if !p.blocked(l) {
				done = append(done, l.known)
			}
		}
	}
	return nil, p.free(most)
}

// grown grows a seed, or where too many choices are open at a time or it comes to
// fit badly (the first line may hold a slip), others in its stead: those whose
// first choices end the soonest.
func (p *problem) grown(seed *state) []*state {
	leaves, cut := p.grow(seed.clone())
	if leaves != nil && (!cut && !leaves[0].all() || p.sound(leaves[0])) || len(p.control) > 0 {
		return leaves
	}
	best := leaves
	for _, s := range p.soonest() {
		leaves, _ := p.grow(s)
		if leaves == nil || !leaves[0].all() {
			continue
		}
		if p.sound(leaves[0]) {
			return leaves
		}
		if best == nil || leaves[0].misfit < best[0].misfit {
			best = leaves
		}
	}
	return best
}

// sound: it fits as by chance, but for a slip.
func (p *problem) sound(s *state) bool {
	return s.misfit < hopeless+uneasy*float64(p.more(s))
}

// soonest are the first lines whose first choices end the soonest.
func (p *problem) soonest() (all []*state) {
	const most = 6
	type soon struct {
		*state
		closes int
	}
	var lines []soon
	for _, i := range p.lines() {
		s := p.line(i)
		closes := never
		for u := range p.Names {
			if !s.known[u] && p.held(u, s.known) > 1 {
				closes = min(closes, p.closes(u, s))
			}
		}
		lines = append(lines, soon{s, closes})
	}
	slices.SortStableFunc(lines, func(a, b soon) int { return cmp.Compare(a.closes, b.closes) })
	for _, l := range lines[:min(most, len(lines))] {
		all = append(all, l.state)
	}
	return all
}

// line is the start from one measured distance.
func (p *problem) line(i int) *state {
	o, s := p.Obs[i], p.blank()
	a, b := o.At[0], o.At[1]
	s.known[a], s.known[b] = true, true
	s.at[b].X = o.Value
	s.found = []Placed{{Point: p.Names[a]}, {Point: p.Names[b], From: []geom.Name{p.Names[a]}, By: []int{o.Index}}}
	return s
}

// within says whether all of a are in b.
func within(a, b []bool) bool {
	for i := range a {
		if a[i] && !b[i] {
			return false
		}
	}
	return true
}

// blocked: two measurements that do not meet keep a point from being found; from
// another line there may be a third.
func (p *problem) blocked(s *state) bool {
	for u := range p.Names {
		if !s.known[u] && len(p.hanging(u, s)) > 1 {
			return true
		}
	}
	return false
}

// seeds are the first lines, the best first: known points; or one measured
// distance, the baseline before the edges of the outline before the rest, the
// longest first; or, where no distance leads on, a triangle that three other
// measurements fix.
func (p *problem) seeds() func(yield func(int, *state) bool) {
	return func(yield func(int, *state) bool) {
		if len(p.control) > 0 {
			s := p.blank()
			for i, name := range p.Names {
				if at, given := p.control[i]; given {
					s.at[i], s.known[i] = at, true
					s.found = append(s.found, Placed{Point: name})
				}
			}
			yield(0, s)
			return
		}
		tried := 0
		for _, i := range p.lines() {
			if tried == mostSeeds {
				return
			}
			if !yield(tried, p.line(i)) {
				return
			}
			tried++
		}
		for _, s := range p.triangles() {
			if tried == 2*mostSeeds || !yield(tried, s) {
				return
			}
			tried++
		}
	}
}

// lines are the measured distances in the order in which they are tried as the
// first line.
func (p *problem) lines() (all []int) {
	rank := func(o *adjust.Observation) int {
		a, b := o.At[0], o.At[1]
		if p.asked.Base != ([2]geom.Name{}) {
			q, r := p.Number[p.asked.Base[0]], p.Number[p.asked.Base[1]]
			if a == q && b == r || a == r && b == q {
				return 0
			}
		}
		i, atI := p.place[a]
		j, atJ := p.place[b]
		if n := len(p.round); atI && atJ && ((i-j+n)%n == 1 || (j-i+n)%n == 1) {
			return 1
		}
		return 2
	}
	for i := range p.Obs {
		if p.Obs[i].Kind == triangle.Distance {
			all = append(all, i)
		}
	}
	slices.SortStableFunc(all, func(i, j int) int {
		a, b := &p.Obs[i], &p.Obs[j]
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(b.Value, a.Value))
	})
	return all
}

// byThree groups observations by the three points that each is of, in the order of
// the first of each.
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

// triangles are those of three points that are fixed by what is measured in
// them without any of their sides.
func (p *problem) triangles() (all []*state) {
	order, in := byThree(p.Obs, func(o *adjust.Observation) bool { return o.N == 3 })
	for _, key := range order {
		if len(in[key]) < 3 || len(all) >= mostSeeds {
			continue
		}
		all = append(all, p.solved(key, in[key])...)
	}
	return all
}

// solved are the triangles of the first three observations that fix one.
func (p *problem) solved(key [3]int, obs []int) (all []*state) {
	for i := range obs {
		for j := range i {
			for k := range j {
				three := []int{obs[k], obs[j], obs[i]}
				var ms []triangle.Measurement
				for _, x := range three {
					m := p.Measured[p.Obs[x].Index]
					if m.Kind == triangle.Angle { // a corner's name alone is enough for one triangle, not here
						for n, q := range p.Obs[x].At {
							m.At[n] = p.Names[q]
						}
					}
					ms = append(ms, m)
				}
				s, err := triangle.Solve(ms, [2]geom.Name{})
				if err != nil {
					continue
				}
				for _, a := range s.Answers {
					all = append(all, p.placed(a.Triangle, three))
				}
				return all
			}
		}
	}
	return nil
}

func (p *problem) placed(t triangle.Triangle, by []int) *state {
	s := p.blank()
	mirror := 1.0
	var at [3]int
	for i, n := range t.Names {
		at[i] = p.Number[n]
	}
	a, b, c := p.place[at[0]], p.place[at[1]], p.place[at[2]]
	if n := len(p.round); n > 2 && (b-a+n)%n > (c-a+n)%n {
		mirror = -1
	}
	for i, q := range at {
		s.known[q], s.at[q] = true, geom.VectorOf(t.Points[i])
		s.at[q].Y *= mirror
		f := Placed{Point: t.Names[i], From: slices.Clone(t.Names[:i])}
		if i == 2 {
			for _, x := range by {
				f.By = append(f.By, p.Obs[x].Index)
			}
			f.Right, f.Why = mirror < 0, ByAlphabet
		}
		s.found = append(s.found, f)
	}
	return s
}
