//go:build othersoftware

package pdf_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/readback"
)

// mutool reads every line, arc and word where PDFium does and geometry has them.
func TestTrace(t *testing.T) {
	var ops []draw.Op
	for _, l := range lines(5080, 5080) {
		ops = append(ops, draw.Line{Line: l, Pen: draw.Centre, On: draw.Construction})
	}
	list := arcs()
	for _, a := range list {
		ops = append(ops, draw.Arc{Arc: a, Pen: draw.Narrow, On: draw.Construction})
	}
	ops = append(ops,
		draw.Text{At: at(100, 200), Height: 7, Turn: 0.5, Align: draw.Middle, Bold: true, Words: "B2 → 12\u2009345.5", On: draw.Notes},
		draw.Polyline{Points: corners, Solid: true, On: draw.Joins},
		draw.Polyline{Points: corners, Closed: true, Pen: draw.Wide, On: draw.Outline},
	)
	got, worst := tracedAndOpened(t, write(t, draw.Document{Pages: pages(draw.Page{Width: 5080, Height: 5080, Ops: ops})}))
	if math.Abs(float64(got.Width-5080)) > 0.001 || math.Abs(float64(got.Height-5080)) > 0.001 {
		t.Errorf("page of %v × %v", got.Width, got.Height)
	}
	first := 1 + len(lines(5080, 5080)) // the outline is painted first
	off := unit.Length(0)
	for i, a := range list {
		p := got.Paths[first+i]
		off = max(off, p.OffCircle(a.Centre, a.Radius, 32), p.Start.Distance(a.At(0)))
	}
	if off > near {
		t.Errorf("arcs are %v mm off", off)
	}
	t.Logf("mutool and pdfium differ by %.6f mm; arcs %.6f mm off as mutool reads them", worst, off)
}

// What mutool makes of a sheet written by hand is what PDFium does, whose reading
// plot/readback holds to its places.
func TestTraceByHand(t *testing.T) {
	file, err := os.ReadFile("../readback/testdata/byhand.pdf")
	if err != nil {
		t.Fatal(err)
	}
	if page, worst := tracedAndOpened(t, file); worst > 1e-5 || len(page.Paths) != 3 || len(page.Words) != 1 {
		t.Errorf("%v mm apart: %+v", worst, page)
	}
}

// tracedAndOpened is a page as mutool has it, which must be what PDFium has, and how
// far apart their points lie.
func tracedAndOpened(t *testing.T, file []byte) (got readback.Page, worst unit.Length) {
	t.Helper()
	got, same := traced(t, file)[0], readback.Open(t, file)[0]
	if len(got.Paths) != len(same.Paths) || len(got.Words) != len(same.Words) {
		t.Fatalf("mutool: %d paths and %d words, pdfium: %d and %d", len(got.Paths), len(got.Words), len(same.Paths), len(same.Words))
	}
	if math.Abs(float64(got.Width-same.Width)) > 1e-4 || math.Abs(float64(got.Height-same.Height)) > 1e-4 {
		t.Errorf("mutool: a page of %v × %v, pdfium: %v × %v", got.Width, got.Height, same.Width, same.Height)
	}
	for i, p := range got.Paths {
		q := same.Paths[i]
		if p.Layer != q.Layer || p.Closed != q.Closed || p.Filled != q.Filled || math.Abs(float64(p.Width-q.Width)) > 1e-4 && !p.Filled ||
			len(p.Dashes) != len(q.Dashes) || math.Abs(float64(p.Phase-q.Phase)) > 1e-4 {
			t.Errorf("mutool %+v\npdfium %+v", p, q)
		}
		for j := range min(len(p.Dashes), len(q.Dashes)) {
			worst = max(worst, p.Dashes[j]-q.Dashes[j], q.Dashes[j]-p.Dashes[j])
		}
		a, b := p.Sample(8), q.Sample(8)
		for j := range min(len(a), len(b)) {
			worst = max(worst, a[j].Distance(b[j]))
		}
	}
	if worst > near {
		t.Errorf("mutool and pdfium differ by %v mm", worst)
	}
	for i, w := range got.Words {
		v := same.Words[i]
		if w.Text != v.Text || w.At.Distance(v.At) > near || math.Abs(float64(w.Turn-v.Turn)) > 1e-6 || math.Abs(float64(w.Em-v.Em)) > 1e-4 || w.Font != v.Font || w.Layer != v.Layer {
			t.Errorf("mutool %+v\npdfium %+v", w, v)
		}
	}
	return got, worst
}

func TestQpdf(t *testing.T) {
	out := string(readback.Run(t, write(t, boathouse()), "pdf", "qpdf", "--check", "FILE"))
	if !strings.Contains(out, "No syntax or stream encoding errors found") {
		t.Error(out)
	}
}

// Words can be taken out of the file as they were put in.
func TestPdftotext(t *testing.T) {
	words := []string{`7'-10 1/2"`, "35°30′", "√2", "(½)", "Łódź", "12\u2009345.5", "→", "Ø10"}
	var ops []draw.Op
	for i, w := range words {
		ops = append(ops, draw.Text{At: at(20, unit.Length(20+10*i)), Height: 3.5, Words: w, Bold: i%2 == 0, On: draw.Notes})
	}
	file := write(t, draw.Document{Pages: pages(draw.Page{Width: 210, Height: 297, Ops: ops})})
	got := strings.Split(strings.TrimSpace(string(readback.Run(t, file, "pdf", "pdftotext", "-enc", "UTF-8", "FILE", "-"))), "\n")
	got = slices.DeleteFunc(got, func(s string) bool { return s == "" })
	slices.Reverse(got)   // it reads from the top
	words[5] = "12 345.5" // and writes any space as a plain one
	if !slices.Equal(got, words) {
		t.Errorf("%q, want %q", got, words)
	}
}

// Words at any angle come out whole, in one piece.
func TestTurnedWords(t *testing.T) {
	var ops []draw.Op
	const words = "height (½) 123.4"
	for i := range 24 {
		ops = append(ops, draw.Text{At: at(unit.Length(60+100*(i%4)), unit.Length(60+100*(i/4))), Height: 3.5, Turn: unit.Turn * unit.Angle(i) / 24, Align: draw.Middle, Words: words, On: draw.Dimension})
		ops = append(ops, draw.Text{At: at(unit.Length(460+100*(i%4)), unit.Length(60+100*(i/4))), Height: 3.5, Turn: unit.Turn * unit.Angle(i) / 24, Words: words, On: draw.Furniture})
	}
	file := write(t, draw.Document{Pages: pages(draw.Page{Width: 860, Height: 660, Ops: ops})})
	for _, args := range [][]string{{"-raw"}, nil} {
		out := string(readback.Run(t, file, "pdf", "pdftotext", append(args, "-enc", "UTF-8", "FILE", "-")...))
		if n := strings.Count(out, words); n != len(ops) {
			t.Errorf("%q: %d of %d are whole\n%s", args, n, len(ops), out)
		}
	}
	if out := string(readback.Run(t, file, "pdf", "pdfinfo", "-enc", "UTF-8", "-struct-text", "FILE")); strings.Count(out, words) != 24 {
		t.Error(out)
	}
}

func TestPdffonts(t *testing.T) {
	out := string(readback.Run(t, write(t, boathouse()), "pdf", "pdffonts", "FILE"))
	for _, name := range []string{"+GoRegular", "+GoBold"} {
		i := strings.Index(out, name)
		if i < 0 || !strings.Contains(strings.SplitN(out[i:], "\n", 2)[0], "yes yes yes") { // embedded, subset, to Unicode
			t.Errorf("%s:\n%s", name, out)
		}
	}
}
