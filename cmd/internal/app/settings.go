package app

import (
	"fmt"

	"trammel/geom/unit"
	"trammel/plot/paging"
	"trammel/profiles"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// settings decides what the options, the job and the profiles say together: the
// first of them that says anything counts.
type settings struct {
	set profiles.Set
	o   Options
	job job.Job
}

// said is the first setting that says something; where none does, the default of
// that kind, with the place where that was written.
func (s settings) said(kind string, settings ...job.Setting) job.Setting {
	if t := first(settings...); t.Text != "" {
		return t
	}
	name, from := s.set.Default(kind)
	return job.Setting{Text: name, Where: from + ": defaults." + kind}
}

// first setting that says something.
func first(settings ...job.Setting) job.Setting {
	for _, t := range settings {
		if t.Text != "" {
			return t
		}
	}
	return job.Setting{}
}

// trade decides the trade, what a bare number counts and how figures are written.
func (s settings) trade(w *Work) (bare unit.Unit, err error) {
	name := s.said("trade", s.o.Trade, s.job.Trade)
	if w.Trade, err = s.set.Trade(name.Text); err != nil {
		return 0, placed(err, name.Where)
	}
	w.Figures = w.Trade.Figures
	bare = w.Trade.Unit
	// A job that says its unit keeps it for its own bare numbers: what somebody
	// wrote is not read otherwise because it is to be printed in inches.
	for _, t := range []job.Setting{s.o.Unit, s.job.Unit} {
		if t.Text == "" {
			continue
		}
		if bare, err = unit.ParseUnit(t.Text); err != nil {
			return 0, placed(err, t.Where)
		}
	}
	if t := first(s.o.Unit, s.job.Unit); t.Text != "" {
		if w.Figures.Unit, err = unit.ParseUnit(t.Text); err != nil {
			return 0, placed(err, t.Where)
		}
	}
	if t := first(s.o.Fraction, s.job.Fraction); t.Text != "" {
		if w.Figures.Denominator, err = profiles.ParseFraction(t.Text); err != nil {
			return 0, placed(err, t.Where)
		}
	}
	if t := first(s.o.Angles, s.job.Angles); t.Text != "" {
		if w.Figures.Minutes, err = profiles.ParseAngles(t.Text); err != nil {
			return 0, placed(err, t.Where)
		}
	}
	return bare, nil
}

// paper decides the sheet: paper, printer, margins, overlap, and which pages.
func (s settings) paper(w *Work) error {
	name := s.said("paper", s.o.Paper, s.job.Paper)
	p, err := s.set.Paper(name.Text)
	if err != nil {
		return placed(err, name.Where)
	}
	printer := s.said("printer", s.o.Printer, s.job.Printer)
	var known *profiles.Calibration
	if s.o.Calibration != nil {
		if known, err = s.o.Calibration(printer.Text); err != nil {
			return err
		}
	}
	if w.Printer, err = s.set.PrinterWith(printer.Text, known); err != nil {
		return placed(err, printer.Where)
	}
	if t := s.o.Margin; t.Text != "" {
		m, err := w.margin(t)
		if err != nil {
			return err
		}
		q := &w.Printer
		q.Left, q.Top, q.Right, q.Bottom = m, m, m, m
		for _, k := range []string{"left", "top", "right", "bottom"} {
			q.From[k] = t.Where
		}
	}
	if t := s.o.Overlap; t.Text != "" {
		if w.Printer.Overlap, err = w.margin(t); err != nil {
			return err
		}
		w.Printer.From["overlap"] = t.Where
	}
	if w.roll = p.Roll; w.roll && s.o.Landscape {
		return &unit.Fault{Where: "--landscape", What: "a roll has no other way to lie", Hint: "leave --landscape out: the piece is turned as it takes least of the roll"}
	}
	if s.o.Landscape {
		p.Width, p.Height = p.Height, p.Width
	}
	q := w.Printer
	w.Sheet = paging.Sheet{
		Name: p.Name, Width: p.Width, Height: p.Height,
		Left: q.Left, Top: q.Top, Right: q.Right, Bottom: q.Bottom, Overlap: q.Overlap,
	}
	w.apart = s.o.Apart
	if t := s.o.Turn; t.Text != "" {
		turn, err := unit.ParseTurn(t.Text)
		if err != nil {
			return placed(err, t.Where)
		}
		w.turn, w.apart = &turn, true
	}
	w.calibrated(known)
	if w.Cover, err = cover(s.o.Cover); err != nil {
		return err
	}
	w.hide, err = without(s.o.Without)
	return err
}

func cover(t job.Setting) (paging.Cover, error) {
	switch t.Text {
	case "", "full":
		return paging.Full, nil
	case "outline":
		return paging.OutlineOnly, nil
	}
	return 0, &unit.Fault{
		Where: t.Where, What: fmt.Sprintf("%q is not a choice of pages", strict.Shorten(t.Text)),
		Hint: "full: every page of the piece; outline: only those that carry its edges",
	}
}
