package shape

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// corner is where two straight lines meet, the first running in and the second out.
type corner struct {
	at   geom.Point
	u, v geom.Vector // unit vectors along the lines
	s, c float64     // sine and cosine of the turn from u to v: s > 0 where the corner points outward
}

func cornerOf(before, at, after geom.Point) corner {
	u, v := geom.VectorOf(at.Minus(before)), geom.VectorOf(after.Minus(at))
	lu, lv := u.Size(), v.Size()
	return corner{at, u.Times(1 / lu), v.Times(1 / lv), u.FineCross(v) / lu / lv, u.Dot(v) / lu / lv}
}

// turn from the first line to the second, in (−π, π].
func (k corner) turn() float64 { return math.Atan2(k.s, k.c) }

func (k corner) interior() unit.Angle { return unit.Angle(math.Pi - k.turn()) }

// sign is 1 where the corner points outward, −1 where it points inward.
func (k corner) sign() float64 {
	if k.s < 0 {
		return -1
	}
	return 1
}

// setBack of a rounding: how far along both edges it begins.
func (k corner) setBack(radius float64) float64 { return radius * math.Tan(math.Abs(k.turn())/2) }

// mitre is the way from the corner to where the lines cross when the first is
// moved outward by a and the second by b. Infinite where the lines run on straight
// and a is not b. Relative error a few ulp in any corner, since each of both parts
// (the mean of a and b along the bisector, their difference across it) is taken in
// that of two equal forms which does not cancel.
func (k corner) mitre(a, b float64) geom.Vector {
	nu, nv := k.u.Right(), k.v.Right()
	mean, half := (a+b)/2, (b-a)/2
	var along, across geom.Vector
	if k.c >= 0 {
		along = nu.Plus(nv).Times(mean / (1 + k.c))
		if half != 0 {
			across = k.u.Plus(k.v).Times(half / k.s)
		}
	} else {
		if mean != 0 {
			along = k.u.Minus(k.v).Times(mean / k.s)
		}
		across = nv.Minus(nu).Times(half / (1 - k.c))
	}
	return along.Plus(across)
}

// run is what stands between two sides: it leaves the one at in and reaches the
// other at out, by segment; a sharp corner has none and in is out.
type run struct {
	in, out geom.Point
	segment geom.Segment
}

// treatment is what is done to a corner, in bare numbers.
type treatment struct {
	do    Treatment
	by    float64
	allow float64 // of the edge that a cut makes
}

// run between lines moved outward by a and b.
func (k corner) run(t treatment, a, b float64) run {
	switch t.do {
	case Cut:
		back := geom.Vector{}.Minus(k.u).Times(t.by)
		return k.across(k.at.Plus(back.Point()), k.at.Plus(k.v.Times(t.by).Point()), a, b, t.allow)
	case Blunt:
		return k.across(k.at, k.at, a, b, t.by)
	case Round:
		sign := k.sign()
		if r := t.by + sign*(a+b)/2; r > float64(touching) {
			return k.round(r, a-sign*r, b-sign*r)
		}
	}
	return k.sharp(a, b)
}

func (k corner) sharp(a, b float64) run {
	p := k.at.Plus(k.mitre(a, b).Point())
	return run{in: p, out: p}
}

// round is an arc of radius r about where the lines cross that are moved by a and b.
func (k corner) round(r, a, b float64) run {
	centre, reach := k.at.Plus(k.mitre(a, b).Point()), k.sign()*r
	nu, nv := k.u.Right().Times(reach), k.v.Right().Times(reach)
	return run{centre.Plus(nu.Point()), centre.Plus(nv.Point()), geom.Arc{
		Centre: centre, Radius: unit.Length(r),
		Start: unit.Angle(math.Atan2(nu.Y, nu.X)), Sweep: unit.Angle(k.turn()),
	}}
}

// across is a straight cut at half the turn: the line through p and q moved
// outward by c, between the lines moved by a and b. Where it does not reach into
// their corner, that is sharp.
func (k corner) across(p, q geom.Point, a, b, c float64) run {
	half := k.turn() / 2
	s, co := math.Sincos(half)
	w := k.u.Turned(unit.Angle(half))
	in := p.Plus(corner{u: k.u, v: w, s: s, c: co}.mitre(a, c).Point())
	out := q.Plus(corner{u: w, v: k.v, s: s, c: co}.mitre(c, b).Point())
	if geom.VectorOf(out.Minus(in)).Dot(w) <= float64(touching) {
		return k.sharp(a, b)
	}
	return run{in, out, geom.Line{From: in, To: out}}
}
