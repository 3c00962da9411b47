// Package setout turns a layout larger than paper into a setting-out sheet: pegs,
// tape lengths, arcs to swing, angles to turn, checks to close on, and how sure it
// all is. A triangle is a layout of three pegs.
//
// Prepare works out everything as data; Sheet.Pages draws it for paper,
// Sheet.Text writes it for a phone and Sheet.CSV for other software. All three
// print the same figures, rounded once by the same rule (see Figure).
//
// # Figures
//
// Lengths are printed as the style writes them, so where it asks for nothing else
// millimetres with at most one decimal and centimetres with at most two; metres
// always with three; feet and inches to the fraction of the style. The tape lengths are what a person holds, so what their rounding costs at a
// corner is worked out and printed (Placing.Rounding).
//
// # Accept ranges
//
// One pull of length L is good within
//
//	t(L) = a + b·⌈L⌉ + r
//
// where a + b·⌈L⌉ (L in metres, rounded up) is the maximum permissible error of
// the tape's class in Directive 2014/32/EU, annex X (OIML R 35), and r stands for
// the nail in the peg and the reading, 1 mm unless the tools say otherwise (common
// practice, no source). An angle is good within what the instrument keeps and what
// it costs to centre it. A check that follows from the pulls Lᵢ is accepted within
//
//	√( t(L)² + Σ (∂check/∂Lᵢ · t(Lᵢ))² )
//
// the pulls taken as independent of each other, and the ends of the range are
// moved outward to the next whole millimetre (sixteenth of an inch). How surely the
// layout was measured has no part in it: the pegs close on the sheet, whatever that
// was made from, and 5 m measured to half a metre would accept anything.
package setout

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/words"
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
	Net        net.Adjusted
	Base       [2]geom.Name     // zero: the surest. Base[0] is the origin and has the tape's zero
	Method     *pegging.Method  // nil: the surest of Methods
	Methods    []pegging.Method // those that the tools allow; none: two arcs, and an offset by 3-4-5
	Tools      tape.Tools
	Style      unit.Style
	Date       string    // as the job states it, or empty
	Printer    string    // the one that the pages are made for; empty: any
	North      Reference // the zero value: no arrow
	// Bearing of the baseline from Base[0], or else its zero end, clockwise from north:
	// the plan then has an arrow to the north. nil: not known.
	Bearing *unit.Angle

	Permitted unit.Length // the K of a permitted deviation ±K√L; 0: none
	Every     unit.Length // marks along each edge, so far apart; 0: none
	Boards    unit.Length // profile boards, so far clear of the digging; 0: none
	// Levels of pegs: what the tape reads then follows the ground. None: all is level.
	Levels []pegging.Level
	// Conditions in which the tape is used; nil: nothing is corrected.
	Conditions *tape.Conditions
	Standard   tape.Standard
	Language   words.Language // nil: English at the bench
}

// Reference is a direction that the plan shows by an arrow.
type Reference struct {
	Name string     // "north", "the quay"; empty: none
	Turn unit.Angle // counter-clockwise from the direction in which the plan draws the baseline, left to right
}

// Prepare works out the sheet. The longest distance of two points must lie between
// Least and Most and the baseline must not be shorter than Least; otherwise, and
// where Base names no two points or a tape cannot be used as said, the error is a
// *unit.Fault.
func Prepare(in Input) (Sheet, error) {
	s := Sheet{
		Job: in.Job, Piece: in.Piece, Index: in.Index, Date: in.Date, Printer: in.Printer,
		Figures: tape.FiguresOf(in.Style, in.Tools.Instrument), Tools: in.Tools, North: in.North, Outline: in.Net.Outline,
		Permitted: in.Permitted, Every: in.Every, Boards: in.Boards, Language: in.Language,
	}
	if s.Tools.Reading <= 0 {
		s.Tools.Reading = reading
	}
	s.Tools.Feet = s.Inches()
	if in.Conditions != nil {
		s.Corrected, s.Weighed, s.Standard, s.Conditions = true, true, in.Standard, *in.Conditions
		if _, _, err := s.Standard.Reading(Most, s.Conditions); err != nil {
			return Sheet{}, err
		}
	}
	w := newWork(&s, in.Net)
	if err := w.inRange(in.Base); err != nil {
		return Sheet{}, err
	}
	if len(in.Levels) > 0 {
		var err error
		if s.Ground, err = pegging.GroundOf(w.pegsOf(), in.Levels); err != nil {
			return Sheet{}, err
		}
		s.Falls, s.Corrected, s.Weighed = true, true, in.Conditions != nil
	}
	way, err := w.rank(in)
	if err != nil {
		return Sheet{}, err
	}
	if err := w.baseline(way); err != nil {
		return Sheet{}, err
	}
	s.Grid = [2]geom.Name{s.Baseline.From, s.Baseline.To}
	if in.Bearing != nil {
		s.North = Reference{"north", *in.Bearing}
		if s.Grid[0] != s.ends()[0] {
			s.North.Turn += unit.Turn / 2
		}
	}
	w.nameMarks()
	w.number()
	w.levelMarks()
	if err := w.pulls(); err != nil {
		return Sheet{}, err
	}
	w.checks()
	w.sure()
	if err := w.marks(); err != nil {
		return Sheet{}, err
	}
	w.boards()
	s.Steps = w.steps()
	s.Cautions = words.In(in.Language).Cautions().SetOut(s.Falls)
	s.Doubts = w.doubts(in.Net)
	s.Basis = w.basis()
	s.Bring = w.bring()
	return s, nil
}

// inRange refuses what is too small or too large, and a baseline that is no line.
func (w *work) inRange(base [2]geom.Name) error {
	names := w.order
	var ends [2]geom.Name
	longest := unit.Length(0)
	for i, a := range names {
		for _, b := range names[i+1:] {
			if d := w.distance(a, b); d >= longest*(1-1e-12) { // of equal ones the last
				longest, ends = d, [2]geom.Name{a, b}
			}
		}
	}
	if w.triangle() && w.outline(ends[1], ends[0]) { // as the triangle is walked round
		ends[0], ends[1] = ends[1], ends[0]
	}
	what := "distance"
	if w.triangle() {
		what = "side"
	}
	name := string(ends[0] + ends[1])
	const hair = 1e-6 // on the limit but for rounding
	const sheetFor = "a setting-out sheet is for 1 m to 100 m"
	switch {
	case longest < Least-hair:
		return &unit.Fault{
			What: fmt.Sprintf("the longest %s, %s, is %s: %s", what, name, metres(longest), sheetFor),
			Hint: "print it at full size instead: trammel template",
		}
	case longest > Most+hair:
		return &unit.Fault{
			What: fmt.Sprintf("the longest %s, %s, is %s: %s", what, name, metres(longest), sheetFor),
			Hint: "divide it into triangles of at most 100 m a side, or have it set out by instrument",
		}
	case base == [2]geom.Name{}:
		return nil
	}
	_, first := w.at[base[0]]
	_, second := w.at[base[1]]
	if !first || !second || base[0] == base[1] {
		f := &unit.Fault{Subject: unit.Base, Of: string(base[0] + base[1]), What: "the net has no such two points", Hint: "name two of " + list(names)}
		if w.triangle() {
			n := names
			f.What = fmt.Sprintf("the triangle %s%s%s has no such side", n[0], n[1], n[2])
			f.Hint = fmt.Sprintf("name one of %s%s, %s%s, %s%s", n[0], n[1], n[1], n[2], n[2], n[0])
		}
		return f
	}
	if d := w.distance(base[0], base[1]); d < Least-hair {
		side := string(base[0] + base[1])
		return &unit.Fault{
			Subject: unit.Base, Of: side,
			What: fmt.Sprintf("%s is %s, too short to set out from: a baseline is 1 m at least", side, metres(d)),
			Hint: fmt.Sprintf("use the longest %s, %s (%s)", what, name, metres(longest)),
		}
	}
	return nil
}

// list names points in words, not all of many.
func list(names []geom.Name) string {
	var words []string
	for i, n := range names {
		if i == 12 && len(names) > 14 {
			words = append(words, fmt.Sprintf("%d more", len(names)-i))
			break
		}
		words = append(words, string(n))
	}
	return strings.Join(words, ", ")
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

// triangle: three points.
func (w *work) triangle() bool { return len(w.order) == 3 }

// outline says whether an edge of the piece runs from a to b, edgeOf whether one joins
// the two.
func (s Sheet) outline(a, b geom.Name) bool {
	i := slices.Index(s.Outline, a)
	return i >= 0 && s.Outline[(i+1)%len(s.Outline)] == b
}

func (s Sheet) edgeOf(a, b geom.Name) bool { return s.outline(a, b) || s.outline(b, a) }
