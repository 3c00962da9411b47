package draw

import (
	"math"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// Points of every curve, worked out here from its definition, lie on the circle,
// in order, from one end of the arc to the other.
func TestCubicsFollowTheCircle(t *testing.T) {
	for _, r := range []unit.Length{0.3, 1, 5, 63.7, 450, 2400, 5000, 20000} {
		for _, sweep := range []unit.Angle{0.001, 0.5, unit.Turn / 6, unit.Turn / 4, 3, unit.Turn / 2, 5, unit.Turn, -0.7, -unit.Turn} {
			a := geom.Arc{Centre: geom.Point{X: -17, Y: 12}, Radius: r, Start: 0.3, Sweep: sweep}
			from, turned := a.At(0), 0.0
			worst, direction := 0.0, 0.3
			for _, c := range Cubics(a) {
				const n = 50
				for i := 1; i <= n; i++ {
					u := float64(i) / n
					b := [4]float64{(1 - u) * (1 - u) * (1 - u), 3 * (1 - u) * (1 - u) * u, 3 * (1 - u) * u * u, u * u * u}
					var x, y float64
					for j, p := range [4]geom.Point{from, c.Control1, c.Control2, c.To} {
						x += b[j] * float64(p.X-a.Centre.X)
						y += b[j] * float64(p.Y-a.Centre.Y)
					}
					worst = max(worst, math.Abs(math.Hypot(x, y)-float64(r)))
					step := math.Remainder(math.Atan2(y, x)-direction, 2*math.Pi)
					direction, turned = direction+step, turned+step
				}
				from = c.To
			}
			if worst > CurveTolerance.MM()*1.001 {
				t.Errorf("r %v, sweep %v: %.2g mm off the circle", r, sweep, worst)
			}
			if math.Abs(turned-float64(sweep)) > 1e-9 {
				t.Errorf("r %v, sweep %v: turns through %v", r, sweep, turned)
			}
			if Whole(a) && from != a.At(0) {
				t.Errorf("r %v: a whole circle ends %v from its start", r, from.Distance(a.At(0)))
			}
		}
	}
}

// A curve more than needed costs time in every reader: at 20 m one cubic spans
// more than 18° (worked out from the formula at Pieces; 0.0005 mm).
func TestPiecesAreFew(t *testing.T) {
	for _, c := range []struct {
		r     unit.Length
		sweep unit.Angle
		want  int
	}{
		{0.3, unit.Turn, 4}, {5, unit.Turn, 5}, {20000, unit.Turn, 19}, {-20000, unit.Turn, 4},
		{20000, 18 * unit.Degree, 1}, {5000, unit.Turn / 6, 3}, {100, 0, 1}, {0, unit.Turn, 4}, {1, 1e300, 4}, {1, unit.Angle(math.Inf(-1)), 4},
	} {
		if got := Pieces(geom.Arc{Radius: c.r, Sweep: c.sweep}); got != c.want {
			t.Errorf("r %v through %v: %d pieces, want %d", c.r, c.sweep, got, c.want)
		}
	}
}
