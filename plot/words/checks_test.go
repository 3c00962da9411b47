package words_test

import (
	"fmt"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

func stakes(at ...float64) (all []compare.Stake) {
	for i := 0; i+1 < len(at); i += 2 {
		all = append(all, compare.Stake{Name: letter(i / 2), At: geom.Point{X: unit.Length(at[i]), Y: unit.Length(at[i+1])}})
	}
	return all
}

func measured(t testing.TB, tokens ...string) (all []triangle.Measurement) {
	t.Helper()
	for _, token := range tokens {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, m)
	}
	return all
}

var (
	corner = stakes(0, 0, 4000, 0, 4000, 3000)                                                              // 3-4-5
	oblong = stakes(0, 0, 4000, 0, 4000, 3000, 0, 3000)                                                     // two of them
	navy   = stakes(0, 0, 40*304.8, 0, 40*304.8, 35*304.8, 0, 35*304.8)                                     // NAVEDTRA 14043
	six    = stakes(0, 0, 8000, 0, 12000, 5000, 8000, 9000, 0, 9000, -4000, 5000)                           // round a site
	ring   = stakes(9000, 0, 5612, 7036, -2003, 8774, -8109, 3905, -8109, -3905, -2003, -8774, 5612, -7036) // seven
)

// shifted are all lengths between pegs of which some stand off their places.
func shifted(pegs []compare.Stake, off map[int]geom.Point) (found []string) {
	at := func(i int) geom.Point { return pegs[i].At.Plus(off[i]) }
	for j := range pegs {
		for i := range j {
			found = append(found, fmt.Sprintf("%s%s=%.1f", letter(i), letter(j), at(i).Distance(at(j)).MM()))
		}
	}
	return found
}

// What is said of layouts that are known to the hand; geom/compare holds the figures.
func TestChecks(t *testing.T) {
	for _, x := range []struct {
		pegs    []compare.Stake
		found   []string
		style   unit.Style
		verdict string   // begins so
		advice  []string // each is in it, in this order
		never   string
	}{
		{corner, strings.Fields("AB=4000 BC=3009.024 CA=5015"), unit.Style{}, "Not passed: BC and CA lie outside their ranges, 2 of 3 readings.", []string{
			"Most of what was read lies outside: first read BC and CA again. What follows holds if they read the same.\n",
			"C stands 15 ± 5 mm off its place. Move it 15 mm towards A.\n",
			"Then measure again: they should read BC 3000 and CA 5000.\n",
			"All other readings agree with that.\n",
		}, "Nothing more"},
		{navy, []string{"AB=40ft 0in", "BC=35ft 0in", "CD=40ft 0in", "DA=35ft 0in", "AC=53ft 4 3/4in", "BD=52ft 10 7/8in"}, unit.Style{Unit: unit.FT}, "Not passed", []string{
			`The frame is racked: its sides are right, but AC is 2 15/16" too long and BD is 2 15/16" too short. Hold A and B.`,
			`Move C 3 7/8" to the left, seen from B.`, `Move D 3 7/8" to the left, seen from A.`, `AC 53'-1 13/16" and BD 53'-1 13/16" should be read.`,
		}, "Move it"},
		{six, shifted(six, map[int]geom.Point{1: {X: 30, Y: -10}, 4: {X: -5, Y: 40}}), unit.Style{}, "Not passed", []string{
			"Most of what was read lies outside: first read AB, BC, BD, AE, BE, CE, BF and EF again.", "Two pegs stand wrong, B and E. Mend B first, measure again, then E.\n",
		}, "Three"},
		{ring, shifted(ring, map[int]geom.Point{1: {X: -45}, 2: {Y: 60}, 3: {X: 80}, 5: {X: 60}}), unit.Style{}, "Not passed", []string{
			"First read AB, AC,", "No one, two or three pegs, no two readings and no tape explain it all", "though the rest still disagrees", "set out anew from the baseline",
		}, "Move it"},
		{oblong, strings.Fields("AB=4000 BC=3000 CD=4000 DA=3000"), unit.Style{}, "Passed as far as it was measured: all 4", []string{"Measure BD as well, which should read 5000 mm."}, "again"},
		{oblong, strings.Fields("AB=4000 BC=3000 AC=5000"), unit.Style{}, "Passed as far as it was measured: all 3", []string{"D was not measured back: nothing here speaks for it."}, "again"},
		{oblong, strings.Fields("AB=4000 BC=3000 CD=4000 DA=3000 CA=5000 BD=5000"), unit.Style{}, "Passed: all 6 readings", nil, "."},
		{oblong, []string{"AB=4.00m"}, unit.Style{}, "Passed as far as it was measured", []string{"Too rough to be judged: AB=4.00m is ±5. Read to the millimetre"}, "sixteenth"},
		{oblong, []string{"AB=4003+-3"}, unit.Style{}, "Passed as far as it was measured", nil, "Too rough"},
		{oblong, []string{"AB=4300+-400"}, unit.Style{}, "Not passed: AB lies outside its range.", []string{"Too rough to be judged: AB=4300 is ±400."}, "sixteenth"},
		{corner, strings.Fields("AB=4000 BC=3000 CA=5014"), unit.Style{}, "Not passed: CA lies outside its range, 1 of 3 readings.", []string{
			"Move nothing yet: what was measured does not tell which of these it is.\n", "Either CA is misread.", "Or A stands ", "That would be mended by A going ", "Or C stands ", "Measure CA again.\n",
		}, "Move it"},
	} {
		c, err := compare.Compare(compare.Asked{Pegs: x.pegs, Found: measured(t, x.found...)})
		if err != nil {
			t.Fatal(err)
		}
		verdict, all := english.Checks().Verdict(c), strings.Join(append(english.Checks().Advice(c, x.style), ""), "\n")
		if !strings.HasPrefix(verdict, x.verdict) || strings.Contains(all, x.never) {
			t.Errorf("%s: %s\n%s", x.found, verdict, all)
		}
		rest := all
		for _, want := range x.advice {
			_, after, ok := strings.Cut(rest, want)
			if !ok {
				t.Errorf("%s: %q is not in\n%s", x.found, want, all)
				break
			}
			rest = after
		}
	}
}

// A move is told so that a hand can do it: along the line to a peg, across it, or both,
// in figures that are not 0.
func TestMoves(t *testing.T) {
	for _, x := range []struct {
		m    compare.Moved
		want string
	}{
		{compare.Moved{Name: "C", Known: 2, From: "A", Toward: 12, Left: 7}, "Move it 12 mm towards A and 7 mm to the left, seen from A."},
		{compare.Moved{Name: "C", Known: 2, From: "A", Toward: -12, Left: -7}, "Move it 12 mm away from A and 7 mm to the right, seen from A."},
		{compare.Moved{Name: "C", Known: 2, From: "A", Toward: 12, Left: 0.4}, "Move it 12 mm towards A."},
		{compare.Moved{Name: "C", Known: 2, From: "A", Toward: 0.4, Left: -12}, "Move it 12 mm to the right, seen from A."},
		{compare.Moved{Name: "C", Known: 1, From: "A", Toward: 12, Left: 7}, "Move it 12 mm towards A."},
		{compare.Moved{Name: "C", Known: 2}, "Set it out anew."},
	} {
		if got := english.Checks().Move(x.m, unit.Style{}); got != x.want {
			t.Errorf("%q, want %q", got, x.want)
		}
	}
	if got := english.Checks().OnPlan(compare.Moved{Off: 14}, false, unit.Style{}); got != "perhaps 14 mm" {
		t.Error(got)
	}
}
