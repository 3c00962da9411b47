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
	name, _ := s.set.Default(kind)
	return job.Setting{Text: name, Where: s.set.DefaultAt(kind)}
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
	made := s.job.Over
	if t := made.Trade; t.Name.Text != "" && s.o.Trade.Text == "" {
		w.Trade, err = profiles.ReadTrade(t.Name.Text, items(t))
		err = placed(err, t.Name.Where)
	} else {
		name := s.said("trade", s.o.Trade, s.job.Trade)
		w.Trade, err = s.set.Trade(name.Text)
		err = placed(err, name.Where)
	}
	if err != nil {
		return 0, err
	}
	w.Figures = w.Trade.Figures
	bare = w.Trade.Unit
	// A job that says its unit keeps it for its own bare numbers: what somebody
	// wrote is not read otherwise because it is to be printed in inches.
	for _, t := range []job.Setting{s.o.Unit, s.job.Unit, made.Unit} {
		if t.Text == "" {
			continue
		}
		if bare, err = unit.ParseUnit(t.Text); err != nil {
			return 0, placed(err, t.Where)
		}
	}
	if t := first(s.o.Unit, made.Figures, s.job.Unit); t.Text != "" {
		if w.Figures.Unit, err = unit.ParseUnit(t.Text); err != nil {
			return 0, placed(err, t.Where)
		}
	}
	if t := first(s.o.Fraction, made.Fraction, s.job.Fraction); t.Text != "" {
		if w.Figures.Denominator, err = profiles.ParseFraction(t.Text); err != nil {
			return 0, placed(err, t.Where)
		}
	}
	if t := first(s.o.Angles, made.Angles, s.job.Angles); t.Text != "" {
		if w.Figures.Minutes, err = profiles.ParseAngles(t.Text); err != nil {
			return 0, placed(err, t.Where)
		}
	}
	return bare, nil
}

// paper decides the sheet: paper, printer, margins, overlap, and which pages.
func (s settings) paper(w *Work) error {
	p, err := s.sheet(w)
	if err != nil {
		return err
	}
	known, err := s.printer(w)
	if err != nil {
		return err
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
	w.paper = p
	if w.roll = p.Roll; w.roll && s.o.Landscape {
		return &unit.Fault{Subject: unit.Lying, What: "a roll has no other way to lie", Advice: unit.Advice{Code: unit.OffRoll}}
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

// sheet is the paper: that which a document was made on, unless another is asked for.
func (s settings) sheet(w *Work) (profiles.Paper, error) {
	made := s.job.Over.Paper
	if made.Name.Text != "" && s.o.Paper.Text == "" {
		p, err := profiles.ReadPaper(made.Name.Text, items(made))
		return p, placed(err, made.Name.Where)
	}
	name := s.said("paper", s.o.Paper, s.job.Paper)
	p, err := s.set.Paper(name.Text)
	if made.Name.Text != "" && made.Name.Text != p.Name {
		w.other = append(w.other, fmt.Sprintf("%s was made on %s, and these pages are %s, as %s says", s.document(), strict.Shorten(made.Name.Text), p.Name, name.Where))
	}
	return p, placed(err, name.Where)
}

// printer is the one that a document was made for, unless another is asked for, and
// its calibration, where the pages are corrected for it. The document needs neither.
func (s settings) printer(w *Work) (known *profiles.Calibration, err error) {
	calibration := s.o.Calibration
	if calibration == nil {
		calibration = func(string) (*profiles.Calibration, error) { return nil, nil }
	}
	made := s.job.Over.Printer
	if made.Name.Text == "" || s.o.Printer.Text != "" {
		name := s.said("printer", s.o.Printer, s.job.Printer)
		if known, err = calibration(name.Text); err != nil {
			return nil, err
		}
		w.Printer, err = s.set.PrinterWith(name.Text, known)
		if made.Name.Text != "" && made.Name.Text != w.Printer.Name {
			w.other = append(w.other, fmt.Sprintf("%s was made for the printer %s, and these pages are for %s, as %s says", s.document(), strict.Shorten(made.Name.Text), w.Printer.Name, name.Where))
		}
		return known, placed(err, name.Where)
	}
	if w.Printer, err = profiles.ReadPrinter(made.Name.Text, items(made)); err != nil {
		return nil, placed(err, made.Name.Where)
	}
	known, err = calibration(made.Name.Text)
	was := s.job.Over.Correction.Text
	switch {
	case was == "":
		if err == nil && known != nil {
			w.other = append(w.other, fmt.Sprintf("the printer %s is calibrated here, and %s was made without: so are these pages; with %s they are corrected", strict.Shorten(made.Name.Text), s.document(), s.o.Says.Of(unit.Printer, strict.Shorten(made.Name.Text), false)))
		}
		return nil, nil
	case err != nil:
		return nil, err
	case known == nil:
		w.other = append(w.other, fmt.Sprintf("%s was corrected for the printer %s, of which nothing is known here: these pages come without the correction, so measure the check bars", s.document(), strict.Shorten(made.Name.Text)))
	case correction(known.Found) != was:
		w.other = append(w.other, fmt.Sprintf("the printer %s is calibrated otherwise here than where %s was made: these pages are corrected as it is here", strict.Shorten(made.Name.Text), s.document()))
	}
	return known, nil
}

// document is what the job came in, in words.
func (s settings) document() string {
	if s.job.Within != "" {
		return s.job.Within
	}
	return "the PDF that this job was taken from"
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
