package geom

import (
	"math"

	"trammel/geom/unit"
)

// How sharply two lines may cross for their crossing to be marked (common practice, no
// source): under TooFlat nobody sees where, under Flat it wants care.
const (
	TooFlat = 10 * unit.Degree
	Flat    = 30 * unit.Degree
)

// Locus is a line without ends, or a circle: where one measurement lets a point lie.
type Locus struct {
	Circle bool
	At     Vector // centre, or a place on the line
	Dir    Vector // of a line, length 1
	Radius float64
}

// nearCentres in mm: circles about centres that lie nearer to each other are taken to
// have the same centre, and do not meet.
const nearCentres = 1

// Meet is where two loci meet, none, one or two places. Where circles or a line
// and a circle miss, near is the place halfway between them.
func (l Locus) Meet(m Locus) (places []Vector, near Vector, missed bool) {
	switch {
	case l.Circle && m.Circle:
		return circles(l, m)
	case l.Circle:
		return lineCircle(m, l)
	case m.Circle:
		return lineCircle(l, m)
	}
	c := l.Dir.Cross(m.Dir)
	if math.Abs(c) < parallel {
		return nil, Vector{}, false
	}
	t := m.At.Minus(l.At).Cross(m.Dir) / c
	return []Vector{l.At.Plus(l.Dir.Times(t))}, Vector{}, false
}

// Crossing of two circles left or right of the way from p to q; or the place between them where they miss.
func Crossing(p, q Vector, rp, rq float64, left bool) Vector {
	places, near, missed := Locus{Circle: true, At: p, Radius: rp}.Meet(Locus{Circle: true, At: q, Radius: rq})
	switch {
	case missed || len(places) == 0:
		return near
	case left == IsLeft(p, q, places[0]):
		return places[0]
	}
	return places[1]
}

// parallel: lines that differ by less cross so far off that their meeting is
// noise.
const parallel = 1e-9

func circles(l, m Locus) (places []Vector, near Vector, missed bool) {
	way := m.At.Minus(l.At)
	d := way.Size()
	if d < nearCentres {
		return nil, Vector{}, false
	}
	way = way.Times(1 / d)
	a, b := l.Radius, m.Radius
	x := (d + (a-b)*(a+b)/d) / 2
	h2 := (a - x) * (a + x)
	if h2 < 0 {
		switch {
		case a+b < d: // apart
			x = a + (d-a-b)/2
		case a > b: // m inside l
			x = (a + d + b) / 2
		default:
			x = -(a + b - d) / 2
		}
		return nil, l.At.Plus(way.Times(x)), true
	}
	foot, off := l.At.Plus(way.Times(x)), way.Left().Times(math.Sqrt(h2))
	return []Vector{foot.Plus(off), foot.Minus(off)}, Vector{}, false
}

func lineCircle(l, c Locus) (places []Vector, near Vector, missed bool) {
	t := c.At.Minus(l.At).Dot(l.Dir)
	foot := l.At.Plus(l.Dir.Times(t))
	off := foot.Minus(c.At)
	h := off.Size()
	h2 := (c.Radius - h) * (c.Radius + h)
	if h2 < 0 {
		return nil, c.At.Plus(off.Times((h + c.Radius) / (2 * h))), true
	}
	s := math.Sqrt(h2)
	return []Vector{foot.Plus(l.Dir.Times(s)), foot.Minus(l.Dir.Times(s))}, Vector{}, false
}
