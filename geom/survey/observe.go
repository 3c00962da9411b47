package survey

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// xy is a place or a way in millimetres.
type xy struct{ x, y float64 }

func (p xy) plus(q xy) xy          { return xy{p.x + q.x, p.y + q.y} }
func (p xy) minus(q xy) xy         { return xy{p.x - q.x, p.y - q.y} }
func (p xy) times(k float64) xy    { return xy{p.x * k, p.y * k} }
func (p xy) dot(q xy) float64      { return p.x*q.x + p.y*q.y }
func (p xy) cross(q xy) float64    { return p.x*q.y - p.y*q.x }
func (p xy) size() float64         { return math.Hypot(p.x, p.y) }
func (p xy) left() xy              { return xy{-p.y, p.x} }
func (p xy) along(a float64) xy    { s, c := math.Sincos(a); return xy{c*p.x - s*p.y, s*p.x + c*p.y} }
func (p xy) unit() xy              { return p.times(1 / p.size()) }
func (p xy) to(q xy) float64       { return q.minus(p).size() }
func length(x float64) unit.Length { return unit.Length(x) }
func plain(p geom.Point) xy        { return xy{float64(p.X), float64(p.Y)} }
func side(a, b, p xy) float64      { return b.minus(a).cross(p.minus(a)) }
func isLeft(a, b, p xy) bool       { return side(a, b, p) > 0 }

// observation is one measurement as the adjustment sees it.
type observation struct {
	kind   geom.Kind
	at     [3]int  // distance: its ends; angle: arm, corner, arm; height: corner, base
	n      int     // points in at: 2 or 3
	index  int     // into Net.Measured
	value  float64 // mm or rad
	sigma  float64 // the same unit
	stated bool    // sigma is from a stated tolerance
	half   float64 // else half of the last digit, mm or rad
	sign   float64 // of an angle or a height: +1 where it turns or lies to the left
}

func (o *observation) points() []int { return o.at[:o.n] }

// has says whether the observation has to do with the point.
func (o *observation) has(p int) bool {
	for _, q := range o.points() {
		if q == p {
			return true
		}
	}
	return false
}

// orient settles whether an angle or a height counts as left or right, once and
// from the start, so that a point may pass through its own line on the way.
func (o *observation) orient(at []xy) {
	o.sign = 1
	a, b, c := at[o.at[0]], at[o.at[1]], at[o.at[2]]
	switch o.kind {
	case geom.Angle:
		if a.minus(b).cross(c.minus(b)) < 0 {
			o.sign = -1
		}
	case geom.Height:
		if side(b, c, a) < 0 {
			o.sign = -1
		}
	}
}

// look is what the observation would be at these places, and how it changes with
// each of its points.
func (o *observation) look(at []xy) (value float64, by [3]xy) {
	switch o.kind {
	case geom.Distance:
		way := at[o.at[1]].minus(at[o.at[0]])
		d := way.size()
		u := way.times(1 / d)
		return d, [3]xy{u.times(-1), u}
	case geom.Angle:
		u, v := at[o.at[0]].minus(at[o.at[1]]), at[o.at[2]].minus(at[o.at[1]])
		a := o.sign * math.Atan2(u.cross(v), u.dot(v))
		if a < -math.Pi/2 { // a straight angle that went over
			a += 2 * math.Pi
		}
		du := u.left().times(-o.sign / u.dot(u))
		dv := v.left().times(o.sign / v.dot(v))
		return a, [3]xy{du, du.plus(dv).times(-1), dv}
	}
	p, q, r := at[o.at[0]], at[o.at[1]], at[o.at[2]]
	b := r.minus(q)
	l := b.size()
	n := b.left().times(o.sign / l)
	h := n.dot(p.minus(q))
	t := p.minus(q).dot(b) / (l * l) // where the foot lies, as a share of the base
	return h, [3]xy{n, n.times(t - 1), n.times(-t)}
}

// plainly is the unsigned value, as a person measures it.
func (o *observation) plainly(at []xy) float64 {
	t := *o
	t.orient(at)
	v, _ := t.look(at)
	return v
}

// rough is the σ while places are not known yet.
func (o *observation) rough(t Tools) float64 {
	switch {
	case o.stated:
		return o.sigma
	case o.kind == geom.Angle:
		return math.Hypot(t.Instrument.Angle.Radians()/Expansion, bound(o.half))
	}
	return math.Hypot(float64(t.Pull(length(o.value))), bound(o.half))
}

// fine is the σ with what centring costs at these places.
func (o *observation) fine(t Tools, at []xy) float64 {
	if o.stated || o.kind != geom.Angle {
		return o.rough(t)
	}
	b, a, c := at[o.at[0]], at[o.at[1]], at[o.at[2]]
	return math.Hypot(float64(t.Turned(length(a.to(b)), length(a.to(c)), length(b.to(c)))), bound(o.half))
}
