package solved

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/net"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/profiles/job"
)

// isNet says whether a piece is adjusted as a net: it is more than a triangle, or one
// of which something was measured twice, as a careful person tapes a side both ways.
func isNet(ms []triangle.Measurement, p job.Piece) bool {
	return len(pointsOf(ms)) > 3 || len(p.Outline) > 3 || twice(ms)
}

// twice says whether something was measured more than once, and three things or more
// were, without which there is no triangle; and each corner is named, without which
// an angle has no arms.
func twice(ms []triangle.Measurement) bool {
	different := 0
	for i, m := range ms {
		if !slices.ContainsFunc(ms[:i], m.Same) {
			different++
		}
	}
	return different < len(ms) && different >= 3 && len(pointsOf(ms)) == 3
}

// triangular refuses what is said of a triangle and makes sense of a net alone.
func triangular(ms []triangle.Measurement, p job.Piece) error {
	if len(p.Sides) > 0 {
		return &unit.Fault{Where: p.Sides[0].Where, Subject: unit.SideOf, What: "a triangle has no point that could lie on another side", Advice: unit.Advice{Code: unit.Superfluous}}
	}
	if len(p.Outline) == 0 {
		return nil
	}
	order := slices.Clone(p.Outline)
	slices.SortFunc(order, geom.Before)
	for _, m := range ms {
		for _, n := range m.Points() {
			if !slices.Contains(order, n) {
				return &unit.Fault{Where: p.OutlineAt, Subject: unit.Outline, Of: geom.Joined(p.Outline), What: fmt.Sprintf("%s is measured and no corner of it", n), Hint: "a triangle needs no outline: leave it out"}
			}
		}
	}
	if i := slices.Index(p.Outline, order[0]); p.Outline[(i+1)%3] != order[1] {
		return &unit.Fault{Where: p.OutlineAt, Subject: unit.Outline, Of: geom.Joined(p.Outline), What: "the corners of a triangle run counter-clockwise in the order of the alphabet", Advice: unit.Advice{Code: unit.Inward}}
	}
	return nil
}

// solveNet makes the net of one piece of the job, or where its points may lie in
// several ways, each of them.
func (w Work) solveNet(index int) ([]Piece, error) {
	p, ms := w.Job.Pieces[index], w.Measured[index]
	if err := meantForTriangles(p, w.Carries.Piece.With); err != nil {
		return nil, err
	}
	asked := p.Outline
	p = walked(p)
	n := net.Net{Measured: ms, Outline: p.Outline, Sides: sidesOf(ms, p.Sides), Base: along(p), Tools: w.toolsFor(ms)}
	a, err := net.Adjust(n)
	answers := []net.Adjusted{a}
	var several *net.Several
	if errors.As(err, &several) {
		answers = several.Answers
	} else if err != nil {
		return nil, placed(p, err)
	}
	var pieces []Piece
	for i, a := range answers {
		q := Piece{Index: index, Name: p.Name, Where: p.Where, Quantity: p.Quantity, Base: p.Base, Answer: i, Picked: several == nil,
			Solution: triangle.Solution{Case: "net", Measured: ms}, Net: &a, Several: several}
		if q.Name == "" {
			q.Name = netTitle(a, asked, len(w.Job.Pieces), index)
		}
		if q, err = w.constructed(q, p); err != nil {
			return nil, err
		}
		pieces = append(pieces, q)
	}
	return pieces, nil
}

// constructed gives a net its outline and the steps by hand.
func (w Work) constructed(q Piece, p job.Piece) (Piece, error) {
	a, ms := *q.Net, q.Solution.Measured
	outline, err := w.edge(a)
	if err != nil {
		return Piece{}, placed(p, err)
	}
	q.Construction = construct.ConstructNet(outline, inner(a), a.Base, ms)
	for i, l := range outline.Sides {
		if err := sized("piece", outline.Side(i), l); err != nil {
			return Piece{}, errorOf(p, err)
		}
	}
	return q, nil
}

// whichWay refuses a net whose points may lie in several ways.
func (w Work) whichWay(p Piece) error {
	e := p.Several
	var ways []string
	for i, a := range e.Answers[:min(len(e.Answers), mostWays)] {
		ways = append(ways, fmt.Sprintf("(%d) %s", i+1, w.Placement(a.Mine)))
	}
	if len(e.Answers) > mostWays {
		ways = append(ways, "…")
	}
	more := ""
	if e.More {
		more = " or more"
	}
	n := &triangle.NoTriangle{What: fmt.Sprintf("the points may lie in %d ways%s that fit: %s", len(e.Answers), more, strings.Join(ways, "; "))}
	if sides := SideTexts(e.Answers[0].Mine); len(sides) == 0 {
		n.Hint = "measure one more line"
	} else {
		n.Subject, n.Advice = unit.SideOf, unit.Advice{Code: unit.WaysFit, Names: sides, Figure: e.Line, InFile: w.Job.File != ""}
		if e.Line != "" {
			n.Code = unit.WaysFitLine
		}
	}
	return errorOf(w.Job.Pieces[p.Index], n)
}

// mostWays in which points may lie stand in one line.
const mostWays = 4

// Placement is one way in which points may lie, in a few words.
func (w Work) Placement(m net.Placement) string {
	var parts []string
	if len(m.Sides) > 0 {
		parts = append(parts, w.Words().Nets().Placement(m))
	}
	if m.Area > 0 {
		parts = append(parts, "area "+lines.Area(w.Figures, m.Area))
	}
	return strings.Join(parts, ", ")
}

// SideTexts are the sides as a job says them.
func SideTexts(m net.Placement) (all []string) {
	for _, s := range m.Sides {
		all = append(all, s.String())
	}
	return all
}

// Told refuses a job with a net whose points may lie in several ways: of triangles
// solve shows two, and that is its answer.
func (w Work) Told() error {
	for _, p := range w.Pieces {
		if p.Several != nil {
			return w.whichWay(p)
		}
	}
	return nil
}

// meantForTriangles refuses what makes no sense of a net.
func meantForTriangles(p job.Piece, over construct.Method) error {
	if p.Pick != job.Unpicked {
		return &unit.Fault{Where: p.PickAt, Subject: unit.Pick, What: "picks one of two triangles, and this is a net of more than three points", Advice: unit.Advice{Code: unit.Superfluous}}
	}
	// What the job itself says is how pegs are placed: a setting-out sheet heeds it.
	if over == construct.ByAngle || over == construct.BySquare {
		return &unit.Fault{Subject: unit.Way, What: "a net of more than three points is constructed by arcs", Hint: "leave it out, or say arcs"}
	}
	return nil
}

// walked takes a single word for the sides as that of the whole outline: the piece
// lies left or right of who walks round it. Right is the outline the other way round.
func walked(p job.Piece) job.Piece {
	if len(p.Outline) == 0 {
		return p
	}
	alone := func(a job.Aside) bool { return a.Point == "" && a.Of == [2]geom.Name{} }
	if i := slices.IndexFunc(p.Sides, alone); i >= 0 && p.Sides[i].Right {
		p.Outline = slices.Clone(p.Outline)
		slices.Reverse(p.Outline)
	}
	p.Sides = slices.DeleteFunc(slices.Clone(p.Sides), alone)
	return p
}

// along is the baseline that is asked for, in the direction in which the outline
// runs, so that the piece lies above it.
func along(p job.Piece) [2]geom.Name {
	n := len(p.Outline)
	for i := range n {
		if p.Outline[i] == p.Base[1] && p.Outline[(i+1)%n] == p.Base[0] {
			return [2]geom.Name{p.Base[1], p.Base[0]}
		}
	}
	return p.Base
}

// sidesOf are the sides for the net: what is said of all points is said of each
// that has none of its own.
func sidesOf(ms []triangle.Measurement, asides []job.Aside) (all []net.Side) {
	spoken := map[geom.Name]bool{}
	for _, a := range asides {
		if a.Point != "" {
			spoken[a.Point] = true
			all = append(all, net.Side{Point: a.Point, Of: a.Of, Right: a.Right})
		}
	}
	for _, a := range asides {
		if a.Point != "" {
			continue
		}
		for _, n := range pointsOf(ms) {
			if !spoken[n] && n != a.Of[0] && n != a.Of[1] {
				all = append(all, net.Side{Point: n, Of: a.Of, Right: a.Right})
			}
		}
	}
	return all
}

// placed gives an error of a net the place of the words that it is about.
func placed(p job.Piece, err error) error {
	var f *unit.Fault
	if !errors.As(err, &f) {
		return errorOf(p, err)
	}
	switch {
	case f.Subject == unit.Outline:
		return f.In(p.OutlineAt)
	case f.Subject == unit.Base:
		return f.In(p.BaseAt)
	case f.Subject == unit.SideOf:
		for _, a := range p.Sides {
			if string(a.Point) == f.Of || a.Point == "" {
				g := f.In(a.Where)
				g.Of = a.String()
				return g
			}
		}
	}
	return errorOf(p, err)
}

// edge is the outline of a net: its corners counter-clockwise, those of the
// baseline first where it is one of its edges; without corners where the job names
// none.
func (w Work) edge(a net.Adjusted) (geom.Outline, error) {
	names, points := slices.Clone(a.Outline), a.Polygon()
	if len(names) == 0 {
		return geom.Outline{}, nil
	}
	if points.Contour().Area() < 0 {
		slices.Reverse(names)
		slices.Reverse(points)
	}
	first := max(0, slices.Index(names, a.Base[0]))
	names, points = slices.Concat(names[first:], names[:first]), slices.Concat(points[first:], points[:first])
	o := geom.OutlineOf(names, points)
	if i, j, crossed := o.Points.Crossing(); crossed {
		f := &unit.Fault{Subject: unit.Outline, Of: geom.Joined(a.Outline), What: fmt.Sprintf("its edges %s and %s cross", o.Side(i), o.Side(j)), Hint: "name the corners in the order of walking round"}
		if len(a.Suspects) > 0 {
			f.Hint += "; or mend the measurements first: " + string(w.Words().Nets().Suspect(a, a.Suspects[0], w.Figures))
		}
		return o, f
	}
	return o, nil
}

// inner are the points of a net that are no corners of its outline.
func inner(a net.Adjusted) (all []construct.Spot) {
	for i, n := range a.Names {
		if !slices.Contains(a.Outline, n) {
			all = append(all, construct.Spot{Name: n, At: a.Points[i]})
		}
	}
	return all
}

func netTitle(a net.Adjusted, names []geom.Name, of, index int) string {
	const most = 6 // corners in a name
	if len(names) == 0 {
		names = a.Names
	}
	switch {
	case of > 1:
		return fmt.Sprintf("Piece %d", index+1)
	case len(names) > most:
		return fmt.Sprintf("Net %s to %s", names[0], names[len(names)-1])
	}
	return "Net " + geom.Joined(names)
}

// HasOutline refuses a net whose edge nobody named, where it is needed.
func (w Work) HasOutline() error {
	for _, p := range w.Pieces {
		if len(p.Outline().Names) > 0 {
			continue
		}
		f := &unit.Fault{What: fmt.Sprintf("%s: nothing says which of its %d points are the edge of the piece", p.Title(), len(p.Net.Names)),
			Advice: unit.Advice{Code: unit.NoEdge, Names: geom.Texts(round(*p.Net)), InFile: w.Job.File != ""}}
		return errorOf(w.Job.Pieces[p.Index], f)
	}
	return nil
}

// adjust is a triangle with its measurements adjusted from the answer that is meant,
// where there are more than needed: once, for all that is said and made of it.
func (w Work) adjust(p Piece) Piece {
	if p.Net == nil && p.adjusted == nil && len(p.Solution.Measured) > 3 {
		if a, err := w.netOfTriangle(p.Triangle(), p.Solution.Measured); err == nil {
			p.adjusted = &a
		}
	}
	return p
}

// Net is the adjusted net of any piece, with σ from the tools where no tolerance is
// stated.
func (w Work) Net(p Piece) (net.Adjusted, error) {
	if a, ok := p.Checked(); ok {
		return a, nil
	}
	return w.netOfTriangle(p.Triangle(), p.Solution.Measured)
}

func (w Work) netOfTriangle(t triangle.Triangle, ms []triangle.Measurement) (net.Adjusted, error) {
	n := net.Net{Measured: ms, Outline: t.Names[:], Base: [2]geom.Name{t.Names[0], t.Names[1]}, Tools: w.toolsFor(ms), Start: map[geom.Name]geom.Point{}}
	named := pointsOf(ms)
	for i, name := range t.Names {
		n.Start[name] = t.Points[i]
		if !slices.Contains(named, name) {
			n.Measured = thirdNamed(ms, t)
		}
	}
	return net.Adjust(n)
}

// thirdNamed gives angles that are named by their corner alone their arms: the
// third corner of a triangle may have been named by nobody.
func thirdNamed(ms []triangle.Measurement, t triangle.Triangle) []triangle.Measurement {
	all := slices.Clone(ms)
	for k, m := range all {
		if m.Kind != triangle.Angle || m.At[0] != "" {
			continue
		}
		i := slices.Index(t.Names[:], m.At[1])
		all[k].At[0], all[k].At[2] = t.Names[(i+1)%3], t.Names[(i+2)%3]
	}
	return all
}

// mirrored is the construction of a net turned over about the line that crosses its
// baseline square in its middle: every corner keeps its name, so that the baseline
// runs from B to A.
func (p Piece) mirrored() construct.Construction {
	o, base := p.Outline(), p.Net.Base
	from, _ := p.Net.Point(base[0])
	to, _ := p.Net.Point(base[1])
	m := geom.Mirror{Base: geom.Line{From: from, To: to}}
	n := len(o.Names)
	names, points := make([]geom.Name, n), make(geom.Polygon, n)
	for i := range n {
		k := (n + 1 - i) % n // the second corner first, then the first, and so on backwards
		names[i], points[i] = o.Names[k], m.Apply(o.Points[k])
	}
	var spots []construct.Spot
	for _, s := range p.Construction.Inner {
		spots = append(spots, construct.Spot{Name: s.Name, At: m.Apply(s.At)})
	}
	return construct.ConstructNet(geom.OutlineOf(names, points), spots, [2]geom.Name{base[1], base[0]}, p.Solution.Measured)
}
