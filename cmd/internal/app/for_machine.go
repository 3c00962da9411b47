package app

import (
	"cmp"
	"fmt"
	"slices"

	"trammel/cmd/internal/lines"
	"trammel/cmd/internal/report"
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/svg"
	"trammel/plot/template"
	"trammel/plot/words"
)

// drawings are the pieces of a job each in one, at full size, for a machine that cuts.
type drawings struct {
	work Work
	drawn
}

const (
	wholeMargin unit.Length = 15              // round a piece: room for the letters at its corners
	wholeMost   unit.Length = 20 * unit.Metre // the longest side of a file; beyond, marks are not promised to be true
)

// makeWhole draws every piece at full size. The errors are those of a template, and a
// *unit.Fault where a piece is longer than 20 m.
func makeWhole(o Order) (*Document, error) {
	h, err := o.Work.drawings()
	if err != nil {
		return nil, err
	}
	d := &Document{Warnings: o.Work.Warnings(), Summary: h.summary, Report: func() any { return h.report() }, drawn: svg.WriteWhole}
	d.head = draw.Document{Title: o.Work.documentTitle(), Language: words.In(o.Work.Language).Aloud().Language(), Hide: o.Work.hide}
	h.into(d)
	return d, nil
}

func (w Work) drawings() (*drawings, error) {
	if err := cmp.Or(w.Picked(), w.HasOutline(), w.Sound()); err != nil {
		return nil, err
	}
	all := &drawings{work: w}
	for i, p := range w.Pieces {
		page, err := w.whole(i, p)
		if err != nil {
			return nil, w.InPiece(p, err)
		}
		name := fileName(p.Title())
		if len(w.Pieces) > 1 {
			name = numbered(i, len(w.Pieces), p.Title())
		}
		all.pages, all.names = append(all.pages, page), append(all.names, name)
	}
	return all, nil
}

// whole is one piece on a page of its own size, its baseline level.
func (w Work) whole(index int, p solved.Piece) (draw.Page, error) {
	outline := p.Covered()
	b := outline.Bounds().Join(p.Outline().Points.Bounds())
	sheet := paging.Sheet{Name: "whole", Width: b.Width() + 2*wholeMargin, Height: b.Height() + 2*wholeMargin}
	if long := max(sheet.Width, sheet.Height); long > wholeMost {
		return draw.Page{}, &unit.Fault{
			What: fmt.Sprintf("%s would make a file %s long: the most is %s", p.Title(), w.Figures.LengthUnit(long), w.Figures.LengthUnit(wholeMost)),
			Hint: "cut it in parts, or make a setting-out sheet", Advice: unit.Advice{Code: unit.AsPegs},
		}
	}
	at := geom.Placement{Shift: geom.Point{X: wholeMargin, Y: wholeMargin}.Minus(b.Min)}
	plan := onePage(sheet, at.Polygon(outline))
	plan.Place = at
	drawing, err := template.Draw(w.templatePiece(p), plan, lettering.Go(), w.style())
	if err != nil {
		return draw.Page{}, err
	}
	f := furniture.Furniture{Piece: p.Title(), PieceIndex: index, Copies: 1}
	page := theOnly(plan.Pages(drawing, f, lettering.Go()))
	// What a sheet of paper needs is not for a sheet of plywood.
	page.Ops = slices.DeleteFunc(page.Ops, func(op draw.Op) bool { return op.Layer() == draw.Furniture })
	return page, nil
}

// summary says in a few lines what the files are.
func (h *drawings) summary() []string {
	if len(h.pages) == 1 {
		return []string{h.sized(0) + "; one unit is one millimetre, cut the group cut"}
	}
	lines := []string{lines.Plural(len(h.pages), "piece") + ", a file each; one unit is one millimetre, cut the group cut"}
	for i := range h.pages {
		if len(lines) < maxSummary {
			lines = append(lines, h.sized(i))
		}
	}
	return lines
}

func (h *drawings) sized(i int) string {
	p, w := h.pages[i], h.work
	s := fmt.Sprintf("%s, %s x %s", w.Pieces[i].Title(), w.Figures.Length(p.Width), w.Figures.LengthUnit(p.Height))
	if n := w.Pieces[i].Quantity; n > 1 {
		s += fmt.Sprintf(", cut %d", n)
	}
	return s
}

// report with a page a piece.
func (h *drawings) report() report.Report {
	r := report.Of(h.work.Work)
	for i, p := range h.pages {
		r.Pages = append(r.Pages, report.ReportPage(i+1, p))
	}
	return r
}
