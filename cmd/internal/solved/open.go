// Package solved makes of a merged job its pieces, each known: triangles and nets with
// their shapes, what is doubtful in them, and what refuses to be made of them. It knows
// no paper.
//
// Files, from the top floor to the ground: open.go, net_triangle.go, byhand.go, shape.go,
// net.go, levels.go, remarks.go, piece.go.
package solved

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
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
	w.Language, w.OnSite = languages(m)
	for i, p := range m.Pieces {
		tell("reckoning", i, len(m.Pieces))
		pieces, err := w.solved(i)
		if err != nil {
			return w, err
		}
		for k := range pieces {
			pieces[k].Warnings = append(pieces[k].Warnings, m.ReadAs(m.Measured[i])...)
		}
		if pieces, err = w.shaped(p, pieces); err != nil {
			return w, err
		}
		for _, q := range pieces {
			if !q.Other {
				q.Warnings = append(q.Warnings, w.Words().Pieces().Notes(q.Shape, m.Figures)...)
			}
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
			p.Warnings = append(p.Warnings, remarks(w.Words().Pieces().Doubts(p.Solution, p.Answer))...)
		}
		if a, ok := p.Checked(); ok {
			_, cares := w.Findings(a)
			p.Warnings = append(append(p.Warnings, cares...), remarks(w.Words().Nets().TooFine(a, w.Figures))...)
		}
		p.ByHand = crossings(w.Figures, *p)
	}
	return w, w.grounded()
}

// languages are that of pages and screen, and that of what is set out: the voice that the job
// or a flag names, else the trade's, and out on the ground or on the floor that of there.
func languages(m job.Merged) (here, onSite words.Language) {
	e := words.English{Voice: words.Named(cmp.Or(m.Voice, m.Trade.Voice))}
	if m.Says != nil {
		e.Instrument = m.Says.Of(unit.Instrument, "theodolite", false)
	}
	out := e
	if m.Voice == "" && e.Voice != words.Floor {
		out.Voice = words.Ground
	}
	return e, out
}

// solved makes one piece of the job: a triangle, two where two fit, or a net.
func (w Work) solved(index int) ([]Piece, error) {
	p, ms := w.Job.Pieces[index], w.Measured[index]
	if isNet(ms, p) {
		return w.solveNet(index)
	}
	if err := triangular(ms, p); err != nil {
		return nil, err
	}
	return w.solve(index)
}

func (w Work) solve(index int) ([]Piece, error) {
	p := w.Job.Pieces[index]
	base, pick := p.Base, p.Pick
	solution, adjusted, err := w.triangle(w.Measured[index], base)
	if err != nil {
		return nil, placed(p, err)
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
			Picked: len(solution.Answers) == 1 || pick != job.Unpicked, Solution: solution, adjusted: adjusted,
		}
		if q.Name == "" {
			q.Name = q.title(len(w.Job.Pieces))
		}
		t := q.Triangle()
		for i, l := range t.Sides {
			a, b := t.Names[(i+1)%3], t.Names[(i+2)%3]
			if err := sized("triangle", string(min(a, b)+max(a, b)), l); err != nil {
				return nil, errorOf(p, err)
			}
		}
		if q.Construction, err = construct.Choose(solution, i, w.hand(p)); err != nil {
			return nil, errorOf(p, err)
		}
		pieces = append(pieces, q)
	}
	return pieces, nil
}

func (p Piece) title(of int) string {
	if of > 1 {
		return fmt.Sprintf("Piece %d", p.Index+1)
	}
	n := p.Triangle().Names
	slices.Sort(n[:])
	return "Triangle " + geom.Joined(n[:])
}

// sized refuses a side of a triangle or a piece beyond what can be marked out or reached.
func sized(what, side string, l unit.Length) error {
	if l >= unit.Shortest && l <= unit.Longest {
		return nil
	}
	return &unit.Fault{
		What: fmt.Sprintf("the side %s comes to %s: a side is from 1 mm to 1 km", side, unit.Style{Decimals: 4}.LengthUnit(l)),
		Hint: "measure a " + what + " of that size",
	}
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
		n := &triangle.NoTriangle{
			What:    fmt.Sprintf("two triangles fit: (1) %s; (2) %s", outlined(w.Figures, p.Triangle()), outlined(w.Figures, w.Pieces[i+1].Triangle())),
			Subject: unit.Pick, Advice: unit.Advice{Code: unit.TwoFit, InFile: w.Job.File != ""},
		}
		return errorOf(w.Job.Pieces[p.Index], n)
	}
	return nil
}

func outlined(f unit.Style, t triangle.Triangle) string {
	var parts []string
	for _, s := range Sides(t) {
		parts = append(parts, string(s.Name)+" "+f.Length(s.Length))
	}
	return strings.Join(parts, ", ")
}
