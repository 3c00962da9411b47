package adjust

import (
	"math"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Loci of the observation for its point p; the base is the known points, from
// which the point is left or right. None where the numbers allow no place.
func (o *Observation) Loci(p int, at []geom.Vector) (all []geom.Locus, base []int) {
	switch {
	case o.Kind == triangle.Distance:
		q := o.At[0]
		if q == p {
			q = o.At[1]
		}
		return []geom.Locus{{Circle: true, At: at[q], Radius: o.Value}}, []int{q}
	case o.Kind == triangle.Angle && o.At[1] == p:
		return seenFrom(at[o.At[0]], at[o.At[2]], o.Value), []int{o.At[0], o.At[2]}
	case o.Kind == triangle.Angle:
		corner, arm := o.At[1], o.At[0]
		if arm == p {
			arm = o.At[2]
		}
		way := at[arm].Minus(at[corner]).Unit()
		return []geom.Locus{{At: at[corner], Dir: way.Turned(unit.Angle(o.Value))}, {At: at[corner], Dir: way.Turned(unit.Angle(-o.Value))}}, []int{corner, arm}
	case o.At[0] == p:
		q, r := at[o.At[1]], at[o.At[2]]
		way := r.Minus(q).Unit()
		off := way.Left().Times(o.Value)
		return []geom.Locus{{At: q.Plus(off), Dir: way}, {At: q.Minus(off), Dir: way}}, []int{o.At[1], o.At[2]}
	}
	// The line from the other end of the base that passes the corner so far off.
	r := o.At[1]
	if r == p {
		r = o.At[2]
	}
	way := at[o.At[0]].Minus(at[r])
	d := way.Size()
	if o.Value >= d {
		return nil, []int{r, o.At[0]}
	}
	turn := math.Asin(o.Value / d)
	way = way.Times(1 / d)
	return []geom.Locus{{At: at[r], Dir: way.Turned(unit.Angle(turn))}, {At: at[r], Dir: way.Turned(unit.Angle(-turn))}}, []int{r, o.At[0]}
}

// seenFrom are the two circles from which q and r are seen under an angle.
func seenFrom(q, r geom.Vector, angle float64) []geom.Locus {
	half := r.Minus(q).Times(0.5)
	sin, cos := math.Sincos(angle)
	mid, up := q.Plus(half), half.Left().Times(cos/sin)
	radius := half.Size() / sin
	return []geom.Locus{{Circle: true, At: mid.Plus(up), Radius: radius}, {Circle: true, At: mid.Minus(up), Radius: radius}}
}

// Keeps says whether a place that came out of the loci has the observation as it
// was measured: a line goes both ways and a circle has two arcs, of which one
// is meant.
func (o *Observation) Keeps(at []geom.Vector) bool {
	v := o.Unsigned(at)
	if math.IsNaN(v) {
		return false
	}
	const hair = 1e-6 // relative, or rad: far above the rounding and far below what is measured
	if o.Kind == triangle.Angle {
		return math.Abs(v-o.Value) < hair
	}
	return math.Abs(v-o.Value) < hair*math.Max(o.Value, 1)
}
