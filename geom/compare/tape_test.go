package compare

import (
	"math"
	"testing"

	"trammel/geom/tape"
)

// A steel tape at 60 °C is long: 20 m read 11.6e-6 · 40 · 20 000 = 9.28 mm short, by
// hand. Pegs that stand right read that, what is told is as read, and a peg that is
// wrong is as wrong as it stands.
func TestCompareWithAWarmTape(t *testing.T) {
	pegs := stakes(0, 0, 20000, 0, 20000, 15000)
	warm := Asked{Pegs: pegs, Standard: tape.Standard{Temperature: 20, Expansivity: tape.SteelExpansivity}, Conditions: &tape.Conditions{Temperature: 60}}
	warm.Found = measure(t, "AB=19990.7 BC=14993.0 CA=24988.4")
	c := compared(t, warm)
	r := c.Readings[0]
	// Laying out divides by 1 + 464e-6: 19 990.724.
	if !c.Passed || math.Abs(float64(r.Wanted.Length)-19990.724) > 0.001 || math.Abs(float64(r.Off.Length)) > 0.05 || c.Sum > 0.01 {
		t.Errorf("sum %v, %+v", c.Sum, r)
	}
	if got := c.ShouldRead("C", "A"); math.Abs(float64(got)-24988.405) > 0.001 {
		t.Errorf("CA should read %v", got)
	}
	warm.Found = measure(t, "AB=19990.7 BC=15053.0 CA=25024.4") // C 60 mm out along BC, 36 along AC
	c = compared(t, warm)
	if w := c.Wrong(); len(w) != 1 || w[0].Name != "C" || math.Abs(float64(w[0].Toward)-60) > 0.2 {
		t.Fatalf("%+v", c.Explanations)
	}
	if bc := c.Readings[1].Wanted.Length; math.Abs(float64(bc)-14993.043) > 0.001 { // 15 000 / (1 + 464e-6)
		t.Error(bc)
	}
	// Read by a tape that is right, the same figures are of a layout that is too small.
	cold := Asked{Pegs: pegs, Found: measure(t, "AB=19990.7 BC=14993.0 CA=24988.4")}
	if r := compared(t, cold).Readings[0]; math.Abs(float64(r.Off.Length)+9.3) > 1e-6 {
		t.Errorf("without the correction: %+v", r)
	}
	// What a tape cannot be is refused.
	warm.Standard.Nominal, warm.Standard.True = 30000, 30
	if _, err := Compare(warm); err == nil {
		t.Error("a tape a thousandth of its length is taken")
	}
}
