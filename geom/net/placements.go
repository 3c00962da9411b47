package net

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// Two lengths from two known points leave a point two places, one on each side. A
// placement of a net is one choice for each of its points; those of which the
// outline does not cross itself and that agree with all that was measured are what
// the net may be. They are searched depth first. A branch ends only where
// measurements between points that it has placed contradict it, adjusted by
// themselves: what a part cannot be fitted to, the whole cannot; or where two edges
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
)

// placing is a search for placements.
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
	failed  error               // of the last that could not be adjusted
	next    map[string]int      // the point to place next, by those that are known
	been    map[string][]*state // branches followed, by the same
	first   [3]int              // the triangle whose hand is that of a net without an outline, by the alphabet
}

// placement is a whole net that agrees with what was measured.
type placement struct {
	*state
	fit *fitted
	end []geom.Vector // laid alike, for comparing
}

// limit of a sum of squares by chance.
func limit(freedom int, chance float64) float64 {
	return distuv.ChiSquared{K: float64(max(freedom, 1))}.Quantile(1 - chance)
}

// placements of the net that agree. whole is false where there may be more.
func (p *problem) placements(sides bool, most int, slack float64) (all []placement, whole bool) {
	firsts := p.firsts()
	if len(firsts) == 0 {
		return nil, false
	}
	triangle := p.firstTriangle(firsts[0][0])
	for i, first := range firsts[:min(len(firsts), mostFirsts)] {
		e := &placing{problem: p, sides: sides, most: most, slack: slack, work: mostWork / float64(i+1), next: map[string]int{}, been: map[string][]*state{}, first: triangle}
		e.freedom = len(p.Obs) - p.unknowns(0, 1).N
		for _, s := range first {
			e.hang(s.clone())
		}
		all, whole = e.sifted(), !e.gaveUp && !(e.stuck && len(e.found) == 0)
		if whole || len(all) > 1 {
			return all, whole
		}
	}
	return all, false
}

// firstTriangle is the one that a search from a first line begins with, whatever is
// said of sides.
func (p *problem) firstTriangle(s *state) (first [3]int) {
	for i, f := range s.found[:min(len(s.found), 3)] {
		first[i] = p.Number[f.Point]
	}
	if len(s.found) == 2 {
		e := &placing{problem: p, work: mostWork, next: map[string]int{}}
		if o := e.nextPoint(s.clone()); o != nil {
			first[2] = o.point
		}
	}
	slices.Sort(first[:])
	return first
}

// mostFirsts are the first lines from which a search is tried before it is given up.
const mostFirsts = 3

// firsts are the seeds from which all points can be reached, those that belong
// together in one list: the triangles that three angles and heights fix.
func (p *problem) firsts() (all [][]*state) {
	reaches := func(s *state) bool {
		known := slices.Clone(s.known)
		for again := true; again; {
			again = false
			for u := range known {
				if !known[u] && p.held(u, known) > 1 {
					known[u], again = true, true
				}
			}
		}
		return !slices.Contains(known, false)
	}
	for _, s := range p.seeds() {
		if !reaches(s) {
			continue
		}
		if n := len(all); n > 0 && s.count() == 3 && len(p.control) == 0 {
			if last := all[n-1][0]; slices.Equal(last.known, s.known) {
				all[n-1] = append(all[n-1], s)
				continue
			}
		}
		all = append(all, []*state{s})
		if len(all) > mostFirsts {
			break
		}
	}
	const few = 12 // points: of more, the first choices should end soon
	if len(p.Names) > few && len(p.control) == 0 && len(all) > 0 && all[0][0].count() == 2 {
		var soon [][]*state
		for _, s := range p.soonest() {
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
	near := e.hanging(o.point, s)
	left := e.likely(o, near, s)
	for i, t := range left {
		f := &t.found[len(t.found)-1]
		switch {
		case f.Why == BySide || len(o.places) == 1:
		case len(left) == 1 && len(near) > 2:
			f.Why = ByMeasurement
		default:
			f.Why = NothingElse
		}
		t.misfit += loss(near, t.at)
		e.ease(t)
		e.hang(t)
		if i < len(left)-1 && (e.work < 0 || len(e.found) >= e.most) {
			e.gaveUp = true
			return
		}
	}
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
		e.work -= 16 * cube(2*s.count())
		e.problem.ease(a)
		e.problem.ease(b)
		if a.close(b, float64(adjust.Shortest)) {
			return true
		}
	}
	e.been[key] = append(e.been[key], s.clone())
	return false
}

// close says whether two nets with the same known points are about one.
func (s *state) close(t *state, within float64) bool {
	for i, c := range s.at {
		if s.known[i] && !(c.To(t.at[i]) <= within) {
			return false
		}
	}
	return true
}

// key of the points known.
func (s *state) key() string {
	key := make([]byte, (len(s.known)+7)/8)
	for i, k := range s.known {
		if k {
			key[i/8] |= 1 << (i % 8)
		}
	}
	return string(key)
}

// ease adjusts a branch on the way where errors have grown.
func (e *placing) ease(s *state) {
	known, more := s.count(), e.more(s)
	if s.misfit < uneasy*float64(more) || 4*known < 5*s.eased || more < 1 {
		return
	}
	s.eased = known
	e.work -= 4 * cube(2*known)
	e.problem.ease(s)
}

func cube(n int) float64 { return float64(n) * float64(n) * float64(n) / 3 }

// nextPoint is the point to place next, with its places: what more than two
// measurements hold first, then what two measurements will soon be joined by a third.
func (e *placing) nextPoint(s *state) *option {
	key := s.key()
	if u, met := e.next[key]; met {
		if o := e.look(u, s); len(o.places) > 0 {
			return o
		}
	}
	var best, open *option
	for u := range e.Names {
		if s.known[u] {
			continue
		}
		if e.held(u, s.known) < 2 {
			continue
		}
		o := e.look(u, s)
		if len(o.places) == 0 {
			continue
		}
		if o.seen > 2 || len(o.places) == 1 {
			if best == nil || o.trace < best.trace {
				best = o
			}
			continue
		}
		if best == nil {
			o.closes = e.closes(u, s)
			e.work -= 2000
			if open == nil || cmp.Or(cmp.Compare(o.closes, open.closes), cmp.Compare(o.trace, open.trace)) < 0 {
				open = o
			}
		}
	}
	if best == nil {
		best = open
	}
	if best != nil {
		e.next[key] = best.point
	}
	return best
}

// look is where a point may lie, worked out anew only where more is known.
func (e *placing) look(u int, s *state) *option {
	near := e.hanging(u, s)
	o := s.options[u]
	if o == nil || o.seen != len(near) || o.early || e.sides && e.sided[u] {
		o = e.where(u, near, s)
		s.options[u] = o
	}
	return o
}

// where are all places of u that the surest two of its measurements leave. Where
// they all but meet, it is a little to both sides of between.
func (e *placing) where(u int, near []*adjust.Observation, s *state) *option {
	best := &option{point: u, seen: len(near), trace: math.Inf(1)}
	tried := near[:min(len(near), mostTried)]
	e.work -= 500 * float64(len(tried)*len(tried))
	var one, two *adjust.Observation
	missed := adjust.Meetings(u, tried, s.at, func(a, b *adjust.Observation, places []geom.Vector) {
		trace := 0.0
		for _, c := range places {
			trace = max(trace, adjust.Intersection{Point: u, One: b, Two: a, At: c, Places: s.at}.Trace())
		}
		if len(places) > 0 && (trace < best.trace || one == nil) {
			best.trace, best.places, one, two = trace, places, b, a
		}
	})
	if one == nil {
		if missed.One == nil {
			return best
		}
		best.places, one, two = missed.Beside(), missed.Two, missed.One
	}
	both := len(best.places)
	if len(s.found) == 2 && len(e.control) == 0 {
		best.early = true
		e.upright(best, one, two, s)
	}
	e.describe(best, one, two, s)
	for i := range best.found {
		if len(best.places) < both && best.found[i].Why == OnlyPlace {
			best.found[i].Why = ByAlphabet
			if len(e.round) > 2 {
				best.found[i].Why = ByOutline
			}
		}
	}
	for i, c := range best.places {
		best.places[i] = adjust.Intersection{Point: u, One: one, Two: two, At: c, Places: s.at}.Polished(near)
	}
	return best
}

// upright leaves the first triangle one of its two hands: without an outline as the
// alphabet has it. A net turned over is the same piece; where sides are said of
// points, it may be the other hand that they mean.
func (e *placing) upright(o *option, one, two *adjust.Observation, s *state) {
	if e.eitherHand() {
		return
	}
	base := e.baseOf(o.point, one, two, s)
	if len(base) < 2 {
		return
	}
	wantRight, _ := e.byOutline(o.point, base)
	if len(e.round) == 0 {
		wantRight = e.clockwise(base[0], base[1], o.point)
	}
	o.places = slices.DeleteFunc(slices.Clone(o.places), func(c geom.Vector) bool {
		return geom.IsLeft(s.at[base[0]], s.at[base[1]], c) == wantRight
	})
}

// baseOf are the known points that two measurements come from, in the order of the
// alphabet.
func (p *problem) baseOf(u int, one, two *adjust.Observation, s *state) (base []int) {
	for _, x := range []*adjust.Observation{one, two} {
		_, from := x.Loci(u, s.at)
		for _, q := range from {
			if !slices.Contains(base, q) {
				base = append(base, q)
			}
		}
	}
	slices.Sort(base)
	return base
}

// describe says of each place how it was found, and drops those on a wrong side.
func (e *placing) describe(o *option, one, two *adjust.Observation, s *state) {
	f := Placed{Point: e.Names[o.point], By: []int{one.Index, two.Index}}
	slices.Sort(f.By)
	base := e.baseOf(o.point, one, two, s)
	for _, q := range base {
		f.From = append(f.From, e.Names[q])
	}
	if len(o.places) == 1 {
		f.Why = OnlyPlace
	}
	if e.sides && e.sided[o.point] {
		var kept []geom.Vector
		for _, c := range o.places {
			wrong := false
			for _, x := range e.sidesOf(o.point, base, s) {
				off := geom.Side(s.at[x.a], s.at[x.b], c) / s.at[x.a].To(s.at[x.b])
				wrong = wrong || off > margin && x.right || off < -margin && !x.right
			}
			if !wrong {
				kept = append(kept, c)
			}
		}
		if len(kept) < len(o.places) {
			f.Why = BySide
		}
		o.places = kept
	}
	o.found = nil
	for _, c := range o.places {
		g := f
		g.Right = len(base) > 1 && !geom.IsLeft(s.at[base[0]], s.at[base[1]], c)
		o.found = append(o.found, g)
	}
}

// margin is how far over a line a point must lie before anything follows from it:
// the adjustment has yet to come.
const margin = 20 * float64(adjust.Shortest)

// likely are the branches of a point that nothing contradicts.
func (e *placing) likely(o *option, near []*adjust.Observation, s *state) (left []*state) {
	var ends []part
	for i := range o.places {
		t := s.clone()
		t.set(o, i)
		if e.crossed(o.point, t) || e.wrongSide(o.point, t) {
			continue
		}
		end, against := e.contradicted(o.point, near, t)
		if against {
			continue
		}
		left, ends = append(left, t), append(ends, end)
	}
	// A place from which the adjustment leads far off, to where it leads from another,
	// is no placement by itself.
	for i := 0; i < len(left); i++ {
		same := func(q part) bool { return len(q.end) > 0 && !q.strays && q.alike(ends[i]) }
		if ends[i].strays && slices.ContainsFunc(ends, same) {
			left, ends = slices.Delete(left, i, i+1), slices.Delete(ends, i, i+1)
			i--
		}
	}
	for i, t := range left {
		if ends[i].strays {
			e.work -= 8 * cube(2*t.count())
			e.problem.ease(t)
		}
	}
	return left
}

// wrongSide: a point whose line has only now been found.
func (e *placing) wrongSide(u int, s *state) bool {
	if !e.sides {
		return false
	}
	for _, x := range e.asked.Sides {
		if x.Of == ([2]geom.Name{}) {
			continue
		}
		c, a, b := e.Number[x.Point], e.Number[x.Of[0]], e.Number[x.Of[1]]
		if u != c && u != a && u != b || !s.known[a] || !s.known[b] || !s.known[c] {
			continue
		}
		off := geom.Side(s.at[a], s.at[b], s.at[c]) / s.at[a].To(s.at[b])
		if off > margin && x.Right || off < -margin && !x.Right {
			return true
		}
	}
	return false
}

// crossed says whether an edge at u crosses another so far that no adjustment undoes it.
func (e *placing) crossed(u int, s *state) bool {
	k, on := e.place[u]
	n := len(e.round)
	if !on || n < 4 {
		return false
	}
	corner := func(i int) int { return e.round[(i+n)%n] }
	e.work -= 10 * float64(n)
	for _, i := range []int{k - 1, k} {
		a, b := corner(i), corner(i+1)
		if !s.known[a] || !s.known[b] {
			continue
		}
		for j := range n {
			c, d := corner(j), corner(j+1)
			if c == a || c == b || d == a || d == b || !s.known[c] || !s.known[d] {
				continue
			}
			if over(s.at[a], s.at[b], s.at[c], s.at[d]) && over(s.at[c], s.at[d], s.at[a], s.at[b]) {
				return true
			}
		}
	}
	return false
}

// over says whether c and d lie well on both sides of the line ab.
func over(a, b, c, d geom.Vector) bool {
	l := a.To(b)
	x, y := geom.Side(a, b, c)/l, geom.Side(a, b, d)/l
	far := max(margin, 0.002*l)
	return x > far && y < -far || x < -far && y > far
}

// contradicted says whether the measurements round u, adjusted by themselves, are
// more off than chance has it. First those of its neighbours, then wider and wider.
func (e *placing) contradicted(u int, near []*adjust.Observation, s *state) (end part, against bool) {
	const plain = 3 // σ, and nothing needs a closer look
	bad, strays := false, false
	for _, x := range near {
		off := math.Abs(x.Unsigned(s.at) - x.Value)
		bad = bad || !(off < plain*x.Sigma)
		strays = strays || !(off < x.Reach(s.at))
	}
	if !bad && len(near) < 3 {
		return part{}, false
	}
	in := make([]bool, len(e.Names))
	in[u] = true
	for count := 1; ; {
		before := count
		next := slices.Clone(in)
		for v := range in {
			if !in[v] {
				continue
			}
			for _, i := range e.Of[v] {
				if o := &e.Obs[i]; o.Among(s.known) {
					for _, q := range o.Points() {
						if !next[q] {
							next[q] = true
							count++
						}
					}
				}
			}
		}
		const wide = 40 // points; beyond, what does not show near by is left for the whole
		if in = next; count == before || count > wide {
			return end, false
		}
		q, all := e.core(u, near, in, s)
		if q.obs == nil {
			continue
		}
		q.strays = strays
		if end = q; e.apart(u, &end, s) {
			return end, true
		}
		if all {
			return end, false
		}
	}
}

// part is some of the points placed, and what was measured between them.
type part struct {
	in     []bool
	count  int
	obs    []adjust.Observation
	end    []geom.Vector // adjusted by itself
	strays bool          // it began far from there
}

// alike says whether two adjusted parts of the same points are one, turned over or not.
func (q part) alike(r part) bool {
	if !slices.Equal(q.in, r.in) || len(r.end) == 0 {
		return false
	}
	var of []int
	for i, in := range q.in {
		if in {
			of = append(of, i)
		}
	}
	for k, i := range of {
		for _, j := range of[:k] {
			const same = 3 * float64(adjust.Shortest)
			if !(math.Abs(q.end[i].To(q.end[j])-r.end[i].To(r.end[j])) < same) {
				return false
			}
		}
	}
	return true
}

// core leaves out what nothing checks: points of two measurements or fewer, again
// and again. all says that every measurement to u is among what is left.
func (e *placing) core(u int, near []*adjust.Observation, in []bool, s *state) (left part, all bool) {
	in = slices.Clone(in)
	for {
		var obs []adjust.Observation
		degree := make([]int, len(in))
		for i := range e.Obs {
			if o := &e.Obs[i]; o.Among(s.known) && o.Among(in) {
				obs = append(obs, *o)
				for _, q := range o.Points() {
					degree[q]++
				}
			}
		}
		gone, count := false, 0
		for v := range in {
			_, held := e.control[v]
			if in[v] && degree[v] < 3 && !held && (v != u || len(near) > 2) {
				in[v], gone = false, true
			} else if in[v] {
				count++
			}
		}
		if gone {
			continue
		}
		if !in[u] || len(obs) == 0 {
			return part{}, false
		}
		return part{in: in, count: count, obs: obs}, degree[u] == len(near)
	}
}

// apart says whether a part of the net cannot be what was measured: by itself, or
// with the measurements to u where without them it can.
func (e *placing) apart(u int, q *part, s *state) bool {
	spare := len(q.obs) - 2*q.count + 3
	for v := range e.control {
		if q.in[v] {
			spare += 2
		}
	}
	spare = max(1, min(spare, e.freedom))
	whole := e.slack * limit(spare, chanceOfPart)
	var others []adjust.Observation
	for _, o := range q.obs {
		if !o.Has(u) {
			others = append(others, o)
		}
	}
	to := max(1, min(len(q.obs)-len(others)-2, e.freedom))
	more := e.slack * limit(to, chanceOfPart)
	sum, end := e.least(q.obs, q.in, s.at, more)
	if q.end = end; sum > whole {
		return true
	}
	if sum <= more {
		return false
	}
	less, _ := e.least(others, q.in, s.at, 0)
	return sum > more+less
}

// least is the sum of squares of some points adjusted by themselves, from where
// they lie, or one that is no more than enough. The points need not be held: the
// steps are damped.
func (e *placing) least(obs []adjust.Observation, in []bool, at []geom.Vector, enough float64) (float64, []geom.Vector) {
	touched := make([]bool, len(at))
	for i := range obs {
		for _, q := range obs[i].Points() {
			touched[q] = in[q]
		}
	}
	free := adjust.NewUnknowns(len(at), func(i int) (x, y bool) {
		_, held := e.control[i]
		return held || !touched[i], held || !touched[i]
	})
	obs = slices.Clone(obs)
	adjust.Orient(obs, at)
	f := adjust.Equations{Obs: obs, Free: free}.Least(at, enough, func(cost float64) { e.work -= cost })
	return f.Sum, f.At
}

// whole adjusts a net of which every point is placed, and keeps it if it agrees.
func (e *placing) whole(s *state) {
	e.work -= 8 * cube(2*len(e.Names))
	f, err := e.fit(s.at)
	if err != nil {
		e.failed = err
		e.stuck = true
		return
	}
	if f.Sum > e.slack*limit(e.freedom, chanceOfAll) || !e.simple(f.At) || e.Coincide(f.At) != nil {
		return
	}
	if again, err := e.fit(f.At); err == nil { // from far off one adjustment may stop short
		f = again
	}
	if len(e.round) == 0 && len(e.control) == 0 && !e.eitherHand() && !e.hand(placement{fit: f}) {
		over := make([]geom.Vector, len(f.At))
		for i, c := range f.At {
			over[i] = geom.Vector{X: c.X, Y: -c.Y}
		}
		if f, err = e.fit(over); err != nil {
			return
		}
	}
	end := f.At
	if len(e.control) == 0 {
		end = laid(f.At, 0, 1)
	}
	t := s.clone()
	t.at = f.At
	if e.sides && !(e.keepsSides(s, f.At) && e.keepsAll(f.At)) {
		return
	}
	q := placement{t, f, end}
	if !slices.ContainsFunc(e.found, func(q placement) bool {
		return e.alike(q.end, end) && (!e.eitherHand() || e.hand(q) == e.hand(placement{t, f, end}))
	}) {
		e.found = append(e.found, q)
	}
}

// eitherHand: sides are said of points, which may mean the net turned over.
func (e *placing) eitherHand() bool { return e.sides && len(e.asked.Sides) > 0 && len(e.control) == 0 }

// hand says whether a placement is as the outline, or else the alphabet, has it.
func (e *placing) hand(q placement) bool {
	if len(e.round) > 2 {
		return e.area(q.fit.At) > 0
	}
	c := e.first
	return geom.IsLeft(q.fit.At[c[0]], q.fit.At[c[1]], q.fit.At[c[2]])
}

// keepsAll: the points lie where Net.Sides has them.
func (p *problem) keepsAll(at []geom.Vector) bool {
	for _, x := range p.asked.Sides {
		if x.Of != ([2]geom.Name{}) && geom.IsLeft(at[p.Number[x.Of[0]]], at[p.Number[x.Of[1]]], at[p.Number[x.Point]]) == x.Right {
			return false
		}
	}
	return true
}

// simple says whether the outline does not cross itself.
func (p *problem) simple(at []geom.Vector) bool {
	var all geom.Polygon
	for _, i := range p.round {
		all = append(all, geom.Point{X: unit.Length(at[i].X), Y: unit.Length(at[i].Y)})
	}
	if len(all) < 3 {
		return true
	}
	_, _, crossed := all.Crossing()
	return !crossed
}

// sifted are the placements found, the best first, without those that others fit
// much better than.
func (e *placing) sifted() []placement {
	all := slices.Clone(e.found)
	if e.eitherHand() && slices.ContainsFunc(all, e.hand) {
		all = slices.DeleteFunc(all, func(q placement) bool { return !e.hand(q) })
	}
	slices.SortStableFunc(all, func(a, b placement) int { return cmp.Compare(a.fit.Sum, b.fit.Sum) })
	for i := range all {
		if all[i].fit.Sum > all[0].fit.Sum+worse*e.slack {
			return all[:i]
		}
	}
	return all
}
