package tiling

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
)

// widths reckons how wide pieces are; it reuses its room.
type widths struct{ sorted, hull []vec }

// caliper is the least distance of two parallel lines that hold a ring: over the
// edges of its hull, how far the furthest corner stands off.
func (w *widths) caliper(ring []vec) float64 {
	w.sorted = append(w.sorted[:0], ring...)
	slices.SortFunc(w.sorted, func(a, b vec) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	w.hull = w.hull[:0]
	for half := range 2 {
		begun := len(w.hull)
		for _, p := range w.sorted {
			for len(w.hull) >= begun+2 && geom.Side(w.hull[len(w.hull)-2], w.hull[len(w.hull)-1], p) <= 0 {
				w.hull = w.hull[:len(w.hull)-1]
			}
			w.hull = append(w.hull, p)
		}
		w.hull = w.hull[:len(w.hull)-1]
		if half == 0 {
			slices.Reverse(w.sorted)
		}
	}
	least := math.Inf(1)
	for i, a := range w.hull {
		b := w.hull[(i+1)%len(w.hull)]
		long := a.To(b)
		if long < 1e-9 {
			continue
		}
		var most float64
		for _, p := range w.hull {
			most = max(most, geom.Side(a, b, p)/long)
		}
		least = min(least, most)
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// width of a part: its caliper, or its neck where that is less.
func (w *widths) width(p part) float64 {
	least := w.caliper(p.outer)
	p.inward(func(at, before, after vec) {
		p.edges(func(a, b vec) bool {
			if a == at || b == at {
				return true
			}
			foot := nearest(at, a, b)
			if d := foot.To(at); d < least && isNeck(p, at, before, after, foot) {
				least = d
			}
			return true
		})
	})
	return least
}

// inward calls do with every corner that points inward, and the corners beside it.
func (p part) inward(do func(at, before, after vec)) {
	for k := -1; k < len(p.holes); k++ {
		ring := p.outer
		if k >= 0 {
			ring = p.holes[k]
		}
		for i, at := range ring {
			before, after := ring[(i+len(ring)-1)%len(ring)], ring[(i+1)%len(ring)]
			if geom.Side(before, at, after) < -1e-9*at.To(before)*at.To(after) {
				do(at, before, after)
			}
		}
	}
}

// askew is the cosine of how far off both sides of a corner a neck must run: 45°.
var askew = math.Sqrt2/2 + 1e-9

// isNeck says whether the way from a corner that points inward to a place of an edge
// across is one by which a width counts.
func isNeck(p part, at, before, after, foot vec) bool {
	way := foot.Minus(at)
	d := way.Size()
	back, on := before.Minus(at), after.Minus(at)
	switch {
	case d < 1e-9 || way.Dot(back) > askew*d*back.Size() || way.Dot(on) > askew*d*on.Size():
		return false
	case on.Cross(way) < 0 && way.Cross(back) < 0: // it leaves the piece at once
		return false
	}
	return clear(p, at, foot)
}

// nearest place of an edge.
func nearest(p, a, b vec) vec {
	way := b.Minus(a)
	long := way.Dot(way)
	if long == 0 {
		return a
	}
	return a.Plus(way.Times(min(max(p.Minus(a).Dot(way)/long, 0), 1)))
}

// clear says whether no edge of a part crosses the way from a corner to a place of
// its edge.
func clear(p part, at, to vec) bool {
	open := true
	way := to.Minus(at)
	p.edges(func(a, b vec) bool {
		edge := b.Minus(a)
		cross := way.Cross(edge)
		if math.Abs(cross) < 1e-12 {
			return true
		}
		t, s := a.Minus(at).Cross(edge)/cross, a.Minus(at).Cross(way)/cross
		open = !(t > 1e-9 && t < 1-1e-9 && s > 1e-9 && s < 1-1e-9)
		return open
	})
	return open
}
