package net

import (
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

func weighed(t *testing.T, tools tape.Tools, tokens string) Adjusted {
	t.Helper()
	n := netOf(t, tokens)
	n.Tools = tools
	a, err := Adjust(n)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// netOf is a net of measurements in mm.
func netOf(t *testing.T, tokens string) (n Net) {
	t.Helper()
	for _, s := range strings.Fields(tokens) {
		m, err := triangle.ParseMeasurement(s, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		n.Measured = append(n.Measured, m)
	}
	return n
}

// Digits far finer than the tool reads are said, with what to write; what a protractor
// and a tape show, and what a tolerance is stated of, are not.
func TestTooFine(t *testing.T) {
	const sides = "AB=10000 BC=8000 CA=6000 "
	for _, c := range []struct {
		tokens string
		tools  tape.Tools
		style  unit.Style
		want   []string
	}{
		{sides + `BAC=53°07'48"`, tape.Tools{}, unit.Style{}, []string{`BAC=53°07'48" is written far more finely than a protractor is read, and counts as ±30′`, "--instrument theodolite", `BAC=53°07'48"+-0.01deg`}},
		{sides + "BAC=53.1301deg", tape.Tools{}, unit.Style{}, []string{"BAC=53.1301deg is written"}},
		{sides + `BAC=53°07'48"`, tape.Tools{Instrument: tape.Theodolite}, unit.Style{}, nil},
		{sides + "BAC=53.1301deg+-0.01deg", tape.Tools{}, unit.Style{}, nil},
		{sides + "BAC=53.25deg", tape.Tools{}, unit.Style{}, nil},
		{sides + "BAC=53°08'", tape.Tools{}, unit.Style{}, nil},
		{"AB=10000.00 BC=8000 CA=6000.1", tape.Tools{}, unit.Style{}, []string{"AB=10000.00 is written far more finely than a tape of class II is read, and counts as ±2.8 mm", "AB=10000.00+-0.1mm"}},
		{"AB=32.8084ft BC=26'3\" CA=19'8\"", tape.Tools{}, unit.Style{Unit: unit.FT}, []string{"counts as ±0.12 in", "+-1/64in"}},
	} {
		got := strings.Join(weighed(t, c.tools, c.tokens).TooFine(c.style), "\n")
		if c.want == nil && got != "" {
			t.Errorf("%s: %s", c.tokens, got)
		}
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q does not say %q", c.tokens, got, want)
			}
		}
	}
}

// Points that are fixed by very tight lengths are not blamed for a slip of 60 mm in one
// that was read from them, nor told that nothing checks them; a slip in a tight length
// that no reading explains is still told.
func TestFixedPointsAreNotBlamed(t *testing.T) {
	n := netOf(t, "AB=10000+-0.01 BC=8000+-0.01 CA=6000+-0.01 PA=4532 PB=6325 PC=2829")
	n.Sides = []Side{{Point: "P", Of: [2]geom.Name{"A", "B"}}, {Point: "C", Of: [2]geom.Name{"A", "B"}}}
	a, err := Adjust(n)
	if err != nil || len(a.Suspects) == 0 {
		t.Fatal(err, a.Suspects)
	}
	for _, s := range a.Suspects {
		if m := a.Results[s.Index].Measurement; m.Value.Stated {
			t.Errorf("%s is blamed", m.Subject())
		}
	}
	for _, w := range a.Findings(unit.Style{}) {
		if strings.Contains(w, "AB") || strings.Contains(w, "BC") || strings.Contains(w, "CA") {
			t.Error(w)
		}
	}
	n = netOf(t, "AB=10000+-0.1 AB=10000 AB=10001 AB=9999 BC=8100+-0.1 CA=6000 BC=8000 BC=8001 BC=7999")
	if a, err = Adjust(n); err != nil || len(a.Suspects) == 0 || !a.Results[a.Suspects[0].Index].Measurement.Value.Stated {
		t.Errorf("%v, %+v", err, a.Suspects)
	}
}

// Scatter far smaller or larger than the weights allow is said in words.
func TestScatterIsTold(t *testing.T) {
	for tokens, want := range map[string]string{
		"AB=10000 AB=10000 AB=10000 BC=8000 BC=8000 CA=6000":        "agree far better than what they are weighed by allows",
		"AB=10000 AB=10001 AB=9998 BC=8002 BC=8000 CA=6000":         "",
		"AB=10000 AB=10000 BC=8000 CA=6000":                         "", // too few to tell
		"AB=10000 AB=10012 AB=9988 BC=8014 BC=8000 BC=7986 CA=6000": "or the tolerances are too fine",
	} {
		a := weighed(t, tape.Tools{}, tokens)
		got := strings.Join(a.Findings(unit.Style{}), "\n")
		if told := strings.Contains(got, "weighed by") || strings.Contains(got, "too fine"); told != (want != "") || !strings.Contains(got, want) || strings.Contains(got, "σ") {
			t.Errorf("%s (%.2f): %s", tokens, a.Global.Sigma0, got)
		}
	}
}

// What is known to less than a minute is written to the second.
func TestSeconds(t *testing.T) {
	for deg, want := range map[float64]string{53.13: "53°07′48″", 0: "0°00′00″", 59.99999: "60°00′00″", -0.5: "−0°30′00″"} {
		if got := Seconds(unit.Angle(deg) * unit.Degree); got != want {
			t.Errorf("%v: %s, want %s", deg, got, want)
		}
	}
	w := Writer{Style: unit.Style{Minutes: true}, Kind: triangle.Angle, Spread: 30.0 / 3600 * math.Pi / 180}
	if got := w.Figure(53.13 * math.Pi / 180); got != "53°07′48″" {
		t.Error(got)
	}
	// The right angle of 3-4-5 in metres, pulls of σ each: σ√2·(…); here against the
	// covariance of two lengths by hand: dC = c·dc/(ab sin C) − cot-terms, C = 90°.
	a := weighed(t, tape.Tools{}, "AB=5000+-2 BC=4000+-2 CA=3000+-2")
	want := math.Sqrt(25e6+16e6+9e6) / 12e6 // c dc = a da + b db − a b cos' → dC = (c dc − a da − b db)/(ab)
	if got := a.Corner("A", "C", "B").Radians(); math.Abs(got/want-1) > 1e-6 {
		t.Errorf("σ of the angle %v, want %v", got, want)
	}
}
