//go:build othersoftware

package pdf_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/readback"
)

// traced reads a PDF with mutool, which shares nothing with PDFium; what it hands
// to its renderer is taken down in words. Package mupdf-tools must be installed.
func traced(t testing.TB, file []byte) []readback.Page {
	t.Helper()
	out := readback.Run(t, file, "pdf", "mutool", "draw", "-q", "-F", "trace", "FILE")
	d := xml.NewDecoder(bytes.NewReader(out))
	var tr trace
	for {
		token, err := d.Token()
		if err == io.EOF {
			return tr.pages
		}
		if err != nil {
			t.Fatalf("mutool trace: %v", err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			if err := tr.begin(e); err != nil {
				t.Fatalf("mutool trace: <%s>: %v", e.Name.Local, err)
			}
		case xml.EndElement:
			tr.end(e.Name.Local)
		}
	}
}

// trace is what has been taken down so far.
type trace struct {
	pages  []readback.Page
	height float64       // of the page, in points: mutool counts down from the top
	m      geom.Affine   // to mm
	pen    readback.Path // of the path being read
	layer  string
	marked []string // the layers outside each marked content that is open
	words  readback.Words
}

func (tr *trace) page() *readback.Page { return &tr.pages[len(tr.pages)-1] }

func (tr *trace) begin(e xml.StartElement) error {
	a := map[string]string{}
	for _, at := range e.Attr {
		a[at.Name.Local] = at.Value
	}
	switch e.Name.Local {
	case "page":
		box, err := numbers(a["mediabox"])
		if err != nil {
			return err
		}
		tr.height = box[3]
		tr.pages = append(tr.pages, readback.Page{Width: readback.MM(box[2]), Height: readback.MM(box[3])})
	case "layer": // until end_layer: neither holds anything in itself
		tr.marked = append(tr.marked, tr.layer)
		// Marked content of other kinds is named by a structure type, with a capital.
		if name := a["name"]; name != "" && unicode.IsLower(rune(name[0])) {
			tr.layer = name
		}
	case "end_layer":
		tr.layer, tr.marked = tr.marked[len(tr.marked)-1], tr.marked[:len(tr.marked)-1]
	case "stroke_path", "fill_path", "fill_text":
		m, err := numbers(a["transform"])
		if err != nil || len(m) != 6 {
			return fmt.Errorf("transform %q", a["transform"])
		}
		tr.m = readback.Map([6]float64(m))
		return tr.setPen(e.Name.Local == "fill_path", a)
	case "moveto":
		q, err := tr.point(a, "x", "y")
		if err != nil {
			return err
		}
		p := tr.pen
		p.Start = q
		tr.page().Paths = append(tr.page().Paths, p)
	case "lineto":
		q, err := tr.point(a, "x", "y")
		if err != nil {
			return err
		}
		tr.to(readback.Segment{To: q})
	case "curveto":
		var s [3]geom.Point
		for i := range s {
			var err error
			n := strconv.Itoa(i + 1)
			if s[i], err = tr.point(a, "x"+n, "y"+n); err != nil {
				return err
			}
		}
		tr.to(readback.Segment{Curved: true, Control1: s[0], Control2: s[1], To: s[2]})
	case "closepath":
		p := tr.page()
		p.Paths[len(p.Paths)-1].Closed = true
	case "span":
		trm, err := numbers(a["trm"])
		if err != nil || len(trm) != 4 {
			return fmt.Errorf("trm %q", a["trm"])
		}
		tr.words = readback.Words{
			Font: a["font"], Layer: tr.layer, Turn: unit.Angle(math.Atan2(trm[1], trm[0])),
			Em: readback.Stretch(tr.m, math.Hypot(trm[0], trm[1])),
		}
	case "g":
		if tr.words.Text == "" {
			q, err := tr.point(a, "x", "y")
			if err != nil {
				return err
			}
			tr.words.At = q
		}
		tr.words.Text += a["unicode"]
	case "document", "set_default_colorspaces":
	default:
		return fmt.Errorf("a mark of a kind that trammel does not write")
	}
	return nil
}

func (tr *trace) end(name string) {
	if name == "span" {
		tr.words.Text = strings.TrimRight(tr.words.Text, " ")
		tr.page().Words = append(tr.page().Words, tr.words)
	}
}

func (tr *trace) setPen(filled bool, a map[string]string) error {
	tr.pen = readback.Path{Filled: filled, Layer: tr.layer}
	if filled || a["linewidth"] == "" {
		return nil
	}
	for _, f := range []struct {
		name string
		set  func([]float64)
	}{
		{"linewidth", func(v []float64) { tr.pen.Width = readback.Stretch(tr.m, v[0]) }},
		{"dash_phase", func(v []float64) { tr.pen.Phase = readback.Stretch(tr.m, v[0]) }},
		{"dash", func(v []float64) {
			for _, l := range v {
				tr.pen.Dashes = append(tr.pen.Dashes, readback.Stretch(tr.m, l))
			}
		}},
	} {
		if a[f.name] == "" {
			continue
		}
		v, err := numbers(a[f.name])
		if err != nil {
			return err
		}
		f.set(v)
	}
	return nil
}

func (tr *trace) to(s readback.Segment) {
	p := tr.page()
	last := &p.Paths[len(p.Paths)-1]
	last.Segments = append(last.Segments, s)
}

// point turns a point of the trace into one of the page.
func (tr *trace) point(a map[string]string, x, y string) (geom.Point, error) {
	v, err := numbers(a[x] + " " + a[y])
	if err != nil || len(v) != 2 {
		return geom.Point{}, fmt.Errorf("point %q %q", a[x], a[y])
	}
	q := tr.m.Apply(geom.Point{X: unit.Length(v[0]), Y: unit.Length(v[1])})
	q.Y = readback.MM(tr.height) - q.Y
	return q, nil
}

func numbers(s string) ([]float64, error) {
	var v []float64
	for _, f := range strings.Fields(s) {
		n, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return nil, err
		}
		v = append(v, n)
	}
	if len(v) == 0 {
		return nil, fmt.Errorf("no number in %q", s)
	}
	return v, nil
}
