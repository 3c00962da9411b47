package shape

import (
	"slices"
	"testing"

	"trammel/geom/unit"
)

// What a hole leaves, on the square of 100 by subtraction: 12 at 9 from an edge leaves
// 9 − 6 = 3 of it; a cut line 1.5 inside the edge takes that from it; centres 14 apart
// leave 14 − 6 − 6 = 2. The limits themselves give no word.
func TestThin(t *testing.T) {
	inches := unit.Style{Unit: unit.IN}
	for _, c := range []struct {
		edges, holes string
		figures      unit.Style
		want         []string
	}{
		{"", "12 at AB 9 from A 50", unit.Style{}, []string{"The hole 12 at AB 9 from A 50 leaves 3 mm between its rim and edge AB, less than its radius of 6 mm."}},
		{"", "12 at AB 12 from A 50", unit.Style{}, nil},
		{"", "12 at AB 11.96 from A 50", unit.Style{}, []string{"The hole 12 at AB 11.96 from A 50 leaves 5.96 mm between its rim and edge AB, less than its radius of 6 mm."}},
		{"AB allow -1.5", "12 at AB 13 from A 50", unit.Style{}, []string{"The hole 12 at AB 13 from A 50 leaves 5.5 mm between its rim and the cut line of edge AB, less than its radius of 6 mm."}},
		{"AB allow 3", "12 at AB 11 from A 50", unit.Style{}, []string{"The hole 12 at AB 11 from A 50 leaves 5 mm between its rim and edge AB, less than its radius of 6 mm."}},
		{"", "12 at AB 40 from A 40;12 at AB 40 from A 54", unit.Style{}, []string{"The holes 12 at AB 40 from A 40 and 12 at AB 40 from A 54 leave 2 mm between their rims, less than 3 mm."}},
		{"", "12 at AB 40 from A 40;12 at AB 40 from A 55", unit.Style{}, nil},
		{"", "12 at AB 40 from A 40;12 at AB 40 from A 54.97", unit.Style{}, []string{"The holes 12 at AB 40 from A 40 and 12 at AB 40 from A 54.97 leave 2.97 mm between their rims, less than 3 mm."}},
		{"", "1/2in at AB 3/8in from A 2in", inches, []string{`The hole 1/2in at AB 3/8in from A 2in leaves 1/8" between its rim and edge AB, less than its radius of 1/4".`}},
	} {
		p, names := outlineOf(t, square)
		s, err := Make(p, names, tokens(t, c.edges, "", c.holes), c.figures)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(s.Notes, c.want) {
			t.Errorf("%s | %s: %q, want %q", c.edges, c.holes, s.Notes, c.want)
		}
	}
}
