package triangle

import (
	"math"
	"slices"
	"testing"
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
	end := func(d Doubt, at float64) bool {
		if d.Code != SlipEnds || d.Measured != 0 || !d.Less || d.End == nil {
			return false
		}
		v, _ := d.End.Float64()
		return math.Abs(v-at) < 1e-9
	}
	for i, a := range s.Answers {
		if !slices.ContainsFunc(a.Doubts, func(d Doubt) bool { return end(d, h) && !d.Other }) {
			t.Errorf("answer %d is doubted for %+v", i+1, a.Doubts)
		}
	}
	// Two sides and an angle: the second triangle ends flat, where the first goes on.
	s = solved(t, "AB=80 A=35deg BC=79")
	flat := func(d Doubt) bool { return end(d, 79) && d.Other }
	if len(s.Answers) != 2 || !slices.ContainsFunc(s.Answers[1].Doubts, flat) || slices.ContainsFunc(s.Answers[0].Doubts, flat) {
		t.Errorf("%+v", s.Answers)
	}
}
