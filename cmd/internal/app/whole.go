package app

import (
	"fmt"
	"io"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/svg"
	"trammel/plot/template"
)

// Whole is the pieces of a job each in one, at full size, for a machine that cuts.
type Whole struct {
	work  Work
	pages []draw.Page
	names []string
}

const (
	wholeMargin unit.Length = 15              // round a piece: room for the letters at its corners
	wholeMost   unit.Length = 20 * unit.Metre // the longest side of a file; beyond, marks are not promised to be true
)

// Whole draws every piece at full size. The errors are those of Template, and a
// *unit.Fault where a piece is longer than 20 m.
func (w Work) Whole() (*Whole, error) {
	if err := w.Picked(); err != nil {
		return nil, err
	}
	if err := w.hasOutline(); err != nil {
		return nil, err
	}
	if err := w.Sound(); err != nil {
		return nil, err
	}
	all := &Whole{work: w}
	for i, p := range w.Pieces {
		page, err := w.whole(i, p)
		if err != nil {
			return nil, w.inPiece(p, err)
		}
		name := fileName(p.Title())
		if len(w.Pieces) > 1 {
			name = fmt.Sprintf("%0*d-%s", len(fmt.Sprint(len(w.Pieces))), i+1, name)
		}
		all.pages, all.names = append(all.pages, page), append(all.names, name+".svg")
	}
	return all, nil
}

// whole is one piece on a page of its own size, its baseline level.
func (w Work) whole(index int, p Piece) (draw.Page, error) {
	outline := p.outline()
	b := outline.Bounds().Join(p.Outline().Points.Bounds())
	sheet := paging.Sheet{Name: "whole", Width: b.Width() + 2*wholeMargin, Height: b.Height() + 2*wholeMargin}
	if long := max(sheet.Width, sheet.Height); long > wholeMost {
		return draw.Page{}, &unit.Fault{
			What: fmt.Sprintf("%s would make a file %s long: the most is %s", p.Title(), w.Figures.LengthUnit(long), w.Figures.LengthUnit(wholeMost)),
			Hint: "cut it in parts, or make a setting-out sheet: trammel setout",
		}
	}
	at := geom.Placement{Shift: geom.Point{X: wholeMargin, Y: wholeMargin}.Minus(b.Min)}
	plan := paging.Plan{
		Sheet: sheet, Place: at, Outline: at.Polygon(outline), Rows: 1, Cols: 1, Least: 1, Bound: 1, Parallel: 1, Plain: 1,
		Cells: []paging.Cell{{Label: "A1", Window: geom.Rect{Max: geom.Point{X: sheet.Width, Y: sheet.Height}}}},
	}
	drawing, err := template.Draw(w.templatePiece(p), plan, lettering.Go(), w.style())
	if err != nil {
		return draw.Page{}, err
	}
	f := paging.Furniture{Piece: p.Title(), PieceIndex: index, Copies: 1}
	var page draw.Page
	for page = range plan.Pages(drawing, f, lettering.Go()) {
	}
	// What a sheet of paper needs is not for a sheet of plywood.
	page.Ops = slices.DeleteFunc(page.Ops, func(op draw.Op) bool { return op.Layer() == draw.Furniture })
	return page, nil
}

// Count of the files.
func (h *Whole) Count() int { return len(h.pages) }

// SVG writes one file a piece, each through a writer that it is given with the
// file's name.
func (h *Whole) SVG(file func(name string, write func(io.Writer) error) error) error {
	d := draw.Document{Title: h.work.documentTitle(), Language: "en", Hide: h.work.hide}
	for i, p := range h.pages {
		if err := file(h.names[i], func(out io.Writer) error { return svg.WriteWhole(out, p, d) }); err != nil {
			return err
		}
	}
	return nil
}

// OneSVG writes the only piece.
func (h *Whole) OneSVG(out io.Writer) error {
	return h.SVG(func(_ string, write func(io.Writer) error) error { return write(out) })
}

// Summary says in a few lines what the files are.
func (h *Whole) Summary() []string {
	if len(h.pages) == 1 {
		return []string{h.sized(0) + "; one unit is one millimetre, cut the group cut"}
	}
	lines := []string{plural(len(h.pages), "piece") + ", a file each; one unit is one millimetre, cut the group cut"}
	for i := range h.pages {
		if len(lines) < maxSummary {
			lines = append(lines, h.sized(i))
		}
	}
	return lines
}

// sized is a piece with the size of its file, and how many to cut.
func (h *Whole) sized(i int) string {
	p, w := h.pages[i], h.work
	s := fmt.Sprintf("%s, %s x %s", w.Pieces[i].Title(), w.Figures.Length(p.Width), w.Figures.LengthUnit(p.Height))
	if n := w.Pieces[i].Quantity; n > 1 {
		s += fmt.Sprintf(", %d off", n)
	}
	return s
}

// Report with a page a piece.
func (h *Whole) Report() Report {
	r := h.work.Report()
	for i, p := range h.pages {
		r.Pages = append(r.Pages, pageReport(i+1, p))
	}
	return r
}
