package template

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// edgeFigure is the length of side i on the line that is cut, as the paper shows it.
func (p Piece) edgeFigure(i int, s Style) string {
	d := p.side(i)
	if d.length <= 0 { // nothing straight is left
		d.length, d.measured = d.whole, true
	}
	return s.length(d.length, d.measured)
}

// besideFigure is what is said of side i besides: the length of its finished edge, where
// that is another, and what is cut inside it; an allowance outside is written by itself.
func (p Piece) besideFigure(i int, s Style) string {
	d := p.side(i)
	if same(d.length, d.whole) {
		d.whole = 0
	}
	return s.says().Templates().Besides(p.ByHand(s), d.whole, d.given, min(p.Shape.Sides[i].Allow, 0))
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
	o := p.Outline
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
	o := p.Outline
	given := p.measured(triangle.Distance, o.Names[i], o.Names[o.Next(i)])
	d := distance{Line: o.Points.Edge(i), what: o.Side(i), length: o.Sides[i], measured: given, whole: o.Sides[i], given: given}
	if p.shaped() {
		d.Line = p.Shape.Sides[i].Cut
		if l := d.Line.Length(); !same(l, d.length) {
			d.length, d.measured = l, false
		}
	}
	return d
}

// same says whether two lengths are one, far above rounding and far below what is measured.
func same(a, b unit.Length) bool { return max(a-b, b-a) <= 1e-6 }

// diagonal is between corners i and j of the line that is cut. From a corner that is
// cut or rounded it begins where the side behind it becomes straight.
func (p Piece) diagonal(i, j int) distance {
	o := p.Outline
	l := geom.Line{From: o.Points[i], To: o.Points[j]}
	d := distance{Line: l, what: string(o.Names[i] + o.Names[j]), measured: p.measured(triangle.Distance, o.Names[i], o.Names[j])}
	if p.shaped() {
		from, to := p.mark(i), p.mark(j)
		d.Line = geom.Line{From: from.at, To: to.at}
		d.measured = d.measured && same(l.From.Distance(from.at), 0) && same(l.To.Distance(to.at), 0)
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
