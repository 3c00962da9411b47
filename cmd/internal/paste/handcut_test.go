package paste

import (
	"math"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// handCut holds what the report says is kept against the lines on the sheet: every
// unbroken line of 0.35 mm, run on to the edges of the paper, is cut, and what does
// not hold the middle of the print falls off.
func (l leaf) handCut(t *testing.T, name string) {
	t.Helper()
	left := [][2]float64{{0, 0}, {l.paper[0], 0}, l.paper, {0, l.paper[1]}}
	for _, p := range l.read.Paths {
		if p.Filled || len(p.Dashes) > 0 || math.Abs(float64(p.Width)-0.35) > 0.005 || !strings.EqualFold(p.Layer, "joins") {
			continue
		}
		c := p.Corners()
		if len(c) != 2 {
			t.Fatalf("%s: page %s has a cut that is not straight", name, l.label)
		}
		left = halfOf(left, c[0], c[1], geom.Point{X: unit.Length(l.paper[0] / 2), Y: unit.Length(l.paper[1] / 2)})
	}
	if len(left) != len(l.kept) {
		t.Fatalf("%s: page %s: cut by its lines %v is left, the report says %v", name, l.label, left, l.kept)
	}
	for _, a := range left {
		if !slices.ContainsFunc(l.kept, func(b [2]float64) bool { return math.Hypot(a[0]-b[0], a[1]-b[1]) < 0.005 }) {
			t.Fatalf("%s: page %s: cut by its lines %v is left, the report says %v", name, l.label, left, l.kept)
		}
	}
	if area := areaOf(l.kept); area <= 0 || math.Abs(area-areaOf(left)) > 2 {
		t.Fatalf("%s: page %s: %v does not go round counter-clockwise", name, l.label, l.kept)
	}
}

func areaOf(p [][2]float64) (area float64) {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		area += (a[0]*b[1] - a[1]*b[0]) / 2
	}
	return area
}

// halfOf is the part of a convex polygon on the side of a line where a point is.
func halfOf(p [][2]float64, a, b, in geom.Point) (half [][2]float64) {
	side := func(x, y float64) float64 {
		return float64(b.X-a.X)*(y-float64(a.Y)) - float64(b.Y-a.Y)*(x-float64(a.X))
	}
	sign := math.Copysign(1, side(float64(in.X), float64(in.Y)))
	for i, u := range p {
		v := p[(i+1)%len(p)]
		f, g := sign*side(u[0], u[1]), sign*side(v[0], v[1])
		if f >= 0 {
			half = append(half, u)
		}
		if f*g < 0 {
			k := f / (f - g)
			half = append(half, [2]float64{u[0] + k*(v[0]-u[0]), u[1] + k*(v[1]-u[1])})
		}
	}
	return half
}
