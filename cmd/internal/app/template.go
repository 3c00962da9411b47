package app

import (
	"fmt"
	"iter"

	"trammel/cmd/internal/report"
	"trammel/cmd/internal/solved"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/template"
)

// layout is a template laid out on pages, not yet written.
type layout struct {
	work  Work
	laid  []laid
	count int
	seen  []report.PageReport // of the pages written last
	shared
}

// laid is one piece on its pages.
type laid struct {
	piece   solved.Piece
	index   int // among the work's pieces
	plan    paging.Plan
	drawing draw.Drawing
	front   []draw.Page // index pages, before those of the first copy
	shared  bool        // it has no page of its own
}

// MakeTemplate lays every piece out. The errors are those of Open, and a *unit.Fault
// where paper and piece do not go together.
func MakeTemplate(o Order) (*Document, error) {
	t, err := o.Work.template()
	if err != nil {
		return nil, err
	}
	return t.document(), nil
}

func (t *layout) document() *Document {
	d := t.work.document("full-size template")
	d.head.Hide = t.work.hide
	d.pages, d.names, d.single = t.pages, t.names, t.single
	d.Summary, d.Report = t.summary, func() any { return t.report() }
	return d
}

func (w Work) template() (*layout, error) {
	if err := w.Picked(); err != nil {
		return nil, err
	}
	if err := w.HasOutline(); err != nil {
		return nil, err
	}
	if err := w.Sound(); err != nil {
		return nil, err
	}
	if err := w.Constructible(); err != nil {
		return nil, err
	}
	if err := w.ready(); err != nil {
		return nil, err
	}
	t := &layout{work: w}
	left := allSteps
	for i, p := range w.Pieces {
		if n := w.atLeast(p); n+float64(t.count) > maxPages {
			return nil, w.tooMany(p, n, true, t.count)
		}
		w.effort = w.effortFor(i, left)
		plan, err := w.layPiece(p)
		if err != nil {
			return nil, w.InPiece(p, err)
		}
		left -= plan.Steps
		before := t.count
		if t.count += len(plan.Cells) * p.Quantity; t.count > maxPages {
			return nil, w.tooMany(p, float64(t.count-before), false, before)
		}
		t.laid = append(t.laid, laid{piece: p, index: i, plan: plan})
	}
	if err := t.share(); err != nil {
		return nil, err
	}
	if err := t.draw(); err != nil {
		return nil, err
	}
	return t, t.fronts()
}

// draw draws what has pages of its own.
func (t *layout) draw() (err error) {
	w := t.work
	for i := range t.laid {
		l := &t.laid[i]
		if l.shared {
			continue
		}
		w.tell.say("drawing", i, len(t.laid))
		if l.drawing, err = template.Draw(w.templatePiece(l.piece), l.plan, lettering.Go(), w.style()); err != nil {
			return w.InPiece(l.piece, err)
		}
		l.plan = w.cut(l.plan, l.drawing, t.furniture(*l, 0, 1))
	}
	return nil
}

// inAdvance is how many pages are made before they are written: enough to keep two
// processors at work, few enough to take no memory worth speaking of.
const inAdvance = 16

// pages one after the other, made a few at a time as they are asked for: those
// that pieces share, then for each other piece its index and its copies.
func (t *layout) pages() iter.Seq[draw.Page] {
	return func(yield func(draw.Page) bool) {
		t.seen = t.seen[:0]
		for p := range ahead(t.made(), inAdvance) {
			t.work.tell.say("writing pages", len(t.seen), t.count)
			t.seen = append(t.seen, report.ReportPage(len(t.seen)+1, p))
			if !yield(p) {
				return
			}
		}
	}
}

func (t *layout) made() iter.Seq[draw.Page] {
	w := t.work
	return func(yield func(draw.Page) bool) {
		number := 1
		give := func(p draw.Page) bool {
			number++
			return yield(w.warped(p))
		}
		if !t.sharedPages(give) {
			return
		}
		for _, l := range t.laid {
			if l.shared {
				continue
			}
			for _, p := range l.front {
				if !give(p) {
					return
				}
			}
			for c := range l.piece.Quantity {
				for p := range l.plan.Pages(l.drawing, t.furniture(l, c, number), lettering.Go()) {
					p.Alt = w.aloud().Sheet(l.piece.Title(), p.Label, len(l.plan.Cells))
					if len(l.plan.Cells) == 1 {
						p = w.noted(l, p)
					}
					if !give(p) {
						return
					}
				}
			}
		}
	}
}

// furniture of copy c of a piece, whose first page has the number in the document.
func (t *layout) furniture(l laid, c, number int) furniture.Furniture {
	w := t.work
	return furniture.Furniture{
		Job: w.Title, Piece: l.piece.Title(), PieceIndex: l.index, Copy: c, Copies: l.piece.Quantity,
		Inches: w.Figures.Unit >= unit.IN, Figures: w.Figures.Name(), Date: w.Job.Date, Printer: w.printerName(), First: number,
		Note: w.templatePiece(l.piece).Measures(),
	}
}

// names of the pages as files: the label alone where one piece is made once,
// else the piece and the copy before it.
func (t *layout) names() []string {
	names := t.sharedNames()
	for i, l := range t.laid {
		if l.shared {
			continue
		}
		before := ""
		if len(t.laid) > 1 {
			before = fmt.Sprintf("%0*d-%s-", len(fmt.Sprint(len(t.laid))), i+1, fileName(l.piece.Title()))
		}
		for k := range l.front {
			name := before + "index"
			if len(l.front) > 1 {
				name += fmt.Sprintf("-%d", k+1)
			}
			names = append(names, name)
		}
		for c := range l.piece.Quantity {
			copy := ""
			if l.piece.Quantity > 1 {
				copy = fmt.Sprintf("-copy-%d", c+1)
			}
			for _, cell := range l.plan.Cells {
				names = append(names, before+label(cell.Label)+copy)
			}
		}
	}
	return names
}

// report with the pages as they were last written.
func (t *layout) report() report.Report {
	r := report.Of(t.work.Work)
	r.Sheet = t.work.sheetReport()
	for i, l := range t.laid {
		p := l.plan
		r.Pieces[l.index].Layout = &report.LayoutReport{
			Pages: len(p.Cells), Rows: p.Rows, Columns: p.Cols, Turn: t.turn(i).Degrees(),
			Plain: p.Plain, Least: p.Least, Proven: p.Proven,
		}
	}
	r.Pages = append(r.Pages, t.seen...)
	return r
}
