package geom

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"trammel/geom/unit"
)

// distortion.py: scipy.linalg.sqrtm and scipy.optimize.least_squares.
func TestDistortionsOfSciPy(t *testing.T) {
	file, err := os.Open("testdata/distortion.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	maps, fits := 0, 0
	lines := bufio.NewScanner(file)
	next := func(format string, to ...any) {
		t.Helper()
		if _, err := fmt.Sscanf(lines.Text(), format, to...); err != nil {
			t.Fatalf("%q: %v", lines.Text(), err)
		}
	}
	for lines.Scan() {
		var d Distortion
		var skew float64
		if lines.Text()[:3] == "map" {
			var a, b, e float64
			next("map %g %g %g %g %g %g", &d.Across, &d.Along, &skew, &a, &b, &e)
			d.Skew = unit.Angle(skew) * unit.Degree
			m := d.Affine()
			for i, want := range [6]float64{a, b, b, e, 0, 0} {
				if math.Abs(m[i]-want) > 1e-14 {
					t.Errorf("%v: term %d is %v, scipy has %v", d, i, m[i], want)
				}
			}
			back := distortionOf(m)
			if math.Abs(back.Across-d.Across)+math.Abs(back.Along-d.Along)+math.Abs(float64(back.Skew-d.Skew)) > 1e-14 {
				t.Errorf("%v comes back as %v", d, back)
			}
			maps++
			continue
		}
		var n int
		next("fit %d", &n)
		spans := make([]Span, n)
		for i := range spans {
			lines.Scan()
			s := &spans[i]
			next("%g %g %g %g", &s.Over.X, &s.Over.Y, &s.Found, &s.Step)
		}
		lines.Scan()
		var u float64
		next("is %g %g %g %g", &d.Across, &d.Along, &skew, &u)
		f, err := FitDistortion(spans)
		if err != nil {
			t.Fatal(err)
		}
		// scipy stops at about 1e-8 of the sum of squares.
		if math.Abs(f.Across-d.Across) > 1e-9 || math.Abs(f.Along-d.Along) > 1e-9 || math.Abs(f.Skew.Degrees()-skew) > 1e-6 {
			t.Errorf("fit %v, scipy has %v, %v°", f.Distortion, d, skew)
		}
		if got := f.Uncertainty(); math.Abs(got/u-1) > 0.01 {
			t.Errorf("uncertainty %v, 400 000 random sets of errors have %v", got, u)
		}
		fits++
	}
	if maps != 40 || fits != 12 {
		t.Errorf("read %d maps and %d fits", maps, fits)
	}
}

// Lengths without any error give the distortion back, and what undoes it leaves
// every length as it was.
func TestDistortionIsFoundAndUndone(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	for range 200 {
		d := Distortion{random.Float64()*0.06 - 0.03, random.Float64()*0.06 - 0.03, unit.Angle(random.Float64()*2-1) * unit.Degree}
		m := d.Affine()
		var spans []Span
		for _, v := range []Point{{190, 0}, {0, 277}, {190, 277}, {-190, 277}} {
			spans = append(spans, Span{Over: v, Found: m.Apply(v).Distance(Point{}), Step: 0.25})
		}
		f, err := FitDistortion(spans)
		if err != nil {
			t.Fatal(err)
		}
		if e := math.Abs(f.Across-d.Across) + math.Abs(f.Along-d.Along) + math.Abs(float64(f.Skew-d.Skew)); e > 1e-13 {
			t.Errorf("%v is found as %v", d, f.Distortion)
		}
		back, ok := f.Affine().Inverse()
		if !ok {
			t.Fatal("no inverse")
		}
		p, q := Point{100, -2000}, Point{5000, 3000}
		if got := m.Apply(back.Apply(p)).Distance(m.Apply(back.Apply(q))); math.Abs(float64(got-p.Distance(q))) > 1e-9 {
			t.Errorf("%v: %v instead of %v", d, got, p.Distance(q))
		}
		// Worst against the singular values as the circle has them.
		worst := 0.0
		for i := range 3600 {
			l := m.Apply(Point{}.Toward(unit.Angle(i)*unit.Turn/3600, 1)).Distance(Point{})
			worst = max(worst, math.Abs(float64(l)-1))
		}
		if math.Abs(worst-d.Worst()) > 1e-6 {
			t.Errorf("%v: worst %v, round the circle %v", d, d.Worst(), worst)
		}
		// On its side: across is along; turning the map by a quarter either way agrees.
		quarter := Affine{0, 1, -1, 0, 0, 0}
		three := Affine{0, -1, 1, 0, 0, 0}
		for _, turned := range []Affine{three.After(m).After(quarter), quarter.After(m).After(three)} {
			g := distortionOf(turned)
			if w := d.Turned(); math.Abs(g.Across-w.Across)+math.Abs(g.Along-w.Along)+math.Abs(float64(g.Skew-w.Skew)) > 1e-13 {
				t.Errorf("%v on its side is %v, turned %v", d, g, w)
			}
		}
	}
}

// distortionOf is what a map does to lines across and along.
func distortionOf(m Affine) Distortion {
	x, y := math.Hypot(m[0], m[1]), math.Hypot(m[2], m[3])
	return Distortion{Across: x - 1, Along: y - 1, Skew: unit.Angle(-math.Asin((m[0]*m[2] + m[1]*m[3]) / (x * y)))}
}

func TestAffine(t *testing.T) {
	m, n := Affine{1.01, 0.02, -0.03, 0.99, 5, -7}, Affine{0.5, -0.1, 0.2, 2, -1, 3}
	p := Point{12, 34}
	if got, want := m.After(n).Apply(p), m.Apply(n.Apply(p)); got.Distance(want) > 1e-12 {
		t.Errorf("after: %v, want %v", got, want)
	}
	back, ok := m.Inverse()
	if !ok || back.Apply(m.Apply(p)).Distance(p) > 1e-12 {
		t.Errorf("inverse: %v", back)
	}
	if _, ok := (Affine{1, 2, 2, 4, 0, 0}).Inverse(); ok {
		t.Error("a map that flattens the plane has an inverse")
	}
	c := Point{105, 148.5}
	if got := m.About(c).Apply(c); got.Distance(c) > 1e-12 {
		t.Errorf("the centre goes to %v", got)
	}
}

func TestFitRefusesTooFewDirections(t *testing.T) {
	for _, v := range [][]Point{{{190, 0}, {0, 277}}, {{190, 0}, {0, 277}, {95, 0}, {0, -277}}, {{1, 1}, {2, 2}, {3, 3}, {4, 4}}, nil} {
		var spans []Span
		for _, p := range v {
			spans = append(spans, Span{Over: p, Found: p.Distance(Point{}), Step: 0.25})
		}
		if f, err := FitDistortion(spans); err == nil {
			t.Errorf("%v: %v", v, f.Distortion)
		}
	}
}

// The parallelogram law (Euclid; common knowledge): 3-4-5 closes, and a diagonal
// 1 mm too long opens by 1 mm.
func TestClosing(t *testing.T) {
	if c := Closing(300, 400, 500, 500); c != 0 {
		t.Errorf("3-4-5 is open by %v", c)
	}
	if c := Closing(300, 400, 501, 500); math.Abs(float64(c)-1) > 0.01 {
		t.Errorf("open by %v, want 1", c)
	}
	if c := Closing(300, 401, 500, 500); math.Abs(float64(c)+2*0.8) > 0.01 {
		t.Errorf("open by %v, want −1.6", c)
	}
}
