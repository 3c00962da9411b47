package pegging

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/passage"
	"trammel/geom/unit"
)

// chain places pegs one from another, where not every line may be pulled: the next is
// always that which comes surest to its place from two marks that stand, two arcs where
// they cross soundly, otherwise an offset from the line between them where that is surer.
// What can be placed depends on what stands alone, so that a peg which is left has no
// allowed way to it from this baseline.
type chain struct {
	site
	open    passage.Passage
	methods []Method
	names   []geom.Name
	at      []geom.Vector // in the net's own plane
	sees    [][]bool

	moves  [][]geom.Vector // of those that stand: how they move with each error so far
	errors int
	marks  []geom.Vector // corners, feet, and marks of squares
	feet   []footMark
	placed []Placed
	base   [2]int
	best   []step // for each peg that does not stand yet
}

// footMark is a foot on the line of two marks, with a square on its right, its left, or both.
type footMark struct {
	base   [2]int
	along  float64
	square [2]Square
}

// step is one way to place one peg.
type step struct {
	peg    int
	base   [2]int
	method Method
	square Square
	own    int // errors of its own
	place  func(p, q geom.Vector, e []float64) geom.Vector

	cost  unit.Length
	cov   adjust.Covariance
	moves []geom.Vector // with each error, its own the last ones
}

// Costs of a step beside how sure it is: an offset takes four pulls and a line to snap.
const (
	offsetCosts = 1.5
	footCosts   = 1.25 // of its own, instead of a mark that stands
)

// chainedWays are the ways to place all pegs so, the surest first, and of the baseline
// from which most pegs are reached, those that are left.
func (p Points) chainedWays(in Asked, methods []Method, open passage.Passage) (all []Way, left []geom.Name) {
	c := chain{site: siteOf(in.Tools), open: open, methods: methods, names: p.order}
	for _, n := range p.order {
		c.at = append(c.at, geom.VectorOf(p.at[n]))
	}
	c.sees = make([][]bool, len(c.at))
	for i := range c.at {
		c.sees[i] = make([]bool, len(c.at))
		for j := range i {
			c.sees[i][j] = open.Free(c.at[i].Point(), c.at[j].Point())
			c.sees[j][i] = c.sees[i][j]
		}
	}
	left = p.order
	for _, l := range p.baselines(in.Base, open) {
		way, missing := c.from([2]int{slices.Index(p.order, l[0]), slices.Index(p.order, l[1])})
		if len(missing) == 0 {
			all = append(all, way)
		}
		if len(missing) < len(left) {
			left = missing
		}
	}
	slices.SortStableFunc(all, func(a, b Way) int { return cmp.Compare(a.Figure, b.Figure) })
	return all, left
}

// mostBaselines is how many lines are tried to place pegs one from another, the longest.
const mostBaselines = 40

// baselines that may be pulled, each from one end: as it was named, or as the piece is
// walked round.
func (p Points) baselines(named [2]geom.Name, open passage.Passage) [][2]geom.Name {
	lines := slices.DeleteFunc(p.lines(named), func(l [2]geom.Name) bool {
		switch {
		case p.distance(l[0], l[1]) < Least-SameMark || !open.Free(p.at[l[0]], p.at[l[1]]):
			return true
		case named != [2]geom.Name{}:
			return l != named
		}
		return !p.walked(l)
	})
	slices.SortStableFunc(lines, func(a, b [2]geom.Name) int { return cmp.Compare(p.distance(b[0], b[1]), p.distance(a[0], a[1])) })
	return lines[:min(len(lines), mostBaselines)]
}

// from works out the way from one baseline, and the pegs that it does not reach.
func (c chain) from(base [2]int) (Way, []geom.Name) {
	n := len(c.at)
	c.base, c.moves, c.feet, c.placed, c.best = base, make([][]geom.Vector, n), nil, make([]Placed, n), make([]step, n)
	c.marks = slices.Clone(c.at)
	from, to := c.at[base[0]], c.at[base[1]]
	way, b := to.Minus(from).Unit(), from.To(to)
	c.errors = 1
	c.moves[base[0]], c.moves[base[1]] = []geom.Vector{{}}, []geom.Vector{way.Times(c.pull(b))}
	w := Way{Method: Mixed, Base: [2]geom.Name{c.names[base[0]], c.names[base[1]]}}
	for _, i := range []int{base[0], base[1]} {
		c.placed[i] = Placed{Name: c.names[i], Covariance: spread(c.moves[i])}
	}
	for i := range c.at { // on the baseline
		if c.moves[i] == nil && c.sees[base[0]][i] && onTheLine(c.local(base, c.at[i]), b) {
			c.stand(c.weighed(c.runOff(i, base)), &w)
		}
	}
	for i := range c.at {
		for j := range i {
			c.offer([2]int{j, i})
		}
	}
	for next := c.next(); next >= 0; next = c.next() {
		c.stand(c.best[next], &w)
		for j := range c.at {
			if j != next {
				c.offer([2]int{j, next})
			}
		}
	}
	var left []geom.Name
	for i := range c.at {
		if c.moves[i] == nil {
			left = append(left, c.names[i])
		}
	}
	turn := -geom.Line{From: from.Point(), To: to.Point()}.Direction()
	for i, p := range c.placed {
		p.At, p.Covariance = c.at[i].Minus(from).Turned(turn).Point(), p.Covariance.Turned(turn)
		if i == base[1] {
			p.At = geom.Point{X: unit.Length(b)}
		}
		if p.Figure95 = p.Covariance.Figure95(); p.Figure95 > w.Figure {
			w.Worst, w.Figure = i, p.Figure95
		}
		w.Pegs = append(w.Pegs, p)
	}
	return w, left
}

// next is the peg that is placed surest of those that can be; −1: there is none.
func (c *chain) next() int {
	best := -1
	for i, s := range c.best {
		if c.moves[i] == nil && s.own > 0 && s.method == OffsetSquare && !c.stillFits(s) {
			c.again(i)
		}
		if s = c.best[i]; c.moves[i] == nil && s.own > 0 && (best < 0 || s.cost < c.best[best].cost) {
			best = i
		}
	}
	return best
}

// again looks for a step to a peg anew: marks that came since stand in the way of the old one.
func (c *chain) again(i int) {
	c.best[i] = step{}
	for j := range c.at {
		for k := range j {
			c.offerTo(i, [2]int{k, j})
		}
	}
}

// offer two marks to every peg that does not stand.
func (c *chain) offer(base [2]int) {
	for i := range c.at {
		c.offerTo(i, base)
	}
}

// offerTo keeps the cheapest step to a peg.
func (c *chain) offerTo(i int, base [2]int) {
	base = [2]int{min(base[0], base[1]), max(base[0], base[1])} // a line has one first end
	if base == [2]int{c.base[1], c.base[0]} {
		base = c.base
	}
	p, q := base[0], base[1]
	if c.moves[i] != nil || c.moves[p] == nil || c.moves[q] == nil {
		return
	}
	keep := func(s step) {
		if s.own > 0 && (c.best[i].own == 0 || s.cost < c.best[i].cost*(1-1e-9)) {
			c.best[i] = s
		}
	}
	b := c.at[p].To(c.at[q])
	if b < float64(apart) || !c.sees[p][q] {
		if c.sees[p][i] && c.sees[q][i] && slices.Contains(c.methods, TwoArcs) {
			keep(c.weighed(c.swung(i, base)))
		}
		return
	}
	if onTheLine(c.local(base, c.at[i]), b) {
		for _, l := range [][2]int{{p, q}, {q, p}} {
			if c.sees[l[0]][i] && c.local(l, c.at[i]).X > 0 {
				keep(c.weighed(c.runOff(i, l)))
			}
		}
		return
	}
	if c.sees[p][i] && c.sees[q][i] && slices.Contains(c.methods, TwoArcs) {
		keep(c.weighed(c.swung(i, base)))
	}
	if !slices.Contains(c.methods, OffsetSquare) || c.best[i].own > 0 && c.best[i].method == TwoArcs && c.sound(c.best[i]) {
		return
	}
	if s, ok := c.offset(i, base); ok {
		keep(c.weighed(s))
	}
}

// sound says whether two arcs cross so that no offset is wanted.
func (c *chain) sound(s step) bool { return c.crossing(s.peg, s.base) >= geom.Flat }

// stand places a peg.
func (c *chain) stand(s step, w *Way) {
	i := s.peg
	c.placed[i] = Placed{Name: c.names[i], Covariance: s.cov, Square: s.square, Method: s.method, Base: [2]geom.Name{c.names[s.base[0]], c.names[s.base[1]]}}
	if s.method == TwoArcs {
		c.placed[i].Crossing = c.crossing(i, s.base)
	}
	since := c.errors + s.own - len(s.moves) // errors that came since it was weighed: they move nothing here
	c.moves[i] = slices.Insert(s.moves, len(s.moves)-s.own, make([]geom.Vector, since)...)
	c.errors += s.own
	w.Order = append(w.Order, c.names[i])
	if s.method == OffsetSquare {
		c.squared(s)
	}
}

// squared notes the marks that an offset has made.
func (c *chain) squared(s step) {
	p := c.local(s.base, c.at[s.peg])
	x, b := p.X-float64(s.square.Aside), c.at[s.base[0]].To(c.at[s.base[1]])
	i := slices.IndexFunc(c.feet, func(f footMark) bool { return f.base == s.base && math.Abs(f.along-x) <= float64(SameMark) })
	if i < 0 {
		i, c.feet = len(c.feet), append(c.feet, footMark{base: s.base, along: x})
		if !atEnd(x, b) {
			c.marks = append(c.marks, c.placeOn(s.base, geom.Vector{X: x}))
		}
	}
	if k := hand(p); c.feet[i].square[k] == (Square{}) {
		plain := s.square
		plain.Aside = 0
		leg, top := plain.marks(x, p.Y > 0)
		c.marks = append(c.marks, c.placeOn(s.base, leg), c.placeOn(s.base, top))
		c.feet[i].square[k] = plain
	}
}
