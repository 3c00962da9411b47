package adjust

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// NearMiss is where two loci all but meet.
type NearMiss struct {
	One, Two *Observation // nil: there is none
	l, m     geom.Locus
	At       geom.Vector
	off      float64 // how far each measurement is off there, together, in σ
}

// Meetings gives the places of point u that each two of some observations leave, the others where they are,
// and where two come nearest to one another that do not meet. at[u] changes.
func Meetings(u int, tried []*Observation, at []geom.Vector, each func(a, b *Observation, places []geom.Vector)) NearMiss {
	missed := NearMiss{off: math.Inf(1)}
	for i, a := range tried {
		ofA, _ := a.Loci(u, at)
		for _, b := range tried[:i] {
			ofB, _ := b.Loci(u, at)
			var places []geom.Vector
			for _, l := range ofA {
				for _, m := range ofB {
					meet, near, miss := l.Meet(m)
					places = append(places, meet...)
					if !miss {
						continue
					}
					at[u] = near
					if off := math.Abs(a.Unsigned(at)-a.Value)/a.Sigma + math.Abs(b.Unsigned(at)-b.Value)/b.Sigma; off < missed.off {
						missed = NearMiss{a, b, l, m, near, off}
					}
				}
			}
			each(a, b, tidy(u, places, a, b, at))
		}
	}
	return missed
}

// Beside are places a little to both sides of where two circles, or a line and a
// circle, all but meet: as far as one standard deviation would part them.
func (n NearMiss) Beside() []geom.Vector {
	way, size := n.l.Dir, n.m.Radius
	switch {
	case n.l.Circle && n.m.Circle:
		way, size = n.m.At.Minus(n.l.At).Unit().Left(), min(n.l.Radius, n.m.Radius)
	case n.l.Circle:
		way, size = n.m.Dir, n.l.Radius
	}
	off := way.Times(math.Sqrt(2 * (n.One.Sigma + n.Two.Sigma) * max(size, 1)))
	return []geom.Vector{n.At.Plus(off), n.At.Minus(off)}
}

// tidy keeps the places that have both observations as measured, each once.
func tidy(u int, places []geom.Vector, a, b *Observation, at []geom.Vector) (kept []geom.Vector) {
	for _, c := range places {
		at[u] = c
		same := func(o geom.Vector) bool { return o.To(c) <= 1e-9*(1+a.Value+b.Value) }
		if !math.IsNaN(c.X+c.Y) && a.Keeps(at) && b.Keeps(at) && !slices.ContainsFunc(kept, same) {
			kept = append(kept, c)
		}
	}
	return kept
}

// Intersection is a place of a point that two observations hold.
type Intersection struct {
	Point    int
	One, Two *Observation
	At       geom.Vector
	Places   []geom.Vector // of all points; that of Point changes
}

// fits: another observation agrees with a place where it is no more σ off.
const fits = 10

// Trace of the covariance of the place.
func (h Intersection) Trace() float64 {
	h.Places[h.Point] = h.At
	g, k := h.One.Gradient(h.Point, h.Places), h.Two.Gradient(h.Point, h.Places)
	d := g.Cross(k)
	return (g.Dot(g) + k.Dot(k)) / (d * d)
}

// Off is how far another observation is from the place in σ, its own and that of the place together.
func (h Intersection) Off(x *Observation) float64 {
	h.Places[h.Point] = h.At
	g, k, q := h.One.Gradient(h.Point, h.Places), h.Two.Gradient(h.Point, h.Places), x.Gradient(h.Point, h.Places)
	v := (x.Unsigned(h.Places) - x.Value) / x.Sigma
	d := g.Cross(k)
	if d == 0 {
		return math.Abs(v)
	}
	a, b := q.Cross(k)/d, g.Cross(q)/d
	return math.Abs(v) / math.Sqrt(1+a*a+b*b)
}

// Agreeing are the other observations that the place fits: a single slip then does not lead it astray.
func (h Intersection) Agreeing(near []*Observation) (all []*Observation) {
	for _, x := range near {
		if x != h.One && x != h.Two && h.Off(x) < fits {
			all = append(all, x)
		}
	}
	return all
}

// Polished is the place that fits best what it agrees with of all that goes to
// it, so that the error of one point is not handed on to the next and grows.
func (h Intersection) Polished(near []*Observation) geom.Vector {
	if len(near) < 3 {
		return h.At
	}
	with := append([]*Observation{h.One, h.Two}, h.Agreeing(near)...)
	sum := func() (sum float64) {
		for _, x := range with {
			v := (x.Unsigned(h.Places) - x.Value) / x.Sigma
			sum += v * v
		}
		return sum
	}
	h.Places[h.Point] = h.At
	least, at := sum(), h.At
	for range 4 {
		var xx, xyy, yy float64
		var g geom.Vector
		for _, x := range with {
			q := x.Gradient(h.Point, h.Places)
			xx, xyy, yy = xx+q.X*q.X, xyy+q.X*q.Y, yy+q.Y*q.Y
			g = g.Plus(q.Times((x.Value - x.Unsigned(h.Places)) / x.Sigma))
		}
		det := xx*yy - xyy*xyy
		step := geom.Vector{X: (yy*g.X - xyy*g.Y) / det, Y: (xx*g.Y - xyy*g.X) / det}
		h.Places[h.Point] = at.Plus(step)
		s := sum()
		if !(s < least) {
			break
		}
		least, at = s, h.Places[h.Point]
	}
	h.Places[h.Point] = at
	hand := func(x Observation, at geom.Vector) float64 {
		h.Places[h.Point] = at
		x.Orient(h.Places)
		return x.sign
	}
	for _, x := range with { // not over a line that it must stay on one side of
		if hand(*x, h.At) != hand(*x, at) {
			return h.At
		}
	}
	return at
}

// Loci of the observation for its point p; the base is the known points, from
// which the point is left or right. None where the numbers allow no place.
func (o *Observation) Loci(p int, at []geom.Vector) (all []geom.Locus, base []int) {
	switch {
	case o.Kind == triangle.Distance:
		q := o.At[0] + o.At[1] - p // the other of the two
		return []geom.Locus{{Circle: true, At: at[q], Radius: o.Value}}, []int{q}
	case o.Kind == triangle.Angle && o.At[1] == p:
		return seenFrom(at[o.At[0]], at[o.At[2]], o.Value), []int{o.At[0], o.At[2]}
	case o.Kind == triangle.Angle:
		corner, arm := o.At[1], o.At[0]+o.At[2]-p
		way := at[arm].Minus(at[corner]).Unit()
		return []geom.Locus{{At: at[corner], Dir: way.Turned(unit.Angle(o.Value))}, {At: at[corner], Dir: way.Turned(unit.Angle(-o.Value))}}, []int{corner, arm}
	case o.At[0] == p:
		q, r := at[o.At[1]], at[o.At[2]]
		way := r.Minus(q).Unit()
		off := way.Left().Times(o.Value)
		return []geom.Locus{{At: q.Plus(off), Dir: way}, {At: q.Minus(off), Dir: way}}, []int{o.At[1], o.At[2]}
	}
	// The line from the other end of the base that passes the corner so far off.
	r := o.At[1] + o.At[2] - p
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

// Keeps says whether a place that came out of the loci has the observation as it was measured: a line goes
// both ways and a circle has two arcs, of which one is meant.
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
