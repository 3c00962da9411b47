package task

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// The rules once more, by code that shares nothing with the generator's: corners as complex
// numbers, sides and angles from them, what each kind gives read from the task's own tokens.

// corners of a task as it was given, by intersecting what is given; two where two fit.
func corners(t Task) (c float64, all []complex128) {
	g := func(i int) float64 { return float64(t.Given[i]) }
	c = g(0)
	turn := func(deg float64) complex128 { return cmplx.Rect(1, deg*math.Pi/180) }
	switch t.Kind {
	case SSS, ISO:
		a, b := g(1), g(2)
		cosA := (b*b + c*c - a*a) / (2 * b * c)
		return c, []complex128{cmplx.Rect(b, math.Acos(cosA))}
	case SAS, SASO, LEGS:
		return c, []complex128{complex(g(2), 0) * turn(g(1))}
	case ASA, AAS:
		at := g(2)
		if t.Kind == AAS {
			at = 180 - g(1) - g(2)
		}
		b := c * math.Sin(at*math.Pi/180) / math.Sin((g(1)+at)*math.Pi/180)
		return c, []complex128{complex(b, 0) * turn(g(1))}
	case BHA:
		return c, []complex128{complex(g(2)/math.Sin(g(1)*math.Pi/180), 0) * turn(g(1))}
	case BHS:
		return c, []complex128{cmplx.Rect(g(2), math.Asin(g(1)/g(2)))}
	}
	// b² − 2bc·cos A + c² − a² = 0
	p, q := 2*c*math.Cos(g(1)*math.Pi/180), c*c-g(2)*g(2)
	if d := p*p/4 - q; d >= 0 {
		for _, b := range []float64{p/2 + math.Sqrt(d), p/2 - math.Sqrt(d)} {
			if b > 0 {
				all = append(all, complex(b, 0)*turn(g(1)))
			}
		}
	}
	return c, all
}

// kept says what a task breaks, in words; empty: nothing.
func kept(t Task) string {
	c, all := corners(t)
	want := map[Kind]int{SSA2: 2, SSA0: 0}
	n, said := want[t.Kind]
	if !said {
		n = 1
	}
	if len(all) != n {
		return fmt.Sprintf("%d triangles fit", len(all))
	}
	var lengths, angles []float64
	for i, q := range t.Kind.Given() {
		if q.IsAngle() {
			angles = append(angles, float64(t.Given[i]))
		} else {
			lengths = append(lengths, float64(t.Given[i]))
		}
	}
	const eps = 1e-9
	for i, p := range all {
		a, b := cmplx.Abs(p-complex(c, 0)), cmplx.Abs(p)
		atA, atB := cmplx.Phase(p)*180/math.Pi, math.Abs(cmplx.Phase(complex(c, 0)-p))*180/math.Pi
		atC := 180 - atA - atB
		least := map[bool]float64{true: 20, false: 25}[t.Kind == SSA2]
		most := 140.0
		if i == 1 {
			least, most = 12, 150
		}
		for _, x := range []float64{atA, atB, atC} {
			if x < least-eps || x > most+eps {
				return fmt.Sprintf("an angle of %.1f°", x)
			}
		}
		if h := imag(p); h > 115+eps || real(p) < -40-eps || math.Max(c, real(p))-math.Min(0, real(p)) > 150+eps {
			return "no room"
		}
		var values []float64
		var isAngle []bool
		for _, q := range t.Kind.Boxes() {
			v := map[Quantity]float64{BC: a, CA: b, A: atA, B: atB, C: atC, Height: imag(p), CA2: math.NaN()}[q]
			if q == CA2 {
				v = cmplx.Abs(all[1])
			}
			values, isAngle = append(values, v), append(isAngle, q.IsAngle())
		}
		if i == 0 {
			if say := answered(t, values, isAngle, lengths, angles); say != "" {
				return say
			}
		}
	}
	return ""
}

func answered(t Task, values []float64, isAngle []bool, lengths, angles []float64) string {
	const eps = 1e-9
	for i, v := range values {
		given := lengths
		switch {
		case isAngle[i]:
			given = angles
			if v < 20-eps || v > 150+eps || v > 80+eps && v < 100-eps {
				return fmt.Sprintf("an answer of %.1f°", v)
			}
		case v < 25-eps || v > 140+eps || v < 30-eps && !(t.Kind == SSA2 && i == 1):
			return fmt.Sprintf("an answer of %.1f mm", v)
		}
		for _, g := range given {
			if math.Abs(g-v) < 4-eps {
				return fmt.Sprintf("the answer %.1f near the given %g", v, g)
			}
		}
	}
	if len(values) == 2 && isAngle[0] == isAngle[1] {
		apart := 5.0
		if t.Kind == SSA2 {
			apart = 20
		}
		if math.Abs(values[0]-values[1]) < apart-eps {
			return "two answers alike"
		}
	}
	return ""
}

// Seeds by the hundred, 30 pupils with 8 tasks each: none fails, no task comes twice, each keeps
// the rules, neighbours have other first answers, and the numbers are of the level.
func TestSetsKeepAllRules(t *testing.T) {
	for l, seeds := range map[Level]int{Centimetres: gate.Of(15, 1000), Fives: gate.Of(15, 1000), Ones: gate.Of(1, 100)} {
		for seed := range seeds {
			c := class(seed, l)
			set, err := c.Draw()
			if err != nil {
				t.Fatalf("level %d, seed %d: %v", l, seed, err)
			}
			seen := map[Task]bool{}
			first := make([][]float64, len(set))
			for i, tasks := range set {
				for n, d := range tasks {
					if seen[d.Task] {
						t.Fatalf("seed %d: %v comes twice", seed, d)
					}
					seen[d.Task] = true
					if say := kept(d.Task); say != "" {
						t.Errorf("seed %d, %s %v: %s", seed, d.Kind, d.Given, say)
					}
					for k, q := range d.Kind.Given() {
						x := d.Given[k]
						odd := l == Ones && x%5 == 0 && x != 90 && q != Height
						even := l < Ones && x%5 != 0 && !(d.Kind == SSA2 && q == A)
						if odd || even {
							t.Errorf("seed %d, level %d: %s %v", seed, l, d.Kind, d.Given)
						}
					}
					first[i] = append(first[i], d.Measured(Maths)[0].Value)
					for j := range i {
						row, seat := i/6-j/6, i%6-j%6
						if row == 0 && seat == 1 || row == 1 && seat >= -1 && seat <= 1 {
							if math.Abs(first[i][n]-first[j][n]) < 4 {
								t.Errorf("seed %d, task %d: neighbours %d and %d have %.1f and %.1f", seed, n+1, j+1, i+1, first[j][n], first[i][n])
							}
						}
					}
				}
			}
		}
	}
}

// Every answer against the solver of geom/triangle, which decides on exact numbers and knows
// nothing of this one: 1e-9.
func TestAnswersAgainstTheSolver(t *testing.T) {
	for _, k := range Kinds() {
		s := StockOf(k, Fives, School)
		step := max(1, len(s.Kept)/gate.Of(25, 400))
		for i := 0; i < len(s.Kept); i += step {
			task := s.Kept[i]
			var ms []triangle.Measurement
			for _, token := range task.Tokens() {
				m, err := triangle.ParseMeasurement(token, unit.MM)
				if err != nil {
					t.Fatal(err)
				}
				ms = append(ms, m)
			}
			solved, err := triangle.Solve(ms, [2]geom.Name{"A", "B"})
			if k == SSA0 {
				if err == nil {
					t.Errorf("%v is a triangle", task)
				}
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			for _, b := range task.Measured(Maths) {
				near := math.Inf(1)
				for _, a := range solved.Answers {
					tr := a.Triangle
					v := map[Quantity]float64{BC: tr.Sides[0].MM(), CA: tr.Sides[1].MM(), CA2: tr.Sides[1].MM(), A: tr.Angles[0].Degrees(), B: tr.Angles[1].Degrees(), C: tr.Angles[2].Degrees(), Height: tr.Heights[2].MM()}[b.Of]
					near = math.Min(near, math.Abs(v-b.Value))
				}
				if near > 1e-9 {
					t.Errorf("%s %v: %s is off by %g", k, task.Given, b.Of, near)
				}
			}
		}
	}
}
