package net

import (
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// Covariance of a point, with the baseline's first end and direction (or the
// known points) held: zero for what is held and for a name that is not there.
func (a Adjusted) Covariance(n geom.Name) adjust.Covariance {
	i, ok := a.index(n)
	if !ok {
		return adjust.Covariance{}
	}
	return a.fit.Covariance(i)
}

// Seen is the place of a point and its covariance as seen from another baseline:
// its first end is the origin, its direction that of x, and both are without
// error. That is what a peg set out from that baseline has from the measurements.
func (a Adjusted) Seen(n geom.Name, base [2]geom.Name) (geom.Point, adjust.Covariance) {
	i, ok0 := a.index(n)
	p, ok1 := a.index(base[0])
	q, ok2 := a.index(base[1])
	if !ok0 || !ok1 || !ok2 || p == q {
		return geom.Point{}, adjust.Covariance{}
	}
	from := geom.VectorOf(a.Points[p])
	way, d := geom.VectorOf(a.Points[q]).Minus(from), geom.VectorOf(a.Points[i]).Minus(from)
	b := way.Size()
	along := way.Times(1 / b)
	across := along.Left()
	here := geom.Vector{X: along.Dot(d), Y: along.Cross(d)}
	// In the axes of the baseline: the point less the first end, less what the
	// turn of the baseline moves it by.
	turn := across.Times(1 / b)
	of := []int{i, p, q}
	x := a.fit.Free.Row(of, along, along.Times(-1).Minus(turn.Times(here.Y)), turn.Times(here.Y))
	y := a.fit.Free.Row(of, across, across.Times(-1).Plus(turn.Times(here.X)), turn.Times(-here.X))
	through := func(r, t *adjust.Row) unit.Area { return unit.Area(a.fit.Through(r, t)) }
	return here.Point(), adjust.Covariance{XX: through(&x, &x), YY: through(&y, &y), XY: through(&x, &y)}
}
