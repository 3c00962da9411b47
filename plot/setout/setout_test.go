package setout

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// solved reads and solves measurements, as a job would give them.
func solved(t testing.TB, tokens string) geom.Solution {
	t.Helper()
	var ms []geom.Measurement
	for _, token := range strings.Fields(tokens) {
		m, err := geom.ParseMeasurement(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		ms = append(ms, m)
	}
	s, err := geom.Solve(ms, [2]geom.Name{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func prepared(t testing.TB, tokens string, change func(*Input)) Sheet {
	t.Helper()
	in := Input{Job: "Tidal boathouse refit", Piece: "Gable", Solution: solved(t, tokens)}
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

func peg(t *testing.T, s Sheet, n geom.Name) Peg {
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
	for _, want := range []string{"F  4637.2", "1999.8"} {
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
	if got, want := 2*float64(s.Crossing.Spread), math.Hypot(2.35702, 1.76777); math.Abs(got-want) > 1e-5 {
		t.Errorf("the apex is off by %.5f, want %.5f", got, want)
	}
	w := newWork(&s, nil)
	w.foot, w.mid, w.midLeft, w.midRight = "F", "F", "P", "N"
	n := w.netFor(SwingArcs)
	for i, l := range n.pulls {
		n.limit[i] = 0
		if l == 5000 {
			n.limit[i] = 2
		}
	}
	far := func(x, y unit.Length) geom.Name {
		n.at["Z"] = func([]unit.Length) geom.Point { return geom.Point{X: x, Y: y} }
		return "Z"
	}
	isNear(t, "σx", n.carried(far(1e9, 4000), "C"), 2.35702, 1e-4)
	isNear(t, "σy", n.carried(far(3000, 1e9), "C"), 1.76777, 1e-4)

	// σ√2/sin γ, computed.
	for deg, want := range map[float64]float64{90: 1.414, 60: 1.633, 45: 2, 30: 2.828} {
		a := unit.Angle(deg) * unit.Degree
		in := Input{Solution: solved(t, "AB=5000 CA=5000 A="+trim(deg)+"deg"), Base: [2]geom.Name{"B", "C"}}
		s, err := Prepare(in)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(s.Crossing.Angle-a)) > 1e-12 || math.Abs(float64(s.Crossing.Spread)-want) > 5e-4 || !s.Crossing.Sound {
			t.Errorf("%v°: %+v, want spread %v", deg, s.Crossing, want)
		}
	}
	flat, err := Prepare(Input{Solution: solved(t, "AB=5000 CA=5000 A=20deg"), Base: [2]geom.Name{"B", "C"}})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(flat.Crossing.Spread)-4.135) > 5e-4 || flat.Crossing.Sound || flat.Ways[0].Method != OffsetSquare {
		t.Errorf("20°: %+v, %v", flat.Crossing, flat.Ways[0].Method)
	}
}

func trim(v float64) string { return strings.TrimSuffix(strings.TrimRight(unitText(v), "0"), ".") }
func unitText(v float64) string {
	return unit.Style{Unit: unit.MM}.Length(unit.Length(v)) + "."
}

// Directive 2014/32/EU, annex X (OIML R 35): a + b·L, L in metres rounded up.
func TestTapeClasses(t *testing.T) {
	for _, c := range []struct {
		tape Tape
		l    unit.Length
		want float64
	}{
		{Tape{Class: ClassI}, 1000, 0.2}, {Tape{Class: ClassI}, 10000, 1.1},
		{Tape{}, 5000, 1.3}, {Tape{}, 10000, 2.3}, {Tape{}, 10000.1, 2.5}, {Tape{}, 1, 0.5},
		{Tape{}, 5000.000000001, 1.3}, // 5 m but for the last bits
		{Tape{Class: ClassIII}, 10000, 4.6}, {Tape{Class: ClassIII}, 9001, 4.6},
		{Tape{Class: ClassI, Hook: true}, 1000, 0.3}, {Tape{Hook: true}, 5000, 1.5}, {Tape{Class: ClassIII, Hook: true}, 10000, 4.9},
	} {
		isNear(t, "error", c.tape.Error(c.l), c.want, 1e-12)
		isNear(t, "limit", c.tape.Limit(c.l), c.want+1, 1e-12)
	}
	if ClassI.String() != "I" || ClassII.String() != "II" || ClassIII.String() != "III" {
		t.Error("names of the classes")
	}
}

// A 3-4-5 in metres with 1 mm a tape turns its right angle by 121.5″; twice as
// large, by half of that (computed).
// Nobody is told to make a loop of more tape than the sheet says to bring.
func TestLoopIsNoLongerThanTheTape(t *testing.T) {
	for tokens, want := range map[string]bool{
		"AB=7200 A=35deg B=35deg":     true,  // 7.2 m round 1.8, 2.4, 3 m
		"AB=12000 BC=9000 CA=15000":   false, // 24 m round 6, 8, 10 m
		"AB=100000 BC=70000 CA=80000": true,  // 36 m of 100
		"AB=20000 BC=10500 CA=9800":   true,  // 18 m of 20
		"AB=24ft BC=18ft6in CA=27ft":  false,
		"AB=1000 BC=1000 CA=1000":     false,
	} {
		s := prepared(t, tokens, nil)
		said := false
		for _, step := range s.Steps {
			said = said || strings.Contains(step.Words, "in one loop")
		}
		if fits := s.Square.Loop[2] <= s.longest(); fits != said || said != want {
			t.Errorf("%s: a loop of %v with a tape of %v: said %v, want %v", tokens, s.Square.Loop[2], s.longest(), said, want)
		}
	}
}

func TestSquareTurns(t *testing.T) {
	for u, want := range map[unit.Length]float64{1000: 121.5, 2000: 60.8} {
		s := prepared(t, "AB=30000 CA=25000 BC=25000", nil)
		s.Square.Along, s.Square.Up, s.Square.Across = 4*u, 3*u, 5*u
		w := newWork(&s, nil)
		w.foot, w.mid, w.midLeft, w.midRight = "F", "F", "P", "N"
		n := w.netFor(OffsetSquare)
		for i, l := range n.pulls {
			n.limit[i] = 0
			if l == 3*u || l == 4*u || l == 5*u {
				n.limit[i] = 1
			}
		}
		h := s.Triangle.Heights[2]
		n.at["Z"] = func([]unit.Length) geom.Point { return geom.Point{X: 1e9, Y: h} }
		if got := math.Atan(float64(n.carried("Z", "C")/h)) * 180 / math.Pi * 3600; math.Abs(got-want) > 0.06 {
			t.Errorf("unit %v: %.2f″, want %v″", u, got, want)
		}
	}
}

// Every accept range against a simulation that shares no code with it: tape pulls
// with errors of σ = t, arcs crossed by another formula, the check pulled with an
// error of its own.
func TestAcceptRangesHold(t *testing.T) {
	for _, tokens := range []string{"AB=7200 A=35deg B=35deg", "AB=10000 CA=4500 BC=8000", "AB=10000 CA=4011.2 BC=6007.5"} {
		s := prepared(t, tokens, nil)
		r := rand.New(rand.NewPCG(1, 2))
		limit := func(l float64) float64 { return 0.3 + 0.2*math.Ceil(l/1000) + 1 }
		pull := func(l unit.Length) float64 { return l.MM() + r.NormFloat64()*limit(l.MM()) }
		const runs = 20000
		sum := make([]float64, len(s.Checks))
		for range runs {
			at := map[geom.Name]complex128{"A": 0}
			at["B"] = complex(pull(s.Baseline.Length), 0)
			for _, p := range s.Pegs {
				if p.Role == Foot || p.Role == Middle && p.Offset == 0 {
					at[p.Name] = complex(pull(p.Along), 0)
				}
			}
			if s.Ways[0].Method == SwingArcs {
				ra, rb, b := pull(s.Triangle.Sides[1]), pull(s.Triangle.Sides[0]), real(at["B"])
				angle := math.Acos((b*b + ra*ra - rb*rb) / (2 * b * ra))
				at["C"] = complex(ra*math.Cos(angle), ra*math.Sin(angle))
			} else {
				q := s.Square
				along, up, across := pull(q.Along), pull(q.Up), pull(q.Across)
				turn := math.Acos((along*along + up*up - across*across) / (2 * along * up))
				if q.Toward == "A" {
					turn = math.Pi - turn
				}
				h := pull(s.Triangle.Heights[2])
				at["C"] = at[q.At] + complex(h*math.Cos(turn), h*math.Sin(turn))
			}
			half := func(from geom.Name, l unit.Length) complex128 {
				d := at["C"] - at[from]
				return at[from] + d*complex(pull(l/2)/math.Hypot(real(d), imag(d)), 0)
			}
			at["N"], at["P"] = half("B", s.Triangle.Sides[0]), half("A", s.Triangle.Sides[1])
			for i, c := range s.Checks {
				d := at[c.To] - at[c.From]
				e := math.Hypot(real(d), imag(d)) + r.NormFloat64()*limit(c.Value.MM()) - c.Value.MM()
				sum[i] += e * e
			}
		}
		for i, c := range s.Checks {
			if got := math.Sqrt(sum[i] / runs); math.Abs(got/c.Half.MM()-1) > 0.03 {
				t.Errorf("%s: %s to %s is off by %.3f, the range allows %.3f", tokens, c.From, c.To, got, c.Half.MM())
			}
			if c.Least > c.Value-c.Half || c.Greatest < c.Value+c.Half || c.Greatest-c.Least > 2*c.Half+2 {
				t.Errorf("%s: %s to %s: %v to %v about %v ± %v", tokens, c.From, c.To, c.Least, c.Greatest, c.Value, c.Half)
			}
		}
	}
}

func TestRefuses(t *testing.T) {
	for _, c := range []struct {
		tokens string
		change func(*Input)
		what   string
		hint   string
	}{
		{"AB=999.9 CA=500 BC=800", nil, "the longest side, AB, is 0.9999 m: a setting-out sheet is for 1 m to 100 m", "trammel template"},
		{"AB=100000.1 CA=90000 BC=80000", nil, "the longest side, AB, is 100.0001 m: a setting-out sheet is for 1 m to 100 m", "divide it"},
		{"AB=100000.00001 CA=90000 BC=80000", nil, "the longest side, AB, is 100.00000001 m: a setting-out sheet is for 1 m to 100 m", "divide it"},
		{"AB=5000 CA=5000 BC=800", base("C", "B"), "base BC: BC is 0.8 m, too short to set out from: a baseline is 1 m at least", "(5 m)"},
		{"AB=5000 CA=5000 BC=3000", base("A", "D"), "base AD: the triangle ABC has no such side", "name one of AB, BC, CA"},
		{"AB=5000 CA=5000 BC=3000", func(in *Input) { in.Answer = 1 }, "answer 2 of 1 was asked for", "pick"},
		{"AB=5000 CA=5000 BC=3000", func(in *Input) { in.Answer = -1 }, "answer 0 of 1 was asked for", "pick"},
	} {
		in := Input{Solution: solved(t, c.tokens)}
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
		if _, err := Prepare(Input{Solution: solved(t, tokens)}); err != nil {
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
		method   Method
	}{
		{"AB=4000 BC=7200 CA=5000", nil, "B", "C", 2975, 0, SwingArcs},                              // (7200² + 4000² − 5000²)/(2·7200)
		{"AB=6000 CA=5050 BC=2420", base("B", "A"), "B", "A", 1362.825, 0, SwingArcs},               // 6000 − 4637.175
		{"AB=5000 CA=8062.258 BC=4472.136", base("A", "B"), "A", "B", 7000, 2000, SwingArcs},        // C at (7000, 4000)
		{"AB=5000 CA=8062.258 BC=4472.136", base("B", "A"), "A", "B", 7000, 2000, SwingArcs},        // the foot is behind B: zero moves to A
		{"AB=5000 CA=3354.102 BC=7158.911", base("A", "B"), "B", "A", 6500, 1500, SwingArcs},        // C at (−1500, 3000)
		{"AB=10000 CA=4011.234 BC=6007.495", nil, "A", "B", 4000, 0, OffsetSquare},                  // C at (4000, 300)
		{"AB=1000 CA=89005.6 BC=88005.7", base("A", "B"), "A", "B", 88999.9, 87999.9, OffsetSquare}, // needle, C near (89 m, 1 m)
	} {
		s := prepared(t, c.tokens, c.change)
		if s.Baseline.From != c.from || s.Baseline.To != c.to || s.Ways[0].Method != c.method {
			t.Errorf("%s: %+v, %v", c.tokens, s.Baseline, s.Ways[0].Method)
		}
		within := 0.02
		if c.past > 10000 {
			within = 60 // sides given to 0.1 leave that much
		}
		isNear(t, c.tokens+": foot", peg(t, s, "F").Along, c.foot, within)
		isNear(t, c.tokens+": past", s.Square.Past, c.past, within)
		for _, p := range s.Pegs {
			if p.Along < 0 || p.Offset < 0 {
				t.Errorf("%s: peg %s at %v, %v", c.tokens, p.Name, p.Along, p.Offset)
			}
		}
		if text := textOf(t, s); (c.past > 0) != strings.Contains(strings.Join(strings.Fields(text), " "), "Extend the line") {
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
		q := s.Square
		if q.Unit <= 0 || !near(q.Along+q.Up, 7*q.Unit, 1e-9) || !near(q.Across, 5*q.Unit, 1e-9) || q.Across > 50*unit.Foot {
			t.Fatalf("no 3-4-5: %+v in %+v", q, s.Triangle)
		}
		at, leg, top := peg(t, s, q.At).At, peg(t, s, q.Leg).At, peg(t, s, q.Top).At
		if math.Abs(float64(at.Distance(leg)-q.Along)) > 0.06 || math.Abs(float64(leg.Distance(top)-q.Across)) > 0.1 {
			t.Fatalf("the marks do not lie where the square has them: %v %v %v %+v", at, leg, top, q)
		}
		if q.Up > max(s.Triangle.Heights[2], s.Baseline.Length/4) {
			t.Fatalf("the square is too high: %+v", q)
		}
		if !near(q.Loop[2], 12*q.Unit, 1e-9) || !near(q.Loop[1]-q.Loop[0], q.Across, 1e-9) {
			t.Fatalf("loop %v", q.Loop)
		}
		if inches(s.Style) && math.Abs(math.Remainder(float64(q.Unit/unit.Inch), 1)) > 1e-9 || !inches(s.Style) && math.Mod(float64(q.Unit), 50) != 0 {
			t.Fatalf("a tape does not show %v as a round figure", q.Unit)
		}
	}
}

// random is the sheet of a random triangle, on a random baseline; not every one
// can be set out.
func random(t testing.TB, r *rand.Rand, style unit.Style) (Sheet, bool) {
	long := 1000 * math.Pow(100, r.Float64())
	x, y := r.Float64()*1.6-0.3, math.Pow(10, -3*r.Float64())
	p := [3]geom.Point{{}, {X: unit.Length(long)}, {X: unit.Length(long * x), Y: unit.Length(long * y)}}
	tri := geom.Triangle{Names: [3]geom.Name{"A", "B", "C"}, Points: p, Area: unit.Area(long * long * y / 2)}
	for i := range 3 {
		a, b := p[(i+1)%3].Minus(p[i]), p[(i+2)%3].Minus(p[i])
		tri.Sides[i] = p[(i+1)%3].Distance(p[(i+2)%3])
		tri.Angles[i] = unit.Angle(math.Atan2(float64(a.X*b.Y-a.Y*b.X), float64(a.X*b.X+a.Y*b.Y)))
		tri.Heights[i] = 2 * unit.Length(tri.Area) / tri.Sides[i]
	}
	in := Input{Job: "Job", Piece: "Piece", Style: style, Solution: geom.Solution{Answers: []geom.Answer{{Triangle: tri}}}}
	if r.IntN(2) == 0 {
		i := r.IntN(3)
		in.Base = [2]geom.Name{tri.Names[i], tri.Names[(i+1)%3]}
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
	for _, p := range s.allPulls() {
		got[string(p.Use)+string(p.Hold+p.To)] = p.Measured
	}
	for key, want := range map[string]bool{"baselineAB": true, "arcBC": true, "arcAC": false, "heightFC": true, "alongAF": false} {
		if m, ok := got[key]; !ok || m != want {
			t.Errorf("%s measured: %t (there: %t), want %t", key, m, ok, want)
		}
	}
	// More than needed was measured: the sides are adjusted, so they are not as measured.
	over := prepared(t, "AB=6000+-5 CA=5000+-5 BC=5000+-5 C-AB=4004+-5", nil)
	if over.Baseline.Measured || over.told(over.Baseline.Length, over.Baseline.Measured) == "6000" {
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

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		style unit.Style
		l     unit.Length
		want  string
		round float64
	}{
		{unit.Style{}, 4394.789, "4394.8", 4394.8}, {unit.Style{}, 12345.5, "12\u2009345.5", 12345.5}, {unit.Style{Decimals: -1}, 4394.789, "4395", 4395},
		{unit.Style{Unit: unit.CM}, 4394.789, "439.48", 4394.8}, {unit.Style{Unit: unit.M}, 4394.789, "4.395", 4395}, {unit.Style{Unit: unit.M}, 50000, "50.000", 50000},
		{unit.Style{Unit: unit.M, Decimals: 4}, 4394.789, "4.3948", 4394.8},
		{unit.Style{Unit: unit.FT}, 94.5 * 25.4, `7'-10 1/2"`, 2400.3}, {unit.Style{Unit: unit.IN, Denominator: 8}, 94.5 * 25.4, `94 1/2"`, 2400.3},
	} {
		s := Sheet{Style: styled(c.style)}
		if got := s.Figure(c.l); got != c.want {
			t.Errorf("%+v: %q, want %q", c.style, got, c.want)
		}
		isNear(t, c.want, s.Rounded(c.l), c.round, 1e-9)
	}
}
