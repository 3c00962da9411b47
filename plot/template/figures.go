package template

import (
	"cmp"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// treated says whether a corner is cut or rounded.
func (p Piece) treated() bool {
	for _, v := range p.Shape.Corners {
		if v.Finished != nil {
			return true
		}
	}
	return false
}

// Measures says in a few words what the figures of a shaped piece measure and which
// line is which; nothing where there is but one line.
func (p Piece) Measures() string {
	switch spared, treated := p.shaped() && p.Shape.Spared(), p.treated(); {
	case spared && treated:
		return "cut the wide line: plain figures, to ticks and set-backs; finished: dash-dotted, to whole corners"
	case spared:
		return "cut the wide line: plain figures; finished: the dash-dotted edge"
	case treated:
		return "plain figures: to corners, ticks and set-backs; whole: to the whole corners"
	}
	return ""
}

// otherFigure is what the length of an edge is called beside that of the line that is
// cut: finished where the cut line lies elsewhere, whole where only corners are taken
// off; nothing where both are the same.
func (p Piece) otherFigure() string {
	switch {
	case !p.shaped():
		return ""
	case p.Shape.Spared():
		return "finished"
	case p.treated():
		return "whole"
	}
	return ""
}

// upTo says how far a side of the line that is cut goes.
func (p Piece) upTo() string {
	if p.treated() {
		return ", up to its corners, set-backs and ticks"
	}
	return ""
}

// edgeFigure is the length of side i on the line that is cut, as the paper shows it.
func (p Piece) edgeFigure(i int, s Style) string {
	d := p.side(i)
	if d.length <= 0 { // nothing straight is left
		d.length, d.measured = d.whole, true
	}
	return s.length(d.length, d.measured)
}

// besideFigure is what is said of side i besides: the length of its finished edge, where
// that is another, and its allowance.
func (p Piece) besideFigure(i int, s Style) string {
	var say []string
	d, side := p.side(i), p.Shape.Sides[i]
	if max(d.length-d.whole, d.whole-d.length) > sameLength {
		say = append(say, p.otherFigure()+" "+s.length(d.whole, d.given))
	}
	if side.Allow != 0 {
		say = append(say, s.Figures.Signed(side.Allow))
	}
	return strings.Join(say, ", ")
}

// marked is what is said of the piece as a whole: face, grain, hand.
func (p Piece) marked() string {
	var say []string
	for _, w := range []string{p.Hand, p.Face} {
		if w != "" {
			say = append(say, w)
		}
	}
	if p.Grain != ([2]geom.Name{}) {
		say = append(say, "grain along "+string(p.Grain[0]+p.Grain[1]))
	}
	return strings.Join(say, ", ")
}

// distance between two marks that are printed, to be measured when the pages are
// together: on the line that is cut from corner to corner, or to where a corner that is
// cut or rounded ends its straight part.
type distance struct {
	geom.Line // in the piece's own coordinates
	what      string
	length    unit.Length
	measured  bool        // it is one of the measurements
	whole     unit.Length // of a side: from corner to corner of the finished edges
	given     bool        // and that is one of the measurements
}

// What the table of distances has at most: it is to stay beside the map.
const (
	mostSides     = 6
	mostDiagonals = 3
)

// checked are the distances that say whether a piece is true: its sides, of many
// the longest, and as many diagonals as sides leave open, those measured before
// the long ones. Sides alone do not hold a shape of more than three.
//
// A side of which two roundings leave nothing is none; the distance of two holes, where
// there are two, stands in for it.
func (p Piece) checked() []distance {
	o := p.Outline()
	n := len(o.Names)
	var sides, diagonals []distance
	for i := range n {
		if d := p.side(i); d.length > 0 {
			sides = append(sides, d)
		}
		for j := i + 2; j < n; j++ {
			if i > 0 || j < n-1 {
				diagonals = append(diagonals, p.diagonal(i, j))
			}
		}
	}
	lost := len(sides) < n
	if n > mostSides {
		longest := slices.Clone(sides)
		slices.SortStableFunc(longest, longer)
		longest = longest[:min(mostSides, len(longest))]
		sides = slices.DeleteFunc(sides, func(d distance) bool { return !slices.Contains(longest, d) })
	}
	slices.SortStableFunc(diagonals, func(a, b distance) int {
		switch {
		case a.measured == b.measured:
			return longer(a, b)
		case a.measured:
			return -1
		}
		return 1
	})
	all := append(sides, diagonals[:max(0, min(n-3, mostDiagonals))]...)
	if holes := p.Shape.Bores; lost && len(holes) > 1 {
		l := geom.Line{From: holes[0].Circle.Centre, To: holes[1].Circle.Centre}
		all = append(all, distance{Line: l, what: "hole to hole", length: l.Length()})
	}
	return all
}

func longer(a, b distance) int { return cmp.Compare(b.length, a.length) }

// side is side i as it is measured on the piece that is cut.
func (p Piece) side(i int) distance {
	o := p.Outline()
	given := p.measured(triangle.Distance, o.Names[i], o.Names[o.Next(i)])
	d := distance{Line: o.Points.Edge(i), what: o.Side(i), length: o.Sides[i], measured: given, whole: o.Sides[i], given: given}
	if p.shaped() {
		d.Line = p.Shape.Sides[i].Cut
		if l := d.Line.Length(); max(l-d.length, d.length-l) > sameLength {
			d.length, d.measured = l, false
		}
	}
	return d
}

// sameLength is far above rounding and far below what is measured.
const sameLength unit.Length = 1e-6

// diagonal is between corners i and j of the line that is cut. From a corner that is
// cut or rounded it begins where the side behind it becomes straight.
func (p Piece) diagonal(i, j int) distance {
	o := p.Outline()
	l := geom.Line{From: o.Points[i], To: o.Points[j]}
	d := distance{Line: l, what: string(o.Names[i] + o.Names[j]), measured: p.measured(triangle.Distance, o.Names[i], o.Names[j])}
	if p.shaped() {
		from, to := p.mark(i), p.mark(j)
		d.Line = geom.Line{From: from.at, To: to.at}
		d.measured = d.measured && max(l.From.Distance(from.at), l.To.Distance(to.at)) < sameLength
		if len(from.name)+len(to.name) > len(d.what) {
			d.what = from.name + " to " + to.name
		}
	}
	d.length = d.Line.Length()
	return d
}

// mark is a place on the line that is cut which can be seen, and its name.
type mark struct {
	at   geom.Point
	name string
}

func (p Piece) mark(i int) mark {
	s := p.Shape
	m := mark{s.Sides[i].Cut.From, string(s.Corners[i].Name)}
	if s.Corners[i].Cut != nil {
		m.name += " on " + s.Sides[i].Name
	}
	return m
}
