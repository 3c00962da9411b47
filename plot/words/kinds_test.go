package words_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
	"trammel/plot/words/byhand"
)

var update = flag.Bool("update", false, "write the goldens anew; read them before they are kept")

// One triangle of each kind, as a pupil and as a joiner read it; each list was read and
// worked through on paper.
func TestKindsRead(t *testing.T) {
	var out strings.Builder
	for _, k := range []struct{ name, tokens, base string }{
		{"three sides", "AB=90 BC=80 CA=60", ""},
		{"two equal sides and the base", "AB=70 BC=90 CA=90", ""},
		{"three sides, one beyond the compasses", "AB=160 BC=100 CA=90", ""},
		{"three sides, the usual base beyond its neighbour", "AB=90 BC=160 CA=100", ""},
		{"two sides and the angle between", "AB=85 A=50deg CA=70", ""},
		{"a side and the angles at its ends", "AB=95 A=40deg B=65deg", ""},
		{"two angles and a side opposite one", "AB=95 A=40deg C=65deg", ""},
		{"two sides and an angle opposite one, two fit", "AC=100 C=35deg AB=70", ""},
		{"two sides and an angle opposite one, one fits", "AB=80 A=40deg BC=95", ""},
		{"two sides and an angle opposite one, the arc touches", "AB=90 A=30deg BC=45", ""},
		{"right angle, a short side and the longest", "AB=60 A=90deg BC=100", ""},
		{"right angle and the longest side first", "AB=100 C=90deg CA=60", ""},
		{"right angle and a longest side beyond the compasses", "AB=160 C=90deg CA=90", ""},
		{"right angle, longest side and an angle", "AB=100 C=90deg A=40deg", ""},
		{"right angle, longest side beyond twice the compasses and an angle", "AB=300 C=90deg A=40deg", ""},
		{"right angle, longest side and the height over it", "AB=110 C=90deg C-AB=40", ""},
		{"right angle and the sides at it", "AB=80 A=90deg CA=60", ""},
		{"base, height and a side", "AB=100 C-AB=50 CA=60", ""},
		{"height over another side than the first", "AB=70 CA=100 B-CA=50", ""},
		{"base, height and an angle at its end", "AB=100 C-AB=50 A=65deg", ""},
		{"two sides and the height over the third", "BC=80 CA=70 C-AB=50", ""},
		{"a side, the height over it and the angle opposite", "AB=80 C-AB=60 C=50deg", ""},
		{"a side, an angle at it and the height over another", "AB=90 A=60deg A-BC=70", ""},
		{"a side, the angle opposite and the height over another", "AB=90 C=60deg A-BC=70", ""},
		{"a side and two heights", "AB=90 C-AB=60 A-BC=70", ""},
		{"two angles and a height", "A=50deg B=60deg C-AB=60", ""},
		{"an angle and two heights", "A=50deg B-CA=70 C-AB=60", ""},
		{"three heights", "A-BC=50 B-CA=60 C-AB=70", ""},
		{"the job's own base", "AC=100 C=35deg AB=70", "AB"},
	} {
		h := chosen(t, k.tokens, k.base)
		fmt.Fprintf(&out, "%s: %s\n", k.name, strings.TrimSpace(k.tokens+" "+k.base))
		for _, v := range []words.Voice{words.Class, words.Bench} {
			for i, say := range words.InWords(words.English{Voice: v}.Steps(), h) {
				fmt.Fprintf(&out, "  %s %d %s\n", v, i+1, say)
			}
		}
	}
	const golden = "testdata/kinds.txt"
	if *update {
		if err := os.WriteFile(golden, []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	got, held := strings.Split(out.String(), "\n"), strings.Split(string(want), "\n")
	for i := range max(len(got), len(held)) {
		if i >= len(got) || i >= len(held) || got[i] != held[i] {
			t.Fatalf("%s:%d: %q", golden, i+1, got[min(i, len(got)-1)])
		}
	}
}

// chosen is a triangle as a class constructs it: compasses to 120, protractor in degrees.
func chosen(t *testing.T, tokens, base string) words.ByHand {
	t.Helper()
	var b [2]geom.Name
	if base != "" {
		b = [2]geom.Name{geom.Name(base[:1]), geom.Name(base[1:])}
	}
	s, err := triangle.Solve(measured(t, strings.Fields(tokens)...), b)
	if err != nil {
		t.Fatal(err)
	}
	h := words.ByHand{Reach: 120, Protractor: unit.Degree, Given: map[geom.Name]unit.Reading{}, Figures: unit.Style{Decimals: 1}}
	for _, m := range s.Measured {
		if m.Kind == triangle.Angle {
			h.Given[m.At[1]] = m.Value
		}
	}
	h.Construction, err = construct.Choose(s, 0, construct.Hand{OnBase: base != "", Reach: h.Reach, Protractor: h.Protractor})
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// A chord is swung with the compasses that a class has: no farther than they reach.
func TestChordsKeepToTheCompasses(t *testing.T) {
	for _, c := range []struct{ reach, want unit.Length }{{120, 120}, {85, 80}, {300, 200}} {
		h := chosen(t, "AB=210 A=50.4deg CA=205", "AB")
		h.Reach = c.reach
		chords := 0
		for _, a := range h.Acts() {
			if s, ok := a.(byhand.SetAngle); ok && s.By == byhand.ByChord {
				chords++
				if s.Radius != c.want || s.Chord > 2*s.Radius {
					t.Errorf("compasses to %v: a chord of %v at %v, want at %v", c.reach, s.Chord, s.Radius, c.want)
				}
			}
		}
		if chords != 1 {
			t.Errorf("compasses to %v: %d angles by a chord", c.reach, chords)
		}
	}
}
