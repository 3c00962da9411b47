package app

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/place"
)

// On whole pages that small pieces share no figure comes within 2 mm of other words, be
// they another piece's, steps, names or the header, nor within 0.3 mm of any ink.
func TestFiguresOfClassSheetsStandFree(t *testing.T) {
	rnd := rand.New(rand.NewPCG(10, 8))
	figures := 0
	for range gate.Of(3, 60) {
		var job strings.Builder
		job.WriteString("job: Triangles\ntrade: teacher\npieces:\n")
		for n := 0; n < 5; {
			a, b, c := 12+rnd.IntN(100), 12+rnd.IntN(100), 12+rnd.IntN(100)
			if 2*max(a, b, c) < a+b+c-2 {
				n++
				fmt.Fprintf(&job, "  - {name: Triangle %d, measure: [AB=%d, BC=%d, CA=%d]}\n", n, a, b, c)
			}
		}
		for p := range templateOf(t, job.String(), Options{}).pages() {
			for i, op := range p.Ops {
				if w, ok := op.(draw.Text); ok && w.On == draw.Dimension {
					figures++
					if near := nearWords(p, i, w); near != "" {
						t.Errorf("page of %s: %s", p.Piece, near)
					}
				}
			}
		}
	}
	if figures < 100 {
		t.Errorf("only %d figures were looked at", figures)
	}
}

// nearWords is what of a page stands too near to the words that are its operation i.
func nearWords(p draw.Page, i int, w draw.Text) string {
	r := lettering.Go()
	corners := w.Box(r)
	box := geom.Polygon(corners[:])
	for k, op := range p.Ops {
		if o, ok := op.(draw.Text); ok {
			other := o.Box(r)
			if d := box.Apart(geom.Polygon(other[:])); k != i && d < 2-1e-6 {
				return fmt.Sprintf("%q is %.2f from %q", w.Words, d, o.Words)
			}
			continue
		}
		for _, s := range place.Strokes(op, 1e6) {
			if d := box.ApartFrom(s.Line) - s.Half; d < 0.3 {
				return fmt.Sprintf("%q is %.2f from %T", w.Words, d, op)
			}
		}
	}
	return ""
}

// The class sheet of the examples takes two pages, is read in its order, and tells no pupil what is to be
// measured; of two answers the second tells the steps from where they part.
func TestTheClassSheetTakesTwoPages(t *testing.T) {
	text, err := os.ReadFile("../../../examples/class-sheet.yaml")
	if err != nil {
		t.Fatal(err)
	}
	made := templateOf(t, string(text), Options{})
	if made.count != 2 {
		t.Errorf("%d pages", made.count)
	}
	spots := made.shared.spots
	if len(spots) != 5 || !slices.IsSortedFunc(spots, func(a, b paging.Spot) int {
		return cmp.Or(cmp.Compare(a.Page, b.Page), cmp.Compare(b.At.Y, a.At.Y))
	}) {
		t.Errorf("not in their order: %v", spots)
	}
	all := ""
	for p := range made.pages() {
		for _, op := range p.Ops {
			if w, ok := op.(draw.Text); ok {
				all += w.Words + " "
			}
		}
	}
	all = strings.Join(strings.Fields(all), " ")
	for _, want := range []string{"Steps 1 and 2 as for Two sides and an angle not between (1 of 2).", "Measure HI to the nearest millimetre: HI = ____ mm.", "F = ____ °."} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in %s", want, all)
		}
	}
	if strings.Contains(all, "should come to") {
		t.Errorf("a pupil reads what should be measured: %s", all)
	}
}

// On 500 sheets of templates, of class sheets and of the pages before them no words come within 2 mm of another
// thing's nor within 0.3 mm of ink that is not their own, and none are off the page.
func TestWordsOfSheetsStandFree(t *testing.T) {
	rnd := rand.New(rand.NewPCG(10, 7))
	pick := func(of ...string) string { return of[rnd.IntN(len(of))] }
	sheets, words := 0, 0
	for sheets < gate.Of(60, 500) {
		size := 60 + rnd.Float64()*rnd.Float64()*900
		side := func() int { return int(size * (0.45 + 0.55*rnd.Float64())) }
		a, b, c := side(), side(), side()
		if 2*max(a, b, c) > a+b+c-4 {
			continue
		}
		trade, shape := pick("joiner", "general", "teacher"), ""
		if size > 250 && trade != "teacher" {
			shape = pick("", "", ", edges: [AB allow 3], corners: [C round 20]", ", corners: [A cut 25], quantity: 2")
		}
		job := fmt.Sprintf("job: Panels\ntrade: %s\npaper: %s\npieces:\n  - {name: Panel, measure: [AB=%d, BC=%d, CA=%d]%s}\n", trade, pick("A4", "A4", "A3", "Letter"), a, b, c, shape)
		made := templateOf(t, job, Options{})
		for p := range made.pages() {
			sheets++
			for i, op := range p.Ops {
				w, ok := op.(draw.Text)
				if !ok {
					continue
				}
				words++
				if box := w.Bounds(lettering.Go()); box.Min.X < 8 || box.Min.Y < 8 || box.Max.X > p.Width-8 || box.Max.Y > p.Height-8 {
					t.Errorf("%s: %q is off the page", job, w.Words)
				}
				if p.Kind != draw.Template || w.On != draw.Dimension {
					continue // rows of a list and a table belong together
				}
				if near := nearWords(p, i, w); near != "" {
					t.Errorf("%s, sheet %s: %s", job, p.Label, near)
				}
			}
		}
	}
	t.Logf("%d sheets, %d words", sheets, words)
}
