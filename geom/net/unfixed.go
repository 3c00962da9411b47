package net

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
)

func notFixed(hint, what string, a ...any) error {
	return &triangle.NoTriangle{What: fmt.Sprintf(what, a...), Hint: hint}
}

// halves refuses a net whose parts share no measurement, and one without a length.
func (p *problem) halves() error {
	if len(p.Names) < 2 {
		return notFixed("measure distances between three points or more", "one point is no net")
	}
	part := make([]int, len(p.Names))
	for i := range part {
		part[i] = i
	}
	root := func(i int) int {
		for part[i] != i {
			part[i] = part[part[i]]
			i = part[i]
		}
		return i
	}
	lengths := len(p.control) > 0
	for i := range p.Obs {
		o := &p.Obs[i]
		lengths = lengths || o.Kind != triangle.Angle
		for _, q := range o.Points()[1:] {
			part[root(q)] = root(o.At[0])
		}
	}
	first := -1
	for i := range p.Names {
		if _, given := p.control[i]; given {
			if first >= 0 {
				part[root(i)] = root(first)
			}
			first = i
		}
	}
	groups := map[int][]geom.Name{}
	var order []int
	for i, n := range p.Names {
		r := root(i)
		if groups[r] == nil {
			order = append(order, r)
		}
		groups[r] = append(groups[r], n)
	}
	if len(order) > 1 {
		a, b := groups[order[0]], groups[order[1]]
		hint := fmt.Sprintf("measure from one to the other, three things such as %s", pair(a[0], b[0]))
		if len(a) > 1 && len(b) > 1 {
			hint = fmt.Sprintf("measure from one to the other, three things such as %s, %s and %s", pair(a[0], b[0]), pair(a[0], b[1]), pair(a[1], b[0]))
		} else if len(a) > 1 {
			hint = fmt.Sprintf("measure %s and %s", pair(a[0], b[0]), pair(a[1], b[0]))
		}
		in := "two halves"
		if len(order) > 2 {
			in = fmt.Sprintf("%d parts", len(order))
		}
		return notFixed(hint, "the net is in %s: nothing is measured from %s to %s", in, either(a), either(b))
	}
	if !lengths {
		return notFixed("measure one distance, such as "+pair(p.Names[0], p.Names[1]), "no length is measured: angles alone give the shape and not the size")
	}
	return nil
}

// either is "A", "A or B", "A, B or C"; of many only the first.
func either(names []geom.Name) string {
	const most = 6
	all := make([]string, 0, most)
	for _, n := range names[:min(len(names), most)] {
		all = append(all, string(n))
	}
	if n := len(names) - most; n > 0 {
		all = append(all, fmt.Sprintf("%d more", n))
	}
	return or(all)
}

// pair is a distance between two points, the one first in the alphabet first.
func pair(a, b geom.Name) string {
	if geom.Before(b, a) < 0 {
		a, b = b, a
	}
	return string(a + b)
}

// words are measurements as they were written.
func (p *problem) words(of []int) string {
	var all []string
	for _, i := range of {
		all = append(all, text(p.Measured[i]))
	}
	return geom.Listed(all)
}

func text(m triangle.Measurement) string {
	if m.Text != "" {
		return m.Text
	}
	return m.Subject() + "=" + m.Value.Text
}

// free says which point hangs free of the part that was found, and which
// measurement would fix it.
func (p *problem) free(s *state) error {
	if s == nil {
		return notFixed("measure one of its sides, such as "+pair(p.Names[0], p.Names[1]), "no triangle of the net is fixed by what is measured in it")
	}
	var known []geom.Name
	for i, n := range p.Names {
		if s.known[i] {
			known = append(known, n)
		}
	}
	order := slices.Clone(p.round)
	for u := range p.Names {
		if !slices.Contains(order, u) {
			order = append(order, u)
		}
	}
	best, most := -1, -1
	for _, u := range order {
		if s.known[u] {
			continue
		}
		near := p.hanging(u, s)
		if len(near) > 1 {
			return p.nowhere(u, near, s)
		}
		if len(near) > most {
			best, most = u, len(near)
		}
	}
	u := best
	near := p.hanging(u, s)
	if e := p.heightToUnknown(s); e != nil {
		return e
	}
	hint := "measure " + p.another(u, s) + " as well"
	if len(near) == 0 {
		hint = "measure " + p.another(u, s)
	}
	if p.rigid() {
		return notFixed(hint, "no triangle leads from %s on to %s, though the measurements together may fix it", geom.List(known), p.Names[u])
	}
	if len(near) == 0 {
		var free []geom.Name
		for i, n := range p.Names {
			if !s.known[i] {
				free = append(free, n)
			}
		}
		hang := "hangs"
		if len(free) > 1 {
			hang = "hang"
		}
		return notFixed(hint, "%s %s free: nothing fixes %s to %s", geom.List(free), hang, p.Names[u], geom.List(known))
	}
	return notFixed(hint, "%s hangs free: only %s holds it to %s", p.Names[u], text(p.Measured[near[0].Index]), geom.List(known))
}

// nowhere: two measurements that have no place in common.
func (p *problem) nowhere(u int, near []*adjust.Observation, s *state) error {
	a, b := near[0], near[1]
	texts := p.words([]int{a.Index, b.Index})
	_, from := a.Loci(u, s.at)
	_, other := b.Loci(u, s.at)
	if a.Kind == triangle.Distance && b.Kind == triangle.Distance {
		if from[0] == other[0] {
			return notFixed("measure "+p.another(u, s)+" as well", "%s hangs free: %s go to the same point", p.Names[u], texts)
		}
		d := s.at[from[0]].To(s.at[other[0]])
		base := pair(p.Names[from[0]], p.Names[other[0]])
		if gap := d - a.Value - b.Value; gap > 0 {
			return notFixed("measure them again, and "+base, "%s do not meet: %s is %s, %s more than both together", texts, base, p.Amount(d, 4), p.Amount(gap, 4))
		}
		return notFixed("measure them again, and "+base, "%s do not meet: they differ by %s and %s is only %s", texts, p.Amount(math.Abs(a.Value-b.Value), 4), base, p.Amount(d, 4))
	}
	for _, x := range p.asked.Sides {
		if p.Number[x.Point] == u {
			return notFixed("give the other side, or measure again", "%s have no place for %s on the side that is asked for", texts, p.Names[u])
		}
	}
	return notFixed("measure them again, or "+p.another(u, s)+" as well", "%s leave no place for %s", texts, p.Names[u])
}

// heightToUnknown finds a height whose line is itself not known.
func (p *problem) heightToUnknown(s *state) error {
	for i := range p.Obs {
		o := &p.Obs[i]
		if o.Kind != triangle.Height {
			continue
		}
		free := o.At[1]
		if s.known[free] {
			free = o.At[2]
		}
		if s.known[free] || !s.known[o.At[0]] && s.known[o.At[1]] != s.known[o.At[2]] && len(p.Of[free]) > 1 {
			continue
		}
		line := geom.Joined([]geom.Name{p.Names[o.At[1]], p.Names[o.At[2]]})
		if len(p.hanging(free, s)) > 0 && s.known[o.At[0]] && (s.known[o.At[1]] || s.known[o.At[2]]) {
			continue // then the height itself helps to find the line
		}
		return notFixed("measure "+p.another(free, s), "%s goes to the line %s, and nothing fixes %s", text(p.Measured[o.Index]), line, p.Names[free])
	}
	return nil
}

// another names what would fix u: a distance to a known point to which none is
// measured, or two where nothing holds it yet. Neighbours round the outline come
// first, then the points in the order of the alphabet.
func (p *problem) another(u int, s *state) string {
	var to []int
	add := func(v int) {
		if v == u || !s.known[v] || slices.Contains(to, v) {
			return
		}
		for _, i := range p.Of[u] {
			if o := &p.Obs[i]; o.Kind == triangle.Distance && o.Has(v) {
				return
			}
		}
		to = append(to, v)
	}
	if k, on := p.place[u]; on {
		n := len(p.round)
		add(p.round[(k+n-1)%n])
		add(p.round[(k+1)%n])
	}
	for v := range p.Names {
		add(v)
	}
	want := 1
	if len(p.hanging(u, s)) == 0 {
		want = 2
	}
	var all []string
	for _, v := range to[:min(want, len(to))] {
		all = append(all, pair(p.Names[u], p.Names[v]))
	}
	if len(all) == 0 {
		return "an angle at " + string(p.Names[u])
	}
	return strings.Join(all, " and ")
}

// rigid says whether the measurements fix the net in general, by how many of
// them are independent at places drawn at random (the same each time).
func (p *problem) rigid() bool {
	const most = 60 // points: beyond, the answer is not worth the time
	if len(p.Names) > most || len(p.Names) < 2 {
		return false
	}
	r := rand.New(rand.NewPCG(1, 2))
	s := p.blank()
	for i := range s.at {
		s.at[i] = geom.Vector{X: r.Float64() * 1000, Y: r.Float64() * 1000}
		if at, given := p.control[i]; given {
			s.at[i] = at
		}
	}
	obs := slices.Clone(p.Obs)
	adjust.Orient(obs, s.at)
	for i := range obs { // each as good as any other
		_, by := obs[i].Computed(s.at)
		obs[i].Sigma = max(by[0].Size(), by[1].Size(), by[2].Size())
	}
	free := p.unknowns(0, 1)
	const nothing = 1e-12
	return adjust.Equations{Obs: obs, Free: free}.Linear(s.at).Rank(nothing) == free.N
}
