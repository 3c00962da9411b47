package words_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/shape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// byHand is a triangle that is constructed by hand.
func byHand(t testing.TB, by construct.Method, tokens string) words.ByHand {
	t.Helper()
	s, err := triangle.Solve(measured(t, strings.Fields(tokens)...), [2]geom.Name{})
	if err != nil {
		t.Fatal(err)
	}
	c, err := construct.Construct(s, 0, by)
	if err != nil {
		t.Fatal(err)
	}
	return words.ByHand{Construction: c}
}

// everyStep are constructions in which each kind of step stands, and all that is done
// to an outline.
func everyStep(t testing.TB) (all []words.ByHand) {
	for _, tokens := range []string{"AB=600 BC=450 CA=450", "AB=140 A=40deg C=60deg", "AB=150 A=35.5deg CA=90", "AB=150 C-AB=70 CA=90", "AB=80 A=35deg BC=60",
		"AB=100 C=90deg CA=60", "AB=100 C=90deg A=40deg", "AB=100 C=90deg C-AB=40", "AB=100 A=90deg BC=130"} {
		all = append(all, byHand(t, construct.AsMeasured, tokens))
	}
	all = append(all, byHand(t, construct.BySquare, "AB=300 A=110deg CA=200"))
	shaped := byHand(t, construct.AsMeasured, "AB=600 BC=450 CA=450")
	o := shaped.Construction.Outline
	var err error
	shaped.Shape, err = shape.Make(o.Points, o.Names, shape.Work{
		Allowances: []shape.Allowance{{Edge: [2]geom.Name{"A", "B"}, By: 3}, {Edge: [2]geom.Name{"B", "C"}, By: -2}},
		Corners:    []shape.Corner{{At: "A", Do: shape.Cut, By: 40}, {At: "B", Do: shape.Round, By: 20}},
		Holes: []shape.Hole{{Diameter: 8, Centre: shape.FromEdge{Edge: [2]geom.Name{"A", "B"}, From: "A", Along: 200, Square: 60}},
			{Diameter: 8, Centre: shape.FromCorners{Corners: [2]geom.Name{"A", "B"}, Arms: [2]unit.Length{350, 350}}}},
	}, unit.Style{})
	if err != nil {
		t.Fatal(err)
	}
	return append(all, shaped)
}

// Every step of a construction and all that is done to an outline is said, in every
// voice, and nothing in an order is a word of a program.
func TestEveryStepIsSaid(t *testing.T) {
	seen := map[string]bool{}
	for _, h := range everyStep(t) {
		for _, s := range h.Construction.Steps {
			seen[fmt.Sprintf("%T", s)] = true
		}
		for _, v := range words.Voices() {
			all := words.InWords(words.English{Voice: v}.Steps(), h)
			if len(all) < len(h.Construction.Steps) {
				t.Errorf("%s: %d sentences for %d steps", v, len(all), len(h.Construction.Steps))
			}
			for _, text := range all {
				if !said(text, false) {
					t.Errorf("%s: %q", v, text)
				}
			}
		}
	}
	for _, s := range construct.StepTypes() {
		if !seen[fmt.Sprintf("%T", s)] {
			t.Errorf("no example has a %T", s)
		}
	}
}

// A net's lines that are joined end to end are one sentence, and a figure that was not
// measured is told as computed.
func TestStepsOfANet(t *testing.T) {
	o := geom.OutlineOf(names("A B C D"), geom.Polygon{{}, {X: 400}, {X: 400, Y: 300}, {Y: 300}})
	c := construct.ConstructNet(o, nil, [2]geom.Name{"A", "B"}, measured(t, strings.Fields("AB=400 BC=300 AC=500 CD=400")...))
	got := strings.Join(words.InWords(english.Steps(), words.ByHand{Construction: c}), "\n")
	for _, want := range []string{"Knife AB, 400, off the straight edge.", "to 500. From A cross the first arc.", fmt.Sprintf("%.0f is computed.", math.Hypot(0, 300)), "Knife B to C, then D and A."} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
}

// In inches nothing is measured to the millimetre, and no comma is left of it.
func TestHeightInInches(t *testing.T) {
	h := byHand(t, construct.AsMeasured, "AB=600 BC=450 CA=450")
	h.Figures = unit.Style{Unit: unit.IN, Denominator: 16}
	say := strings.Join(words.InWords(words.English{Voice: words.Class}.Steps(), h), "\n")
	if !strings.Contains(say, "square to AB: h\u00a0=") || strings.Contains(say, ",:") {
		t.Error(say)
	}
}
