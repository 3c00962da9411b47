package app

import (
	"bytes"
	"fmt"
	"io"

	"trammel/cmd/internal/lines"
	"trammel/cmd/internal/report"
	"trammel/cmd/internal/solved"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
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
	of      []solved.Piece // a sheet
	drawn
}

// document is the sheets as one; what it says in a line, and its report, are of the kind.
func (s *sheets[S]) document(summary func() string, report func() any) *Document {
	d := s.work.document(s.subject)
	d.Summary, d.Report = func() []string { return []string{summary()} }, report
	d.lay, d.files = s.lay, map[string]func(io.Writer) error{"txt": s.text, "csv": s.csv}
	s.into(d)
	return d
}

// lay puts the sheets on pages. Those that are not to scale are not warped for a printer:
// any will do.
func (s *sheets[S]) lay() error {
	if s.work.roll {
		return &unit.Fault{Subject: unit.Paper, Of: s.work.Sheet.Name, What: s.noRoll, Advice: unit.Advice{Code: unit.OffRoll}}
	}
	for i, one := range s.all {
		pages, err := one.Pages(s.work.Sheet, lettering.Go())
		if err != nil {
			return s.work.InPiece(s.of[i], err)
		}
		for k, p := range pages {
			name := fmt.Sprintf("%s-%d", s.stem, k+1)
			if len(s.all) > 1 {
				name = fmt.Sprintf("%s-%d", numbered(i, len(s.all), s.of[i].Title()), k+1)
			}
			if p.Kind == draw.Template {
				p = s.work.warped(p)
			}
			s.pages, s.names = append(s.pages, p), append(s.names, name)
		}
	}
	return nil
}

func (s *sheets[S]) text(out io.Writer) error {
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

// csv writes the sheets for other software, under one header line.
func (s *sheets[S]) csv(out io.Writer) error {
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
		kind = lines.Plural(len(s.all), kind)
	}
	if len(s.pages) > 0 {
		kind += ", " + lines.Plural(len(s.pages), "page") + " of " + s.work.Sheet.Name
	}
	return kind
}

// laid is the paper and the pages that Lay made, for a report.
func (s *sheets[S]) laid() (paper *report.SheetReport, pages []report.PageReport) {
	if len(s.pages) > 0 {
		paper = sheetReport(s.work)
	}
	for i, p := range s.pages {
		pages = append(pages, report.ReportPage(i+1, p))
	}
	return paper, pages
}
