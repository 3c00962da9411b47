package app

import (
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/template"
)

// fronts gives its index page to each piece that is joined, and to each on a page of
// its own that has no room for all that the trade asks for; one to both hands of a pair
// where it is true of both; and to those that share pages one table of what found no room
// there.
func (t *layout) fronts() error {
	w, r, s := t.work, lettering.Go(), t.work.style()
	// The pages of a piece alone do not say all.
	wanting := func(l laid) bool { return len(l.plan.Cells) > 1 || crowded(t, l) }
	for i := range t.laid {
		l := &t.laid[i]
		other := opposite(t.laid[i:])
		if l.told || l.shared || !wanting(*l) && (other == nil || !wanting(*other)) {
			continue
		}
		front := t.frontWords()
		if l.told = true; other != nil {
			other.told = true
			front.Opposite = &template.Hand{Piece: w.templatePiece(other.piece), Plan: w.onStock(other.plan)}
		}
		var err error
		if l.front, err = template.Index(w.templatePiece(l.piece), w.onStock(l.plan), r, s, front); err != nil {
			return w.InPiece(l.piece, err)
		}
		t.count += len(l.front)
	}
	var lost []template.Piece
	for k, it := range t.shared.items {
		piece := t.laid[it.laid].piece
		if s.Settings && len(piece.Shape.Sides) > 0 && t.arranged(k).Lost {
			lost = append(lost, w.templatePiece(piece))
		}
	}
	if lost == nil {
		return nil
	}
	var err error
	on := w.Sheet
	if !onDeskPaper(w) {
		on = desk(w)
	}
	t.shared.front, err = template.SettingsPages(lost, on, r, s, t.notes()...)
	t.count += len(t.shared.front)
	return err
}

// opposite is the other hand of the first of some pieces, where one index page is true of
// both.
func opposite(of []laid) *laid {
	if len(of) > 1 && of[1].piece.Other && !of[1].shared && template.Alike(of[0].plan, of[1].plan) {
		return &of[1]
	}
	return nil
}

// onStock is the plan on the paper as it is bought: of a roll the longest page.
func (s stock) onStock(p paging.Plan) paging.Plan {
	p.Sheet = s.Sheet
	return p
}

// onDeskPaper says whether the pages of words go through the printer of the templates; else,
// since that is a plotter's paper, through the office's.
func onDeskPaper(w Work) bool { return !w.Paper.Large() }

// desk is the sheet that those pages are printed on there, with the margins of most printers.
func desk(w Work) paging.Sheet {
	const margin unit.Length = 10
	p := w.Office
	return paging.Sheet{Name: p.Name, Width: p.Width, Height: p.Height, Left: margin, Top: margin, Right: margin, Bottom: margin, Overlap: margin}
}

// frontWords are what the page before those of a piece says beside it.
func (t *layout) frontWords() template.Front {
	front := template.Front{Notes: t.notes()}
	if c := t.work.calibration; c != nil {
		front.Uncertainty = c.Uncertainty
	}
	if !onDeskPaper(t.work) {
		front.Paper = desk(t.work)
	}
	return front
}

// notes are what a title line says beside the names.
func (t *layout) notes() (notes []string) {
	if t.work.Job.Date != "" {
		notes = append(notes, t.work.Job.Date)
	}
	if p := t.work.printer(); p != "" && onDeskPaper(t.work) {
		notes = append(notes, "for printer "+p+": wrong on any other")
	}
	return notes
}

// crowded says whether the page of a piece has no room for all that is asked for.
func crowded(t *layout, l laid) bool {
	p := theOnly(l.plan.Pages(l.drawing, t.furniture(l, 0, t.count), lettering.Go()))
	_, all := template.WithNotes(p, l.plan.Sheet, t.work.templatePiece(l.piece), lettering.Go(), t.work.style())
	return !all
}

// noted is the only page of a piece with what its reader needs: all of it where there
// is no index page.
func noted(t *layout, l laid, p draw.Page) draw.Page {
	s := t.work.style()
	if l.told {
		s.Steps, s.Settings = false, false
	}
	p, _ = template.WithNotes(p, l.plan.Sheet, t.work.templatePiece(l.piece), lettering.Go(), s)
	return p
}

// single says whether all is on one page, and leaves the instructions out if that
// makes it so: who names one SVG wants the piece.
func single(t *layout) bool {
	pages := t.shared.pages
	for _, l := range t.laid {
		if !l.shared {
			pages += len(l.plan.Cells) * t.work.Copies
		}
	}
	if pages > 1 {
		return false
	}
	t.count, t.shared.front = 1, nil
	for i := range t.laid {
		t.laid[i].front, t.laid[i].told = nil, false
	}
	return true
}
