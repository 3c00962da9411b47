package tiling

import "math"

// layer lays one grid over one region; it reuses its room and is not for two at once.
type layer struct {
	grid   grid
	bounds box
	field  *field
	cut    *clipper
	core   *clipper // a second one, so that what the first returned stays good
	widths widths
	middle middle
	seen   int // tiles looked at, for the effort
}

// middle is where a layout should look even: the lines of which a joint or a tile's
// middle should lie on; NaN where it does not matter.
type middle struct{ x, y float64 }

func newLayer(r Region, g grid, m middle) *layer {
	return &layer{grid: g, bounds: r.bounds(), field: fieldOf(r, g.short()), cut: newClipper(r), core: newClipper(r), middle: m}
}

// effort spent so far, in cuts.
func (l *layer) effort() int { return l.cut.cuts + l.core.cuts + l.seen/20 }

// measure lays the grid at a shift and takes its measures.
func (l *layer) measure(shift vec) Measures {
	m := Measures{Narrowest: l.grid.short(), Off: l.off(shift)}
	var tally tally
	l.walk(shift, func(_ Spot, b box, state where, parts []part) {
		if state == within {
			tally.add(b.area(), 4, true)
			return
		}
		for _, p := range parts {
			if l.widths.caliper(p.outer) <= Slack {
				continue
			}
			w := l.widths.width(p)
			m.Cuts++
			m.Narrowest = min(m.Narrowest, w)
			if w < l.grid.quarter()-1e-6 {
				m.Slivers++
			}
			a, n := p.area(), corners(p, b)
			tally.add(a, n, a > l.grid.large() || n >= 3)
		}
	})
	m.Least = tally.least(l.grid)
	return m
}

// walk calls do with every tile that has something of the region: whole ones without
// parts, others with the parts that the tile has, dropped ones among them.
func (l *layer) walk(shift vec, do func(s Spot, b box, state where, parts []part)) {
	l.grid.each(l.bounds, shift, func(s Spot, b box) {
		l.seen++
		switch l.field.of(b) {
		case within:
			do(s, b, within, nil)
			return
		case outside:
			return
		}
		parts := l.cut.cut(b)
		if len(parts) == 0 {
			return
		}
		if l.whole(b, parts) {
			do(s, b, within, nil)
			return
		}
		do(s, b, across, parts)
	})
}

// whole says whether a tile of which the region has these parts lies in it, less Slack
// all round.
func (l *layer) whole(b box, parts []part) bool {
	lost := b.area()
	for _, p := range parts {
		lost -= p.area()
	}
	if lost < lostArea {
		return true
	}
	if lost > Slack*2*(b.width()+b.height())+lostArea {
		return false
	}
	return l.lost(b.grown(-Slack, -Slack)) < lostArea
}

// lost is how much of a box lies outside the region.
func (l *layer) lost(b box) float64 {
	if b.empty() {
		return 0
	}
	lost := b.area()
	for _, p := range l.core.cut(b) {
		lost -= p.area()
	}
	return lost
}

// corners are how many corners of the tile a part has.
func corners(p part, b box) (n int) {
	for _, q := range p.outer {
		if (q.X == b.min.X || q.X == b.max.X) && (q.Y == b.min.Y || q.Y == b.max.Y) {
			n++
		}
	}
	return n
}

// off is how far a shift is from a joint or a tile's middle on the middle lines.
func (l *layer) off(shift vec) float64 {
	x, y := l.offEach(shift)
	return x + y
}

func (l *layer) offEach(shift vec) (x, y float64) {
	g := l.grid
	return offOne(l.middle.x-shift.X, g.p1, g.t1), offOne(l.middle.y-shift.Y, g.p2, g.t2)
}

// offOne: d is from a tile's near edge to the middle line.
func offOne(d, pitch, tile float64) float64 {
	if math.IsNaN(d) {
		return 0
	}
	from := func(at float64) float64 { return math.Abs(math.Remainder(d-at, pitch)) }
	return min(from(tile/2), from(tile+(pitch-tile)/2))
}

// large is the area of which no two pieces come from one tile: a cut between two such
// is at least as long as the tile's shorter side.
func (g grid) large() float64 { return (g.t1*g.t2 - g.kerf*g.short()) / 2 }

// tally is what bounds the tiles bought from below.
type tally struct {
	area    float64
	corners int
	large   int // pieces of which no two come from one tile
}

func (t *tally) add(area float64, corners int, large bool) {
	t.area += area
	t.corners += corners
	if large {
		t.large++
	}
}

func (t tally) least(g grid) int {
	byArea := int(math.Ceil(t.area/(g.t1*g.t2) - 1e-6))
	return max(byArea, (t.corners+3)/4, t.large)
}
