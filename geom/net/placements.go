package net

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"trammel/geom"
	"trammel/geom/adjust"
)

// Two lengths from two known points leave a point two places, one on each side. A placement of a net is one choice for
// each of its points; those of which the outline does not cross itself and that agree with all that was measured are
// what the net may be. They are searched depth first. A branch ends only where measurements between points that it has
// placed contradict it, adjusted by themselves: what a part cannot be fitted to, the whole cannot; or where two edges
// of the outline cross by more than an adjustment moves a point.

const (
	// mostPlacements are told apart; with more, nobody would read on.
	mostPlacements = 32
	// chanceOfAll is how seldom a sound net of the right shape fits as badly as one
	// that is no longer considered, chanceOfPart how seldom a part of it does.
	chanceOfAll  = 1e-3
	chanceOfPart = 1e-6
	// worse: the other placement fits by 5 σ of one measurement better.
	worse = 25
	// mostWork bounds a search, in about a nanosecond or two each.
	mostWork = 3e9
	// mostFirsts are the first lines from which a search is tried before it is given up.
	mostFirsts = 3
	// margin is how far over a line a point must lie before anything follows from it: the adjustment has yet to come.
	margin = 20 * float64(adjust.Shortest)
)

type placing struct {
	*problem
	sides   bool // heed Net.Sides
	most    int  // placements to find
	slack   float64
	freedom int
	work    float64 // left
	found   []placement
	gaveUp  bool
	stuck   bool                // a branch ended for another reason than a contradiction
	next    map[string]int      // the point to place next, by those that are known
	been    map[string][]*state // branches followed, by the same
	first   [3]int              // the triangle whose hand is that of a net without an outline, by the alphabet
}

// limit of a sum of squares by chance; where nothing is left over the others fit exactly.
func limit(freedom int, chance float64) float64 {
	if freedom <= 0 {
		return 1e-6
	}
	return distuv.ChiSquared{K: float64(freedom)}.Quantile(1 - chance)
}

// placements of the net that agree. whole is false where there may be more.
func (f *finder) placements(sides bool, most int, slack float64) (all []placement, whole bool) {
	start := f.firstTriangle()
	for i, first := range f.firsts()[:min(len(f.firsts()), mostFirsts)] {
		e := &placing{problem: f.problem, sides: sides, most: most, slack: slack, work: mostWork / float64(i+1), next: map[string]int{}, been: map[string][]*state{}, first: start}
		e.freedom = f.freedom()
		for _, s := range first {
			e.hang(s.clone())
		}
		all, whole = e.sifted(), !e.gaveUp && !(e.stuck && len(e.found) == 0)
		if whole || len(all) > 1 {
			break
		}
	}
	return all, whole
}

// firstTriangle is the one that a search from the first line begins with, whatever is said of sides.
func (f *finder) firstTriangle() (first [3]int) {
	s := f.firsts()[0][0]
	for i, x := range s.found[:min(len(s.found), 3)] {
		first[i] = f.Number[x.Point]
	}
	if len(s.found) == 2 {
		e := &placing{problem: f.problem, work: mostWork, next: map[string]int{}}
		if o := e.nextPoint(s.clone()); o != nil {
			first[2] = o.point
		}
	}
	slices.Sort(first[:])
	return first
}

// findFirsts lists the seeds from which all points can be reached; the triangles that three
// angles and heights fix belong together.
func (f *finder) findFirsts() (all [][]*state) {
	reaches := func(s *state) bool {
		known := slices.Clone(s.known)
		for again := true; again; {
			again = false
			for u := range known {
				if !known[u] && f.tied(u, known) > 1 {
					known[u], again = true, true
				}
			}
		}
		return !slices.Contains(known, false)
	}
	for s := range f.seeds {
		if !reaches(s) {
			continue
		}
		n := len(all)
		if n > 0 && s.count() == 3 && len(f.control) == 0 && slices.Equal(all[n-1][0].known, s.known) {
			all[n-1] = append(all[n-1], s)
			continue
		}
		all = append(all, []*state{s})
		if len(all) > mostFirsts {
			break
		}
	}
	const few = 12 // points: of more, the first choices should end soon
	if len(f.Names) > few && len(f.control) == 0 && len(all) > 0 && all[0][0].count() == 2 {
		var soon [][]*state
		for _, s := range f.soonest() {
			if reaches(s) {
				soon = append(soon, []*state{s})
			}
		}
		all = append(soon, all...)
	}
	return all
}

// hang gives the points that are left their places, one after the other.
func (e *placing) hang(s *state) {
	if e.work < 0 || len(e.found) >= e.most {
		e.gaveUp = true
		return
	}
	if s.all() {
		e.whole(s)
		return
	}
	if e.met(s) {
		return
	}
	o := e.nextPoint(s)
	if o == nil {
		e.stuck = true
		return
	}
	near := s.ties(o.point)
	left := e.likely(o, near, s)
	for _, t := range left {
		f := &t.found[len(t.found)-1]
		switch {
		case f.Why == BySide || len(o.places) == 1:
		case len(left) == 1 && len(near) > 2:
			f.Why = ByMeasurement
		default:
			f.Why = NothingElse
		}
		t.misfit += loss(near, t.at)
		if t.strained() {
			t.eased = t.count()
			e.ease(t, 4)
		}
		e.hang(t)
	}
}

// ease adjusts a branch on the way, which costs so many times as much as solving its equations.
func (e *placing) ease(s *state, times float64) {
	n := 2 * float64(s.count())
	e.work -= times * n * n * n / 3
	s.ease()
}

// met says whether a branch has become one that was followed already: from two places
// close to one line, what is measured to them may lead to one.
func (e *placing) met(s *state) bool {
	const near = 300 * float64(adjust.Shortest) // as far as the first guess of a place so close may be off
	key := s.key()
	for _, t := range e.been[key] {
		if !s.close(t, near) {
			continue
		}
		a, b := s.clone(), t.clone()
		e.ease(a, 8)
		e.ease(b, 8)
		if a.close(b, float64(adjust.Shortest)) {
			return true
		}
	}
	e.been[key] = append(e.been[key], s.clone())
	return false
}

func (s *state) key() string {
	key := make([]byte, len(s.known))
	for i, k := range s.known {
		if k {
			key[i] = 1
		}
	}
	return string(key)
}

// nextPoint is the point to place next, with its places: what more than two
// measurements hold first, then what two measurements will soon be joined by a third.
func (e *placing) nextPoint(s *state) *option {
	look := func(u int) *option { return s.remembered(u, s.ties(u), e.sides, e.anywhere) }
	key := s.key()
	if u, met := e.next[key]; met {
		if o := look(u); len(o.places) > 0 {
			return o
		}
	}
	var best, open *option
	for u := range e.Names {
		if s.known[u] || e.tied(u, s.known) < 2 {
			continue
		}
		o := look(u)
		switch {
		case len(o.places) == 0:
		case o.seen > 2 || len(o.places) == 1:
			if best == nil || o.trace < best.trace {
				best = o
			}
		case best == nil:
			o.closes = s.closes(u)
			e.work -= 2000
			if open == nil || cmp.Or(cmp.Compare(o.closes, open.closes), cmp.Compare(o.trace, open.trace)) < 0 {
				open = o
			}
		}
	}
	if best = cmp.Or(best, open); best != nil {
		e.next[key] = best.point
	}
	return best
}

// anywhere are all places of u that the surest two of its measurements leave, but for
// those on a wrong side. Where they all but meet, it is a little to both sides of between.
func (e *placing) anywhere(u int, near []*adjust.Observation, s *state) *option {
	o := &option{point: u, seen: len(near), trace: math.Inf(1)}
	tried := near[:min(len(near), mostTried)]
	e.work -= 500 * float64(len(tried)*len(tried))
	missed := adjust.Meetings(u, tried, s.at, func(a, b *adjust.Observation, places []geom.Vector) {
		trace := 0.0
		for _, c := range places {
			trace = max(trace, adjust.Intersection{Point: u, One: b, Two: a, At: c, Places: s.at}.Trace())
		}
		if len(places) > 0 && (trace < o.trace || o.one == nil) {
			o.trace, o.places, o.one, o.two = trace, places, b, a
		}
	})
	if o.one == nil {
		if missed.One == nil {
			return o
		}
		o.places, o.one, o.two = missed.Beside(), missed.Two, missed.One
	}
	base, why := s.baseOf(u, o.one, o.two), OnlyPlace
	// A net turned over is the same piece: the first triangle has one of its two hands, without an outline as
	// the alphabet has it. Where sides are said of points, it may be the other hand that they mean.
	if o.early = len(s.found) == 2 && len(e.control) == 0; o.early && !e.eitherHand() && len(base) > 1 {
		both := len(o.places)
		wantRight, _ := e.handOf(u, base)
		reason := ByOutline
		if len(e.round) == 0 {
			wantRight, reason = clockwise(base[0], base[1], u), ByAlphabet
		}
		if o.keep(func(c geom.Vector) bool { return rightOf(base, c, s) == wantRight }); len(o.places) < both {
			why = reason
		}
	}
	if e.sides && e.sided[u] {
		both := len(o.places)
		for _, x := range s.sidesOf(u, base) {
			o.keep(func(c geom.Vector) bool { return !(x.over(c, s.at) > margin) })
		}
		if len(o.places) < both {
			why = BySide
		}
	}
	o.describe(why, base, s)
	o.polish(near, s)
	return o
}

// likely are the branches of a point that nothing contradicts.
func (e *placing) likely(o *option, near []*adjust.Observation, s *state) (left []*state) {
	var ends []part
	for i := range o.places {
		t := s.clone()
		t.set(o, i)
		if e.crossed(o.point, t) || e.wrongSide(o.point, t) {
			continue
		}
		if end, against := e.contradicted(o.point, near, t); !against {
			left, ends = append(left, t), append(ends, end)
		}
	}
	// A place from which the adjustment leads far off, to where it leads from another, is no placement by itself.
	for i := 0; i < len(left); i++ {
		same := func(q part) bool { return len(q.end) > 0 && !q.strays && q.alike(ends[i]) }
		if ends[i].strays && slices.ContainsFunc(ends, same) {
			left, ends = slices.Delete(left, i, i+1), slices.Delete(ends, i, i+1)
			i--
		}
	}
	for i, t := range left {
		if ends[i].strays {
			e.ease(t, 8)
		}
	}
	return left
}

// wrongSide: a point whose line has only now been found.
func (e *placing) wrongSide(u int, s *state) bool {
	return e.sides && slices.ContainsFunc(e.sideLines(), func(x sideLine) bool {
		known := s.known[x.a] && s.known[x.b] && s.known[x.point]
		return known && slices.Contains([]int{x.point, x.a, x.b}, u) && x.over(s.at[x.point], s.at) > margin
	})
}

// whole adjusts a net of which every point is placed, and keeps it if it agrees.
func (e *placing) whole(s *state) {
	n := 2 * float64(len(e.Names))
	e.work -= 8 * n * n * n / 3
	f, err := e.fit(s.at)
	if err != nil {
		e.stuck = true
		return
	}
	_, _, crossed := e.polygon(f.At).Crossing()
	if f.Sum > e.slack*limit(max(e.freedom, 1), chanceOfAll) || crossed || e.Coincide(f.At) != nil {
		return
	}
	if again, err := e.fit(f.At); err == nil { // from far off one adjustment may stop short
		f = again
	}
	if len(e.round) == 0 && len(e.control) == 0 && !e.eitherHand() && !e.rightHand(placement{fit: f}) {
		if f, err = e.fit(overturned(f.At)); err != nil {
			return
		}
	}
	if e.sides && (!s.keepsSides(f.At) || slices.ContainsFunc(e.sideLines(), func(x sideLine) bool { return x.wrong(f.At[x.point], f.At) })) {
		return
	}
	t := s.clone()
	t.at = f.At
	q := t.placement(f)
	if !slices.ContainsFunc(e.found, func(o placement) bool {
		return o.alike(q) && (!e.eitherHand() || e.rightHand(o) == e.rightHand(q))
	}) {
		e.found = append(e.found, q)
	}
}

// eitherHand: sides are said of points, which may mean the net turned over.
func (e *placing) eitherHand() bool { return e.sides && len(e.asked.Sides) > 0 && len(e.control) == 0 }

// rightHand says whether a placement is as the outline, or else the alphabet, has it.
func (e *placing) rightHand(q placement) bool {
	if len(e.round) > 0 {
		return e.area(q.fit.At) > 0
	}
	c := e.first
	return geom.IsLeft(q.fit.At[c[0]], q.fit.At[c[1]], q.fit.At[c[2]])
}

// sifted are the placements found, the best first, without those that others fit much better than.
func (e *placing) sifted() []placement {
	all := slices.Clone(e.found)
	if e.eitherHand() {
		preferred(&all, e.rightHand)
	}
	slices.SortStableFunc(all, bySum)
	return slices.DeleteFunc(all, func(q placement) bool { return q.fit.Sum > all[0].fit.Sum+worse*e.slack })
}
