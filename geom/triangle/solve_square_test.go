package triangle

import (
	"errors"
	"testing"

	"trammel/geom"
)

// A right triangle of which all three measurements were rounded may fall short of
// itself: sin 50° is 0.7660 (four-figure tables), so 766 under 1000 is 0.04 short of
// the line. Within half of the last digit it is right-angled, and the hint leads to
// what can be solved; a real shortfall keeps its own hint.
func TestRoundedRightTriangle(t *testing.T) {
	for _, c := range []struct{ given, square string }{
		{"A=50deg AB=1000 BC=766", "C=90deg"},
		{"A=30.0deg AB=2000 BC=999.9", "C=90deg"},
		{"A=50deg AB=1000 BC=700", ""},
		{"BC=1000 CA=766 A-BC=766.2", "C=90deg"}, // the height as long as the side
		{"BC=1000 CA=766 A-BC=770", ""},
	} {
		_, err := Solve(measure(t, c.given), [2]geom.Name{})
		var none *NoTriangle
		if !errors.As(err, &none) {
			t.Errorf("%s: %v", c.given, err)
			continue
		}
		want := ""
		if c.square != "" {
			want = "within what was read, C is 90°: add " + c.square
		}
		if said := none.Hint; (said == want) != (want != "") {
			t.Errorf("%s: hint %q, want %q", c.given, said, want)
		}
		if c.square == "" {
			continue
		}
		s, err := Solve(measure(t, c.given+" "+c.square), [2]geom.Name{})
		if err != nil || len(s.Answers) != 1 {
			t.Errorf("%s %s: %v", c.given, c.square, err)
		}
	}
}
