package paging_test

import (
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// Two layouts in which a stretch of a side is easily lost between two pages: windows
// that only touch, and the pages of the edges alone on paper on its side.
func TestPinned(t *testing.T) {
	for _, c := range []struct {
		name    string
		outline geom.Polygon // on its baseline CA
		sheet   paging.Sheet
		cover   paging.Cover
		pages   int
	}{
		{"12x18in, no overlap", sides(407.2852, 1034.6612, 1262.2711), sheetOf(304.8, 457.2, 20, 0), paging.Full, 4},
		{"Letter on its side, edges only", sides(2800, 2100, 3500), sheetOf(279.4, 215.9, 20, 22.2), paging.OutlineOnly, 48},
	} {
		p := check(t, c.name, c.outline, c.sheet, c.cover, nil)
		if len(p.Cells) != c.pages || !p.Proven {
			t.Errorf("%s: %d pages, proven %t, want %d", c.name, len(p.Cells), p.Proven, c.pages)
		}
		for i := range p.Outline {
			if gap, ok := unshown(p, p.Outline.Edge(i)); ok {
				t.Errorf("%s: no page shows side %d from %v on", c.name, i, gap)
			}
		}
	}
}

func sheetOf(width, height, margin, overlap unit.Length) paging.Sheet {
	return paging.Sheet{Name: "paper", Width: width, Height: height, Left: margin, Top: margin, Right: margin, Bottom: margin, Overlap: overlap}
}

// unshown is how far along an edge the pages, each cut by itself, show it without a
// gap, and whether that is short of its end.
func unshown(p paging.Plan, edge geom.Line) (unit.Length, bool) {
	at := unit.Length(0)
	for again := true; again; {
		again = false
		for _, w := range p.Windows() {
			part, ok := geom.ClipLine(edge, w)
			if !ok {
				continue
			}
			from, to := edge.From.Distance(part.From), edge.From.Distance(part.To)
			if from <= at+1e-9 && to > at {
				at, again = to, true
			}
		}
	}
	return at, at < edge.Length()-1e-9
}
