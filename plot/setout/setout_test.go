package setout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// adjusted reads and adjusts measurements, as a job would give them, of a piece with
// the outline: one letter a corner, empty for a triangle.
func adjusted(t testing.TB, tokens, outline string) net.Adjusted {
	t.Helper()
	var n net.Net
	for _, token := range strings.Fields(tokens) {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		n.Measured = append(n.Measured, m)
	}
	for _, r := range outline {
		n.Outline = append(n.Outline, geom.Name(r))
	}
	if outline == "" { // the first of the triangles that fit
		if s, err := triangle.Solve(n.Measured, [2]geom.Name{}); err == nil {
			n.Start = map[geom.Name]geom.Point{}
			for i, p := range s.Answers[0].Triangle.Points {
				n.Start[s.Answers[0].Triangle.Names[i]] = p
			}
		}
	}
	a, err := net.Adjust(n)
	if err != nil {
		t.Fatalf("%s: %v", tokens, err)
	}
	return a
}

func prepared(t testing.TB, tokens string, change func(*Input)) Sheet {
	t.Helper()
	return preparedNet(t, tokens, "", change)
}

func preparedNet(t testing.TB, tokens, outline string, change func(*Input)) Sheet {
	t.Helper()
	in := Input{Job: "Tidal boathouse refit", Piece: "Gable", Asked: pegging.Asked{Net: adjusted(t, tokens, outline)}}
	if change != nil {
		change(&in)
	}
	s, err := Prepare(in)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func base(a, b geom.Name) func(*Input) {
	return func(in *Input) { in.Base = [2]geom.Name{a, b} }
}

func isNear(t *testing.T, what string, got unit.Length, want, within float64) {
	t.Helper()
	if !(math.Abs(got.MM()-want) <= within) {
		t.Errorf("%s is %.5f, want %.5f ± %g", what, got.MM(), want, within)
	}
}

func peg(t *testing.T, s Sheet, n geom.Name) pegging.Mark {
	t.Helper()
	p, ok := s.Peg(n)
	if !ok {
		t.Fatalf("no peg %s", n)
	}
	return p
}

// Two arcs over a base of 6000 with radii 5050 and 2420: computed at 50 digits
// from the data of a worked example, whose printed answer, 4638.15 and 1997.5,
// carries a rounded angle and must not come out.
func TestTwoArcs(t *testing.T) {
	s := prepared(t, "AB=6000 CA=5050 BC=2420", base("A", "B"))
	f := peg(t, s, "F")
	isNear(t, "foot", f.Along, 4637.175, 1e-6)
	isNear(t, "height", peg(t, s, "C").Offset, 1999.77699, 1e-5)
	if math.Abs(f.Along.MM()-4638.15) < 0.5 || math.Abs(peg(t, s, "C").Offset.MM()-1997.5) < 0.5 {
		t.Error("the figures that carry a rounded angle came out")
	}
	for _, want := range []string{"F  4637", "2000"} {
		if text := textOf(t, s); !strings.Contains(text, want) {
			t.Errorf("the text does not say %s", want)
		}
	}
}

// Arcs of 5000 over a base of 6000, each with a standard deviation of 2: the apex
// is at (3000, 4000) with 2.35702 and 1.76777 (computed by variance propagation).
func TestCrossingSpread(t *testing.T) {
	s := prepared(t, "AB=6000 CA=5000 BC=5000", base("A", "B"))
	c := peg(t, s, "C")
	isNear(t, "along", c.Along, 3000, 1e-9)
	isNear(t, "offset", c.Offset, 4000, 1e-9)
	if got, want := 2*float64(s.Main[0].Crossing.Spread), math.Hypot(2.35702, 1.76777); math.Abs(got-want) > 1e-5 {
		t.Errorf("the apex is off by %.5f, want %.5f", got, want)
	}

	// σ√2/sin γ, computed.
	for deg, want := range map[float64]float64{90: 1.414, 60: 1.633, 45: 2, 30: 2.828, 20: 4.135} {
		a := unit.Angle(deg) * unit.Degree
		s := prepared(t, "AB=5000 CA=5000 BAC="+trim(deg)+"deg", base("B", "C"))
		c := s.Main[0].Crossing
		if math.Abs(float64(c.Angle-a)) > 1e-9 || math.Abs(float64(c.Spread)-want) > 5e-4 || c.Sound != (deg > 29.9) {
			t.Errorf("%v°: %+v, want spread %v", deg, c, want)
		}
	}
}

func near(a, b, d unit.Length) bool { return math.Abs(float64(a-b)) <= float64(d) }

func trim(v float64) string { return strings.TrimSuffix(strings.TrimRight(unitText(v), "0"), ".") }
func unitText(v float64) string {
	return unit.Style{Unit: unit.MM}.Length(unit.Length(v)) + "."
}

func TestRefuses(t *testing.T) {
	for _, c := range []struct {
		tokens string
		change func(*Input)
		what   string
		hint   string
	}{
		{"AB=999.9 CA=500 BC=800", nil, "the longest side, AB, is 0.9999 m: a setting-out sheet is for 1 m to 100 m", "print it at full size instead"},
		{"AB=100000.1 CA=90000 BC=80000", nil, "the longest side, AB, is 100.0001 m: a setting-out sheet is for 1 m to 100 m", "divide it"},
		{"AB=100000.00001 CA=90000 BC=80000", nil, "the longest side, AB, is 100.00000001 m: a setting-out sheet is for 1 m to 100 m", "divide it"},
		{"AB=5000 CA=5000 BC=800", base("C", "B"), "base CB: CB is 0.8 m, too short to set out from: a baseline is 1 m at least", "(5 m)"},
		{"AB=5000 CA=5000 BC=3000", base("A", "D"), "base AD: the triangle ABC has no such side", "name one of AB, BC, CA"},
		{"AB=5000 CA=5000 BC=3000", func(in *Input) { in.Every = 10 }, "every: marks every 10 mm are 1300 along the edges: a sheet lists 400 at most", "farther"},
		{"AB=5000 CA=5000 BC=3000", func(in *Input) { in.Conditions = &tape.Conditions{Temperature: 400} }, "temperature: a tape is used between -60 °C and 80 °C", "Celsius"},
	} {
		in := Input{Asked: pegging.Asked{Net: adjusted(t, c.tokens, "")}}
		if c.change != nil {
			c.change(&in)
		}
		_, err := Prepare(in)
		f, ok := err.(*unit.Fault)
		if !ok || f.Error() != c.what || !strings.Contains(f.Hint, c.hint) {
			t.Errorf("%s: %v (%+v), want %q", c.tokens, err, f, c.what)
		}
	}
	for _, tokens := range []string{"AB=1000 CA=700 BC=600", "AB=100000 CA=70000 BC=60000"} {
		if _, err := Prepare(Input{Asked: pegging.Asked{Net: adjusted(t, tokens, "")}}); err != nil {
			t.Errorf("%s lies on the limit: %v", tokens, err)
		}
	}
}

func TestBaselineChosenAndZeroEnd(t *testing.T) {
	for _, c := range []struct {
		tokens   string
		change   func(*Input)
		from, to geom.Name
		foot     float64 // running distance of F
		past     float64
		method   pegging.Method
	}{
		{"AB=4000 BC=7200 CA=5000", nil, "B", "C", 2975, 0, pegging.TwoArcs},                                        // (7200² + 4000² − 5000²)/(2·7200)
		{"AB=6000 CA=5050 BC=2420", base("B", "A"), "B", "A", 1362.825, 0, pegging.TwoArcs},                         // 6000 − 4637.175
		{"AB=5000 CA=8062.258 BC=4472.136", with(pegging.TwoArcs, "A", "B"), "A", "B", 7000, 2000, pegging.TwoArcs}, // C at (7000, 4000)
		{"AB=5000 CA=8062.258 BC=4472.136", base("B", "A"), "B", "A", -2000, 2000, pegging.TwoArcs},                 // the foot lies behind B, which was named first
		{"AB=5000 CA=3354.102 BC=7158.911", base("A", "B"), "A", "B", -1500, 1500, pegging.TwoArcs},                 // C at (−1500, 3000)
		{"AB=10000 CA=4011.234 BC=6007.495", nil, "A", "B", 4000, 0, pegging.OffsetSquare},                          // C at (4000, 300)
		{"AB=1000 CA=89005.6 BC=88005.7", base("A", "B"), "A", "B", 88999.9, 87999.9, pegging.OffsetSquare},         // needle, C near (89 m, 1 m)
	} {
		s := prepared(t, c.tokens, c.change)
		if s.Baseline.From != c.from || s.Baseline.To != c.to || s.Method != c.method {
			t.Errorf("%s: %+v, %v", c.tokens, s.Baseline, s.Method)
		}
		within := 0.02
		if c.past > 10000 {
			within = 60 // sides given to 0.1 leave that much
		}
		f := peg(t, s, "F")
		isNear(t, c.tokens+": foot", f.Along, c.foot, within)
		isNear(t, c.tokens+": past", max(0, f.Along-s.Baseline.Length, -f.Along), c.past, within)
		for _, p := range s.Pegs {
			if p.Along < 0 && c.foot > 0 || p.Offset < 0 {
				t.Errorf("%s: peg %s at %v, %v", c.tokens, p.Name, p.Along, p.Offset)
			}
		}
		if text := textOf(t, s); (c.past > 0) != strings.Contains(strings.Join(strings.Fields(text), " "), " beyond ") {
			t.Errorf("%s: extending the line", c.tokens)
		}
	}
}

func TestSquareFits(t *testing.T) {
	styles := []unit.Style{{}, {Unit: unit.FT}}
	r := rand.New(rand.NewPCG(3, 4))
	for range 800 {
		s, ok := random(t, r, styles[r.IntN(2)])
		if !ok {
			continue
		}
		if len(s.Squares) == 0 {
			continue
		}
		q := s.Squares[0]
		one := q.Across / 5
		if one <= 0 || !near(q.Along+q.Up, 7*one, 1e-9) || q.Across > 50*unit.Foot {
			t.Fatalf("no 3-4-5: %+v in %+v", q, s.Pegs)
		}
		at, leg, top := peg(t, s, q.At).At, peg(t, s, q.Leg).At, peg(t, s, q.Top).At
		if math.Abs(float64(at.Distance(leg)-q.Along)) > 0.06 || math.Abs(float64(leg.Distance(top)-q.Across)) > 0.1 {
			t.Fatalf("the marks do not lie where the square has them: %v %v %v %+v", at, leg, top, q)
		}
		if h := peg(t, s, s.Main[0].Peg).Offset; q.Up > max(h, s.Baseline.Length/4) {
			t.Fatalf("the square is too high: %+v", q)
		}
		if !near(q.Loop[2], 12*one, 1e-9) || !near(q.Loop[1]-q.Loop[0], q.Across, 1e-9) {
			t.Fatalf("loop %v", q.Loop)
		}
		if s.Inches() && math.Abs(math.Remainder(float64(one/unit.Inch), 1)) > 1e-9 || !s.Inches() && math.Mod(float64(one), 50) != 0 {
			t.Fatalf("a tape does not show %v as a round figure", one)
		}
	}
}

// random is the sheet of a random triangle, on a random baseline; not every one
// can be set out.
func random(t testing.TB, r *rand.Rand, style unit.Style) (Sheet, bool) {
	long := 1000 * math.Pow(100, r.Float64())
	x, y := r.Float64()*1.6-0.3, math.Pow(10, -3*r.Float64())
	p := [3]geom.Point{{}, {X: unit.Length(long)}, {X: unit.Length(long * x), Y: unit.Length(long * y)}}
	names := [3]geom.Name{"A", "B", "C"}
	tokens := ""
	for i := range 3 {
		j := (i + 1) % 3
		tokens += fmt.Sprintf("%s%s=%.9f ", names[i], names[j], p[i].Distance(p[j]).MM())
	}
	in := Input{Job: "Job", Piece: "Piece", Asked: pegging.Asked{Style: style, Net: adjusted(t, tokens, "")}}
	if r.IntN(2) == 0 {
		i := r.IntN(3)
		in.Base = [2]geom.Name{names[i], names[(i+1)%3]}
	}
	s, err := Prepare(in)
	if _, fault := err.(*unit.Fault); err != nil && !fault {
		t.Fatal(err)
	}
	return s, err == nil
}

func TestMeasuredAndComputedAreTold(t *testing.T) {
	s := prepared(t, "AB=7200 BC=5000 C-AB=3000", base("A", "B"))
	got := map[string]bool{}
	for _, p := range s.Pulls {
		got[string(p.Use)+string(p.Hold+p.To)] = p.Measured
	}
	for key, want := range map[string]bool{"baselineAB": true, "arcBC": true, "arcAC": false, "heightFC": true, "alongAF": false} {
		if m, ok := got[key]; !ok || m != want {
			t.Errorf("%s measured: %t (there: %t), want %t", key, m, ok, want)
		}
	}
	// More than needed was measured: the sides are adjusted, so they are not as measured.
	over := prepared(t, "AB=6000+-5 CA=5000+-5 BC=5000+-5 C-AB=4012+-5", nil)
	if over.Baseline.Measured || over.Figure(over.Baseline.Length) == "6000" {
		t.Errorf("an adjusted side counts as measured: %v", over.Baseline)
	}
}

func TestLettersOfCornersAreNotTakenTwice(t *testing.T) {
	s := prepared(t, "FM=7000 MQ=5000 QF=6000", nil)
	seen := map[geom.Name]bool{}
	for _, p := range s.Pegs {
		if seen[p.Name] || p.Name == "I" || p.Name == "O" {
			t.Errorf("letter %s", p.Name)
		}
		seen[p.Name] = true
	}
	if len(seen) != 9 {
		t.Errorf("%d letters, want 9", len(seen))
	}
}
