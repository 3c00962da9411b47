package pegging

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Method is a way of placing a peg from the two ends of a baseline.
type Method uint8

const (
	TwoArcs       Method = iota // swing a tape from each end
	OffsetSquare                // run along the baseline to the foot, square off by 3-4-5, measure the offset
	AngleDistance               // turn the angle at the first end, tape the distance along the sight
	Mixed                       // peg from peg: each from two that stand already, by arcs, an offset, or run off on their line
	RunOff                      // on the line of two marks, from the first; of a peg of a Mixed way alone
)

func (m Method) String() string {
	return [...]string{"two arcs", "an offset by 3-4-5", "angle and distance", "peg from peg", "run off on a line"}[min(m, RunOff)]
}

// Peg is a point to be set out.
type Peg struct {
	Name geom.Name
	At   geom.Point
}

// Way is one baseline and one method for all pegs.
//
// Everything is told in the axes of the baseline: its first end is the origin, its
// direction that of x, both without error. The second end has its own pull. A peg
// on the line of the baseline is run off along it, whatever the method.
type Way struct {
	Method Method
	Base   [2]geom.Name
	Pegs   []Placed // in the order given
	Worst  int      // index into Pegs of the largest 95 % figure
	Figure unit.Length
	Times  float64     // Figure as a multiple of the best way's
	Order  []geom.Name // of a Mixed way: the pegs but the baseline's ends, as they are placed
}

// Placed is how surely one peg comes to its place.
type Placed struct {
	Name       geom.Name
	At         geom.Point        // in the axes of the baseline
	Covariance adjust.Covariance // from the setting-out alone; add Adjusted.Seen for the measurements
	Figure95   unit.Length
	Crossing   unit.Angle // of the two arcs, 0° to 90°; 0 where none are swung
	Square     Square     // that an offset is set off by; zero elsewhere
	// Of a Mixed way: by what it is placed, and from which two marks.
	Method Method
	Base   [2]geom.Name
}

// flattest is the peg at which two arcs cross most sharply; no name where none are swung.
func (w Way) flattest() (at geom.Name, crossing unit.Angle) {
	for _, p := range w.Pegs {
		if p.Crossing > 0 && (at == "" || p.Crossing < crossing) {
			at, crossing = p.Name, p.Crossing
		}
	}
	return at, crossing
}

// site is the spread of every single act of setting out.
type site struct {
	pull   func(mm float64) float64 // σ of one pull
	line   float64                  // σ of a nail set beside a string
	centre float64                  // σ of instrument or target over a nail, along and across
	angle  float64                  // σ of a turned angle, rad
	tools  tape.Tools
}

func siteOf(t tape.Tools) site {
	t = t.Complete()
	return site{
		pull:   func(mm float64) float64 { return float64(t.Pull(unit.Length(mm))) },
		line:   t.Reading.MM() / tape.Expansion,
		centre: t.Instrument.Centring.MM() / tape.Expansion,
		angle:  t.Instrument.Angle.Radians() / tape.Expansion,
		tools:  t,
	}
}

// act places a peg from errors that are drawn or given: each in units of its σ.
type act struct {
	n  int // errors that it takes
	at func(e []float64) geom.Vector
}

// onLine: a peg off by this share of the baseline or less, or SameMark, is run off along it.
const onLine = 1e-9

// act of a method for a peg at p from a baseline of length b; an offset is set off by
// the square k. The second end, of which p may be the very place, is pulled first
// (error 0) where it matters.
func (s site) act(m Method, p geom.Vector, b float64, k Square) act {
	if onTheLine(p, b) {
		return act{2, func(e []float64) geom.Vector { return s.foot(p.X, b, e[0], e[1]) }}
	}
	switch m {
	case TwoArcs:
		return s.arcs(p, b)
	case OffsetSquare:
		return s.offset(p, b, k)
	}
	return s.turned(p, b)
}

// foot is a mark along the string, x from the first end, beyond an end too: there
// the string is held by its two nails and leads astray the more the further off. At an
// end of the baseline it is that end's own nail.
func (s site) foot(x, b, along, across float64) geom.Vector {
	switch x {
	case 0:
		return geom.Vector{}
	case b:
		return geom.Vector{X: b + s.pull(b)*along, Y: 0}
	}
	return geom.Vector{X: x + s.pull(math.Abs(x))*along*math.Copysign(1, x), Y: s.line * s.far(x, b) * across}
}

// far is how much more than between its nails a string is off at x.
func (s site) far(x, b float64) float64 { return max(1, math.Abs(x)/b, math.Abs(b-x)/b) }

func (s site) arcs(p geom.Vector, b float64) act {
	r, q := p.Size(), p.Minus(geom.Vector{X: b, Y: 0}).Size()
	sb, sr, sq := s.pull(b), s.pull(r), s.pull(q)
	return act{3, func(e []float64) geom.Vector {
		end := geom.Vector{X: b + sb*e[0], Y: 0}
		return geom.Crossing(geom.Vector{}, end, r+sr*e[1], q+sq*e[2], p.Y > 0)
	}}
}

func (s site) offset(p geom.Vector, b float64, k Square) act {
	return s.squaredOff(p, b, k)
}

// handSquare is σ of a right angle struck by eye and a try square (common practice, no source).
const handSquare = 0.15 * math.Pi / 180

// squaredOff is an offset, in the axes of its line; turned aside where its foot is shared.
func (s site) squaredOff(p geom.Vector, b float64, k Square) act {
	aside := k.Aside.MM()
	h, x := math.Abs(p.Y), footOf(geom.Vector{X: p.X - aside, Y: p.Y}, b)
	leg, up, across := k.Along.MM(), k.Up.MM(), k.Across.MM()
	sign := 1.0
	if k.Back {
		sign = -1
	}
	sl, su, sa, sh, far := s.pull(leg), s.pull(up), s.pull(across), s.pull(h), s.far(x+sign*leg, b)
	n, sideways := 7, s.pull(math.Abs(aside))
	if aside != 0 {
		n = 9
	}
	return act{n, func(e []float64) geom.Vector {
		f := s.foot(x, b, e[0], e[1])
		l := geom.Vector{X: f.X + sign*(leg+sl*e[2]), Y: s.line * far * e[3]}
		top := geom.Crossing(f, l, up+su*e[4], across+sa*e[5], k.Back != (p.Y > 0))
		way := top.Minus(f).Unit()
		at := f.Plus(way.Times(h + sh*e[6]))
		if aside == 0 {
			return at
		}
		out := way.Right() // on along the baseline
		if p.Y < 0 {
			out = way.Left()
		}
		out = out.Turned(unit.Angle(handSquare * e[8]))
		return at.Plus(out.Times(aside + sideways*e[7]*math.Copysign(1, aside)))
	}}
}

func (s site) turned(p geom.Vector, b float64) act {
	d, a := p.Size(), math.Atan2(p.Y, p.X)
	sd := s.pull(d)
	return act{5, func(e []float64) geom.Vector {
		// The instrument stands off its nail; the target at the other end too, across
		// the sight (along it costs nothing).
		over := geom.Vector{X: s.centre * e[0], Y: s.centre * e[1]}
		sight := geom.Vector{X: b, Y: s.centre * e[2]}.Minus(over)
		way := sight.Unit().Turned(unit.Angle(a + s.angle*e[3]))
		// The tape is hooked on the nail and stretched to the line of sight.
		t := over.Times(-1).Dot(way)
		near := over.Plus(way.Times(t)) // foot of the nail on the sight
		r := d + sd*e[4]
		off := near.Size()
		return near.Plus(way.Times(math.Sqrt(max(0, (r-off)*(r+off)))))
	}}
}

// nudge is the step of the central difference, in σ: errors of setting out bend
// the picture little over it, and rounding of 1e-11 mm costs 1e-8.
const nudge = 1e-3

// covariance of where the act puts the peg, from its change with each error.
func (a act) covariance() adjust.Covariance {
	e := make([]float64, a.n)
	var c adjust.Covariance
	for i := range e {
		e[i] = nudge
		more := a.at(e)
		e[i] = -nudge
		d := more.Minus(a.at(e)).Times(1 / (2 * nudge))
		e[i] = 0
		c.XX += unit.Area(d.X * d.X)
		c.YY += unit.Area(d.Y * d.Y)
		c.XY += unit.Area(d.X * d.Y)
	}
	return c
}

// waysOf compares every baseline and every method for pegs that lie apart, the surest
// first: the one whose worst peg has the smallest 95 % figure. The σ of the setting-out
// come from the tools; the measurements of the net have no part in it.
func waysOf(t tape.Tools, pegs []Peg, methods []Method, lines [][2]geom.Name) (all []Way) {
	s, number := siteOf(t), map[geom.Name]int{}
	for i, p := range pegs {
		number[p.Name] = i
	}
	for _, l := range lines {
		for _, m := range methods {
			all = append(all, s.way(m, pegs, [2]int{number[l[0]], number[l[1]]}))
		}
	}
	slices.SortStableFunc(all, func(a, b Way) int { return cmp.Compare(a.Figure, b.Figure) })
	return all
}

// way works out one baseline and method; the second end lies on the baseline.
func (s site) way(m Method, pegs []Peg, base [2]int) Way {
	from, to := pegs[base[0]], pegs[base[1]]
	w := Way{Method: m, Base: [2]geom.Name{from.Name, to.Name}}
	line := geom.Line{From: from.At, To: to.At}
	turn, b := -line.Direction(), line.Length().MM()
	ats := make([]geom.Vector, len(pegs))
	for i, p := range pegs {
		ats[i] = geom.VectorOf(p.At.Minus(from.At)).Turned(turn)
	}
	ats[base[0]], ats[base[1]] = geom.Vector{}, geom.Vector{X: b} // without rounding
	squares := make([]Square, len(pegs))
	if m == OffsetSquare {
		squares = squaresAt(s.tools, ats, base, b)
	}
	for i, p := range pegs {
		at := ats[i]
		place := Placed{Name: p.Name, At: at.Point(), Square: squares[i]}
		switch i {
		case base[0]:
		case base[1]:
			sb := s.pull(b)
			place.Covariance = adjust.Covariance{XX: unit.Area(sb * sb)}
		default:
			place.Covariance = s.act(m, at, b, place.Square).covariance()
			if m == TwoArcs && !onTheLine(at, b) {
				v := at.Minus(geom.Vector{X: b})
				place.Crossing = unit.Angle(math.Atan2(math.Abs(at.Cross(v)), math.Abs(at.Dot(v))))
			}
		}
		if place.Figure95 = place.Covariance.Figure95(); place.Figure95 > w.Figure {
			w.Worst, w.Figure = i, place.Figure95
		}
		w.Pegs = append(w.Pegs, place)
	}
	return w
}
