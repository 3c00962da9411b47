package net

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Random nets without an outline: each is found where its points truly lie, and
// one that is refused does lie at two places.
func TestFoundWithoutOutline(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	found, refused, worst, wide := 0, 0, 0.0, 0.0
	try := func(kind string, k int, n *plan) {
		a, err := Adjust(n.net)
		var no *triangle.NoTriangle
		if errors.As(err, &no) {
			turned, more := n.twofold()
			if more >= apart {
				t.Errorf("%s %d of %d points: %v; but turned over %v it fits by %.3g worse", kind, k, len(n.at), err, turned, more)
			}
			refused++
			return
		}
		if err != nil {
			t.Errorf("%s %d: %v", kind, k, err)
			return
		}
		found++
		sigmas, mm := n.off(a)
		if sigmas > 6 {
			t.Errorf("%s %d of %d points: %.1f mm from the true places, %.1f σ, sum %.4g of %d", kind, k, len(n.at), mm, sigmas, a.Sum, a.Freedom)
		}
		worst, wide = max(worst, sigmas), max(wide, mm)
	}
	for k := range netsWithoutOutline {
		try("triangulation", k, triangulated(r, 4+r.IntN(57)))
	}
	t.Logf("triangulations: %d found, the worst %.1f σ or %.1f mm off; %d truly lie at two places", found, worst, wide, refused)
	found, refused, worst, wide = 0, 0, 0, 0
	for k := range netsToNearest {
		points := []int{8, 20, 40}[k%3]
		try("net of nearest", k, toNearest(r, points, []int{5, 6, 8}[k%3]))
	}
	t.Logf("nets to the nearest: %d found, the worst %.1f σ or %.1f mm off; %d truly lie at two places", found, worst, wide, refused)
}

// Where a net can be turned over in parts, the line that the refusal asks for
// takes one turn away each time, until the net is found where it truly lies.
func TestRefusalAsksForTheRightLine(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 12))
	asked := 0
	for k := range netsThatAsk {
		n := triangulated(r, 5+r.IntN(20))
		n.hang(r, 1+r.IntN(4))
		for range 12 {
			a, err := Adjust(n.net)
			var no *triangle.NoTriangle
			if errors.As(err, &no) {
				_, line, _ := strings.Cut(no.Hint, "or measure ")
				var p, q int
				if _, err := fmt.Sscanf(line, "P%dP%d", &p, &q); err != nil {
					t.Fatalf("net %d of %d points: %v: no line is asked for", k, len(n.at), no)
				}
				if n.has(p-1, q-1) {
					t.Fatalf("net %d: %v: it is measured already", k, no)
				}
				asked++
				n.lines = append(n.lines, [2]int{min(p, q) - 1, max(p, q) - 1})
				n.net.Measured = nil
				n.measured(r)
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			if sigmas, mm := n.off(a); sigmas > 6 {
				t.Errorf("net %d of %d points: %.1f mm from the true places, %.1f σ", k, len(n.at), mm, sigmas)
			}
			n = nil
			break
		}
		if n != nil {
			t.Errorf("net %d of %d points is still refused after a dozen lines", k, len(n.at))
		}
	}
	t.Logf("%d nets that can be turned over in parts: found after %d lines that were asked for", netsThatAsk, asked)
	if asked < 3*netsThatAsk/2 {
		t.Errorf("only %d lines were asked for", asked)
	}
}

// The same thing measured twice makes it surer: two readings of one σ have that
// of their mean, σ/√2 (JCGM 100:2008, 4.2.3).
func TestMeasuredTwice(t *testing.T) {
	const net = "AB=4000+-4 BC=3000+-4 CD=4000+-4 DA=3000+-4 AC=5000+-4"
	once := adjusted(t, Net{Outline: names("A B C D"), Measured: measure(t, net), Base: [2]geom.Name{"A", "B"}})
	twice := adjusted(t, Net{Outline: names("A B C D"), Measured: measure(t, net+" AB=4002+-4"), Base: [2]geom.Name{"A", "B"}})
	d, s := distance(once, "A", "B")
	e, q := distance(twice, "A", "B")
	if math.Abs(float64(d)-4000) > 1e-6 || math.Abs(float64(e)-4001) > 1e-6 {
		t.Errorf("AB is %v and %v, want 4000 and 4001", d, e)
	}
	if math.Abs(float64(s)-2) > 1e-9 || math.Abs(float64(q)-math.Sqrt2) > 1e-9 {
		t.Errorf("σ of AB is %v and %v, want 2 and √2", s, q)
	}
	triangle := adjusted(t, Net{Measured: measure(t, "AB=4000+-4 BC=3000+-4 CA=5000+-4 AB=4002+-4")})
	if d, s := distance(triangle, "A", "B"); math.Abs(float64(d)-4001) > 1e-6 || math.Abs(float64(s)-math.Sqrt2) > 1e-9 {
		t.Errorf("AB of a triangle is %v, σ %v", d, s)
	}
	if once.Freedom != 0 || twice.Freedom != 1 {
		t.Errorf("%d and %d degrees of freedom, want 0 and 1", once.Freedom, twice.Freedom)
	}
}

// One slip in a net without an outline leads neither the search astray nor the
// blame: it is the measurement named first.
func TestSlipWithoutOutline(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	nets, named := netsThatSlipped, 0
	for k := range nets {
		n := triangulated(r, 15+r.IntN(30))
		at := r.IntN(len(n.lines))
		m := n.net.Measured[at]
		by := []float64{1000, 100, 50}[r.IntN(3)]
		slipped, err := triangle.ParseMeasurement(fmt.Sprintf("%s=%.1f+-3", m.Subject(), m.Value.Length().MM()+by), unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		n.net.Measured[at] = slipped
		a, err := Adjust(n.net)
		if err == nil && len(a.Suspects) > 0 && a.Suspects[0].Index == at {
			named++
		} else {
			t.Logf("net %d of %d points, %s off by %g: %v", k, len(n.at), m.Subject(), by, err)
		}
	}
	t.Logf("the slip is named first in %d of %d nets", named, nets)
	if named < nets*9/10 {
		t.Errorf("want 90 of 100")
	}
}

// The largest nets that are taken, without an outline: with as many lines as may
// be, and with hardly more than fix it.
func BenchmarkWithoutOutline(b *testing.B) {
	r := rand.New(rand.NewPCG(2, 50))
	sparse := triangulated(r, adjust.MostPoints)
	full := &plan{at: sparse.at, lines: slices.Clone(sparse.lines)}
	for _, l := range full.nearest() {
		if len(full.lines) < adjust.MostMeasurements && !full.has(l[0], l[1]) {
			full.lines = append(full.lines, l)
		}
	}
	full.measured(r)
	for name, n := range map[string]*plan{"sparse": sparse, "full": full} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Adjust(n.net); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/net")
		})
	}
}
