package tape

import (
	"math"
	"strings"
	"testing"

	"trammel/geom/unit"
)

// What a tape, its certificate and a thermometer say, as people copy it. The
// factors are those of NIST Special Publication 811, appendix B (from memory; the
// pound-force, the kilogram-force and the inch are exact by definition).
func TestQuantities(t *testing.T) {
	temperature := func(s string) (float64, error) { v, err := ParseTemperature(s); return float64(v), err }
	force := func(s string) (float64, error) { v, err := ParseForce(s); return float64(v), err }
	expansion := func(s string) (float64, error) { v, err := ParseExpansivity(s); return float64(v), err }
	section := func(s string) (float64, error) { v, err := ParseSection(s); return float64(v), err }
	modulus := func(s string) (float64, error) { v, err := ParseModulus(s); return float64(v), err }
	weight := func(s string) (float64, error) { v, err := ParseWeight(s); return float64(v), err }
	for _, c := range []struct {
		read func(string) (float64, error)
		text string
		want float64
	}{
		{temperature, "31C", 31}, {temperature, "31 °C", 31}, {temperature, "-5C", -5}, {temperature, "−5,5 °C", -5.5}, {temperature, "+7 degC", 7},
		{temperature, "68F", 20}, {temperature, "212/10F", math.NaN()}, {temperature, "14 °F", -10}, {temperature, "88f", 280.0 / 9}, {temperature, "20 ℃", 20},
		{force, "50N", 50}, {force, "12lb", 53.378659383126}, {force, "12 lbf", 53.378659383126}, {force, "5kg", 49.03325}, {force, "5 kgf", 49.03325}, {force, "0.05kN", 50}, {force, "49,5 N", 49.5},
		{expansion, "11.6e-6/C", 11.6e-6}, {expansion, "11.6E-06 /K", 11.6e-6}, {expansion, "0.0000116 per °C", 11.6e-6}, {expansion, "6.45e-6/F", 11.61e-6}, {expansion, "0/C", 0},
		{section, "0.0075in2", 4.8387}, {section, "0.0075 sq in", 4.8387}, {section, "4.2mm2", 4.2}, {section, "4.2 mm²", 4.2}, {section, "0.042cm²", 4.2},
		{modulus, "29e6psi", 199947.96}, {modulus, "29000 ksi", 199947.96}, {modulus, "200GPa", 200000}, {modulus, "200000 N/mm2", 200000}, {modulus, "2e5 MPa", 200000},
		{weight, "2.8lb/100ft", 0.4086292822}, {weight, "0.028 lb/ft", 0.4086292822}, {weight, "0.18N/m", 0.18}, {weight, "18g/m", 0.1765197}, {weight, "1.8 kg per 100 m", 0.1765197}, {weight, "0,2 N/metre", 0.2},
	} {
		got, err := c.read(c.text)
		if math.IsNaN(c.want) {
			if err == nil {
				t.Errorf("%s is read as %v", c.text, got)
			}
			continue
		}
		if err != nil || math.Abs(got-c.want) > 1e-7*math.Abs(c.want)+1e-15 {
			t.Errorf("%s: %v, %v, want %v", c.text, got, err, c.want)
		}
	}
}

func TestWrongQuantities(t *testing.T) {
	temperature := func(s string) error { _, err := ParseTemperature(s); return err }
	force := func(s string) error { _, err := ParseForce(s); return err }
	expansion := func(s string) error { _, err := ParseExpansivity(s); return err }
	section := func(s string) error { _, err := ParseSection(s); return err }
	modulus := func(s string) error { _, err := ParseModulus(s); return err }
	weight := func(s string) error { _, err := ParseWeight(s); return err }
	class := func(s string) error { _, err := ParseClass(s); return err }
	for _, c := range []struct {
		read             func(string) error
		text, what, hint string
	}{
		{temperature, "31", `"31" is not a temperature`, "write 31C or 88F: a number alone could be either"},
		{temperature, "warm", `"warm" is not a temperature`, "write 31C or 88F: a number alone could be either"},
		{temperature, "", "no temperature is written", ""},
		{temperature, "88C", `"88C" is not between -60 °C and 80 °C, where every temperature lies`, "write 31C or 88F: a number alone could be either"},
		{temperature, "1,234C", `"1,234C" can be read in two ways: the comma may part thousands`, "write it with a decimal point"},
		{temperature, "NaNC", `"NaNC" is not a temperature`, "write 31C or 88F: a number alone could be either"},
		{force, "50", `"50" is not a pull`, "write 50N, 12lb or 5kg, as the spring balance shows it"},
		{force, "-50N", `"-50N" has a sign`, "write the pull without one"},
		{force, "0N", `"0N" is not between 1 N and 1000 N, where every pull lies`, "write 50N, 12lb or 5kg, as the spring balance shows it"},
		{force, "1e99N", `"1e99N" is not between 1 N and 1000 N, where every pull lies`, "write 50N, 12lb or 5kg, as the spring balance shows it"},
		{force, "1e999N", `"1e999N" is not a pull`, "write 50N, 12lb or 5kg, as the spring balance shows it"},
		{expansion, "11.6", `"11.6" is not a coefficient of expansion`, "write 11.6e-6/C or 6.45e-6/F; steel has 11.6e-6/C"},
		{expansion, "11.6/C", `"11.6/C" is not between 0 and 50e-6/C, where every coefficient of expansion lies`, "write 11.6e-6/C or 6.45e-6/F; steel has 11.6e-6/C"},
		{section, "13x0.2mm", `"13x0.2mm" is not a section`, "width times thickness: write 4.2mm2 or 0.0075in2"},
		{modulus, "200", `"200" is not a modulus`, "write 200GPa or 29e6psi; steel has 200GPa"},
		{modulus, "200psi", `"200psi" is not between 1 GPa and 1000 GPa, where every modulus lies`, "write 200GPa or 29e6psi; steel has 200GPa"},
		{weight, "2.8lb", `"2.8lb" is not a weight`, "of a run of tape: write 0.18N/m, 18g/m or 2.8lb/100ft"},
		{weight, "2.8lb/0ft", `"2.8lb/0ft" is not a weight`, "of a run of tape: write 0.18N/m, 18g/m or 2.8lb/100ft"},
		{weight, "2.8lb/ft/ft", `"2.8lb/ft/ft" is not a weight`, "of a run of tape: write 0.18N/m, 18g/m or 2.8lb/100ft"},
		{weight, "500kg/m", `"500kg/m" is not between 0.001 N/m and 10 N/m, where every weight lies`, "of a run of tape: write 0.18N/m, 18g/m or 2.8lb/100ft"},
		{class, "IV", `"IV" is not a class of tapes`, "write I, II or III, as the tape itself says near its zero; II is the usual one"},
		{modulus, strings.Repeat("9", 65), unit.Quote(strings.Repeat("9", 65)) + " is too long for a modulus", "at most 64 characters"},
	} {
		err := c.read(c.text)
		f, ok := err.(*unit.Fault)
		if !ok || f.What != c.what || f.Hint != c.hint || f.Where != "" {
			t.Errorf("%q: %v, want %s", c.text, err, c.what)
		}
	}
}

// IS 11134:1984 as summarised, ISO 4463-1:1989 as reported by Kala 2009.
func TestPermitted(t *testing.T) {
	for _, c := range []struct{ k, l, want unit.Length }{
		{1, 25000, 5}, {1.5, 16000, 6}, {2, 4999, 4}, {10, 100000, 100}, {5, 1000, 10},
	} {
		if got := Permitted(c.k, c.l); math.Abs(float64(got-c.want)) > 1e-12 {
			t.Errorf("K %v over %v: %v, want %v", c.k, c.l, got, c.want)
		}
	}
}
