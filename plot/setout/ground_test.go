package setout

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/unit"
)

const gable = "AB=7200 BAC=35deg ABC=35deg"

// house is a rectangle of 12 × 8 m with both diagonals, and floor a hollow floor of
// six corners, (0, 0) (10, 0) (10, 4) (6, 4) (6, 8) (0, 8) m, as somebody measured it.
const (
	house = "AB=12000 BC=8000 CD=12000 DA=8000 AC=14422 BD=14422"
	floor = "AB=10000 BC=4000 AC=10770 CD=4000 BD=5657 DE=4000 CE=5657 AE=10000 EF=6000 FA=8000 DF=7211 BF=12806 AD=7211"
)

// with asks for a method and a baseline.
func with(m pegging.Method, a, b geom.Name) func(*Input) {
	return func(in *Input) { in.Method, in.Base = &m, [2]geom.Name{a, b} }
}

// Every accept range against a simulation that shares no code with it: tape pulls
// with errors of σ = t, arcs crossed by another formula, angles turned, the check
// pulled with an error of its own.
func TestAcceptRangesHold(t *testing.T) {
	for _, c := range []struct {
		tokens, outline string
		change          func(*Input)
	}{
		{gable, "", nil}, {"AB=10000 CA=4500 BC=8000", "", nil}, {"AB=10000 CA=4011.2 BC=6007.5", "", nil},
		{gable, "", with(pegging.AngleDistance, "A", "B")},
		{house, "ABCD", nil}, {house, "ABCD", with(pegging.OffsetSquare, "A", "B")}, {house, "ABCD", with(pegging.AngleDistance, "D", "A")},
		{floor, "ABCDEF", nil}, {floor, "ABCDEF", with(pegging.OffsetSquare, "C", "E")}, {floor, "ABCDEF", with(pegging.AngleDistance, "D", "B")},
	} {
		s := preparedNet(t, c.tokens, c.outline, c.change)
		sum := make([]float64, len(s.Checks))
		const runs = 8000
		g := ground{s: s, r: rand.New(rand.NewPCG(1, 2))}
		for range runs {
			at := g.setOut()
			for i, c := range s.Checks {
				e := cmplx.Abs(at[c.To]-at[c.From]) + g.r.NormFloat64()*g.limit(c.Value.MM()) - c.Value.MM()
				sum[i] += e * e
			}
		}
		for i, k := range s.Checks {
			if got := math.Sqrt(sum[i] / runs); math.Abs(got/k.Half.MM()-1) > 0.04 {
				t.Errorf("%s %v: %s to %s is off by %.3f, the range allows %.3f", c.tokens, s.Method, k.From, k.To, got, k.Half.MM())
			}
			if k.Least > k.Value-k.Half || k.Greatest < k.Value+k.Half || k.Greatest-k.Least > 2*k.Half+2 {
				t.Errorf("%s: %s to %s: %v to %v about %v ± %v", c.tokens, k.From, k.To, k.Least, k.Greatest, k.Value, k.Half)
			}
		}
	}
}

// ground sets out a sheet with errors: the zero end at 0, the baseline along the real
// axis, left of it up.
type ground struct {
	s Sheet
	r *rand.Rand
	// exact pulls have no errors.
	exact bool
}

func (g ground) limit(l float64) float64 { return 0.3 + 0.2*math.Ceil(l/1000-1e-9) + 1 }

func (g ground) pull(l unit.Length) float64 {
	if g.exact {
		return l.MM()
	}
	return l.MM() + g.r.NormFloat64()*g.limit(l.MM())
}

// angle with what a protractor and its centring are good for: 30′, and 1 mm on the nail
// of the instrument and on either mark.
func (g ground) angle(a unit.Angle, from, sight, to complex128) float64 {
	if g.exact {
		return a.Radians()
	}
	p, q, d := cmplx.Abs(sight-from), cmplx.Abs(to-from), cmplx.Abs(to-sight)
	keeps := 30.0 / 60 * math.Pi / 180
	return a.Radians() + g.r.NormFloat64()*math.Sqrt(keeps*keeps+1/(p*p)+1/(q*q)+d*d/(p*p*q*q)/2)
}

func (g ground) setOut() map[geom.Name]complex128 {
	s, at, square := g.s, map[geom.Name]complex128{}, map[int]complex128{}
	at[s.Baseline.From] = 0
	for _, p := range s.Pulls {
		if p.Use == pegging.ForBaseline || p.Use == pegging.ForRunning {
			at[p.To] = complex(g.pull(p.Length), 0)
			if p.Behind {
				at[p.To] = -at[p.To]
			}
		}
	}
	for _, p := range s.Main {
		up := 1.0
		if p.Side == pegging.Right {
			up = -1
		}
		pull := func(i int) float64 { return g.pull(s.Pulls[p.Pulls[i]].Length) }
		switch p.Method {
		case pegging.TwoArcs:
			ra, rb, b := pull(0), pull(1), real(at[s.Baseline.To])
			at[p.Peg] = cmplx.Rect(ra, up*math.Acos((b*b+ra*ra-rb*rb)/(2*b*ra)))
		case pegging.AngleDistance:
			// The centring is reckoned with the true distances.
			true0, _ := s.Peg(p.Peg)
			to := complex(true0.Along.MM(), up*true0.Offset.MM())
			at[p.Peg] = cmplx.Rect(pull(1), up*g.angle(s.Pulls[p.Pulls[0]].Angle, 0, complex(s.Baseline.Length.MM(), 0), to))
		default:
			q := s.Squares[p.Square]
			way, known := square[p.Square]
			if !known {
				along, high, across := pull(0), pull(1), pull(2)
				turn := math.Acos((along*along + high*high - across*across) / (2 * along * high))
				if q.Toward == s.Baseline.From {
					turn = math.Pi - turn
				}
				way = cmplx.Rect(1, up*turn)
				square[p.Square] = way
			}
			at[p.Peg] = at[q.At] + way*complex(pull(3), 0)
		}
	}
	for _, p := range s.Pulls {
		if p.Use == pegging.ForMiddle {
			d := at[s.Main[0].Peg] - at[p.Hold]
			at[p.To] = at[p.Hold] + d*complex(g.pull(p.Length)/cmplx.Abs(d), 0)
		}
	}
	return at
}
