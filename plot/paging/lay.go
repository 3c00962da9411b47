package paging

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// MaxPages is the most pages that one piece may take.
const MaxPages = 20000

// Unreliable is the outer part of every window that nothing relies on: a sheet
// is cut to ±1.5 mm (ISO 216) and fed a little off.
const Unreliable unit.Length = 1

// Lay chooses where the pages lie under a piece: its turn and shift against the
// page grid, so that the pages are as few as can be. With turn given it keeps
// that turn and chooses the shift; the plan says how many pages that costs. The
// same outline and sheet give the same plan. A *unit.Fault says when paper,
// margins and overlap cannot serve or when the piece would take more than
// MaxPages.
//
// Plan.Proven says that no turn and shift take fewer pages than Plan.Least, but
// for those that depend on windows larger by 0.02 mm than they are. Among equals
// an edge parallel to the paper comes first, then slack, then pages that carry
// more than a sliver of the outline, corners clear of the strips that two pages
// show, fewer rows and columns, fewer joins, and the smallest turn and shift.
//
// No more than that effort goes into each of its searches: one over all turns, and one
// more where the turn is given. Where it does not do for the proof, Plan has the fewest
// pages found, and says that nothing is proven.
func Lay(outline geom.Polygon, s Sheet, c Cover, turn *unit.Angle, e Effort) (Plan, error) {
	o, bound, err := newOutlined(outline, s, c, turn)
	if err != nil {
		return Plan{}, err
	}
	all := o.searching(e)
	parallel := parallelTurns(o.base)
	for _, t := range parallel {
		all.seeds(t)
	}
	for _, t := range parallel {
		all.shifts(t)
	}
	p := Plan{Plain: plainPages(outline, s), Parallel: all.best}
	p.Bound = min(max(bound, all.turns()), all.best)
	p.Least, p.Proven = all.best, p.Bound == all.best
	p.Settled = p.Proven
	if turn != nil {
		p.Steps = all.cost
		return o.keep(p, *turn, e)
	}
	if all.best < p.Parallel {
		all.at = upright(all.at, o.g)
		parallel = []float64{all.at.turn}
	}
	return o.finish(p, all, parallel, all.best)
}

// Most spots and rows that a search goes through; beyond it, or beyond its Effort, the plan
// is not proven. It does for 4000 triangles to 3 m and 400 to 20 m, mostly a hundredfold.
const (
	workTriangle = 100_000_000
	workPolygon  = 30_000_000
)

// upright is the same layout at a turn that is at most a quarter turn: half a
// turn takes the page grid to itself.
func upright(at pose, g grid) pose {
	if math.Abs(at.turn) <= math.Pi/2 {
		return at
	}
	return pose{math.Remainder(at.turn, math.Pi), modulo(g.u-at.x, g.p), modulo(g.v-at.y, g.q)}
}

// edgesTried is how many edges of a shape, the longest, are laid parallel to the paper.
const edgesTried = 8

// parallelTurns are those in (−90°, 90°] that lay an edge parallel to the paper,
// the smallest first.
func parallelTurns(p []geom.Vector) []float64 {
	var edges []geom.Vector
	for k, a := range p {
		if e := p[(k+1)%len(p)].Minus(a); e.Size() > 0 {
			edges = append(edges, e)
		}
	}
	slices.SortStableFunc(edges, func(a, b geom.Vector) int { return cmp.Compare(b.Size(), a.Size()) })
	var turns []float64
	for _, e := range edges[:min(len(edges), edgesTried)] {
		way := math.Atan2(e.Y, e.X)
		for _, t := range [2]float64{-way, math.Pi/2 - way} {
			t = math.Remainder(t, math.Pi)
			if t <= -math.Pi/2+1e-12 {
				t += math.Pi
			}
			t += 0 // no −0
			if !slices.ContainsFunc(turns, func(o float64) bool { return math.Abs(o-t) < 1e-12 }) {
				turns = append(turns, t)
			}
		}
	}
	slices.SortStableFunc(turns, func(a, b float64) int {
		return cmp.Or(cmp.Compare(math.Abs(a), math.Abs(b)), cmp.Compare(a, b))
	})
	return turns
}

// checkSize returns a first bound of the pages, by size alone, and refuses what
// would take more than MaxPages by far before there is any search.
func checkSize(base []geom.Vector, s Sheet, g grid, c Cover, turn *unit.Angle) (int, error) {
	w, h := g.p+g.u, g.q+g.v
	least, area := 1.0, 0.0
	for k, a := range base {
		b := base[(k+1)%len(base)]
		area += a.Cross(b) / 2
		// A page has no two points further apart than its corners.
		least = max(least, base[0].To(a)/math.Hypot(w, h))
	}
	if c == Full {
		least = max(least, math.Abs(area)/(w*h))
	}
	if least > MaxPages {
		return 0, TooMany("the piece", math.Floor(least), true, s)
	}
	turns := parallelTurns(base)
	if turn != nil {
		turns = []float64{float64(*turn)}
	}
	fewest := far
	q := newSearch(base, g, c, 0)
	for _, t := range turns {
		rotate(q.turned, base, t)
		fewest = min(fewest, q.bound(q.turned, geom.Vector{}, geom.Vector{}, far))
		if fewest <= MaxPages {
			break
		}
	}
	if fewest > MaxPages+MaxPages/10 {
		return 0, TooMany("the piece", float64(fewest), true, s)
	}
	return ceil(least - grow), nil
}

func checkOutline(outline geom.Polygon) error {
	if len(outline) < 3 {
		return &unit.Fault{What: fmt.Sprintf("an outline of %d corners is not a shape", len(outline)), Hint: "a piece has three corners or more"}
	}
	for _, p := range outline {
		if !(math.Abs(float64(p.X)) < 1e12 && math.Abs(float64(p.Y)) < 1e12) {
			return &unit.Fault{What: "a corner of the outline is not at a finite place", Hint: "a side is at most 1 km"}
		}
	}
	if b := outline.Bounds(); b.Width() == 0 && b.Height() == 0 {
		return &unit.Fault{What: "all corners of the outline are one point", Hint: "a side is at least 1 mm"}
	}
	return nil
}

// TooMany refuses a piece that would take more than MaxPages; more says that the
// number is a lower bound.
func TooMany(piece string, pages float64, more bool, s Sheet) *unit.Fault {
	or := ""
	if more {
		or = " or more"
	}
	return &unit.Fault{
		What:    fmt.Sprintf("%s takes %.0f pages of %s%s: the most is %d", piece, pages, s.Name, or, MaxPages),
		Subject: unit.Cover, Advice: unit.Advice{Code: unit.TooManyPages},
	}
}

// plainPages is what plain rows and columns take in the better orientation, the
// piece not turned.
func plainPages(outline geom.Polygon, s Sheet) int {
	b := outline.Bounds()
	w, h := float64(b.Width()), float64(b.Height())
	ww, wh, v := float64(s.Width-s.Left-s.Right), float64(s.Height-s.Top-s.Bottom), float64(s.Overlap)
	n := func(size, window float64) float64 { return max(1, math.Ceil((size-v-grow)/(window-v))) }
	return int(min(n(w, ww)*n(h, wh), n(h, ww)*n(w, wh), math.MaxInt32))
}

// Effort is how much may go into looking for the fewest pages. It is counted in steps
// and never by the clock, so that the same input gives the same pages on every machine.
type Effort struct {
	Most int                 // steps of 2 to 15 ns that a search takes at most; 0: MostSteps
	Tell func(share float64) // hears now and then how much of that is taken, 0 to 1; nil: nobody listens
}

// MostSteps is what goes into one search where nobody says less: about two seconds.
const MostSteps = 150_000_000

// most steps of a search.
func (e Effort) most() int {
	if e.Most <= 0 {
		return MostSteps
	}
	return min(e.Most, MostSteps)
}

// tellEvery is how many steps lie between two tellings.
const tellEvery = 2_000_000

// searching is a search for that piece within the effort.
func (o outlined) searching(e Effort) *search {
	limit := workTriangle
	if len(o.base) > 3 {
		limit = workPolygon
	}
	s := newSearch(o.base, o.g, o.cover, limit)
	s.centre, s.most, s.tell = o.centre, e.most(), e.Tell
	return s
}

// outlined is a piece on its sheets, its corners counted from its middle.
type outlined struct {
	outline geom.Polygon
	sheet   Sheet
	cover   Cover
	g       grid
	base    []geom.Vector
	centre  geom.Vector
}

// newOutlined refuses what cannot be laid; bound is how many pages it takes at least.
func newOutlined(outline geom.Polygon, s Sheet, c Cover, turn *unit.Angle) (o outlined, bound int, err error) {
	o = outlined{outline: outline, sheet: s, cover: c}
	if o.g, err = newGrid(s); err != nil {
		return o, 0, err
	}
	if err := checkOutline(outline); err != nil {
		return o, 0, err
	}
	if turn != nil && !(math.Abs(float64(*turn)) < 1e6) {
		return o, 0, &unit.Fault{What: "the turn is not an angle", Hint: "give it in degrees"}
	}
	for _, p := range outline {
		o.base = append(o.base, geom.VectorOf(p))
	}
	o.centre = middle(o.base)
	for k, a := range o.base {
		o.base[k] = a.Minus(o.centre)
	}
	bound, err = checkSize(o.base, s, o.g, c, turn)
	return o, bound, err
}

// Turned lays the piece of a plan again, on the same sheets at the given turn. What
// other turns take is known from that plan and is not searched for again.
func Turned(free Plan, outline geom.Polygon, turn unit.Angle, e Effort) (Plan, error) {
	o, _, err := newOutlined(outline, free.Sheet, free.Cover, &turn)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Plain: free.Plain, Parallel: free.Parallel, Least: free.Least, Proven: free.Proven, Bound: free.Bound}
	return o.keep(p, turn, e)
}

// keep is the plan with the piece at that turn.
func (o outlined) keep(p Plan, turn unit.Angle, e Effort) (Plan, error) {
	at := math.Remainder(float64(turn), 2*math.Pi)
	s := o.searching(e)
	s.seeds(at)
	p.Settled = s.shifts(at) == s.best
	p.Least = min(p.Least, s.best)
	p.Kept, p.Proven = true, p.Bound == p.Least
	return o.finish(p, s, []float64{at}, s.best)
}

// finish chooses among the places that take n pages, one of which the search has found,
// and names the pages.
func (o outlined) finish(p Plan, s *search, turns []float64, n int) (Plan, error) {
	l := s.choose(turns, n, s.at)
	p.Steps += s.cost
	shape := make([]geom.Vector, len(o.base))
	rotate(shape, o.base, l.turn)
	for k, a := range shape {
		shape[k] = a.Plus(geom.Vector{X: l.x, Y: l.y})
	}
	pages, added := confirm(shape, l.pages, o.g, o.cover, l.slack)
	if added > 0 && l.slack > 0 {
		l.slack = 0
		pages, added = confirm(shape, l.pages, o.g, o.cover, 0)
	}
	if added > 0 {
		p.Settled = false
		if !p.Kept {
			p.Least, p.Proven = len(pages), false
		}
	}
	if len(pages) > MaxPages {
		return Plan{}, TooMany("the piece", float64(len(pages)), false, o.sheet)
	}
	p.Slack = unit.Length(l.slack)
	return assemble(p, o, l.pose, pages), nil
}
