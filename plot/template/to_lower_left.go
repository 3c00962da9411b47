package template

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// roomBeside is what the words outside a piece need: a corner's letter, or a
// length in the ordinary lettering with white about it.
const roomBeside unit.Length = 14

// Settle moves a piece to the lower left of its pages, as far from their edges as
// the words need that stand outside it, where that changes no page: across where
// the plan has one column, up and down where it has one row. What is left free is
// then in one piece, for the title and the steps. Draw, Index and the pages
// themselves must see the same plan, so it comes before all of them. Settling
// twice changes nothing more.
func Settle(plan paging.Plan) paging.Plan {
	w, b := plan.Cells[0].Window, plan.Outline.Bounds()
	var by geom.Point
	if plan.Cols == 1 {
		by.X = inset(b.Min.X-w.Min.X, w.Max.X-b.Max.X)
	}
	if plan.Rows == 1 {
		by.Y = inset(b.Min.Y-w.Min.Y, w.Max.Y-b.Max.Y)
	}
	if by == (geom.Point{}) {
		return plan
	}
	plan.Place.Shift = plan.Place.Shift.Plus(by)
	outline := make(geom.Polygon, len(plan.Outline))
	for i, p := range plan.Outline {
		outline[i] = p.Plus(by)
	}
	plan.Outline = outline
	return plan
}

// inset is how far to go from a gap before towards the gap behind, so that the one
// before is roomBeside or, where both are too small for that, they are alike.
func inset(before, behind unit.Length) unit.Length {
	return min(roomBeside, (before+behind)/2) - before
}
