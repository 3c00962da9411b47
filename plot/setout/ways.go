package setout

import (
	"sort"

	"trammel/geom"
	"trammel/geom/unit"
)

// netFor follows every mark back to the pulls that make it when the apex is
// placed by the method. The baseline's zero end and its direction are given.
func (w *work) netFor(m Method) net {
	n := net{at: map[geom.Name]func([]unit.Length) geom.Point{}}
	b, z := w.Baseline.Length, w.Baseline.Zero
	onBase := func(along unit.Length) geom.Point {
		if z == 1 {
			return geom.Point{X: b - along}
		}
		return geom.Point{X: along}
	}
	base := n.pull(b, w.Tape)
	n.at[w.Baseline.From] = func([]unit.Length) geom.Point { return onBase(0) }
	n.at[w.Baseline.To] = func(v []unit.Length) geom.Point { return onBase(v[base]) }
	for _, p := range w.Pegs {
		if p.Role == Foot || p.Role == Middle && p.Offset == 0 {
			i := n.pull(p.Along, w.Tape)
			n.at[p.Name] = func(v []unit.Length) geom.Point { return onBase(v[i]) }
		}
	}
	left, right, foot := n.at[w.left], n.at[w.right], n.at[w.foot]
	if m == SwingArcs {
		rl, rr := n.pull(w.side(w.left), w.Tape), n.pull(w.side(w.right), w.Tape)
		n.at[w.apex] = func(v []unit.Length) geom.Point { return cross(left(v), right(v), v[rl], v[rr]) }
	} else {
		q := w.Square
		leg, up, across := n.pull(q.Along, w.Tape), n.pull(q.Up, w.Tape), n.pull(q.Across, w.Tape)
		h := n.pull(w.Triangle.Heights[2], w.Tape)
		n.at[w.apex] = func(v []unit.Length) geom.Point {
			f := foot(v)
			var top geom.Point
			if q.Toward == w.left {
				top = cross(geom.Point{X: f.X - v[leg]}, f, v[across], v[up])
			} else {
				top = cross(f, geom.Point{X: f.X + v[leg]}, v[up], v[across])
			}
			return toward(f, top, v[h])
		}
	}
	apex := n.at[w.apex]
	halfRight, halfLeft := n.pull(w.side(w.right)/2, w.Tape), n.pull(w.side(w.left)/2, w.Tape)
	n.at[w.midRight] = func(v []unit.Length) geom.Point { return toward(right(v), apex(v), v[halfRight]) }
	n.at[w.midLeft] = func(v []unit.Length) geom.Point { return toward(left(v), apex(v), v[halfLeft]) }
	return n
}

// ways lists all pulls in the order of the work and settles which way is the
// main one: two arcs where they cross soundly, else the offset.
func (w *work) ways() {
	main, second := SwingArcs, OffsetSquare
	if !w.Crossing.Sound {
		main, second = second, main
	}
	w.net = w.netFor(main)
	number := 0
	pull := func(u Use, hold, to geom.Name, l unit.Length, measured bool) Pull {
		number++
		return Pull{Number: number, Use: u, Hold: hold, To: to, Length: l, Measured: measured, Limit: w.Tape.Limit(l)}
	}
	w.Pulls = append(w.Pulls, pull(ForBaseline, w.Baseline.From, w.Baseline.To, w.Baseline.Length, w.Baseline.Measured))
	for _, p := range w.running() {
		w.Pulls = append(w.Pulls, pull(ForRunning, w.Baseline.From, p.Name, p.Along, false))
	}
	way := func(m Method) Way {
		out := Way{Method: m, Rounding: w.roundingCost(m)}
		add := func(u Use, hold, to geom.Name, l unit.Length, measured bool) {
			out.Pulls = append(out.Pulls, pull(u, hold, to, l, measured))
		}
		if m == SwingArcs {
			for _, end := range []geom.Name{w.Baseline.From, w.Baseline.To} {
				add(ForArc, end, w.apex, w.side(end), w.sideMeasured(end, w.apex))
			}
			return out
		}
		q := w.Square
		add(ForLeg, q.At, q.Leg, q.Along, false)
		add(ForLeg, q.At, q.Top, q.Up, false)
		add(ForLeg, q.Leg, q.Top, q.Across, false)
		add(ForHeight, q.At, w.apex, w.Triangle.Heights[2], w.heightMeasured())
		return out
	}
	w.Ways[0] = way(main)
	w.Middles = []Pull{
		pull(ForMiddle, w.right, w.midRight, w.side(w.right)/2, false),
		pull(ForMiddle, w.left, w.midLeft, w.side(w.left)/2, false),
	}
	w.Ways[1] = way(second)
}

// running are the marks along the baseline between or beyond its ends, in the
// order in which the tape passes them.
func (w *work) running() []Peg {
	var out []Peg
	for _, p := range w.Pegs {
		if p.Role == Foot || p.Role == Middle && p.Offset == 0 {
			out = append(out, p)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Along < out[j].Along })
	return out
}

// roundingCost is how far from its place the apex comes by the printed figures.
func (w *work) roundingCost(m Method) unit.Length {
	n := w.netFor(m)
	v := make([]unit.Length, len(n.pulls))
	for i, l := range n.pulls {
		v[i] = w.Rounded(l)
	}
	return n.at[w.apex](v).Distance(w.Triangle.Points[2])
}
