package tape

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom/unit"
)

// feet is a length in feet with so many decimals.
func feet(l unit.Length, n int) string { return fmt.Sprintf("%.*f", n, float64(l/unit.Foot)) }

// The rows are of handbooks of surveying, as read and computed again with their
// own formulas: temperature αL(T−T₀), pull (P−P₀)L/(AE), sag −w²L³/(24P²) a span,
// slope. Measuring adds the correction, laying out subtracts it.
func TestTapeCorrections(t *testing.T) {
	const sixPointFive = 6.5e-6
	cold := Standard{Temperature: Fahrenheit(68), Expansivity: sixPointFive * PerFahrenheit}
	_, k, err := cold.Measured(368.50*unit.Foot, Conditions{Temperature: Fahrenheit(22)})
	if err != nil {
		t.Fatal(err)
	}
	is(t, "368.50 ft, 68 to 22 °F", feet(k.Temperature, 4), "-0.1102")
	is(t, "and nothing else", feet(k.Sum(), 4), "-0.1102")

	// −h²/(2L) is the first term of it: h = 300 sin 5°, next term h⁴/(8L³).
	h := 300 * math.Sin(5*math.Pi/180)
	level, k, err := (Standard{}).Measured(300*unit.Foot, Conditions{Fall: unit.Length(h) * unit.Foot})
	if err != nil {
		t.Fatal(err)
	}
	is(t, "300.00 ft at 5°", feet(level, 4), "298.8584")
	if off := float64(k.Slope/unit.Foot) + h*h/600 + h*h*h*h/(8*300*300*300); math.Abs(off) > 1e-4 {
		t.Errorf("slope %s ft is not its series", feet(k.Slope, 6))
	}

	hung := Standard{Weight: 2.8 / 100 * Weight(PoundForce) / 0.3048}
	_, k, err = hung.Measured(348.75*unit.Foot, Conditions{Pull: 12 * PoundForce, Span: 100 * unit.Foot})
	if err != nil {
		t.Fatal(err)
	}
	is(t, "3 × 100 + 48.75 ft unsupported", feet(k.Sag, 4), "-0.7068")

	long := Standard{Nominal: 100 * unit.Foot, True: 100.02 * unit.Foot}
	reading, _, err := long.Reading(500*unit.Foot, Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	is(t, "lay out 500.00 with 100.02", feet(reading-500*unit.Foot, 2), "-0.10")

	all := Standard{Nominal: 100 * unit.Foot, True: 100.010 * unit.Foot, Temperature: Fahrenheit(68), Pull: 12 * PoundForce,
		Expansivity: 6.45e-6 * PerFahrenheit, Section: 0.0075 * 25.4 * 25.4, Modulus: 29e6 * PoundsPerSqInch}
	reading, k, err = all.Reading(529.81*unit.Foot, Conditions{Temperature: Fahrenheit(95), Pull: 20 * PoundForce})
	if err != nil {
		t.Fatal(err)
	}
	is(t, "lay out 529.81", feet(reading, 4), "529.6453")
	if k.Calibration <= 0 || k.Temperature <= 0 || k.Pull <= 0 || k.Sag != 0 || k.Slope != 0 {
		t.Errorf("a tape that is long, warm and pulled hard reads short: %+v", k)
	}
}

// What is laid off and then measured with the same tape is what was wanted.
func TestReadingIsMeasuredBackwards(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 6))
	for range 2000 {
		s := Standard{Nominal: 30000, True: unit.Length(30000 + 20*r.NormFloat64()), Temperature: 20, Pull: 50, Expansivity: SteelExpansivity,
			Section: 2.6, Modulus: SteelModulus, Weight: 0.2}
		c := Conditions{Temperature: Temperature(50*r.Float64() - 10), Pull: Force(40 + 60*r.Float64())}
		if r.IntN(2) == 0 {
			c.Span = unit.Length(5000 + 25000*r.Float64())
		}
		want := unit.Length(100000 * r.Float64())
		c.Fall = want * unit.Length(2*r.Float64()-1)
		reading, k, err := s.Reading(want, c)
		if err != nil {
			t.Fatal(err)
		}
		back, again, err := s.Measured(reading, c)
		if again.Slope -= k.Slope; math.Abs(float64(again.Slope)) > 1e-9 {
			t.Fatalf("slopes differ by %v", again.Slope)
		}
		again.Slope = k.Slope
		if err != nil || math.Abs(float64(back-want)) > 1e-9 || again != k {
			t.Fatalf("%v comes back as %v (%v)", want, back, err)
		}
	}
}

func TestImpossibleTapes(t *testing.T) {
	steel := Standard{Nominal: 30000, True: 30003, Temperature: 20, Pull: 50, Expansivity: SteelExpansivity, Section: 2.6, Modulus: SteelModulus, Weight: 0.2}
	fine := Conditions{Temperature: 10, Pull: 50}
	for name, c := range map[string]struct {
		s Standard
		c Conditions
	}{
		"one length only": {Standard{Nominal: 30000}, fine},
		"feet and metres": {Standard{Nominal: 30000, True: 30480}, fine},
		"no modulus":      {Standard{Section: 2}, fine},
		"hot":             {steel, Conditions{Temperature: 95, Pull: 50}},
		"no pull":         {steel, Conditions{Temperature: 20, Span: 10000}},
		"too deep":        {Standard{Weight: 20}, Conditions{Temperature: 20, Pull: 50, Span: 30000}},
		"endless":         {steel, Conditions{Temperature: 20, Pull: 50, Fall: unit.Length(math.Inf(1))}},
		"not a number":    {steel, Conditions{Temperature: Temperature(math.NaN()), Pull: 50}},
		"negative":        {steel, Conditions{Temperature: 20, Pull: -1}},
	} {
		if _, _, err := c.s.Reading(10000, c.c); err == nil {
			t.Errorf("%s: no error", name)
		} else if _, ok := err.(*unit.Fault); !ok {
			t.Errorf("%s: %T", name, err)
		}
	}
}

func is(t *testing.T, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s: %s, published %s", what, got, want)
	}
}
