package shape

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// vec is a direction or a way in mm, as bare numbers.
type vec struct{ x, y float64 }

func (p vec) plus(q vec) vec      { return vec{p.x + q.x, p.y + q.y} }
func (p vec) minus(q vec) vec     { return vec{p.x - q.x, p.y - q.y} }
func (p vec) times(k float64) vec { return vec{k * p.x, k * p.y} }
func (p vec) dot(q vec) float64   { return p.x*q.x + p.y*q.y }
func (p vec) long() float64       { return math.Hypot(p.x, p.y) }
func (p vec) outward() vec        { return vec{p.y, -p.x} } // the right-hand side, where the outline runs counter-clockwise
func (p vec) turned(by float64) vec {
	s, c := math.Sincos(by)
	return vec{c*p.x - s*p.y, s*p.x + c*p.y}
}

// cross is p.x·q.y − p.y·q.x within 1.5 ulp, also where both products are nearly
// equal (W. Kahan's way with a fused multiply and add): at a needle's corner it
// is all that is known of the angle.
func (p vec) cross(q vec) float64 {
	w := p.y * q.x
	return math.FMA(p.x, q.y, -w) + math.FMA(-p.y, q.x, w)
}

func wayOf(from, to geom.Point) vec { return vec{float64(to.X - from.X), float64(to.Y - from.Y)} }

func moved(p geom.Point, by vec) geom.Point {
	return geom.Point{X: p.X + unit.Length(by.x), Y: p.Y + unit.Length(by.y)}
}

// corner is where two straight lines meet, the first running in and the second out.
type corner struct {
	at   geom.Point
	u, v vec     // unit vectors along the lines
	s, c float64 // sine and cosine of the turn from u to v: s > 0 where the corner points outward
}

func cornerOf(before, at, after geom.Point) corner {
	u, v := wayOf(before, at), wayOf(at, after)
	lu, lv := u.long(), v.long()
	return corner{at, u.times(1 / lu), v.times(1 / lv), u.cross(v) / lu / lv, u.dot(v) / lu / lv}
}

// turn from the first line to the second, in (−π, π].
func (k corner) turn() float64 { return math.Atan2(k.s, k.c) }

// interior angle of the piece.
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
func (k corner) mitre(a, b float64) vec {
	nu, nv := k.u.outward(), k.v.outward()
	mean, half := (a+b)/2, (b-a)/2
	var along, across vec
	if k.c >= 0 {
		along = nu.plus(nv).times(mean / (1 + k.c))
		if half != 0 {
			across = k.u.plus(k.v).times(half / k.s)
		}
	} else {
		if mean != 0 {
			along = k.u.minus(k.v).times(mean / k.s)
		}
		across = nv.minus(nu).times(half / (1 - k.c))
	}
	return along.plus(across)
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
		back := vec{}.minus(k.u).times(t.by)
		return k.across(moved(k.at, back), moved(k.at, k.v.times(t.by)), a, b, t.allow)
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
	p := moved(k.at, k.mitre(a, b))
	return run{in: p, out: p}
}

// round is an arc of radius r about where the lines cross that are moved by a and b.
func (k corner) round(r, a, b float64) run {
	centre, reach := moved(k.at, k.mitre(a, b)), k.sign()*r
	nu, nv := k.u.outward().times(reach), k.v.outward().times(reach)
	return run{moved(centre, nu), moved(centre, nv), geom.Arc{
		Centre: centre, Radius: unit.Length(r),
		Start: unit.Angle(math.Atan2(nu.y, nu.x)), Sweep: unit.Angle(k.turn()),
	}}
}

// across is a straight cut at half the turn: the line through p and q moved
// outward by c, between the lines moved by a and b. Where it does not reach into
// their corner, that is sharp.
func (k corner) across(p, q geom.Point, a, b, c float64) run {
	half := k.turn() / 2
	s, co := math.Sincos(half)
	w := k.u.turned(half)
	in := moved(p, corner{u: k.u, v: w, s: s, c: co}.mitre(a, c))
	out := moved(q, corner{u: w, v: k.v, s: s, c: co}.mitre(c, b))
	if wayOf(in, out).dot(w) <= float64(touching) {
		return k.sharp(a, b)
	}
	return run{in, out, geom.Line{From: in, To: out}}
}
