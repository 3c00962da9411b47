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
)

func (m Method) String() string {
	return [...]string{"two arcs", "an offset by 3-4-5", "angle and distance"}[min(m, AngleDistance)]
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
	// Times is Figure as a multiple of the best way's.
	Times float64
}

// Placed is how surely one peg comes to its place.
type Placed struct {
	Name       geom.Name
	At         geom.Point        // in the axes of the baseline
	Covariance adjust.Covariance // from the setting-out alone; add Adjusted.Seen for the measurements
	Figure95   unit.Length
	Crossing   unit.Angle // of the two arcs, 0° to 90°; 0 where none are swung
	Square     Square     // that an offset is set off by; zero elsewhere
}

// Flattest is the peg at which two arcs of the way cross most sharply, and the angle;
// no name where none are swung.
func (w Way) Flattest() (at geom.Name, crossing unit.Angle) {
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

// onLine: a peg whose offset is this share of the baseline or less, or SameMark, is
// run off along it.
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
		return crossing(geom.Vector{}, end, r+sr*e[1], q+sq*e[2], p.Y > 0)
	}}
}

// crossing of two arcs left or right of the line from p to q; where they miss,
// the place between them.
func crossing(p, q geom.Vector, rp, rq float64, left bool) geom.Vector {
	places, near, missed := geom.Locus{Circle: true, At: p, Radius: rp}.Meet(geom.Locus{Circle: true, At: q, Radius: rq})
	switch {
	case missed || len(places) == 0:
		return near
	case left == geom.IsLeft(p, q, places[0]):
		return places[0]
	}
	return places[1]
}

func (s site) offset(p geom.Vector, b float64, k Square) act {
	h, x := math.Abs(p.Y), footOf(p, b)
	leg, up, across := k.Along.MM(), k.Up.MM(), k.Across.MM()
	sign := 1.0
	if k.Back {
		sign = -1
	}
	sl, su, sa, sh, far := s.pull(leg), s.pull(up), s.pull(across), s.pull(h), s.far(x+sign*leg, b)
	return act{7, func(e []float64) geom.Vector {
		f := s.foot(x, b, e[0], e[1])
		l := geom.Vector{X: f.X + sign*(leg+sl*e[2]), Y: s.line * far * e[3]}
		top := crossing(f, l, up+su*e[4], across+sa*e[5], k.Back != (p.Y > 0))
		way := top.Minus(f).Unit()
		return f.Plus(way.Times(h + sh*e[6]))
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

// mostBases: of more pegs than this only the lines between neighbours in the
// order given are tried as baselines, where none are named.
const mostBases = 30

// Ways compares every baseline and every method for a set of pegs, the surest
// first: the one whose worst peg has the smallest 95 % figure. Bases may be left
// empty: every line between two pegs is tried, its first end as it gives the
// better result. The σ of the setting-out come from the tools; the measurements
// of the net have no part in it.
//
// Errors: a *unit.Fault where fewer than two pegs are given, two lie on one
// another, or a baseline names what is not there.
func Ways(t tape.Tools, pegs []Peg, methods []Method, bases [][2]geom.Name) ([]Way, error) {
	if len(pegs) < 2 {
		return nil, &unit.Fault{What: "a baseline needs two pegs"}
	}
	if len(methods) == 0 {
		return nil, &unit.Fault{What: "no method is given", Hint: "two arcs, an offset, angle and distance"}
	}
	lines, err := baselines(pegs, bases)
	if err != nil {
		return nil, err
	}
	s := siteOf(t)
	var all []Way
	for _, l := range lines {
		for _, m := range methods {
			all = append(all, s.way(m, pegs, l))
		}
	}
	slices.SortStableFunc(all, func(a, b Way) int { return cmp.Compare(a.Figure, b.Figure) })
	if len(bases) == 0 {
		all = fromBetterEnd(all)
	}
	for i := range all {
		all[i].Times = float64(all[i].Figure / all[0].Figure)
	}
	return all, nil
}

// baselines are the lines to try, by the numbers of their pegs: those that are named,
// else every one.
func baselines(pegs []Peg, named [][2]geom.Name) ([][2]int, error) {
	number := map[geom.Name]int{}
	for i, p := range pegs {
		if _, twice := number[p.Name]; twice {
			return nil, &unit.Fault{Subject: unit.Measured, Of: string(p.Name), What: "two pegs have this name"}
		}
		for _, q := range pegs[:i] {
			if p.At.Distance(q.At) < adjust.Shortest {
				return nil, &unit.Fault{Subject: unit.Measured, Of: string(p.Name), What: "it lies where " + string(q.Name) + " lies"}
			}
		}
		number[p.Name] = i
	}
	var lines [][2]int
	for _, b := range named {
		i, ok := number[b[0]]
		j, too := number[b[1]]
		if !ok || !too || i == j {
			return nil, &unit.Fault{Subject: unit.Base, Of: string(b[0] + b[1]), What: "no two pegs have these names"}
		}
		lines = append(lines, [2]int{i, j})
	}
	if len(named) == 0 {
		for i := range pegs {
			for j := range pegs {
				if i != j && (len(pegs) <= mostBases || j == i+1 || i == len(pegs)-1 && j == 0) {
					lines = append(lines, [2]int{i, j})
				}
			}
		}
	}
	return lines, nil
}

// fromBetterEnd leaves a baseline and a method once, of ways in order.
func fromBetterEnd(all []Way) []Way {
	seen := map[[2]geom.Name]uint8{}
	return slices.DeleteFunc(all, func(w Way) bool {
		key := w.Base
		if geom.Before(key[1], key[0]) < 0 {
			key[0], key[1] = key[1], key[0]
		}
		bit := uint8(1) << w.Method
		twice := seen[key]&bit != 0
		seen[key] |= bit
		return twice
	})
}

// way works out one baseline and method.
func (s site) way(m Method, pegs []Peg, base [2]int) Way {
	from, to := pegs[base[0]], pegs[base[1]]
	w := Way{Method: m, Base: [2]geom.Name{from.Name, to.Name}}
	line := geom.Line{From: from.At, To: to.At}
	turn, b := -line.Direction(), line.Length().MM()
	ats := make([]geom.Vector, len(pegs))
	for i, p := range pegs {
		ats[i] = s.exact(i, base, geom.VectorOf(p.At.Minus(from.At)).Turned(turn), b)
	}
	var squares []Square
	if m == OffsetSquare {
		squares = squaresAt(s.tools, ats, base, b)
	}
	for i, p := range pegs {
		at := ats[i]
		place := Placed{Name: p.Name, At: geom.Point{X: unit.Length(at.X), Y: unit.Length(at.Y)}}
		if m == OffsetSquare {
			place.Square = squares[i]
		}
		if i != base[0] {
			place.Covariance = s.peg(m, at, b, place.Square, i == base[1])
		}
		if i != base[0] && i != base[1] && m == TwoArcs && !onTheLine(at, b) {
			u, v := at, at.Minus(geom.Vector{X: b, Y: 0})
			place.Crossing = unit.Angle(math.Atan2(math.Abs(u.Cross(v)), math.Abs(u.Dot(v))))
		}
		if place.Figure95 = place.Covariance.Figure95(); place.Figure95 > w.Figure {
			w.Worst, w.Figure = i, place.Figure95
		}
		w.Pegs = append(w.Pegs, place)
	}
	return w
}

// exact takes the rounding off what is known: the ends of the baseline.
func (s site) exact(i int, base [2]int, at geom.Vector, b float64) geom.Vector {
	switch i {
	case base[0]:
		return geom.Vector{}
	case base[1]:
		return geom.Vector{X: b, Y: 0}
	}
	return at
}

// peg is the covariance of one peg; the second end of the baseline lies on it by
// definition.
func (s site) peg(m Method, at geom.Vector, b float64, k Square, end bool) adjust.Covariance {
	if end {
		sb := s.pull(b)
		return adjust.Covariance{XX: unit.Area(sb * sb)}
	}
	return s.act(m, at, b, k).covariance()
}
