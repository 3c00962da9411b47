package construct

import (
	"math"
	"testing"
)

// The crossing that a construction really makes, worked out by hand: arcs at the apex
// cross at its angle, arms of angles too; an arm and the arc that its corner lies on
// cross at 90° less the angle between arm and radius; a parallel and an arm at the arm's
// angle; what is marked off along an arm crosses it squarely.
func TestMeetings(t *testing.T) {
	const none = -1
	for _, c := range []struct {
		given string
		by    Method
		want  float64 // degrees
	}{
		{"AB=600 BC=600 CA=600", AsMeasured, 60},
		{"AB=1000 BC=1932 CA=1932", AsMeasured, 29.9976}, // 2 asin(500/1932)
		{"AB=1933 BC=1000 CA=1000", AsMeasured, 29.7447}, // 180 - 2 asin(966.5/1000)
		{"AB=1000 A=50deg B=70deg", AsMeasured, 60},
		{"AB=1000 A=50deg CA=800", AsMeasured, none},
		{"AB=1000 A=50deg BC=1000", AsMeasured, 40}, // C = 50°, the arc's tangent is square to BC
		{"AB=1000 C-AB=400 A=50deg", AsMeasured, 50},
		{"AB=1000 C-AB=400 CA=500", AsMeasured, 36.8699}, // the tangent stands at 90° - asin(400/500) to the parallel
		{"AB=1933 BC=1000 CA=1000", BySquare, none},
		{"AB=1933 BC=1000 CA=1000", ByAngle, none},
		// Under 10° nobody sees the crossing: set off the baseline instead, unless arcs are asked for.
		{"AB=2000 A=89deg B=90deg", AsMeasured, none},
		{"AB=20 A=30deg BC=10", AsMeasured, none}, // the arc touches the arm: a square from B finds C
		{"AB=1995 BC=1000 CA=1000", AsMeasured, none},
		{"AB=1995 BC=1000 CA=1000", ByArcs, 8.1052}, // 180 - 2 asin(0.9975)
	} {
		k, err := Construct(solved(t, c.given), 0, c.by)
		if err != nil {
			t.Fatal(err)
		}
		all := k.Meetings()
		switch {
		case c.want == none && len(all) > 0:
			t.Errorf("%s: %+v, and nothing crosses", c.given, all)
		case c.want != none && (len(all) != 1 || all[0].At != "C" || math.Abs(all[0].Angle.Degrees()-c.want) > 1e-3):
			t.Errorf("%s: %+v, want %v°", c.given, all, c.want)
		}
		if m, flat := k.Flattest(); flat != (c.want != none && c.want < 30) || flat && m != all[0] {
			t.Errorf("%s: flat %v, %+v", c.given, flat, m)
		}
	}
}
