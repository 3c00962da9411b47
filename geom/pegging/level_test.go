package pegging

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Pythagoras, as every handbook of setting out has it: 3 m level over a fall of 4 m is
// 5 m along the ground, 12 over 5 is 13; exact, where the series -Δ²/2L is off by 21 mm
// on 2.4 m over 1 m.
func TestFallIsExact(t *testing.T) {
	for _, c := range [][3]float64{{3000, 4000, 5000}, {12000, 5000, 13000}, {2400, 1000, 2600}, {40000, 9000, 41000}, {8000, 0, 8000}} {
		reading, k, err := (tape.Standard{}).Reading(unit.Length(c[0]), tape.Conditions{Fall: unit.Length(c[1])})
		if err != nil || math.Abs(reading.MM()-c[2]) > 1e-9 || math.Abs(k.Slope.MM()-(c[0]-c[2])) > 1e-9 {
			t.Errorf("%v: laid off as %v, %+v, %v", c, reading, k, err)
		}
		if c[1] >= c[2] {
			continue
		}
		level, _, err := (tape.Standard{}).Measured(unit.Length(c[2]), tape.Conditions{Fall: unit.Length(-c[1])})
		if err != nil || math.Abs(level.MM()-c[0]) > 1e-9 {
			t.Errorf("%v: measured as %v, %v", c, level, err)
		}
	}
	if _, _, err := (tape.Standard{}).Measured(1000, tape.Conditions{Fall: 1000}); err == nil {
		t.Error("a plumb line was measured")
	}
}

// The ground between the levels given: of two it falls along their line and is level
// across, of three it is their plane z = 100 + x/20 - y/50, a fourth keeps its own.
func TestGround(t *testing.T) {
	pegs := []Peg{{"A", geom.Point{}}, {"B", geom.Point{X: 8000}}, {"C", geom.Point{X: 4000, Y: 3000}}, {"D", geom.Point{X: 2000, Y: 6000}}}
	for _, c := range []struct {
		levels  []Level
		want    [4]float64
		assumed string
	}{
		{[]Level{{"A", 0}, {"B", 320}}, [4]float64{0, 320, 160, 80}, "[C D]"},
		{[]Level{{"B", 320}, {"A", 0}}, [4]float64{0, 320, 160, 80}, "[C D]"},
		{[]Level{{"A", 100}, {"B", 500}, {"C", 240}}, [4]float64{100, 500, 240, 80}, "[D]"},
		{[]Level{{"A", 100}, {"B", 500}, {"C", 240}, {"D", -40}}, [4]float64{100, 500, 240, -40}, "[]"},
	} {
		g, err := GroundOf(pegs, c.levels)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range pegs {
			if math.Abs(g.At(p.Name).MM()-c.want[i]) > 1e-9 {
				t.Errorf("%v: %s at %v, want %v", c.levels, p.Name, g.At(p.Name), c.want[i])
			}
		}
		if got := fmt.Sprint(g.Assumed); got != c.assumed {
			t.Errorf("%v: %s assumed", c.levels, got)
		}
		if f := g.Fall("B", "A"); f != g.Fall("A", "B") || f < 0 {
			t.Errorf("fall %v", f)
		}
	}
	// Three nearly in a row say nothing of the fall across: E's 20 mm are not a gradient of
	// 1 in 5 that would put D 1200 mm higher.
	g, err := GroundOf(append(pegs[:2:2], Peg{"E", geom.Point{X: 4000, Y: 100}}, pegs[3]), []Level{{"A", 0}, {"B", 320}, {"E", 180}})
	if err != nil || math.Abs(g.At("D").MM()-86.7) > 1 || g.At("E") != 180 {
		t.Errorf("D at %v, %v", g.At("D"), err)
	}
	for _, bad := range [][]Level{{{"A", 0}}, {{"A", 0}, {"A", 1}}, {{"A", 0}, {"X", 1}}, {{"A", 0}, {"B", 8000}}} {
		var f *unit.Fault
		if _, err := GroundOf(pegs, bad); !errors.As(err, &f) || f.Subject != unit.Levels || f.Hint == "" {
			t.Errorf("%v: %v", bad, err)
		}
	}
}
