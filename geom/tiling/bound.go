package tiling

import "math"

// bound is measures that no shift of a box betters in any of them: shift is the box's
// middle, half its half-sides.
//
// Of a tile, T− is what every shift of the box has of it and T+ what any of them
// has. A part of T+ in the region that holds a part of T− wider than Slack
// holds a piece at every shift, no wider than the part of T+.
func (l *layer) bound(shift, half vec) Measures {
	m := Measures{Narrowest: l.grid.short(), Off: l.offBound(shift, half)}
	var tally tally
	l.grid.each(l.bounds.grown(half.X, half.Y), shift, func(_ Spot, b box) {
		l.seen++
		outer := b.grown(half.X, half.Y)
		switch l.field.of(outer) {
		case within:
			tally.add(b.area(), 4, true)
			return
		case outside:
			return
		}
		inner := b.grown(-half.X, -half.Y)
		if inner.empty() || l.field.of(inner) == outside {
			return
		}
		l.boundTile(&m, &tally, tileBounds{b, outer, inner})
	})
	m.Least = tally.least(l.grid)
	return m
}

// tileBounds are a tile at a box's middle, and what holds it and what it holds at
// every shift of the box.
type tileBounds struct{ own, outer, inner box }

// boundTile adds what one tile has at every shift.
func (l *layer) boundTile(m *Measures, t *tally, b tileBounds) {
	small := l.sure(b)
	if len(small) == 0 {
		return
	}
	cut := 0
	if l.lost(b.inner.grown(-Slack, -Slack)) >= lostArea {
		cut = 1
	}
	for _, big := range l.core.cut(b.outer) {
		width, held, large := l.widths.caliper(big.outer), false, false
		for _, s := range small {
			if !big.has(s.place) {
				continue
			}
			held = true
			if cut == 1 { // a corner that stands into a tile by less than Slack leaves it whole
				width = min(width, s.neck, sideNeck(big, s, b))
			}
			t.add(s.area, s.corners, false)
			large = large || s.area > l.grid.large() || s.corners >= 3
		}
		if !held {
			continue
		}
		if large {
			t.large++
		}
		if width < l.grid.quarter()-1e-6 {
			m.Slivers++
		}
		if width < l.grid.short()/2 {
			m.Narrowest = min(m.Narrowest, width)
		}
		m.Cuts += cut
	}
}

// surePart is a part of T− that every shift has in a piece.
type surePart struct {
	part
	place   vec // within it
	area    float64
	corners int     // of the tile, that it has at every shift
	neck    float64 // between a corner and an edge of the region, both in T−
}

// sure are the parts of T− wider than Slack.
func (l *layer) sure(b tileBounds) (all []surePart) {
	for _, p := range l.cut.cut(b.inner) {
		if l.widths.caliper(p.outer) <= Slack {
			continue
		}
		s := surePart{part: p, place: p.within(), area: p.area(), neck: math.Inf(1)}
		s.corners = l.sureCorners(p, b)
		p.inward(func(at, before, after vec) {
			if !b.inner.has(at) {
				return
			}
			p.edges(func(c, d vec) bool {
				if c != at && d != at {
					if foot := nearest(at, c, d); b.inner.has(foot) && isNeck(p, at, before, after, foot) {
						s.neck = min(s.neck, foot.To(at))
					}
				}
				return true
			})
		})
		all = append(all, s)
	}
	return all
}

// sureCorners are the tile's corners that the part has wherever in the box they lie.
func (l *layer) sureCorners(p part, b tileBounds) (n int) {
	for _, q := range p.outer {
		if (q.X != b.inner.min.X && q.X != b.inner.max.X) || (q.Y != b.inner.min.Y && q.Y != b.inner.max.Y) {
			continue
		}
		far := vec{X: b.outer.min.X, Y: b.outer.min.Y}
		if q.X == b.inner.max.X {
			far.X = b.outer.max.X
		}
		if q.Y == b.inner.max.Y {
			far.Y = b.outer.max.Y
		}
		all := boxOf([]vec{q, far})
		if state := l.field.of(all); state == within || state == across && l.lost(all) < 1e-9 {
			n++
		}
	}
	return n
}

// sideNeck bounds the necks from corners of the region in T− to the tile's own sides.
func sideNeck(big part, s surePart, b tileBounds) float64 {
	least := math.Inf(1)
	s.inward(func(at, before, after vec) {
		if !b.inner.has(at) {
			return
		}
		for _, foot := range [4]vec{{X: b.outer.min.X, Y: at.Y}, {X: b.outer.max.X, Y: at.Y}, {X: at.X, Y: b.outer.min.Y}, {X: at.X, Y: b.outer.max.Y}} {
			if isNeck(big, at, before, after, foot) {
				least = min(least, foot.To(at))
			}
		}
	})
	return least
}

func (l *layer) offBound(shift, half vec) float64 {
	x, y := l.offEach(shift)
	return max(x-half.X, 0) + max(y-half.Y, 0)
}
