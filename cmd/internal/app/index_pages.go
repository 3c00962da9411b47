package app

import (
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/template"
)

// fronts gives its index page to each piece that is joined, and to each on a page of
// its own that has no room for all that the trade asks for; and to those that share
// pages one table of what found no room there.
func (t *layout) fronts() error {
	w, r, s := t.work, lettering.Go(), t.work.style()
	for i := range t.laid {
		l := &t.laid[i]
		if l.shared || len(l.plan.Cells) == 1 && !t.crowded(*l) {
			continue
		}
		on := l.plan
		on.Sheet = w.Sheet // of a roll the longest page; short makes it fit
		var err error
		if l.front, err = template.Index(w.templatePiece(l.piece), on, r, s, t.frontWords()); err != nil {
			return w.InPiece(l.piece, err)
		}
		t.count += w.shorten(l.front)
	}
	var lost []template.Piece
	for _, it := range t.shared.items {
		if t.arranged(it).Lost {
			lost = append(lost, w.templatePiece(t.laid[it.laid].piece))
		}
	}
	if lost == nil {
		return nil
	}
	var err error
	t.shared.front, err = template.SettingsPages(lost, w.Sheet, r, s, t.notes()...)
	t.count += w.shorten(t.shared.front)
	return err
}

// frontWords are what the page before those of a piece says beside it.
func (t *layout) frontWords() template.Front {
	front := template.Front{Notes: t.notes()}
	if c := t.work.calibration; c != nil {
		front.Uncertainty = c.Uncertainty
	}
	return front
}

// notes are what a title line says beside the names.
func (t *layout) notes() (notes []string) {
	if t.work.Job.Date != "" {
		notes = append(notes, t.work.Job.Date)
	}
	if p := t.work.printer(); p != "" {
		notes = append(notes, "for printer "+p+": wrong on any other")
	}
	return notes
}

// crowded says whether the page of a piece has no room for all that is asked for.
func (t *layout) crowded(l laid) bool {
	p := theOnly(l.plan.Pages(l.drawing, t.furniture(l, 0, t.count), lettering.Go()))
	_, all := template.WithNotes(p, l.plan.Sheet, t.work.templatePiece(l.piece), lettering.Go(), t.work.style())
	return !all
}

// noted is the only page of a piece with what its reader needs: all of it where there
// is no index page.
func (t *layout) noted(l laid, p draw.Page) draw.Page {
	s := t.work.style()
	if len(l.front) > 0 {
		s.Steps, s.Settings = false, false
	}
	p, _ = template.WithNotes(p, l.plan.Sheet, t.work.templatePiece(l.piece), lettering.Go(), s)
	return p
}

// shorten makes pages off a roll no longer than what is on them, and counts them.
func (s stock) shorten(pages []draw.Page) int {
	for i := range pages {
		pages[i] = s.short(pages[i])
	}
	return len(pages)
}

// single says whether all is on one page, and leaves the instructions out if that
// makes it so: who names one SVG wants the piece.
func (t *layout) single() bool {
	pages := t.shared.pages
	for _, l := range t.laid {
		if !l.shared {
			pages += len(l.plan.Cells) * l.piece.Quantity
		}
	}
	if pages > 1 {
		return false
	}
	t.count, t.shared.front = 1, nil
	for i := range t.laid {
		t.laid[i].front = nil
	}
	return true
}
