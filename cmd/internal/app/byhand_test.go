package app

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"trammel/geom/triangle"
	"trammel/geom/unit"
)

func pieceOf(measure, more string) string {
	return "pieces: [{measure: [" + measure + "]" + more + "}]\n"
}

// A crossing is warned of where its arcs or arms are really drawn, and by its own angle:
// 180° - 2 asin(966.5/1000) = 29.7° for the arcs; none is swung where the corner is set
// off squarely or by an angle and a length.
func TestFlatCrossingIsToldWhereItIsMade(t *testing.T) {
	const thin = "AB=1933, BC=1000, CA=1000"
	flat := func(all []string) bool {
		return slices.ContainsFunc(all, func(s string) bool { return strings.Contains(s, "cross at only 29.7° at C") })
	}
	for with, want := range map[string]bool{"arcs": true, "square": false, "angle": false} {
		w := mustOpen(t, pieceOf(thin, ", base: AB, with: "+with), Options{})
		if flat(w.Warnings()) != want {
			t.Errorf("template with %s: %q", with, w.Warnings())
		}
		s, err := w.setout()
		if err != nil {
			t.Fatal(err)
		}
		if flat(s.work.Warnings()) != want || flat(s.report().Pieces[0].Warnings) != want {
			t.Errorf("setout with %s: %q", with, s.work.Warnings())
		}
	}
	w := mustOpen(t, pieceOf("AB=1000, A=50deg, BC=790", ""), Options{Pick: 1})
	if all := w.Warnings(); !slices.ContainsFunc(all, func(s string) bool { return strings.Contains(s, "arm from A and the arc swung from B cross at only") }) {
		t.Errorf("an arm and an arc: %q", all)
	}
}

// Under 10° arcs are no way: whoever asks for them is told what would do, and that does.
func TestArcsTooFlatAreRefused(t *testing.T) {
	for _, c := range []struct {
		measure, base, what string
		code                unit.Code
		hint, then          string
	}{
		{"AB=40000, BC=6000, CA=40000", "BC", "arcs swung from B and C cross at only 8.6° at A: under 10° nobody can mark where", unit.TooFlatBase, "base AB would do, whose arcs cross at 85.7° or more", "AB"},
		{"AB=1995, BC=1000, CA=1000", "AB", "arcs swung from A and B cross at only 8.1° at C: under 10° nobody can mark where", unit.TooFlat, "", ""},
	} {
		var none *triangle.NoTriangle
		_, err := mustOpen(t, pieceOf(c.measure, ", base: "+c.base+", with: arcs"), Options{}).setout()
		if !errors.As(err, &none) || none.What != c.what || none.Subject != unit.Pegs || none.Code != c.code || none.Hint != c.hint {
			t.Errorf("%s: %v", c.measure, err)
		}
		if _, err = mustOpen(t, pieceOf(c.measure, ", base: "+c.base+", with: arcs"), Options{}).template(); !errors.As(err, &none) || none.What != c.what {
			t.Errorf("template %s: %v", c.measure, err)
		}
		if _, err := mustOpen(t, pieceOf(c.measure, ", base: "+c.base+", with: square"), Options{}).setout(); err != nil {
			t.Errorf("%s with square: %v", c.measure, err)
		}
		if c.then != "" {
			if _, err := mustOpen(t, pieceOf(c.measure, ", base: "+c.then+", with: arcs"), Options{}).setout(); err != nil {
				t.Errorf("%s from %s: %v", c.measure, c.then, err)
			}
		}
		// Where nobody asks for them, another way is taken.
		w := mustOpen(t, pieceOf(c.measure, ", base: "+c.base), Options{})
		if _, err := w.setout(); err != nil {
			t.Errorf("%s: %v", c.measure, err)
		}
		if m := w.Pieces[0].Construction.Meetings(); len(m) > 0 {
			t.Errorf("%s is constructed by %+v", c.measure, m)
		}
	}
}

// What was named first is the origin in the report as well, and the matrix of its page
// leads to where the first peg is drawn.
func TestReportOfASheetCountsFromTheEndNamedFirst(t *testing.T) {
	var at [2][2]float64
	for i, base := range []string{"AB", "BA"} {
		for _, piece := range []string{pieceOf("AB=4000, BC=5000, CA=3000", ", with: arcs, base: "+base),
			pieceOf("AB=4000, BC=3000, CD=4000, DA=3000, AC=5000, BD=5000", ", outline: [A, B, C, D], with: arcs, base: "+base)} {
			s, err := mustOpen(t, piece, Options{}).setout()
			if err != nil {
				t.Fatal(err)
			}
			if err := s.lay(); err != nil {
				t.Fatal(err)
			}
			r := s.report()
			p := r.Pieces[0]
			first, second := p.Points[base[:1]], p.Points[base[1:]]
			if p.Base != base || first != [2]float64{} || math.Abs(second[0]-4000) > 1e-6 || math.Abs(second[1]) > 1e-6 {
				t.Errorf("base %s: %s, %v", base, p.Base, p.Points)
			}
			m := r.Pages[0].Places[0].Matrix
			a := p.Points["A"]
			at[i] = [2]float64{m[0]*a[0] + m[2]*a[1] + m[4], m[1]*a[0] + m[3]*a[1] + m[5]}
			var drawn [2]float64
			for _, n := range []string{"A", "B"} {
				q := p.Points[n]
				drawn[0] += m[0]*q[0] + m[2]*q[1] + m[4]
			}
			if half := drawn[0] / 2; half < 20 || half > 190 {
				t.Errorf("base %s: the baseline is drawn about %v", base, half)
			}
		}
	}
	if math.Hypot(at[0][0]-at[1][0], at[0][1]-at[1][1]) > 1 {
		t.Errorf("A is drawn at %v and at %v", at[0], at[1])
	}
}

// The side that a construction begins with is chosen for the hand; where the shape lies on
// paper and what the report says do not follow it. The job's own base stays, and the
// other hand is made on the same side.
func TestBaseIsChosenForTheHandAlone(t *testing.T) {
	for _, c := range []struct{ measure, more, hand, lies string }{
		{"AC=100, C=35deg, AB=70", ", pick: 1", "CA", "AB"},
		{"AC=100, C=35deg, AB=70", ", pick: 1, base: AB", "AB", "AB"},
		{"AC=100, C=35deg, AB=70", ", pick: 1, handed: pair", "CA AC", "AB"},
		{"AB=160, C=90deg, CA=90", "", "AB", "AB"},
		{"AB=90, BC=160, CA=100", "", "BC", "AB"},
		{"AB=90, BC=160, CA=100", ", base: CA", "CA", "CA"},
	} {
		w := mustOpen(t, "trade: teacher\n"+pieceOf(c.measure, c.more), Options{})
		var bases []string
		for _, p := range w.Pieces {
			b, _ := p.Construction.Base()
			bases = append(bases, string(b.From+b.To))
		}
		tri := w.Pieces[0].Triangle()
		if got := strings.Join(bases, " "); got != c.hand || string(tri.Names[0]+tri.Names[1]) != c.lies {
			t.Errorf("%s%s: built on %s, lies on %s%s", c.measure, c.more, got, tri.Names[0], tri.Names[1])
		}
	}
}
