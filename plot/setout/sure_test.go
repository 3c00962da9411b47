package setout

import (
	"fmt"
	"math"
	"math/cmplx"
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

// hand follows the printed sentences of a sheet and goes wrong in each act by what the
// tools keep: it shares no code with the figures that it tests, and reads the figures
// out of the words.
type hand struct {
	t     *testing.T
	r     *rand.Rand
	turns float64 // radians that an angle is off, 95 of 100
	over  float64 // mm that the instrument and its target are, 95 of 100
	at    map[string]complex128
	base  float64
	known map[reading][]string
}

type reading struct {
	form  *regexp.Regexp
	words string
}

// reads what a form finds in a sentence, which is followed thousands of times.
func (h *hand) reads(form *regexp.Regexp, words string) []string {
	found, read := h.known[reading{form, words}]
	if !read {
		found = form.FindStringSubmatch(words)
		h.known[reading{form, words}] = found
	}
	return found
}

// pull a length on a tape of class II: its permissible error is a bound, nail and eye
// a tolerance of 1 mm.
func (h *hand) pull(words string) float64 {
	l := told(h.t, words)
	return l + h.r.NormFloat64()*math.Hypot((0.3+0.2*math.Ceil(l/1000-1e-9))/math.Sqrt(3), 0.5)
}

// beside is how far a mark at x along the string lies off its line: 1 mm is kept by 95
// of 100 between the nails, in proportion more beyond them.
func (h *hand) beside(x float64) float64 {
	return 0.5 * max(1, math.Abs(x)/h.base, math.Abs(h.base-x)/h.base) * h.r.NormFloat64()
}

func (h *hand) cross(p, q complex128, rp, rq, up float64) complex128 {
	d := cmplx.Abs(q - p)
	return p + (q-p)/complex(d, 0)*cmplx.Rect(rp, up*math.Acos((d*d+rp*rp-rq*rq)/(2*d*rp)))
}

var (
	first    = regexp.MustCompile(`Drive peg (\w+)\..* pulls ` + oneFigure + ` along .* drives peg (\w+)`)
	loneArc  = regexp.MustCompile(`^(\w+), on the (left|right): hold 0 on (\w+), pull ` + oneFigure + `, scratch an arc`)
	loneNext = regexp.MustCompile(`^Hold 0 on (\w+), pull ` + oneFigure + `, scratch an arc across the first`)
	anyFoot  = regexp.MustCompile(`[Oo]n the (left|right).* make a square at (\w+) by 3-4-5, on the side of \w+\. Hold 0 on \w+ and mark (\w+) on the string, ` + oneFigure + ` towards (\w+)\. Hold 0 on \w+, pull ` + oneFigure + ` and .*?pull ` + oneFigure + ` and scratch across it: (\w+)\.`)
	anyOff   = regexp.MustCompile(`Stretch a string from (\w+) over (\w+)\. Hold 0 on \w+, pull ` + oneFigure + ` along it and drive peg (\w+)`)
	anyTurn  = regexp.MustCompile(`(?:Mark|Turn) ([\d.]+)°(?:(\d+)′(\d+)″)? to the (left|right) of (\w+).*Hold 0 on (\w+), pull ` + oneFigure + ` along .* drive peg (\w+)`)
	hands    = map[string]float64{"left": 1, "right": -1}
)

// follow the steps once.
func (h *hand) follow(steps []string) {
	h.at = map[string]complex128{}
	var end, swung, side string
	var radius float64
	for _, w := range steps {
		switch {
		case strings.HasPrefix(w, "The second way"), strings.HasPrefix(w, "Mark the middles"):
		case h.reads(first, w) != nil:
			m := h.reads(first, w)
			h.base, end = told(h.t, m[2]), m[3]
			h.at[m[1]], h.at[end] = 0, complex(h.pull(m[2]), 0)
		case strings.HasPrefix(w, "Leave 0"):
			for _, m := range runTo.FindAllStringSubmatch(w, -1) {
				x, sign := told(h.t, m[2]), 1.0
				if m[3] != "" {
					sign = -1
				}
				h.at[m[1]] = complex(sign*h.pull(m[2]), h.beside(sign*x))
			}
		case h.reads(twoArcs, w) != nil:
			m := h.reads(twoArcs, w)
			h.at[m[1]] = h.cross(h.at[m[2]], h.at[m[4]], h.pull(m[3]), h.pull(m[5]), hands[m[6]])
		case h.reads(loneArc, w) != nil:
			m := h.reads(loneArc, w)
			h.at["swung from"], swung, side, radius = h.at[m[3]], m[1], m[2], h.pull(m[4])
		case h.reads(loneNext, w) != nil:
			m := h.reads(loneNext, w)
			h.at[swung] = h.cross(h.at["swung from"], h.at[m[1]], radius, h.pull(m[2]), hands[side])
		case h.reads(anyFoot, w) != nil:
			m := h.reads(anyFoot, w)
			foot, up, way := h.at[m[2]], hands[m[1]], 1.0
			if real(h.at[m[5]]) < real(foot) {
				up, way = -up, -1
			}
			leg := complex(real(foot)+way*h.pull(m[4]), h.beside(real(foot)+way*told(h.t, m[4])))
			h.at[m[8]] = h.cross(foot, leg, h.pull(m[6]), h.pull(m[7]), up)
		case h.reads(anyOff, w) != nil:
			m := h.reads(anyOff, w)
			way := h.at[m[2]] - h.at[m[1]]
			h.at[m[4]] = h.at[m[1]] + way/complex(cmplx.Abs(way), 0)*complex(h.pull(m[3]), 0)
		case h.reads(anyTurn, w) != nil:
			m := h.reads(anyTurn, w)
			a := told(h.t, m[1])
			if m[2] != "" {
				a += told(h.t, m[2])/60 + told(h.t, m[3])/3600
			}
			off := func() float64 { return h.over / 2 * h.r.NormFloat64() }
			stands := complex(off(), off())
			sight := cmplx.Phase(complex(h.base, off())-stands) + hands[m[4]]*(a*math.Pi/180) + h.turns/2*h.r.NormFloat64()
			// The tape hangs on the nail at 0 and swings to the line of sight.
			tape, d := h.pull(m[7]), cmplx.Abs(stands)
			h.at[m[8]] = cmplx.Rect(tape, sight-math.Asin(d*math.Sin(cmplx.Phase(-stands)-sight)/tape))
		}
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
				h := hand{t: t, r: rand.New(rand.NewPCG(95, uint64(m))), turns: i.Angle.Radians(), over: i.Centring.MM(), known: map[reading][]string{}}
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
				text := textOf(t, s)
				_, table, _ := strings.Cut(text, "HOW SURE")
				seen := 0
				for _, row := range sureRow.FindAllStringSubmatch(table, -1) {
					mean, v := sum[row[1]]/times, square[row[1]]
					xx, yy, xy := v[0]/times-real(mean)*real(mean), v[1]/times-imag(mean)*imag(mean), v[2]/times-real(mean)*imag(mean)
					got := 2.4477 * math.Sqrt((xx+yy)/2+math.Hypot((xx-yy)/2, xy))
					said := told(t, row[3])
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
