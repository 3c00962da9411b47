package readback

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// sheet is a page of 100 × 200 pt written here by hand, so that the readers are
// tried on a file whose places are known without any writer: an inch is 72 pt.
func sheet() []byte {
	const content = "1 w 10 20 m 82 20 l S\n" +
		"q 2 0 0 2 5 7 cm [3 1] 2 d 0.5 w 1 1 m 2 3 4 5 6 7 c h S Q\n" +
		"q 0 1 -1 0 50 100 cm 0 0 m 10 0 l 10 5 l f Q\n" +
		"/OC /L BDC BT /F 12 Tf 0 1 -1 0 40 30 Tm (Hi) Tj ET EMC\n"
	objects := []string{
		"<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [6 0 R] /D << >> >> >>",
		"<< /Type /Pages /Count 1 /Kids [3 0 R] >>",
		"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 100 200] /Contents 4 0 R /Resources << /Font << /F 5 0 R >> /Properties << /L 6 0 R >> >> >>",
		fmt.Sprintf("<< /Length %d >>\nstream\n%sendstream", len(content), content),
		"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
		"<< /Type /OCG /Name (marks) >>",
	}
	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n")
	var at []int
	for i, o := range objects {
		at = append(at, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	table := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, table)
	return b.Bytes()
}

// pt is a point in points.
func pt(x, y float64) geom.Point {
	return geom.Point{X: unit.Length(x * 25.4 / 72), Y: unit.Length(y * 25.4 / 72)}
}

func TestOpen(t *testing.T) { judge(t, Open(t, sheet())) }

func judge(t *testing.T, pages []Page) {
	t.Helper()
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
	ink := Render(t, sheet(), 0, 72)
	if b := ink.Bounds(); b.Dx() != 100 || b.Dy() != 200 {
		t.Fatalf("%v", b)
	}
	// The line at 20 pt from the bottom is dark, the paper beside it is not.
	if line, paper := ink.GrayAt(30, 200-20).Y, ink.GrayAt(30, 200-28).Y; line > 200 || paper != 255 {
		t.Errorf("line %d, paper %d", line, paper)
	}
}
