package shape

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
)

// crossed finds two segments of a contour, not neighbours, that share a place.
func crossed(c geom.Contour) (first, second int, found bool) {
	n := len(c)
	bounds := make([]geom.Rect, n)
	for i, s := range c {
		bounds[i] = s.Bounds()
	}
	for i := range c {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 || !bounds[i].Meets(bounds[j]) {
				continue
			}
			if meet(c[i], c[j]) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

func meet(s, t geom.Segment) bool {
	l, line := s.(geom.Line)
	m, other := t.(geom.Line)
	switch {
	case line && other:
		return linesMeet(l, m)
	case line:
		return lineMeetsArc(l, t.(geom.Arc))
	case other:
		return lineMeetsArc(m, s.(geom.Arc))
	}
	return arcsMeet(s.(geom.Arc), t.(geom.Arc))
}

func linesMeet(l, m geom.Line) bool {
	return apart(l, m.From)*apart(l, m.To) <= 0 && apart(m, l.From)*apart(m, l.To) <= 0
}

// apart is on which side of a line a point lies.
func apart(l geom.Line, p geom.Point) int {
	return cmp.Compare(geom.VectorOf(l.To.Minus(l.From)).FineCross(geom.VectorOf(p.Minus(l.From))), 0)
}

func lineMeetsArc(l geom.Line, a geom.Arc) bool {
	way := geom.VectorOf(l.To.Minus(l.From))
	long := way.Size()
	u, to := way.Times(1/long), geom.VectorOf(a.Centre.Minus(l.From))
	off, r := u.FineCross(to), float64(a.Radius)
	if math.Abs(off) > r {
		return false
	}
	half := math.Sqrt((r - off) * (r + off))
	for _, t := range [2]float64{u.Dot(to) - half, u.Dot(to) + half} {
		if t >= 0 && t <= long && spans(a, l.From.Plus(u.Times(t).Point())) {
			return true
		}
	}
	return false
}

func arcsMeet(a, b geom.Arc) bool {
	return slices.ContainsFunc(circlesCross(a.Centre, float64(a.Radius), b.Centre, float64(b.Radius)), func(p geom.Point) bool {
		return spans(a, p) && spans(b, p)
	})
}

// spans says whether a point of an arc's circle lies on the arc.
func spans(a geom.Arc, p geom.Point) bool {
	return a.Spans(geom.Line{From: a.Centre, To: p}.Direction())
}

// circlesCross are the places where two circles cross, the one left of the way
// from p to q first; none where they stay apart, lie one within the other, or
// are the same. Half the chord is the height of the triangle of both radii and the
// distance, by Kahan's ordered form, so that it is right where they nearly touch.
func circlesCross(p geom.Point, r float64, q geom.Point, s float64) []geom.Point {
	way := geom.VectorOf(q.Minus(p))
	d := way.Size()
	a, b, c := max(r, s, d), 0.0, min(r, s, d)
	b = max(min(r, s), min(max(r, s), d))
	reach := c - (a - b)
	if d == 0 || reach < -float64(touching) {
		return nil
	}
	reach = max(reach, 0)
	half := math.Sqrt((a+(b+c))*reach*(c+(a-b))*(a+(b-c))) / (2 * d)
	foot := ((r-s)*(r+s)/d + d) / 2
	u := way.Times(1 / d)
	left := u.Left().Times(half)
	on := u.Times(foot)
	return []geom.Point{p.Plus(on.Plus(left).Point()), p.Plus(on.Minus(left).Point())}
}
