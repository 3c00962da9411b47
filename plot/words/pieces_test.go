package words_test

import (
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
)

func doubts(t *testing.T, given string, answer int) (all []string) {
	t.Helper()
	s, err := triangle.Solve(measured(t, strings.Fields(given)...), [2]geom.Name{})
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range (words.English{}).Pieces().Doubts(s, answer) {
		all = append(all, string(d))
	}
	return all
}

// A plain warning where a 1 mm slip moves a corner by more than 5 mm, and on other
// doubts. How arcs cross is a matter of the construction.
func TestDoubtsOfATriangle(t *testing.T) {
	for given, want := range map[string][]string{
		"AB=640 CA=455 A=52deg":              nil,
		"AB=600 BC=600 CA=600":               nil,
		"AB=6000 BC=5000 CA=5000":            nil,
		"AB=4000 C-AB=30 A=90deg":            nil,
		"AB=2000 A=89deg B=90deg":            {"a slip of 1 mm in AB moves corner C by 57.3 mm"},
		"AB=20 A=30deg BC=10":                {"with 1 mm more in AB there would be no triangle"},
		"AB=20 A=30deg BC=10.0001":           {"with 1 mm more in AB there would be no triangle: this one ends at 20.0002", "the two triangles are nearly the same: corner C lies only 0.0894 mm apart"},
		"AB=2000+-1 CA=1400+-1 A=52deg+-0.5": {"the tolerances leave corner C in doubt by up to 13.2 mm"},
		"AB=2000 CA=1400 A=52deg":            nil,
		// 57.3 mm for 1 mm is 57.3 sixteenths for one: 3.58 in.
		"AB=78in A=89deg B=90deg": {`a slip of 1/16" in AB moves corner C by 3 9/16"`},
		"AB=100 BC=99.5 A=10deg":  {"a second triangle fits but is left out: in it CA would be 0.508 mm: sides may be 1 mm to 1 km long"},
	} {
		if got := doubts(t, given, 0); !slices.Equal(got, want) {
			t.Errorf("%s:\n  %q, want\n  %q", given, got, want)
		}
	}
	for _, c := range []struct {
		given, want string
		answer      int
	}{
		{"AB=39.0685111 B=70.7123843deg B-CA=38.9425588", "with 1 mm less in AB there would be no triangle: this one ends at 38.94", 0},
		{"AB=39.0685111 B=70.7123843deg B-CA=38.9425588", "with 1 mm less in AB there would be no triangle: this one ends at 38.94", 1},
		{"AB=80 A=35deg BC=79", "with 1 mm less in AB only the other triangle would fit: this one ends at 79", 1},
	} {
		if got := doubts(t, c.given, c.answer); !slices.Contains(got, c.want) {
			t.Errorf("%s, answer %d: %q", c.given, c.answer, got)
		}
	}
}

// notes on a piece whose tokens are parted by semicolons.
func notes(t *testing.T, outline geom.Polygon, edges, holes string, figures unit.Style) []string {
	t.Helper()
	var w shape.Work
	for _, token := range strings.FieldsFunc(edges, func(r rune) bool { return r == ';' }) {
		a, err := shape.ParseAllowance(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		w.Allowances = append(w.Allowances, a)
	}
	for _, token := range strings.FieldsFunc(holes, func(r rune) bool { return r == ';' }) {
		h, err := shape.ParseHole(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		w.Holes = append(w.Holes, h)
	}
	s, err := shape.Make(outline, names("A B C D")[:len(outline)], w, figures)
	if err != nil {
		t.Fatal(err)
	}
	return (words.English{}).Pieces().Notes(s, figures)
}

var square = geom.Polygon{{}, {X: 100}, {X: 100, Y: 100}, {Y: 100}}

// What a hole leaves, on the square of 100 by subtraction: 12 at 9 from an edge leaves
// 9 − 6 = 3 of it; a cut line 1.5 inside the edge takes that from it; centres 14 apart
// leave 14 − 6 − 6 = 2. The limits themselves give no word. A needle of 5° at A runs out
// 3/sin 2.5° = 68.8.
func TestNotesOnAShape(t *testing.T) {
	needle := geom.Polygon{{}, {X: 300}, geom.Point{}.Toward(5*unit.Degree, 300)}
	for _, c := range []struct {
		outline      geom.Polygon
		edges, holes string
		figures      unit.Style
		want         []string
	}{
		{needle, "AB allow 3;BC allow 3;CA allow 3", "", unit.Style{}, []string{"At A the cut lines cross 68.8 mm from the finished corner; to shorten that, cut off what runs out: corners: [A blunt 3mm]."}},
		{square, "", "12 at AB 9 from A 50", unit.Style{}, []string{"The hole 12 at AB 9 from A 50 leaves 3 mm between its rim and edge AB, less than its radius of 6 mm."}},
		{square, "", "12 at AB 12 from A 50", unit.Style{}, nil},
		{square, "", "12 at AB 11.96 from A 50", unit.Style{}, []string{"The hole 12 at AB 11.96 from A 50 leaves 5.96 mm between its rim and edge AB, less than its radius of 6 mm."}},
		{square, "AB allow -1.5", "12 at AB 13 from A 50", unit.Style{}, []string{"The hole 12 at AB 13 from A 50 leaves 5.5 mm between its rim and the cut line of edge AB, less than its radius of 6 mm."}},
		{square, "AB allow 3", "12 at AB 11 from A 50", unit.Style{}, []string{"The hole 12 at AB 11 from A 50 leaves 5 mm between its rim and edge AB, less than its radius of 6 mm."}},
		{square, "", "12 at AB 40 from A 40;12 at AB 40 from A 54", unit.Style{}, []string{"The holes 12 at AB 40 from A 40 and 12 at AB 40 from A 54 leave 2 mm between their rims, less than 3 mm."}},
		{square, "", "12 at AB 40 from A 40;12 at AB 40 from A 55", unit.Style{}, nil},
		{square, "", "12 at AB 40 from A 40;12 at AB 40 from A 54.97", unit.Style{}, []string{"The holes 12 at AB 40 from A 40 and 12 at AB 40 from A 54.97 leave 2.97 mm between their rims, less than 3 mm."}},
		{square, "", "1/2in at AB 3/8in from A 2in", unit.Style{Unit: unit.IN}, []string{`The hole 1/2in at AB 3/8in from A 2in leaves 1/8" between its rim and edge AB, less than its radius of 1/4".`}},
	} {
		if got := notes(t, c.outline, c.edges, c.holes, c.figures); !slices.Equal(got, c.want) {
			t.Errorf("%s | %s: %q, want %q", c.edges, c.holes, got, c.want)
		}
	}
}
