package app

import (
	"bytes"
	"fmt"
	"io"
	"iter"
	"slices"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/pdf"
	"trammel/plot/svg"
)

// siteSheet is what goes out to the site, or comes back from it: of one piece, on pages,
// as text and as rows.
type siteSheet interface {
	Pages(paging.Sheet, draw.Ruler) ([]draw.Page, error)
	Text(io.Writer) error
	CSV(io.Writer) error
}

// sheets are those of a job, and how they are written.
type sheets[S siteSheet] struct {
	work    Work
	stem    string // of the names of files
	subject string // of the document
	noRoll  string // why it is not printed off a roll
	all     []S
	of      []Piece // a sheet
	pages   []draw.Page
	names   []string // of the pages as files
}

// Lay draws the sheets on the job's paper; PDF, SVG and Pages need it before.
func (s *sheets[S]) Lay() error {
	if s.work.roll {
		return &unit.Fault{Where: s.work.Sheet.Name, What: s.noRoll, Hint: "--paper A4 or A3"}
	}
	for i, one := range s.all {
		pages, err := one.Pages(s.work.Sheet, lettering.Go())
		if err != nil {
			return s.work.inPiece(s.of[i], err)
		}
		for k, p := range pages {
			name := fmt.Sprintf("%s-%d.svg", s.stem, k+1)
			if len(s.all) > 1 {
				name = fmt.Sprintf("%0*d-%s-%d.svg", len(fmt.Sprint(len(s.all))), i+1, fileName(s.of[i].Title()), k+1)
			}
			s.pages, s.names = append(s.pages, s.work.warped(p)), append(s.names, name)
		}
	}
	return nil
}

// Count of the pages that Lay made.
func (s *sheets[S]) Count() int { return len(s.pages) }

// Pages one after the other.
func (s *sheets[S]) Pages() iter.Seq[draw.Page] { return slices.Values(s.pages) }

func (s *sheets[S]) document() draw.Document {
	return draw.Document{Title: s.work.documentTitle(), Subject: s.subject, Language: "en", Date: s.work.Job.Date, Pages: s.Pages()}
}

// PDF writes all pages as one file, and the job in it.
func (s *sheets[S]) PDF(out io.Writer) (err error) {
	d := s.document()
	if d.Attachment, err = s.work.attachment(); err != nil {
		return err
	}
	return pdf.Write(out, d)
}

// SVG writes one file a page, each through a writer that it is given with the
// file's name.
func (s *sheets[S]) SVG(file func(name string, write func(io.Writer) error) error) error {
	for i, p := range s.pages {
		if err := file(s.names[i], func(out io.Writer) error { return svg.Write(out, p, s.document()) }); err != nil {
			return err
		}
	}
	return nil
}

// OneSVG writes the only page.
func (s *sheets[S]) OneSVG(out io.Writer) error { return svg.Write(out, s.pages[0], s.document()) }

// Text writes the sheets as plain text for a phone.
func (s *sheets[S]) Text(out io.Writer) error {
	for i, one := range s.all {
		if i > 0 {
			if _, err := io.WriteString(out, "\n\n"); err != nil {
				return err
			}
		}
		if err := one.Text(out); err != nil {
			return err
		}
	}
	return nil
}

// CSV writes the sheets for other software, under one header line.
func (s *sheets[S]) CSV(out io.Writer) error {
	for i, one := range s.all {
		var b bytes.Buffer
		if err := one.CSV(&b); err != nil {
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

// made says in a few words what the sheets are, each of the kind.
func (s *sheets[S]) made(kind string) string {
	if len(s.all) > 1 {
		kind = plural(len(s.all), kind)
	}
	if len(s.pages) > 0 {
		kind += ", " + plural(len(s.pages), "page") + " of " + s.work.Sheet.Name
	}
	return kind
}

// laid is the paper and the pages that Lay made, for a report.
func (s *sheets[S]) laid() (paper *SheetReport, pages []PageReport) {
	if len(s.pages) > 0 {
		paper = s.work.sheetReport()
	}
	for i, p := range s.pages {
		pages = append(pages, pageReport(i+1, p))
	}
	return paper, pages
}
