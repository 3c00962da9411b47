package setout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// hand goes wrong in each act by what the tools keep. A tape of class II has a permissible
// error that is a bound, nail and eye a tolerance of 1 mm; a mark keeps to 1 mm of its
// string, 95 of 100, between the nails, in proportion more beyond them.
func hand(r *rand.Rand, i tape.Instrument, base func() float64) errs {
	centring := i.Centring.MM() / 2
	return errs{
		pull: func(l float64) float64 {
			return l + r.NormFloat64()*math.Hypot((0.3+0.2*math.Ceil(l/1000-1e-9))/math.Sqrt(3), 0.5)
		},
		beside: func(x float64) float64 {
			return 0.5 * max(1, math.Abs(x)/base(), math.Abs(base()-x)/base()) * r.NormFloat64()
		},
		turn:   func() float64 { return i.Angle.Radians() / 2 * r.NormFloat64() },
		centre: func() complex128 { return complex(centring*r.NormFloat64(), centring*r.NormFloat64()) },
		target: func() float64 { return centring * r.NormFloat64() },
		square: func() float64 { return 0.15 * math.Pi / 180 * r.NormFloat64() },
	}
}

var sureRow = regexp.MustCompile(`(?m)^(\w+) +([\d.]+) +([\d.]+) +([\d.]+)$`)

// The figure "set out" that is printed is the spread of each peg where the printed
// sentences are followed with what the tools keep: by arcs, by an offset, by an angle
// with a protractor and with a theodolite, a triangle and nets, the foot within the
// baseline, at its end and behind it. And the worst of them is the figure of the way
// that is marked as used.
func TestHowSureIsWhatTheStepsGive(t *testing.T) {
	const times = 3000
	for _, c := range []struct{ name, tokens, outline, base string }{
		{"gable", gable, "", "AB"}, {"the same from B", gable, "", "BA"},
		{"right angle", "AB=4000 A=90deg CA=3000", "", "AB"}, {"right angle, from the other end", "AB=4000 A=90deg CA=3000", "", "BA"},
		{"foot behind", "AB=5000 CA=3354.102 BC=7158.911", "", "AB"}, {"foot beyond", "AB=5000 CA=8062.258 BC=4472.136", "", "AB"},
		{"low", "AB=10000 CA=4511.234 BC=6007.495", "", "AB"},
		{"feet close to corners", "AB=5900.0000 BC=4012.8045 CD=5551.0900 DA=3905.1248 AC=7010.1783 BD=6906.5187", "ABCD", "AB"},
		{"house", house, "ABCD", "AB"}, {"house by its diagonal", house, "ABCD", "CA"}, {"floor", floor, "ABCDEF", "FA"}, {"floor from E", floor, "ABCDEF", "EC"},
	} {
		for _, i := range []tape.Instrument{tape.Protractor, tape.Theodolite} {
			for m := range pegging.AngleDistance + 1 {
				if i == tape.Theodolite && m != pegging.AngleDistance {
					continue
				}
				name := fmt.Sprintf("%s from %s, %v, %s", c.name, c.base, m, i.Name)
				in := Input{Asked: pegging.Asked{Net: adjusted(t, c.tokens, c.outline), Method: &m, Base: [2]geom.Name{geom.Name(c.base[:1]), geom.Name(c.base[1:])}}}
				in.Tools.Instrument = i
				s, err := Prepare(in)
				if _, flat := err.(*triangle.NoTriangle); flat && m == pegging.TwoArcs {
					continue
				} else if err != nil {
					t.Fatal(err)
				}
				if s.Baseline.From != in.Base[0] || s.Pegs[0].Name != in.Base[0] {
					t.Errorf("%s: zero is held at %s", name, s.Baseline.From)
				}
				r := rand.New(rand.NewPCG(95, uint64(m)))
				var h *follower
				h = newFollower(t, hand(r, i, func() float64 { return h.base }))
				sum, square := map[string]complex128{}, map[string][3]float64{}
				places := make([]complex128, len(s.Sure))
				for k, x := range s.Sure {
					along, _, _ := s.Running(s.Spot(x.Peg))
					places[k] = complex(along.MM(), signedOffset(s, x.Peg))
				}
				for range times {
					h.follow(s.Steps)
					for k, x := range s.Sure {
						p := h.at[string(x.Peg)]
						q := p - complex(real(places[k]), 0)
						if q != 0 {
							q = p - places[k]
						}
						sum[string(x.Peg)] += q
						v := square[string(x.Peg)]
						square[string(x.Peg)] = [3]float64{v[0] + real(q)*real(q), v[1] + imag(q)*imag(q), v[2] + real(q)*imag(q)}
					}
				}
				worst := 0.0
				s.Office = true
				text := textOf(t, s)
				_, table, _ := strings.Cut(text, "HOW SURE")
				seen := 0
				for _, row := range sureRow.FindAllStringSubmatch(table, -1) {
					mean, v := sum[row[1]]/times, square[row[1]]
					xx, yy, xy := v[0]/times-real(mean)*real(mean), v[1]/times-imag(mean)*imag(mean), v[2]/times-real(mean)*imag(mean)
					got := 2.4477 * math.Sqrt((xx+yy)/2+math.Hypot((xx-yy)/2, xy))
					said := figureIn(t, row[3])
					if math.Abs(got-said) > 0.05+0.06*said {
						t.Errorf("%s: %s is off by %.2f, and %s is printed", name, row[1], got, row[3])
					}
					seen++
					worst = max(worst, said)
				}
				if seen != len(s.Sure) {
					t.Errorf("%s: %d rows for %d pegs", name, seen, len(s.Sure))
				}
				used := s.Ranking.Best[s.Ranking.Used]
				if used.Base != in.Base || s.Small(used.Figure) != fmt.Sprintf("%.1f", worst) {
					t.Errorf("%s: %s from %s is marked as used with %s, the worst peg has %.1f", name, used.Method, edge(used.Base), s.Small(used.Figure), worst)
				}
			}
		}
	}
}

func signedOffset(s Sheet, n geom.Name) float64 {
	_, offset, side := s.Running(s.Spot(n))
	if side == pegging.Right {
		return -offset.MM()
	}
	return offset.MM()
}

// Each row of the ranking is what the sheet says of its own way where that one is asked
// for: one baseline, one zero, one square.
func TestRankingSpeaksOfTheSheets(t *testing.T) {
	for _, c := range []struct{ tokens, outline string }{{gable, ""}, {house, "ABCD"}, {floor, "ABCDEF"}, {"AB=5000 CA=3354.102 BC=7158.911", ""}} {
		all := []pegging.Method{pegging.TwoArcs, pegging.OffsetSquare, pegging.AngleDistance}
		s := preparedNet(t, c.tokens, c.outline, func(in *Input) { in.Methods = all })
		for _, x := range s.Ranking.Best {
			own := preparedNet(t, c.tokens, c.outline, func(in *Input) { in.Methods, in.Method, in.Base = all, &x.Method, x.Base })
			worst := unit.Length(0)
			for _, p := range own.Sure {
				worst = max(worst, p.SetOut)
			}
			if own.Baseline.From != x.Base[0] || math.Abs(float64(worst-x.Figure)) > 1e-9 {
				t.Errorf("%s: %v from %s is ranked with %v, its own sheet says %v from %s", c.tokens, x.Method, edge(x.Base), x.Figure, worst, own.Baseline.From)
			}
		}
		if s.Ranking.Used > 0 && !strings.Contains(s.Says().Why(), edge(s.Ranking.Best[0].Base)) {
			t.Errorf("%s: nothing says why %v from %s is not used: %s", c.tokens, s.Ranking.Best[0].Method, edge(s.Ranking.Best[0].Base), s.Says().Why())
		}
	}
}
