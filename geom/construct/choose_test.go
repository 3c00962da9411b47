package construct

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/unit"
)

// kinds of what is given, in a triangle's own letters: abc the sides opposite A, B and C,
// ABC the angles, xyz the heights from A, B and C. Those that give all are set without
// anything computed; for the others no baseline does, which TestKindsThatComputeHaveTo
// proves.
var kinds = []struct {
	name, given string
	all         bool
}{
	{"three sides", "abc", true},
	{"two sides and the angle between", "bcA", true},
	{"a side and the angles at its ends", "cAB", true},
	{"two angles and a side opposite one", "cAC", true},
	{"two sides and an angle opposite one", "caA", true},
	{"right angle, longest side and another", "cbR", true},
	{"right angle, longest side and an angle", "cAR", true},
	{"right angle, longest side and the height over it", "czR", true},
	{"two equal sides and the base", "abI", true},
	{"base, height over it and a side", "czb", true},
	{"base, height over it and an angle at its end", "czA", true},
	{"two sides and the height over the third", "abz", false},
	{"a side, the height over it and the angle opposite", "czC", false},
	{"a side, an angle at it and the height over another", "cAx", false},
	{"a side, the angle opposite and the height over another", "cCx", false},
	{"a side and two heights, one over it", "cxz", false},
	{"a side and two heights, none over it", "cxy", false},
	{"two angles and a height", "ABz", false},
	{"an angle and two heights", "Ayz", false},
	{"an angle and two heights, one from it", "Axy", false},
	{"three heights", "xyz", false},
}

// triangleOf a kind: its sides by a law of cosines of their own, R square at C, I with
// two sides equal.
func ofKind(r *rand.Rand, given string) (v map[byte]float64) {
	for {
		a, b, c := 30+90*r.Float64(), 30+90*r.Float64(), 30+90*r.Float64()
		switch {
		case strings.Contains(given, "R"):
			c = math.Hypot(a, b)
		case strings.Contains(given, "I"):
			b = a
		}
		if a+b < 1.1*c || b+c < 1.1*a || c+a < 1.1*b {
			continue
		}
		angle := func(a, b, c float64) float64 { return math.Acos((b*b+c*c-a*a)/(2*b*c)) * 180 / math.Pi }
		v = map[byte]float64{'a': a, 'b': b, 'c': c, 'A': angle(a, b, c), 'B': angle(b, c, a), 'C': angle(c, a, b), 'R': 90}
		v['x'], v['y'], v['z'] = b*math.Sin(v['C']*math.Pi/180), c*math.Sin(v['A']*math.Pi/180), a*math.Sin(v['B']*math.Pi/180)
		return v
	}
}

// tokens of a kind with the corners named by a permutation.
func tokens(v map[byte]float64, given string, names [3]string) (all []string, figures []float64) {
	for i := range 3 {
		if strings.IndexByte(given, "abc"[i]) >= 0 {
			all = append(all, fmt.Sprintf("%s%s=%.17f", names[(i+1)%3], names[(i+2)%3], v["abc"[i]]))
			figures = append(figures, v["abc"[i]])
		}
		if strings.IndexByte(given, "ABC"[i]) >= 0 || i == 2 && strings.Contains(given, "R") {
			x := v["ABC"[i]]
			if strings.Contains(given, "R") && i == 2 {
				x = 90
			}
			all = append(all, fmt.Sprintf("%s=%.17fdeg", names[i], x))
			figures = append(figures, x)
		}
		if strings.IndexByte(given, "xyz"[i]) >= 0 {
			all = append(all, fmt.Sprintf("%s-%s%s=%.17f", names[i], names[(i+1)%3], names[(i+2)%3], v["xyz"[i]]))
			figures = append(figures, v["xyz"[i]])
		}
	}
	if strings.Contains(given, "I") {
		all = append(all, fmt.Sprintf("%s%s=%.17f", names[0], names[1], v['c']))
		figures = append(figures, v['c'])
	}
	return all, figures
}

// setBy are the figures that a hand sets, in mm and degrees, those of third angles left
// out where the two others were given.
func setBy(t *testing.T, c Construction, given []float64) (all []float64) {
	thirds := map[geom.Name]bool{}
	for _, s := range c.Steps {
		switch s := s.(type) {
		case ThirdAngle:
			thirds[s.At] = true
			for _, known := range s.Known {
				if !among(known.Degrees(), given) {
					t.Errorf("%v is taken from 180° and was not given: %v", known.Degrees(), given)
				}
			}
		case DrawBase:
			all = append(all, s.Length.MM())
		case Swing:
			all = append(all, s.Radius.MM())
		case SetAngle:
			if !thirds[s.At] {
				all = append(all, s.Angle.Degrees())
			}
		case MarkOff:
			all = append(all, s.Length.MM())
		case Parallel:
			all = append(all, s.Distance.MM())
		case Erect:
			all = append(all, s.Height.MM())
			if math.Abs(s.Along.MM()) > 1e-9 {
				all = append(all, s.Along.MM())
			}
		}
	}
	return all
}

func among(x float64, all []float64) bool {
	return slices.ContainsFunc(all, func(y float64) bool { return math.Abs(x-y) < 1e-8*max(1, math.Abs(y)) })
}

// Of every kind, whatever the letters: a hand that sets only what was given and works out
// no more than the third angle, and comes to the triangle all the same.
func TestChosenWayUsesWhatWasGiven(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 3))
	for _, k := range kinds {
		computes := 0
		n := gate.Of(20, 2000)
		for range n {
			v := ofKind(r, k.given)
			corners := [3]string{"A", "B", "C"}
			r.Shuffle(3, func(i, j int) { corners[i], corners[j] = corners[j], corners[i] })
			text, figures := tokens(v, k.given, corners)
			s := solved(t, strings.Join(text, " "))
			for answer, a := range s.Answers {
				c, err := Choose(s, answer, Hand{})
				if err != nil {
					t.Fatal(err)
				}
				rebuilt(t, fmt.Sprint(k.name, text), c, a.Triangle)
				all := true
				for _, x := range setBy(t, c, figures) {
					all = all && among(x, figures)
				}
				for _, marked := range []string{"(DrawBase", "(Swing", "(MarkOff", "(Parallel"} {
					// A computed figure may by chance be one of the given, such as a height of a corner of 90.01°.
					all = all && !(strings.Contains(sequence(c), marked) && !k.all)
				}
				if !all {
					computes++
				}
				tooFlat := c.Why.Reason == TooFlatly
				if !all && k.all && !tooFlat {
					t.Errorf("%s, %v: %v sets more than was given: %s", k.name, text, c.Why, sequence(c))
				}
				if !k.all && all && !strings.Contains(sequence(c), "Erect") {
					t.Errorf("%s, %v: nothing is computed, and it has to be: %s", k.name, text, sequence(c))
				}
				if said := c.Why.Reason == SomeWorked || tooFlat; said == all {
					t.Errorf("%s, %v: all given: %v, said: %v", k.name, text, all, c.Why)
				}
			}
		}
		t.Logf("%s: %d of %d compute something", k.name, computes, n)
	}
}

// For the kinds that compute, no baseline does without: over a given side the apex would
// have to lie on two lines, each drawn by one stroke from one given figure. These are the
// arc of a side, the arm of an angle at an end, the parallel at the height over that side
// and, where the angle over it is right, the half circle. A height over another side, or
// another angle opposite, gives none of them.
func TestKindsThatComputeHaveTo(t *testing.T) {
	strokes := [3]string{"bcBCx", "caCAy", "abABz"}
	for _, k := range kinds {
		given := strings.ReplaceAll(k.given, "I", "c")
		known := given
		if n := strings.Count(given, "A") + strings.Count(given, "B") + strings.Count(given, "C") + strings.Count(given, "R"); n >= 2 {
			known += "ABC"
		}
		possible := false
		for i, side := range "abc" {
			lines := 0
			for _, stroke := range strokes[i] {
				lines += bit(strings.ContainsRune(known, stroke))
			}
			lines += bit(i == 2 && strings.Contains(known, "R")) + bit(i < 2 && strings.Contains(known, "R") && !strings.Contains(known, "C"))
			possible = possible || strings.ContainsRune(given, side) && lines >= 2
		}
		if possible != k.all {
			t.Errorf("%s: possible %v, said %v", k.name, possible, k.all)
		}
	}
}

// Which baseline, by which way and why, of cases that were thought through at the bench:
// common practice, no source.
func TestChosenBase(t *testing.T) {
	for _, c := range []struct {
		given  string
		hand   Hand
		base   string
		way    string // begins with
		reason Reason
	}{
		{"AC=100 C=35deg AB=70", Hand{}, "CA", "DrawBase C A, SetAngle C, Swing A B", AllGiven},
		{"AB=600 BC=500 CA=450", Hand{}, "AB", "DrawBase A B, Swing A C, Swing B C", Usual},
		{"AB=100 C=90deg CA=60", Hand{}, "CA", "DrawBase C A, SetAngle C, Swing A B", SetSquare},
		{"AB=160 C=90deg CA=90", Hand{Reach: 120}, "AB", "DrawBase A B, HalfCircle C, Swing A C", WithinReach},
		{"AB=100 C=90deg A=40deg", Hand{}, "AB", "DrawBase A B, SetAngle A, HalfCircle C", Usual},
		{"AB=90 BC=160 CA=100", Hand{Reach: 120}, "BC", "DrawBase B C, Swing B A, Swing C A", WithinReach},
		{"AB=90 BC=160 CA=100", Hand{}, "AB", "DrawBase A B, Swing A C, Swing B C", Usual},
		{"AB=20 BC=95 CA=100", Hand{}, "CA", "DrawBase C A, Swing C B, Swing A B", Sharper},
		{"AC=100 B-CA=60 AB=70", Hand{}, "CA", "DrawBase C A, Parallel B, Swing A B", AllGiven},
		{"AB=150 BC=120 A=40deg", Hand{OnBase: true}, "AB", "DrawBase A B, SetAngle A, Swing B C", Usual},
		{"AB=90 BC=80 C-AB=50", Hand{}, "AB", "DrawBase A B, Parallel C, Swing B C", Usual},
		{"BC=90 CA=80 C-AB=50", Hand{}, "BC", "DrawBase B C, (Swing B A), Swing C A", SomeWorked},
		{"A-BC=50 B-CA=60 C-AB=70", Hand{}, "AB", "(DrawBase A B), ", SomeWorked},
		{"AB=20 A=30deg BC=10", Hand{}, "AB", "DrawBase A B, SetAngle A, Swing B C", Usual},
		{"AB=20 A=30deg BC=10.02", Hand{}, "AB", "DrawBase A B, (Swing A C), Swing B C", TooFlatly},
		{"AB=300 C=90deg A=40deg", Hand{Reach: 120}, "AB", "ThirdAngle B, DrawBase A B, SetAngle A, (SetAngle B)", WithinReach},
		{"AB=100 C=90deg A=35.5deg", Hand{Protractor: unit.Degree}, "AB", "DrawBase A B, SetAngle A, HalfCircle C", Usual},
	} {
		k, err := Choose(solved(t, c.given), 0, c.hand)
		if err != nil {
			t.Fatal(err)
		}
		b, _ := k.Base()
		if got := string(b.From + b.To); got != c.base || !strings.HasPrefix(sequence(k), c.way) || k.Why.Reason != c.reason {
			t.Errorf("%s %+v: on %s, %s, reason %d", c.given, c.hand, got, sequence(k), k.Why.Reason)
		}
	}
}

// The job's own base stays, and says which would have spared the computed figure.
func TestAskedBaseStays(t *testing.T) {
	s := solved(t, "AC=100 C=35deg AB=70", "A", "B")
	c, err := Choose(s, 0, Hand{OnBase: true})
	b, _ := c.Base()
	if err != nil || b.From+b.To != "AB" || c.Why != (Why{Reason: OnAskedBase, Better: [2]geom.Name{"C", "A"}}) {
		t.Errorf("%+v, %v, %v", c.Why, b, err)
	}
}

// A mirror image is made on the same side.
func TestOtherHandHasTheSameBase(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for _, k := range kinds {
		for range gate.Of(5, 20) {
			text, _ := tokens(ofKind(r, k.given), k.given, [3]string{"B", "A", "C"})
			s := solved(t, strings.Join(text, " "))
			for i := range s.Answers {
				one, _ := Choose(s, i, Hand{Reach: 80})
				m := s
				m.Answers = slices.Clone(s.Answers)
				tri := &m.Answers[i].Triangle
				for _, p := range []*[3]unit.Length{&tri.Sides, &tri.Heights} {
					p[0], p[1] = p[1], p[0]
				}
				tri.Names[0], tri.Names[1] = tri.Names[1], tri.Names[0]
				tri.Angles[0], tri.Angles[1] = tri.Angles[1], tri.Angles[0]
				tri.Points[2].X = tri.Points[1].X - tri.Points[2].X
				other, err := Choose(m, i, Hand{Reach: 80})
				a, _ := one.Base()
				b, _ := other.Base()
				if err != nil || a.From != b.To || a.To != b.From || one.Why.Reason != other.Why.Reason {
					t.Errorf("%s %v: %s%s and %s%s, %v", k.name, text, a.From, a.To, b.From, b.To, err)
				}
			}
		}
	}
}

// Every place in a step is led along with it.
func TestStepsMoveWhole(t *testing.T) {
	far := func(p geom.Point) geom.Point { return p.Plus(geom.Point{X: 1000}) }
	var count func(v reflect.Value) int
	count = func(v reflect.Value) (n int) {
		if p, ok := v.Interface().(geom.Point); ok {
			return bit(p.X >= 1000)
		}
		if v.Kind() == reflect.Struct {
			for i := range v.NumField() {
				n += count(v.Field(i))
			}
		}
		return n
	}
	points := map[string]int{"DrawBase": 2, "Swing": 3, "SetAngle": 4, "MarkOff": 2, "Erect": 2, "Parallel": 2, "HalfCircle": 3, "Join": 2}
	for _, s := range StepTypes() {
		switch k := s.(type) {
		case Swing:
			k.Twice = true
			s = k
		case HalfCircle:
			k.Twice = true
			s = k
		}
		name := reflect.TypeOf(s).Name()
		if got := count(reflect.ValueOf(moved(s, far))); got != points[name] {
			t.Errorf("%s: %d places moved, want %d", name, got, points[name])
		}
	}
}
