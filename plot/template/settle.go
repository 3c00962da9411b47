package template

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// roomBeside is what the words outside a piece need: a corner's letter, or a
// length in the ordinary lettering with white about it.
const roomBeside unit.Length = 14

// Settle moves a piece away from the edge of its pages, to leave room for the words
// that stand outside it, where that changes no page: across where the plan has one
// column, up and down where it has one row. Draw, Index and the pages themselves
// must see the same plan, so it comes before all of them. Settling twice changes
// nothing more.
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

// inset is how far to go from a gap before towards the gap behind, so that both
// are roomBeside or, where they are too small for that, alike.
func inset(before, behind unit.Length) unit.Length {
	want := min(roomBeside, (before+behind)/2)
	switch {
	case before < want:
		return want - before
	case behind < want:
		return behind - want
	}
	return 0
}
