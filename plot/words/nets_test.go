package words_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/words"
)

func adjusted(t testing.TB, n net.Net) net.Adjusted {
	t.Helper()
	a, err := net.Adjust(n)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func weighed(t testing.TB, tools tape.Tools, tokens string) net.Adjusted {
	return adjusted(t, net.Net{Measured: measured(t, strings.Fields(tokens)...), Tools: tools})
}

func known(name geom.Name, x, y unit.Length) net.Control {
	return net.Control{Name: name, At: geom.Point{X: x * unit.Metre, Y: y * unit.Metre}}
}

func names(text string) (all []geom.Name) {
	for _, n := range strings.Fields(text) {
		all = append(all, geom.Name(n))
	}
	return all
}

func lines(all []words.Remark) string {
	var b strings.Builder
	for _, r := range all {
		b.WriteString(string(r) + "\n")
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// yard is a quadrilateral of 4000 by 3000 with a point E inside; its true
// distances come from its coordinates, by Pythagoras.
var yard = map[byte]geom.Vector{'A': {X: 0, Y: 0}, 'B': {X: 4000, Y: 0}, 'C': {X: 4200, Y: 3000}, 'D': {X: -100, Y: 3300}, 'E': {X: 1900, Y: 1500}}

// read is the distances with those given instead of the true ones.
func read(lines string, instead map[string]string) string {
	var all []string
	for _, l := range strings.Fields(lines) {
		value := fmt.Sprintf("%.0f", yard[l[0]].To(yard[l[1]]))
		if v, ok := instead[l]; ok {
			value = v
		}
		all = append(all, l+"="+value+"+-4")
	}
	return strings.Join(all, " ")
}

const yardLines = "AB BC CD DA AC DB AE BE CE DE"

// How a net is found, in the order in which a person would draw it.
func TestFoundInOrder(t *testing.T) {
	for _, c := range []struct {
		net  net.Net
		want []string
	}{
		{net.Net{Measured: measured(t, strings.Fields("AB=4000 BC=3000 CD=4000 DA=3000 AC=5000")...), Outline: names("A B C D")}, []string{
			"A is where it begins",
			"B from A by AB=4000: the first line",
			"C from AB by BC=3000 and AC=5000, left of AB (the order of the outline)",
			"D from AC by CD=4000 and DA=3000, left of AC (the order of the outline)",
		}},
		// A corner that goes inward: the diagonal BD tells, the outline alone would not.
		{net.Net{Measured: measured(t, strings.Fields("AB=4000 BC=3000 CD=1803 DA=3354 AC=5000 BD=1803")...), Outline: names("A B C D")}, []string{
			"A is where it begins",
			"B from A by AB=4000: the first line",
			"D from AB by DA=3354 and BD=1803, left of AB (the order of the outline)",
			"C from AB by BC=3000 and AC=5000, left of AB (as the other measurements say)",
		}},
		{net.Net{Measured: measured(t, strings.Fields("AB=4000 BC=3000 CD=4000 DA=3000 AC=5000 BD=5000")...), Sides: []net.Side{{Point: "D", Of: [2]geom.Name{"A", "C"}}}}, []string{
			"A is where it begins",
			"C from A by AC=5000: the first line",
			"D from AC by CD=4000 and DA=3000, left of AC (as said)",
			"B from AC by AB=4000 and BC=3000, right of AC (as the other measurements say)",
		}},
		{net.Net{Measured: measured(t, strings.Fields("AP=5000 BP=5000")...), Control: []net.Control{known("A", 0, 0), known("B", 6, 0)}, Sides: []net.Side{{Point: "P"}}}, []string{
			"A is known", "B is known", "P from AB by AP=5000 and BP=5000, left of AB (as said)",
		}},
	} {
		a := adjusted(t, c.net)
		var got []string
		for _, f := range a.Placed {
			got = append(got, string(english.Nets().Found(a, f)))
		}
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") {
			t.Errorf("found:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
}

func TestSlipInWords(t *testing.T) {
	// DB is 5263; the others fix it to about ± 6.
	for _, c := range []struct {
		line, value string
		want        []string // parts of the sentence
	}{
		{"DB", "5278", []string{"DB reads 5278; the others say 5264 ± 4: read it again, perhaps it is 14 shorter"}},
		{"DB", "5248", []string{"DB reads 5248; the others say 5264 ± 4: read it again, perhaps it is 16 longer"}},
		{"DB", "5363", []string{"perhaps it is 99 shorter", "the tape held at its 100 mark", "misread by 100"}},
		{"DB", "5163", []string{"longer", "(misread by 100"}},
		{"DB", "6263", []string{"shorter", "(misread by 1000)"}},
		{"DB", "5313", []string{"shorter", "misread by 50"}},
		{"DB", "2563", []string{"longer", "two digits swapped: 5263"}},
		{"AC", "1561", []string{"AC reads 1561", "two digits swapped: 5161"}},
		{"DA", "3004", []string{"DA reads 3004; the others say 330", "longer"}},
	} {
		a := adjusted(t, net.Net{Outline: names("A B C D"), Measured: measured(t, strings.Fields(read(yardLines, map[string]string{c.line: c.value}))...)})
		if a.Global.Passed || len(a.Suspects) == 0 {
			t.Errorf("%s=%s is not noticed", c.line, c.value)
			continue
		}
		says := string(english.Nets().Suspect(a, a.Suspects[0], unit.Style{}))
		for _, part := range c.want {
			if !strings.Contains(says, part) {
				t.Errorf("%s=%s: %q lacks %q", c.line, c.value, says, part)
			}
		}
		if !a.Suspects[0].Agree {
			t.Errorf("%s=%s: without it the others should agree", c.line, c.value)
		}

	}
	a := adjusted(t, net.Net{Outline: names("A B C D"), Measured: measured(t, strings.Fields(read(yardLines, nil))...)})
	if len(a.Suspects) > 0 || !a.Global.Passed {
		t.Errorf("suspects without a slip: %+v", a.Suspects)
	}
}

// Equal diagonals do not make a rectangle: a trapezium has them. 6000 and 5960
// are the parallel sides, 4000 apart; the legs √(20² + 4000²), the diagonals
// √(5980² + 4000²).
func TestFourCorners(t *testing.T) {
	leg, diagonal := math.Hypot(20, 4000), math.Hypot(5980, 4000)
	trapezium := fmt.Sprintf("AB=6000 BC=%.0f CD=5960 DA=%.0f AC=%.0f BD=%.0f", leg, leg, diagonal, diagonal)
	corners := [4]geom.Name{"A", "B", "C", "D"}
	for text, want := range map[string]string{
		trapezium: "ABCD is not square: AB and CD differ by 40, though its diagonals are alike",
		"AB=6000 BC=4000 CD=6000 DA=4000 AC=7211 BD=7211": "ABCD is square: its opposite sides are alike and its diagonals are alike",
		"AB=6000 BC=4000 CD=6001 DA=3999 AC=7211 BD=7212": "ABCD is square: its opposite sides are alike and its diagonals are alike",
		"AB=6000 BC=4000 CD=6000 DA=4000 AC=7250 BD=7172": "ABCD is not square: AC and BD differ by 78",
		"AB=6000 BC=4000 CD=6000 DA=4000 AC=7211":         "whether ABCD is square cannot be said: measure its four sides and both diagonals",
		"AB=6000 BC=4000 CD=5960 DA=4030 AC=7211 BD=7211": "ABCD is not square: AB and CD differ by 40 and BC and DA differ by 30, though its diagonals are alike",
	} {
		a := adjusted(t, net.Net{Outline: corners[:], Measured: measured(t, strings.Fields(text)...)})
		s := a.Rectangle(corners)
		if got := string(english.Nets().Rectangle(s, unit.Style{})); got != want {
			t.Errorf("%s: %s\nwant %s", text, got, want)
		}
		if s.Square != strings.HasPrefix(want, "ABCD is square") {
			t.Errorf("%s: %+v", text, s)
		}
	}
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
		{sides + `BAC=53°07'48"`, tape.Tools{}, unit.Style{}, []string{`BAC=53°07'48" is written far more finely than a protractor is read, and counts as ±30′`, "say what it was read with (under site: instrument: theodolite)", `BAC=53°07'48"+-0.01deg`}},
		{sides + "BAC=53.1301deg", tape.Tools{}, unit.Style{}, []string{"BAC=53.1301deg is written"}},
		{sides + `BAC=53°07'48"`, tape.Tools{Instrument: tape.Theodolite}, unit.Style{}, nil},
		{sides + "BAC=53.1301deg+-0.01deg", tape.Tools{}, unit.Style{}, nil},
		{sides + "BAC=53.25deg", tape.Tools{}, unit.Style{}, nil},
		{sides + "BAC=53°08'", tape.Tools{}, unit.Style{}, nil},
		{"AB=10000.00 BC=8000 CA=6000.1", tape.Tools{}, unit.Style{}, []string{"AB=10000.00 is written far more finely than a tape of class II is read, and counts as ±2.8 mm", "AB=10000.00+-0.1mm"}},
		{"AB=32.8084ft BC=26'3\" CA=19'8\"", tape.Tools{}, unit.Style{Unit: unit.FT}, []string{"counts as ±0.12 in", "+-1/64in"}},
	} {
		got := lines(english.Nets().TooFine(weighed(t, c.tools, c.tokens), c.style))
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

// Scatter far smaller or larger than the weights allow is said in words.
func TestScatterIsTold(t *testing.T) {
	for tokens, want := range map[string]string{
		"AB=10000 AB=10000 AB=10000 BC=8000 BC=8000 CA=6000":        "agree far better than what they are weighed by allows",
		"AB=10000 AB=10001 AB=9998 BC=8002 BC=8000 CA=6000":         "",
		"AB=10000 AB=10000 BC=8000 CA=6000":                         "", // too few to tell
		"AB=10000 AB=10012 AB=9988 BC=8014 BC=8000 BC=7986 CA=6000": "or the tolerances are too fine",
	} {
		a := weighed(t, tape.Tools{}, tokens)
		got := lines(english.Nets().Findings(a, unit.Style{}))
		if told := strings.Contains(got, "weighed by") || strings.Contains(got, "too fine"); told != (want != "") || !strings.Contains(got, want) || strings.Contains(got, "σ") {
			t.Errorf("%s (%.2f): %s", tokens, a.Global.Sigma0, got)
		}
	}
}

// Slips of a tape in feet are told in feet.
func TestSlipInFeet(t *testing.T) {
	var tokens []string
	for _, l := range strings.Fields(yardLines) {
		d := yard[l[0]].To(yard[l[1]]) / 25.4
		if l == "DB" {
			d += 12
		}
		tokens = append(tokens, fmt.Sprintf("%s=%.2fin+-0.15in", l, d))
	}
	a := adjusted(t, net.Net{Outline: names("A B C D"), Measured: measured(t, tokens...)})
	if says := english.Nets().Suspect(a, a.Suspects[0], unit.Style{Unit: unit.FT}); !strings.Contains(string(says), `misread by 1'-0"`) {
		t.Error(says)
	}
}

// What is doubtful in a net, each kind in its words.
func TestDoubts(t *testing.T) {
	for text, n := range map[string]net.Net{
		"A=36.9deg+-0.2deg, B=90deg+-0.2deg and C=53.9deg+-0.2deg must make 180° together: they make 180.8°, and allow 0.6°": {Measured: measured(t, strings.Fields("AB=4000 BC=3000 CA=5000 B=90deg+-0.2deg C=53.9deg+-0.2deg A=36.9deg+-0.2deg")...)},
		"nothing checks CD and DA: a slip there would not show":                                                              {Measured: measured(t, strings.Fields("AB=4000 AB=4000 BC=3000 BC=3000 CA=5000 CA=5000 CD=4000 DA=3000")...), Outline: names("A B C D")},
	} {
		if got := lines(english.Nets().Doubts(adjusted(t, n))); !strings.Contains(got, text) {
			t.Errorf("%q, want %q", got, text)
		}
	}
	many := net.Adjusted{Doubts: []net.Doubt{{Kind: net.Unchecked, Lines: strings.Fields("AB BC CD DE EF FG GH HI IJ JK KL LM MN NO")},
		{Kind: net.EdgesCross, Edges: [2][2]geom.Name{{"A", "B"}, {"C", "D"}}}, {Kind: net.MirrorImage}}}
	want := "nothing checks AB, BC, CD, DE, EF, FG, GH, HI, IJ, JK, KL, LM and 2 more: a slip there would not show\n" +
		"the edges AB and CD of the outline cross: say on which side the points lie\n" +
		"the outline runs clockwise: name its corners the other way round, or the piece is its mirror image"
	if got := lines(english.Nets().Doubts(many)); got != want {
		t.Errorf("%q", got)
	}
}

// Two places for a kite: which one it is stands on paper, in whole sentences.
func TestWhich(t *testing.T) {
	side := func(right bool) net.Placement {
		return net.Placement{Sides: []net.Side{{Point: "C", Of: [2]geom.Name{"B", "D"}, Right: right}}}
	}
	a := net.Adjusted{Mine: side(true), Others: []net.Placement{side(false)}}
	if got := english.Nets().Which(a); got != "Two placements of the points fit what was measured. This is the one with C right of BD; the other has C left of BD." {
		t.Error(got)
	}
	a.Disputed = true
	if got := english.Nets().Which(a); got != "" {
		t.Error(got)
	}
}
