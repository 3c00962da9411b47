//go:build othersoftware

package svg_test

import (
	"math"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/readback"
)

// librsvg turns the page into a PDF, and PDFium reads that: lines and arcs lie
// where geometry has them within what is promised.
func TestLibrsvg(t *testing.T) {
	const promised unit.Length = 0.005
	list := slices.DeleteFunc(arcs(), func(a geom.Arc) bool { // it leaves out what lies off the page
		b := a.Bounds()
		return !(geom.Rect{Max: at(800, 800)}).Has(b.Min) || !(geom.Rect{Max: at(800, 800)}).Has(b.Max)
	})
	if len(list) < 40 {
		t.Fatalf("%d arcs on the page", len(list))
	}
	var ops []draw.Op
	for _, a := range list {
		ops = append(ops, draw.Arc{Arc: a, Pen: draw.Narrow})
	}
	line := geom.Line{From: at(10, 20.12345), To: at(790, 780)}
	ops = append(ops, draw.Line{Line: line, Pen: draw.Wide, On: draw.Notes})
	file := write(t, draw.Page{Width: 800, Height: 800, Ops: ops}, draw.Document{Title: "arcs"})
	p := readback.Open(t, readback.Run(t, file, "svg", "rsvg-convert", "-f", "pdf", "FILE"))[0]
	if math.Abs(float64(p.Width-800)) > 0.2 || len(p.Paths) != len(ops) {
		t.Fatalf("page of %v mm, %d paths of %d", p.Width, len(p.Paths), len(ops))
	}
	worst := unit.Length(0)
	for i, a := range list {
		off := max(p.Paths[i].OffCircle(a.Centre, a.Radius, 16), p.Paths[i].Start.Distance(a.At(0)))
		if off > promised {
			t.Errorf("r %v from %v through %v: %.2g mm off", a.Radius, a.Start, a.Sweep, off)
		}
		worst = max(worst, off)
	}
	got := p.Paths[len(list)]
	if off := max(got.Start.Distance(line.From), got.Segments[0].To.Distance(line.To)); off > promised {
		t.Errorf("the line is %.2g mm off", off)
	}
	t.Logf("%d arcs, the worst %.6f mm off", len(list), worst)
}
