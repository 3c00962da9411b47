// Package calibration learns from a printed sheet, measured with a rule, how far a
// printer is from true: what the sheet is, what was read on it, and what is known then.
//
// Files, from the top floor to the ground: step.go, learned.go, told.go, found.go.
package calibration

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/calibrate"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/profiles"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// Options are what is said of a calibration sheet.
type Options struct {
	Printer, Paper, Margin job.Setting
	Again                  bool                  // a sheet corrected by what is known already
	Read                   bool                  // the sheet is on paper already, and was measured
	Rule, Reading          job.Setting           // of what it was measured with
	Sheet                  int                   // which sheet was measured, as it says itself; 0: it is not said
	Known                  *profiles.Calibration // of that printer; nil for none
	Says                   unit.Says             // how it is said what to do
}

// Step is one step of a calibration: a sheet, to be printed or already measured.
type Step struct {
	calibrate.Sheet
	known *profiles.Calibration
	said  profiles.RuleSaid
}

// leastInset is how far the rectangle stays from the edges of the paper where
// nobody says how far the printer reaches: office printers leave 4 to 6 mm white.
const leastInset unit.Length = 10

// Open decides what the sheet is. The errors are *unit.Fault.
func Open(set profiles.Set, o Options) (Step, error) {
	name := strings.TrimSpace(o.Printer.Text)
	if _, err := profiles.PrinterID(name); err != nil {
		return Step{}, unit.Placed(err, o.Printer.Where)
	}
	c := Step{known: o.Known, Sheet: calibrate.Sheet{Printer: name, Number: 1, Inset: leastInset, Says: o.Says}}
	paper := job.Default(set, "paper", o.Paper)
	if o.Again {
		if o.Known == nil {
			return c, &unit.Fault{Subject: unit.Again, What: fmt.Sprintf("there is no calibration of %q to correct by", strict.Shorten(name)), Advice: unit.Advice{Code: unit.Nothing}}
		}
		if o.Paper.Text == "" {
			paper = job.Setting{Text: o.Known.Paper, Where: o.Known.From}
		}
		c.Sheet.Number, c.Sheet.Corrected = len(o.Known.Sheets)+1, geom.Distortion(o.Known.Found)
	}
	if err := c.tool(o); err != nil {
		return c, err
	}
	if o.Sheet != 0 && o.Sheet != c.Sheet.Number {
		return c, &unit.Fault{Subject: unit.Reread, What: fmt.Sprintf("sheet %d is not the next one to be read, which is sheet %d", o.Sheet, c.Sheet.Number), Advice: unit.Advice{Code: unit.NotNext}}
	}
	p, err := set.Paper(paper.Text)
	if err != nil {
		return c, unit.Placed(err, paper.Where)
	}
	if p.Roll {
		return c, &unit.Fault{Where: paper.Where, What: "the sheet to calibrate with has two sides", Hint: "give the length to cut off the roll as well, such as 914x1200"}
	}
	if k := o.Known; o.Again && (k.Width != p.Width || k.Height != p.Height) {
		return c, &unit.Fault{Where: paper.Where, What: fmt.Sprintf("%s was calibrated with %s, not with %s", k.Printer, k.Paper, p.Name), Subject: unit.Paper, Advice: unit.Advice{Code: unit.Unlike}}
	}
	c.Sheet.Paper, c.Sheet.Width, c.Sheet.Height = p.Name, p.Width, p.Height
	if err := c.inset(set, o); err != nil {
		return c, err
	}
	_, err = c.Sheet.Pages(lettering.Go())
	return c, err
}

// inset decides how far from the edges of the paper the rectangle stays: as was
// said, or as what is known of the printer needs. What is not the usual has to be
// typed with the readings, so the sheet says it.
func (c *Step) inset(set profiles.Set, o Options) error {
	s := &c.Sheet
	if o.Margin.Text != "" {
		m, err := profiles.ParseMargin(o.Margin.Text)
		if err != nil {
			return unit.Placed(err, o.Margin.Where)
		}
		s.Inset, s.Margin = m, strings.TrimSpace(o.Margin.Text)
	}
	if o.Read { // what is not the usual stands on the sheet, to be typed
		return nil
	}
	if q, err := set.Printer(s.Printer); err == nil && s.Margin == "" {
		s.Inset = max(s.Inset, q.Left, q.Top, q.Right, q.Bottom)
	}
	var need unit.Length
	if k := o.Known; k != nil && k.Edges != nil {
		e := *k.Edges
		if s.Number > 1 {
			l, t, r, b := calibrate.Spread(calibrate.Warp(s.Corrected, s.Width, s.Height), draw.Page{Width: s.Width, Height: s.Height}.Bounds().Grow(-s.Inset))
			e = profiles.Edges{Left: e.Left + l, Top: e.Top + t, Right: e.Right + r, Bottom: e.Bottom + b}
		}
		need = unit.Length(math.Ceil(max(e.Left, e.Top, e.Right, e.Bottom).MM())) + 1
	}
	switch {
	case need <= s.Inset:
	case s.Margin != "":
		return &unit.Fault{Where: o.Margin.Where, What: fmt.Sprintf("with %s the crosses would lie where %s does not print", strict.Shorten(s.Margin), s.Printer), Subject: unit.Margin, Advice: unit.Advice{Code: unit.Unprinted, Figure: fmt.Sprintf("%.0fmm", need.MM())}}
	default:
		s.Inset = need
	}
	if s.Margin == "" && s.Inset != leastInset {
		s.Margin = fmt.Sprintf("%gmm", s.Inset.MM())
	}
	return nil
}

// Summary says in a line what was written.
func (c Step) Summary() string {
	s := "calibration sheet for " + c.Sheet.Printer + " on " + c.Sheet.Paper
	if c.Sheet.Number > 1 {
		s = "corrected " + s
	}
	return s + "; print at 100 %, actual size, and do what it says"
}
