package paging_test

import (
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// An arc about a crossing ends on the sheet that shows the crossing, in its middle where it
// was; on one sheet it stays as it is.
func TestOneSheetHoldsAnArc(t *testing.T) {
	a4 := paging.Sheet{Name: "A4", Width: 210, Height: 297, Left: 10, Right: 10, Top: 10, Bottom: 10, Overlap: 10}
	plan := paging.Plan{Sheet: a4}
	for i := range 3 {
		x := unit.Length(i) * 180
		plan.Cells = append(plan.Cells, paging.Cell{Col: i, Window: geom.Rect{Min: geom.Point{X: x}, Max: geom.Point{X: x + 190, Y: 277}}})
	}
	about := func(x, y unit.Length) geom.Arc { // 150 to each side of its top
		return geom.Arc{Centre: geom.Point{X: x, Y: y - 600}, Radius: 600, Start: unit.Turn/4 - 0.25, Sweep: 0.5}
	}
	for _, x := range []unit.Length{40, 95, 170, 250, 500} {
		a := about(x, 200)
		got := plan.OneSheet(a)
		on := func(w geom.Rect) bool { return w.Has(got.At(0)) && w.Has(got.At(1)) }
		if got.At(0.5).Distance(a.At(0.5)) > 1e-9 || got.Length() >= a.Length() || !slices.ContainsFunc(plan.Windows(), on) {
			t.Errorf("about %v: from %v to %v", x, got.At(0), got.At(1))
		}
	}
	if got := plan.OneSheet(about(2, 200)); got.Length() > 24 || got.Length() < 20 {
		t.Errorf("at the edge it is %v long", got.Length())
	}
	plan.Cells = plan.Cells[:1]
	if got := plan.OneSheet(about(95, 200)); got != about(95, 200) {
		t.Errorf("on one sheet it becomes %v", got)
	}
}
