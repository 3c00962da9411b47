// Package setout turns a triangle larger than paper into a setting-out sheet:
// pegs, tape lengths, arcs to swing, checks to close on.
//
// Prepare works out everything as data; Sheet.Pages draws it for paper,
// Sheet.Text writes it for a phone and Sheet.CSV for other software. All three
// print the same figures, rounded once by the same rule (see Figure).
//
// # Figures
//
// Lengths are printed as the style writes them, so where it asks for nothing else
// millimetres with at most one decimal and centimetres with at most two; metres
// always with three; feet and inches to the fraction of the style. The tape lengths are what a person holds, so what their rounding costs at the apex
// is worked out and printed (Way.Rounding).
//
// # Accept ranges
//
// One pull of length L is good within
//
//	t(L) = a + b·⌈L⌉ + 1 mm
//
// where a + b·⌈L⌉ (L in metres, rounded up) is the maximum permissible error of
// the tape's class in Directive 2014/32/EU, annex X (OIML R 35), and 1 mm stands
// for the nail in the peg and the reading (common practice, no source). A check
// that follows from the pulls Lᵢ is accepted within
//
//	√( t(L)² + Σ (∂check/∂Lᵢ · t(Lᵢ))² )
//
// the pulls taken as independent of each other, and the ends of the range are
// moved outward to the next whole millimetre (sixteenth of an inch).
package setout

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// What a sheet is made for. Below, paper does it better; above, one pull of a
// tape does not reach and an instrument is wanted.
const (
	Least unit.Length = 1 * unit.Metre
	Most  unit.Length = 100 * unit.Metre
)

// Input is what a sheet is made from.
type Input struct {
	Job, Piece string
	Index      int // of the piece in the job, for draw.Place
	Solution   geom.Solution
	Answer     int          // index into Solution.Answers
	Base       [2]geom.Name // zero: the longest side. The tape's zero is held at Base[0] where that can be
	Style      unit.Style
	Date       string // as the job states it, or empty
	Printer    string // the one that the pages are made for; empty: any
	Tape       Tape
	North      Reference // the zero value: no arrow
}

// Reference is a direction that the plan shows by an arrow.
type Reference struct {
	Name string     // "north", "the quay"; empty: none
	Turn unit.Angle // counter-clockwise from the direction in which the plan draws the baseline, left to right
}

// Prepare works out the sheet. The longest side must lie between Least and Most
// and the baseline must not be shorter than Least; otherwise, and where Base
// names no side, the error is a *unit.Fault.
func Prepare(in Input) (Sheet, error) {
	if in.Answer < 0 || in.Answer >= len(in.Solution.Answers) {
		return Sheet{}, &unit.Fault{What: fmt.Sprintf("answer %d of %d was asked for", in.Answer+1, len(in.Solution.Answers)), Hint: "pick one of the triangles that fit"}
	}
	t := in.Solution.Answers[in.Answer].Triangle
	first, zero, err := chooseBase(t, in.Base)
	if err != nil {
		return Sheet{}, err
	}
	s := Sheet{
		Job: in.Job, Piece: in.Piece, Index: in.Index, Date: in.Date, Printer: in.Printer,
		Style: styled(in.Style), Tape: in.Tape, North: in.North,
	}
	s.Triangle, s.Place = rebase(t, first)
	if err := s.inRange(); err != nil {
		return Sheet{}, err
	}
	s.baseline(zero)
	w := newWork(&s, in.Solution.Measured)
	w.nameMarks()
	w.fitSquare()
	w.ways()
	w.checks()
	s.Steps = w.steps()
	s.Cautions = cautions()
	s.Basis = w.basis()
	s.Bring = w.bring()
	return s, nil
}

// chooseBase finds the corner at the left end of the baseline (the triangle lies
// above it) and whether the tape's zero is held there.
func chooseBase(t geom.Triangle, base [2]geom.Name) (first int, zeroLeft bool, err error) {
	if base == ([2]geom.Name{}) {
		for i := range 3 {
			// Side i is opposite corner i, so it starts at corner i+1. Of equal
			// sides the solver's own baseline wins.
			if t.Sides[(i+2)%3] > t.Sides[(first+2)%3] {
				first = i
			}
		}
		return first, true, nil
	}
	for i := range 3 {
		a, b := t.Names[i], t.Names[(i+1)%3]
		if base == ([2]geom.Name{a, b}) {
			return i, true, nil
		}
		if base == ([2]geom.Name{b, a}) {
			return i, false, nil
		}
	}
	n := t.Names
	return 0, false, &unit.Fault{
		Where: fmt.Sprintf("base %s%s", base[0], base[1]),
		What:  fmt.Sprintf("the triangle %s%s%s has no such side", n[0], n[1], n[2]),
		Hint:  fmt.Sprintf("name one of %s%s, %s%s, %s%s", n[0], n[1], n[1], n[2], n[2], n[0]),
	}
}

// rebase turns the triangle so that corner first lies at the origin and the next
// one on the x axis; place leads from the triangle's own plane to the new one.
func rebase(t geom.Triangle, first int) (out geom.Triangle, place geom.Placement) {
	p := t.Points[first]
	turn := -geom.Line{From: p, To: t.Points[(first+1)%3]}.Direction()
	place.Turn = turn
	back := geom.Placement{Turn: turn}.Apply(p)
	place.Shift = geom.Point{X: -back.X, Y: -back.Y}
	out.Area, out.Perimeter = t.Area, t.Perimeter
	for i := range 3 {
		j := (first + i) % 3
		out.Names[i], out.Sides[i], out.Angles[i], out.Heights[i] = t.Names[j], t.Sides[j], t.Angles[j], t.Heights[j]
		out.Points[i] = place.Apply(t.Points[j])
	}
	// Exact where it is known: the turn above leaves some 1e-12 mm.
	out.Points[0], out.Points[1] = geom.Point{}, geom.Point{X: out.Sides[2]}
	out.Points[2].Y = out.Heights[2]
	return out, place
}

func (s *Sheet) inRange() error {
	t := s.Triangle
	longest := 0
	for i := range 3 {
		if t.Sides[i] > t.Sides[longest] {
			longest = i
		}
	}
	side := func(i int) string { return string(t.Names[(i+1)%3] + t.Names[(i+2)%3]) }
	const sheetFor = "a setting-out sheet is for 1 m to 100 m"
	switch l := t.Sides[longest]; {
	case l < Least:
		return &unit.Fault{
			What: fmt.Sprintf("the longest side, %s, is %s: %s", side(longest), metres(l), sheetFor),
			Hint: "print it at full size instead: trammel template",
		}
	case l > Most:
		return &unit.Fault{
			What: fmt.Sprintf("the longest side, %s, is %s: %s", side(longest), metres(l), sheetFor),
			Hint: "divide it into triangles of at most 100 m a side, or have it set out by instrument",
		}
	case t.Sides[2] < Least:
		return &unit.Fault{
			Where: "base " + side(2),
			What:  fmt.Sprintf("%s is %s, too short to set out from: a baseline is 1 m at least", side(2), metres(t.Sides[2])),
			Hint:  fmt.Sprintf("use the longest side, %s (%s)", side(longest), metres(l)),
		}
	}
	return nil
}

// metres is a length in metres for a message: to 0.1 mm, no trailing zeros, and
// with enough digits more that a length just outside a limit does not read as
// the limit itself.
func metres(l unit.Length) string {
	for decimals := 4; ; decimals++ {
		text := fmt.Sprintf("%.*f", decimals, l.MM()/1000)
		back := 0.0
		fmt.Sscan(text, &back)
		outside := l < Least || l > Most
		if decimals == 9 || outside == (unit.Length(back*1000) < Least || unit.Length(back*1000) > Most) {
			return strings.TrimRight(strings.TrimRight(text, "0"), ".") + " m"
		}
	}
}

// baseline decides from which end the running distances count: the end asked
// for, unless the foot of the height lies behind it; then the other, so that
// every running distance is positive and in one pull.
func (s *Sheet) baseline(zeroLeft bool) {
	x, b := s.Triangle.Points[2].X, s.Triangle.Sides[2]
	if x < 0 {
		zeroLeft = false
	} else if x > b {
		zeroLeft = true
	}
	s.Baseline = Baseline{Zero: 0, From: s.Triangle.Names[0], To: s.Triangle.Names[1], Length: b}
	if !zeroLeft {
		s.Baseline.Zero, s.Baseline.From, s.Baseline.To = 1, s.Baseline.To, s.Baseline.From
	}
}
