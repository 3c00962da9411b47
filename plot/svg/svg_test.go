package svg_test

import (
	"bytes"
	"errors"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/svg"
)

// near is how far a mark may be off; 0.005 mm is promised.
const near unit.Length = 0.001

func at(x, y unit.Length) geom.Point { return geom.Point{X: x, Y: y} }

func write(t testing.TB, p draw.Page, d draw.Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Write(&b, p, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestHead(t *testing.T) {
	f := read(t, write(t, draw.Page{Piece: "Brace <left> & \"right\"", Label: "B2", Width: 210, Height: 297}, draw.Document{Title: "Slip gate", Language: "en"}))
	for name, want := range map[string]string{"width": "210mm", "height": "297mm", "viewBox": "0 0 210 297", "lang": "en", "xmlns": "http://www.w3.org/2000/svg"} {
		if f.attr[name] != want {
			t.Errorf("%s is %q, want %q", name, f.attr[name], want)
		}
	}
	if want := "Slip gate, Brace <left> & \"right\", B2"; f.title != want {
		t.Errorf("title %q, want %q", f.title, want)
	}
	if !strings.Contains(f.desc, "print the PDF") {
		t.Errorf("the file does not say that the PDF is to be printed: %q", f.desc)
	}
	letter := read(t, write(t, draw.Page{Width: 215.9, Height: 279.4}, draw.Document{}))
	if letter.attr["viewBox"] != "0 0 215.9 279.4" || letter.attr["width"] != "215.9mm" || letter.title != "" {
		t.Errorf("%v %q", letter.attr, letter.title)
	}
}

func TestLines(t *testing.T) {
	pens := []draw.Pen{draw.Wide, draw.Centre, {Width: 0.25, Dash: draw.Dashed, Phase: 1.25}, draw.Fine}
	list := []geom.Line{{From: at(0, 0), To: at(210, 297)}, {From: at(99.9999996, 1./3), To: at(math.Pi, 250)}, {From: at(20, 20), To: at(190, 20)}, {From: at(-5, 300), To: at(5, 10)}}
	var ops []draw.Op
	for i, l := range list {
		ops = append(ops, draw.Line{Line: l, Pen: pens[i], On: draw.Construction})
	}
	f := read(t, write(t, draw.Page{Width: 210, Height: 297, Ops: ops}, draw.Document{}))
	// 24d and 3d of a pen of 0.18, 12d and 3d of one of 0.25 (ISO 128-2); dots of 0.5 mm.
	want := []map[string]string{
		{"stroke-width": "0.7"},
		{"stroke-width": "0.18", "stroke-dasharray": "4.32 0.54 0.5 0.54"},
		{"stroke-width": "0.25", "stroke-dasharray": "3 0.75", "stroke-dashoffset": "1.25"},
		{"stroke-width": "0.13"},
	}
	for i, p := range f.paths {
		if a, b := p.curve[0].to.Distance(list[i].From), p.curve[1].to.Distance(list[i].To); a > near || b > near || len(p.curve) != 2 || p.layer != "construction" {
			t.Errorf("%v was read as %v", list[i], p)
		}
		for _, name := range []string{"stroke-width", "stroke-dasharray", "stroke-dashoffset"} {
			if p.attr[name] != want[i][name] {
				t.Errorf("line %d: %s is %q, want %q", i, name, p.attr[name], want[i][name])
			}
		}
	}
	if len(f.paths) != len(list) {
		t.Errorf("%d paths", len(f.paths))
	}
}

// arcs from 5 mm to 20 m, whole, half and short, and the 60° arc over a level base.
func arcs() []geom.Arc {
	var list []geom.Arc
	middle := at(400, 400)
	for _, r := range []unit.Length{5, 63.7, 200, 399, 2400, 5000, 12345.6789, 20000} {
		for _, sweep := range []unit.Angle{unit.Turn, -unit.Turn, unit.Turn / 2, -unit.Turn / 2, 4, unit.Turn / 6, -0.3, 0.01} {
			list = append(list, geom.Arc{Centre: middle, Radius: r, Start: 0.7, Sweep: sweep})
		}
		list = append(list, geom.Arc{Centre: middle, Radius: r, Start: unit.Turn / 6, Sweep: unit.Turn / 6})
		for _, chord := range []unit.Length{0.5, 9, 290, 700} { // through the middle of the page
			if chord <= 2*r {
				a := geom.Arc{Radius: r, Start: 1.1, Sweep: unit.Angle(2 * math.Asin(float64(chord/r)/2))}
				a.Centre = middle.Minus(a.At(0.5))
				list = append(list, a)
			}
		}
	}
	return list
}

// Every arc, drawn by the rule of SVG from what stands in the file, follows its
// circle; so does the one cubic that most programs draw in place of each piece.
func TestArcs(t *testing.T) {
	list := arcs()
	var ops []draw.Op
	for _, a := range list {
		ops = append(ops, draw.Arc{Arc: a, Pen: draw.Narrow})
	}
	f := read(t, write(t, draw.Page{Width: 800, Height: 800, Ops: ops}, draw.Document{}))
	if len(f.paths) != len(list) {
		t.Fatalf("%d paths for %d arcs", len(f.paths), len(list))
	}
	for i, a := range list {
		p := f.paths[i]
		off, turned := unit.Length(0), 0.0
		last := a.At(0)
		for _, m := range p.curve {
			switch m.command {
			case 'M', 'Z':
				off = max(off, m.to.Distance(a.At(0)))
			case 'A':
				for _, q := range append(m.sample(16), cubic(m, 16)...) {
					off = max(off, unit.Length(math.Abs(float64(q.Distance(a.Centre)-a.Radius))))
				}
				d := geom.Line{From: a.Centre, To: m.to}.Direction() - geom.Line{From: a.Centre, To: last}.Direction()
				turned += math.Remainder(float64(d), 2*math.Pi)
				if (turned < 0) != m.sweep { // y down: clockwise is positive
					t.Errorf("r %v through %v: flag sweep %t", a.Radius, a.Sweep, m.sweep)
				}
				last = m.to
			default:
				t.Fatalf("%c in an arc", m.command)
			}
		}
		off = max(off, last.Distance(a.At(1)))
		if off > near || math.Abs(turned-float64(a.Sweep))*float64(a.Radius) > 2*float64(near) {
			t.Errorf("r %v from %v through %v: %.2g mm off, turns through %v", a.Radius, a.Start, a.Sweep, off, turned)
		}
		if whole := math.Abs(float64(a.Sweep)) == float64(unit.Turn); p.shut != whole {
			t.Errorf("r %v through %v: closed %t", a.Radius, a.Sweep, p.shut)
		}
	}
}

// cubic is points of the usual cubic in place of an arc: control points at
// 4/3·tan(θ/4) along the tangents.
func cubic(m mark, n int) []geom.Point {
	c, _ := m.circle()
	u, v := m.from.Minus(c), m.to.Minus(c)
	a := math.Remainder(float64(geom.Line{To: v}.Direction()-geom.Line{To: u}.Direction()), 2*math.Pi)
	k := unit.Length(4. / 3 * math.Tan(a/4))
	p := [4]geom.Point{m.from, m.from.Plus(at(-k*u.Y, k*u.X)), m.to.Minus(at(-k*v.Y, k*v.X)), m.to}
	var points []geom.Point
	for i := range n + 1 {
		s := float64(i) / float64(n)
		r := 1 - s
		points = append(points, p[0].Times(r*r*r).Plus(p[1].Times(3*r*r*s)).Plus(p[2].Times(3*r*s*s)).Plus(p[3].Times(s*s*s)))
	}
	return points
}

func TestPolylines(t *testing.T) {
	points := []geom.Point{at(20, 40), at(180.12345, 40), at(120, 160)}
	f := read(t, write(t, draw.Page{Width: 210, Height: 297, Ops: []draw.Op{
		draw.Polyline{Points: points, Solid: true, On: draw.Joins},
		draw.Polyline{Points: points, Pen: draw.Narrow, On: draw.Joins},
		draw.Polyline{Points: points, Closed: true, Pen: draw.Wide, On: draw.Outline},
		draw.Polyline{On: draw.Notes},
	}}, draw.Document{}))
	if !slices.Equal(f.order, []string{"outline", "joins"}) || len(f.paths) != 3 {
		t.Fatalf("groups %v, %d paths", f.order, len(f.paths))
	}
	for i, want := range []struct {
		layer, fill, stroke string
		shut                bool
	}{{"outline", "", "", true}, {"joins", "#000", "none", true}, {"joins", "", "", false}} {
		p := f.paths[i]
		if p.layer != want.layer || p.attr["fill"] != want.fill || p.attr["stroke"] != want.stroke || p.shut != want.shut {
			t.Errorf("path %d: %v, want %v", i, p, want)
		}
		for j, q := range points {
			if d := p.curve[j].to.Distance(q); d > near {
				t.Errorf("path %d corner %d is %v off", i, j, d)
			}
		}
	}
}

// Letters are outlines that fill the box the ruler gives, turned with it; the
// words stand beside them, whatever is in them.
func TestWords(t *testing.T) {
	list := []draw.Text{
		{At: at(20, 20), Height: 14, Words: "HH", On: draw.Notes},
		{At: at(100, 100), Height: 7, Words: "HIH", Align: draw.Middle, Bold: true, Turn: 0.6, On: draw.Notes},
		{At: at(100, 200), Height: 7, Words: "H H", Align: draw.Right, Turn: -unit.Turn / 4, On: draw.Notes},
		{At: at(10, 250), Height: 3.5, Words: `<b> & "C" 'D' > ½ Łódź`, On: draw.Notes},
		{At: at(10, 250), Height: 3.5, Words: " ", On: draw.Notes},
		{At: at(10, 250), Height: 3.5, Words: "", On: draw.Notes},
	}
	var ops []draw.Op
	for _, o := range list {
		ops = append(ops, o)
	}
	f := read(t, write(t, draw.Page{Width: 210, Height: 297, Ops: ops}, draw.Document{}))
	if len(f.paths) != 4 {
		t.Fatalf("%d lines of words", len(f.paths))
	}
	for i, p := range f.paths {
		o := list[i]
		if p.attr["aria-label"] != o.Words || p.attr["role"] != "img" || p.attr["fill"] != "#000" || p.attr["stroke"] != "none" {
			t.Errorf("%q: %v", o.Words, p.attr)
		}
		// Seen along its line, text lies from the base line (or below) to a capital's
		// height and from start to end of its advance, less the space beside H.
		box := o.Box(lettering.Go())
		along, up := geom.Line{From: box[0], To: box[1]}.Direction(), geom.Line{From: box[0], To: box[3]}.Direction()
		var lo, hi geom.Point
		for j, m := range p.curve {
			d := m.to.Minus(o.At)
			q := at(dot(d, along), dot(d, up))
			if j == 0 {
				lo, hi = q, q
			}
			lo, hi = at(min(lo.X, q.X), min(lo.Y, q.Y)), at(max(hi.X, q.X), max(hi.Y, q.Y))
		}
		if o.Words[0] != 'H' {
			continue
		}
		width := lettering.Go().Width(o.Words, o.Height, o.Bold)
		start := -width * [...]unit.Length{0, 0.5, 1}[o.Align]
		if math.Abs(float64(lo.Y)) > 0.0002 || math.Abs(float64(hi.Y-o.Height)) > 0.0002 ||
			lo.X < start || lo.X > start+0.15*o.Height || hi.X > start+width || hi.X < start+width-0.15*o.Height {
			t.Errorf("%q reaches from %v to %v along its line, its advance from %v to %v", o.Words, lo, hi, start, start+width)
		}
	}
}

func dot(d geom.Point, a unit.Angle) unit.Length {
	s, c := math.Sincos(float64(a))
	return d.X*unit.Length(c) + d.Y*unit.Length(s)
}

func TestHide(t *testing.T) {
	var ops []draw.Op
	for _, l := range draw.Layers() {
		ops = append(ops, draw.Line{Line: geom.Line{To: at(10, 10)}, Pen: draw.Narrow, On: l})
	}
	p := draw.Page{Width: 210, Height: 297, Ops: ops}
	if f := read(t, write(t, p, draw.Document{})); !slices.Equal(f.order, []string{"outline", "construction", "marks", "dimensions", "joins", "notes", "furniture"}) {
		t.Errorf("groups %v", f.order)
	}
	if f := read(t, write(t, p, draw.Document{Hide: []draw.Layer{draw.Joins, draw.Furniture, draw.Outline}})); !slices.Equal(f.order, []string{"construction", "marks", "dimensions", "notes", "furniture"}) {
		t.Errorf("groups %v", f.order)
	}
}

// What machines that cut ignore or replace is not in the file, and neither is
// anything that changes from run to run.
func TestPlain(t *testing.T) {
	ops := append(draw.OpTypes(), draw.Text{At: at(5, 5), Height: 5, Words: "clip transform", On: draw.Notes})
	a := write(t, draw.Page{Width: 210, Height: 297, Ops: ops}, draw.Document{Title: "T"})
	b := write(t, draw.Page{Width: 210, Height: 297, Ops: ops}, draw.Document{Title: "T"})
	if !bytes.Equal(a, b) {
		t.Error("two runs differ")
	}
	for _, p := range read(t, a).paths {
		for _, name := range []string{"transform", "clip-path", "style", "filter"} {
			if p.attr[name] != "" {
				t.Errorf("%s in %v", name, p.attr)
			}
		}
	}
}

type full struct{}

var errFull = errors.New("no space left on device")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestFaults(t *testing.T) {
	nan := unit.Length(math.NaN())
	for _, c := range []struct {
		p     draw.Page
		want  string
		fault bool
	}{
		{draw.Page{Width: 0, Height: 297}, "svg: a page of 0 × 297 mm", false},
		{draw.Page{Width: nan, Height: 297}, "svg: a page of NaN × 297 mm", false},
		{draw.Page{Width: 210, Height: unit.Length(math.Inf(1))}, "svg: a page of 210 × +Inf mm", false},
		{draw.Page{Label: "B2", Width: 210, Height: 297, Ops: []draw.Op{draw.Text{Height: 3, Words: "∠A"}}}, `page B2: "∠A": the lettering has no character '∠' (U+2220)`, true},
		{draw.Page{Width: 210, Height: 297, Ops: []draw.Op{draw.Line{Line: geom.Line{To: at(0, nan)}}}}, "svg: a coordinate is not a number", false},
		{draw.Page{Width: 210, Height: 297, Ops: []draw.Op{draw.Arc{Arc: geom.Arc{Radius: 1, Sweep: unit.Angle(math.Inf(1))}}}}, "svg: a coordinate is not a number", false},
		{draw.Page{Width: 210, Height: 297, Ops: []draw.Op{draw.Text{Height: -1, Words: "A"}}}, `svg: words -1 mm high: "A"`, false},
		{draw.Page{Width: 210, Height: 297, Ops: []draw.Op{draw.Line{Pen: draw.Pen{Width: -1}}}}, "svg: a pen -1 mm wide", false},
	} {
		err := svg.Write(io.Discard, c.p, draw.Document{})
		var f *unit.Fault
		if err == nil || err.Error() != c.want || errors.As(err, &f) != c.fault {
			t.Errorf("%v, want %s", err, c.want)
		}
	}
	if err := svg.Write(full{}, draw.Page{Width: 210, Height: 297}, draw.Document{}); err != errFull {
		t.Errorf("on a full disk: %v", err)
	}
}

func BenchmarkWrite(b *testing.B) {
	var ops []draw.Op
	for i := range 90 {
		x := unit.Length(i)
		ops = append(ops, draw.Line{Line: geom.Line{From: at(10.123+x, 20.456), To: at(190.789-x, 277.012)}, Pen: draw.Narrow})
	}
	for i := range 10 {
		ops = append(ops, draw.Arc{Arc: geom.Arc{Centre: at(-800, 100), Radius: 900 + unit.Length(i)*3.3, Start: -0.1, Sweep: 0.2}, Pen: draw.Narrow})
	}
	p := draw.Page{Width: 210, Height: 297, Ops: ops}
	b.ReportAllocs()
	for b.Loop() {
		if err := svg.Write(io.Discard, p, draw.Document{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)*100/b.Elapsed().Seconds(), "strokes/s")
}
