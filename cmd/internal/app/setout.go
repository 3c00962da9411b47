package app

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"

	"trammel/cmd/internal/report"
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/setout"
)

type setoutSheets struct{ sheets[setout.Sheet] }

// makeSetout prepares the sheets, the pegs placed as the job says, else by the surest
// way. The errors are those of Open, and a *unit.Fault where a piece is too small or
// too large to be set out.
func makeSetout(o Order) (*Document, error) {
	s, err := o.Work.setout()
	if err != nil {
		return nil, err
	}
	for i := range s.all {
		s.all[i].Office = o.Office
	}
	d := s.document(s.summary, func() any { return s.report() })
	if d.Sheets = len(s.all); d.Sheets == 1 {
		d.Pegs, d.Grid = s.pegs, s.grid
	}
	return d, nil
}

func (w Work) setout() (*setoutSheets, error) {
	if err := cmp.Or(w.Picked(), w.Sound()); err != nil {
		return nil, err
	}
	s := &setoutSheets{sheets[setout.Sheet]{work: w, stem: "setout", subject: "setting-out sheet", noRoll: "a setting-out sheet is read on the site and wants a sheet, not a roll"}}
	said := map[int][]string{}
	for i, p := range w.Pieces {
		if p.Other { // pegs stand where they stand
			continue
		}
		sheet, err := w.sheet(i, p)
		if err != nil {
			return nil, err
		}
		s.all, s.of = append(s.all, sheet), append(s.of, p)
		said[i] = sheet.Says().Flat()
	}
	s.work = w.placedBy(func(i int) []string { return said[i] })
	return s, nil
}

// asked is what is asked of the sheet of one piece.
func (w Work) asked(p solved.Piece) (a pegging.Asked, err error) {
	a = pegging.Asked{
		Base: p.Base, Methods: w.Site.Methods, Tools: w.Site.Tools, Style: w.Figures, Permitted: w.Site.Permitted,
		Every: w.Site.Every, Boards: w.Site.Boards, Standard: w.Site.Standard, Conditions: w.Site.Conditions,
		Bars: solved.Bars(w.Work, p),
	}
	if m, said := ways[w.Job.Pieces[p.Index].Way]; said {
		a.Method = &m
	}
	if a.Levels, err = w.Levels(p); err == nil {
		a.Net, err = w.Net(p)
	}
	return a, w.InPiece(p, err)
}

func (w Work) sheet(i int, p solved.Piece) (setout.Sheet, error) {
	asked, err := w.asked(p)
	if err != nil {
		return setout.Sheet{}, err
	}
	in := setout.Input{Job: w.Title, Piece: p.Title(), Index: i, Date: w.Job.Date, Language: w.OnSite, Asked: asked}
	if _, said := w.Site.From["bearing"]; said {
		in.Bearing, in.NorthUp = &w.Site.Bearing, w.Site.NorthUp
	}
	sheet, err := setout.Prepare(in)
	var f *unit.Fault
	if errors.As(err, &f) && f.Subject == unit.Site && w.Site.From[f.Of] != "" { // what was said of the site
		return sheet, &unit.Fault{Where: w.Site.From[f.Of], What: f.What, Hint: f.Hint}
	}
	return sheet, w.InPiece(p, err)
}

// ways are the methods of setting out that go by the names of those to construct.
var ways = map[construct.Method]pegging.Method{construct.ByArcs: pegging.TwoArcs, construct.BySquare: pegging.OffsetSquare, construct.ByAngle: pegging.AngleDistance}

// summary says in a line what the sheets are.
func (s *setoutSheets) summary() string {
	words := s.made("setting-out sheet")
	if slices.ContainsFunc(s.of, func(p solved.Piece) bool { return len(p.Shape.Sides) > 0 }) {
		words += "; the outline alone: allowances, corners and holes are on the template"
	}
	return words
}

// report with the pages that lay drew. Its points lie as the sheet has them: the end of
// the baseline that holds the tape's zero at the origin, the other along x.
func (s *setoutSheets) report() report.Report {
	r := report.Of(s.work.Work)
	paper, pages := s.laid()
	next := 0
	for i, p := range s.work.Pieces {
		if p.Other {
			continue
		}
		sheet := s.all[next]
		next++
		framed(&r.Pieces[i], sheet)
		r.Pieces[i].Setout = report.ReportSetout(sheet)
		for _, page := range pages {
			for k := range page.Places {
				if page.Places[k].Piece == i {
					page.Places[k].Matrix = sheet.Framed(page.Places[k].Matrix)
				}
			}
		}
	}
	r.Sheet, r.Pages = paper, append(r.Pages, pages...)
	return r
}

// framed tells a piece's points, and how sure they are, from the baseline of its sheet.
func framed(r *report.PieceReport, s setout.Sheet) {
	base := [2]geom.Name{s.Baseline.From, s.Baseline.To}
	r.Base = string(base[0] + base[1])
	for n := range r.Points {
		at, c := s.Seen(geom.Name(n))
		r.Points[n] = report.Pair(at)
		if r.Net != nil {
			r.Net.Points[n] = report.ReportPoint(c)
		}
	}
}

// A file of pegs is of one sheet: each has a baseline of its own, and letters that the
// others have too.

func (s *setoutSheets) grid() string {
	base := s.all[0].Baseline
	return fmt.Sprintf("%s is the origin, and the baseline %s%s has the bearing", base.From, base.From, base.To)
}

// pegs writes the places of the pegs as point,x,y in the site's grid.
func (s *setoutSheets) pegs(out io.Writer) error {
	site := s.work.Site
	return s.all[0].PegsCSV(out, setout.Grid{Origin: site.Origin, Bearing: site.Bearing})
}
