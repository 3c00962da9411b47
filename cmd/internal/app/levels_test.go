package app

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"trammel/geom/unit"
	"trammel/profiles/job"
)

// 3-4-5 upright: pegs 12 m apart over a fall of 5 m are 13 m along the ground. What is
// laid off there is found again, from peg to middle as well, and judged level.
func TestFoundOnTheGround(t *testing.T) {
	open := func(found string) *checkSheets {
		w := mustOpen(t, "pieces: [{measure: [AB=12000, BC=9000, CA=15000], levels: [A 0, B 5m, C 5000], base: AB, found: ["+found+"]}]\n", Options{})
		c, err := w.check(Findings{})
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	// CA is √(15² + 5²) m; A to the middle of AB half of 13 m.
	if c := open("AB=13000, BC=9000, CA=15811.4"); !c.passed() {
		t.Error("what was laid off is not found again")
	}
	if c := open("AB=12000, BC=9000, CA=15000"); c.passed() {
		t.Error("level lengths passed on the ground")
	}
	w := mustOpen(t, "pieces: [{measure: [AB=12000, BC=9000, CA=15000], levels: [A 0, B 5m, C 5000], base: AB}]\n", Options{})
	s, err := w.setout()
	if err != nil {
		t.Fatal(err)
	}
	if l := s.all[0].Pulls[0]; math.Abs(l.Reads.MM()-13000) > 1e-9 || l.Length != 12000 {
		t.Errorf("AB is laid off as %v", l.Reads)
	}
	levels, err := w.Levels(w.Pieces[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range s.all[0].Checks {
		ms, err := w.ReadBack([]job.Setting{{Text: fmt.Sprintf("%s%s=%.4f", k.From, k.To, k.Reads.MM())}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		out, err := reduced(w, w.Pieces[0].Pegs(), &s.all[0], levels, ms)
		if err != nil || math.Abs(out[0].Value.Length().MM()-k.Value.MM()) > 0.01 {
			t.Errorf("%s to %s: read %v, level %v, want %v, %v", k.From, k.To, k.Reads, out, k.Value, err)
		}
	}
}

func TestWrongLevels(t *testing.T) {
	for _, c := range []struct{ levels, what string }{
		{"[A 0]", "job.yaml:1:51: levels: one level says nothing of the fall"},
		{"[A 0, X 5]", "job.yaml:1:51: levels: there is no peg X"},
		{"[A 0, B 5parsec]", `job.yaml:1:57: levels: B: "5parsec" is not a length: "parsec" is not a unit of length`},
		{"[A 0, B 9m]", "job.yaml:1:51: levels: from A to B the ground is steeper than 45°: 9 m over 8 m"},
	} {
		_, err := open(t, "pieces: [{measure: [AB=8m, BC=6m, CA=5m], levels: "+c.levels+"}]\n", Options{})
		var f *unit.Fault
		if !errors.As(err, &f) || f.Error() != c.what || f.Hint == "" {
			t.Errorf("%s: %v, want %s", c.levels, err, c.what)
		}
	}
}
