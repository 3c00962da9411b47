package app

import (
	"fmt"
	"strings"
	"testing"

	"trammel/cmd/internal/lines"
	"trammel/plot/draw"
)

// printed is what comes out: sheets of the template, pages of words, and all words.
func printed(t *testing.T, text string, o Options) (sheets, front int, index draw.Page, all string) {
	t.Helper()
	for p := range templateOf(t, text, o).pages() {
		if p.Kind == draw.Index {
			if front++; front == 1 {
				index = p
			}
		} else {
			sheets++
		}
		for _, op := range p.Ops {
			if o, ok := op.(draw.Text); ok {
				all += o.Words + " "
			}
		}
	}
	return sheets, front, index, strings.Join(strings.Fields(all), " ")
}

// A quantity is marked from one template; of a pair it is turned over, unless both hands are
// asked for or the face that lies up is stated.
func TestPrintedOnce(t *testing.T) {
	const side = "pieces: [{name: Rib, measure: [AB=600, BC=450, CA=400]"
	one, _, _, _ := printed(t, side+"}]", Options{})
	for _, c := range []struct {
		name, more string
		o          Options
		times      int
		say        string
	}{
		{"two", ", quantity: 2", Options{}, 1, "mark 2"},
		{"two, printed twice", ", quantity: 2", Options{Copies: said("2")}, 2, "mark 2"},
		{"a pair", ", handed: pair", Options{}, 1, "mark 1, turn over, mark 1: the opposite hand"},
		{"two pairs", ", handed: pair, quantity: 4", Options{}, 1, "mark 2, turn over, mark 2: the opposite hand"},
		{"a pair, both hands", ", handed: pair", Options{BothHands: true}, 2, "for each hand"},
		{"two pairs, both hands", ", handed: pair, quantity: 4", Options{BothHands: true}, 2, "mark 2"},
		{"a pair, face up", ", handed: pair, face: up", Options{}, 2, "for each hand"},
	} {
		sheets, front, _, all := printed(t, side+c.more+"}]", c.o)
		if sheets != c.times*one || !strings.Contains(all, c.say) || strings.Contains(all, "turn over") != strings.Contains(c.say, "turn over") {
			t.Errorf("%s: %d sheets, %d of one, %q is said: %t", c.name, sheets, one, c.say, strings.Contains(all, c.say))
		}
		if _, alone, _, _ := printed(t, side+"}]", Options{}); front > alone {
			t.Errorf("%s: %d pages of words, %d of one hand", c.name, front, alone)
		}
	}
}

// What is not true to scale is printed on the office's paper, whatever the template is on.
func TestIndexOnOfficePaper(t *testing.T) {
	const big = "pieces: [{name: Gable, measure: [AB=7200, A=35deg, B=35deg]}]"
	for paper, want := range map[string]bool{"A0": true, "914xany": true, "A3": false} {
		_, _, index, all := printed(t, big, Options{Paper: said(paper)})
		if onA4 := index.Width == 210 && index.Height == 297; onA4 != want || index.Width == 0 {
			t.Errorf("%s: the index is %v × %v", paper, index.Width, index.Height)
		}
		if strings.Contains(all, "Measure this bar") == want {
			t.Errorf("%s: a bar on other paper says nothing about the sheets", paper)
		}
	}
}

// What is said to take fewer sheets does: whoever follows it gets that many.
func TestInsteadIsTrue(t *testing.T) {
	const big = "pieces: [{name: Gable, measure: [AB=2400, BC=1500, CA=1300]}]"
	made := templateOf(t, big, Options{})
	say := instead(made)
	outline, _, _, _ := printed(t, big, Options{Cover: said("outline")})
	roll, _, _, _ := printed(t, big, Options{Paper: said("914xany")})
	s, err := mustOpen(t, big, Options{}).setout()
	if err == nil {
		err = s.lay()
	}
	if err != nil {
		t.Fatal(err)
	}
	want := fmt.Sprintf("Gable takes fewer sheets than %d otherwise: %d with pages: outline, %d with paper: 914xany; a setting-out sheet takes %s",
		len(made.laid[0].plan.Cells), outline, roll, lines.Plural(len(s.pages), "page"))
	if say != want {
		t.Errorf("%q, want %q", say, want)
	}
	if say := instead(templateOf(t, "pieces: [{measure: [AB=600, BC=450, CA=400]}]", Options{})); say != "" {
		t.Errorf("of few sheets: %q", say)
	}
	// Where nothing is gained, nothing is said of it.
	if say := instead(templateOf(t, big, Options{Paper: said("914xany")})); say != "" {
		t.Errorf("off a roll: %q", say)
	}
}
