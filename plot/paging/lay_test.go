package paging

import (
	"errors"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

var a4 = Sheet{Name: "A4", Width: 210, Height: 297, Left: 10, Top: 10, Right: 10, Bottom: 10, Overlap: 10}

func TestRefusals(t *testing.T) {
	big := geom.Polygon{{X: 0, Y: 0}, {X: 1e6, Y: 0}, {X: 0, Y: 1e6}}
	vast := geom.Polygon{{X: 0, Y: 0}, {X: 1e11, Y: 0}, {X: 0, Y: 1e11}}
	small := geom.Polygon{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 0, Y: 100}}
	for _, c := range []struct {
		name    string
		outline geom.Polygon
		sheet   func(*Sheet)
		want    string
	}{
		{"margins", small, func(s *Sheet) { s.Left, s.Right = 100, 110 }, "A4: margins of 100 and 110 mm leave too little of a paper 210 mm wide"},
		{"margins high", small, func(s *Sheet) { s.Top = 290 }, "A4: margins of 290 and 10 mm leave too little of a paper 297 mm high"},
		{"overlap", small, func(s *Sheet) { s.Overlap = 200 }, "A4: an overlap of 200 mm is more than half of the 190 mm that a page shows"},
		{"pages", big, func(*Sheet) {}, "pages of A4 or more: the most is 20000"},
		{"vast", vast, func(*Sheet) {}, "the piece takes "},
		{"two corners", small[:2], func(*Sheet) {}, "an outline of 2 corners is not a shape"},
	} {
		s := a4
		c.sheet(&s)
		_, err := Lay(c.outline, s, Full, nil, Effort{})
		var f *unit.Fault
		if !errors.As(err, &f) || !strings.Contains(f.Error(), c.want) || f.Hint == "" && f.Code != unit.TooManyPages {
			t.Errorf("%s: %v, want a fault with %q and a hint", c.name, err, c.want)
		}
	}
}
