package template

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// onSheets is a piece that lies on its sheets, its geometry in their plane.
type onSheets struct {
	piece   Piece
	plan    paging.Plan
	style   Style
	corners geom.Outline // in the piece's own coordinates
	outline geom.Polygon
}

// shown says whether a page shows a place in the plane of the sheets and so much about it.
func (f onSheets) shown(p geom.Point, about unit.Length) bool {
	return slices.ContainsFunc(f.plan.Windows(), func(w geom.Rect) bool { return w.Grow(-about).Has(p) })
}

// pricks says whether a page shows the mark at a place of the piece whole.
func (f onSheets) pricks(p geom.Point) bool { return f.shown(f.plan.Place.Apply(p), prick) }

// corner is where a corner lies in the piece's own coordinates.
func (f onSheets) corner(n geom.Name) geom.Point {
	i, _ := f.corners.Corner(n)
	return f.corners.Points[i]
}

// inward is the direction of the bisector into corner i.
func (f onSheets) inward(i int) unit.Angle {
	return f.outline.Edge(i).Direction() + f.corners.Angles[i]/2
}

// middle of the finished contour's corners.
func (f onSheets) middle() geom.Point {
	var sum geom.Point
	for _, p := range f.outline {
		sum = sum.Plus(p)
	}
	return sum.Times(1 / float64(len(f.outline)))
}

const outer, inner unit.Length = 1, -1

// sideLine is the outermost or innermost line along side i.
func (f onSheets) sideLine(i int, which unit.Length) geom.Line {
	if f.piece.shaped() && f.piece.Shape.Sides[i].Allow*which > 0 {
		return f.alongSide(i)
	}
	return f.outline.Edge(i)
}

// alongSide is the line that is measured along side i: where it is cut.
func (f onSheets) alongSide(i int) geom.Line {
	if f.piece.shaped() && f.piece.Shape.Sides[i].Cut.Length() > 0 {
		return f.plan.Place.Line(f.piece.Shape.Sides[i].Cut)
	}
	return f.outline.Edge(i)
}

// lost is how far from corner i the piece begins along its edges.
func (f onSheets) lost(i int) unit.Length {
	if !f.piece.shaped() || f.piece.Shape.Corners[i].Finished == nil {
		return 0
	}
	v := f.piece.Shape.Corners[i]
	return v.At.Distance(v.Finished.At(0))
}

// innerPoints are the points of a net within the piece, or beside it, that a page shows.
func (f onSheets) innerPoints() (all []construct.Spot) {
	for _, s := range f.piece.Inner {
		if s.At = f.plan.Place.Apply(s.At); f.shown(s.At, 0) {
			all = append(all, s)
		}
	}
	return all
}

// inner are places inside the piece, best in its middle.
func (f onSheets) inner(least unit.Length) []spot {
	return f.inContour(f.plan.Place.Contour(f.piece.Shape.Finished), least)
}

func (f onSheets) inContour(c geom.Contour, least unit.Length) []spot {
	b, mid := c.Bounds(), f.middle()
	step := max(3, b.Width()/60, b.Height()/60)
	var all []spot
	for x := b.Min.X + step/2; x < b.Max.X; x += step {
		for y := b.Min.Y + step/2; y < b.Max.Y; y += step {
			p := geom.Point{X: x, Y: y}
			if c.Has(p) && c.Distance(p) > min(least, 4) {
				all = append(all, spot{p, float64(p.Distance(mid)) / 4})
			}
		}
	}
	return all
}

type spot struct {
	at   geom.Point
	cost float64
}

func nearest(points []geom.Point, p geom.Point) unit.Length {
	d := unit.Length(math.Inf(1))
	for _, q := range points {
		d = min(d, p.Distance(q))
	}
	return d
}

// roomBeside is what the words outside a piece need: a corner's letter, or a
// length in the ordinary lettering with white about it.
const roomBeside unit.Length = 14

// Settle moves a piece to the lower left of its pages, as far from their edges as the
// words need that stand outside it, where that changes no page: across where the plan has
// one column, up and down where it has one row. Draw, Index and the pages themselves must
// see the same plan. Settling twice changes nothing more.
func Settle(plan paging.Plan) paging.Plan {
	w, b := plan.Cells[0].Window, plan.Outline.Bounds()
	var by geom.Point
	if plan.Cols == 1 {
		by.X = inset(b.Min.X-w.Min.X, w.Max.X-b.Max.X)
	}
	if plan.Rows == 1 {
		by.Y = inset(b.Min.Y-w.Min.Y, w.Max.Y-b.Max.Y)
	}
	plan.Place.Shift = plan.Place.Shift.Plus(by)
	plan.Outline = geom.Placement{Shift: by}.Polygon(plan.Outline)
	return plan
}

// inset is how far to go from a gap before towards the gap behind, so that the one
// before is roomBeside or, where both are too small for that, they are alike.
func inset(before, behind unit.Length) unit.Length {
	return min(roomBeside, (before+behind)/2) - before
}
