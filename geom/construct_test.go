package geom

import (
	"errors"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"trammel/geom/unit"
)

// Every triple that determines, by every method and on every baseline: followed
// by a geometry that is not ours, the steps lead to the triangle, refer to what
// is there, and set each measured value as such.
func TestConstructEveryTriple(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	kinds := map[string]bool{}
	for range 6 {
		s := randomSides(r)
		for i := range quantity(9) {
			for j := range i {
				for k := range j {
					triple := tripleOf(k, j, i)
					if !triple.determines() {
						continue
					}
					text := tokensOf(s, k, j, i)
					for _, base := range [][2]Name{{}, {"A", "B"}, {"B", "C"}, {"C", "A"}} {
						sol, err := Solve(measure(t, text), base)
						if err != nil {
							t.Fatalf("%s: %v", text, err)
						}
						for answer := range sol.Answers {
							for _, by := range []Method{AsMeasured, ByArcs, ByAngle, BySquare} {
								c, err := Construct(sol, answer, by)
								if err != nil {
									t.Fatalf("%s: %v", text, err)
								}
								followAll(t, text+string(base[0]+base[1]), c)
								for _, step := range c.Steps {
									kinds[strings.TrimPrefix(typeName(step), "geom.")] = true
								}
							}
						}
					}
				}
			}
		}
	}
	for _, step := range StepTypes() {
		if !kinds[strings.TrimPrefix(typeName(step), "geom.")] {
			t.Errorf("no construction has a %T", step)
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
			"DrawBase A B, SetAngle A, Swing B C, Join B C, CheckSide C A, CheckAngle C, CheckHeight C"},
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
