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
	value, limit, nudge []float64 // of each pull, then of what offsets turn aside
	marks               []traced  // each behind those that it is made from
	of                  map[geom.Name]int
}

// places of marks by their index in a trace.
type places []geom.Point

type traced struct {
	by    []int // the pulls that it hangs on
	needs []int // the marks that it is made from, and itself, each behind those that it is made from
	at    func(v []float64, at places) geom.Point
}

// mark is one made from others by pulls of its own.
func (n *trace) mark(name geom.Name, from, pulls []int, at func(v []float64, at places) geom.Point) {
	m := traced{by: slices.Clone(pulls), needs: []int{len(n.marks)}, at: at}
	for _, i := range from {
		m.by, m.needs = append(m.by, n.marks[i].by...), append(m.needs, n.marks[i].needs...)
	}
	m.by, m.needs = unique(m.by), unique(m.needs)
	n.of[name] = len(n.marks)
	n.marks = append(n.marks, m)
}

func unique(all []int) []int {
	slices.Sort(all)
	return slices.Compact(all)
}

// places are where the marks that one is made from come to with pulls of such values, and itself.
func (n trace) places(v []float64, needs []int) places {
	at := make(places, len(n.marks))
	for _, i := range needs {
		at[i] = n.marks[i].at(v, at)
	}
	return at
}

// Steps of the central differences below: distances are smooth over them, and
// rounding of 1e-11 mm on 100 m costs 1e-9.
const (
	nudgeLength = 0.01
	nudgeAngle  = 1e-6
)

// traceOf follows every mark back to the pulls that make it when the corners are placed so.
func (s Pulled) traceOf(placings []Placing) trace {
	n := trace{of: map[geom.Name]int{}}
	for _, p := range s.Pulls {
		v, limit, nudge := p.Length.MM(), p.Limit.MM(), nudgeLength
		if p.Use == ForAngle {
			v, limit, nudge = p.Angle.Radians(), p.Within.Radians(), nudgeAngle
		}
		n.value, n.limit, n.nudge = append(n.value, v), append(n.limit, limit), append(n.nudge, nudge)
	}
	n.mark(s.Baseline.From, nil, nil, func([]float64, places) geom.Point { return s.plane(0, 0) })
	for i, p := range s.Pulls {
		if p.Use == ForBaseline || p.Use == ForRunning {
			sign := 1.0
			if p.Behind {
				sign = -1
			}
			n.mark(p.To, nil, []int{i}, func(v []float64, _ places) geom.Point { return s.plane(unit.Length(sign*v[i]), 0) })
		}
	}
	for _, p := range placings {
		s.made(&n, p)
	}
	for i, p := range s.Pulls {
		if p.Use == ForMiddle {
			hold, apex := n.of[p.Hold], n.of[s.Beside[0]]
			n.mark(p.To, []int{hold, apex}, []int{i}, func(v []float64, at places) geom.Point { return toward(at[hold], at[apex], unit.Length(v[i])) })
		}
	}
	return n
}

// made is a corner as its placing makes it.
func (s Pulled) made(n *trace, p Placing) {
	a, b := n.of[p.Base[0]], n.of[p.Base[1]]
	ends, left := []int{a, b}, p.Side == Left
	switch p.Method {
	case TwoArcs:
		ra, rb := p.Pulls[0], p.Pulls[1]
		n.mark(p.Peg, ends, p.Pulls, func(v []float64, at places) geom.Point {
			return crossOn(left, at[a], at[b], unit.Length(v[ra]), unit.Length(v[rb]))
		})
	case RunOff:
		run := p.Pulls[0]
		n.mark(p.Peg, ends, p.Pulls, func(v []float64, at places) geom.Point { return toward(at[a], at[b], unit.Length(v[run])) })
	case AngleDistance:
		turn, ray := p.Pulls[0], p.Pulls[1]
		n.mark(p.Peg, ends, p.Pulls, func(v []float64, at places) geom.Point {
			sight := geom.Line{From: at[a], To: at[b]}.Direction()
			by := unit.Angle(v[turn])
			if !left {
				by = -by
			}
			return at[a].Toward(sight+by, unit.Length(v[ray]))
		})
	default:
		s.squaredOff(n, p)
	}
}

// squaredOff is a corner that is set off by a square.
func (s Pulled) squaredOff(n *trace, p Placing) {
	a, b, left := n.of[p.Base[0]], n.of[p.Base[1]], p.Side == Left
	q := s.Squares[p.Square]
	if _, stands := n.of[p.Foot]; !stands { // on its line
		run := slices.IndexFunc(s.Pulls, func(x Pull) bool { return x.Use == ForLine && x.To == p.Foot })
		n.mark(p.Foot, []int{a, b}, []int{run}, func(v []float64, at places) geom.Point { return toward(at[a], at[b], unit.Length(v[run])) })
	}
	foot := n.of[p.Foot]
	leg, up, across, out := p.Pulls[0], p.Pulls[1], p.Pulls[2], p.Pulls[3]
	hangs := []int{foot}
	if p.Base != s.base() {
		hangs = append(hangs, a, b)
	}
	pulls, aside, hand := p.Pulls, len(n.value), 1.0
	if p.Aside > 0 {
		n.value, n.limit, n.nudge = append(n.value, p.Aside.MM()), append(n.limit, s.Limit(p.Aside).MM()), append(n.nudge, nudgeLength)
		pulls = append(slices.Clone(pulls), aside)
	}
	if left != (p.Toward == p.Base[1]) {
		hand = -1
	}
	n.mark(p.Peg, hangs, pulls, func(v []float64, at places) geom.Point {
		f := at[foot]
		way := s.along(p.Base, at[a], at[b])
		l := geom.VectorOf(f).Plus(way.Times(v[leg]))
		if q.Toward == p.Base[0] {
			l = geom.VectorOf(f).Minus(way.Times(v[leg]))
		}
		top := crossOn(left != (q.Toward == p.Base[0]), f, l.Point(), unit.Length(v[up]), unit.Length(v[across]))
		peg := toward(f, top, unit.Length(v[out]))
		if p.Aside == 0 {
			return peg
		}
		side := geom.VectorOf(top.Minus(f)).Unit().Right()
		return geom.VectorOf(peg).Plus(side.Times(hand * v[aside])).Point()
	})
}

// along is the direction of a line as it came to lie; that of the baseline is the plane's own.
func (s Pulled) along(base [2]geom.Name, a, b geom.Point) geom.Vector {
	if base == s.base() {
		if s.Baseline.Zero == 1 {
			return geom.Vector{X: -1}
		}
		return geom.Vector{X: 1}
	}
	return geom.VectorOf(b.Minus(a)).Unit()
}

// carried is how far a distance may be off: the root of the squares of each pull's share.
func (n trace) carried(a, b geom.Name) unit.Length {
	p, q := n.of[a], n.of[b]
	sum := 0.0
	v := slices.Clone(n.value)
	needs := unique(slices.Concat(n.marks[p].needs, n.marks[q].needs))
	for _, i := range unique(slices.Concat(n.marks[p].by, n.marks[q].by)) {
		v[i] = n.value[i] + n.nudge[i]
		at := n.places(v, needs)
		more := at[p].Distance(at[q])
		v[i] = n.value[i] - n.nudge[i]
		at = n.places(v, needs)
		less := at[p].Distance(at[q])
		v[i] = n.value[i]
		share := float64(more-less) / (2 * n.nudge[i]) * n.limit[i]
		sum += share * share
	}
	return unit.Length(math.Sqrt(sum))
}

// roundingCost is how far from its place a corner comes by the printed figures.
func (s Pulled) roundingCost(n trace, corner geom.Name) unit.Length {
	v := slices.Clone(n.value)
	m := n.of[corner]
	for _, i := range n.marks[m].by {
		if i >= len(s.Pulls) {
			v[i] = s.Rounded(unit.Length(v[i])).MM()
		} else if q := s.Pulls[i]; q.Use == ForAngle {
			v[i] = s.RoundedAngle(q.Angle).Radians()
		} else {
			v[i] += (s.Rounded(q.Reads) - q.Reads).MM()
		}
	}
	return n.places(v, n.marks[m].needs)[m].Distance(s.spots[corner])
}

// crossOn is where two arcs cross, left or right of the way between their centres.
func crossOn(left bool, p, q geom.Point, rp, rq unit.Length) geom.Point {
	return geom.Crossing(geom.VectorOf(p), geom.VectorOf(q), float64(rp), float64(rq), left).Point()
}

// toward is the place at a distance from p in the direction of q.
func toward(p, q geom.Point, d unit.Length) geom.Point {
	return geom.Line{From: p, To: q}.At(float64(d / p.Distance(q)))
}
