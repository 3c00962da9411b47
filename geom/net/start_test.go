package net

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Every kind of measurement that can hang a point on two known ones, in pairs,
// against the coordinates that the figures were taken from.
func TestEveryPairOfKinds(t *testing.T) {
	at := []geom.Vector{{X: 0, Y: 0}, {X: 5000, Y: 0}, {X: 1800, Y: 3100}} // A, B, C
	look := func(kind triangle.Kind, a, b, c int) float64 {
		o := adjust.Observation{Kind: kind, At: [3]int{a, b, c}, N: 3}
		if kind == triangle.Distance {
			o.N = 2
		}
		v := o.Unsigned(at)
		if kind == triangle.Angle {
			v *= 180 / math.Pi
		}
		return v
	}
	kinds := map[string]float64{
		"AC=%.9f": look(triangle.Distance, 0, 2, 0), "BC=%.9f": look(triangle.Distance, 1, 2, 0),
		"BAC=%.9fdeg": look(triangle.Angle, 1, 0, 2), "ABC=%.9fdeg": look(triangle.Angle, 0, 1, 2), "ACB=%.9fdeg": look(triangle.Angle, 0, 2, 1),
		"C-AB=%.9f": look(triangle.Height, 2, 0, 1), "A-BC=%.9f": look(triangle.Height, 0, 1, 2), "B-CA=%.9f": look(triangle.Height, 1, 2, 0),
	}
	pairs := 0
	for f, v := range kinds {
		for g, w := range kinds {
			if f >= g {
				continue
			}
			// A third, coarse measurement to D decides where two places would fit.
			text := "AB=5000 " + fmt.Sprintf(f, v) + " " + fmt.Sprintf(g, w)
			n := Net{Measured: measure(t, text), Base: [2]geom.Name{"A", "B"}}
			a, err := Adjust(n)
			if err != nil {
				e, ok := err.(*triangle.NoTriangle)
				if !ok || !strings.Contains(e.What, "two places") && !(strings.HasPrefix(f, "A-BC") && strings.HasPrefix(g, "B-CA")) && !dependent(f, g) {
					t.Errorf("%s: %v", text, err)
				}
				n.Measured = append(n.Measured, measure(t, fmt.Sprintf("AC=%.1f+-30 BC=%.1f+-30", look(triangle.Distance, 0, 2, 0), look(triangle.Distance, 1, 2, 0)))...)
				if a, err = Adjust(n); err != nil {
					t.Errorf("%s and roughly AC and BC: %v", text, err)
					continue
				}
			}
			if p, _ := a.Point("C"); geom.VectorOf(p).To(at[2]) > 1 {
				t.Errorf("%s: C at %v", text, p)
			}
			pairs++
		}
	}
	if pairs != 28 {
		t.Errorf("%d pairs, want 28", pairs)
	}
}

// dependent pairs say the same thing twice once AB is known: A-BC and ABC, B-CA
// and BAC.
func dependent(f, g string) bool {
	both := f + g
	return strings.Contains(both, "A-BC") && strings.Contains(both, "ABC") || strings.Contains(both, "B-CA") && strings.Contains(both, "BAC")
}

// Triangles without a measured side: geom solves the first and the rest hangs on it.
func TestStartWithoutASide(t *testing.T) {
	// 3-4-5 has heights 3, 4 and 2.4 (m).
	a := adjusted(t, Net{Measured: measure(t, "A-BC=3000 C-AB=4000 B-CA=2400 AD=4000 CD=3000"), Outline: names("A B C D"), Base: [2]geom.Name{"A", "B"}})
	for name, want := range map[geom.Name]geom.Vector{"A": {}, "B": {X: 3000, Y: 0}, "C": {X: 3000, Y: 4000}, "D": {X: 0, Y: 4000}} {
		if p, _ := a.Point(name); geom.VectorOf(p).To(want) > 1 {
			t.Errorf("%s at %v, want %v", name, p, want)
		}
	}
}

// The covariance seen from another baseline is the one that an adjustment on
// that baseline has.
func TestSeenFromAnotherBase(t *testing.T) {
	text := read(yardLines, nil) + " ABC=93.8deg+-0.1deg E-AB=1500+-5"
	a := adjusted(t, Net{Outline: names("A B C D"), Measured: measure(t, text), Base: [2]geom.Name{"A", "B"}})
	for _, base := range [][2]geom.Name{{"B", "D"}, {"E", "C"}, {"D", "A"}, {"A", "B"}} {
		b := adjusted(t, Net{Outline: names("A B C D"), Measured: measure(t, text), Base: base})
		for _, n := range a.Names {
			at, c := a.Seen(n, base)
			want, _ := b.Point(n)
			w := b.Covariance(n)
			for _, x := range []float64{float64(c.XX - w.XX), float64(c.YY - w.YY), float64(c.XY - w.XY), float64(at.Distance(want))} {
				if math.Abs(x) > 1e-6 {
					t.Errorf("%s from %v: %v %+v, want %v %+v", n, base, at, c, want, w)
				}
			}
		}
		for i, r := range a.Results {
			if o := b.Results[i]; math.Abs(r.W-o.W) > 1e-7 || math.Abs(r.Redundancy-o.Redundancy) > 1e-8 {
				t.Errorf("%s: the baseline changes what is measured: %+v %+v", r.Measurement.Text, r, o)
			}
		}
		d, s := distance(a, "A", "C")
		e, q := distance(b, "A", "C")
		if math.Abs(float64(d-e)) > 1e-7 || math.Abs(float64(s-q)) > 1e-7 {
			t.Errorf("AC is %v ± %v, and %v ± %v", d, s, e, q)
		}
	}
}

// An outline named clockwise is the piece turned over, and is said.
func TestOutlineDecidesTheHand(t *testing.T) {
	text := read("AB BC CD DA AC", nil)
	a := adjusted(t, Net{Outline: names("A B C D"), Measured: measure(t, text), Base: [2]geom.Name{"A", "B"}})
	b := adjusted(t, Net{Outline: names("D C B A"), Measured: measure(t, text), Base: [2]geom.Name{"A", "B"}})
	c, _ := a.Point("C")
	d, _ := b.Point("C")
	if c.Y <= 0 || math.Abs(float64(c.Y+d.Y)) > 1e-6 {
		t.Errorf("C at %v and %v", c, d)
	}
	if len(a.Doubts)+len(b.Doubts) > 0 {
		t.Error(a.Doubts, b.Doubts)
	}
	if got := a.Polygon(); len(got) != 4 || got[0] != a.Points[0] {
		t.Errorf("outline %v", got)
	}
}

// grid is a net of n points by n/10 in rows, each measured to its nearest, about
// five measurements a point.
func grid(points, measurements int) Net {
	r := rand.New(rand.NewPCG(7, 7))
	rows := 10
	at := make([]geom.Vector, points)
	name := func(i int) geom.Name { return geom.Name(fmt.Sprintf("%c%d", 'A'+i%rows, 1+i/rows)) }
	for i := range at {
		at[i] = geom.Vector{X: float64(i/rows)*4000 + 800*r.Float64(), Y: float64(i%rows)*4000 + 800*r.Float64()}
	}
	var n Net
	add := func(i, j int) {
		if j < 0 || j >= points || len(n.Measured) == measurements {
			return
		}
		token := fmt.Sprintf("%s%s=%.1f+-2", name(i), name(j), at[i].To(at[j])+r.NormFloat64())
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			panic(err)
		}
		n.Measured = append(n.Measured, m)
	}
	for _, step := range []int{1, rows, rows + 1, rows - 1, 2 * rows, 2, 2*rows + 1} {
		for i := range at {
			if across := step % rows; across <= 2 && i%rows+across >= rows || step == rows-1 && i%rows == 0 {
				continue
			}
			add(i, i+step)
		}
	}
	for i := 0; len(n.Measured) < measurements; i++ {
		add(i%points, (i%points)+3*rows)
	}
	return n
}

// The limit of a net that must be done within a second; the time is the
// benchmark's.
func TestLargeNet(t *testing.T) {
	n := grid(200, 1000)
	a := adjusted(t, n)
	if len(a.Names) != 200 || len(a.Results) != 1000 || a.Freedom != 1000-397 {
		t.Fatalf("%d points, %d measurements, %d degrees of freedom", len(a.Names), len(a.Results), a.Freedom)
	}
	if a.Global.Sigma0 < 0.9 || a.Global.Sigma0 > 1.1 {
		t.Errorf("σ₀ is %v where the scatter is 1", a.Global.Sigma0)
	}
}

func BenchmarkLargeNet(b *testing.B) {
	n := grid(200, 1000)
	for b.Loop() {
		if _, err := Adjust(n); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/net")
}

// The same with a slip, which is looked for by adjusting again without suspects.
func BenchmarkLargeNetWithSlip(b *testing.B) {
	n := grid(200, 1000)
	m, err := triangle.ParseMeasurement(n.Measured[500].Subject()+fmt.Sprintf("=%.1f+-2", n.Measured[500].Value.Length().MM()+100), unit.MM)
	if err != nil {
		b.Fatal(err)
	}
	n.Measured[500] = m
	for b.Loop() {
		a, err := Adjust(n)
		if err != nil || a.Suspects[0].Index != 500 {
			b.Fatal(err)
		}
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/net")
}

// Large nets that are not fixed are refused as fast as others are adjusted.
func BenchmarkLargeNetNotFixed(b *testing.B) {
	n := grid(200, 999)
	m, err := triangle.ParseMeasurement("A1Z1=5000", unit.MM)
	if err != nil {
		b.Fatal(err)
	}
	n.Measured = append(n.Measured, m)
	open := grid(200, 380) // points with a choice of two places
	for b.Loop() {
		if _, err := Adjust(n); err == nil {
			b.Fatal("a free point is no error")
		}
		if _, err := Adjust(open); err == nil {
			b.Fatal("two places are no error")
		}
	}
}
