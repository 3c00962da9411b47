package paging_test

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/pdf"
	"trammel/plot/readback"
)

// inPDF is a piece's pages as PDFium finds them in the finished file, moved back
// to the plane of the sheets by the windows (the margins are 10 mm).
type inPDF struct {
	laid
	pages []readback.Page
}

func printed(t *testing.T, c laid) inPDF {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, draw.Document{Title: c.name, Language: "en", Pages: c.plan.Pages(c.drawing, c.f, lettering.Go())}); err != nil {
		t.Fatal(err)
	}
	return inPDF{c, readback.Open(t, b.Bytes())}
}

func (c inPDF) toPlane(page int, p geom.Point) geom.Point {
	return p.Plus(c.plan.Cells[page].Window.Min).Minus(at(10, 10))
}

// lines are the straight strokes of a layer in the plane; curves come as short
// chords of the Bézier curves in the file.
func (c inPDF) lines(page int, layers ...string) (all []draw.Line) {
	for _, p := range c.pages[page].Paths {
		if p.Filled || !slices.Contains(layers, p.Layer) {
			continue
		}
		n := 1
		if !p.Straight() {
			n = 400
		}
		points := p.Sample(n)
		for i := 1; i < len(points); i++ {
			l := geom.Line{From: c.toPlane(page, points[i-1]), To: c.toPlane(page, points[i])}
			all = append(all, draw.Line{Line: l, Pen: draw.Pen{Width: p.Width}})
		}
	}
	return all
}

func bare(lines []draw.Line) (all []geom.Line) {
	for _, l := range lines {
		all = append(all, l.Line)
	}
	return all
}

// In the finished file, read by PDFium: marks of neighbours coincide, every place
// of every stroke is on every page that shows it, nothing is drawn that should
// not be, and check bars are as long as they say. All to 0.005 mm.
func TestFinishedFile(t *testing.T) {
	level, skew := unit.Angle(0), 31*unit.Degree
	inches := lay(t, "in inches, Letter", bySides(457.2, 304.8, 381), sheetLetter, &level)
	inches.f.Inches = true
	for _, c := range []laid{
		lay(t, "level", bySides(600, 450, 450), sheetA4, &level),
		lay(t, "skew", bySides(500, 400, 300), sheetA4, &skew),
		lay(t, "A5", bySides(300, 250, 260), sheetA5, nil),
		lay(t, "60° arcs over a level base", bySides(250, 250, 250), sheetA4, &level),
		inches,
	} {
		f := printed(t, c)
		if len(f.pages) != len(c.plan.Cells) {
			t.Fatalf("%s: %d pages of %d", c.name, len(f.pages), len(c.plan.Cells))
		}
		const step = 3.7
		wholeLines, wholeArcs := strokesOf(c.drawing, isPiece)
		all := sampledAll(c.drawing, step)
		for i, p := range f.pages {
			w := c.plan.Cells[i].Window
			name := c.name + ", " + c.plan.Cells[i].Label
			if math.Abs(float64(p.Width-c.plan.Sheet.Width)) > promised || math.Abs(float64(p.Height-c.plan.Sheet.Height)) > promised {
				t.Errorf("%s: the page is %v by %v", name, p.Width, p.Height)
			}
			strokes := bare(f.lines(i, "outline", "construction", "marks", "dimensions"))
			for _, q := range all {
				if w.Grow(-0.01).Has(q) {
					if off := offStrokes(q, strokes, nil); off > promised {
						t.Errorf("%s: %v is %.4f mm from the nearest stroke", name, q, off)
						break
					}
				}
			}
			for _, l := range strokes {
				for _, q := range []geom.Point{l.From, l.At(0.5), l.To} {
					if off := offStrokes(q, wholeLines, wholeArcs); off > promised || !w.Grow(promised).Has(q) {
						t.Fatalf("%s: a stroke at %v is %.4f mm off the drawing, window %v", name, q, off, w)
					}
				}
			}
			want := 100.0
			if c.f.Inches {
				want = 101.6 // 4 in
			}
			if c.plan.Sheet.Width < 200 {
				want = 0 // whichever has a place: 50 or 100
			}
			across, along := 0, 0
			for _, l := range bare(f.lines(i, "")) {
				ok := func(d unit.Length) bool {
					d += draw.Thin.Width // of the frame, whose ink ends where the bar does
					if want == 0 {
						return math.Abs(float64(d)-50) < promised || math.Abs(float64(d)-100) < promised
					}
					return math.Abs(float64(d)-want) < promised
				}
				if ok(l.Length()) && math.Abs(float64(l.From.Y-l.To.Y)) < promised {
					across++
				}
				if ok(l.Length()) && math.Abs(float64(l.From.X-l.To.X)) < promised {
					along++
				}
			}
			if across != 2 || along != 2 { // the two long sides of each frame
				t.Errorf("%s: %d sides of check bars across and %d along", name, across, along)
			}
		}
		for _, s := range seamsOf(c.plan) {
			name := c.name + ", " + c.plan.Cells[s.under].Label + " | " + c.plan.Cells[s.over].Label
			get := func(page int) (at []float64) {
				for _, l := range f.lines(page, "joins") {
					a, b := s.across(l.From), s.across(l.To)
					if s.strip.Grow(1).Has(l.At(0.5)) && math.Abs(s.along(l.From)-s.along(l.To)) < promised &&
						math.Abs(a+b) < 2*promised && math.Abs(math.Abs(a-b)-8) < 2*promised {
						at = append(at, s.along(l.From))
					}
				}
				slices.Sort(at)
				return at
			}
			a, b := get(s.under), get(s.over)
			if len(a) < 2 || len(a) != len(b) {
				t.Errorf("%s: marks at %v and %v", name, a, b)
				continue
			}
			for k := range a {
				if math.Abs(a[k]-b[k]) > promised {
					t.Errorf("%s: mark %d at %.4f and %.4f", name, k, a[k], b[k])
				}
			}
		}
	}
}
