package pdf_test

import (
	"math"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/readback"
)

// plate is one of w by h with corners rounded by r, once round.
func plate(x, y, w, h, r unit.Length) []geom.Segment {
	var path []geom.Segment
	corners := []geom.Point{at(x+w-r, y+r), at(x+w-r, y+h-r), at(x+r, y+h-r), at(x+r, y+r)}
	from := at(x+r, y)
	for i, c := range corners {
		a := geom.Arc{Centre: c, Radius: r, Start: unit.Turn / 4 * unit.Angle(i-1), Sweep: unit.Turn / 4}
		path = append(path, geom.Line{From: from, To: a.At(0)}, a)
		from = a.At(1)
	}
	return path
}

// A path is one stroke, so that its corners are mitred, and true.
func TestPaths(t *testing.T) {
	for _, s := range [][2]unit.Length{{210, 297}, {5080, 5080}} {
		round := plate(10, 20, s[0]-30, s[1]-50, s[0]/7)
		for _, c := range []struct {
			name   string
			path   []geom.Segment
			closed bool
		}{
			{"round", round, true},
			{"round, from an arc", append(append([]geom.Segment{}, round[1:]...), round[0]), true},
			{"open", round[:5], false},
			{"triangle", []geom.Segment{geom.Line{From: at(10, 10), To: at(110, 10)}, geom.Line{From: at(110, 10), To: at(10, 80)}, geom.Line{From: at(10, 80), To: at(10, 10)}}, true},
			{"two half circles", []geom.Segment{geom.Arc{Centre: at(60, 60), Radius: 40, Sweep: unit.Turn / 2}, geom.Arc{Centre: at(60, 60), Radius: 40, Start: unit.Turn / 2, Sweep: unit.Turn / 2}}, true},
		} {
			op := draw.Path{Segments: c.path, Closed: c.closed, Pen: draw.Wide, On: draw.Outline}
			p := readback.Open(t, write(t, draw.Document{Pages: pages(draw.Page{Width: s[0], Height: s[1], Ops: []draw.Op{op}})}))[0]
			if len(p.Paths) != 1 || p.Paths[0].Closed != c.closed || p.Paths[0].Layer != "outline" || math.Abs(float64(p.Paths[0].Width-draw.Wide.Width)) > 1e-6 {
				t.Fatalf("%s: read as %+v", c.name, p.Paths)
			}
			got := p.Paths[0].Sample(8)
			length := unit.Length(0)
			for i, q := range got {
				if off := geom.Contour(c.path).Distance(q); off > near {
					t.Errorf("%s: %v is %.2g mm off", c.name, q, off)
				}
				if i > 0 {
					length += q.Distance(got[i-1])
				}
			}
			// All of it is there: the sum of the chords lacks little.
			if want := geom.Contour(c.path).Length(); length < want*0.995 || length > want*1.0001 {
				t.Errorf("%s: %v long, want %v", c.name, length, want)
			}
		}
	}
}
