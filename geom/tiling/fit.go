package tiling

import (
	"math"

	"trammel/geom"
)

// symmetry is one of the ways a tile comes to lie on itself: quarters turned
// counter-clockwise, after it was turned over about its upright middle line if
// mirrored.
type symmetry struct {
	quarters int
	mirrored bool
}

// turns of a tile that keep its face up.
func (g grid) turns() []symmetry {
	if g.square() {
		return []symmetry{{0, false}, {1, false}, {2, false}, {3, false}}
	}
	return []symmetry{{0, false}, {2, false}}
}

// place of a tile t1 by t2 that a symmetry takes p to.
func (s symmetry) place(p vec, t1, t2 float64) vec {
	if s.mirrored {
		p.X = t1 - p.X
	}
	switch s.quarters {
	case 1:
		return vec{X: t2 - p.Y, Y: p.X}
	case 2:
		return vec{X: t1 - p.X, Y: t2 - p.Y}
	case 3:
		return vec{X: p.Y, Y: t1 - p.X}
	}
	return p
}

// part that a symmetry takes another one to, rings the right way round.
func (s symmetry) part(p part, g grid) part {
	moved := func(ring []vec) []vec {
		all := make([]vec, len(ring))
		for i, q := range ring {
			all[i] = s.place(q, g.t1, g.t2)
		}
		if s.mirrored {
			reverse(all)
		}
		return all
	}
	q := part{outer: moved(p.outer)}
	for _, h := range p.holes {
		q.holes = append(q.holes, moved(h))
	}
	return q
}

// alike says whether two parts have the same corners within tol.
func alike(p, q part, tol float64) bool {
	if len(p.holes) != len(q.holes) || !sameRing(p.outer, q.outer, tol) {
		return false
	}
	for _, h := range p.holes {
		same := false
		for _, k := range q.holes {
			same = same || sameRing(h, k, tol)
		}
		if !same {
			return false
		}
	}
	return true
}

func sameRing(p, q []vec, tol float64) bool {
	if len(p) != len(q) {
		return false
	}
	for k := range q {
		same := true
		for i := range p {
			if d := p[i].Minus(q[(i+k)%len(q)]); math.Abs(d.X) > tol || math.Abs(d.Y) > tol {
				same = false
				break
			}
		}
		if same {
			return true
		}
	}
	return false
}

// apart says whether two parts are at least a distance from one another.
func apart(p, q part, least float64) bool {
	if boxOf(p.outer).grown(least, least).meets(boxOf(q.outer)) {
		if p.has(q.within()) || q.has(p.within()) {
			return false
		}
	} else {
		return true
	}
	free := true
	p.edges(func(a, b vec) bool {
		q.edges(func(c, d vec) bool {
			free = edgesApart(a, b, c, d) >= least-1e-6
			return free
		})
		return free
	})
	return free
}

// edgesApart is the least distance of two edges, 0 where they cross.
func edgesApart(a, b, c, d vec) float64 {
	if geom.Side(a, b, c) > 0 != (geom.Side(a, b, d) > 0) && geom.Side(c, d, a) > 0 != (geom.Side(c, d, b) > 0) {
		return 0
	}
	return min(nearest(a, c, d).To(a), nearest(b, c, d).To(b), nearest(c, a, b).To(c), nearest(d, a, b).To(d))
}
