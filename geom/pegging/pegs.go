package pegging

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Set is the marks of a setting-out and by what each corner comes to its place.
type Set struct {
	Frame
	Pegs    []Mark     // in the order in which they are set
	On      []Mark     // those of them on the line of the baseline but its ends, as the tape passes them
	Middles []Mark     // of the sides of the only corner
	Main    []Placing  // the corners beside the baseline, in the order of the work
	Second  []Placing  // the same by another method, as a check: where there is but one
	Squares []Squaring // at the feet

	feet   map[geom.Name]geom.Name // of corners
	middle geom.Name               // the mark that a net's checks are pulled from; empty: none
}

// BothSides says whether pegs stand on either side of the baseline; OneSide is the
// one on which all stand.
func (s Set) BothSides() bool { return s.stands(Left) && s.stands(Right) }

func (s Set) OneSide() Side {
	if s.stands(Right) {
		return Right
	}
	return Left
}

func (s Set) stands(side Side) bool {
	return slices.ContainsFunc(s.Pegs, func(p Mark) bool { return p.Side == side })
}

// Role is what a mark is for.
type Role uint8

const (
	Corner    Role = iota
	Foot           // of a corner, on the baseline
	Middle         // of a side
	SquareLeg      // on the baseline: end of the 3-4-5's leg
	SquareTop      // over the foot: end of the 3-4-5's other leg
)

// Mark is a peg in the ground.
type Mark struct {
	Name   geom.Name
	Number int
	Role   Role
	At     geom.Point  // in the plane of the baseline
	Along  unit.Length // running distance along the baseline from its zero end, never chained; negative: behind it
	Offset unit.Length // square to the baseline, never negative
	Side   Side        // of the baseline
	Of     [2]geom.Name
	Also   bool         // a Foot that is the middle of the baseline as well
	Line   [2]geom.Name // that a Foot or a SquareLeg stands on, where it is not the baseline
}

// Placing is one way to place one corner.
type Placing struct {
	Peg      geom.Name
	Method   Method
	Base     [2]geom.Name // from which two marks
	Side     Side         // of their line, looking from the first to the second
	Pulls    []int        // by their index
	Crossing Crossing
	Square   int       // into Squares; −1: none
	Foot     geom.Name // of an offset
	// Aside is how far the offset turns aside, square to itself, towards an end of the
	// line: where the peg's own foot would stand too close to another mark.
	Aside  unit.Length
	Toward geom.Name
	// Rounding is how far from its true place the corner comes when the written
	// figures are followed exactly: what rounding them costs.
	Rounding unit.Length
}

// turned notes that an offset turns aside, towards the second end of its line or the first;
// by what is written as nothing it does not.
func (s Set) turned(p *Placing, aside unit.Length) {
	if s.Figure(max(aside, -aside)) == s.Figure(0) {
		return
	}
	if p.Aside, p.Toward = aside, p.Base[1]; aside < 0 {
		p.Aside, p.Toward = -aside, p.Base[0]
	}
}

// Ratio is a number without a unit.
type Ratio float64

// Crossing is how the two arcs meet at a corner.
type Crossing struct {
	At    geom.Name
	Angle unit.Angle // between the two pulls
	Sound bool       // 30° to 150°
	// Spread is σ_P/σ = √2/sin γ: how much further off the corner is than one pull.
	Spread Ratio
}

// Bluntest is the widest angle at which arcs cross soundly, as geom.Flat is the sharpest.
const Bluntest = unit.Turn/2 - geom.Flat

// Squaring is a 3-4-5 triangle at the foot of an offset.
type Squaring struct {
	At, Leg, Top geom.Name    // the foot, the mark on the line, the mark over the foot
	Base         [2]geom.Name // the line
	Toward       geom.Name    // its end on whose side Leg lies, seen from At
	Square
	Side Side           // on which Top lies
	Loop [3]unit.Length // the tape in one loop from 0 at the foot: at Leg, at Top, at the foot again
}

type letters map[geom.Name]bool // those that are taken

// free takes the wished letter where there is but one mark of its kind, or where a corner
// has it the next letter that is free; where all are taken, and of several marks, the first
// free of F1, F2 … I and O are left out: they read as figures.
func (l letters) free(wish geom.Name, only bool) geom.Name {
	c := wish[0]
	for i := 0; only && i < 26; i++ {
		if n := geom.Name(c); c != 'I' && c != 'O' && !l[n] {
			l[n] = true
			return n
		}
		if c++; c > 'Z' {
			c = 'A'
		}
	}
	for i := 1; ; i++ {
		if n := geom.Name(fmt.Sprintf("%s%d", wish, i)); !l[n] {
			l[n] = true
			return n
		}
	}
}

// setOf names the marks, settles how each corner is placed and lists the pegs in order.
func setOf(f Frame, t tape.Tools) Set {
	s, l := Set{Frame: f}, letters{}
	for n := range s.at {
		l[n] = true
	}
	if f.Method == Mixed {
		return s.chained(l)
	}
	line, square := s.corners(), s.squareOf(t)
	if s.Lone() || s.Method == OffsetSquare {
		s.On, s.feet = s.footMarks(line, square, l)
	}
	half := s.plane(s.Baseline.Length/2, 0).X
	if s.Lone() || s.Method == TwoArcs && len(s.Beside) > 0 {
		if s.middle = standing(half, line, s.On); s.middle == "" {
			s.middle = l.free("M", true)
			s.On = append(s.On, s.mark(s.middle, Middle, geom.Point{X: half}, s.Baseline.From, s.Baseline.To))
		}
	}
	for _, p := range line {
		if p.Name != s.Baseline.From && p.Name != s.Baseline.To {
			s.On = append(s.On, p)
		}
	}
	slices.SortStableFunc(s.On, func(a, b Mark) int { return cmp.Compare(a.Along, b.Along) })
	if s.Lone() {
		apex := s.Beside[0]
		ends := s.Ends()
		for i, wish := range []geom.Name{"N", "P"} {
			end := ends[1-i]
			s.Middles = append(s.Middles, s.mark(l.free(wish, true), Middle, geom.Line{From: s.spots[end], To: s.spots[apex]}.At(0.5), end, apex))
		}
	}
	return s.placed(square, l)
}

// squareOf is the square by which each corner is set off, now or as a check.
func (s Set) squareOf(t tape.Tools) map[geom.Name]Square {
	offsets := s.way
	if s.Method != OffsetSquare { // a triangle is checked by a square
		offsets = waysOf(t, s.pegs(), []Method{OffsetSquare}, [][2]geom.Name{s.way.Base})[0]
	}
	square := map[geom.Name]Square{}
	for _, p := range offsets.Pegs {
		square[p.Name] = p.Square
	}
	return square
}

func (s Set) mark(n geom.Name, r Role, at geom.Point, of ...geom.Name) Mark {
	m := Mark{Name: n, Role: r, At: at}
	m.Along, m.Offset, m.Side = s.Running(at)
	copy(m.Of[:], of)
	return m
}

// corners on the line of the baseline, its ends among them.
func (s Set) corners() (on []Mark) {
	for _, n := range s.order {
		if !slices.Contains(s.Beside, n) {
			on = append(on, s.mark(n, Corner, s.spots[n]))
		}
	}
	return on
}

// standing is the mark on the line at x of the plane; empty: none.
func standing(x unit.Length, all ...[]Mark) geom.Name {
	for _, p := range slices.Concat(all...) {
		if near(p.At.X, x, SameMark) {
			return p.Name
		}
	}
	return ""
}

// footMarks are the feet that want a mark of their own, and the foot of each corner.
func (s Set) footMarks(line []Mark, square map[geom.Name]Square, l letters) (marks []Mark, feet map[geom.Name]geom.Name) {
	feet = map[geom.Name]geom.Name{}
	over := map[geom.Name]int{} // corners over one foot
	for _, n := range s.Beside {
		along, _, _ := s.Running(s.spots[n])
		x := s.plane(along-square[n].Aside, 0).X
		if feet[n] = standing(x, line); feet[n] != "" {
			continue
		}
		i := slices.IndexFunc(marks, func(m Mark) bool { return near(x, m.At.X, SameMark) })
		if i < 0 {
			i, marks = len(marks), append(marks, s.mark("", Foot, geom.Point{X: x}, n))
		}
		over[n] = i
	}
	half := s.plane(s.Baseline.Length/2, 0).X
	for i := range marks {
		marks[i].Name, marks[i].Also = l.free("F", len(marks) == 1), near(marks[i].At.X, half, SameMark)
	}
	for n, i := range over {
		feet[n] = marks[i].Name
	}
	return marks, feet
}

// placed settles how each corner is placed and numbers the pegs.
func (s Set) placed(square map[geom.Name]Square, l letters) Set {
	add := s.add
	place := func(m Method, n geom.Name) Placing {
		p := Placing{Peg: n, Method: m, Base: s.base(), Square: -1, Crossing: s.crossing(n, s.base())}
		_, _, p.Side = s.Running(s.spots[n])
		if m == OffsetSquare {
			p.Foot = s.feet[n]
			s.turned(&p, square[n].Aside)
			// A square that stands at its foot already, else the one that the way is ranked by.
			p.Square = slices.IndexFunc(s.Squares, func(q Squaring) bool { return q.At == p.Foot && q.Side == p.Side })
			if p.Square < 0 {
				q := s.squareAt(n, square[n], l)
				p.Square, s.Squares = len(s.Squares), append(s.Squares, q)
				add(s.squareMarks(q)...)
			}
		}
		return p
	}
	from, to := s.Baseline.From, s.Baseline.To
	add(s.mark(from, Corner, s.spots[from]), s.mark(to, Corner, s.spots[to]))
	add(s.On...)
	for _, n := range s.Beside {
		s.Main = append(s.Main, place(s.Method, n))
		add(s.mark(n, Corner, s.spots[n]))
	}
	add(s.Middles...)
	if s.Lone() {
		second := OffsetSquare
		if s.Method == OffsetSquare || s.Method == AngleDistance && s.Main[0].Crossing.Sound {
			second = TwoArcs
		}
		s.Second = append(s.Second, place(second, s.Beside[0]))
	}
	return s
}

// add numbers marks in the order of the work.
func (s *Set) add(all ...Mark) {
	for _, m := range all {
		m.Number = len(s.Pegs) + 1
		s.Pegs = append(s.Pegs, m)
	}
}

func (s Set) squareAt(n geom.Name, k Square, l letters) Squaring {
	_, _, side := s.Running(s.spots[n])
	k.Aside = 0
	q := Squaring{At: s.feet[n], Square: k, Base: s.base(), Side: side, Toward: s.Baseline.To}
	if q.Back {
		q.Toward = s.Baseline.From
	}
	q.Loop = loopOf([3]unit.Length{q.Along, q.Up, q.Across})
	q.Leg, q.Top = l.free("Q", s.Lone()), l.free("R", s.Lone())
	return q
}

// loopOf is the tape round a square in one loop, from its sides along, up and across.
func loopOf(legs [3]unit.Length) [3]unit.Length {
	return [3]unit.Length{legs[0], legs[0] + legs[2], legs[0] + legs[2] + legs[1]}
}

func (s Set) squareMarks(q Squaring) []Mark {
	foot, _ := s.Peg(q.At)
	leg, top := q.marks(foot.Along.MM(), q.Side == Left)
	at := func(v geom.Vector) geom.Point { return s.plane(unit.Length(v.X), unit.Length(v.Y)) }
	return []Mark{s.mark(q.Leg, SquareLeg, at(leg)), s.mark(q.Top, SquareTop, at(top))}
}

// crossing of the arcs that are swung to a corner from two marks.
func (s Set) crossing(n geom.Name, base [2]geom.Name) Crossing {
	at := s.spots[n]
	p, q := geom.VectorOf(s.spots[base[0]].Minus(at)), geom.VectorOf(s.spots[base[1]].Minus(at))
	c := Crossing{At: n, Angle: unit.Angle(math.Atan2(math.Abs(p.Cross(q)), p.Dot(q)))}
	c.Sound = c.Angle >= geom.Flat && c.Angle <= Bluntest
	c.Spread = Ratio(math.Sqrt2 / math.Sin(float64(c.Angle)))
	return c
}

// Peg finds a mark by its name.
func (s Set) Peg(n geom.Name) (Mark, bool) {
	for _, p := range s.Pegs {
		if p.Name == n {
			return p, true
		}
	}
	return Mark{}, false
}

// offsetMeasured says whether a corner's height over the baseline was measured and is
// written as it was; where the foot is an end of the baseline, the height is a side.
func (s Set) offsetMeasured(x Placing, is unit.Length) bool {
	if yes, known := s.heightMeasured(x.Peg, is); known && x.Base == s.base() {
		return yes
	}
	f := s.feet[x.Peg]
	return (f == x.Base[0] || f == x.Base[1]) && s.WasMeasured(f, x.Peg, is)
}
