package triangle

import (
	"bufio"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"trammel/geom"
)

// Of 300 sets of four to nine measurements against SciPy's least_squares
// (testdata/adjust.py).
func TestAdjustedAgainstSciPy(t *testing.T) {
	file, err := os.Open("testdata/adjust.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, worst := 0, 0.0
	for in := bufio.NewScanner(file); in.Scan(); lines++ {
		if lines%adjustEvery != 0 {
			continue
		}
		given, want, _ := strings.Cut(in.Text(), " | ")
		var w plain
		if _, err := fmt.Sscan(want, &w[0], &w[1], &w[2]); err != nil {
			t.Fatal(err)
		}
		s, err := Solve(measure(t, given), [2]geom.Name{})
		if err != nil {
			t.Errorf("%s: %v", given, err)
			continue
		}
		best := math.Inf(1)
		for _, a := range s.Answers {
			got := plain{get(t, a.Triangle, "BC"), get(t, a.Triangle, "CA"), get(t, a.Triangle, "AB")}
			best = min(best, got.change(w))
		}
		if best > 1e-7 {
			t.Errorf("%s: off by %.3g of the longest side", given, best)
		}
		worst = max(worst, best)
	}
	if lines != 300 {
		t.Fatalf("%d lines, want 300", lines)
	}
	t.Logf("worst %.2g of the longest side", worst)
}

// Sets that agree exactly come out exactly, whatever their tolerances.
func TestExactSetsStayExact(t *testing.T) {
	for _, given := range []string{
		"AB=3 BC=4 CA=5 B=90deg",
		"B=90deg CA=5 BC=4 AB=3",
		"AB=3+-0 BC=4+-0 CA=5+-0 B=90deg+-0",
		"AB=3 BC=4 CA=5 B=90deg A-BC=3 C-AB=4 B-CA=2.4",
		"AB=3 BC=4 B=90deg C-AB=4",
		"A-BC=3 C-AB=4 B-CA=2.4 B=90deg",
	} {
		s := solved(t, given)
		if len(s.Answers) != 1 {
			t.Errorf("%s: %d answers", given, len(s.Answers))
			continue
		}
		tri := s.Answers[0].Triangle
		for what, want := range map[string]float64{"AB": 3, "BC": 4, "CA": 5, "B": 90, "B-CA": 2.4} {
			if got := get(t, tri, what); got != want {
				t.Errorf("%s: %s is %v, want %v", given, what, got, want)
			}
		}
		for i, r := range s.Answers[0].Residuals {
			if r != (Residual{}) {
				t.Errorf("%s: residual %d is %v", given, i, r)
			}
		}
	}
}

// The misclosure of three angles measured alike is shared equally (common
// practice in surveying); a side measured once takes no part in it.
func TestAnglesShareTheirMisclosure(t *testing.T) {
	s := solved(t, "AB=1000 A=60.5deg+-0.5 B=60.2deg+-0.5 C=60deg+-0.5")
	for what, want := range map[string]float64{"A": 60.5 - 0.7/3, "B": 60.2 - 0.7/3, "C": 60 - 0.7/3, "AB": 1000} {
		if got := get(t, s.Answers[0].Triangle, what); relative(got, want) > 1e-12 {
			t.Errorf("%s = %.15g, want %.15g", what, got, want)
		}
	}
	for i, r := range s.Answers[0].Residuals[1:] {
		if math.Abs(r.Angle.Degrees()+0.7/3) > 1e-12 {
			t.Errorf("residual %d is %v°, want −0.2333", i+1, r.Angle.Degrees())
		}
	}
}

// Two answers of which a further measurement leaves one.
func TestFurtherMeasurementPicks(t *testing.T) {
	for given, want := range map[string]float64{
		"AC=8 BC=6 A=35deg AB=10.4": 10.4, "AC=8 BC=6 A=35deg AB=2.7": 2.7,
		"AC=8 BC=6 A=35deg B=50deg": 10.4, "AC=8 BC=6 A=35deg B=130deg": 2.7,
		"AC=800.0 BC=600.0 A=35.00deg B-CA=597.6": 1042, "AC=800.0 BC=600.0 A=35.00deg B-CA=154.1": 269,
	} {
		s := solved(t, given)
		if got := get(t, s.Answers[0].Triangle, "AB"); len(s.Answers) != 1 || relative(got, want) > 0.01 {
			t.Errorf("%s: %d answers, AB = %v, want one with %v", given, len(s.Answers), got, want)
		}
	}
	// the height from C follows from CA and A, and so tells nothing
	if s := solved(t, "AC=800.0 BC=600.0 A=35.00deg C-AB=458.9"); len(s.Answers) != 2 {
		t.Errorf("%d answers, want both", len(s.Answers))
	}
}

// With the rest held, a measurement is accepted up to its tolerance and no further.
func TestToleranceIsTheLimit(t *testing.T) {
	const held = "AB=300+-0 BC=400+-0 B=90deg+-0 "
	for token, ok := range map[string]bool{
		"CA=500.05+-0.05": true, "CA=500.051+-0.05": false, "CA=499.95+-0.05": true, "CA=499.949+-0.05": false,
		"CA=500+-0": true, "CA=500.001+-0": false, "CA=501": false, "CA=500": true,
		"C-AB=400.4": false, "C-AB=400.4+-0.5": true,
		"A=53.13deg": true, "A=53.1deg": true, "A=53deg": true, "A=53.2deg": false,
	} {
		s, err := Solve(measure(t, held+token), [2]geom.Name{})
		if (err == nil) != ok {
			t.Errorf("%s%s: %v, want accepted %v", held, token, err, ok)
			continue
		}
		if ok && (relative(get(t, s.Answers[0].Triangle, "AB"), 300) > 1e-8 || relative(get(t, s.Answers[0].Triangle, "B"), 90) > 1e-8) {
			t.Errorf("%s%s: what has no tolerance was moved: %v", held, token, s.Answers[0].Triangle)
		}
	}
	// tolerances add up: 300 ± 0.5, 400 ± 0.5 and 501 ± 0.5 allow a right angle
	if _, err := Solve(measure(t, "AB=300 BC=400 CA=501 B=90deg+-0"), [2]geom.Name{}); err != nil {
		t.Error(err)
	}
}

// measured writes quantities of a triangle with errors of at most share
// tolerances, and adds so many tolerances to measurement slip (−1: none).
func measuredWithErrors(r *rand.Rand, p plain, which []int, share float64, slip int, by float64) string {
	text := ""
	for i, q := range which {
		tol, unit := []float64{0.5, 1, 2}[r.IntN(3)], ""
		if Quantity(q).Kind() == Angle {
			tol, unit = []float64{0.05, 0.1, 0.3}[r.IntN(3)], "deg"
		}
		v := p.measure(Quantity(q)) + share*tol*(2*r.Float64()-1)
		if i == slip {
			v += by * tol
		}
		text += fmt.Sprintf("%s=%.6f%s+-%g ", quantityNames[q], v, unit, tol)
	}
	return text
}

// What is measured within its tolerances is never refused, and the triangle
// measured is among the answers, as near as the tolerances let it be.
func TestConsistentSetsAreAccepted(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for range consistentSets {
		p := randomSides(r).plain()
		if a, _, c := p.ordered(); c < 100 || p.twiceArea() < 0.1*a*a {
			continue
		}
		text := measuredWithErrors(r, p, r.Perm(9)[:4+r.IntN(6)], 0.999, -1, 0)
		s, err := Solve(measure(t, text), [2]geom.Name{})
		if err != nil {
			t.Errorf("%s (sides %v): %v", text, p, err)
			continue
		}
		best := math.Inf(1)
		for _, a := range s.Answers {
			best = min(best, p.change(plain{get(t, a.Triangle, "BC"), get(t, a.Triangle, "CA"), get(t, a.Triangle, "AB")}))
		}
		if best > 0.1 {
			t.Errorf("%s: sides %v, off by %.2g", text, p, best)
		}
	}
}

// One measurement of five or more is off by 20 to 200 tolerances: it is named.
func TestTheOneThatSlippedIsNamed(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	var tried, named [10]int
	for range slippedSets {
		p := randomSides(r).plain()
		if a, _, c := p.ordered(); c < 200 || p.twiceArea() < 0.2*a*a {
			continue
		}
		n := 5 + r.IntN(5)
		which := r.Perm(9)[:n]
		slip := r.IntN(n)
		text := measuredWithErrors(r, p, which, 0.5, slip, 20+180*r.Float64())
		_, err := Solve(measure(t, text), [2]geom.Name{})
		tried[n]++
		var none *NoTriangle
		if errors.As(err, &none) && strings.HasPrefix(none.What, strings.Fields(text)[slip]+" disagrees with the other "+count(n-1)) {
			named[n]++
		}
	}
	all, right := 0, 0
	for n := 5; n < 10; n++ {
		all, right = all+tried[n], right+named[n]
		if tried[n] < slippedSets/20 {
			t.Fatalf("only %d sets of %d", tried[n], n)
		}
	}
	if float64(right) < 0.9*float64(all) {
		t.Errorf("named %v of %v", named, tried)
	}
	t.Logf("named %d of %d (five to nine measurements: %v of %v)", right, all, named[5:], tried[5:])
}

// More than one wrong, and sets of which no part makes a triangle.
func TestNothingAgrees(t *testing.T) {
	for given, want := range map[string]string{
		"AB=300.0 BC=400.0 CA=500.0 C-AB=350.0 A=60.0deg": "no four of the five measurements agree: at least two are wrong",
		"AB=100 BC=200 CA=400 C-AB=1000":                  "AB 100 and BC 200 together are 100 short of reaching across CA 400",
	} {
		_, err := Solve(measure(t, given), [2]geom.Name{})
		var none *NoTriangle
		if !errors.As(err, &none) || none.What != want || none.Hint == "" {
			t.Errorf("%s: %v, want %s", given, err, want)
		}
	}
}
