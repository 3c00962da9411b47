package legible

import (
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/place"
)

// Across a cut, where the one sheet or the other is on top, words stand only if nothing
// else is left, and some rather not at all.
func TestHiddenWordsComeLast(t *testing.T) {
	at := func(x0, y0, x1, y1 unit.Length) geom.Rect {
		return geom.Rect{Min: geom.Point{X: x0, Y: y0}, Max: geom.Point{X: x1, Y: y1}}
	}
	words := func(x, y unit.Length) draw.Text {
		return draw.Text{At: geom.Point{X: x, Y: y}, Height: 2.5, Words: "100 from A", Align: draw.Middle, On: draw.Dimension}
	}
	across, beside := Candidate{Text: words(178, 50)}, Candidate{Text: words(120, 50), Cost: Crowded + 25}
	sure := across
	sure.sure = true
	for _, c := range []struct {
		name string
		all  []Candidate
		x    unit.Length // 0 for nowhere
	}{
		{"hidden, alone", []Candidate{across}, 178},
		{"hidden, to be sure", []Candidate{sure}, 0},
		{"hidden or across a line", []Candidate{across, beside}, 120},
	} {
		s := NewScene(
			[]geom.Rect{at(0, 0, 190, 277), at(180, 0, 370, 277)},
			[]geom.Rect{at(-10, -10, 189.8, 287), at(185, -10, 380, 287)}, lettering.Go())
		placed := s.placeFor(c.all, place.Never)
		var x unit.Length
		for _, op := range s.Drawing {
			x = op.(draw.Text).At.X
		}
		if placed != (c.x != 0) || x != c.x {
			t.Errorf("%s: placed %t at %v, want %v", c.name, placed, x, c.x)
		}
	}
}

// Two sheets show a strip from 180 to 190; the right one, laid on top, is cut at 185,
// the left one at 190. Words in the strip are seen whichever lies on top if both keep
// all of them or one keeps none.
func TestWordsAreSeenOnOpaquePaper(t *testing.T) {
	at := func(x0, y0, x1, y1 unit.Length) geom.Rect {
		return geom.Rect{Min: geom.Point{X: x0, Y: y0}, Max: geom.Point{X: x1, Y: y1}}
	}
	s := NewScene(
		[]geom.Rect{at(0, 0, 190, 277), at(180, 0, 370, 277)},
		[]geom.Rect{at(-10, -10, 189.8, 287), at(185, -10, 380, 287)}, lettering.Go())
	for _, c := range []struct {
		name string
		r    geom.Rect
		want [3]bool // alone, seen, whole
	}{
		{"on one sheet", at(50, 50, 60, 53), [3]bool{true, true, true}},
		{"on the half strip that the left sheet keeps alone", at(181.2, 50, 183.8, 60), [3]bool{false, true, true}},
		{"from the core into that half", at(170, 50, 183.8, 53), [3]bool{false, true, true}},
		{"on the half that both keep", at(186, 50, 188.8, 60), [3]bool{false, true, true}},
		{"across the cut, in both windows", at(182, 50, 188, 53), [3]bool{false, false, true}},
		{"across the cut, whole on the left sheet alone", at(170, 50, 188, 53), [3]bool{false, false, true}},
		{"whole on the right sheet, half of it cut off", at(182, 50, 200, 53), [3]bool{false, false, true}},
		{"from the half that both keep into the core: the left sheet would cover it", at(186, 50, 200, 53), [3]bool{false, false, true}},
		{"across both", at(170, 50, 200, 53), [3]bool{false, false, false}},
	} {
		for i, h := range []Home{Alone, Seen, Whole} {
			if got := s.Housed(c.r, h); got != c.want[i] {
				t.Errorf("%s: housed %v as strictly as %d, want %v", c.name, got, h, c.want[i])
			}
		}
	}
}
