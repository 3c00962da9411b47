package png

import (
	"bytes"
	"errors"
	"image"
	stdpng "image/png"
	"math"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// dark says whether a pixel is more black than white.
func dark(t *testing.T, p image.Image, x, y int) bool {
	t.Helper()
	r, g, b, _ := p.At(x, y).RGBA()
	return r+g+b < 3*0x8000
}

// Decoded by the standard library, which wrote none of it but the compression.
func TestPixelsStandWhereMillimetresSay(t *testing.T) {
	page := draw.Page{Width: 100, Height: 50, Ops: []draw.Op{
		draw.Line{Line: geom.Line{From: geom.Point{X: 10, Y: 10}, To: geom.Point{X: 90, Y: 10}}, Pen: draw.Wide},
		draw.Polyline{Points: []geom.Point{{X: 40, Y: 30}, {X: 60, Y: 30}, {X: 60, Y: 40}, {X: 40, Y: 40}}, Solid: true},
		draw.Arc{Arc: geom.Arc{Centre: geom.Point{X: 20, Y: 30}, Radius: 8, Sweep: unit.Turn}, Pen: draw.Wide},
		draw.Text{At: geom.Point{X: 70, Y: 30}, Height: 10, Words: "I", Bold: true},
	}}
	var out bytes.Buffer
	if err := Write(&out, page, 0.1); err != nil {
		t.Fatal(err)
	}
	p, err := stdpng.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	if got := p.Bounds().Size(); got != (image.Point{X: 1000, Y: 500}) {
		t.Fatalf("the picture is %v, want 1000 × 500", got)
	}
	for _, c := range []struct {
		what string
		x, y float64 // mm, y up
		dark bool
	}{
		{"on the line", 50, 10, true}, {"before the line", 9.5, 10, false}, {"above the line", 50, 10.6, false},
		{"in the solid shape", 50, 35, true}, {"beside the solid shape", 38, 35, false},
		{"on the circle's right", 28, 30, true}, {"on the circle's top", 20, 38, true}, {"in the circle", 20, 30, false},
	} {
		if got := dark(t, p, int(c.x*10), 500-1-int(c.y*10)); got != c.dark {
			t.Errorf("%s (%g, %g): dark %t, want %t", c.what, c.x, c.y, got, c.dark)
		}
	}
	letter := 0
	for x := 700; x < 800; x++ {
		if dark(t, p, x, 500-350) {
			letter++
		}
	}
	if letter < 8 || letter > 40 {
		t.Errorf("the letter I is %d pixels thick at its middle", letter)
	}
}

func TestPictureTooLargeIsAFault(t *testing.T) {
	var out bytes.Buffer
	err := Write(&out, draw.Page{Width: 2000, Height: 10}, 0.1)
	var f *unit.Fault
	if !errors.As(err, &f) || out.Len() != 0 {
		t.Fatalf("got %v and %d bytes, want a fault and nothing written", err, out.Len())
	}
}

// What is nowhere, or drawn with a pen that is nothing, neither hangs nor paints.
func TestMarksThatCannotBePainted(t *testing.T) {
	nan, far := unit.Length(math.NaN()), unit.Length(math.Inf(-1))
	line := geom.Line{From: geom.Point{X: 10, Y: 10}, To: geom.Point{X: 50, Y: 50}}
	for _, op := range []draw.Op{
		draw.Line{Line: geom.Line{From: geom.Point{X: nan}, To: line.To}, Pen: draw.Wide},
		draw.Line{Line: geom.Line{From: geom.Point{Y: far}, To: line.To}, Pen: draw.Centre},
		draw.Polyline{Points: []geom.Point{line.From, line.To, {X: 1e9}}, Solid: true},
		draw.Arc{Arc: geom.Arc{Centre: line.From, Radius: 3, Sweep: unit.Angle(nan)}, Pen: draw.Wide},
		draw.Path{Segments: []geom.Segment{line, geom.Line{From: line.To, To: geom.Point{X: far}}}, Pen: draw.Wide},
		draw.Text{At: line.From, Height: nan, Words: "words"},
	} {
		var out bytes.Buffer
		if err := Write(&out, draw.Page{Width: 60, Height: 60, Ops: []draw.Op{op}}, 0.1); err != errStray || out.Len() != 0 {
			t.Errorf("%T: %v and %d bytes", op, err, out.Len())
		}
	}
	for _, op := range append(draw.OpTypes(), draw.Line{Line: line, Pen: draw.Pen{Dash: draw.Dashed}}) {
		if err := Write(&bytes.Buffer{}, draw.Page{Width: 60, Height: 60, Ops: []draw.Op{op}}, 0.1); err != nil {
			t.Errorf("%T: %v", op, err)
		}
	}
}
