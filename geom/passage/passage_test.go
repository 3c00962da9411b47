package passage

import (
	"errors"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// A room like a U, its arms up, and P in the middle of its lower part:
//
//	H   G       D   C
//	    |       |
//	    F ----- E
//	A               B
var yard = Points{
	Names: []geom.Name{"A", "B", "C", "D", "E", "F", "G", "H", "P"}, Outline: []geom.Name{"A", "B", "C", "D", "E", "F", "G", "H"},
	At: map[geom.Name]geom.Point{
		"A": {X: 0, Y: 0}, "B": {X: 8000, Y: 0}, "C": {X: 8000, Y: 5000}, "D": {X: 5000, Y: 5000}, "E": {X: 5000, Y: 2000},
		"F": {X: 3000, Y: 2000}, "G": {X: 3000, Y: 5000}, "H": {X: 0, Y: 5000}, "P": {X: 4000, Y: 1000},
	},
}

func lineOf(name string) [2]geom.Name {
	return [2]geom.Name{geom.Name(name[:1]), geom.Name(name[1:])}
}

// Seen on the drawing above: what a person in the room would say of each line.
func TestWhichLinesMayBePulled(t *testing.T) {
	all := Bars{Around: true}
	for _, c := range []struct {
		bars Bars
		line string
		want Code
	}{
		{all, "AB", Open}, {all, "EF", Open}, {all, "GF", Open}, // along a wall
		{all, "AE", Open}, {all, "AG", Open}, {all, "BD", Open}, {all, "PE", Open}, {all, "HF", Open},
		{all, "AC", AtWall}, {all, "HB", AtWall}, {all, "CH", AtWall}, {all, "HE", AtWall},
		{all, "GD", AtWall}, // from arm to arm, outside: it ends at two corners and crosses no wall
		{all, "GE", AtWall}, {all, "FD", AtWall},
		{all, "HD", AtWall}, // along HG, then out into the open
		{Bars{Walls: [][2]geom.Name{lineOf("DE")}}, "AC", AtWall}, // AC meets DE at 3125 of its 5000
		{Bars{Walls: [][2]geom.Name{lineOf("FG")}}, "AC", Open},
		{Bars{Walls: [][2]geom.Name{lineOf("EF")}}, "GD", Open}, {Bars{Walls: [][2]geom.Name{lineOf("EF")}}, "HB", AtWall}, // HB meets EF at 4800
		{Bars{Walls: [][2]geom.Name{lineOf("GF"), lineOf("EF")}}, "HE", AtWall},
		{Bars{Walls: [][2]geom.Name{lineOf("AE")}}, "PF", AtWall}, // a wall that is no edge
		{Bars{Walls: [][2]geom.Name{lineOf("AE")}}, "AB", Open}, {Bars{Walls: [][2]geom.Name{lineOf("AE")}}, "EB", Open},
		{Bars{Blocked: [][2]geom.Name{lineOf("BA")}}, "AB", AtBlock}, {Bars{Blocked: [][2]geom.Name{lineOf("AB")}}, "AE", Open},
		{Bars{Blocked: [][2]geom.Name{lineOf("AB")}}, "AC", Open}, {Bars{Blocked: [][2]geom.Name{lineOf("HC")}}, "GD", AtBlock},
		{Bars{Reach: 8000}, "AB", Open}, {Bars{Reach: 8000}, "AC", TooLong},
		{Bars{Reach: 3000, Around: true}, "AB", TooLong},
	} {
		w, err := Of(c.bars, yard)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{c.line, c.line[1:] + c.line[:1]} {
			n := lineOf(name)
			if got := w.May(geom.Line{From: yard.At[n[0]], To: yard.At[n[1]]}); got.Code != c.want {
				t.Errorf("%+v: %s is %d by %v, want %d", c.bars, name, got.Code, got.By, c.want)
			}
		}
	}
}

// A corner that stands 1 mm in the way lets a tape pass, one of 5 mm does not; a place on a
// wall is left into the room and not out of it.
func TestGrazing(t *testing.T) {
	w, err := Of(Bars{Around: true}, yard)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		from, to geom.Point
		want     bool
	}{
		{geom.Point{X: 0, Y: 2001}, geom.Point{X: 8000, Y: 2001}, true}, {geom.Point{X: 0, Y: 2005}, geom.Point{X: 8000, Y: 2005}, false},
		{geom.Point{X: 0, Y: 2000}, geom.Point{X: 8000, Y: 2000}, true},
		{geom.Point{X: 4000, Y: 2000}, geom.Point{X: 4000, Y: 0}, true}, {geom.Point{X: 4000, Y: 2000}, geom.Point{X: 4000, Y: 2500}, false},
		{geom.Point{X: 4000, Y: 2000}, geom.Point{X: 6000, Y: 2500}, false}, {geom.Point{X: 8000, Y: 1000}, geom.Point{X: 9000, Y: 1000}, false},
		{geom.Point{X: 2900, Y: 4900}, geom.Point{X: 3000, Y: 2000}, true}, {geom.Point{X: 3000, Y: 2000}, geom.Point{X: 4000, Y: 2900}, false},
	} {
		if w.Free(c.from, c.to) != c.want || w.Free(c.to, c.from) != c.want {
			t.Errorf("from %v to %v: want %t", c.from, c.to, c.want)
		}
	}
	turned := geom.Placement{Turn: 1, Shift: geom.Point{X: 700, Y: -300}}
	if p := w.Placed(turned); p.Free(turned.Apply(yard.At["G"]), turned.Apply(yard.At["D"])) || !p.Free(turned.Apply(yard.At["A"]), turned.Apply(yard.At["G"])) {
		t.Error("seen from another plane it is another room")
	}
}

func TestWallsOfNoPoints(t *testing.T) {
	open := yard
	open.Outline = nil
	for _, c := range []struct {
		bars Bars
		of   Points
		want string
	}{
		{Bars{Walls: [][2]geom.Name{{"A", "X"}}}, yard, "walls: there are no two points AX"},
		{Bars{Blocked: [][2]geom.Name{{"X", "Y"}}}, yard, "blocked: there are no two points XY"},
		{Bars{Around: true}, open, "walls: outline: the points have no outline"},
	} {
		_, err := Of(c.bars, c.of)
		var f *unit.Fault
		if !errors.As(err, &f) || f.Error() != c.want || f.Hint == "" {
			t.Errorf("%v, want %s", err, c.want)
		}
	}
}
