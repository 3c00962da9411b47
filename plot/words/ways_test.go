package words_test

import (
	"testing"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Only what shows in the figures is told of a correction, with its sign.
func TestCorrectionsInWords(t *testing.T) {
	broken := func(by tape.Corrections) string { return english.SetOut(pegging.Layout{}).Broken(pegging.Pull{By: by}) }
	got := broken(tape.Corrections{Calibration: 16.1, Temperature: -28.1, Pull: 5.9, Sag: 0.004})
	if want := "calibration +16.1, temperature −28.1 and pull +5.9"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := broken(tape.Corrections{}); got != "none" {
		t.Error(got)
	}
}

// Why a way is no better: by its crossing, by its square, by how far it carries.
func TestWhyAWayIsWorse(t *testing.T) {
	ab := [2]geom.Name{"A", "B"}
	best := pegging.Way{Method: pegging.OffsetSquare, Base: ab, Figure: 3}
	for want, other := range map[string]pegging.Way{
		"Swinging from AB crosses at 12° at C: 3.3 times worse than an offset from AB.":                {Method: pegging.TwoArcs, Base: ab, Figure: 10, Pegs: []pegging.Placed{{Name: "C", Crossing: 12 * unit.Degree}}},
		"Turning the angle from AB carries C 5 m: as good as an offset from AB.":                       {Method: pegging.AngleDistance, Base: ab, Figure: 3.1, Pegs: []pegging.Placed{{Name: "C", At: geom.Point{X: 3000, Y: 4000}}}},
		"An offset from AB carries C 4 m off a square of 1.5 m: 2 times worse than an offset from AB.": {Method: pegging.OffsetSquare, Base: ab, Figure: 6, Pegs: []pegging.Placed{{Name: "C", At: geom.Point{X: 3000, Y: 4000}, Square: pegging.Square{Across: 1500}}}},
	} {
		l := pegging.Layout{Ranking: pegging.Ranking{Best: []pegging.Way{best}, Why: pegging.Reason{Code: pegging.Surest, Other: other}}}
		if got := english.SetOut(l).Why(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
