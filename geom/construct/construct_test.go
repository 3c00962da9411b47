package construct

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// solved reads the measurements and solves them.
func solved(t testing.TB, text string, base ...geom.Name) triangle.Solution {
	t.Helper()
	var ms []triangle.Measurement
	for _, token := range strings.Fields(text) {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		ms = append(ms, m)
	}
	var b [2]geom.Name
	copy(b[:], base)
	s, err := triangle.Solve(ms, b)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return s
}

// The seven triples of which one follows from the other two: the angles add up
// to 180°, and h(C) = CA·sin A, and so on round.
var dependentTriples = [][3]string{
	{"BAC", "CBA", "ACB"},
	{"CA", "BAC", "C-AB"}, {"AB", "BAC", "B-CA"},
	{"AB", "CBA", "A-BC"}, {"BC", "CBA", "C-AB"},
	{"BC", "ACB", "B-CA"}, {"CA", "ACB", "A-BC"},
}

// randomTriangle of ordinary shape, 10 to 10 000 mm.
func randomTriangle(t testing.TB, r *rand.Rand) triangle.Triangle {
	size := math.Pow(10, 1+3*r.Float64())
	length := func() float64 { return size * (0.1 + r.Float64()) }
	for {
		a, b, c := length(), length(), length()
		if a+b > 1.02*c && b+c > 1.02*a && c+a > 1.02*b && min(a, b, c) >= 1 {
			return solved(t, fmt.Sprintf("AB=%.4f BC=%.4f CA=%.4f", c, a, b)).Answers[0].Triangle
		}
	}
}

// Every triple that determines, by every method and on every baseline: followed
// by a geometry that is not ours, the steps lead to the triangle, refer to what
// is there, and set each measured value as such.
func TestConstructEveryTriple(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	kinds := map[string]bool{}
	names := [9]string{"BC", "CA", "AB", "BAC", "CBA", "ACB", "A-BC", "B-CA", "C-AB"}
	for range gate.Of(2, 6) {
		tri := randomTriangle(t, r)
		token := func(q int) string {
			switch i := q % 3; q / 3 {
			case 0:
				return fmt.Sprintf("%s=%.20f", names[q], tri.Sides[i].MM())
			case 1:
				return fmt.Sprintf("%s=%.20fdeg", names[q], tri.Angles[i].Degrees())
			default:
				return fmt.Sprintf("%s=%.20f", names[q], tri.Heights[i].MM())
			}
		}
		for i := range 9 {
			for j := range i {
				for k := range j {
					if slices.Contains(dependentTriples, [3]string{names[k], names[j], names[i]}) {
						continue
					}
					everyWay(t, token(k)+" "+token(j)+" "+token(i), kinds)
				}
			}
		}
	}
	for _, right := range []string{"AB=500 C=90deg CA=300", "AB=500 C=90deg A=35deg", "AB=500 C=90deg C-AB=200", "AB=500 C=90deg BC=300", "AB=500 C=90deg C-AB=250"} {
		everyWay(t, right, kinds)
	}
	for _, step := range StepTypes() {
		if !kinds[typeName(step)] {
			t.Errorf("no construction has a %T", step)
		}
	}
}

// everyWay follows the construction of the measurements by every method and on every
// baseline, and notes the kinds of its steps.
func everyWay(t *testing.T, text string, kinds map[string]bool) {
	t.Helper()
	for _, base := range [][]geom.Name{nil, {"A", "B"}, {"B", "C"}, {"C", "A"}} {
		s := solved(t, text, base...)
		for answer := range s.Answers {
			for _, by := range []Method{AsMeasured, ByArcs, ByAngle, BySquare} {
				c, err := Construct(s, answer, by)
				if err != nil {
					t.Fatalf("%s: %v", text, err)
				}
				followAll(t, fmt.Sprint(text, base), c)
				for _, step := range c.Steps {
					kinds[typeName(step)] = true
				}
			}
		}
	}
}

func typeName(s Step) string { return reflect.TypeOf(s).String() }

// sequence is the kinds of the steps, those with computed values in brackets.
func sequence(c Construction) string {
	var words []string
	for _, s := range c.Steps {
		v := reflect.ValueOf(s)
		w := v.Type().Name()
		if f := v.FieldByName("At"); f.IsValid() {
			w += " " + f.String()
		}
		for _, end := range []string{"Centre", "From", "To"} {
			if f := v.FieldByName(end); f.IsValid() && !(end == "To" && w == "SetAngle "+v.FieldByName("At").String()) {
				w += " " + f.String()
			}
		}
		if f := v.FieldByName("Measured"); f.IsValid() && !f.Bool() {
			w = "(" + w + ")"
		}
		words = append(words, w)
	}
	return strings.Join(words, ", ")
}

// The steps of each case as they are done at the bench and in school (common
// practice, no source).
func TestConstructAsMeasured(t *testing.T) {
	for _, c := range []struct {
		given string
		by    Method
		want  string
	}{
		{"AB=600 BC=500 CA=450", AsMeasured,
			"DrawBase A B, Swing A C, Swing B C, Join A C, Join B C, CheckAngle C, CheckHeight C"},
		{"AB=600 CA=450 A=52deg", AsMeasured,
			"DrawBase A B, SetAngle A, MarkOff A C, Join B C, CheckSide B C, CheckAngle C, CheckHeight C"},
		{"AB=600 BC=450 B=52deg", AsMeasured,
			"DrawBase A B, SetAngle B, MarkOff B C, Join A C, CheckSide C A, CheckAngle C, CheckHeight C"},
		{"AB=600 CA=450 A=90deg", AsMeasured,
			"DrawBase A B, Erect A C, Join B C, CheckSide B C, CheckAngle C"},
		{"AB=600 BC=750 A=90deg", AsMeasured,
			"DrawBase A B, SetAngle A, Swing B C, Join B C, CheckSide C A, CheckAngle C"},
		{"AB=600 A=52deg B=61deg", AsMeasured,
			"DrawBase A B, SetAngle A, SetAngle B, Join A C, Join B C, CheckSide B C, CheckSide C A, CheckAngle C, CheckHeight C"},
		{"AB=600 A=52deg C=61deg", AsMeasured,
			"ThirdAngle B, DrawBase A B, SetAngle A, (SetAngle B), Join A C, Join B C, CheckSide B C, CheckSide C A, CheckAngle C, CheckHeight C"},
		{"AB=800 BC=600 A=35deg", AsMeasured,
			"DrawBase A B, SetAngle A, Swing B C, Join B C, CheckSide C A, CheckAngle C, CheckHeight C"},
		{"AB=800 CA=600 B=35deg", AsMeasured,
			"DrawBase A B, SetAngle B, Swing A C, Join A C, CheckSide B C, CheckAngle C, CheckHeight C"},
		{"AB=800 CA=600 C-AB=350", AsMeasured,
			"DrawBase A B, Parallel C, Swing A C, Join A C, Join B C, CheckSide B C, CheckAngle C"},
		{"AB=800 A=35deg C-AB=350", AsMeasured,
			"DrawBase A B, Parallel C, SetAngle A, Join A C, Join B C, CheckSide B C, CheckSide C A, CheckAngle C"},
		{"AB=800 C=35deg C-AB=350", AsMeasured,
			"DrawBase A B, Erect B C, Join A C, Join B C, CheckSide B C, CheckSide C A, CheckAngle C"},
		{"A-BC=100 B-CA=120 C-AB=150", AsMeasured,
			"(DrawBase A B), Erect A C, Join A C, Join B C, CheckSide B C, CheckSide C A, CheckAngle C, CheckHeight A, CheckHeight B"},
		{"AB=600 BC=500 CA=450 A=54.6deg", AsMeasured,
			"DrawBase A B, Swing A C, Swing B C, Join A C, Join B C, CheckAngle A, CheckHeight C"},
		{"AB=600 CA=450 A=52deg", ByArcs,
			"DrawBase A B, Swing A C, (Swing B C), Join A C, Join B C, CheckAngle A, CheckHeight C"},
		{"AB=600 BC=500 CA=450", ByAngle,
			"DrawBase A B, (SetAngle A), MarkOff A C, Join B C, CheckSide B C, CheckAngle C, CheckHeight C"},
		{"AB=600 BC=500 B=60deg", ByAngle,
			"DrawBase A B, SetAngle B, MarkOff B C, Join A C, CheckSide C A, CheckAngle C, CheckHeight C"},
		{"AB=600 BC=500 CA=450", BySquare,
			"DrawBase A B, (Erect A C), Join A C, Join B C, CheckSide B C, CheckSide C A, CheckAngle C"},
	} {
		con, err := Construct(solved(t, c.given), 0, c.by)
		if err != nil {
			t.Fatal(err)
		}
		followAll(t, c.given, con)
		if got := sequence(con); got != c.want {
			t.Errorf("%s, method %d:\n  %s, want\n  %s", c.given, c.by, got, c.want)
		}
	}
}

// Both crossings of the arc are said, and they are the two answers.
func TestConstructTwoAnswers(t *testing.T) {
	for _, given := range []string{"AB=8 BC=6 A=35deg", "AB=800 CA=600 C-AB=350"} {
		s := solved(t, given)
		for i := range 2 {
			c, err := Construct(s, i, AsMeasured)
			if err != nil {
				t.Fatal(err)
			}
			other := s.Answers[1-i].Triangle.Points[2]
			j := slices.IndexFunc(c.Steps, func(s Step) bool { w, ok := s.(Swing); return ok && w.Twice && w.Other.Distance(other) < 1e-9 })
			if j < 0 {
				t.Errorf("%s, answer %d: %+v does not say that the arc also crosses at %v", given, i+1, c.Steps, other)
			}
		}
	}
}

func TestConstructRefuses(t *testing.T) {
	s := solved(t, "AB=3 BC=4 CA=5")
	for _, c := range []struct {
		answer int
		by     Method
	}{{-1, ByArcs}, {1, ByArcs}, {0, BySquare + 1}} {
		_, err := Construct(s, c.answer, c.by)
		var f *unit.Fault
		if !errors.As(err, &f) {
			t.Errorf("answer %d, method %d: %v, want a fault", c.answer, c.by, err)
		}
	}
}
