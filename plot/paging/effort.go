package paging

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

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
