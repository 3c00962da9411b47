package check

import (
	"fmt"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// largePlan is how long a layout is on paper that is read at arm's length.
const largePlan unit.Length = 65

// Pages draws the sheet on paper. It is a *unit.Fault when the paper is too small,
// or the lettering lacks a character of the job's words.
func (s Sheet) Pages(paper paging.Sheet, r draw.Ruler) ([]draw.Page, error) {
	if err := s.Lettered(r); err != nil {
		return nil, err
	}
	l := sheet.LeafOf(paper.Width, paper.Height, paper.Printable())
	if b := l.Body(); b.Width() < 120 || b.Height() < 90 {
		return nil, &unit.Fault{Subject: unit.Paper, Of: paper.Name, What: fmt.Sprintf("%.0f × %.0f mm to write on are too small for a check sheet", b.Width(), b.Height()), Hint: "use A4 or A3"}
	}
	columns := 1
	if b := l.Body(); b.Width() >= sheet.Wide && s.readingsTable().Breadth(r) <= sheet.Columns(b, 2, sheet.Gutter)[0].Width() {
		columns = 2
	}
	areas := func(n int) []geom.Rect {
		if n == 0 {
			return sheet.Columns(l.Body(), columns, sheet.Gutter)
		}
		return sheet.Columns(l.Next(), columns, sheet.Gutter)
	}
	// The fewest pages, then what was found as early as may be, then the largest plan.
	var flown []draw.Drawing
	for _, share := range []unit.Length{0.62, 0.5, 0.4, 0.3} {
		room := l.Body().Height() * share
		if columns > 1 {
			room = min(2*room, l.Body().Height()*0.9)
		}
		small := false
		plan := sheet.Figure{Draw: func(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
			d, h, long := s.planFigure(width, room, r)
			small = long < largePlan
			return d, h
		}}
		more, err := sheet.Flow(s.blocks(plan), areas, r)
		if err != nil {
			return nil, fmt.Errorf("paper %.0f × %.0f mm: %w", l.Width, l.Height, err)
		}
		better := len(more) < len(flown) || len(more) == len(flown) && s.tablePage(more) < s.tablePage(flown)
		if flown == nil || better && (!small || share >= 0.4) {
			flown = more
		}
	}
	var pages []draw.Page
	for i, d := range flown {
		p := draw.Page{Kind: draw.Setout, Piece: s.Piece, Width: l.Width, Height: l.Height, Ops: d}
		p.Ops = append(p.Ops, s.margin().Draw(l, i+1, len(flown), r)...)
		pages = append(pages, p)
	}
	return pages, nil
}

// tablePage is the page that what was found begins on.
func (s Sheet) tablePage(pages []draw.Drawing) int {
	return slices.IndexFunc(pages, func(d draw.Drawing) bool {
		return slices.ContainsFunc(d, func(op draw.Op) bool {
			t, ok := op.(draw.Text)
			return ok && t.Words == s.heads().Heading(words.PartFound)
		})
	})
}

// margin is the head and the foot of every page.
func (s Sheet) margin() sheet.Margin {
	name := s.Piece
	if name == "" {
		name = "Check"
	}
	return sheet.Margin{
		Title: name, Second: []string{s.heads().Title(true), s.Job, s.Date}, Language: s.Language,
		Third: s.heads().Units(true, s.Figures.Style)[:1], Picture: s.heads().NoScale(),
	}
}
