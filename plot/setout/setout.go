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
	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/plan"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Input is what a sheet is made from.
type Input struct {
	pegging.Asked
	Job, Piece string
	Index      int        // of the piece in the job, for draw.Place
	Date       string     // as the job states it, or empty
	Printer    string     // the one that the pages are made for; empty: any
	North      plan.North // the zero value: no arrow; Turn counts from the baseline as drawn, left to right
	// Bearing of the baseline from Base[0], or else its zero end, clockwise from north:
	// the plan then has an arrow to the north. nil: not known.
	Bearing  *unit.Angle
	Language words.Language // nil: English at the bench
}

// Prepare works out the sheet. Errors are those of pegging.SetOut.
func Prepare(in Input) (Sheet, error) {
	layout, err := pegging.SetOut(in.Asked)
	if err != nil {
		return Sheet{}, err
	}
	s := Sheet{
		TitleBlock: sheet.TitleBlock{Job: in.Job, Piece: in.Piece, Date: in.Date, Printer: in.Printer}, Index: in.Index,
		Layout: layout, North: in.North, Language: in.Language,
	}
	if in.Bearing != nil {
		s.North = plan.North{Name: "north", Turn: *in.Bearing}
		if s.Baseline.Zero == 1 {
			s.North.Turn += unit.Turn / 2
		}
	}
	s.Steps = s.steps()
	s.Cautions = cautions(s.Falls)
	s.Doubts = s.doubts()
	s.Basis = s.basis()
	s.Bring = s.bring()
	return s, nil
}
