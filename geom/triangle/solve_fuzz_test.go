package triangle

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// FuzzSolve reads any text as measurements. Whatever it is, there is no panic,
// an error is one of the two kinds with one line of words, and every answer is a
// triangle that has what was measured, within its tolerance or, of three
// measurements, to the rounding of float64. Each can be constructed.
func FuzzSolve(f *testing.F) {
	for _, given := range []string{
		"AB=640 CA=455 A=52deg", "KL=3600 K=42deg L=61deg", "AB=100 BC=200 CA=400", "AC=8 BC=6 A=35deg",
		"AB=20 A=30deg BC=10", "A=3:4 AB=50 BC=30", "AB=5278.64055 BC=94721.35941 CA=99999.99996",
		"AB=3 BC=4 CA=5 B=90deg", "AB=300 BC=400 CA=500 C-AB=400 A=53.1deg B=95deg", "A-BC=100 B-CA=120 C-AB=150",
		"BC=300 A=60deg A-BC=200", "A=1e-9 B=179.9999 AB=1", "AB=7'-10 BC=1m CA=2,4m", "AB=1000000 BC=1000000 CA=1",
		"A=0.000000000000000000000000000001deg AB=1 BC=1", "AB=2 BC=1 CA=1.0000000000000000000000000001",
		"AB=3+-0.0001 BC=4+-5 CA=5 C-AB=4.2", "A=60deg B=60deg C=61deg AB=10 BC=10", "B-CA=1 C-AB=999999 A=1deg",
	} {
		f.Add(given)
	}
	f.Fuzz(func(t *testing.T, given string) {
		var ms []Measurement
		for _, token := range strings.Fields(given) {
			if m, err := ParseMeasurement(token, unit.MM); err == nil && len(ms) < 12 {
				ms = append(ms, m)
			}
		}
		checkSolve(t, given, ms)
	})
}

// FuzzSolveNumbers gives numbers to a choice of the nine quantities, so that
// most inputs come as far as the formulas.
func FuzzSolveNumbers(f *testing.F) {
	for _, which := range []uint16{0b111, 0b1110, 0b11100, 0b1011, 0b100000011, 0b111000000, 0b1001001, 0b10111, 0b111111, 0b111111111} {
		f.Add(which, uint8(3), 3.0, 4.0, 5.0, 36.87, 53.13, 90.0, 4.0, 3.0, 2.4)
		f.Add(which, uint8(0), 300.0, 400.0, 500.0, 37.0, 53.0, 90.0, 400.0, 300.0, 240.0)
		f.Add(which, uint8(12), 1e6, 1e6, 1.0, 1e-7, 179.999, 1e-9, 1e-6, 5e5, 1e6)
	}
	f.Fuzz(func(t *testing.T, which uint16, decimals uint8, a, b, c, d, e, g, h, i, j float64) {
		given := ""
		for q, v := range []float64{a, b, c, d, e, g, h, i, j} {
			if which>>q&1 != 0 {
				given += fmt.Sprintf("%s=%.*f", quantityNames[q], decimals%25, v)
				given += map[bool]string{true: "deg ", false: " "}[Quantity(q).Kind() == Angle]
			}
		}
		var ms []Measurement
		for _, token := range strings.Fields(given) {
			m, err := ParseMeasurement(token, unit.MM)
			if err != nil {
				return
			}
			ms = append(ms, m)
		}
		checkSolve(t, given, ms)
	})
}

func checkSolve(t *testing.T, given string, ms []Measurement) {
	t.Helper()
	s, err := Solve(ms, [2]geom.Name{})
	if err != nil {
		var fault *unit.Fault
		var none *NoTriangle
		if !errors.As(err, &fault) && !errors.As(err, &none) || err.Error() == "" || strings.ContainsAny(err.Error(), "\n\r") || strings.Contains(err.Error(), "NaN") {
			t.Fatalf("%q: %T %q", given, err, err)
		}
		return
	}
	if len(s.Answers) == 0 || len(ms) == 3 && len(s.Answers) > 2 {
		t.Fatalf("%q: %d answers", given, len(s.Answers))
	}
	for _, a := range s.Answers {
		checkAnswer(t, given, ms, a)
	}
}

func checkAnswer(t *testing.T, given string, ms []Measurement, a Answer) {
	t.Helper()
	tri := a.Triangle
	sum := 0.0
	for i := range 3 {
		sum += tri.Angles[i].Degrees()
		for _, v := range []float64{tri.Sides[i].MM(), tri.Angles[i].Radians(), tri.Heights[i].MM()} {
			if !(v > 0) || math.IsInf(v, 0) {
				t.Fatalf("%q: %+v", given, tri)
			}
		}
		if d := tri.Points[(i+1)%3].Distance(tri.Points[(i+2)%3]); math.Abs(float64(d-tri.Sides[i])) > 1e-12*float64(tri.Perimeter) {
			t.Fatalf("%q: %v from corner to corner, side %v", given, d, tri.Sides[i])
		}
	}
	if math.Abs(sum-180) > 1e-12 || tri.Points[0] != (geom.Point{}) || tri.Points[1].Y != 0 || tri.Points[2].Y != tri.Heights[2] {
		t.Fatalf("%q: angles make %v in %+v", given, sum, tri)
	}
	off, size := 0.0, float64(tri.Perimeter)
	for i, r := range a.Residuals {
		tol := ms[i].Value.LengthTolerance().MM()
		d := r.Length.MM()
		if ms[i].Kind == Angle {
			tol, d = ms[i].Value.AngleTolerance().Degrees(), r.Angle.Degrees()
		}
		off += d * d / (max(tol, finest) * max(tol, finest))
		if len(ms) == 3 && math.Abs(d) > 1e-15*max(size, 180) {
			t.Fatalf("%q: measurement %d is off by %g", given, i+1, d)
		}
		for _, m := range a.Moves[i].Corners {
			if !(m >= 0) || math.IsInf(float64(m), 0) {
				t.Fatalf("%q: moves %v", given, a.Moves[i])
			}
		}
	}
	if off > float64(len(ms))*1.001 {
		t.Fatalf("%q: residuals %v are more than the tolerances allow", given, a.Residuals)
	}
}
