package area_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/area"
	"trammel/geom/unit"
)

func of(t testing.TB, rings ...geom.Polygon) area.Region {
	t.Helper()
	r, err := area.Of(rings...)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func box(x, y, w, h unit.Length) geom.Polygon {
	return geom.Polygon{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

// School geometry: rectangles that overlap, share an edge, or lie in one another.
func TestRectangles(t *testing.T) {
	floor := of(t, box(0, 0, 4000, 3000))
	for _, c := range []struct {
		name                 string
		other                area.Region
		united, common, less float64 // mm²
		parts                int     // of floor less other
	}{
		{"a corner", of(t, box(3000, 2000, 2000, 2000)), 12e6 + 3e6, 1e6, 11e6, 1},
		{"beside it", of(t, box(4000, 0, 1000, 3000)), 15e6, 0, 12e6, 1},
		{"a post", of(t, box(1000, 1000, 150, 150)), 12e6, 22500, 12e6 - 22500, 1},
		{"a strip across", of(t, box(1000, -10, 10, 4000)), 12e6 + 10*1000, 30000, 12e6 - 30000, 2},
		{"all of it", of(t, box(0, 0, 4000, 3000)), 12e6, 12e6, 0, 0},
		{"nothing", area.Region{}, 12e6, 0, 12e6, 1},
	} {
		for _, o := range []struct {
			name string
			do   func(area.Region) (area.Region, error)
			want float64
		}{{"united", floor.United, c.united}, {"common", floor.Common, c.common}, {"less", floor.Less, c.less}} {
			got, err := o.do(c.other)
			if err != nil || math.Abs(float64(got.Area())-o.want) > 1e-4 {
				t.Errorf("%s %s: %v, want %v; %v", c.name, o.name, got.Area(), o.want, err)
			}
			if n := len(got.Parts()); o.name == "less" && n != c.parts {
				t.Errorf("%s: %d parts, want %d", c.name, n, c.parts)
			}
		}
	}
}

// A hole is a ring in a ring, whichever way round either is written; it runs
// clockwise in the result, the ring round it the other way.
func TestHole(t *testing.T) {
	hole := geom.Polygon{{X: 10, Y: 10}, {X: 10, Y: 20}, {X: 20, Y: 20}, {X: 20, Y: 10}}
	for range 2 {
		r := of(t, box(0, 0, 100, 50), hole)
		if rings := r.Rings(); len(rings) != 2 || rings[0].Contour().Area() <= 0 || rings[1].Contour().Area() >= 0 || math.Abs(float64(r.Area())-4900) > 1e-6 {
			t.Errorf("%v, %v mm²", rings, r.Area())
		}
		hole[1], hole[3] = hole[3], hole[1]
	}
}

// For any two triangles: what is common and what is united make up both, and what
// is left of each together with the common part is that triangle.
func TestSums(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	triangle := func() geom.Polygon {
		p := make(geom.Polygon, 3)
		for i := range p {
			p[i] = geom.Point{X: unit.Length(4000 * rng.Float64()), Y: unit.Length(3000 * rng.Float64())}
		}
		return p
	}
	worst := 0.0
	for range 2000 {
		r, s := of(t, triangle()), of(t, triangle())
		both, err1 := r.Common(s)
		all, err2 := r.United(s)
		left, err3 := r.Less(s)
		if err1 != nil || err2 != nil || err3 != nil {
			t.Fatal(err1, err2, err3)
		}
		worst = max(worst, math.Abs(float64(both.Area()+all.Area()-r.Area()-s.Area())), math.Abs(float64(left.Area()+both.Area()-r.Area())))
	}
	if worst > 1e-3 {
		t.Errorf("sums are off by %v mm²", worst)
	}
}

// Two stars whose union has a hole; its area by shapely 1.8.5 (testdata/oracle.py,
// pair 62).
func TestHoleOfAUnion(t *testing.T) {
	r := of(t, geom.Polygon{{X: 2698.5167747911469, Y: 4189.1253546495418}, {X: 1507.5101282176138, Y: 4390.543838550313}, {X: 685.69367597526877, Y: 3711.2902347668646}, {X: 93.845690997410657, Y: 5127.4566194040344}, {X: -116.24523912525672, Y: 3190.6597010254336}, {X: 94.99593873626236, Y: 2435.8238715531047}, {X: 480.22826487829769, Y: 2260.075744269097}, {X: 1811.7175066268369, Y: 1065.1328181863328}, {X: 1652.3860744834476, Y: 2224.3172156076162}})
	s := of(t, geom.Polygon{{X: 3593.3989218862243, Y: 1328.7637948404417}, {X: 2717.473323918226, Y: 2310.0517515740376}, {X: 1002.1681348066099, Y: 2413.1624140815907}, {X: 1270.9242391308862, Y: 2096.2233886614958}, {X: 1996.5849795371191, Y: 1253.8124078061358}, {X: 1298.3879393997031, Y: 1292.5717621491306}, {X: 1062.1082751102078, Y: 916.08400752579394}, {X: 447.00416836966087, Y: 662.24093246085909}, {X: 1683.0531570988323, Y: -1000.5654332689762}, {X: 2930.914467218076, Y: -1511.6356890994393}, {X: 3154.4695344218394, Y: -1559.7173883629603}})
	got, err := r.United(s)
	if err != nil || len(got.Rings()) != 2 || len(got.Parts()) != 1 || math.Abs(float64(got.Area())-12463047.612312697) > 1e-4 {
		t.Errorf("%v in %d rings; %v", got.Area(), len(got.Rings()), err)
	}
}

// Steiner's formula: a convex region grown by d has area A + P·d + π·d². Chords
// within 0.01 mm of the arc leave out at most that times the arc's length.
func TestGrown(t *testing.T) {
	got, err := of(t, box(0, 0, 400, 300)).Grown(10)
	want := 400*300 + 1400*10 + math.Pi*100
	if err != nil || math.Abs(float64(got.Area())-want) > 0.01*2*math.Pi*10 {
		t.Errorf("%v, want %v; %v", got.Area(), want, err)
	}
}

// What no area can be made of is an error and no panic.
func TestTooFar(t *testing.T) {
	for _, x := range []unit.Length{2e6, unit.Length(math.NaN()), unit.Length(math.Inf(1))} {
		if r, err := area.Of(geom.Polygon{{X: 0}, {X: x}, {X: 1, Y: 1}}); err == nil {
			t.Errorf("a corner at %v made %v", x, r)
		}
	}
}

func ExampleRegion_Less() {
	floor, _ := area.Of(geom.Polygon{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 4000, Y: 3000}, {X: 0, Y: 3000}})
	post, _ := area.Of(geom.Polygon{{X: 1000, Y: 1000}, {X: 1150, Y: 1000}, {X: 1150, Y: 1150}, {X: 1000, Y: 1150}})
	tiled, _ := floor.Less(post)
	fmt.Printf("%.0f mm²\n", float64(tiled.Area()))
	// Output: 11977500 mm²
}

// One tile cut by the edge of a floor.
func BenchmarkCommon(b *testing.B) {
	floor, tile := of(b, box(0, 0, 4000, 3000)), of(b, box(3900, 100, 300, 300))
	for b.Loop() {
		if _, err := floor.Common(tile); err != nil {
			b.Fatal(err)
		}
	}
}
