package svg_test

import (
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// A plate with a rounded corner is one path,
// every point of it where the segments are.
func TestPaths(t *testing.T) {
	round := geom.Arc{Centre: at(90, 60), Radius: 10, Sweep: unit.Turn / 4}
	segments := []geom.Segment{
		geom.Line{From: at(20, 30), To: at(100, 30)}, geom.Line{From: at(100, 30), To: at(100, 60)}, round,
		geom.Line{From: at(90, 70), To: at(20, 30)},
	}
	for _, closed := range []bool{true, false} {
		o := draw.Path{Segments: segments, Closed: closed, Pen: draw.Wide, On: draw.Outline}
		f := read(t, write(t, draw.Page{Width: 210, Height: 297, Ops: []draw.Op{o}}, draw.Document{}))
		if len(f.paths) != 1 || f.paths[0].layer != "outline" || f.paths[0].shut != closed || f.paths[0].attr["stroke-width"] != "0.7" {
			t.Fatalf("%+v", f.paths)
		}
		arcs := 0
		length := unit.Length(0)
		for _, m := range f.paths[0].curve {
			points := []geom.Point{m.from, m.to}
			switch m.command {
			case 'M':
				continue
			case 'A':
				points = m.sample(50)
				arcs++
			}
			for i, p := range points {
				if off := geom.Contour(segments).Distance(p); off > 0.001 {
					t.Errorf("%v is %v off", p, off)
				}
				if i > 0 {
					length += p.Distance(points[i-1])
				}
			}
		}
		if want := geom.Contour(segments).Length(); arcs == 0 || length < want-0.01 || length > want+0.01 {
			t.Errorf("%d arcs, %v long, want %v", arcs, length, want)
		}
	}
}
