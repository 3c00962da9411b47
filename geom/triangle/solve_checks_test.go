package triangle

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// W. Kahan, Miscalculating Area and Angles of a Needle-like Triangle (1999,
// rev. 2014): sides as printed there, area and angle C computed at 50 digits.
// Some are sides that Solve refuses as too short, so the figures are taken below it.
func TestKahan(t *testing.T) {
	for _, c := range []struct {
		a, b, c string
		area, C float64 // area 0: flat; −1: not a triangle
	}{
		{"10", "10", "10", 43.301270189222, 60},
		{"100000", "99999.99979", "0.00029", 9.9999999895, 1.1459155914649e-7},
		{"100000", "100000", "1.00005", 50002.499999375, 5.7298644302297e-4},
		{"10000", "5000.000001", "15000", 612.37243572131, 179.99859654576},
		{"99999.99999", "99999.99999", "200000", -1, 0},
		{"5278.64055", "94721.35941", "99999.99996", 0, 180},
		{"100002", "100002", "200004", 0, 180},
		{"31622.77662", "0.0155555", "31622.77661", 245.95399999480, 89.963152772674},
	} {
		s := sides{decimal(t, c.a), decimal(t, c.b), decimal(t, c.c)}
		_, over := s.reach()
		if want := map[bool]int{c.area > 0: 1, c.area == 0: 0, c.area < 0: -1}[true]; over.sign() != want {
			t.Errorf("%v: reach %v, want sign %d", c, over, want)
			continue
		}
		if c.area <= 0 {
			continue
		}
		tri := figuresOf(s).triangle([3]geom.Name{"A", "B", "C"}, 2)
		if relative(float64(tri.Area), c.area) > 1e-13 || relative(tri.Angles[2].Degrees(), c.C) > 1e-13 {
			t.Errorf("%v: area %.14g, C %.14g", c, tri.Area, tri.Angles[2].Degrees())
		}
	}
	// the second row's other angle
	s := sides{decimal(t, "100000"), decimal(t, "99999.99979"), decimal(t, "0.00029")}
	if A := figuresOf(s).triangle([3]geom.Name{"A", "B", "C"}, 2).Angles[0].Degrees(); relative(A, 136.397180970) > 1e-11 {
		t.Errorf("A = %.12g, want 136.397180970", A)
	}
}

func decimal(t testing.TB, s string) number {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		t.Fatal(s)
	}
	return exact(r)
}

// Values from outside: each row names its source. The figures after | are
// those of the first answer, then of the second after a further |.
func TestWorkedExamples(t *testing.T) {
	const openStax = "OpenStax, Algebra and Trigonometry 2e, §10.1–10.2"
	for _, c := range []struct {
		source, given string
		most          float64 // half of the last digit printed
		want          []string
	}{
		{openStax, "A=50deg C=30deg BC=10", 5e-5, []string{"CA=12.8558 AB=6.5270"}},
		{openStax, "A=35deg C=73deg AB=20", 5e-5, []string{"BC=11.9957 CA=19.8902"}},
		{openStax, "A=37deg B=49deg AB=5", 5e-5, []string{"CA=3.7828"}},
		{openStax, "BC=10 AB=12 B=30deg", 5e-5, []string{"CA=6.0128 A=56.2591 C=93.7409"}},
		{openStax, "C=121deg BC=21 CA=37", 5e-5, []string{"AB=51.0918 A=20.6291 B=38.3709"}},
		{openStax, "BC=5 CA=7 AB=10", 5e-5, []string{"A=27.6604 B=40.5358 C=111.8037"}},
		{openStax, "BC=20 CA=25 AB=18", 5e-5, []string{"A=52.4105 B=82.0968 C=45.4927"}},
		{openStax, "A=35deg BC=6 CA=8", 5e-5, []string{"AB=10.4190", "AB=2.6874"}},
		{openStax, "A=80deg BC=120 CA=121", 5e-5, []string{"AB=35.1705", "AB=6.8523"}},
		{openStax, "C=113deg CA=10 AB=32", 5e-5, []string{"BC=26.7402"}},
		{openStax, "C=90deg A=60deg AB=20", 5e-7, []string{"CA=10 BC=17.320508"}},
		// the printed 4638.15 and 1997.5 carry a rounded angle and are wrong
		{"two arcs over a base, computed at 50 digits", "AB=6000 CA=5050 BC=2420", 5e-6, []string{"C-AB=1999.77699"}},
		{"laws of sines and cosines, computed at 50 digits", "AB=640 CA=455 A=52deg", 5e-10,
			[]string{"BC=507.999760601 A-BC=451.710314152 B-CA=504.326882308 C-AB=358.544892891 B=44.893998077 C=83.106001923"}},
		{"Euclid I.47 and the square at a peg", "A=90deg AB=3000 BC=5000", 0, []string{"CA=4000 C-AB=4000 A-BC=2400"}},
		{"sin 30° = 1/2: the arc touches the ray", "A=30deg AB=20 BC=10", 1e-6, []string{"C=90 CA=17.320508"}},
		{"sin 30° = 1/2: the arc touches the ray", "A=30deg AB=20 B-CA=10 BC=10", 1e-6, []string{"C=90 CA=17.320508"}},
		{"equilateral", "A=60deg B=60deg AB=10", 1e-14, []string{"C=60 BC=10 CA=10"}},
		{"equilateral", "A=60deg CA=10 AB=10", 1e-14, []string{"C=60 BC=10 B=60"}},
		{"right isosceles, the highest over its hypotenuse", "C=90deg AB=10 C-AB=5", 1e-14, []string{"A=45 B=45"}},
		{"isosceles", "AB=6 BC=5 B-CA=4.8 C-AB=4", 1e-14, []string{"CA=5"}},
		{"3-4-5 by its heights", "A-BC=3 B-CA=4 C-AB=2.4", 0, []string{"BC=4 CA=3 AB=5 C=90"}},
		{"3-4-5 by two sides and the height between", "CA=3 BC=4 C-AB=2.4", 0, []string{"AB=5 C=90", "AB=1.4"}},
		{"3-4-5 by a side and the heights from its ends", "AB=5 A-BC=3 B-CA=4", 1e-14, []string{"C=90 BC=4 CA=3", "BC=14.28571428571428571 B=36.8698976458440213"}},
		{"3-4-5 by a side, its height and another", "AB=5 C-AB=2.4 A-BC=3", 0, []string{"C=90 BC=4 CA=3", "BC=4"}},
	} {
		s := solved(t, c.given)
		if len(s.Answers) != len(c.want) {
			t.Errorf("%s (%s): %d answers, want %d", c.given, c.source, len(s.Answers), len(c.want))
			continue
		}
		for i, want := range c.want {
			for _, figure := range strings.Fields(want) {
				what, value, _ := strings.Cut(figure, "=")
				v, _ := decimal(t, value).float().Float64()
				if got := get(t, s.Answers[i].Triangle, what); !(math.Abs(got-v) <= c.most) {
					t.Errorf("%s (%s), answer %d: %s is %.12g, want %s", c.given, c.source, i+1, what, got, value)
				}
			}
		}
	}
	foot := solved(t, "AB=6000 CA=5050 BC=2420").Answers[0].Triangle.Points[2].X
	if math.Abs(float64(foot)-4637.175) > 1e-9 {
		t.Errorf("the foot lies at %v, want 4637.175", foot)
	}
}

// The example of the report's format: points to the digits printed.
func TestReportExample(t *testing.T) {
	tri := solved(t, "AB=640 CA=455 A=52deg").Answers[0].Triangle
	want := [3]geom.Point{{}, {X: 640}, {X: 280.126, Y: 358.545}}
	for i := range want {
		if d := tri.Points[i].Distance(want[i]); d > 0.0008 || tri.Names[i] != [3]geom.Name{"A", "B", "C"}[i] {
			t.Errorf("%s lies at %v, want %v", tri.Names[i], tri.Points[i], want[i])
		}
	}
	if math.Abs(float64(tri.Area)-114734.4) > 0.05 || math.Abs(float64(tri.Perimeter)-1603) > 5e-4 {
		t.Errorf("area %v, perimeter %v", tri.Area, tri.Perimeter)
	}
}

// Tangent by the decimals as written: 30° is exact, and 3:4 as a slope has the
// sine 3/5 though its degrees are irrational.
func TestTangentAsWritten(t *testing.T) {
	for given, answers := range map[string]int{
		"A=30deg AB=20 BC=10":                       1,
		"A=30deg AB=20 BC=10.000000000000000000001": 2,
		"A=30deg AB=20 BC=9.999999999999999999999":  0,
		"A=150deg AB=20 BC=20":                      0,
		"A=150deg AB=20 BC=22.00000000000000000001": 1,
		"AB=20 BC=10 A-BC=20":                       1,
		"AB=20 BC=10 A-BC=19.99999999999999999999":  2,
		"AB=20 BC=10 A-BC=20.00000000000000000001":  0,
		"BC=20 A=90deg A-BC=10":                     1,
		"BC=20 A=90deg A-BC=9.99999999999999999999": 2,
		"AB=20 A=30deg BC=20":                       1,
	} {
		s, err := Solve(measure(t, given), [2]geom.Name{})
		if len(s.Answers) != answers || (err == nil) != (answers > 0) {
			t.Errorf("%s: %d answers (%v), want %d", given, len(s.Answers), err, answers)
		}
	}
	slope, err := ParseMeasurement("A=3:4", unit.MM)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Solve(append(measure(t, "AB=50 BC=30"), slope), [2]geom.Name{})
	if err != nil || len(s.Answers) != 1 || get(t, s.Answers[0].Triangle, "CA") != 40 {
		t.Errorf("A=3:4 AB=50 BC=30: %v, %v; want one, with CA=40", s.Answers, err)
	}
}

// The limits of a side: 1 mm to 1 km, measured or computed.
func TestLimits(t *testing.T) {
	for _, given := range []string{"AB=0.99 BC=3 CA=3", "AB=1000001 BC=1000000 CA=3", "C-AB=1000001 AB=10 CA=20"} {
		_, err := Solve(measure(t, given), [2]geom.Name{})
		var fault *unit.Fault
		if !errors.As(err, &fault) || !strings.Contains(fault.Hint, "1 mm to 1 km") {
			t.Errorf("%s: %v, want the limits", given, err)
		}
	}
	for _, given := range []string{"AB=2000 A=89.95deg B=90deg", "AB=2 A=10deg B=10.5deg C-AB=0.1", "BC=2 B=1deg A-BC=0.02"} {
		_, err := Solve(measure(t, given), [2]geom.Name{})
		var none *NoTriangle
		if !errors.As(err, &none) || !strings.Contains(none.What, "1 mm to 1 km") {
			t.Errorf("%s: %v, want the limits", given, err)
		}
	}
	if s := solved(t, "AB=1000000 BC=1000000 CA=1"); len(s.Answers) != 1 {
		t.Errorf("a needle of 1 km and 1 mm: %d answers", len(s.Answers))
	}
	s := solved(t, "AB=100 BC=99.5 A=10deg") // the second has CA = 0.5 mm
	if last := s.Answers[0].Doubts; len(s.Answers) != 1 || len(last) == 0 || last[len(last)-1].Code != LeftOut {
		t.Errorf("%d answers, doubts %+v: want one and a word about the other", len(s.Answers), last)
	}
}
