package pegging

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// trace is every mark as a function of the pulls that make it, so that an error in
// a pull can be followed to whatever depends on it. A value is the length of the
// pull of that index, or its angle in radians.
type trace struct {
	value, limit, nudge []float64
	at                  map[geom.Name]traced
}

type traced struct {
	by []int // the pulls that it hangs on
	at func(v []float64) geom.Point
}

// Steps of the central differences below: distances are smooth over them, and
// rounding of 1e-11 mm on 100 m costs 1e-9.
const (
	nudgeLength = 0.01
	nudgeAngle  = 1e-6
)

// traceOf follows every mark back to the pulls that make it when the corners are placed so.
func (s Pulled) traceOf(placings []Placing) trace {
	n := trace{at: map[geom.Name]traced{}}
	for _, p := range s.Pulls {
		v, limit, nudge := p.Length.MM(), p.Limit.MM(), nudgeLength
		if p.Use == ForAngle {
			v, limit, nudge = p.Angle.Radians(), p.Within.Radians(), nudgeAngle
		}
		n.value, n.limit, n.nudge = append(n.value, v), append(n.limit, limit), append(n.nudge, nudge)
	}
	from, to := s.Baseline.From, s.Baseline.To
	n.at[from] = traced{nil, func([]float64) geom.Point { return s.plane(0, 0) }}
	for i, p := range s.Pulls {
		if p.Use == ForBaseline || p.Use == ForRunning {
			sign := 1.0
			if p.Behind {
				sign = -1
			}
			n.at[p.To] = traced{[]int{i}, func(v []float64) geom.Point { return s.plane(unit.Length(sign*v[i]), 0) }}
		}
	}
	for _, p := range placings {
		n.at[p.Peg] = s.made(n, p, from, to)
	}
	for i, p := range s.Pulls {
		if p.Use == ForMiddle {
			hold, apex := n.at[p.Hold], n.at[s.Beside[0]]
			n.at[p.To] = traced{join(hold, apex, i), func(v []float64) geom.Point { return toward(hold.at(v), apex.at(v), unit.Length(v[i])) }}
		}
	}
	return n
}

func join(a, b traced, more ...int) []int {
	all := slices.Concat(a.by, b.by, more)
	slices.Sort(all)
	return slices.Compact(all)
}

// made is a corner as its placing makes it.
func (s Pulled) made(n trace, p Placing, from, to geom.Name) traced {
	a, b := n.at[from], n.at[to]
	above := s.spots[p.Peg].Y > 0
	switch p.Method {
	case TwoArcs:
		ra, rb := p.Pulls[0], p.Pulls[1]
		return traced{join(a, b, ra, rb), func(v []float64) geom.Point {
			return crossOn(above, a.at(v), b.at(v), unit.Length(v[ra]), unit.Length(v[rb]))
		}}
	case AngleDistance:
		turn, ray := p.Pulls[0], p.Pulls[1]
		return traced{join(a, b, turn, ray), func(v []float64) geom.Point {
			sight := geom.Line{From: a.at(v), To: b.at(v)}.Direction()
			by := unit.Angle(v[turn])
			if p.Side == Right {
				by = -by
			}
			return a.at(v).Toward(sight+by, unit.Length(v[ray]))
		}}
	}
	q := s.Squares[p.Square]
	foot := n.at[p.Foot]
	leg, up, across, out := p.Pulls[0], p.Pulls[1], p.Pulls[2], p.Pulls[3]
	return traced{join(foot, traced{}, leg, up, across, out), func(v []float64) geom.Point {
		f := foot.at(v)
		l := geom.Point{X: f.X + unit.Length(v[leg])}
		if q.Toward == s.Ends()[0] {
			l.X = f.X - unit.Length(v[leg])
		}
		top := crossOn(above, f, l, unit.Length(v[up]), unit.Length(v[across]))
		return toward(f, top, unit.Length(v[out]))
	}}
}

// carried is how far a distance may be off: the root of the squares of each pull's share.
func (n trace) carried(a, b geom.Name) unit.Length {
	p, q := n.at[a], n.at[b]
	sum := 0.0
	v := slices.Clone(n.value)
	for _, i := range join(p, q) {
		v[i] = n.value[i] + n.nudge[i]
		more := p.at(v).Distance(q.at(v))
		v[i] = n.value[i] - n.nudge[i]
		less := p.at(v).Distance(q.at(v))
		v[i] = n.value[i]
		share := float64(more-less) / (2 * n.nudge[i]) * n.limit[i]
		sum += share * share
	}
	return unit.Length(math.Sqrt(sum))
}

// roundingCost is how far from its place a corner comes by the printed figures.
func (s Pulled) roundingCost(n trace, corner geom.Name) unit.Length {
	v := slices.Clone(n.value)
	for _, i := range n.at[corner].by {
		if q := s.Pulls[i]; q.Use == ForAngle {
			v[i] = s.RoundedAngle(q.Angle).Radians()
		} else {
			v[i] += (s.Rounded(q.Reads) - q.Reads).MM()
		}
	}
	return n.at[corner].at(v).Distance(s.spots[corner])
}

// crossOn is where two arcs about places on the baseline cross above or below it.
func crossOn(above bool, p, q geom.Point, rp, rq unit.Length) geom.Point {
	return geom.Crossing(geom.VectorOf(p), geom.VectorOf(q), float64(rp), float64(rq), above == (q.X > p.X)).Point()
}

// toward is the place at a distance from p in the direction of q.
func toward(p, q geom.Point, d unit.Length) geom.Point {
	return geom.Line{From: p, To: q}.At(float64(d / p.Distance(q)))
}
