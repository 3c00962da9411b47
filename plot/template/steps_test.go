package template

import (
	"fmt"
	"strings"
	"testing"

	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

func typeName(v any) string { return fmt.Sprintf("%T", v) }

// The words as a reader gets them; each list was read and worked through on paper.
func TestStepsRead(t *testing.T) {
	for _, c := range []struct {
		by     construct.Method
		tokens string
		answer int
		want   string
	}{
		{construct.AsMeasured, "AB=600 BC=450 CA=450", 0, `
Knife AB, 600, off the straight edge.
Set the trammel, or a batten on a pin, to 450. From A scribe an arc above AB.
Set the trammel to 450. From B cross the first arc. Prick C.
Knife A to C.
Knife B to C.
Try the bevel at C: 83.6°.
Square from C to AB: it should read 335.4.`},
		{construct.AsMeasured, "AB=140 A=40deg C=60deg", 0, `
Angle B is 80°: what 60° and 40° leave of 180°.
Knife AB, 140, off the straight edge.
Set the bevel to 40°. Stock on AB, strike a line from A.
Turn the bevel over and set it to 80°. Stock on BA, strike a line from B. It meets the line from A at C. 80° is computed.
Knife A to C.
Knife B to C.
Rule on BC: it should read 103.9.
Rule on CA: it should read 159.2.
Try the bevel at C: 60°.
Square from C to AB: it should read 102.3.`},
		// A side that was measured is measured, square or not.
		{construct.BySquare, "AB=300 A=90deg CA=200", 0, `
Knife AB, 300, off the straight edge.
Try square on AB at A: knife it up. Mark 200 up: C.
Knife A to C.
Knife B to C.
Rule on BC: it should read 360.6.
Try the bevel at A: 90°.`},
		// 2 · 1000 · sin 17.5° = 601.4, and of half of 110° 1638.3.
		{construct.AsMeasured, "AB=7200 A=35deg B=110deg", 0, `
Knife AB, 7200, off the straight edge.
Set the bevel to 35°. Stock on AB, strike a line from A. Surer over this length: swing 1000 from A. Where that arc crosses AB, swing 601.4 across it on C's side. Draw the line through the crossing. 601.4 is computed.
Turn the bevel over and set it to 110°. Stock on BA, strike a line from B. It leans away from A. Surer, as before: swing 1000 from B, then 1638.3 from BA. It meets the line from A at C. 1638.3 is computed.
Knife A to C.
Knife B to C.
Rule on BC: it should read 7200.
Rule on CA: it should read 11 795.8.
Try the bevel at C: 35°.
Square from C to AB run on past B: it should read 6765.8.`},
		{construct.AsMeasured, "AB=80 A=35deg BC=60", 0, `
Knife AB, 80, off the straight edge.
Set the bevel to 35°. Stock on AB, strike a line from A.
Set the compasses to 60. From B cross the line from A. Two crossings: C is the one farther from A. Prick C.
Knife B to C.
Rule on CA: it should read 104.2.
Try the bevel at C: 49.9°.
Square from C to AB run on past B: it should read 59.8.`},
		{construct.AsMeasured, "AB=80 A=35deg BC=60", 1, `
Knife AB, 80, off the straight edge.
Set the bevel to 35°. Stock on AB, strike a line from A.
Set the compasses to 60. From B cross the line from A. Two crossings: C is the one nearer to A. Prick C.
Knife B to C.
Rule on CA: it should read 26.9.
Try the bevel at C: 130.1°.
Square from C to AB: it should read 15.4.`},
		{construct.AsMeasured, "AB=150 C-AB=70 CA=90", 0, `
Knife AB, 150, off the straight edge.
Gauge a line 70 from AB, above it. C lies on it.
Set the compasses to 90. From A cross the parallel. Two crossings: C is the one nearer to B. Prick C.
Knife A to C.
Knife B to C.
Rule on BC: it should read 116.7.
Try the bevel at C: 92.1°.`},
		{construct.BySquare, "AB=120 BC=110 CA=100", 0, `
Knife AB, 120, off the straight edge.
Mark 51.3 from A on AB: that is the foot. Try square on AB at the foot: knife it up. Mark 85.9 up: C. 51.3 and 85.9 are computed.
Knife A to C.
Knife B to C.
Rule on BC: it should read 110.
Rule on CA: it should read 100.
Try the bevel at C: 69.5°.`},
		{construct.BySquare, "AB=100 BC=80 CA=170", 0, `
Knife AB, 100, off the straight edge.
Run AB on, 62.5 past B: that is the foot. Try square on BA at the foot: knife it up. Mark 49.9 up: C. 62.5 and 49.9 are computed.
Knife A to C.
Knife B to C.
Rule on BC: it should read 80.
Rule on CA: it should read 170.
Try the bevel at C: 21.5°.`},
		{construct.AsMeasured, "AB=100 A=90deg CA=70", 0, `
Knife AB, 100, off the straight edge.
Try square on AB at A: knife it up. Mark 70 up: C.
Knife B to C.
Rule on BC: it should read 122.1.
Try the bevel at C: 55°.`},
		{construct.ByAngle, "AB=120 BC=110 CA=100", 0, `
Knife AB, 120, off the straight edge.
Set the bevel to 59.2°. Stock on AB, strike a line from A. 59.2° is computed.
Mark 100 from A on the line: C.
Knife B to C.
Rule on BC: it should read 110.
Try the bevel at C: 69.5°.
Square from C to AB: it should read 85.9.`},
	} {
		p := pieces(t, c.by, c.tokens)[c.answer]
		if got := strings.Join(Steps(p, full()), "\n"); got != strings.TrimSpace(c.want) {
			t.Errorf("%s (%v):\n%s", c.tokens, c.by, got)
		}
	}
}

func TestStepsKnowTheReachOfTheCompasses(t *testing.T) {
	p := piece(t, "AB=600 BC=450 CA=250")
	s := full()
	s.Reach = 300
	say := strings.Join(Steps(p, s), "\n")
	for _, c := range p.Construction.Steps {
		w, ok := c.(construct.Swing)
		if !ok {
			continue
		}
		tool := "compasses"
		if w.Radius > 300 {
			tool = "trammel, or a batten on a pin,"
		}
		if want := fmt.Sprintf("Set the %s to %s. From %s ", tool, unit.Style{}.Length(w.Radius), w.Centre); !strings.Contains(say, want) {
			t.Errorf("%q is missing in\n%s", want, say)
		}
	}
}

// A height that is measured over another side than the baseline has no line on
// the drawing, so the words say it.
func TestOtherHeightsAreSaid(t *testing.T) {
	p := piece(t, "A-BC=200 B-CA=180 C-AB=150")
	if got, want := heights(p), "measured too: height from A 200, height from B 180"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := heights(Piece{Name: "shared page"}); got != "" {
		t.Errorf("%q for no piece at all", got)
	}
	if got := heights(piece(t, "AB=300 C-AB=140 A=50deg")); got != "" {
		t.Errorf("%q for the height that is drawn", got)
	}
}

// The height of an obtuse corner's neighbour runs off the pages: then no line is
// drawn that ends nowhere. Measured, it is drawn all the same.
func TestHeightOffThePaperIsNotDrawn(t *testing.T) {
	for _, c := range []struct {
		tokens string
		want   int
	}{{"AB=500 A=125deg CA=300", 0}, {"AB=500 C-AB=245.7 A=125deg", 1}, {"AB=500 A=75deg CA=300", 1}} {
		p := piece(t, c.tokens)
		d, err := Draw(p, laid(t, p, a4, paging.Full), font, full())
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, op := range d {
			if l, ok := op.(draw.Line); ok && l.Pen == draw.Centre {
				n++
			}
		}
		if n != c.want {
			t.Errorf("%s: %d heights drawn, want %d", c.tokens, n, c.want)
		}
	}
}

// A page that goes on with the index says of which piece it is.
func TestIndexGoesOnUnderItsName(t *testing.T) {
	p := piece(t, "AB=300 BC=180 CA=240")
	a5 := paging.Sheet{Name: "A5", Width: 148, Height: 210, Left: 10, Right: 10, Top: 10, Bottom: 10, Overlap: 10}
	pages, err := Index(p, laid(t, p, a5, paging.Full), font, full(), Front{})
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) < 2 {
		t.Fatal("one page: choose a longer index")
	}
	for _, page := range pages[1:] {
		if first := page.Ops[0].(draw.Text).Words; first != p.Name+", continued" {
			t.Errorf("begins with %q", first)
		}
	}
}

// Two crossings are told apart from a corner that is not as far from both.
func TestCrossingsAreToldApart(t *testing.T) {
	for _, tokens := range []string{"AB=150 C-AB=70 CA=90", "AB=150 C-AB=70 BC=90", "AB=80 A=35deg BC=60", "AB=80 B=35deg CA=60"} {
		for _, p := range pieces(t, construct.AsMeasured, tokens) {
			tri := p.Triangle
			steps := Steps(p, full())
			for i, step := range p.Construction.Steps {
				s, ok := step.(construct.Swing)
				if !ok || !s.Twice {
					continue
				}
				for k, n := range tri.Names {
					if !strings.Contains(steps[i], "nearer to "+string(n)+".") && !strings.Contains(steps[i], "farther from "+string(n)+".") {
						continue
					}
					here, there := tri.Points[k].Distance(s.Through), tri.Points[k].Distance(s.Other)
					if nearer := strings.Contains(steps[i], "nearer"); nearer != (here < there-1) || nearer == (here > there+1) {
						t.Errorf("%s: %v and %v from %s: %s", tokens, here, there, n, steps[i])
					}
				}
			}
		}
	}
}

func heights(p Piece) string { return string(full().says().Steps().OtherHeights(p.ByHand(full()))) }
