package tape

import (
	"math"
	"testing"

	"trammel/geom/unit"
)

// Worked by hand.
func TestFigures(t *testing.T) {
	for _, c := range []struct {
		style unit.Style
		l     unit.Length
		want  string
		round float64
	}{
		{unit.Style{}, 4394.789, "4395", 4395}, {unit.Style{}, 12345.5, "12\u2009346", 12346}, {unit.Style{Decimals: 1}, 4394.789, "4394.8", 4394.8},
		{unit.Style{Unit: unit.CM}, 4394.789, "439.5", 4395}, {unit.Style{Unit: unit.CM, Decimals: 2}, 4394.789, "439.48", 4394.8}, {unit.Style{Unit: unit.M}, 4394.789, "4.395", 4395}, {unit.Style{Unit: unit.M}, 50000, "50.000", 50000},
		{unit.Style{Unit: unit.M, Decimals: 4}, 4394.789, "4.3948", 4394.8},
		{unit.Style{Unit: unit.FT}, 94.5 * 25.4, `7'-10 1/2"`, 2400.3}, {unit.Style{Unit: unit.IN, Denominator: 8}, 94.5 * 25.4, `94 1/2"`, 2400.3},
	} {
		f := FiguresOf(c.style, Instrument{})
		if got := f.Figure(c.l); got != c.want {
			t.Errorf("%+v: %q, want %q", c.style, got, c.want)
		}
		if got := f.Rounded(c.l).MM(); math.Abs(got-c.round) > 1e-9 {
			t.Errorf("%s: rounded to %.6f, want %.6f", c.want, got, c.round)
		}
	}
}

// Who has a theodolite reads tenths off the tape; metres keep three decimals, inches their
// fractions.
func TestFiguresOfATheodolite(t *testing.T) {
	for _, c := range []struct {
		style unit.Style
		want  string
	}{
		{unit.Style{}, "4394.8"}, {unit.Style{Decimals: -1}, "4395"}, {unit.Style{Unit: unit.CM}, "439.48"},
		{unit.Style{Unit: unit.M}, "4.395"}, {unit.Style{Unit: unit.IN, Denominator: 8}, `173"`},
	} {
		if got := FiguresOf(c.style, Theodolite).Figure(4394.789); got != c.want {
			t.Errorf("%+v: %q, want %q", c.style, got, c.want)
		}
	}
}
