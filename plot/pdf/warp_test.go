package pdf_test

import (
	"math"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/readback"
)

// undo is the inverse of a warp, worked out here by Cramer's rule.
func undo(m draw.Matrix, p geom.Point) geom.Point {
	x, y := float64(p.X)-m[4], float64(p.Y)-m[5]
	det := m[0]*m[3] - m[1]*m[2]
	return geom.Point{X: unit.Length((m[3]*x - m[2]*y) / det), Y: unit.Length((m[0]*y - m[1]*x) / det)}
}

// Marks of a page made for a printer, read back and with the warp taken off, lie
// where the page has them: lines, and arcs of up to 20 m, on every sheet.
func TestWarp(t *testing.T) {
	for _, s := range sheets {
		centre := at(s[0]/2, s[1]/2)
		for _, d := range []geom.Distortion{
			{Across: 0.015, Along: -0.015, Skew: 0.3 * unit.Degree},
			{Across: -0.03, Along: 0.03, Skew: -1 * unit.Degree},
			{Across: 1e-6},
		} {
			var ops []draw.Op
			for _, l := range lines(s[0], s[1]) {
				ops = append(ops, draw.Line{Line: l, Pen: draw.Narrow, On: draw.Construction})
			}
			straight := len(ops)
			for _, r := range []unit.Length{30, 400, 20000} {
				reach := unit.Angle(math.Min(1, float64(s[0]/(2*r))))
				ops = append(ops, draw.Arc{Arc: geom.Arc{Centre: at(s[0]/2, s[1]/2-r), Radius: r, Start: unit.Turn/4 - reach/2, Sweep: reach}, Pen: draw.Narrow, On: draw.Construction})
			}
			warp := draw.Matrix(d.Affine().About(centre))
			page := draw.Page{Width: s[0], Height: s[1], Ops: ops, Places: []draw.Place{{Matrix: draw.Matrix{1, 0, 0, 1, 3, 4}}}}.Warped(warp)
			// A place leads to the file.
			if got, want := geom.Affine(page.Places[0].Matrix).Apply(at(1, 2)), geom.Affine(warp).Apply(at(4, 6)); got.Distance(want) > 1e-9 {
				t.Errorf("%v: the place leads to %v, want %v", s, got, want)
			}
			p := readback.Open(t, write(t, draw.Document{Pages: pages(page)}))[0]
			if len(p.Paths) != len(ops) {
				t.Fatalf("%v: %d paths for %d marks", s, len(p.Paths), len(ops))
			}
			for i, got := range p.Paths {
				if i < straight {
					l := lines(s[0], s[1])[i]
					if a, b := undo(warp, got.Start).Distance(l.From), undo(warp, got.Segments[0].To).Distance(l.To); a > near || b > near {
						t.Errorf("%v, %v: %v is off by %v and %v", s, d, l, a, b)
					}
					continue
				}
				arc := ops[i].(draw.Arc)
				for _, q := range got.Sample(12) {
					if off := math.Abs(float64(undo(warp, q).Distance(arc.Centre) - arc.Radius)); off > 2*near.MM() {
						t.Fatalf("%v, %v: a point of the arc of %v is off by %v", s, d, arc.Radius, off)
					}
				}
			}
		}
	}
}
