package survey

import (
	"cmp"
	"fmt"
	"slices"

	"trammel/geom"
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
			return nil, no("give the outline, say of some points on which side of a line they lie, or measure more lines",
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
		for u := range p.names {
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
	o, s := p.obs[i], p.blank()
	a, b := o.at[0], o.at[1]
	s.known[a], s.known[b] = true, true
	s.at[b].x = o.value
	s.found = []Found{{Point: p.names[a]}, {Point: p.names[b], From: []geom.Name{p.names[a]}, By: []int{o.index}}}
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
	for u := range p.names {
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
			for i, name := range p.names {
				if at, given := p.control[i]; given {
					s.at[i], s.known[i] = at, true
					s.found = append(s.found, Found{Point: name})
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
	rank := func(o *observation) int {
		a, b := o.at[0], o.at[1]
		if p.Base != ([2]geom.Name{}) {
			q, r := p.number[p.Base[0]], p.number[p.Base[1]]
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
	for i := range p.obs {
		if p.obs[i].kind == geom.Distance {
			all = append(all, i)
		}
	}
	slices.SortStableFunc(all, func(i, j int) int {
		a, b := &p.obs[i], &p.obs[j]
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(b.value, a.value))
	})
	return all
}

// triangles are those of three points that are fixed by what is measured in
// them without any of their sides.
func (p *problem) triangles() (all []*state) {
	in := map[[3]int][]int{}
	var order [][3]int
	for i := range p.obs {
		if o := &p.obs[i]; o.n == 3 {
			key := o.at
			slices.Sort(key[:])
			if in[key] == nil {
				order = append(order, key)
			}
			in[key] = append(in[key], i)
		}
	}
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
				var ms []geom.Measurement
				for _, x := range three {
					m := p.Measured[p.obs[x].index]
					if m.Kind == geom.Angle { // a corner's name alone is enough for one triangle, not here
						for n, q := range p.obs[x].at {
							m.At[n] = p.names[q]
						}
					}
					ms = append(ms, m)
				}
				s, err := geom.Solve(ms, [2]geom.Name{})
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

func (p *problem) placed(t geom.Triangle, by []int) *state {
	s := p.blank()
	mirror := 1.0
	var at [3]int
	for i, n := range t.Names {
		at[i] = p.number[n]
	}
	a, b, c := p.place[at[0]], p.place[at[1]], p.place[at[2]]
	if n := len(p.round); n > 2 && (b-a+n)%n > (c-a+n)%n {
		mirror = -1
	}
	for i, q := range at {
		s.known[q], s.at[q] = true, plain(t.Points[i])
		s.at[q].y *= mirror
		f := Found{Point: t.Names[i], From: slices.Clone(t.Names[:i])}
		if i == 2 {
			for _, x := range by {
				f.By = append(f.By, p.obs[x].index)
			}
			f.Right, f.Why = mirror < 0, ByAlphabet
		}
		s.found = append(s.found, f)
	}
	return s
}

// Nothing tells two places apart where the measurements fit both with sums of
// squares that differ by less than this: 3 σ of one measurement.
const apart = 9

// mostFits bounds the nets that are adjusted to tell which is meant, each
// costing the third power of its points.
const mostFits = 5e6

// choose takes the one of several complete nets that the outline and the
// measurements mean. The best comes first.
func (p *problem) choose(whole []*state) (*state, error) {
	if len(whole) == 1 {
		return whole[0], nil
	}
	if len(p.round) > 2 {
		kept := slices.DeleteFunc(slices.Clone(whole), func(s *state) bool { return p.area(s) <= 0 || p.crossing(s.at) != [2]int{} })
		if len(kept) > 0 {
			whole = kept
		}
	}
	type tried struct {
		*state
		sum float64
		end []xy
	}
	var all []tried
	n := float64(len(p.names))
	for i, s := range whole {
		if i > 1 && float64(i)*n*n*n > mostFits {
			break
		}
		f, err := p.fit(s)
		if err != nil {
			continue
		}
		end := f.at
		if len(p.control) == 0 { // each has its own longest line
			end = laid(f.at, 0, 1)
		}
		if !p.keepsSides(s, end) { // it went over on the way
			continue
		}
		same := func(t tried) bool { return p.alike(t.end, end) }
		if !slices.ContainsFunc(all, same) {
			all = append(all, tried{s, f.sum, end})
		}
	}
	if len(all) == 0 {
		return whole[0], nil
	}
	upright := slices.DeleteFunc(slices.Clone(all), func(t tried) bool { return len(p.round) > 2 && p.area(&state{at: t.end}) < 0 })
	if len(upright) > 0 {
		all = upright
	}
	slices.SortStableFunc(all, func(a, b tried) int { return cmp.Compare(a.sum, b.sum) })
	// Of all that fit as well, the one that differs in the fewest points tells best
	// what is open.
	var fewest *turn
	for _, t := range all[1:] {
		if t.sum-all[0].sum < apart {
			if x := p.turned(all[0].state, all[0].end, t.end); fewest == nil || len(x.over) < len(fewest.over) {
				fewest = &x
			}
		}
	}
	if fewest != nil {
		return nil, p.twoPlaces(all[0].state, *fewest)
	}
	return all[0].state, nil
}

// alike says whether all points are the same within 1 mm, or the one net is the
// other turned over where no known points forbid it: what no one says is then
// settled by the first of the two.
func (p *problem) alike(a, b []xy) bool {
	same, over := true, len(p.control) == 0
	for i := range a {
		same = same && a[i].to(b[i]) <= float64(Shortest)
		over = over && a[i].to(xy{b[i].x, -b[i].y}) <= float64(Shortest)
	}
	return same || over
}

// keepsSides says whether the points still lie on the sides that were said of
// them.
func (p *problem) keepsSides(s *state, at []xy) bool {
	for _, f := range s.found {
		var base []int
		for _, n := range f.From {
			base = append(base, p.number[n])
		}
		u := p.number[f.Point]
		for _, x := range p.sidesOf(u, base, s) {
			if isLeft(at[x.a], at[x.b], at[u]) == x.right {
				return false
			}
		}
	}
	return true
}

// area that the outline encloses, positive where it runs counter-clockwise.
func (p *problem) area(s *state) (twice float64) {
	n := len(p.round)
	for i := range n {
		twice += s.at[p.round[i]].cross(s.at[p.round[(i+1)%n]])
	}
	return twice / 2
}

// crossing finds two edges of the outline that cross; zero where none do.
func (p *problem) crossing(at []xy) [2]int {
	n := len(p.round)
	corner := func(i int) xy { return at[p.round[i%n]] }
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			a, b, c, d := corner(i), corner(i+1), corner(j), corner(j+1)
			if (side(a, b, c) > 0) != (side(a, b, d) > 0) && (side(c, d, a) > 0) != (side(c, d, b) > 0) {
				return [2]int{i, j}
			}
		}
	}
	return [2]int{}
}

// turn is how one net differs from another: the first point, in the order of
// finding, that lies elsewhere as seen from its base, and all that do.
type turn struct {
	first int
	over  []int
}

// turned tells two nets apart that were adjusted.
func (p *problem) turned(s *state, a, b []xy) turn {
	t, most := turn{first: -1}, -1.0
	see := func(f Found, u int) float64 { // how far off u is in b, laid onto a by the base of f
		q, r := p.number[f.From[0]], p.number[f.From[1]]
		way, over := a[r].minus(a[q]).unit(), b[r].minus(b[q]).unit()
		c, d := a[u].minus(a[q]), b[u].minus(b[q])
		return xy{way.dot(c), way.cross(c)}.to(xy{over.dot(d), over.cross(d)})
	}
	var base Found
	for _, f := range s.found {
		if len(f.From) < 2 {
			continue
		}
		u := p.number[f.Point]
		off := see(f, u)
		if off > most {
			t.first, base, most = u, f, off
		}
		if off > p.noise(f, u, a) {
			t.first, base = u, f
			break
		}
	}
	for u := range p.names {
		if t.first >= 0 && see(base, u) > p.noise(base, u, a) {
			t.over = append(t.over, u)
		}
	}
	return t
}

// noise is by how much a point may well differ from one net to another that does
// not turn it over.
func (p *problem) noise(f Found, u int, at []xy) float64 {
	const share = 0.01 // of its distance from the base
	q := p.number[f.From[0]]
	return 10*float64(Shortest) + share*at[q].to(at[u])
}

// twoPlaces says which point may lie here or there.
func (p *problem) twoPlaces(s *state, t turn) error {
	if t.first < 0 {
		return no("give the outline, or measure more lines", "the measurements fit two nets that differ")
	}
	u := t.first
	i := slices.IndexFunc(s.found, func(f Found) bool { return f.Point == p.names[u] })
	f := s.found[i]
	stay := p.blank() // a measurement tells that leads from what is turned over to what is not
	for i := range p.names {
		stay.known[i] = !slices.Contains(t.over, i)
	}
	return no(fmt.Sprintf("say whether it lies left or right of %s, give the outline, or measure %s", joined(f.From[:2]), p.another(u, stay)),
		"%s may lie at two places as seen from %s: %s fit both", f.Point, joined(f.From[:2]), p.words(f.By))
}
