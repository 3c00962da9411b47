package app

import (
	"os"
	"strings"
	"testing"

	"trammel/plot/draw"
	"trammel/plot/template"
)

// Whatever the paper, all that the trade asks to be shown is on some page: each step by
// hand of each piece, and for pieces with a shape each angle of saw and square. What
// its own page has no room for is on one before it.
func TestNothingAskedForIsLost(t *testing.T) {
	heel, err := os.ReadFile("../../../examples/boathouse-heel-plates.yaml")
	if err != nil {
		t.Fatal(err)
	}
	const small = `trade: joiner
pieces:
  - {name: Cleat, measure: [AB=80, BC=60, CA=70], quantity: 3, corners: [A cut 8]}
  - {name: Chock, measure: [AB=70, BC=65, CA=50], edges: [AB allow 2]}
`
	for _, c := range []struct {
		name, text string
		o          Options
		front      int // pages of instructions
	}{
		{"heel plates on A4", string(heel), Options{}, 2}, // of both hands
		{"on Letter", string(heel), Options{Paper: said("Letter")}, 2},
		{"on A3", string(heel), Options{Paper: said("A3")}, 0},
		{"on a roll", string(heel), Options{Paper: said("914xany")}, 0},
		{"small ones that share a page", small, Options{}, 1},
		{"a plain one that is crowded", "pieces: [{measure: [AB=138, BC=177, CA=203]}]\n", Options{}, 1},
		{"a plain one that is not", "pieces: [{measure: [AB=120, BC=90, CA=110]}]\n", Options{}, 0},
	} {
		w := mustOpen(t, c.text, c.o)
		made, err := w.template()
		if err != nil {
			t.Fatal(err)
		}
		n, front, all := 0, 0, ""
		for p := range made.pages() {
			n++
			if p.Kind == draw.Index {
				front++
			}
			for _, op := range p.Ops {
				if o, ok := op.(draw.Text); ok {
					all += o.Words + " "
				}
			}
		}
		all = strings.Join(strings.Fields(all), " ")
		if n != made.count || len(made.names()) != n || front != c.front {
			t.Errorf("%s: %d pages, %d counted, %d named, %d of instructions, want %d", c.name, n, made.count, len(made.names()), front, c.front)
		}
		for _, p := range w.Pieces {
			if p.Other {
				continue // the mirror image of the hand before it
			}
			for _, step := range template.Steps(w.templatePiece(p), w.style()) {
				if !strings.Contains(all, step) {
					t.Errorf("%s: %s: no step %q", c.name, p.Title(), step)
				}
			}
			if len(p.Shape.Sides) == 0 {
				continue
			}
			for _, row := range template.Settings(w.templatePiece(p), w.style())[1:] {
				if !strings.Contains(all, strings.Join(row, " ")) {
					t.Errorf("%s: %s: no row %q", c.name, p.Title(), row)
				}
			}
		}
	}
}

// Who names one SVG for one piece gets the piece, without instructions.
func TestSingle(t *testing.T) {
	for _, c := range []struct {
		text string
		want bool
	}{
		{"pieces: [{measure: [AB=138, BC=177, CA=203]}]\n", true},
		{"pieces: [{measure: [AB=138, BC=177, CA=203], quantity: 2}]\n", true}, // both marked from one template
		{"pieces: [{measure: [AB=500, BC=400, CA=300]}]\n", false},
		{"pieces: [{measure: [AB=50, BC=40, CA=30]}, {measure: [AB=60, BC=40, CA=30]}]\n", true},
	} {
		made := templateOf(t, c.text, Options{})
		before := made.count
		if got := single(made); got != c.want || got && made.count != 1 || !got && made.count != before {
			t.Errorf("%s: single %t, %d pages, %d before", c.text, got, made.count, before)
		}
		n := 0
		for range made.pages() {
			n++
		}
		if n != made.count {
			t.Errorf("%s: %d pages, %d counted", c.text, n, made.count)
		}
	}
}
