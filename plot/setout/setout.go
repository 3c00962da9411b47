// Package setout is the setting-out sheet of a layout larger than paper: pages, text and
// table. What is on it geom/pegging reckons: pegs, tape lengths, arcs to swing, angles to
// turn, checks to close on, and how sure it all is.
//
// Prepare makes the sheet; Sheet.Pages draws it for paper, Sheet.Text writes it for a
// phone and Sheet.CSV for other software. All three print the same figures, rounded once
// by the same rule (tape.Figures). The tape lengths are what a person holds, so what their
// rounding costs at a corner is worked out and printed (pegging.Placing.Rounding).
//
// Its figures are as they are written (written); what it says is said by plot/words.
//
// Files, from the top floor to the ground: setout.go, pages.go, text.go, csv.go,
// grid.go, sections.go, office.go, tables.go, plan.go, written.go.
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
	North      plan.North // the zero value: no arrow; Turn counts from the baseline as drawn, left to right
	// Bearing of the baseline from Base[0], or else its zero end, clockwise from north:
	// the plan then has an arrow to the north. nil: not known.
	Bearing  *unit.Angle
	NorthUp  bool           // the plan lies with north up where that is known, not with the baseline level
	Language words.Language // nil: English on the ground
	Office   bool           // what the office wants to know as well, on pages of its own
}

// Prepare works out the sheet. Errors are those of pegging.SetOut.
func Prepare(in Input) (Sheet, error) {
	layout, err := pegging.SetOut(in.Asked)
	if err != nil {
		return Sheet{}, err
	}
	if in.Language == nil {
		in.Language = words.English{Voice: words.Ground}
	}
	s := Sheet{
		TitleBlock: sheet.TitleBlock{Job: in.Job, Piece: in.Piece, Date: in.Date}, Index: in.Index, Office: in.Office,
		written: written{layout, in.Language}, North: in.North,
	}
	if in.Bearing != nil {
		s.North = plan.North{Name: "north", Turn: *in.Bearing}
		if s.Baseline.Zero == 1 {
			s.North.Turn += unit.Turn / 2
		}
	}
	if in.NorthUp && s.North.Name != "" {
		s.Turn = unit.Turn/4 - s.North.Turn
	}
	say := s.Says()
	s.Steps, s.Bring, s.Doubts, s.Basis = say.Steps(), say.Bring(), say.Doubts(), say.Basis()
	s.Cautions = words.In(in.Language).Cautions().SetOut(s.Falls)
	return s, nil
}

// Sheet is a setting-out sheet as data. Lengths are exact; they are rounded where
// they are written.
type Sheet struct {
	sheet.TitleBlock
	Index  int  // of the piece in the job
	Office bool // with the office's pages
	written
	North plan.North
	Turn  unit.Angle // of the plan: 0 where the baseline lies level

	Steps    []string
	Bring    []string
	Cautions []string
	Doubts   []string // about what was measured
	Basis    []string // how the accept ranges are reckoned
}

// SiteChecks are the checks that the sheet for the site has.
func (s Sheet) SiteChecks() []pegging.Check { return s.siteChecks() }

// CheckWords is a check in a line, and its range.
func (s Sheet) CheckWords(c pegging.Check) (reads, good string) {
	reads, good, _ = s.heads().Check(c)
	return reads, good
}

// Judges says what is said of a reading while it is typed.
func (s Sheet) Judges() words.Verdicts { return words.In(s.Language).Verdicts() }
