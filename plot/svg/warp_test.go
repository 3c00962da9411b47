package svg_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

var (
	pathData = regexp.MustCompile(` d="([^"]*)"`)
	spaced   = regexp.MustCompile(`[MLCZ]|-?[0-9.]+`)
)

// On a page made for a printer lines end where the warp has them, and an arc is
// curves that lie, with the warp taken off, on its circle.
func TestWarp(t *testing.T) {
	d := geom.Distortion{Across: 0.015, Along: -0.01, Skew: 0.3 * unit.Degree}
	warp := d.Affine().About(at(105, 148.5))
	back, _ := warp.Inverse()
	line := geom.Line{From: at(12, 20), To: at(190, 260)}
	arcs := []geom.Arc{
		{Centre: at(100, 150), Radius: 80, Start: 0.3, Sweep: 2.5}, {Centre: at(100, 150), Radius: 60, Sweep: unit.Turn},
		{Centre: at(100, -19800), Radius: 20000, Start: 1.568, Sweep: 0.005},
	}
	page := draw.Page{Width: 210, Height: 297, Warp: draw.Matrix(warp), Ops: []draw.Op{draw.Line{Line: line, Pen: draw.Narrow}}}
	for _, a := range arcs {
		page.Ops = append(page.Ops, draw.Arc{Arc: a, Pen: draw.Narrow})
	}
	found := pathData.FindAllStringSubmatch(string(write(t, page, draw.Document{})), -1)
	if len(found) != 1+len(arcs) {
		t.Fatalf("%d paths", len(found))
	}
	for i, f := range found {
		words := spaced.FindAllString(f[1], -1)
		var points []geom.Point // back in the page's own coordinates
		commands := ""
		for k := 0; k < len(words); k++ {
			if w := words[k]; strings.Contains("MLCZ", w) {
				commands += w
				continue
			}
			points = append(points, back.Apply(geom.Point{X: length(t, words[k]), Y: page.Height - length(t, words[k+1])}))
			k++
		}
		if i == 0 {
			if commands != "ML" || points[0].Distance(line.From) > 0.0002 || points[1].Distance(line.To) > 0.0002 {
				t.Errorf("the line is %s %v", commands, points)
			}
			continue
		}
		a := arcs[i-1]
		if shut := strings.HasSuffix(commands, "Z"); shut != draw.Whole(a) || strings.Trim(commands, "CZ") != "M" || len(points)%3 != 1 {
			t.Fatalf("arc %d has %s with %d points", i, commands, len(points))
		}
		if points[0].Distance(a.At(0)) > 0.0002 || points[len(points)-1].Distance(a.At(1)) > 0.0002 {
			t.Errorf("arc %d runs from %v to %v", i, points[0], points[len(points)-1])
		}
		for k := 0; k+3 < len(points); k += 3 {
			for s := 0.0; s <= 1; s += 0.1 {
				r := 1 - s
				p := points[k].Times(r * r * r).Plus(points[k+1].Times(3 * r * r * s)).Plus(points[k+2].Times(3 * r * s * s)).Plus(points[k+3].Times(s * s * s))
				if off := math.Abs(float64(p.Distance(a.Centre) - a.Radius)); off > 0.0015 {
					t.Fatalf("arc %d is off by %v", i, off)
				}
			}
		}
	}
}
