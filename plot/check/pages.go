package check

import (
	"fmt"
	"math"
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
	s.Figures = s.written()
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
			return sheet.Columns(l.Whole(l.Body()), columns, sheet.Gutter)
		}
		return sheet.Columns(l.Whole(l.Next()), columns, sheet.Gutter)
	}
	flown, err := s.flown(l, columns, areas, r)
	switch {
	case err != nil:
		return nil, fmt.Errorf("paper %.0f × %.0f mm: %w", l.Width, l.Height, err)
	case flown == nil:
		return nil, &unit.Fault{Subject: unit.Paper, Of: paper.Name, What: fmt.Sprintf("a plan of %d pegs has no room on %.0f × %.0f mm", len(s.Comparison.Standings), l.Body().Width(), l.Body().Height()), Hint: "use A3, or write it as text: -o check.txt"}
	}
	var pages []draw.Page
	for i, d := range flown {
		p := draw.Page{Kind: draw.Setout, Piece: s.Piece, Width: l.Width, Height: l.Height, Ops: d}
		p.Ops = append(p.Ops, s.margin().Draw(l, i+1, len(flown), r)...)
		pages = append(pages, p)
	}
	return pages, nil
}

// flown is the fewest pages, none filled less than by half, then what was found as early
// as may be, then the largest plan.
func (s Sheet) flown(l sheet.Leaf, columns int, areas func(int) []geom.Rect, r draw.Ruler) (best []draw.Drawing, err error) {
	least, width := math.Inf(1), areas(0)[0].Width()
	for i, way := range s.ways(columns) {
		room := l.Body().Height() * way.share
		if columns > 1 {
			room = min(2*room, l.Body().Height()*0.9)
		}
		wide := width
		if way.aside {
			wide = (width - sheet.BetweenTables) * planAside
		}
		f := s.planFigure(wide, room, r)
		if !f.fits {
			continue
		}

		pages, empty, e := sheet.Even(s.blocks(f, way.aside), areas, r)
		if e != nil {
			err = e
			continue
		}
		if len(pages) == 1 {
			empty = 0
		}
		cost := float64(len(pages)) + 3*empty + 0.3*float64(s.tablePage(pages)) + 0.01*float64(i)
		if f.small && (way.share < 0.4 || way.aside) {
			cost += tooSmall
		}
		if cost < least {
			best, least = pages, cost
		}
		if least < 2 { // one page, with the largest plan that it has room for
			break
		}
	}
	if best != nil {
		return best, nil
	}
	return nil, err
}

// way is how the plan is set: as high as a share of the page, what to do below it or
// beside it.
type way struct {
	share unit.Length
	aside bool
}

// ways are tried in the order of what is liked best.
func (s Sheet) ways(columns int) (all []way) {
	shares := []unit.Length{0.62, 0.5, 0.4, 0.35, 0.3, 0.24}
	if len(s.Comparison.Readings) > mostDrawn { // many pages in any case, and each plan takes long
		shares = []unit.Length{0.62, 0.4}
	}
	for _, share := range shares {
		all = append(all, way{share, false})
		if columns == 1 && share <= 0.5 && len(shares) > 2 && len(s.Says().Advice(s.Comparison, s.written().Style)) > 0 {
			all = append(all, way{share, true})
		}
	}
	return all
}

// planAside is the plan's share of the width where what to do stands beside it.
const planAside = 0.6

// tooSmall is more than any pages cost: a plan that is not read at arm's length serves
// only where nothing else has room.
const tooSmall = 1e6

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
