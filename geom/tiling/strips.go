package tiling

import (
	"trammel/geom"
	"trammel/geom/unit"
)

// mitre is how far a mitred corner may stand off its corner, in gaps; beyond it the
// corner is bevelled.
const mitre = 4

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
