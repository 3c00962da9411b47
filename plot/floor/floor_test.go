package floor

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
)

// laidRoom is a room with a leaning wall and a post.
func laidRoom(t *testing.T) Sheet {
	t.Helper()
	walls := geom.Polygon{{}, {X: 2600}, {X: 2600, Y: 1900}, {X: -60, Y: 1900}}
	s := Sheet{Outline: geom.OutlineOf([]geom.Name{"A", "B", "C", "D"}, walls), Gaps: []unit.Length{8, 8, 8, 8}, Along: "AB", Box: 10,
		Openings: []tiling.Opening{{Name: "post", Ring: geom.Polygon{{X: 900, Y: 700}, {X: 1020, Y: 700}, {X: 1020, Y: 820}, {X: 900, Y: 820}}, Gap: 8}}}
	s.Piece = "Store"
	r, err := tiling.Floor{Walls: walls, Gaps: s.Gaps, Openings: s.Openings}.Region()
	if err != nil {
		t.Fatal(err)
	}
	s.Plan = r.Best(t.Context(), tiling.Grid{Along: 160, Across: 160, Joint: 3, Kerf: 3}, tiling.Wish{})
	return s
}

func (s Sheet) pagesFor(t *testing.T) []draw.Page {
	t.Helper()
	pages, err := s.Pages(paging.Sheet{Name: "A4", Width: 210, Height: 297, Left: 5, Top: 5, Right: 5, Bottom: 5}, lettering.Go())
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

// Every kind without a taper has its template at full size: the cut edges on paper are as
// long as the cards say, and nothing stands outside the paper.
func TestTemplatesAreTrue(t *testing.T) {
	s := laidRoom(t)
	var lines []geom.Line
	for _, p := range s.pagesFor(t) {
		for _, op := range p.Ops {
			if b := op.Bounds(lettering.Go()); !p.Bounds().Holds(b) {
				t.Errorf("%v stands outside the page", b)
			}
			if l, ok := op.(draw.Line); ok && l.On == draw.Outline {
				lines = append(lines, l.Line)
			}
		}
	}
	for _, c := range s.cards() {
		for _, cut := range c.cuts {
			seen := false
			for _, l := range lines {
				seen = seen || math.Abs(float64(l.Length()-cut.Length)) < 1e-6
			}
			if !seen {
				t.Errorf("kind %d: no template has its cut of %v", c.Number, cut.Length)
			}
		}
	}
}

// Every tile has its number on the plan, once.
func TestEveryTileHasItsNumber(t *testing.T) {
	s := laidRoom(t)
	seen := map[string]int{}
	for _, op := range s.pagesFor(t)[0].Ops {
		if w, ok := op.(draw.Text); ok {
			seen[w.Words]++
		}
	}
	c := s.drawn()
	n := c.Numbers()
	for _, spot := range c.Whole {
		if seen[n.Spot(spot)] != 1 {
			t.Errorf("%s stands %d times on the plan", n.Spot(spot), seen[n.Spot(spot)])
		}
	}
	for i := range c.Pieces {
		if seen[n.Piece(i)] != 1 {
			t.Errorf("%s stands %d times on the plan", n.Piece(i), seen[n.Piece(i)])
		}
	}
}

// The text for a phone has no line that is too long, and says figures before cautions.
func TestTextForAPhone(t *testing.T) {
	var b strings.Builder
	if err := laidRoom(t).Text(&b); err != nil {
		t.Fatal(err)
	}
	for _, l := range strings.Split(b.String(), "\n") {
		if utf8.RuneCountInString(l) > 44 {
			t.Errorf("%q is too long", l)
		}
	}
	if lines, care := strings.Index(b.String(), "LINES TO SNAP"), strings.Index(b.String(), "BEFORE WORK"); lines < 0 || care < lines {
		t.Error("cautions stand before the figures")
	}
}
