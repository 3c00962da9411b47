package pdf_test

import (
	"bytes"
	"fmt"
	"iter"
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

// near is how far a mark may be off when PDFium reads it back. 0.005 mm is
// promised; a fifth of it is asked here. (PDFium counts in 32-bit floats, which at
// 5 m are 0.0005 mm apart.)
const near unit.Length = 0.001

func at(x, y unit.Length) geom.Point { return geom.Point{X: x, Y: y} }

func pages(p ...draw.Page) iter.Seq[draw.Page] { return slices.Values(p) }

func write(t testing.TB, d draw.Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// sheets are papers of CHECKS (ISO 216), a strip of a roll and the largest page.
var sheets = [][2]unit.Length{{210, 297}, {841, 1189}, {215.9, 279.4}, {914, 5080}, {5080, 5080}}

func TestPageSize(t *testing.T) {
	var p []draw.Page
	for _, s := range sheets {
		p = append(p, draw.Page{Width: s[0], Height: s[1]})
	}
	file := write(t, draw.Document{Pages: pages(p...)})
	for i, got := range readback.Open(t, file) {
		if math.Abs(float64(got.Width-p[i].Width)) > 0.0005 || math.Abs(float64(got.Height-p[i].Height)) > 0.0005 {
			t.Errorf("%v × %v mm, want %v", got.Width, got.Height, sheets[i])
		}
	}
}

// lines from corner to corner and across odd places, on every sheet.
func lines(w, h unit.Length) []geom.Line {
	return []geom.Line{
		{From: at(0, 0), To: at(w, h)},
		{From: at(w, 0), To: at(0, h)},
		{From: at(10, h/3), To: at(w-10, h/3)},
		{From: at(w/7, h-0.0001), To: at(w/7, 12.34567)},
		{From: at(1./3, 2./3), To: at(w-math.Pi, h-math.E)},
		{From: at(99.9999996, 100), To: at(99.9999996, 50)}, // see decimal
	}
}

func TestLines(t *testing.T) {
	pens := []draw.Pen{draw.Wide, draw.Narrow, draw.Centre, draw.Behind, draw.Hidden, draw.Fine}
	for _, s := range sheets {
		var ops []draw.Op
		for i, l := range lines(s[0], s[1]) {
			ops = append(ops, draw.Line{Line: l, Pen: pens[i], On: draw.Construction})
		}
		p := readback.Open(t, write(t, draw.Document{Pages: pages(draw.Page{Width: s[0], Height: s[1], Ops: ops})}))[0]
		if len(p.Paths) != len(ops) {
			t.Fatalf("%v: %d paths for %d lines", s, len(p.Paths), len(ops))
		}
		for i, l := range lines(s[0], s[1]) {
			got := p.Paths[i]
			if len(got.Segments) != 1 || !got.Straight() || got.Closed || got.Filled || got.Layer != "construction" {
				t.Fatalf("%v: %v was read as %+v", s, l, got)
			}
			if a, b := got.Start.Distance(l.From), got.Segments[0].To.Distance(l.To); a > near || b > near {
				t.Errorf("%v: ends of %v are %.2g and %.2g mm off", s, l, a, b)
			}
			if math.Abs(float64(got.Width-pens[i].Width)) > 1e-6 {
				t.Errorf("pen of %v, want %v", got.Width, pens[i])
			}
			want := pens[i].Dash.Lengths(pens[i].Width)
			if !slices.EqualFunc(got.Dashes, want, func(a, b unit.Length) bool { return math.Abs(float64(a-b)) < 1e-4 }) {
				t.Errorf("dashes %v, want %v", got.Dashes, want)
			}
		}
	}
}

// A pen keeps its dashes, width and phase to itself.
func TestPensInTurn(t *testing.T) {
	later := draw.Centre
	later.Phase = 4.5
	broad := draw.Pen{Width: 0.7, Dash: draw.LongDashDotted}
	turn := []draw.Pen{draw.Narrow, draw.Centre, later, draw.Centre, broad, draw.Wide, draw.Hidden, {Width: 0.25, Phase: 3}, draw.Hidden}
	var ops []draw.Op
	for i, pen := range turn {
		ops = append(ops, draw.Line{Line: geom.Line{From: at(10, unit.Length(10+i)), To: at(90, unit.Length(10+i))}, Pen: pen})
	}
	p := readback.Open(t, write(t, draw.Document{Pages: pages(draw.Page{Width: 100, Height: 100, Ops: ops})}))[0]
	for i, pen := range turn {
		got := fmt.Sprintf("%.3f %.3f %.3f", p.Paths[i].Width, p.Paths[i].Dashes, p.Paths[i].Phase)
		if pen.Dash == draw.Continuous {
			pen.Phase = 0
		}
		want := fmt.Sprintf("%.3f %.3f %.3f", pen.Width, pen.Dash.Lengths(pen.Width), pen.Phase)
		if got != want {
			t.Errorf("line %d: pen %s, want %s", i, got, want)
		}
	}
}

// arcs from 5 mm to 20 m: whole circles and halves where they fit the largest
// page, and the parts of larger ones that do. Among them the arc of a compass set
// to a level base: chord level and as long as the radius, 60°.
func arcs() []geom.Arc {
	list := []geom.Arc{}
	middle := at(2540, 2540)
	for _, r := range []unit.Length{5, 6.35, 63.7, 200, 455, 1000, 2500} {
		for _, sweep := range []unit.Angle{unit.Turn, -unit.Turn, unit.Turn / 2, 4, unit.Turn / 6, -0.3} {
			list = append(list, geom.Arc{Centre: middle, Radius: r, Start: 0.7, Sweep: sweep})
		}
		list = append(list,
			geom.Arc{Centre: middle, Radius: r, Start: unit.Turn / 6, Sweep: unit.Turn / 6},
			geom.Arc{Centre: middle, Radius: r, Start: unit.Turn / 3, Sweep: -unit.Turn / 6},
			geom.Arc{Centre: middle, Radius: r, Start: unit.Turn * 2 / 3, Sweep: unit.Turn / 6},
		)
	}
	for _, r := range []unit.Length{5000, 7200, 12345.678, 20000} {
		for _, start := range []unit.Angle{0.05, 1.1, 1.5} {
			for _, chord := range []unit.Length{0.5, 100, 290, 2000} {
				sweep := unit.Angle(2 * math.Asin(float64(chord/r)/2))
				a := geom.Arc{Radius: r, Start: start, Sweep: sweep}
				a.Centre = middle.Minus(a.At(0.5)) // its middle in the middle of the page
				list = append(list, a)
			}
		}
	}
	// The 60° arc of 5 m over a level base just fits; larger ones are cut to what is
	// on the page, as paging does.
	list = append(list, geom.Arc{Centre: at(2540, -1000), Radius: 5000, Start: unit.Turn / 6, Sweep: unit.Turn / 6})
	return list
}

func TestArcs(t *testing.T) {
	list := arcs()
	var ops []draw.Op
	for _, a := range list {
		ops = append(ops, draw.Arc{Arc: a, Pen: draw.Narrow, On: draw.Construction})
	}
	p := readback.Open(t, write(t, draw.Document{Pages: pages(draw.Page{Width: 5080, Height: 5080, Ops: ops})}))[0]
	if len(p.Paths) != len(list) {
		t.Fatalf("%d paths for %d arcs", len(p.Paths), len(list))
	}
	worst := unit.Length(0)
	for i, a := range list {
		got := p.Paths[i]
		off := got.OffCircle(a.Centre, a.Radius, 32)
		points := got.Sample(32)
		ends := max(points[0].Distance(a.At(0)), points[len(points)-1].Distance(a.At(1)))
		middle := nearest(points, a.At(0.5))
		turned := 0.0
		for j := 1; j < len(points); j++ {
			d := geom.Line{From: a.Centre, To: points[j]}.Direction() - geom.Line{From: a.Centre, To: points[j-1]}.Direction()
			turned += math.Remainder(float64(d), 2*math.Pi)
		}
		if off > near || ends > near || math.Abs(turned-float64(a.Sweep))*float64(a.Radius) > 2*float64(near) {
			t.Errorf("r %v from %v through %v: %.2g mm off the circle, ends %.2g mm off, turns through %v", a.Radius, a.Start, a.Sweep, off, ends, turned)
		}
		if step := a.Radius * unit.Length(math.Abs(float64(a.Sweep))) / unit.Length(len(points)-1); middle > step {
			t.Errorf("r %v: passes its middle at %v mm", a.Radius, middle)
		}
		if whole := math.Abs(float64(a.Sweep)) == float64(unit.Turn); got.Closed != whole {
			t.Errorf("r %v through %v: closed %t", a.Radius, a.Sweep, got.Closed)
		}
		worst = max(worst, off, ends)
	}
	t.Logf("%d arcs, the worst %.6f mm off", len(list), worst)
}

func nearest(points []geom.Point, q geom.Point) unit.Length {
	d := points[0].Distance(q)
	for _, p := range points {
		d = min(d, p.Distance(q))
	}
	return d
}

var corners = []geom.Point{at(20, 40), at(180.12345, 40), at(120, 160)}

func TestPolylines(t *testing.T) {
	points := corners
	p := readback.Open(t, write(t, draw.Document{Pages: pages(draw.Page{Width: 210, Height: 297, Ops: []draw.Op{
		draw.Polyline{Points: points, Closed: true, Pen: draw.Wide, On: draw.Outline},
		draw.Polyline{Points: points, Pen: draw.Narrow, On: draw.Joins},
		draw.Polyline{Points: points, Solid: true, On: draw.Joins},
		draw.Polyline{On: draw.Joins},
	}})}))[0]
	if len(p.Paths) != 3 {
		t.Fatalf("%d paths", len(p.Paths))
	}
	for i, want := range []struct {
		closed, filled bool
		layer          string
	}{{true, false, "outline"}, {false, false, "joins"}, {false, true, "joins"}} {
		got := p.Paths[i]
		if !got.Straight() || got.Closed != want.closed || got.Filled != want.filled || got.Layer != want.layer {
			t.Errorf("read as %+v, want %+v", got, want)
		}
		read := got.Corners()
		for j, q := range points {
			if d := read[j].Distance(q); d > near {
				t.Errorf("path %d corner %d is %.2g mm off", i, j, d)
			}
		}
	}
}

// The tip of a needle keeps within 1 mm of its corner, as drawn by PDFium, and
// reaches it.
func TestNeedleTip(t *testing.T) {
	const dpi = 600
	for _, degrees := range []unit.Angle{1, 5, 20, 28, 30, 60, 90} {
		half := float64(degrees*unit.Degree) / 2
		tip := at(20, 10)
		dx, dy := unit.Length(12*math.Cos(half)), unit.Length(12*math.Sin(half))
		file := write(t, draw.Document{Pages: pages(draw.Page{Width: 25, Height: 20, Ops: []draw.Op{
			draw.Polyline{Points: []geom.Point{at(tip.X-dx, tip.Y-dy), tip, at(tip.X-dx, tip.Y+dy)}, Closed: true, Pen: draw.Wide},
		}})})
		ink := readback.Render(t, file, 0, dpi)
		right := 0
		for x := ink.Bounds().Dx() - 1; x > 0 && right == 0; x-- {
			for y := range ink.Bounds().Dy() {
				if ink.GrayAt(x, y).Y < 128 {
					right = x + 1
					break
				}
			}
		}
		reach := unit.Length(right)*25.4/dpi - tip.X
		if reach < -0.1 || reach > 4*draw.Wide.Width/2+0.05 {
			t.Errorf("%v°: ink reaches %.2f mm beyond the corner", float64(degrees), reach)
		}
	}
}

func TestWords(t *testing.T) {
	list := []draw.Text{
		{At: at(20, 280), Height: 14, Words: "B2", Bold: true, On: draw.Notes},
		{At: at(100, 250), Height: 7, Align: draw.Middle, Words: "A", On: draw.Outline},
		{At: at(100, 240), Height: 3.5, Align: draw.Middle, Words: "12\u2009345.5", On: draw.Dimension},
		{At: at(190, 200), Height: 2.5, Align: draw.Right, Words: `7'-10 1/2", 35°30′ → √2 (½) "Łódź"`, On: draw.Notes},
		{At: at(100, 100), Height: 3.5, Align: draw.Middle, Turn: 0.7, Words: "r 2400", On: draw.Construction},
		{At: at(100, 100), Height: 3.5, Align: draw.Right, Turn: -unit.Turn / 4, Words: `a (b) \ c < d > e`, On: draw.Joins},
	}
	var ops []draw.Op
	for _, o := range list {
		ops = append(ops, o)
	}
	ops = append(ops, draw.Text{At: at(1, 1), Height: 5, On: draw.Notes}) // no words, no mark
	p := readback.Open(t, write(t, draw.Document{Pages: pages(draw.Page{Width: 210, Height: 297, Ops: ops})}))[0]
	if len(p.Words) != len(list) {
		t.Fatalf("%d lines of words for %d", len(p.Words), len(list))
	}
	for _, o := range list {
		i := slices.IndexFunc(p.Words, func(w readback.Words) bool { return w.Text == o.Words })
		if i < 0 {
			t.Errorf("%q was not read; %+v were", o.Words, p.Words)
			continue
		}
		got := p.Words[i]
		width := lettering.Go().Width(o.Words, o.Height, o.Bold)
		start := o.At.Toward(o.Turn, -width*[...]unit.Length{0, 0.5, 1}[o.Align])
		// Capitals of the Go fonts are 1480 of 2048 units high.
		if d := got.At.Distance(start); d > near || math.Abs(float64(got.Em-o.Height*2048/1480)) > 1e-4 || math.Abs(float64(got.Turn-o.Turn)) > 1e-6 || got.Layer != o.On.String() {
			t.Errorf("%q: %.2g mm off, read as %+v", o.Words, d, got)
		}
		if bold := got.Font[len("ABCDEF+"):] == "GoBold"; bold != o.Bold {
			t.Errorf("%q is in %s", o.Words, got.Font)
		}
		// The letters themselves lie where the ruler has them.
		box := o.Bounds(lettering.Go()).Grow(0.02 * o.Height)
		if o.Turn == 0 && !(box.Has(got.Bounds.Min) && box.Has(at(got.Bounds.Max.X, box.Min.Y))) {
			t.Errorf("%q: letters %v, the ruler has %v", o.Words, got.Bounds, box)
		}
	}
}

// Ink of a capital H is as high as asked and stands where asked, as drawn by PDFium.
func TestCapitalInk(t *testing.T) {
	const dpi = 600
	file := write(t, draw.Document{Pages: pages(draw.Page{Width: 50, Height: 50, Ops: []draw.Op{
		draw.Text{At: at(10, 10), Height: 14, Words: "H", On: draw.Notes},
	}})})
	ink := readback.Render(t, file, 0, dpi)
	top, bottom := -1, 0
	for y := range ink.Bounds().Dy() {
		for x := range ink.Bounds().Dx() {
			if ink.GrayAt(x, y).Y < 128 {
				if top < 0 {
					top = y
				}
				bottom = y + 1
				break
			}
		}
	}
	const pixel = 25.4 / dpi
	if h := float64(bottom-top) * pixel; math.Abs(h-14) > 1.5*pixel {
		t.Errorf("H is %.3f mm high", h)
	}
	if foot := 50 - float64(bottom)*pixel; math.Abs(foot-10) > 1.5*pixel {
		t.Errorf("H stands at %.3f mm", foot)
	}
}
