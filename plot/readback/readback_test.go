package readback

import (
	"math"
	"os"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// sheet is a page of 100 × 200 pt written by hand, so that the readers are tried on
// a file whose places are known without any writer: an inch is 72 pt.
func sheet(t *testing.T) []byte {
	file, err := os.ReadFile("testdata/byhand.pdf")
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// pt is a point in points.
func pt(x, y float64) geom.Point {
	return geom.Point{X: unit.Length(x * 25.4 / 72), Y: unit.Length(y * 25.4 / 72)}
}

func TestOpen(t *testing.T) {
	pages := Open(t, sheet(t))
	if len(pages) != 1 || len(pages[0].Paths) != 3 || len(pages[0].Words) != 1 {
		t.Fatalf("read as %+v", pages)
	}
	p := pages[0]
	near := func(what string, got, want geom.Point) {
		t.Helper()
		if got.Distance(want) > 1e-5 {
			t.Errorf("%s at %v, want %v", what, got, want)
		}
	}
	near("top right", geom.Point{X: p.Width, Y: p.Height}, pt(100, 200))

	line := p.Paths[0]
	near("line from", line.Start, pt(10, 20))
	near("line to", line.Segments[0].To, pt(82, 20)) // an inch on
	near("pen", geom.Point{X: line.Width}, pt(1, 0))

	curve := p.Paths[1]
	near("curve from", curve.Start, pt(7, 9))
	near("first control point", curve.Segments[0].Control1, pt(9, 13))
	near("second control point", curve.Segments[0].Control2, pt(13, 17))
	near("curve to", curve.Segments[0].To, pt(17, 21))
	near("pen", geom.Point{X: curve.Width, Y: curve.Phase}, pt(1, 4))
	near("dashes", geom.Point{X: curve.Dashes[0], Y: curve.Dashes[1]}, pt(6, 2))
	// Half way along a cubic is (p0 + 3p1 + 3p2 + p3)/8.
	near("half way", curve.Sample(2)[1], pt((7+3*9+3*13+17)/8., (9+3*13+3*17+21)/8.))
	sample := curve.Sample(2)
	near("closed", sample[len(sample)-1], curve.Start)
	if !curve.Segments[0].Curved || !curve.Closed || curve.Straight() || line.Closed || !line.Straight() {
		t.Errorf("line %+v\ncurve %+v", line, curve)
	}

	shape := p.Paths[2]
	if corners := shape.Corners(); !shape.Filled || line.Filled || len(corners) < 3 {
		t.Errorf("shape %+v", shape)
	} else {
		near("turned", corners[1], pt(50, 110))
		near("turned", corners[2], pt(45, 110))
	}

	w := p.Words[0]
	near("words", w.At, pt(40, 30))
	if w.Text != "Hi" || math.Abs(float64(w.Turn)-math.Pi/2) > 1e-6 || math.Abs(float64(w.Em-pt(12, 0).X)) > 1e-5 || w.Layer != "marks" || line.Layer != "" {
		t.Errorf("words %+v", w)
	}
}

func TestOff(t *testing.T) {
	p := Path{Start: geom.Point{X: 3, Y: 4}, Segments: []Segment{{To: geom.Point{X: -3, Y: 4}}}}
	if off := p.OffCircle(geom.Point{}, 5, 2); math.Abs(float64(off-1)) > 1e-12 {
		t.Errorf("the chord of 6 in a circle of 5 leaves it by %v, want 1", off)
	}
}

func TestRender(t *testing.T) {
	ink := Render(t, sheet(t), 0, 72)
	if b := ink.Bounds(); b.Dx() != 100 || b.Dy() != 200 {
		t.Fatalf("%v", b)
	}
	// The line at 20 pt from the bottom is dark, the paper beside it is not.
	if line, paper := ink.GrayAt(30, 200-20).Y, ink.GrayAt(30, 200-28).Y; line > 200 || paper != 255 {
		t.Errorf("line %d, paper %d", line, paper)
	}
}
