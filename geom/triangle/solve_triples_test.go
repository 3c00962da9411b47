package triangle

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

var quantityNames = [9]string{"BC", "CA", "AB", "BAC", "CBA", "ACB", "A-BC", "B-CA", "C-AB"}

// The seven triples of which one follows from the other two: the angles add up
// to 180°, and h(C) = CA·sin A, and so on round.
var dependentTriples = [][3]string{
	{"BAC", "CBA", "ACB"},
	{"CA", "BAC", "C-AB"}, {"AB", "BAC", "B-CA"},
	{"AB", "CBA", "A-BC"}, {"BC", "CBA", "C-AB"},
	{"BC", "ACB", "B-CA"}, {"CA", "ACB", "A-BC"},
}

// tokensOf writes quantities of the triangle with these sides to 40 digits.
func tokensOf(s sides, which ...Quantity) string {
	f := figuresOf(s)
	text := ""
	for _, q := range which {
		switch i := q.Corner(); q.Kind() {
		case Distance:
			text += fmt.Sprintf("%s=%s ", quantityNames[q], s[i].float().Text('f', 40))
		case Height:
			text += fmt.Sprintf("%s=%s ", quantityNames[q], f.heights[i].float().Text('f', 40))
		default:
			d := blank().Mul(f.angles[i], blank().SetInt64(180))
			d.Quo(d, radians(straight))
			text += fmt.Sprintf("%s=%sdeg ", quantityNames[q], d.Text('f', 40))
		}
	}
	return text
}

// randomSides of a triangle of ordinary shape, 10 to 10 000 mm.
func randomSides(r *rand.Rand) sides {
	for {
		p := plain{}
		size := math.Pow(10, 1+3*r.Float64())
		for i := range p {
			p[i] = math.Round(size*(0.1+r.Float64())*1000) / 1000
		}
		a, b, c := p.ordered()
		if c >= 1 && b+c > 1.02*a {
			return p.exact()
		}
	}
}

// Each of the 84 triples of a random triangle gives the triangle back, or is one
// of the seven that cannot.
func TestEveryTriple(t *testing.T) {
	r := rand.New(rand.NewPCG(84, 1))
	for range everyTriples {
		s := randomSides(r)
		want := figuresOf(s).triangle([3]geom.Name{"A", "B", "C"}, 2)
		count, determined := 0, 0
		for i := range Quantity(9) {
			for j := range i {
				for k := range j {
					count++
					names := [3]string{quantityNames[k], quantityNames[j], quantityNames[i]}
					text := tokensOf(s, k, j, i)
					sol, err := Solve(measure(t, text), [2]geom.Name{"A", "B"})
					if slices.Contains(dependentTriples, names) {
						var none *NoTriangle
						if !errors.As(err, &none) || none.Hint == "" {
							t.Errorf("%s: %v, want to be told what is missing", text, err)
						}
						continue
					}
					determined++
					if err != nil {
						t.Errorf("%s: %v", text, err)
						continue
					}
					if len(sol.Answers) > 2 || !slices.ContainsFunc(sol.Answers, func(a Answer) bool { return alike(a.Triangle, want, 1e-12) }) {
						t.Errorf("%s: %v, want %v", text, sol.Answers, want)
					}
					for _, a := range sol.Answers {
						checkResiduals(t, text, a, 1e-15)
					}
				}
			}
		}
		if count != 84 || determined != 77 {
			t.Fatalf("%d triples, %d determine: want 84 and 77", count, determined)
		}
	}
}

// alike compares sides and angles, relative.
func alike(a, b Triangle, most float64) bool {
	for i := range 3 {
		if a.Names[i] != b.Names[i] || relative(a.Sides[i].MM(), b.Sides[i].MM()) > most ||
			relative(a.Angles[i].Radians(), b.Angles[i].Radians()) > most {
			return false
		}
	}
	return true
}

// checkResiduals: each answer has what was measured, as a share of its perimeter
// or of half a turn.
func checkResiduals(t testing.TB, text string, a Answer, most float64) {
	t.Helper()
	for i, r := range a.Residuals {
		if off := max(math.Abs(float64(r.Length/a.Triangle.Perimeter)), math.Abs(float64(r.Angle/(unit.Turn/2)))); !(off <= most) {
			t.Errorf("%s: measurement %d is off by %.3g", text, i+1, off)
		}
	}
}

// The letters of the case: side, angle, height in this order where there is a
// height, else round the triangle.
func TestCaseLetters(t *testing.T) {
	for text, want := range map[string]string{
		"AB=3 BC=4 CA=5":           "SSS",
		"AB=30 BC=40 B=80deg":      "SAS",
		"AB=30 B=80deg A=30deg":    "ASA",
		"AB=30 C=80deg A=30deg":    "AAS",
		"AB=30 BC=40 A=80deg":      "SSA",
		"AB=30 BC=40 C-AB=20":      "SSH",
		"C-AB=20 AB=30 A=80deg":    "SAH",
		"C-AB=20 A-BC=18 AB=30":    "SHH",
		"C-AB=20 A=18deg B=30deg":  "AAH",
		"C-AB=20 A-BC=18 B=30deg":  "AHH",
		"C-AB=20 A-BC=18 B-CA=30":  "HHH",
		"C=90deg AB=5 CA=3":        "SSA",
		"AB=3 BC=4 CA=5 B=90deg":   "SSS",
		"AB=3 BC=4 C-AB=4 B=90deg": "SAS",
	} {
		if got := solved(t, text).Case; got != want {
			t.Errorf("%s is %s, want %s", text, got, want)
		}
	}
}
