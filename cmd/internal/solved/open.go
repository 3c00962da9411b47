// Package solved makes of a merged job its pieces, each known: triangles and nets with
// their shapes, what is doubtful in them, and what refuses to be made of them. It knows
// no paper.
//
// Files, from the top floor to the ground: open.go, net_triangle.go, byhand.go, shape.go,
// net.go, levels.go, remarks.go, piece.go.
package solved

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
	"trammel/profiles/job"
)

// Open solves every piece of a job. Its errors are a *unit.Fault where words are wrong
// and a *triangle.NoTriangle (within a *PieceError) where the measurements fix none. Tell
// hears how far the work is.
func Open(m job.Merged, tell func(doing string, done, of int)) (Work, error) {
	w := Work{Merged: m, Title: m.Name.Text}
	if m.Says != nil {
		w.Language = words.English{Instrument: m.Says.Of(unit.Instrument, "theodolite", false)}
	}
	for i, p := range m.Pieces {
		tell("reckoning", i, len(m.Pieces))
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
	if m.Carries.Piece.Pick == job.Second && !slices.ContainsFunc(w.Pieces, func(p Piece) bool { return len(p.Solution.Answers) > 1 }) {
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
		if a, ok := p.Checked(); ok {
			_, cares := w.Findings(a)
			p.Warnings = append(append(p.Warnings, cares...), remarks(w.Says().Nets().TooFine(a, w.Figures))...)
		}
		p.ByHand = crossings(w.Figures, *p)
	}
	return w, w.grounded()
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
	if len(solution.Answers) == 1 && pick == job.Second && w.Carries.Piece.Pick == job.Unpicked {
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
		if p.Several != nil {
			return w.whichWay(p)
		}
		two := [2]string{}
		for k := range two {
			two[k] = outlined(w.Figures, w.Pieces[i+k].Triangle())
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
func outlined(f unit.Style, t triangle.Triangle) string {
	var parts []string
	for _, s := range Sides(t) {
		parts = append(parts, string(s.Name)+" "+f.Length(s.Length))
	}
	return strings.Join(parts, ", ")
}
