package svg_test

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/svg"
)

func line(x0, y0, x1, y1 unit.Length, pen draw.Pen, on draw.Layer) draw.Line {
	return draw.Line{Line: geom.Line{From: at(x0, y0), To: at(x1, y1)}, Pen: pen, On: on}
}

// plate is a piece with two rounded ends, in strokes of any order and direction,
// two holes, one of them of straight strokes, and marks: one runs along a cut and
// on, one crosses it.
func plate() draw.Page {
	hole := draw.Arc{Arc: geom.Arc{Centre: at(60, 50), Radius: 6, Sweep: unit.Turn}, Pen: draw.Wide}
	return draw.Page{Width: 200, Height: 100, Ops: []draw.Op{
		line(50, 80, 150, 80, draw.Wide, draw.Outline),
		draw.Arc{Arc: geom.Arc{Centre: at(150, 50), Radius: 30, Start: unit.Turn / 4, Sweep: -unit.Turn / 2}, Pen: draw.Wide},
		draw.Arc{Arc: geom.Arc{Centre: at(50, 50), Radius: 30, Start: unit.Turn * 3 / 4, Sweep: -unit.Turn / 2}, Pen: draw.Wide},
		line(50, 20, 150, 20, draw.Wide, draw.Outline),
		hole, hole,
		draw.Polyline{Points: []geom.Point{at(100, 40), at(120, 40), at(110, 55)}, Closed: true, Pen: draw.Wide},
		line(30, 85, 170, 85, draw.Behind, draw.Outline),
		line(20, 20, 190, 20, draw.Narrow, draw.Construction),
		line(100, 10, 100, 90, draw.Centre, draw.Dimension),
		draw.Text{At: at(70, 60), Height: 3.5, Words: "100", On: draw.Dimension},
	}}
}

func whole(t *testing.T, p draw.Page, d draw.Document) file {
	t.Helper()
	var b bytes.Buffer
	if err := svg.WriteWhole(&b, p, d); err != nil {
		t.Fatal(err)
	}
	return read(t, b.Bytes())
}

func TestWhole(t *testing.T) {
	f := whole(t, plate(), draw.Document{Title: "Plate", Language: "en"})
	if f.attr["width"] != "200mm" || f.attr["height"] != "100mm" || f.attr["viewBox"] != "0 0 200 100" {
		t.Errorf("%v", f.attr)
	}
	if !slices.Equal(f.order, []string{"words", "marks", "cut"}) {
		t.Fatalf("groups %v", f.order)
	}
	var cuts []element
	var along []geom.Line // marks at the height of the lower edge
	dashes := unit.Length(0)
	for _, p := range f.paths {
		if p.attr["stroke-dasharray"] != "" {
			t.Errorf("%s has dashes", p.layer)
		}
		if p.layer != "words" && p.attr["stroke-width"] != "0.01" {
			t.Errorf("%s is %s wide", p.layer, p.attr["stroke-width"])
		}
		switch p.layer {
		case "cut":
			if begun := slices.IndexFunc(p.curve[1:], func(m mark) bool { return m.command == 'M' }); !p.shut || begun >= 0 || p.curve[len(p.curve)-1].command != 'Z' {
				t.Errorf("a cut that is not one closed path: %v", p.curve)
			}
			cuts = append(cuts, p)
		case "marks":
			l := geom.Line{From: p.curve[0].to, To: p.curve[1].to}
			if l.From.Y == 20 && l.To.Y == 20 {
				along = append(along, l)
			}
			if l.From.X == 100 && l.To.X == 100 {
				dashes += l.Length()
			}
		case "words":
			if p.attr["aria-label"] != "100" {
				t.Errorf("words %q", p.attr["aria-label"])
			}
		}
	}
	// Nothing runs along the cut from (50, 20) to (150, 20).
	if len(along) != 2 || along[0] != (geom.Line{From: at(20, 20), To: at(50, 20)}) || along[1] != (geom.Line{From: at(150, 20), To: at(190, 20)}) {
		t.Errorf("along the cut: %v", along)
	}
	// 13 long dashes of 4.32 mm, 13 dots of 0.5, and 3.3 mm of the next dash in 80 mm of
	// centre line: its period is 5.9 mm (24d and 3d of ISO 128-2, a pen of 0.18).
	if math.Abs(float64(dashes-(13*4.82+80-13*5.9))) > 1e-3 {
		t.Errorf("%v mm of dashes", dashes)
	}

	// The smaller first: circle, triangle, and the plate of two lines and two arcs.
	if len(cuts) != 3 {
		t.Fatalf("%d cuts", len(cuts))
	}
	for _, m := range cuts[0].curve[1 : len(cuts[0].curve)-1] {
		for _, q := range m.sample(9) {
			if off := math.Abs(float64(q.Distance(at(60, 50)) - 6)); off > 0.0005 {
				t.Errorf("the hole is %v mm off", off)
			}
		}
	}
	if len(cuts[1].curve) != 4 {
		t.Errorf("the triangle is %v", cuts[1].curve)
	}
	round, straight := unit.Length(0), unit.Length(0)
	for _, m := range cuts[2].curve[1:] {
		if m.command != 'A' {
			straight += m.from.Distance(m.to)
			continue
		}
		for i, q := range m.sample(9) {
			off := min(math.Abs(float64(q.Distance(at(50, 50))-30)), math.Abs(float64(q.Distance(at(150, 50))-30)))
			if off > 0.0005 || q.X > 50.001 && q.X < 149.999 {
				t.Errorf("sample %d at %v is not of a rounded end", i, q)
			}
		}
		c, r := m.circle()
		u, v := m.from.Minus(c), m.to.Minus(c)
		round += unit.Length(math.Acos((float64(u.X)*float64(v.X)+float64(u.Y)*float64(v.Y))/float64(r*r))) * r
	}
	if math.Abs(float64(straight-200)) > 0.001 || math.Abs(float64(round-60*math.Pi)) > 0.01 {
		t.Errorf("the plate has %v mm straight and %v mm round", straight, round)
	}
}

func TestWholeHides(t *testing.T) {
	f := whole(t, plate(), draw.Document{Hide: []draw.Layer{draw.Dimension, draw.Construction}})
	n := 0
	for _, p := range f.paths {
		if p.layer == "marks" {
			n++
		}
	}
	if !slices.Equal(f.order, []string{"marks", "cut"}) || n < 10 { // the finished edge, in dashes
		t.Errorf("groups %v, %d marks", f.order, n)
	}
}

// An outline that does not close is a fault of ours and never a file.
func TestWholeRefuses(t *testing.T) {
	for _, ops := range [][]draw.Op{
		{line(0, 0, 9, 0, draw.Wide, draw.Outline)},
		{line(0, 0, 9, 0, draw.Wide, draw.Outline), line(9, 0.001, 5, 5, draw.Wide, draw.Outline), line(5, 5, 0, 0, draw.Wide, draw.Outline)},
		{draw.Polyline{Points: []geom.Point{at(0, 0), at(9, 0), at(5, unit.Length(math.NaN()))}, Closed: true, Pen: draw.Wide}},
		{draw.Text{Height: 3.5, Words: "\u2220"}},
	} {
		var b bytes.Buffer
		if err := svg.WriteWhole(&b, draw.Page{Width: 10, Height: 10, Ops: ops}, draw.Document{}); err == nil || b.Len() > 0 || strings.Contains(err.Error(), "\n") {
			t.Errorf("%v: %v, %d bytes", ops, err, b.Len())
		}
	}
}
