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
Draw the baseline AB, 600 long.
Beam compasses or a batten on a pin at A, radius 450: swing an arc above the baseline.
Beam compasses at B, radius 450: swing an arc across the first; they cross at C.
Join A and C.
Join B and C.
Check: measure the angle at C: 83.6°.
Check: measure from C square to AB: 335.4.`},
		{construct.AsMeasured, "AB=140 A=40deg C=60deg", 0, `
The angle at B is what the others leave of 180°: 180° less 60° at C and 40° at A is (80°).
Draw the baseline AB, 140 long.
Protractor at A: set off 40° from AB and draw the arm.
Protractor at B: set off (80°) from BA and draw the arm; it crosses the arm from A at C.
Join A and C.
Join B and C.
Check: measure BC: 103.9.
Check: measure CA: 159.2.
Check: measure the angle at C: 60°.
Check: measure from C square to AB: 102.3.`},
		// A side that was measured is measured, square or not.
		{construct.BySquare, "AB=300 A=90deg CA=200", 0, `
Draw the baseline AB, 300 long.
Square at A: raise a perpendicular on AB and mark off 200 on it; this is C.
Join A and C.
Join B and C.
Check: measure BC: 360.6.
Check: measure the angle at A: 90°.`},
		// 2 · 1000 · sin 17.5° = 601.4, and of half of 110° 1638.3.
		{construct.AsMeasured, "AB=7200 A=35deg B=110deg", 0, `
Draw the baseline AB, 7200 long.
Protractor at A: set off 35° from AB and draw the arm. Surer over this length: swing 1000 from A, and where that arc crosses AB swing (601.4) across it; the arm runs through the crossing.
Protractor at B: set off 110° from BA and draw the arm; it crosses the arm from A at C. Surer, as before: 1000 from B, then (1638.3) from BA.
Join A and C.
Join B and C.
Check: measure BC: 7200.
Check: measure CA: 11 795.8.
Check: measure the angle at C: 35°.
Check: measure from C square to AB carried on beyond B: 6765.8.`},
		{construct.AsMeasured, "AB=80 A=35deg BC=60", 0, `
Draw the baseline AB, 80 long.
Protractor at A: set off 35° from AB and draw the arm.
Compasses at B, radius 60: swing an arc across the arm from A; they cross at C, the crossing farther from A.
Join B and C.
Check: measure CA: 104.2.
Check: measure the angle at C: 49.9°.
Check: measure from C square to AB carried on beyond B: 59.8.`},
		{construct.AsMeasured, "AB=80 A=35deg BC=60", 1, `
Draw the baseline AB, 80 long.
Protractor at A: set off 35° from AB and draw the arm.
Compasses at B, radius 60: swing an arc across the arm from A; they cross at C, the crossing nearer to A.
Join B and C.
Check: measure CA: 26.9.
Check: measure the angle at C: 130.1°.
Check: measure from C square to AB: 15.4.`},
		{construct.AsMeasured, "AB=150 C-AB=70 CA=90", 0, `
Draw the baseline AB, 150 long.
Draw a line parallel to AB, 70 above it; C lies on this line.
Compasses at A, radius 90: swing an arc across the parallel; they cross at C, the crossing nearer to B.
Join A and C.
Join B and C.
Check: measure BC: 116.7.
Check: measure the angle at C: 92.1°.`},
		{construct.BySquare, "AB=120 BC=110 CA=100", 0, `
Draw the baseline AB, 120 long.
From A mark off (51.3) along AB to the foot; square there, raise a perpendicular and mark off (85.9) on it; this is C.
Join A and C.
Join B and C.
Check: measure BC: 110.
Check: measure CA: 100.
Check: measure the angle at C: 69.5°.`},
		{construct.BySquare, "AB=100 BC=80 CA=170", 0, `
Draw the baseline AB, 100 long.
Carry AB on beyond B by (62.5) to the foot; square there, raise a perpendicular and mark off (49.9) on it; this is C.
Join A and C.
Join B and C.
Check: measure BC: 80.
Check: measure CA: 170.
Check: measure the angle at C: 21.5°.`},
		{construct.AsMeasured, "AB=100 A=90deg CA=70", 0, `
Draw the baseline AB, 100 long.
Square at A: raise a perpendicular on AB and mark off 70 on it; this is C.
Join B and C.
Check: measure BC: 122.1.
Check: measure the angle at C: 55°.`},
		{construct.ByAngle, "AB=120 BC=110 CA=100", 0, `
Draw the baseline AB, 120 long.
Protractor at A: set off (59.2°) from AB and draw the arm.
From A mark off 100 along the arm; this is C.
Join B and C.
Check: measure BC: 110.
Check: measure the angle at C: 69.5°.
Check: measure from C square to AB: 85.9.`},
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
		tool := "Compasses"
		if w.Radius > 300 {
			tool = "Beam compasses or a batten on a pin"
		}
		if want := fmt.Sprintf("%s at %s, radius %s:", tool, w.Centre, unit.Style{}.Length(w.Radius)); !strings.Contains(say, want) {
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
					if !strings.HasSuffix(steps[i], " "+string(n)+".") {
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

func heights(p Piece) string { return string(full().says().Steps().OtherHeights(p.byHand(full()))) }
