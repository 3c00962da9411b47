package app

import (
	"trammel/cmd/internal/solved"
	"trammel/geom/unit"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/template"
)

// What can be refused without a search is refused before any.

// smallPaper shows less than this one way or the other: then the page that says how to
// put the pages together may have no room for what it says.
const smallPaper unit.Length = 150

// ready refuses what is known not to come to anything: a piece that takes too many pages
// whatever happens, names that cannot be lettered, paper too small for the index page.
func (t *layout) ready() error {
	w := t.work
	pages := 0.0
	for _, p := range w.Pieces {
		n := w.atLeast(p)
		if pages+n > maxPages {
			return t.tooMany(p, n, true, int(pages))
		}
		pages += n
		if err := template.Ready(w.templatePiece(p), lettering.Go()); err != nil {
			return w.InPiece(p, err)
		}
	}
	s := w.Sheet
	if min(s.Width-s.Left-s.Right, s.Height-s.Top-s.Bottom) >= smallPaper {
		return nil
	}
	const some = 20 // pieces: of more, one after the other is refused when its turn comes
	for _, p := range w.Pieces[:min(some, len(w.Pieces))] {
		if err := t.indexed(p); err != nil {
			return w.InPiece(p, err)
		}
	}
	return nil
}

// indexed refuses a piece of several pages whose index page does not fit. A plan that
// was looked for a moment only says so quickly; where it does, the real one has the word.
func (t *layout) indexed(p solved.Piece) (err error) {
	w := t.work
	for _, most := range []int{leastSteps / 100, paging.MostSteps} {
		plan, no := w.layPiece(p, paging.Effort{Most: most})
		if no != nil || len(plan.Cells) == 1 {
			return nil // whoever lays it says so
		}
		plan.Sheet = w.Sheet
		if _, err = template.Index(w.templatePiece(p), plan, lettering.Go(), w.style(), t.frontWords()); err == nil {
			return nil
		}
	}
	return err
}

func (t *layout) tooMany(p solved.Piece, pages float64, more bool, before int) error {
	name := p.Title()
	if before > 0 {
		name = "the job up to " + name
	}
	return t.work.InPiece(p, paging.TooMany(name, float64(before)+pages, more, t.work.Sheet))
}
