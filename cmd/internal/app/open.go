// Package app turns a job and profiles into a report and files in memory. It
// knows no flags, no terminal and no operating system, so that whatever else
// wants to do trammel's work can stand on it.
package app

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/net"
	"trammel/geom/shape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/words"
	"trammel/profiles/job"
)

// Work is a merged job with everything solved: triangles, nets, constructions.
type Work struct {
	job.Merged
	Title   string // of the job, perhaps empty
	Sheet   paging.Sheet
	Cover   paging.Cover
	Pieces  []Piece
	madeFor madeFor      // the printer
	hide    []draw.Layer // left out of the pages
	effort  paging.Effort
	tell    Progress

	Language words.Language // of all that is said; nil: English at the bench
}

// says is that language.
func (w Work) says() words.Language { return words.In(w.Language) }

// Piece is one triangle of the job, or a net of more points. Where two triangles
// fit a piece and neither is picked, or both are, it stands twice; where a net fits
// in several ways, once for each.
type Piece struct {
	Index        int // of the piece in the job
	Name         string
	Where        string // in the job file; empty from the command line
	Quantity     int
	Answer       int               // index into Solution.Answers
	Base         [2]geom.Name      // as asked for; empty: choose
	both         bool              // the other answer is a piece as well
	Picked       bool              // false: two fit and nobody said which
	Solution     triangle.Solution // of a net the measurements alone
	Net          *net.Adjusted     // nil of a triangle
	adjusted     *net.Adjusted     // of a triangle of which more was measured than needed; nil where that failed
	several      *net.Several      // all the ways in which the points of a net may lie; nil where one fits
	Construction construct.Construction
	Warnings     []string // plain sentences: what is doubtful in what was measured
	ByHand       []string // and in its construction, or in the way that its pegs are placed

	Shape shape.Shape  // without sides: the job asks for nothing beyond the outline
	Grain [2]geom.Name // empty: not said
	Face  job.Face
	Other bool         // the other hand of the piece before it
	sharp geom.Polygon // round the shape with no corner cut; nil where none is
}

// Title of the piece on paper: its name, which of two it is where both are made,
// and whether it is the other hand.
func (p Piece) Title() string {
	name := p.Name
	if p.both {
		name = fmt.Sprintf("%s (%d of %d)", p.Name, p.Answer+1, len(p.Solution.Answers))
	}
	if p.Other {
		name += ", " + otherHand
	}
	return name
}

// Triangle that the piece is; zero of a net.
func (p Piece) Triangle() triangle.Triangle {
	if p.Net != nil {
		return triangle.Triangle{}
	}
	return p.Solution.Answers[p.Answer].Triangle
}

// Outline of the piece; without corners of a net whose outline nobody named.
func (p Piece) Outline() geom.Outline { return p.Construction.Outline }

// Named is a job of one piece, from measurements without a file.
func Named(name string, tokens []job.Setting) job.Job {
	return job.Job{Pieces: []job.Piece{{Name: name, Measure: tokens, Quantity: 1}}}
}

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

// placed puts a place in front of a fault.
func placed(err error, where string) error {
	var f *unit.Fault
	if where != "" && errors.As(err, &f) {
		return f.In(where)
	}
	return err
}

// PieceError is an error of one piece that has no place of its own.
type PieceError struct {
	Where string // file:line:column of the piece; empty from the command line
	Name  string // empty where there is nothing to tell apart
	Err   error
}

func (e *PieceError) Error() string {
	var parts []string
	for _, s := range []string{e.Where, e.Name, e.Err.Error()} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, ": ")
}

func (e *PieceError) Unwrap() error { return e.Err }

// of names the piece in an error: its place and its name.
func of(p job.Piece, err error) error {
	var n *triangle.NoTriangle
	if errors.As(err, &n) {
		return &PieceError{p.Where, p.Name, err}
	}
	var f *unit.Fault
	if errors.As(err, &f) && f.Where == "" {
		return f.In(p.Where)
	}
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

// cares are all that is doubtful in the piece.
func (p Piece) cares() []string { return slices.Concat(p.Warnings, p.ByHand) }

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

// placedBy is the work with other words on how each piece comes into being than those
// on its construction with rule and compasses.
func (w Work) placedBy(words func(i int) []string) Work {
	w.Pieces = slices.Clone(w.Pieces)
	for i := range w.Pieces {
		w.Pieces[i].ByHand = words(i)
	}
	return w
}
