package setout

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// net is every mark as a function of the tape pulls that make it, so that an
// error in a pull can be followed to whatever depends on it.
type net struct {
	pulls []unit.Length
	limit []unit.Length
	at    map[geom.Name]func(v []unit.Length) geom.Point
}

// pull adds a pull and is its index.
func (n *net) pull(l unit.Length, t Tape) int {
	n.pulls, n.limit = append(n.pulls, l), append(n.limit, t.Limit(l))
	return len(n.pulls) - 1
}

// between is the distance of two marks when the pulls are v.
func (n *net) between(a, b geom.Name, v []unit.Length) unit.Length {
	return n.at[a](v).Distance(n.at[b](v))
}

// nudge is the step of the central difference below: distances are smooth over
// it, and rounding of 1e-11 mm on 100 m costs 1e-9.
const nudge unit.Length = 0.01

// carried is how far the distance a to b may be off because the pulls are: the
// root of the sum of squares of each pull's share.
func (n *net) carried(a, b geom.Name) unit.Length {
	sum := 0.0
	v := append([]unit.Length(nil), n.pulls...)
	for i := range v {
		v[i] = n.pulls[i] + nudge
		more := n.between(a, b, v)
		v[i] = n.pulls[i] - nudge
		less := n.between(a, b, v)
		v[i] = n.pulls[i]
		share := float64((more-less)/(2*nudge)) * float64(n.limit[i])
		sum += share * share
	}
	return unit.Length(math.Sqrt(sum))
}

// cross is where two arcs cross on the left of the line from the first centre to
// the second; where they do not meet, the nearest place to both on that line.
func cross(p, q geom.Point, rp, rq unit.Length) geom.Point {
	d := float64(p.Distance(q))
	a, b := float64(rp), float64(rq)
	x := (d + (a-b)*(a+b)/d) / 2
	y := math.Sqrt(max(0, (a-x)*(a+x)))
	ux, uy := float64(q.X-p.X)/d, float64(q.Y-p.Y)/d
	return geom.Point{X: p.X + unit.Length(x*ux-y*uy), Y: p.Y + unit.Length(x*uy+y*ux)}
}

// toward is the place at a distance from p in the direction of q.
func toward(p, q geom.Point, d unit.Length) geom.Point {
	return geom.Line{From: p, To: q}.At(float64(d / p.Distance(q)))
}
