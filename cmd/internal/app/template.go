package app

import (
	"cmp"
	"fmt"
	"iter"

	"trammel/cmd/internal/report"
	"trammel/cmd/internal/solved"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/template"
	"trammel/plot/words"
)

// layout is a template laid out on pages, not yet written.
type layout struct {
	work  Work
	laid  []laid
	count int
	seen  []report.PageReport // of the pages written last
	shared
}

type laid struct {
	piece   solved.Piece
	index   int // among the work's pieces
	plan    paging.Plan
	drawing draw.Drawing
	front   []draw.Page // index pages, before those of the first copy
	told    bool        // there are such pages, here or with the hand before it
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
	d.pages, d.names, d.single = t.pages, t.names, func() bool { return single(t) }
	d.Summary, d.Report = t.summary, func() any { return t.report() }
	return d
}

func (w Work) template() (*layout, error) {
	t := &layout{work: w}
	if err := cmp.Or(w.Picked(), w.HasOutline(), w.Sound(), w.Constructible()); err != nil {
		return nil, err
	}
	if err := t.ready(); err != nil {
		return nil, err
	}
	left := allSteps
	for i, p := range w.Pieces {
		if p.Turned(w.BothHands) {
			continue
		}
		if n := w.atLeast(p) * float64(w.Copies); n+float64(t.count) > maxPages {
			return nil, t.tooMany(p, n, true, t.count)
		}
		plan, err := w.layPiece(p, w.effortFor(i, left))
		if err != nil {
			return nil, w.InPiece(p, err)
		}
		left -= plan.Steps
		before := t.count
		if t.count += len(plan.Cells) * w.Copies; t.count > maxPages {
			return nil, t.tooMany(p, float64(t.count-before), false, before)
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
		front := func(pages []draw.Page) bool {
			for _, p := range pages {
				if number++; onDeskPaper(w) {
					p = w.warped(p)
				}
				if !yield(p) {
					return false
				}
			}
			return true
		}
		if !front(t.shared.front) {
			return
		}
		for n := range t.shared.pages {
			if !give(t.sharedPage(n)) {
				return
			}
		}
		for _, l := range t.laid {
			if l.shared {
				continue
			}
			if !front(l.front) {
				return
			}
			for c := range w.Copies {
				for p := range l.plan.Pages(l.drawing, t.furniture(l, c, number), lettering.Go()) {
					p.Alt = words.In(w.Language).Aloud().Sheet(l.piece.Title(), p.Label, len(l.plan.Cells))
					if len(l.plan.Cells) == 1 {
						p = noted(t, l, p)
					}
					if !give(p) {
						return
					}
				}
			}
		}
	}
}

// names of the pages as files: the number of the sheet where one piece is made once,
// else the piece and the copy with it.
func (t *layout) names() (names []string) {
	for n := range t.shared.front {
		names = append(names, counted("saw-and-square", n, min(n, 1)+1))
	}
	for n := range t.shared.pages {
		name := "pieces"
		if of := t.shared.pages; of > 1 {
			name = fmt.Sprintf("pieces-%0*d", len(fmt.Sprint(of)), n+1)
		}
		names = append(names, name)
	}
	for i, l := range t.laid {
		if l.shared {
			continue
		}
		before := ""
		if len(t.laid) > 1 {
			before = numbered(i, len(t.laid), l.piece.Title()) + "-"
		}
		for k := range l.front {
			names = append(names, before+counted("index", k, min(k, 1)+1))
		}
		for c := range t.work.Copies {
			for n := range l.plan.Cells {
				name := fmt.Sprintf("%ssheet-%0*d", before, len(fmt.Sprint(len(l.plan.Cells))), n+1)
				if t.work.Copies > 1 {
					name += fmt.Sprintf("-copy-%d", c+1)
				}
				names = append(names, name)
			}
		}
	}
	return names
}

// counted is a name with its number where there are several.
func counted(name string, i, of int) string {
	if of == 1 {
		return name
	}
	return fmt.Sprintf("%s-%d", name, i+1)
}

// report with the pages as they were last written.
func (t *layout) report() report.Report {
	r := report.Of(t.work.Work)
	r.Sheet = sheetReport(t.work)
	for i, l := range t.laid {
		p, turn := l.plan, l.plan.Place.Turn
		if l.shared {
			turn = t.shared.blocks[i].Turn()
		}
		r.Pieces[l.index].Layout = &report.LayoutReport{
			Pages: len(p.Cells), Rows: p.Rows, Columns: p.Cols, Turn: turn.Degrees(), Plain: p.Plain, Least: p.Least, Proven: p.Proven,
		}
	}
	r.Pages = append(r.Pages, t.seen...)
	return r
}
