package setout

import (
	"bytes"
	_ "embed"
	"fmt"
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/unit"
)

// A 3-4-5 triangle in metres whose baseline AB runs to a bearing of which sine and
// cosine are 3/5 and 4/5, computed by hand: AB leads 3 m east for 4 m north; C is
// 3 m left of A, which is 4/5 of that west and 3/5 north.
func TestPegsByHand(t *testing.T) {
	pegs := []pegging.Peg{{Name: "A", At: geom.Point{}}, {Name: "B", At: geom.Point{X: 5000}}, {Name: "C", At: geom.Point{Y: 3000}}}
	for _, c := range []struct {
		grid Grid
		want string
	}{
		{Grid{Bearing: unit.Turn / 4}, "point,x,y\r\nA,0.000,0.000\r\nB,5000.000,0.000\r\nC,0.000,3000.000\r\n"},
		{Grid{geom.Point{X: 1000, Y: 2000}, unit.Angle(math.Asin(0.6))}, "point,x,y\r\nA,1000.000,2000.000\r\nB,4000.000,6000.000\r\nC,-1400.000,3800.000\r\n"},
		{Grid{geom.Point{X: -5000}, unit.Turn / 2}, "point,x,y\r\nA,-5000.000,0.000\r\nB,-5000.000,-5000.000\r\nC,-2000.000,0.000\r\n"},
	} {
		var b bytes.Buffer
		if err := PegsCSV(&b, pegs, pegs[0].At, pegs[1].At, c.grid); err != nil || b.String() != c.want {
			t.Errorf("%v: %v\n got %q\nwant %q", c.grid, err, b.String(), c.want)
		}
	}
}

// pegsByNumpy is what testdata/pegs.py printed (numpy 1.24).
//
//go:embed testdata/pegs.txt
var pegsByNumpy string

func TestPegsAgainstNumpy(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(pegsByNumpy), "\n")
	if len(lines) != 200 {
		t.Fatalf("%d lines", len(lines))
	}
	for _, line := range lines {
		var zero, end, origin, at geom.Point
		var degrees float64
		var x, y string
		if _, err := fmt.Sscan(line, &zero.X, &zero.Y, &end.X, &end.Y, &origin.X, &origin.Y, &degrees, &at.X, &at.Y, &x, &y); err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := PegsCSV(&b, []pegging.Peg{{Name: "P", At: at}}, zero, end, Grid{origin, unit.Angle(degrees) * unit.Degree}); err != nil {
			t.Fatal(err)
		}
		if want := "point,x,y\r\nP," + x + "," + y + "\r\n"; b.String() != want {
			t.Errorf("%s: %q", line, b.String())
		}
	}
}

// The baseline counts from the end that was named first, and there the tape's zero is
// held, also where pegs then lie behind it. The plan's north goes with it.
func TestPegsOfASheet(t *testing.T) {
	for _, ends := range [][2]geom.Name{{"A", "B"}, {"B", "A"}, {"B", "C"}, {"C", "B"}, {"A", "C"}, {"C", "A"}} {
		bearing := 35 * unit.Degree
		s := prepared(t, "AB=8m BC=6m CA=5m", func(in *Input) { in.Base, in.Bearing = ends, &bearing })
		drawn := geom.Line{From: peg(t, s, ends[0]).At, To: peg(t, s, ends[1]).At}.Direction()
		if off := math.Remainder(float64(s.North.Turn-drawn-bearing), 2*math.Pi); s.North.Name != "north" || math.Abs(off) > 1e-12 {
			t.Errorf("base %v: north is drawn at %v", ends, s.North.Turn.Degrees())
		}
		if s.Baseline.From != ends[0] {
			t.Errorf("base %v: the tape's zero is held at %s", ends, s.Baseline.From)
		}
		var b bytes.Buffer
		if err := s.PegsCSV(&b, Grid{geom.Point{X: 1e6, Y: 2e6}, 35 * unit.Degree}); err != nil {
			t.Fatal(err)
		}
		at := map[string]geom.Point{}
		for _, row := range strings.Fields(b.String())[1:] {
			words := strings.Split(row, ",")
			var p geom.Point
			fmt.Sscan(words[1], &p.X)
			fmt.Sscan(words[2], &p.Y)
			at[words[0]] = p
		}
		if len(at) != len(s.Pegs) {
			t.Fatalf("%d pegs in the file, %d on the sheet", len(at), len(s.Pegs))
		}
		for pair, want := range map[string]unit.Length{"AB": 8000, "BC": 6000, "AC": 5000} {
			if d := at[pair[:1]].Distance(at[pair[1:]]); math.Abs(float64(d-want)) > 0.002 {
				t.Errorf("base %v: %s is %v", ends, pair, d)
			}
		}
		if p := at[string(ends[0])]; p != (geom.Point{X: 1e6, Y: 2e6}) {
			t.Errorf("base %v: its zero end lies at %v", ends, p)
		}
		a, q, c := at["A"], at["B"], at["C"]
		if turn := (q.X-a.X)*(c.Y-a.Y) - (q.Y-a.Y)*(c.X-a.X); turn < 0 {
			t.Errorf("base %v: the triangle is turned over", ends)
		}
		// The other end lies at the bearing, 35° clockwise from north.
		from, to := at[string(ends[0])], at[string(ends[1])]
		if b := math.Atan2(float64(to.X-from.X), float64(to.Y-from.Y)) * 180 / math.Pi; math.Abs(b-35) > 1e-4 {
			t.Errorf("base %v: its bearing is %v", ends, b)
		}
	}
}
