package tiling

import (
	"trammel/geom"
	"trammel/geom/unit"
)

// mitre is how far a mitred corner may stand off its corner, in gaps; beyond it the
// corner is bevelled.
const mitre = 4

// inward is a ring that has the floor to its left, each wall moved into the floor by its
// gap and mitred with the next. ok is false where a wall has no part left, where the ring
// crosses itself, or where a mitre would stand off too far.
func inward(ring []vec, gaps []unit.Length) (moved []vec, ok bool) {
	n := len(ring)
	ends := make([]vec, n) // of each wall: where it begins, moved
	for i := range ring {
		corner := movedCorner([3]vec{ring[(i+n-1)%n], ring[i], ring[(i+1)%n]}, float64(gaps[(i+n-1)%n]), float64(gaps[i]))
		if len(corner) == 0 {
			return nil, false
		}
		if i > 0 && corner[0].Minus(ends[i-1]).Dot(ring[i].Minus(ring[i-1])) <= 0 {
			return nil, false
		}
		moved, ends[i] = append(moved, corner...), corner[len(corner)-1]
	}
	if moved[0].Minus(ends[n-1]).Dot(ring[0].Minus(ring[n-1])) <= 0 {
		return nil, false
	}
	_, _, crossing := polygon(moved).Crossing()
	return moved, !crossing
}

// movedCorner is what becomes of the middle one of three corners where the walls beside it
// move by their gaps: the mitre, or both ends of a bevel; none where neither serves.
func movedCorner(c [3]vec, g, h float64) []vec {
	in, in2 := c[1].Minus(c[0]).Unit().Left(), c[2].Minus(c[1]).Unit().Left()
	end, start := c[1].Plus(in.Times(g)), c[1].Plus(in2.Times(h))
	at := meet(end, in, start, in2)
	reflex := geom.Side(c[0], c[1], c[2]) < 0
	switch {
	case g == 0 && h == 0:
		return []vec{c[1]}
	case at == nil && g == h:
		return []vec{end}
	case at == nil:
		return nil
	case at.To(c[1]) <= mitre*max(g, h) || !reflex && g == h:
		return []vec{*at}
	}
	return []vec{end, start}
}

// strips are what the gaps take along a ring that has the floor to its left: along
// each wall a rectangle, and at each corner what lies between the rectangles and the
// place where their inner edges meet.
func strips(ring []vec, gaps []unit.Length) (all [][]vec) {
	n := len(ring)
	for i := range ring {
		from, to, g := ring[i], ring[(i+1)%n], float64(gaps[i])
		next, h := ring[(i+2)%n], float64(gaps[(i+1)%n])
		in, in2 := to.Minus(from).Unit().Left(), next.Minus(to).Unit().Left()
		end, start := to.Plus(in.Times(g)), to.Plus(in2.Times(h))
		if g > 0 {
			all = append(all, []vec{from, to, end, from.Plus(in.Times(g))})
		}
		if g == 0 && h == 0 {
			continue
		}
		if corner := cornerStrip(to, end, start, meet(end, in, start, in2), mitre*max(g, h)); len(corner) > 0 {
			all = append(all, corner)
		}
	}
	return all
}

// cornerStrip is the kite at a corner, or the triangle where the mitre would stand
// further off than reach; none where the inner edges run on straight.
func cornerStrip(corner, end, start vec, at *vec, reach float64) []vec {
	kite := []vec{corner, end, start}
	if at != nil && at.To(corner) <= reach {
		kite = []vec{corner, end, *at, start}
	}
	kite = distinct(kite)
	switch a := signed(kite); {
	case len(kite) < 3 || a > -1e-9 && a < 1e-9:
		return nil
	case a < 0:
		reverse(kite)
	}
	return kite
}

// distinct is a ring without corners that fall on the one before them.
func distinct(ring []vec) []vec {
	kept := ring[:0]
	for i, p := range ring {
		if p.To(ring[(i+len(ring)-1)%len(ring)]) > 1e-9 {
			kept = append(kept, p)
		}
	}
	return kept
}

// meet is where the line through a, square to n, meets the one through b, square to
// m; nil where they are parallel.
func meet(a, n, b, m vec) *vec {
	l, k := geom.Locus{At: a, Dir: n.Right()}, geom.Locus{At: b, Dir: m.Right()}
	cross := l.Dir.Cross(k.Dir)
	if cross > -1e-9 && cross < 1e-9 {
		return nil
	}
	at := a.Plus(l.Dir.Times(b.Minus(a).Cross(k.Dir) / cross))
	return &at
}
