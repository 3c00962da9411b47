package solved

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/shape"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
	"trammel/profiles/job"
)

// Work is a merged job with everything solved: triangles, nets, constructions.
type Work struct {
	job.Merged
	Title  string // of the job, perhaps empty
	Pieces []Piece

	Language words.Language // of all that is said; nil: English at the bench
	OnSite   words.Language // of what is set out
}

// Words is that language.
func (w Work) Words() words.Language { return words.In(w.Language) }

// Piece is one triangle of the job, or a net of more points. Where two triangles
// fit a piece and neither is picked, or both are, it stands twice; where a net fits
// in several ways, once for each.
type Piece struct {
	Index        int // of the piece in the job
	Name         string
	Where        string            // in the job file; empty from the command line
	Quantity     int               // of this hand
	Answer       int               // index into Solution.Answers
	Base         [2]geom.Name      // as asked for; empty: choose
	both         bool              // the other answer is a piece as well
	Picked       bool              // false: two fit and nobody said which
	Solution     triangle.Solution // of a net the measurements alone
	Net          *net.Adjusted     // nil of a triangle
	adjusted     *net.Adjusted     // of a triangle of which more was measured than needed; nil where that failed
	Several      *net.Several      // all the ways in which the points of a net may lie; nil where one fits
	Construction construct.Construction
	Warnings     []string // plain sentences: what is doubtful in what was measured
	ByHand       []string // and in its construction, or in the way that its pegs are placed

	Shape shape.Shape  // without sides: the job asks for nothing beyond the outline
	Grain [2]geom.Name // empty: not said
	Face  job.Face
	Other bool         // the other hand of the piece before it
	Sharp geom.Polygon // round the shape with no corner cut; nil where none is
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

// errorOf names the piece in an error: its place and its name.
func errorOf(p job.Piece, err error) error {
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

// Cares are all that is doubtful in the piece.
func (p Piece) Cares() []string { return slices.Concat(p.Warnings, p.ByHand) }

// InPiece puts a place in front of a fault: that of the words it complains about, else
// that of the piece in the job file where it has no place at all.
func (w Work) InPiece(p Piece, err error) error {
	var f *unit.Fault
	if !errors.As(err, &f) {
		return err
	}
	switch j := w.Job.Pieces[p.Index]; {
	case f.Subject == unit.Levels && f.Where == "":
		return f.In(j.LevelsAt)
	case f.Subject == unit.Walls && f.Where == "":
		return f.In(j.WallsAt)
	case f.Subject == unit.Blocked && f.Where == "":
		return f.In(j.BlockedAt)
	case w.Job.File == "":
		return err
	case f.Subject == unit.Job:
		return f.In(w.Job.Name.Where)
	case f.Subject == unit.Piece && j.NameAt != "":
		return f.In(j.NameAt)
	case f.Where == "" && f.About() == "":
		return f.In(p.Where)
	}
	return err
}

const otherHand = "opposite hand"

// Turned says whether the piece has no template of its own: that of the hand before it is
// turned over. Where it is stated which face lies up, or both hands are asked for, each
// has its own.
func (p Piece) Turned(bothHands bool) bool {
	return p.Other && !bothHands && p.Face == job.AnyFace
}

// Facing and Hand are what the template says of the piece.
func (p Piece) Facing() string {
	if p.Face == job.AnyFace {
		return ""
	}
	return "face " + p.Face.String()
}

// Hand is empty of the one that was measured.
func (p Piece) Hand() string {
	if p.Other {
		return otherHand
	}
	return ""
}

// Size of what the pages show at least.
func (p Piece) Size() (unit.Area, unit.Length) {
	if len(p.Shape.Sides) > 0 {
		return p.Shape.Areas().Finished, p.Shape.Finished.Length()
	}
	if p.Net != nil {
		return p.Outline().Area(), p.Outline().Perimeter()
	}
	t := p.Triangle()
	return t.Area, t.Perimeter
}

// coverSag is how far a page may be wanted for a place just outside a rounding.
const coverSag unit.Length = 0.5

// Covered is what pages must show all of.
func (p Piece) Covered() geom.Polygon {
	if len(p.Shape.Sides) > 0 {
		return p.Shape.Cover(coverSag)
	}
	return p.Outline().Points
}

// Checked is the adjustment of a net, or of a triangle of which more was measured than
// needed.
func (p Piece) Checked() (net.Adjusted, bool) {
	switch {
	case p.Net != nil:
		return *p.Net, true
	case p.adjusted != nil:
		return *p.adjusted, true
	}
	return net.Adjusted{}, false
}

// Around is the corners of an outline once round from the first in the alphabet.
func Around(o geom.Outline) []int {
	first := 0
	for i, n := range o.Names {
		if geom.Before(n, o.Names[first]) < 0 {
			first = i
		}
	}
	order := make([]int, len(o.Names))
	for k := range order {
		order[k] = (first + k) % len(o.Names)
	}
	return order
}

// side is one side under its name for people.
type side struct {
	Name   string
	Length unit.Length
}

// Sides of a triangle in the order of its letters, going round: AB, BC, CA.
func Sides(t triangle.Triangle) []side {
	order := Corners(t)
	list := make([]side, 3)
	for k := range list {
		i, j := order[k], order[(k+1)%3]
		list[k] = side{string(t.Names[i] + t.Names[j]), t.Sides[3-i-j]}
	}
	return list
}

// Corners are the indices of a triangle's corners in the order of its letters.
func Corners(t triangle.Triangle) []int {
	order := []int{0, 1, 2}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(t.Names[i], t.Names[j]) })
	return order
}

// pointsOf are the points that measurements name, in the order of the alphabet.
func pointsOf(ms []triangle.Measurement) []geom.Name {
	var all []geom.Name
	for _, m := range ms {
		for _, n := range m.Points() {
			if !slices.Contains(all, n) {
				all = append(all, n)
			}
		}
	}
	slices.SortFunc(all, geom.Before)
	return all
}

// round is the points of a net as one sees them from their middle, which is their
// outline where it has no deep hollows.
func round(a net.Adjusted) []geom.Name {
	var mid geom.Point
	for _, p := range a.Points {
		mid = mid.Plus(p.Times(1 / float64(len(a.Points))))
	}
	direction := func(n geom.Name) float64 {
		p, _ := a.Point(n)
		d := float64(geom.Line{From: mid, To: p}.Direction() - geom.Line{From: mid, To: a.Points[0]}.Direction())
		if d < 0 {
			d += 2 * math.Pi
		}
		return d
	}
	names := slices.Clone(a.Names)
	slices.SortStableFunc(names, func(m, n geom.Name) int { return cmp.Compare(direction(m), direction(n)) })
	return names
}

// toolsFor are the tools for what was measured of one piece: of a small one less is lost
// between nail and nail.
func (w Work) toolsFor(ms []triangle.Measurement) tape.Tools {
	t := w.Site.Tools
	for _, m := range ms {
		if m.Kind != triangle.Angle {
			t.Size = max(t.Size, m.Value.Length())
		}
	}
	return t
}

// Pegs are its points, where they are to stand.
func (p Piece) Pegs() (all []pegging.Peg) {
	if p.Net != nil {
		for i, n := range p.Net.Names {
			all = append(all, pegging.Peg{Name: n, At: p.Net.Points[i]})
		}
		return all
	}
	t := p.Triangle()
	for i, n := range t.Names {
		all = append(all, pegging.Peg{Name: n, At: t.Points[i]})
	}
	return all
}
