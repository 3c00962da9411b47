package net

import (
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// measure reads tokens that stand in one text, parted by blanks.
func measure(t testing.TB, text string) []triangle.Measurement {
	t.Helper()
	var all []triangle.Measurement
	for _, token := range strings.Fields(text) {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, m)
	}
	return all
}

func names(text string) (all []geom.Name) {
	for _, n := range strings.Fields(text) {
		all = append(all, geom.Name(n))
	}
	return all
}

func adjusted(t testing.TB, n Net) Adjusted {
	t.Helper()
	a, err := Adjust(n)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// far makes distances in metres, longer than a job may have them.
func far(t testing.TB, tolerance string, text string) []triangle.Measurement {
	t.Helper()
	var all []triangle.Measurement
	rat := func(s string) *big.Rat {
		r, ok := new(big.Rat).SetString(s)
		if !ok {
			t.Fatal(s)
		}
		return r.Mul(r, big.NewRat(1000, 1))
	}
	for _, token := range strings.Fields(text) {
		ends, value, _ := strings.Cut(token, "=")
		all = append(all, triangle.Measurement{
			At: [3]geom.Name{geom.Name(ends[:1]), geom.Name(ends[1:])}, Text: token,
			Value: unit.Reading{Value: rat(value), Tolerance: rat(tolerance), Stated: true, Text: value, Unit: unit.M},
		})
	}
	return all
}

// metres is a length in metres with so many decimals.
func metres(l unit.Length, n int) string { return fmt.Sprintf("%.*f", n, l.MM()/1000) }

func is(t *testing.T, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s: %s, published %s", what, got, want)
	}
}

// scaled is the covariance of a point with the σ from the residuals.
func scaled(a Adjusted, n geom.Name) adjust.Covariance {
	c, k := a.Covariance(n), unit.Area(a.Global.Sigma0*a.Global.Sigma0)
	return adjust.Covariance{XX: c.XX * k, YY: c.YY * k, XY: c.XY * k}
}

func known(name geom.Name, x, y unit.Length) Control {
	return Control{name, geom.Point{X: x * unit.Metre, Y: y * unit.Metre}}
}

// G. Strang and K. Borre, Linear Algebra, Geodesy, and GPS, 1997, example 12.4.
// The published σ are scaled by the σ₀ of the adjustment. Their second σ is
// printed 0.02335; SciPy has 0.023354.
func TestStrangBorre(t *testing.T) {
	a := adjusted(t, Net{
		Measured: measure(t, "AP=100.01m+-0.02m BP=100.02m+-0.02m CP=100.03m+-0.02m"),
		Control:  []Control{known("A", 170.71, 270.71), known("B", 100, 100), known("C", 241.42, 100)},
	})
	p, _ := a.Point("P")
	is(t, "x", metres(p.X, 4), "170.7029")
	is(t, "y", metres(p.Y, 4), "170.7234")
	c := scaled(a, "P")
	is(t, "σx", metres(c.X(), 5), "0.03303")
	is(t, "σy", metres(c.Y(), 5), "0.02335")
	if a.Freedom != 1 || a.Results[0].Sigma.Length != 10 {
		t.Errorf("%d degrees of freedom, σ %v", a.Freedom, a.Results[0].Sigma)
	}
}

// W. Benning, Statistik in Geodäsie, Geoinformation und Bauwesen, 2011, example 8-2.
func TestBenning(t *testing.T) {
	a := adjusted(t, Net{
		Measured: far(t, "0.02", "AC=1000.02 AD=1414.20 BC=1414.24 BD=999.98 CD=1000.00"),
		Control:  []Control{known("A", 0, 1000), known("B", 1000, 1000)},
		Sides:    []Side{{Point: "C", Of: [2]geom.Name{"A", "B"}, Right: true}},
	})
	c, _ := a.Point("C")
	d, _ := a.Point("D")
	is(t, "3 x", metres(c.X, 4), "-0.0096")
	is(t, "3 y", metres(c.Y, 4), "-0.0226")
	is(t, "4 x", metres(d.X, 4), "999.9930")
	is(t, "4 y", metres(d.Y, 4), "0.0174")
	for i, want := range []string{"0.0026", "-0.0037", "-0.0037", "0.0026", "0.0026"} {
		is(t, a.Results[i].Measurement.Subject(), metres(a.Results[i].Residual.Length, 4), want)
	}
}

// C. D. Ghilani, Adjustment Computations, 5th edition 2010, example 14.5.
func TestGhilani(t *testing.T) {
	// B is Ba, D is Bu. All weights are equal; the published σ are scaled.
	a := adjusted(t, Net{
		Measured: far(t, "1", "BW=5870.302 BC=7297.588 WC=3616.434 WD=5742.878 CD=5123.760"),
		Control:  []Control{known("B", 2410000, 390000), known("D", 2411820, 386881.222)},
		Sides:    []Side{{Point: "W", Of: [2]geom.Name{"B", "D"}}},
	})
	w, _ := a.Point("W")
	c, _ := a.Point("C")
	is(t, "W x", metres(w.X, 4), "2415776.9044")
	is(t, "W y", metres(w.Y, 4), "391043.2945")
	is(t, "C x", metres(c.X, 4), "2416892.6955")
	is(t, "C y", metres(c.Y, 4), "387603.2551")
	s := scaled(a, "W")
	is(t, "σx", metres(s.X(), 5), "0.14879")
	is(t, "σy", metres(s.Y(), 5), "0.22061")
}

// The ellipse of the formula, against the covariance's own eigenvalues: that is
// what its half axes are (any text on error ellipses), here in closed form for a
// matrix made from axes of 5 and 2 turned by 30°.
func TestEllipse(t *testing.T) {
	s, c := math.Sincos(math.Pi / 6)
	k := adjust.Covariance{XX: unit.Area(25*c*c + 4*s*s), YY: unit.Area(25*s*s + 4*c*c), XY: unit.Area(21 * s * c)}
	e := k.Ellipse()
	if math.Abs(e.Major.MM()-5) > 1e-12 || math.Abs(e.Minor.MM()-2) > 1e-12 || math.Abs(e.Turn.Degrees()-30) > 1e-12 {
		t.Errorf("%+v", e)
	}
	if got := k.Along(math.Pi / 6).MM(); math.Abs(got-5) > 1e-12 {
		t.Errorf("σ along the long axis is %v", got)
	}
	if back := k.Turned(-math.Pi / 6); math.Abs(float64(back.XX)-25) > 1e-12 || math.Abs(float64(back.XY)) > 1e-12 {
		t.Errorf("turned back: %+v", back)
	}
	// 95 % at 2.4477 where σ is known.
	if got := fmt.Sprintf("%.4f", e.Within95().Major.MM()/5); got != "2.4477" {
		t.Errorf("factor %s", got)
	}
}

// Tolerances after Directive 2014/32/EU, annex X: 5 m of class II 1.3 mm, 10 m
// 2.3 mm; 10 m of class III 4.6 mm.
func TestTapeClasses(t *testing.T) {
	for _, c := range []struct {
		tape tape.Tape
		l    unit.Length
		want float64
	}{
		{tape.Tape{Class: tape.ClassII}, 5000, 1.3}, {tape.Tape{Class: tape.ClassII}, 10000, 2.3}, {tape.Tape{Class: tape.ClassIII}, 10000, 4.6},
		{tape.Tape{Class: tape.ClassI}, 10000, 1.1}, {tape.Tape{Class: tape.ClassII, Hook: true}, 4200, 1.5}, {tape.Tape{}, 4000.0000000001, 1.1},
	} {
		if got := c.tape.Error(c.l).MM(); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v over %v: %v, want %v", c.tape, c.l, got, c.want)
		}
	}
	if got, want := (tape.Tools{}).Pull(5000).MM(), math.Hypot(1.3/math.Sqrt(3), 0.5); math.Abs(got-want) > 1e-12 {
		t.Errorf("σ of a pull is %v, want %v", got, want)
	}
}

// Tables of the χ² distribution, 95 %: 3.841, 7.815, 18.307 for 1, 3 and 10
// degrees of freedom; of the normal one: 3.29 is passed once in a thousand.
func TestTestsAgainstTables(t *testing.T) {
	for f, want := range map[int]string{1: "3.841", 3: "7.815", 10: "18.307"} {
		is(t, fmt.Sprintf("χ² of %d", f), fmt.Sprintf("%.3f", limit(f, chanceOfSum)), want)
	}
	if p := math.Erfc(Critical / math.Sqrt2); math.Abs(p-0.001) > 1e-6 {
		t.Errorf("|w| > %v has a chance of %v", Critical, p)
	}
	for _, n := range []int{1, 12, 700} {
		if p := 1 - math.Pow(math.Erf(CriticalOf(n)/math.Sqrt2), float64(n)); math.Abs(p-0.001) > 1e-9 {
			t.Errorf("the largest of %d is over %v with a chance of %v", n, CriticalOf(n), p)
		}
	}
	if p := math.Erfc((Critical-NoticedAt)/math.Sqrt2) / 2; math.Abs(p-0.8) > 1e-4 {
		t.Errorf("a slip of %v σ is noticed with a chance of %v", NoticedAt, p)
	}
}

// Where no tolerance is stated σ is of the tools and half of the last digit:
// 7400 mm of class II has 0.3 + 0.2·8 = 1.9 mm.
func TestSigmaOfTheTools(t *testing.T) {
	text := "AB=7400 BC=7400 CA=7400 ABC=60deg"
	sigma := func(tools tape.Tools, i int) adjust.Figure {
		return adjusted(t, Net{Measured: measure(t, text), Tools: tools}).Results[i].Sigma
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-3*want {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	root := func(x ...float64) (r float64) {
		for _, v := range x {
			r = math.Hypot(r, v)
		}
		return r
	}
	near("class II", sigma(tape.Tools{}, 0).Length.MM(), root(1.9/math.Sqrt(3), 0.5, 0.5/math.Sqrt(3)))
	near("class I with a hook, ±2 mm", sigma(tape.Tools{Tape: tape.Tape{Class: tape.ClassI, Hook: true}, Reading: 2}, 0).Length.MM(), root(1.0/math.Sqrt(3), 1, 0.5/math.Sqrt(3)))
	// An equilateral triangle of side s: targets c√2/s, instrument c·s/(s²√2).
	c := root(0.5*math.Sqrt2/7400, 0.5/(7400*math.Sqrt2)) * 180 / math.Pi
	near("protractor", sigma(tape.Tools{}, 3).Angle.Degrees(), root(0.25, c, 0.5/math.Sqrt(3)))
	c *= 2
	near("theodolite", sigma(tape.Tools{Instrument: tape.Theodolite}, 3).Angle.Degrees(), root(10.0/3600, c, 0.5/math.Sqrt(3)))
	near("stated", adjusted(t, Net{Measured: measure(t, "AB=7400+-3 BC=7400 CA=7400")}).Results[0].Sigma.Length.MM(), 1.5)
}
