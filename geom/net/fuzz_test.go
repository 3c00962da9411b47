package net

import (
	"errors"
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Whatever is measured: an answer in which every figure is finite and the
// residuals are those of the points, or one of the two kinds of refusal.
func FuzzAdjust(f *testing.F) {
	f.Add("AB=4000 BC=3000 CD=4000 DA=3000 AC=5000", "A B C D", "")
	f.Add("AB=4000 BC=3000 CA=5000 B=90deg C-AB=3000+-2", "", "BC")
	f.Add("A-BC=3000 C-AB=4000 B-CA=2400 AD=4000 CD=3000", "A B C D", "")
	f.Add("AB=4000 BAC=30deg ABC=40deg D-AB=100 AD=2000 DCB=20deg", "A B C", "")
	f.Add("AB=1 BC=1 CA=2 AD=1 BD=1000000", "", "AB")
	f.Add("AB=4000 BC=3000 CA=5000 DE=3000 EF=3000 FD=3000", "", "")
	f.Fuzz(func(t *testing.T, tokens, outline, base string) {
		var n Net
		for _, token := range strings.Fields(tokens) {
			if m, err := triangle.ParseMeasurement(token, unit.MM); err == nil && len(n.Measured) < 40 {
				n.Measured = append(n.Measured, m)
			}
		}
		n.Outline = names(outline)
		if len(base) == 2 {
			n.Base = [2]geom.Name{geom.Name(base[:1]), geom.Name(base[1:])}
		}
		a, err := Adjust(n)
		var fault *unit.Fault
		var no *triangle.NoTriangle
		if err != nil {
			if !errors.As(err, &fault) && !errors.As(err, &no) || strings.Contains(err.Error(), "%!") {
				t.Fatalf("%T %v", err, err)
			}
			return
		}
		sum := 0.0
		for i, r := range a.Results {
			m := n.Measured[i]
			v, s := r.Residual.Bare(m.Kind), r.Sigma.Bare(m.Kind)
			sum += v * v / (s * s)
			for _, x := range []float64{v, s, r.After.Bare(m.Kind), r.Redundancy, r.W, r.Noticed.Bare(m.Kind)} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("%+v", r)
				}
			}
		}
		if math.Abs(sum-a.Sum) > 1e-9*(1+sum) {
			t.Errorf("Σ is %v, its parts %v", a.Sum, sum)
		}
		for _, name := range a.Names {
			p, _ := a.Point(name)
			if c := a.Covariance(name); math.IsNaN(float64(p.X+p.Y)+float64(c.XX+c.YY+c.XY)) || c.XX < 0 || c.YY < 0 {
				t.Errorf("%s: %v %+v", name, p, c)
			}
		}
		if math.IsNaN(a.Global.Sigma0) {
			t.Error(a.Global)
		}
	})
}
