// Package pagetest is papers, and what tests of several documents ask of pages.
package pagetest

import (
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
)

// Papers.
var (
	A4     = paging.Sheet{Name: "A4", Width: 210, Height: 297, Left: 5, Top: 5, Right: 5, Bottom: 5}
	A4Wide = paging.Sheet{Name: "A4", Width: 297, Height: 210, Left: 5, Top: 5, Right: 5, Bottom: 5}
	A3     = paging.Sheet{Name: "A3", Width: 297, Height: 420, Left: 5, Top: 5, Right: 5, Bottom: 5}
	A3Wide = paging.Sheet{Name: "A3", Width: 420, Height: 297, Left: 5, Top: 5, Right: 5, Bottom: 5}
	A5     = paging.Sheet{Name: "A5", Width: 148, Height: 210, Left: 5, Top: 5, Right: 5, Bottom: 5}
	Letter = paging.Sheet{Name: "Letter", Width: 215.9, Height: 279.4, Left: 6.35, Top: 6.35, Right: 6.35, Bottom: 6.35}
)

// Overlaps finds words on words, on any page.
func Overlaps(t *testing.T, name string, pages []draw.Page, r draw.Ruler) {
	t.Helper()
	for i, p := range pages {
		var boxes []geom.Rect
		var words []string
		for _, op := range p.Ops {
			o, ok := op.(draw.Text)
			if !ok || math.Abs(math.Sin(2*float64(o.Turn))) > 1e-9 {
				continue // slanting words have a test of their own
			}
			b := o.Bounds(r)
			for j, c := range boxes {
				if b.Grow(-0.01).Meets(c) {
					t.Errorf("%s: page %d: %q lies on %q", name, i+1, o.Words, words[j])
				}
			}
			boxes, words = append(boxes, b), append(words, o.Words)
		}
	}
}

// Running is the words of all pages in order, without what stands at head and foot.
func Running(pages []draw.Page) string {
	var b strings.Builder
	for _, p := range pages {
		for _, op := range p.Ops {
			if o, ok := op.(draw.Text); ok && o.Words != p.Piece && !strings.HasPrefix(o.Words, "page ") && o.At.Y > sheet.LeastMargin+4 {
				b.WriteString(o.Words + " ")
			}
		}
	}
	return b.String()
}
