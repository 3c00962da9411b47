package survey

import (
	"math"

	"trammel/geom"
)

// locus is where one observation lets a point lie while the other points that it
// names are known: a circle or a straight line.
type locus struct {
	circle bool
	at     xy // centre, or a place on the line
	dir    xy // of a line, length 1
	radius float64
}

// loci of the observation for its point p; the base is the known points, from
// which the point is left or right. None where the numbers allow no place.
func (o *observation) loci(p int, at []xy) (all []locus, base []int) {
	switch {
	case o.kind == geom.Distance:
		q := o.at[0]
		if q == p {
			q = o.at[1]
		}
		return []locus{{circle: true, at: at[q], radius: o.value}}, []int{q}
	case o.kind == geom.Angle && o.at[1] == p:
		return seenFrom(at[o.at[0]], at[o.at[2]], o.value), []int{o.at[0], o.at[2]}
	case o.kind == geom.Angle:
		corner, arm := o.at[1], o.at[0]
		if arm == p {
			arm = o.at[2]
		}
		way := at[arm].minus(at[corner]).unit()
		return []locus{{at: at[corner], dir: way.along(o.value)}, {at: at[corner], dir: way.along(-o.value)}}, []int{corner, arm}
	case o.at[0] == p:
		q, r := at[o.at[1]], at[o.at[2]]
		way := r.minus(q).unit()
		off := way.left().times(o.value)
		return []locus{{at: q.plus(off), dir: way}, {at: q.minus(off), dir: way}}, []int{o.at[1], o.at[2]}
	}
	// The line from the other end of the base that passes the corner so far off.
	r := o.at[1]
	if r == p {
		r = o.at[2]
	}
	way := at[o.at[0]].minus(at[r])
	d := way.size()
	if o.value >= d {
		return nil, []int{r, o.at[0]}
	}
	turn := math.Asin(o.value / d)
	way = way.times(1 / d)
	return []locus{{at: at[r], dir: way.along(turn)}, {at: at[r], dir: way.along(-turn)}}, []int{r, o.at[0]}
}

// seenFrom are the two circles from which q and r are seen under an angle.
func seenFrom(q, r xy, angle float64) []locus {
	half := r.minus(q).times(0.5)
	sin, cos := math.Sincos(angle)
	mid, up := q.plus(half), half.left().times(cos/sin)
	radius := half.size() / sin
	return []locus{{circle: true, at: mid.plus(up), radius: radius}, {circle: true, at: mid.minus(up), radius: radius}}
}

// meet is where two loci meet, none, one or two places. Where circles or a line
// and a circle miss, near is the place halfway between them.
func (l locus) meet(m locus) (places []xy, near xy, missed bool) {
	switch {
	case l.circle && m.circle:
		return circles(l, m)
	case l.circle:
		return lineCircle(m, l)
	case m.circle:
		return lineCircle(l, m)
	}
	c := l.dir.cross(m.dir)
	if math.Abs(c) < parallel {
		return nil, xy{}, false
	}
	t := m.at.minus(l.at).cross(m.dir) / c
	return []xy{l.at.plus(l.dir.times(t))}, xy{}, false
}

// parallel: lines that differ by less cross so far off that their meeting is
// noise.
const parallel = 1e-9

func circles(l, m locus) (places []xy, near xy, missed bool) {
	way := m.at.minus(l.at)
	d := way.size()
	if d < float64(Shortest) {
		return nil, xy{}, false
	}
	way = way.times(1 / d)
	a, b := l.radius, m.radius
	x := (d + (a-b)*(a+b)/d) / 2
	h2 := (a - x) * (a + x)
	if h2 < 0 {
		switch {
		case a+b < d: // apart
			x = a + (d-a-b)/2
		case a > b: // m inside l
			x = (a + d + b) / 2
		default:
			x = -(a + b - d) / 2
		}
		return nil, l.at.plus(way.times(x)), true
	}
	foot, off := l.at.plus(way.times(x)), way.left().times(math.Sqrt(h2))
	return []xy{foot.plus(off), foot.minus(off)}, xy{}, false
}

func lineCircle(l, c locus) (places []xy, near xy, missed bool) {
	t := c.at.minus(l.at).dot(l.dir)
	foot := l.at.plus(l.dir.times(t))
	off := foot.minus(c.at)
	h := off.size()
	h2 := (c.radius - h) * (c.radius + h)
	if h2 < 0 {
		return nil, c.at.plus(off.times((h + c.radius) / (2 * h))), true
	}
	s := math.Sqrt(h2)
	return []xy{foot.plus(l.dir.times(s)), foot.minus(l.dir.times(s))}, xy{}, false
}

// keeps says whether a place that came out of the loci has the observation as it
// was measured: a line goes both ways and a circle has two arcs, of which one
// is meant.
func (o *observation) keeps(at []xy) bool {
	v := o.plainly(at)
	if math.IsNaN(v) {
		return false
	}
	const hair = 1e-6 // relative, or rad: far above the rounding and far below what is measured
	if o.kind == geom.Angle {
		return math.Abs(v-o.value) < hair
	}
	return math.Abs(v-o.value) < hair*math.Max(o.value, 1)
}
