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

// mostFits bounds the nets that are adjusted to tell which is meant, each costing the third power of its points.
const mostFits = 5e6

// meant is the one of several complete nets that the outline and the measurements mean. The best comes first.
func (f *finder) meant(whole []*state) (*state, error) {
	if len(whole) == 1 {
		return whole[0], nil
	}
	preferred(&whole, func(s *state) bool {
		_, _, crossed := f.polygon(s.at).Crossing()
		return len(f.round) == 0 || f.area(s.at) > 0 && !crossed
	})
	var all []placement
	n := float64(len(f.Names))
	for i, s := range whole {
		if i > 1 && float64(i)*n*n*n > mostFits {
			break
		}
		q, err := s.fitted()
		if err == nil && s.keepsSides(q.end) && !slices.ContainsFunc(all, q.alike) { // else it went over on the way
			all = append(all, q)
		}
	}
	if len(all) == 0 {
		return whole[0], nil
	}
	preferred(&all, func(q placement) bool { return len(f.round) == 0 || f.area(q.end) >= 0 })
	slices.SortStableFunc(all, bySum)
	// Of all that fit as well, the one that differs in the fewest points tells best what is open.
	var fewest *turn
	for _, q := range all[1:] {
		if q.fit.Sum-all[0].fit.Sum < apart {
			if x := all[0].turned(q); fewest == nil || len(x.over) < len(fewest.over) {
				fewest = &x
			}
		}
	}
	if fewest != nil {
		return nil, fewest.twoPlaces(all[0].state)
	}
	return all[0].state, nil
}

// preferred leaves those that are good, where there are any.
func preferred[T any](all *[]T, good func(T) bool) {
	if kept := slices.DeleteFunc(slices.Clone(*all), func(x T) bool { return !good(x) }); len(kept) > 0 {
		*all = kept
	}
}

// placement is a whole net, adjusted.
type placement struct {
	*state
	fit *fitted
	end []geom.Vector // laid alike, for comparing: each has its own longest line
}

func bySum(q, r placement) int { return cmp.Compare(q.fit.Sum, r.fit.Sum) }

// fitted is the placement that a start leads to.
func (s *state) fitted() (placement, error) {
	f, err := s.fit(s.at)
	if err != nil {
		return placement{}, err
	}
	return s.placement(f), nil
}

func (s *state) placement(f *fitted) placement {
	if len(s.control) > 0 {
		return placement{s, f, f.At}
	}
	return placement{s, f, laid(f.At, [2]int{0, 1})}
}

// alike says whether all points are the same within 1 mm, or the one net is the other turned over where no
// known points forbid it: what no one says is then settled by the first of the two.
func (q placement) alike(r placement) bool {
	same, over := true, len(q.control) == 0
	for i, c := range r.end {
		same = same && q.end[i].To(c) <= float64(adjust.Shortest)
		over = over && q.end[i].To(geom.Vector{X: c.X, Y: -c.Y}) <= float64(adjust.Shortest)
	}
	return same || over
}

// keepsSides says whether the points still lie on the sides that were said of them.
func (s *state) keepsSides(at []geom.Vector) bool {
	for _, f := range s.found {
		var base []int
		for _, n := range f.From {
			base = append(base, s.Number[n])
		}
		u := s.Number[f.Point]
		if slices.ContainsFunc(s.sidesOf(u, base), func(x sideLine) bool { return x.wrong(at[u], at) }) {
			return false
		}
	}
	return true
}

// turn is how one net differs from another: the first point, in the order of
// finding, that lies elsewhere as seen from its base, and all that do.
type turn struct {
	first *Placed // nil: none
	over  []int
}

func (q placement) turned(r placement) (t turn) {
	const share = 0.01                                   // of its distance from the base a point may well differ, where nothing is turned over
	see := func(f *Placed, u int) (off, noise float64) { // how far off u is in r, laid onto q by the base of f
		from, to := q.Number[f.From[0]], q.Number[f.From[1]]
		way, over := q.end[to].Minus(q.end[from]).Unit(), r.end[to].Minus(r.end[from]).Unit()
		c, d := q.end[u].Minus(q.end[from]), r.end[u].Minus(r.end[from])
		off = geom.Vector{X: way.Dot(c), Y: way.Cross(c)}.To(geom.Vector{X: over.Dot(d), Y: over.Cross(d)})
		return off, 10*float64(adjust.Shortest) + share*c.Size()
	}
	most := -1.0
	for i := range q.found {
		f := &q.found[i]
		if len(f.From) < 2 {
			continue
		}
		off, noise := see(f, q.Number[f.Point])
		if off > most || off > noise {
			t.first, most = f, off
		}
		if off > noise {
			break
		}
	}
	for u := range q.Names {
		if t.first == nil {
			break
		}
		if off, noise := see(t.first, u); off > noise {
			t.over = append(t.over, u)
		}
	}
	return t
}

// line to measure that leads from what is turned over to what is not.
func (t turn) line(p *problem) string {
	return p.allBut(t.over).another(p.Number[t.first.Point])
}

// twoPlaces says which point may lie here or there.
func (t turn) twoPlaces(s *state) error {
	if t.first == nil {
		return notFixed("give the outline, or measure more lines", "the measurements fit two nets that differ")
	}
	base := geom.Joined(t.first.From[:2])
	return notFixed(fmt.Sprintf("say whether it lies left or right of %s, give the outline, or measure %s", base, t.line(s.problem)),
		"%s may lie at two places as seen from %s: %s fit both", t.first.Point, base, words(s.Measured, t.first.By))
}
