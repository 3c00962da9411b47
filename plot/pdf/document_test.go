package pdf_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"iter"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/pdf"
	"trammel/plot/readback"
)

// boathouse has everything that a document may have.
func boathouse() draw.Document {
	ops := []draw.Op{
		draw.Polyline{Points: []geom.Point{at(20, 40), at(180, 40), at(120, 160)}, Closed: true, Pen: draw.Wide, On: draw.Outline},
		draw.Arc{Arc: geom.Arc{Centre: at(20, 40), Radius: 156.2, Start: 0.6, Sweep: 0.5}, Pen: draw.Narrow, On: draw.Construction},
		draw.Text{At: at(100, 30), Height: 3.5, Align: draw.Middle, Words: "160", On: draw.Dimension},
		draw.Text{At: at(20, 270), Height: 14, Bold: true, Words: "A1", On: draw.Notes},
	}
	page := func(piece, label string, kind draw.Kind) draw.Page {
		return draw.Page{Piece: piece, Label: label, Kind: kind, Width: 210, Height: 297, Ops: ops}
	}
	return draw.Document{
		Title: "Slip gate & bräce (plate) \\ 1", Subject: "Template, true size", Language: "en", Date: "2025-03-04",
		Pages: pages(
			page("Brace plate", "", draw.Index), page("Brace plate", "A1", draw.Template), page("Brace plate", "A2", draw.Template),
			page("Gusset, größer", "B1", draw.Template),
			page("Gable", "", draw.Setout), page("Gable", "", draw.Setout),
		),
		Attachment: &draw.Attachment{Name: "boathouse (1) größer.yaml", Data: []byte("job: Slip gate brace\n")},
	}
}

func TestDocument(t *testing.T) {
	got := describe(t, write(t, boathouse()))
	if got.ID == "" {
		t.Error("no /ID")
	}
	got.ID = ""
	want := properties{
		Title: "Slip gate & bräce (plate) \\ 1", Subject: "Template, true size", Producer: "trammel", Created: "D:20250304000000+00'00'", Language: "en",
		ActualSize: true, Simplex: true,
		Labels: []string{"index", "A1", "A2", "B1", "5", "6"},
		Bookmarks: []bookmark{
			{Title: "Brace plate", Page: 0, Below: []bookmark{{Title: "index", Page: 0}, {Title: "A1", Page: 1}, {Title: "A2", Page: 2}}},
			{Title: "Gusset, größer", Page: 3},
			{Title: "Gable", Page: 4, Below: []bookmark{{Title: "5", Page: 4}, {Title: "6", Page: 5}}},
		},
		Attachments: map[string][]byte{"boathouse (1) größer.yaml": []byte("job: Slip gate brace\n")},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("read as\n%+v\nwant\n%+v", got, want)
	}
}

// A document that says nothing of itself carries nothing: no date above all.
func TestBareDocument(t *testing.T) {
	for _, date := range []string{"", "March 2025", "2025-02-30"} {
		file := write(t, draw.Document{Date: date, Pages: pages(draw.Page{Width: 210, Height: 297})})
		got := describe(t, file)
		got.ID = ""
		want := properties{Producer: "trammel", ActualSize: true, Simplex: true, Labels: []string{"1"},
			Bookmarks: []bookmark{{Title: "page 1", Page: 0}}}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%q: read as %+v", date, got)
		}
		if bytes.Contains(file, []byte("Date")) {
			t.Errorf("%q: the file has a date", date)
		}
	}
}

// pdfcpu checks the structure against ISO 32000-1, strictly.
func TestStructure(t *testing.T) {
	api.DisableConfigDir()
	many := make([]draw.Page, 150) // several branches of the tree of pages
	for i := range many {
		many[i] = draw.Page{Label: fmt.Sprintf("A%d", i), Width: 210, Height: 297}
	}
	all := boathouse()
	all.Hide = []draw.Layer{draw.Dimension, draw.Construction}
	for name, d := range map[string]draw.Document{
		"all": boathouse(), "layers hidden": all, "bare": {Pages: pages(draw.Page{Width: 5, Height: 5})},
		"many":       {Title: "Many", Pages: pages(many...)},
		"one branch": {Pages: pages(many[:64]...)}, "one more": {Pages: pages(many[:65]...)},
	} {
		file := write(t, d)
		c := model.NewDefaultConfiguration()
		c.ValidationMode = model.ValidationStrict
		if err := api.Validate(bytes.NewReader(file), c); err != nil {
			t.Errorf("%s: pdfcpu: %v", name, err)
		}
	}
	labels := describe(t, write(t, draw.Document{Pages: pages(many...)})).Labels
	if len(labels) != 150 || labels[149] != "A149" {
		t.Errorf("labels of 150 pages: %v", labels)
	}
}

func TestHide(t *testing.T) {
	d := boathouse()
	d.Hide = []draw.Layer{draw.Construction, draw.Notes}
	for _, p := range readback.Open(t, write(t, d)) {
		if len(p.Paths) != 1 || p.Paths[0].Layer != "outline" || len(p.Words) != 1 || p.Words[0].Layer != "dimensions" {
			t.Fatalf("%+v", p)
		}
	}
}

func TestSameBytes(t *testing.T) {
	a, b := write(t, boathouse()), write(t, boathouse())
	if !bytes.Equal(a, b) {
		t.Error("two runs differ")
	}
	other := boathouse()
	other.Title += "!"
	id := regexp.MustCompile(`/ID \[<[0-9A-F]{32}> <[0-9A-F]{32}>\]`)
	one, two := id.Find(a), id.Find(write(t, other))
	if one == nil || two == nil || bytes.Equal(one, two) {
		t.Errorf("%s and %s for two documents", one, two)
	}
}

// Pages may all be drawn in the same memory: none is kept.
func TestPagesAsTheyCome(t *testing.T) {
	const n = 300
	asked := 0
	ops := make([]draw.Op, 1)
	seq := func(yield func(draw.Page) bool) {
		for i := range n {
			asked++
			x := unit.Length(i)
			ops[0] = draw.Line{Line: geom.Line{From: at(x, 10), To: at(x, 20)}, Pen: draw.Narrow}
			if !yield(draw.Page{Width: 400, Height: 30, Ops: ops}) {
				return
			}
		}
	}
	got := readback.Open(t, write(t, draw.Document{Pages: seq}))
	for i, p := range got {
		if math.Abs(float64(p.Paths[0].Start.X)-float64(i)) > 0.001 {
			t.Fatalf("page %d has the line of x = %v", i, p.Paths[0].Start.X)
		}
	}
	if len(got) != n || asked != n {
		t.Errorf("%d pages of %d asked for", len(got), asked)
	}

	asked = 0
	if err := pdf.Write(&limited{left: 20_000}, draw.Document{Pages: seq}); err != errFull || asked == n {
		t.Errorf("on a full disk: %v after %d pages", err, asked)
	}
}

type limited struct{ left int }

var errFull = errors.New("no space left on device")

func (l *limited) Write(b []byte) (int, error) {
	if len(b) > l.left {
		n := l.left
		l.left = 0
		return n, errFull
	}
	l.left -= len(b)
	return len(b), nil
}

// Wherever the writer fails, its own error comes out.
func TestErrorsOfTheWriter(t *testing.T) {
	whole := write(t, boathouse())
	for n := 0; n < len(whole); n += 97 {
		if err := pdf.Write(&limited{left: n}, boathouse()); err != errFull {
			t.Fatalf("full after %d of %d bytes: %v", n, len(whole), err)
		}
	}
	if err := pdf.Write(&limited{left: len(whole)}, boathouse()); err != nil {
		t.Error(err)
	}
}

func TestFaults(t *testing.T) {
	page := func(w, h unit.Length, ops ...draw.Op) draw.Document {
		return draw.Document{Pages: pages(draw.Page{Width: 210, Height: 297}, draw.Page{Label: "B2", Width: w, Height: h, Ops: ops})}
	}
	nan := unit.Length(math.NaN())
	for _, c := range []struct {
		d     draw.Document
		want  string
		fault bool
	}{
		{page(210, 5080.1), "page B2: a page of 210 × 5080.1 mm does not go into a PDF, whose sides are 2 to 5080 mm", true},
		{page(6000, 297), "page B2: a page of 6000 × 297 mm does not go into a PDF, whose sides are 2 to 5080 mm", true},
		{page(0, 297), "page B2: a page of 0 × 297 mm does not go into a PDF, whose sides are 2 to 5080 mm", true},
		{page(nan, 297), "page B2: a page of NaN × 297 mm does not go into a PDF, whose sides are 2 to 5080 mm", true},
		{page(210, 297, draw.Text{Height: 3, Words: "the ∠ at A"}), `page B2: "the ∠ at A": the lettering has no character '∠' (U+2220)`, true},
		{page(210, 297, draw.Line{Line: geom.Line{To: at(nan, 0)}, Pen: draw.Wide}), "page B2: a coordinate is not a number", false},
		{page(210, 297, draw.Line{Pen: draw.Pen{Width: unit.Length(math.Inf(1))}}), "page B2: a coordinate is not a number", false},
		{page(210, 297, draw.Arc{Arc: geom.Arc{Radius: 5, Sweep: unit.Angle(math.NaN())}}), "page B2: a coordinate is not a number", false},
		{page(210, 297, draw.Arc{Arc: geom.Arc{Radius: 5, Sweep: unit.Angle(math.Inf(1))}}), "page B2: a coordinate is not a number", false},
		{page(210, 297, draw.Text{Words: "A"}), `page B2: words 0 mm high: "A"`, false},
		{page(210, 297, draw.Text{Words: "A", Height: nan}), `page B2: words NaN mm high: "A"`, false},
		{page(210, 297, draw.Line{Pen: draw.Pen{Width: -1}}), "page B2: a pen -1 mm wide", false},
		{draw.Document{}, "pdf: a document without a page", false},
		{draw.Document{Pages: pages()}, "pdf: a document without a page", false},
	} {
		err := pdf.Write(io.Discard, c.d)
		if err == nil || err.Error() != c.want {
			t.Errorf("%v, want %s", err, c.want)
		}
		var f *unit.Fault
		if errors.As(err, &f) != c.fault || c.fault && (f.Hint == "" || strings.Contains(f.Hint, "\n")) {
			t.Errorf("%v: fault %+v", err, f)
		}
	}
}

// Every kind of operation can be written, even one with nothing in it.
func TestEveryOperation(t *testing.T) {
	file := write(t, draw.Document{Pages: pages(draw.Page{Width: 100, Height: 100, Ops: draw.OpTypes()})})
	if n := len(readback.Open(t, file)); n != 1 {
		t.Errorf("%d pages", n)
	}
}

// strokes is a document of n pages of 100 strokes, 90 lines and 10 arcs, no two
// pages alike.
func strokes(n int) draw.Document {
	var ops []draw.Op
	for i := unit.Length(0); i < 90; i++ {
		ops = append(ops, draw.Line{Line: geom.Line{From: at(10.123+i, 20.456), To: at(190.789-i, 277.012+i/7)}, Pen: draw.Narrow, On: draw.Dimension})
	}
	for i := unit.Length(0); i < 10; i++ {
		ops = append(ops, draw.Arc{Arc: geom.Arc{Centre: at(-800-i, 100), Radius: 900 + i*3.3, Start: -0.1, Sweep: 0.2}, Pen: draw.Narrow, On: draw.Construction})
	}
	var one iter.Seq[draw.Page] = func(yield func(draw.Page) bool) {
		moved := slices.Clone(ops)
		for i := range n {
			shift := at(unit.Length(i)*0.0137, unit.Length(i)*0.0091)
			for j, op := range ops {
				switch o := op.(type) {
				case draw.Line:
					o.From, o.To = o.From.Plus(shift), o.To.Minus(shift)
					moved[j] = o
				case draw.Arc:
					o.Centre = o.Centre.Plus(shift)
					moved[j] = o
				}
			}
			if !yield(draw.Page{Label: fmt.Sprint("A", i), Width: 210, Height: 297, Ops: moved}) {
				return
			}
		}
	}
	return draw.Document{Title: "Strokes", Pages: one}
}

type counter int64

func (c *counter) Write(b []byte) (int, error) { *c += counter(len(b)); return len(b), nil }

func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{10, 1000} {
		b.Run(fmt.Sprint(n, " pages"), func(b *testing.B) {
			b.ReportAllocs()
			var size counter
			for b.Loop() {
				size = 0
				if err := pdf.Write(&size, strokes(n)); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.N)*float64(n)*100/b.Elapsed().Seconds(), "strokes/s")
			b.ReportMetric(float64(size)/1e6, "MB/file")
		})
	}
}
