package byhand_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/words/byhand"
)

var update = flag.Bool("update", false, "write the golden anew; read it before it is kept")

// piece is 900 long on its baseline, in millimetres; 50° at A and 1:4 at D were given.
func piece() byhand.Piece {
	given := func(text string) unit.Reading {
		r, err := unit.ParseAngle(text)
		if err != nil {
			panic(err)
		}
		return r
	}
	return byhand.Piece{
		Construction: construct.Construction{Steps: []construct.Step{construct.DrawBase{From: "A", To: "B", Length: 900, Measured: true}}},
		Given:        map[geom.Name]unit.Reading{"A": given("50deg"), "D": given("1:4"), "C": given("75deg")},
	}
}

// acts are one of each kind that a sentence is another of, with the figures that it must
// carry.
var acts = []struct {
	what    string
	act     byhand.Act
	figures string
}{
	{"baseline", construct.DrawBase{From: "A", To: "B", Length: 900, Measured: true}, "900"},
	{"baseline, computed", construct.DrawBase{From: "A", To: "B", Length: 900.4}, "900.4"},
	{"arc", byhand.Swing{Swing: construct.Swing{Centre: "A", Radius: 250, To: "C", Measured: true}}, "250"},
	{"arc, long", byhand.Swing{Swing: construct.Swing{Centre: "A", Radius: 600, To: "C", Measured: true}, Beam: true, First: true}, "600"},
	{"arc, of a net", byhand.Swing{Swing: construct.Swing{Centre: "A", Radius: 600, To: "C", Tell: "D", Measured: true}, Beam: true}, "600"},
	{"arc, below", byhand.Swing{Swing: construct.Swing{Centre: "A", Radius: 250, To: "C", Below: true, Measured: true}}, "250"},
	{"crossing", byhand.Swing{Swing: construct.Swing{Centre: "B", Radius: 800, To: "C", Measured: true}, Beam: true, Meets: construct.Swing{}}, "800"},
	{"crossing, computed", byhand.Swing{Swing: construct.Swing{Centre: "B", Radius: 80.3, To: "C"}, Meets: construct.Swing{}}, "80.3"},
	{"crossing an arm twice", byhand.Swing{Swing: construct.Swing{Centre: "B", Radius: 600, To: "C", Twice: true, Measured: true}, Beam: true, Meets: construct.SetAngle{At: "A"}, From: "A"}, "600"},
	{"crossing an arc twice", byhand.Swing{Swing: construct.Swing{Centre: "D", Radius: 600, To: "C", Twice: true, Measured: true}, Beam: true, Meets: construct.Swing{}}, "600"},
	{"crossing a parallel", byhand.Swing{Swing: construct.Swing{Centre: "A", Radius: 250, To: "C", Twice: true, Measured: true}, Meets: construct.Parallel{}, From: "B", Nearer: true}, "250"},
	{"touching", byhand.Swing{Swing: construct.Swing{Centre: "B", Radius: 250, To: "C", Measured: true}, Meets: construct.SetAngle{At: "A"}, Touches: true}, "250"},
	{"third angle", construct.ThirdAngle{At: "B", Angle: 55 * unit.Degree, Others: [2]geom.Name{"C", "A"}, Known: [2]unit.Angle{75 * unit.Degree, 50 * unit.Degree}}, "55° 75° 50°"},
	{"angle, acute", byhand.SetAngle{SetAngle: construct.SetAngle{At: "A", Along: "B", Angle: 50 * unit.Degree, To: "C", Measured: true}}, "50°"},
	{"angle, obtuse", byhand.SetAngle{SetAngle: construct.SetAngle{At: "E", Along: "B", Angle: 120 * unit.Degree, To: "C", Measured: true}}, "120°"},
	{"angle, turned over", byhand.SetAngle{SetAngle: construct.SetAngle{At: "B", Along: "A", Angle: 65 * unit.Degree, To: "C"}, Turned: true, Meets: construct.SetAngle{At: "A"}}, "65°"},
	{"angle, surer", byhand.SetAngle{SetAngle: construct.SetAngle{At: "A", Along: "B", Angle: 50 * unit.Degree, To: "C", Measured: true, Arm: geom.Line{To: geom.Point{X: 2000}}, Ray: geom.Line{To: geom.Point{X: 1285.6, Y: 1532.1}}}, Radius: 1000, Chord: 845.2}, "50° 845.2"},
	{"angle, by its chord", byhand.SetAngle{SetAngle: construct.SetAngle{At: "A", Along: "B", Angle: 50 * unit.Degree, To: "C", Measured: true}, By: byhand.ByChord, Radius: 500, Chord: 422.6}, "50° 500 422.6"},
	{"angle, by the rest", byhand.SetAngle{SetAngle: construct.SetAngle{At: "E", Along: "B", Angle: 130 * unit.Degree, To: "C", Measured: true}, By: byhand.ByChord, Rest: true, Beyond: "E", Radius: 200, Chord: 169.1}, "130° 200 169.1"},
	{"angle, on the square", byhand.SetAngle{SetAngle: construct.SetAngle{At: "D", Along: "B", To: "C", Measured: true}, By: byhand.OnSquare, Run: 400, Rise: 100}, "400 100"},
	{"angle, square", byhand.SetAngle{SetAngle: construct.SetAngle{At: "B", Along: "A", Angle: 90 * unit.Degree, To: "C", Measured: true}, By: byhand.RightAngle}, ""},
	{"half circle", byhand.HalfCircle{HalfCircle: construct.HalfCircle{Over: [2]geom.Name{"A", "B"}, Radius: 450, To: "C"}, Beam: true, First: true}, ""},
	{"half circle, crossing", byhand.HalfCircle{HalfCircle: construct.HalfCircle{Over: [2]geom.Name{"A", "B"}, Radius: 250, To: "C", Twice: true}, Meets: construct.Parallel{}, Nearer: true}, ""},
	{"mark on an arm", byhand.MarkOff{MarkOff: construct.MarkOff{From: "A", To: "C", Length: 700, Measured: true}, Arm: true}, "700"},
	{"mark on the baseline", byhand.MarkOff{MarkOff: construct.MarkOff{From: "A", To: "C", Length: 700.2}}, "700.2"},
	{"square at a corner", byhand.Erect{Erect: construct.Erect{From: "A", Toward: "B", Height: 200, To: "C", Measured: true}}, "200"},
	{"square at a foot", byhand.Erect{Erect: construct.Erect{From: "A", Toward: "B", Along: 51.3, Height: 85.9, To: "C"}}, "51.3 85.9"},
	{"square before the baseline", byhand.Erect{Erect: construct.Erect{From: "A", Toward: "B", Along: -320.4, Height: 554, To: "C", Measured: true}}, "320.4 554"},
	{"square behind the baseline", byhand.Erect{Erect: construct.Erect{From: "A", Toward: "B", Along: 1220.4, Height: 554, To: "C", Measured: true}, Past: true}, "1220.4 554"},
	{"parallel", construct.Parallel{Base: [2]geom.Name{"A", "B"}, Distance: 550, To: "C", Measured: true}, "550"},
	{"join", byhand.Join{Names: []string{"A", "C"}}, ""},
	{"join, last", byhand.Join{Names: []string{"B", "C"}, Last: true}, ""},
	{"join in order", byhand.Join{Names: []string{"B", "C", "D", "A"}, Last: true}, ""},
	{"check a side", construct.CheckSide{From: "B", To: "C", Length: 669.4}, "669.4"},
	{"check an angle", construct.CheckAngle{At: "B", Angle: 53.13 * unit.Degree}, "53.1°"},
	{"check an angle of a net", construct.CheckAngle{At: "B", Between: [2]geom.Name{"A", "D"}, Angle: 53.13 * unit.Degree}, "53.1°"},
	{"check a height", byhand.CheckHeight{CheckHeight: construct.CheckHeight{From: "C", Base: [2]geom.Name{"A", "B"}, Height: 536.2}}, "536.2"},
	{"check a height past an end", byhand.CheckHeight{CheckHeight: construct.CheckHeight{From: "C", Base: [2]geom.Name{"A", "B"}, Height: 536.2}, Beyond: [2]geom.Name{"B", "A"}}, "536.2"},
}

var voices = []struct {
	name string
	says byhand.Voice
}{{"class", byhand.Class}, {"bench", byhand.Bench}, {"floor", byhand.Floor}, {"ground", byhand.Ground}}

// Every kind of step is said in every voice: whole sentences with its figures, none in
// brackets. A figure that is not given is told behind the step, and never in it.
func TestEveryStepInEveryVoice(t *testing.T) {
	for _, v := range voices {
		for _, a := range acts {
			say := v.says.Act(piece(), a.act)
			if first := []rune(say)[0]; !unicode.IsUpper(first) || !strings.HasSuffix(say, ".") || strings.ContainsAny(say, "()[];") || strings.Contains(say, "  ") || strings.Contains(say, "%!") {
				t.Errorf("%s, %s: %q", v.name, a.what, say)
			}
			for _, f := range strings.Fields(a.figures) {
				if !strings.Contains(say, f) {
					t.Errorf("%s, %s: no %s in %q", v.name, a.what, f, say)
				}
			}
			if told := strings.Contains(say, "computed.") || strings.Contains(say, "worked out, not given."); told != computed(v.name, a.what) {
				t.Errorf("%s, %s: is a figure told as computed, %t: %q", v.name, a.what, told, say)
			}
		}
	}
}

// computed says of which acts a figure is not given. Ground sets off every angle by its chord.
func computed(voice, what string) bool {
	switch what {
	case "baseline, computed", "crossing, computed", "angle, turned over", "angle, surer", "angle, by its chord", "angle, by the rest",
		"mark on the baseline", "square at a foot", "square before the baseline", "square behind the baseline":
		return true
	case "angle, acute", "angle, obtuse":
		return voice == "ground"
	}
	return false
}

// A class is told the unit of each length, in the job's own.
func TestClassSaysTheUnit(t *testing.T) {
	h := piece()
	h.Figures.Unit = unit.CM
	for _, a := range acts {
		for _, f := range strings.Fields(a.figures) {
			if !strings.HasSuffix(f, "°") && !strings.Contains(byhand.Class.Act(h, a.act), " cm") {
				t.Errorf("%s: %s", a.what, byhand.Class.Act(h, a.act))
			}
		}
	}
}

// The words as a reader gets them; each was read and worked through on paper.
func TestStepsRead(t *testing.T) {
	var b strings.Builder
	for _, a := range acts {
		fmt.Fprintf(&b, "%s\n", a.what)
		for _, v := range voices {
			fmt.Fprintf(&b, "  %s: %s\n", v.name, v.says.Act(piece(), a.act))
		}
	}
	const file = "testdata/steps.txt"
	if *update {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	got, old := strings.Split(b.String(), "\n"), strings.Split(string(want), "\n")
	for i, l := range got {
		if i >= len(old) || l != old[i] {
			t.Fatalf("%s:%d: %s", file, i+1, l)
		}
	}
	if len(got) != len(old) {
		t.Errorf("%d lines, %d wanted", len(got), len(old))
	}
}
