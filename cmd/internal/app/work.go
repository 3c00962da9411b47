// Package app turns a job and profiles into a report and files in memory. It
// knows no flags, no terminal and no operating system, so that whatever else
// wants to do trammel's work can stand on it.
//
// Files, from the top floor to the ground: on_screen.go, document.go, preview.go, calibrate.go,
// for_machine.go, check.go, check_text.go, floor.go, setout.go, tasks.go,
// sheets.go, template.go, index_pages.go, shared.go, summary.go, instead.go, refuse.go,
// net_text.go, text.go, work.go, drawn.go, attach.go, lay_piece.go, lay.go, warp.go,
// progress.go, ahead.go.
package app

import (
	"cmp"
	"slices"

	"trammel/cmd/internal/report"
	"trammel/cmd/internal/solved"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/profiles/job"
)

// Work is a merged job with everything solved, and the paper that it goes on.
type Work struct {
	solved.Work
	stock
	madeFor
	hide []draw.Layer // left out of the pages
	tell Progress
}

// Open solves every piece of a job, and decides its paper. Its errors are a *unit.Fault
// where words are wrong and a *triangle.NoTriangle (within a *PieceError) where the
// measurements fix none. Tell hears how far the work is; nil: nobody listens.
func Open(m job.Merged, tell Progress) (Work, error) {
	w := Work{Work: solved.Work{Merged: m}, stock: stockOf(m), tell: tell}
	w.madeFor, w.Sheet = calibrated(m.Known, w.Sheet)
	if len(m.Pieces) == 0 {
		return w, &unit.Fault{Where: m.File, What: "the job has no pieces, only tasks for a class", Hint: "make task sheets of it, or add pieces to the job"}
	}
	var err error
	if w.hide, err = without(m.Carries.Without); err != nil {
		return w, err
	}
	w.Work, err = solved.Open(m, tell.say)
	return w, err
}

// stockOf is the paper of a job, and what comes on it.
func stockOf(m job.Merged) stock {
	p, q := m.Paper, m.Printer
	if m.Landscape {
		p.Width, p.Height = p.Height, p.Width
	}
	s := stock{roll: p.Roll, turn: m.Turn, Sheet: paging.Sheet{
		Name: p.Name, Width: p.Width, Height: p.Height, Left: q.Left, Top: q.Top, Right: q.Right, Bottom: q.Bottom, Overlap: q.Overlap,
	}}
	if m.EdgesOnly {
		s.Cover = paging.OutlineOnly
	}
	return s
}

// Warnings of all pieces, each with its piece where there are several.
func (w Work) Warnings() []string {
	all := append(slices.Clone(w.Notes), w.otherPaper(w.Sheet)...)
	for _, p := range w.Pieces {
		for _, s := range p.Cares() {
			if len(w.Pieces) > 1 {
				s = p.Title() + ": " + s
			}
			all = append(all, s)
		}
	}
	return all
}

// placedBy is the work with other words on how each piece comes into being than those
// on its construction with rule and compasses.
func (w Work) placedBy(words func(i int) []string) Work {
	w.Pieces = slices.Clone(w.Pieces)
	for i := range w.Pieces {
		w.Pieces[i].ByHand = words(i)
	}
	return w
}

// documentTitle is the job's name, else that of its first piece.
func (w Work) documentTitle() string { return cmp.Or(w.Title, w.Pieces[0].Name) }

func sheetReport(w Work) *report.SheetReport {
	s := w.Sheet
	return &report.SheetReport{
		Paper: s.Name, Printer: w.Printer.Name, Width: s.Width.MM(), Height: s.Height.MM(),
		Left: s.Left.MM(), Top: s.Top.MM(), Right: s.Right.MM(), Bottom: s.Bottom.MM(), Overlap: s.Overlap.MM(),
	}
}
