package geom_test

import (
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// stadium is two straights of 100 and two half circles of radius 20.
func stadium() []geom.Segment {
	return []geom.Segment{
		geom.Line{From: pt(0, -20), To: pt(100, -20)}, geom.Arc{Centre: pt(100, 0), Radius: 20, Start: -90 * deg, Sweep: 180 * deg},
		geom.Line{From: pt(100, 20), To: pt(0, 20)}, geom.Arc{Radius: 20, Start: 90 * deg, Sweep: 180 * deg},
	}
}

func TestClipPathKnown(t *testing.T) {
	for _, c := range []struct {
		name   string
		r      geom.Rect
		closed bool
		want   []int // segments of each run
	}{
		{"inside", box(-21, -21, 121, 21), true, []int{4}},
		{"outside", box(-21, 21, 121, 41), true, nil},
		{"round the window", box(10, -10, 90, 10), true, nil},
		{"right end", box(50, -30, 130, 30), true, []int{3}},
		{"left end, where the path begins", box(-30, -30, 50, 30), true, []int{3}},
		{"left end of an open path", box(-30, -30, 50, 30), false, []int{1, 2}},
		{"a band", box(-30, -10, 130, 10), true, []int{1, 1}},
		{"a band across", box(40, -30, 60, 30), true, []int{1, 1}},
		{"all but the far points of the ends", box(-19, -30, 119, 30), true, []int{3, 3}},
	} {
		runs := geom.ClipPath(stadium(), c.closed, c.r)
		if len(runs) != len(c.want) {
			t.Errorf("%s: %v", c.name, runs)
			continue
		}
		for i, run := range runs {
			if len(run) != c.want[i] {
				t.Errorf("%s: run %d is %v", c.name, i, run)
			}
		}
	}
}

// Every point of the path inside the window lies on a run and no other does; the
// runs are connected.
func TestClipPathKeepsWhatIsInside(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	r := func(lo, hi float64) float64 { return lo + rng.Float64()*(hi-lo) }
	path := stadium()
	for range 2000 {
		x, y := r(-30, 110), r(-30, 20)
		window := box(x, y, x+r(1, 120), y+r(1, 60))
		var all geom.Contour
		for _, run := range geom.ClipPath(path, true, window) {
			for i, s := range run {
				if i > 0 && run[i-1].At(1).Distance(s.At(0)) > 1e-9 {
					t.Fatalf("%v: a run is broken: %v", window, run)
				}
				b := s.Bounds()
				if g := window.Grow(1e-8); !g.Has(b.Min) || !g.Has(b.Max) {
					t.Fatalf("%v: %v lies outside", window, s)
				}
			}
			all = append(all, run...)
		}
		for _, s := range path {
			for range 20 {
				p := s.At(rng.Float64())
				far := unit.Length(1)
				if len(all) > 0 {
					far = all.Distance(p)
				}
				if window.Grow(-1e-6).Has(p) && far > 1e-8 {
					t.Fatalf("%v: %v is inside, and %v from every run", window, p, far)
				}
			}
		}
	}
}
