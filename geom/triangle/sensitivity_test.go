package triangle

import (
	"math"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// Moves against what is known without solving: two arcs that cross at γ move
// their crossing by 1/sin γ for 1 mm in either (the factor of
// σ_P = σ√2/sin γ without the √2 of two arcs); a corner at the end of a side of
// length r moves by 2r sin ¼° for ½°; a mm along the side by 1 mm.
func TestMoves(t *testing.T) {
	const half = math.Pi / 720
	gamma := 2 * math.Asin(0.6)
	for _, c := range []struct {
		given string
		want  [][3]float64
		most  float64
	}{
		{"AB=6000 CA=5000 BC=5000", [][3]float64{{0, 1, 0.625}, {0, 0, 1 / math.Sin(gamma)}, {0, 0, 1 / math.Sin(gamma)}}, 2e-4},
		{"AB=640 CA=455 A=52deg", [][3]float64{{0, 1, 0}, {0, 0, 1}, {0, 0, 2 * 455 * math.Sin(half)}}, 1e-12},
		{"AB=3000 C-AB=4000 B=90deg", [][3]float64{{0, 1, 1}, {0, 0, 1}, {0, 0, 4000 * math.Tan(2*half)}}, 1e-12},
		// the apex runs along the ray from B: 3000 sin 53.13° / sin 37.87°
		{"AB=3000 A=45deg B=45deg", [][3]float64{{0, 1, math.Sqrt(0.5)}, {0, 0, 3000 * math.Abs(math.Sin(math.Pi/4+2*half)/math.Sin(math.Pi/2+2*half)-math.Sqrt(0.5))}, {0, 0, 3000 * math.Abs(math.Sin(math.Pi/4+2*half)/math.Sin(math.Pi/2+2*half)-math.Sqrt(0.5))}}, 0.02},
		// four that agree, two of them the same thing: each counts by its weight
		{"AB=400+-1 A=90deg+-1 CA=300+-1 C-AB=300+-1", [][3]float64{{0, 1, 0}, {0, 0, 2 * 300 * math.Sin(half)}, {0, 0, 0.5}, {0, 0, 0.5}}, 0.005},
	} {
		a := solved(t, c.given).Answers[0]
		for i, want := range c.want {
			got := a.Moves[i]
			if got.Measurement != i {
				t.Errorf("%s: move %d is of %d", c.given, i, got.Measurement)
			}
			for k := range want {
				if d := math.Abs(float64(got.Corners[k]) - want[k]); !(d <= c.most*max(1, want[k])) {
					t.Errorf("%s: measurement %d moves %s by %v, want %v", c.given, i+1, a.Triangle.Names[k], got.Corners[k], want[k])
				}
			}
		}
	}
}

// Where a slip upward leaves no triangle, downward is taken; in the tangent
// case too every move is a number.
func TestMovesAtTheEdge(t *testing.T) {
	for _, given := range []string{"A=30deg AB=20 BC=10", "BC=20 A=90deg A-BC=10", "AB=1 BC=1 CA=1", "AB=10 BC=10 CA=19.99999999999",
		"AB=2000 A=179.9deg CA=3000", "AB=2000 A=0.1deg CA=3000", "C-AB=0.001 AB=2 CA=3"} {
		for _, a := range solved(t, given).Answers {
			for i, m := range a.Moves {
				if k := farthest(m.Corners); !(m.Corners[k] > 0) || math.IsInf(float64(m.Corners[k]), 0) {
					t.Errorf("%s: move %d is %v", given, i, m)
				}
			}
		}
	}
}

// A plain warning where a 1 mm slip moves a corner by more than 5 mm, and on other
// doubts. How arcs cross is a matter of the construction.
func TestWarnings(t *testing.T) {
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
	} {
		a := solved(t, given).Answers[0]
		if !slices.Equal(a.Warnings, want) {
			t.Errorf("%s:\n  %q, want\n  %q", given, a.Warnings, want)
		}
	}
	ms := []Measurement{}
	for _, token := range strings.Fields("AB=78in A=89deg B=90deg") {
		m, err := ParseMeasurement(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		ms = append(ms, m)
	}
	s, err := Solve(ms, [2]geom.Name{})
	// 57.3 mm for 1 mm is 57.3 sixteenths for one: 3.58 in.
	if want := `a slip of 1/16" in AB moves corner C by 3 9/16"`; err != nil || s.Answers[0].Warnings[0] != want {
		t.Errorf("%v, %v, want %s", s.Answers, err, want)
	}
}

// A slip moves a triangle along its own branch and never to the other one that fits:
// here A = 180° − asin(h/c) with h the height from B, and C lies c·sin A/sin(A+B) from
// B (sine rule), so that every move is known in closed form. The branch ends where
// the height is as long as the side, at A = 90°.
func TestMovesStayOnTheBranch(t *testing.T) {
	const c, b, h = 39.0685111, 70.7123843 * math.Pi / 180, 38.9425588
	apex := func(c, b, h float64) (x, y float64) {
		a := math.Pi - math.Asin(h/c)
		side := c * math.Sin(a) / math.Sin(a+b)
		return c - side*math.Cos(b), side * math.Sin(b)
	}
	s := solved(t, "AB=39.0685111 B=70.7123843deg B-CA=38.9425588")
	if len(s.Answers) != 2 {
		t.Fatalf("%d answers", len(s.Answers))
	}
	x, y := apex(c, b, h)
	far := func(x2, y2 float64) float64 { return math.Hypot(x2-x, y2-y) }
	want := []float64{far(apex(c+1, b, h)), far(apex(c, b+math.Pi/360, h)), far(apex(c, b, h-1))}
	for i, m := range s.Answers[1].Moves {
		if d := math.Abs(float64(m.Corners[2]) - want[i]); d > 1e-6 {
			t.Errorf("measurement %d moves C by %v, want %v", i, m.Corners[2], want[i])
		}
	}
	const said = "with 1 mm less in AB there would be no triangle: this one ends at 38.94"
	for i, a := range s.Answers {
		if !slices.Contains(a.Warnings, said) {
			t.Errorf("answer %d says %q", i+1, a.Warnings)
		}
	}
	// Two sides and an angle: the second triangle ends flat, where the first goes on.
	s = solved(t, "AB=80 A=35deg BC=79")
	const flat = "with 1 mm less in AB only the other triangle would fit: this one ends at 79"
	if len(s.Answers) != 2 || !slices.Contains(s.Answers[1].Warnings, flat) || slices.Contains(s.Answers[0].Warnings, flat) {
		t.Errorf("%+v", s.Answers)
	}
}
