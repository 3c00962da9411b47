package net

import (
	"cmp"
	"fmt"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
)

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
		kept := slices.DeleteFunc(slices.Clone(whole), func(s *state) bool { return p.area(s.at) <= 0 || p.crossing(s.at) != [2]int{} })
		if len(kept) > 0 {
			whole = kept
		}
	}
	type tried struct {
		*state
		sum float64
		end []geom.Vector
	}
	var all []tried
	n := float64(len(p.Names))
	for i, s := range whole {
		if i > 1 && float64(i)*n*n*n > mostFits {
			break
		}
		f, err := p.fit(s.at)
		if err != nil {
			continue
		}
		end := f.At
		if len(p.control) == 0 { // each has its own longest line
			end = laid(f.At, 0, 1)
		}
		if !p.keepsSides(s, end) { // it went over on the way
			continue
		}
		same := func(t tried) bool { return p.alike(t.end, end) }
		if !slices.ContainsFunc(all, same) {
			all = append(all, tried{s, f.Sum, end})
		}
	}
	if len(all) == 0 {
		return whole[0], nil
	}
	upright := slices.DeleteFunc(slices.Clone(all), func(t tried) bool { return len(p.round) > 2 && p.area(t.end) < 0 })
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
func (p *problem) alike(a, b []geom.Vector) bool {
	same, over := true, len(p.control) == 0
	for i := range a {
		same = same && a[i].To(b[i]) <= float64(adjust.Shortest)
		over = over && a[i].To(geom.Vector{X: b[i].X, Y: -b[i].Y}) <= float64(adjust.Shortest)
	}
	return same || over
}

// keepsSides says whether the points still lie on the sides that were said of
// them.
func (p *problem) keepsSides(s *state, at []geom.Vector) bool {
	for _, f := range s.found {
		var base []int
		for _, n := range f.From {
			base = append(base, p.Number[n])
		}
		u := p.Number[f.Point]
		for _, x := range p.sidesOf(u, base, s) {
			if geom.IsLeft(at[x.a], at[x.b], at[u]) == x.right {
				return false
			}
		}
	}
	return true
}

// area that the outline encloses, positive where it runs counter-clockwise.
func (p *problem) area(at []geom.Vector) (twice float64) {
	n := len(p.round)
	for i := range n {
		twice += at[p.round[i]].Cross(at[p.round[(i+1)%n]])
	}
	return twice / 2
}

// crossing finds two edges of the outline that cross; zero where none do.
func (p *problem) crossing(at []geom.Vector) [2]int {
	n := len(p.round)
	corner := func(i int) geom.Vector { return at[p.round[i%n]] }
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			a, b, c, d := corner(i), corner(i+1), corner(j), corner(j+1)
			if (geom.Side(a, b, c) > 0) != (geom.Side(a, b, d) > 0) && (geom.Side(c, d, a) > 0) != (geom.Side(c, d, b) > 0) {
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
func (p *problem) turned(s *state, a, b []geom.Vector) turn {
	t, most := turn{first: -1}, -1.0
	see := func(f Placed, u int) float64 { // how far off u is in b, laid onto a by the base of f
		q, r := p.Number[f.From[0]], p.Number[f.From[1]]
		way, over := a[r].Minus(a[q]).Unit(), b[r].Minus(b[q]).Unit()
		c, d := a[u].Minus(a[q]), b[u].Minus(b[q])
		return geom.Vector{X: way.Dot(c), Y: way.Cross(c)}.To(geom.Vector{X: over.Dot(d), Y: over.Cross(d)})
	}
	var base Placed
	for _, f := range s.found {
		if len(f.From) < 2 {
			continue
		}
		u := p.Number[f.Point]
		off := see(f, u)
		if off > most {
			t.first, base, most = u, f, off
		}
		if off > p.noise(f, u, a) {
			t.first, base = u, f
			break
		}
	}
	for u := range p.Names {
		if t.first >= 0 && see(base, u) > p.noise(base, u, a) {
			t.over = append(t.over, u)
		}
	}
	return t
}

// noise is by how much a point may well differ from one net to another that does
// not turn it over.
func (p *problem) noise(f Placed, u int, at []geom.Vector) float64 {
	const share = 0.01 // of its distance from the base
	q := p.Number[f.From[0]]
	return 10*float64(adjust.Shortest) + share*at[q].To(at[u])
}

// twoPlaces says which point may lie here or there.
func (p *problem) twoPlaces(s *state, t turn) error {
	if t.first < 0 {
		return notFixed("give the outline, or measure more lines", "the measurements fit two nets that differ")
	}
	u := t.first
	i := slices.IndexFunc(s.found, func(f Placed) bool { return f.Point == p.Names[u] })
	f := s.found[i]
	stay := p.blank() // a measurement tells that leads from what is turned over to what is not
	for i := range p.Names {
		stay.known[i] = !slices.Contains(t.over, i)
	}
	return notFixed(fmt.Sprintf("say whether it lies left or right of %s, give the outline, or measure %s", geom.Joined(f.From[:2]), p.another(u, stay)),
		"%s may lie at two places as seen from %s: %s fit both", f.Point, geom.Joined(f.From[:2]), p.words(f.By))
}
