package net

import "trammel/geom"

// outline is the edge of the piece, walked counter-clockwise; empty where nobody named it.
type outline struct {
	round []int       // its corners
	place map[int]int // where each stands in round
}

// corner that stands so many places on, or back, from the first.
func (o outline) corner(i int) int {
	n := len(o.round)
	return o.round[(i+n)%n]
}

func (o outline) polygon(at []geom.Vector) (all geom.Polygon) {
	for _, i := range o.round {
		all = append(all, at[i].Point())
	}
	return all
}

// area that it encloses, negative where it runs clockwise.
func (o outline) area(at []geom.Vector) float64 { return float64(o.polygon(at).Contour().Area()) }

// follows says whether a corner comes next after another.
func (o outline) follows(a, b int) bool {
	i, atI := o.place[a]
	j, atJ := o.place[b]
	return atI && atJ && (j-i+len(o.round))%len(o.round) == 1
}

// handOf says on which side of its base a corner lies when the outline is
// walked counter-clockwise: left of QR where the walk meets Q, R and it in this
// order. It holds where the outline is not hollow; elsewhere measurements or
// Net.Sides must say. A point off the outline lies inside its edges.
func (o outline) handOf(u int, base []int) (right, said bool) {
	if len(base) < 2 {
		return false, false
	}
	n := len(o.round)
	q, atQ := o.place[base[0]]
	r, atR := o.place[base[1]]
	c, atC := o.place[u]
	switch {
	case !atQ || !atR:
		return false, false
	case atC:
		return (r-q+n)%n > (c-q+n)%n, true
	}
	right = o.follows(base[1], base[0])
	return right, right || o.follows(base[0], base[1])
}
