package net

import (
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// Covariance of a point, with the baseline's first end and direction (or the
// known points) held: zero for what is held and for a name that is not there.
func (a Adjusted) Covariance(n geom.Name) adjust.Covariance {
	i, ok := a.number[n]
	if !ok {
		return adjust.Covariance{}
	}
	return a.fit.Covariance(i)
}

// Seen is the place of a point and its covariance as seen from another baseline:
// its first end is the origin, its direction that of x, and both are without
// error. That is what a peg set out from that baseline has from the measurements.
func (a Adjusted) Seen(n geom.Name, base [2]geom.Name) (geom.Point, adjust.Covariance) {
	i, ok0 := a.number[n]
	p, ok1 := a.number[base[0]]
	q, ok2 := a.number[base[1]]
	if !ok0 || !ok1 || !ok2 || p == q {
		return geom.Point{}, adjust.Covariance{}
	}
	at := func(k int) geom.Vector { return geom.VectorOf(a.Points[k]) }
	way := at(q).Minus(at(p))
	b := way.Size()
	u := way.Times(1 / b)
	d := at(i).Minus(at(p))
	here := geom.Vector{X: u.Dot(d), Y: u.Cross(d)}
	// In the axes of the baseline: the point less the first end, less what the
	// turn of the baseline moves it by.
	along, across := u, u.Left()
	type part struct {
		k    int
		x, y geom.Vector // of the new x and y by the old coordinates
	}
	turn := across.Times(1 / b)
	parts := []part{
		{i, along, across},
		{p, along.Times(-1).Minus(turn.Times(here.Y)), across.Times(-1).Plus(turn.Times(here.X))},
		{q, turn.Times(here.Y), turn.Times(-here.X)},
	}
	var c adjust.Covariance
	for _, s := range parts {
		for _, t := range parts {
			m := a.fit.Between(s.k, t.k)
			sum := func(f, g geom.Vector) unit.Area {
				return unit.Area(f.X*(m[0][0]*g.X+m[0][1]*g.Y) + f.Y*(m[1][0]*g.X+m[1][1]*g.Y))
			}
			c.XX += sum(s.x, t.x)
			c.YY += sum(s.y, t.y)
			c.XY += sum(s.x, t.y)
		}
	}
	return geom.Point{X: unit.Length(here.X), Y: unit.Length(here.Y)}, c
}
