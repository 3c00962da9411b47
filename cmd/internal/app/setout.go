package app

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"

	"trammel/geom"
	"trammel/geom/survey"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/pdf"
	"trammel/plot/setout"
	"trammel/plot/svg"
)

// Setout is the setting-out sheets of a job, one a piece.
type Setout struct {
	work   Work
	sheets []setout.Sheet
	of     []Piece // a sheet
	pages  []draw.Page
	names  []string // of the pages as files
}

// Setout prepares the sheets. The errors are those of Open, and a *unit.Fault
// where a piece is too small or too large to be set out.
func (w Work) Setout() (*Setout, error) { return w.SetoutBy(geom.AsMeasured) }

// SetoutBy prepares the sheets, the pegs placed by arcs, by a square or by an angle;
// AsMeasured: as the job says, else by the surest way.
func (w Work) SetoutBy(with geom.Method) (*Setout, error) {
	if with != geom.AsMeasured && !slices.ContainsFunc(w.Pieces, func(p Piece) bool { return p.Net != nil }) {
		w.over.With = with // for the job in the file
	}
	if err := w.Picked(); err != nil {
		return nil, err
	}
	if err := w.Sound(); err != nil {
		return nil, err
	}
	s := &Setout{work: w}
	for i, p := range w.Pieces {
		if p.Other { // pegs stand where they stand
			continue
		}
		sheet, err := w.sheet(i, p, with)
		if err != nil {
			return nil, err
		}
		s.sheets, s.of = append(s.sheets, sheet), append(s.of, p)
	}
	return s, nil
}

// sheet of one piece.
func (w Work) sheet(i int, p Piece, with geom.Method) (setout.Sheet, error) {
	net, err := w.net(p)
	if err != nil {
		return setout.Sheet{}, w.inPiece(p, err)
	}
	in := setout.Input{
		Job: w.Title, Piece: p.Title(), Index: i, Net: net, Base: p.Base, Method: w.wayOf(p, with), Methods: w.Site.Methods,
		Tools: w.Site.Tools, Style: w.Figures, Date: w.Job.Date, Printer: w.printerName(),
		Permitted: w.Site.Permitted, Every: w.Site.Every, Boards: w.Site.Boards, Standard: w.Site.Standard, Conditions: w.Site.Conditions,
	}
	if _, said := w.Site.From["bearing"]; said {
		in.Bearing = &w.Site.Bearing
	}
	sheet, err := setout.Prepare(in)
	var f *unit.Fault
	if errors.As(err, &f) {
		if where := w.Site.From[f.Where]; where != "" { // what was said of the site
			return sheet, &unit.Fault{Where: where, What: f.What, Hint: f.Hint}
		}
	}
	if err != nil {
		return sheet, w.inPiece(p, err)
	}
	return sheet, nil
}

// ways are the methods of setting out that go by the names of those to construct.
var ways = map[geom.Method]survey.Method{geom.ByArcs: survey.TwoArcs, geom.BySquare: survey.OffsetSquare, geom.ByAngle: survey.AngleDistance}

// wayOf is the method that was asked for; nil: the surest.
func (w Work) wayOf(p Piece, with geom.Method) *survey.Method {
	if with == geom.AsMeasured {
		with = w.Job.Pieces[p.Index].With
	}
	if m, asked := ways[with]; asked {
		return &m
	}
	return nil
}

// Lay draws the sheets on the job's paper; PDF, SVG and Page need it before.
func (s *Setout) Lay() error {
	if s.work.roll {
		return &unit.Fault{Where: s.work.Sheet.Name, What: "a setting-out sheet is read on the site and wants a sheet, not a roll", Hint: "--paper A4 or A3"}
	}
	for i, sheet := range s.sheets {
		pages, err := sheet.Pages(s.work.Sheet, lettering.Go())
		if err != nil {
			return s.work.inPiece(s.of[i], err)
		}
		for k, p := range pages {
			name := fmt.Sprintf("setout-%d.svg", k+1)
			if len(s.sheets) > 1 {
				name = fmt.Sprintf("%0*d-%s-%d.svg", len(fmt.Sprint(len(s.sheets))), i+1, fileName(s.of[i].Title()), k+1)
			}
			s.pages = append(s.pages, s.work.warped(p))
			s.names = append(s.names, name)
		}
	}
	return nil
}

// Count of the pages that Lay made.
func (s *Setout) Count() int { return len(s.pages) }

// Pages one after the other.
func (s *Setout) Pages() iter.Seq[draw.Page] { return slices.Values(s.pages) }

func (s *Setout) document() draw.Document {
	return draw.Document{Title: s.work.documentTitle(), Subject: "setting-out sheet", Language: "en", Date: s.work.Job.Date, Pages: s.Pages()}
}

// PDF writes all pages as one file, and the job in it.
func (s *Setout) PDF(out io.Writer) (err error) {
	d := s.document()
	if d.Attachment, err = s.work.attachment(); err != nil {
		return err
	}
	return pdf.Write(out, d)
}

// SVG writes one file a page, each through a writer that it is given with the
// file's name.
func (s *Setout) SVG(file func(name string, write func(io.Writer) error) error) error {
	for i, p := range s.pages {
		if err := file(s.names[i], func(out io.Writer) error { return svg.Write(out, p, s.document()) }); err != nil {
			return err
		}
	}
	return nil
}

// OneSVG writes the only page.
func (s *Setout) OneSVG(out io.Writer) error { return svg.Write(out, s.pages[0], s.document()) }

// Text writes the sheets as plain text for a phone.
func (s *Setout) Text(out io.Writer) error {
	for i, sheet := range s.sheets {
		if i > 0 {
			if _, err := io.WriteString(out, "\n\n"); err != nil {
				return err
			}
		}
		if err := sheet.Text(out); err != nil {
			return err
		}
	}
	return nil
}

// CSV writes the sheets for other software, under one header line.
func (s *Setout) CSV(out io.Writer) error {
	for i, sheet := range s.sheets {
		var b bytes.Buffer
		if err := sheet.CSV(&b); err != nil {
			return err
		}
		rows := b.Bytes()
		if i > 0 {
			_, rows, _ = bytes.Cut(rows, []byte("\n"))
		}
		if _, err := out.Write(rows); err != nil {
			return err
		}
	}
	return nil
}

// Summary says in a line what the sheets are.
func (s *Setout) Summary() string {
	words := "setting-out sheet"
	if len(s.sheets) > 1 {
		words = plural(len(s.sheets), words)
	}
	if len(s.pages) > 0 {
		words += ", " + plural(len(s.pages), "page") + " of " + s.work.Sheet.Name
	}
	if slices.ContainsFunc(s.of, func(p Piece) bool { return len(p.Shape.Sides) > 0 }) {
		words += "; the outline alone: allowances, corners and holes are on the template"
	}
	return words
}

// Report with the pages that Lay made.
func (s *Setout) Report() Report {
	r := s.work.Report()
	if len(s.pages) > 0 {
		r.Sheet = s.work.sheetReport()
	}
	for i, p := range s.pages {
		r.Pages = append(r.Pages, pageReport(i+1, p))
	}
	return r
}
