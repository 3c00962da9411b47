// Package app turns a job and profiles into a report and files in memory. It
// knows no flags, no terminal and no operating system, so that whatever else
// wants to do trammel's work can stand on it.
//
// Files, from the top floor to the ground: document.go, preview.go, calibrate.go, whole.go, check.go, check_report.go,
// check_text.go, setout.go, pegs.go, setout_report.go, sheets.go, template.go, front.go,
// shared.go, summary.go, refuse.go, text.go, net_text.go, shape_text.go, report.go,
// net_report.go, shape_report.go, open.go, shape.go, net_triangle.go, byhand.go,
// levels.go, net.go, remarks.go, attach.go, lay.go, roll.go, warp.go, layers.go,
// drawn.go, progress.go, ahead.go, piece.go.
package app

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/paging"
	"trammel/plot/words"
	"trammel/profiles/job"
)

// Open solves every piece of a job. Its errors are a *unit.Fault where words are wrong
// and a *geom.NoTriangle (within a *PieceError) where the measurements fix none. Tell
// hears how far the work is; nil: nobody listens.
func Open(m job.Merged, tell Progress) (Work, error) {
	w := Work{Merged: m, Title: m.Name.Text, tell: tell}
	if m.Says != nil {
		w.Language = words.English{Instrument: m.Says.Of(unit.Instrument, "theodolite", false)}
	}
	if err := w.paged(); err != nil {
		return w, err
	}
	for i, p := range m.Pieces {
		w.tell.say("reckoning", i, len(m.Pieces))
		pieces, err := w.solved(i)
		if err != nil {
			return w, err
		}
		for k := range pieces {
			pieces[k].Warnings = append(pieces[k].Warnings, m.ReadAs(m.Measured[i])...)
		}
		if pieces, err = shaped(p, pieces, m.Bare, m.Figures); err != nil {
			return w, err
		}
		for _, q := range pieces {
			w.Pieces = append(w.Pieces, w.adjust(q))
		}
	}
	if m.Said.Piece.Pick == job.Second && !slices.ContainsFunc(w.Pieces, func(p Piece) bool { return len(p.Solution.Answers) > 1 }) {
		return w, &unit.Fault{Subject: unit.Pick, What: "2 is picked, but only one triangle fits", Advice: unit.Advice{Code: unit.NoSuchTwo}}
	}
	for i := range w.Pieces {
		p := &w.Pieces[i]
		if p.Other { // the same again
			continue
		}
		if p.Net == nil {
			p.Warnings = append(p.Warnings, p.Solution.Answers[p.Answer].Warnings...)
		}
		if a, ok := p.checked(); ok {
			_, cares := w.findings(a)
			p.Warnings = append(append(p.Warnings, cares...), remarks(w.says().Nets().TooFine(a, w.Figures))...)
		}
		p.ByHand = w.crossings(*p)
	}
	return w, w.grounded()
}

// paged decides the sheet of paper and what comes on it.
func (w *Work) paged() (err error) {
	p, q := w.Paper, w.Printer
	if w.Landscape {
		p.Width, p.Height = p.Height, p.Width
	}
	w.Sheet = paging.Sheet{
		Name: p.Name, Width: p.Width, Height: p.Height,
		Left: q.Left, Top: q.Top, Right: q.Right, Bottom: q.Bottom, Overlap: q.Overlap,
	}
	w.calibrated(w.Known)
	if w.EdgesOnly {
		w.Cover = paging.OutlineOnly
	}
	w.hide, err = without(w.Said.Without)
	return err
}

// solved makes one piece of the job: a triangle, two where two fit, or a net.
func (w Work) solved(index int) ([]Piece, error) {
	p, ms := w.Job.Pieces[index], w.Measured[index]
	s := netWords{p.Outline, p.Sides, p.Base, p.OutlineAt, p.BaseAt}
	if isNet(ms, s) {
		return w.solveNet(index, s)
	}
	if err := triangular(ms, s); err != nil {
		return nil, err
	}
	return w.solve(index)
}

// solve makes the triangles of one piece of the job.
func (w Work) solve(index int) ([]Piece, error) {
	p := w.Job.Pieces[index]
	base, at, pick := p.Base, p.BaseAt, p.Pick
	solution, err := w.triangle(w.Measured[index], base)
	if err != nil {
		// A fault of the baseline belongs where that was written.
		var f *unit.Fault
		if at != "" && errors.As(err, &f) && f.Subject == unit.Base {
			return nil, f.In(at)
		}
		return nil, of(p, err)
	}
	if len(solution.Answers) == 1 && pick == job.Second && w.Said.Piece.Pick == job.Unpicked {
		return nil, &unit.Fault{Where: p.PickAt, Subject: unit.Pick, What: "2 is picked, but only one triangle fits", Advice: unit.Advice{Code: unit.NoSuchTwo, InFile: true}}
	}
	var pieces []Piece
	for i := range solution.Answers {
		if len(solution.Answers) > 1 && (pick == job.First && i != 0 || pick == job.Second && i != 1) {
			continue
		}
		q := Piece{
			Index: index, Name: p.Name, Where: p.Where, Quantity: p.Quantity, Answer: i, Base: base,
			both:   len(solution.Answers) > 1 && pick != job.First && pick != job.Second,
			Picked: len(solution.Answers) == 1 || pick != job.Unpicked, Solution: solution,
		}
		if q.Name == "" {
			q.Name = q.title(len(w.Job.Pieces))
		}
		if err := sized(q.Triangle()); err != nil {
			return nil, of(p, err)
		}
		if q.Construction, err = construct.Construct(solution, i, p.With); err != nil {
			return nil, of(p, err)
		}
		pieces = append(pieces, q)
	}
	return pieces, nil
}

// title is the name of a piece without one.
func (p Piece) title(of int) string {
	n := p.Triangle().Names
	slices.Sort(n[:])
	name := "Triangle " + string(n[0]+n[1]+n[2])
	if of > 1 {
		name = fmt.Sprintf("Piece %d", p.Index+1)
	}
	return name
}

// sized refuses a side beyond what can be marked out or reached.
func sized(t triangle.Triangle) error {
	for i, l := range t.Sides {
		if l < unit.Shortest || l > unit.Longest {
			a, b := t.Names[(i+1)%3], t.Names[(i+2)%3]
			return &unit.Fault{
				What: fmt.Sprintf("the side %s%s comes to %s: a side is from %s to %s", min(a, b), max(a, b), unit.Style{Decimals: 4}.LengthUnit(l), "1 mm", "1 km"),
				Hint: "measure a triangle of that size",
			}
		}
	}
	return nil
}

// Picked refuses a piece of which two fit and nobody said which is meant.
func (w Work) Picked() error {
	for i, p := range w.Pieces {
		if p.Picked {
			continue
		}
		if p.several != nil {
			return w.whichWay(p)
		}
		two := [2]string{}
		for k := range two {
			two[k] = w.outline(w.Pieces[i+k].Triangle())
		}
		n := &triangle.NoTriangle{
			What:    fmt.Sprintf("two triangles fit: (1) %s; (2) %s", two[0], two[1]),
			Subject: unit.Pick, Advice: unit.Advice{Code: unit.TwoFit, InFile: w.Job.File != ""},
		}
		return of(w.Job.Pieces[p.Index], n)
	}
	return nil
}

// outline is a triangle in a few words: its sides.
func (w Work) outline(t triangle.Triangle) string {
	var parts []string
	for _, s := range sides(t) {
		parts = append(parts, string(s.name)+" "+w.Figures.Length(s.length))
	}
	return strings.Join(parts, ", ")
}

// Warnings of all pieces, each with its piece where there are several.
func (w Work) Warnings() []string {
	all := append(slices.Clone(w.Notes), w.otherPaper()...)
	for _, p := range w.Pieces {
		for _, s := range p.cares() {
			if len(w.Pieces) > 1 {
				s = p.Title() + ": " + s
			}
			all = append(all, s)
		}
	}
	return all
}
