package shape

import (
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/area"
	"trammel/geom/unit"
)

// chords of a contour whose arcs are cut so fine that they leave the arc by less
// than 0.002 mm.
func chords(c geom.Contour) geom.Polygon {
	var p geom.Polygon
	for _, s := range c {
		n := 1
		if a, ok := s.(geom.Arc); ok {
			n = 1 + int(math.Abs(a.Sweep.Radians())*math.Sqrt(a.Radius.MM()/0.016))
		}
		for i := range n {
			p = append(p, s.At(float64(i)/float64(n)))
		}
	}
	return p
}

// The cut contour of a piece whose corners are all rounded is the finished piece grown
// by the allowance, also at corners that point inward: held to what canvas makes of
// the finished contour, which shares nothing with the reckoning here. Its offset is
// right to 0.01 mm, so the two differ by a strip of that width at most.
func TestCutIsTheFinishedPieceGrown(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	made, inward := 0, 0
	for range 40 {
		n := 3 + r.IntN(6)
		var outline geom.Polygon
		var names []geom.Name
		for i := range n { // a star about the middle, so that it does not cross itself
			a := (float64(i) + 0.6*r.Float64()) / float64(n) * 2 * math.Pi
			reach := 100 + 200*r.Float64()
			outline = append(outline, geom.Point{X: unit.Length(reach * math.Cos(a)), Y: unit.Length(reach * math.Sin(a))})
			names = append(names, geom.Name("ABCDEFGH"[i]))
		}
		radius := unit.Length(4 + 10*r.Float64())
		by := radius * unit.Length(0.2+0.7*r.Float64())
		var w Work
		for i, name := range names {
			w.Corners = append(w.Corners, Corner{At: name, Do: Round, By: radius})
			w.Allowances = append(w.Allowances, Allowance{Edge: [2]geom.Name{name, names[(i+1)%n]}, By: by})
		}
		s, err := Make(outline, names, w, unit.Style{})
		if err != nil {
			continue // a side too short for its roundings
		}
		finished, err := area.Of(chords(s.Finished))
		if err != nil {
			t.Fatal(err)
		}
		cut, err := area.Of(chords(s.Cut))
		if err != nil {
			t.Fatal(err)
		}
		grown, err := finished.Grown(by)
		if err != nil {
			t.Fatal(err)
		}
		more, err := grown.Less(cut)
		if err != nil {
			t.Fatal(err)
		}
		less, err := cut.Less(grown)
		if err != nil {
			t.Fatal(err)
		}
		made++
		for i := range outline {
			a, b, c := outline[(i+n-1)%n], outline[i], outline[(i+1)%n]
			if geom.Side(geom.VectorOf(a), geom.VectorOf(b), geom.VectorOf(c)) < 0 {
				inward++
			}
		}
		if off := float64(more.Area()+less.Area()) / s.Cut.Length().MM(); off > 0.01 {
			t.Errorf("%v by %v, rounded %v: %.4f mm apart on average", outline, by, radius, off)
		}
	}
	if made < 30 || inward < 10 {
		t.Errorf("%d pieces with %d corners that point inward are too few", made, inward)
	}
	t.Logf("%d pieces, %d corners that point inward", made, inward)
}
