package paging

import (
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// A path that leaves the window and comes back is cut into runs; a dashed one goes
// on in its dashes where it comes back.
func TestPathIsCut(t *testing.T) {
	at := func(x, y unit.Length) geom.Point { return geom.Point{X: x, Y: y} }
	path := draw.Path{Segments: []geom.Segment{
		geom.Line{From: at(0, 0), To: at(100, 0)}, geom.Arc{Centre: at(100, 20), Radius: 20, Start: -unit.Turn / 4, Sweep: unit.Turn / 2},
		geom.Line{From: at(100, 40), To: at(0, 40)}, geom.Line{From: at(0, 40), To: at(0, 0)},
	}, Closed: true, Pen: draw.Wide, On: draw.Outline}
	window := geom.Rect{Min: at(-5, -5), Max: at(110, 45)}
	by := at(1000, 2000)
	got := cut(nil, path, path.Bounds(nil), window, by)
	if len(got) != 1 {
		t.Fatalf("%v", got)
	}
	run := got[0].(draw.Path)
	if run.Closed || run.On != draw.Outline || len(run.Segments) != 5 {
		t.Fatalf("%+v", run)
	}
	// The arc is left and met again where x is 110: 10 beside its centre, √300 above and below.
	for i, want := range []geom.Point{at(1110, 2037.320508075689), at(1110, 2002.679491924311)} {
		end := run.Segments[(len(run.Segments)-1)*i].At(float64(i))
		if end.Distance(want) > 1e-9 {
			t.Errorf("an end at %v, want %v", end, want)
		}
	}
	path.Pen = draw.Behind
	parts := cut(nil, path, path.Bounds(nil), window, by)
	phase := parts[len(parts)-1].(draw.Line).Pen.Phase
	if want := unit.Length(100 + 20*3.141592653589793 + 100); phase < want-1e-9 || phase > want+1e-9 {
		t.Errorf("the last side starts %v into its dashes, want %v", phase, want)
	}
}
