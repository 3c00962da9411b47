package compare

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"reflect"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

func stakes(at ...float64) (all []Stake) {
	for i := 0; i+1 < len(at); i += 2 {
		all = append(all, Stake{Name: letter(i / 2), At: geom.Point{X: unit.Length(at[i]), Y: unit.Length(at[i+1])}})
	}
	return all
}

func compared(t testing.TB, a Asked) Comparison {
	t.Helper()
	c, err := Compare(a)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

var (
	corner = stakes(0, 0, 4000, 0, 4000, 3000)          // 3-4-5
	oblong = stakes(0, 0, 4000, 0, 4000, 3000, 0, 3000) // two of them
)

// Two pegs and one length: the sum is d²/(τ² + 2σ²), by hand. With a tape of class
// II over 4 m, 1 mm for nail and eye and half a millimetre of rounding τ² = 1.1²/3 +
// 0.25 + 0.5²/3 = 0.7367 for the reading at 4 m, and the peg's σ² = 1.1²/3 + 0.25 =
// 0.6533, with 0.01 that no nail is without. Accepted within √(2.1² + 2.5758²·2·0.6633).
func TestCompareByHand(t *testing.T) {
	c := compared(t, Asked{Pegs: corner[:2], Found: measure(t, "AB=3997")})
	if want := 9 / (0.7366667 + 2*0.6633333); math.Abs(c.Sum-want) > 1e-6 {
		t.Errorf("sum %v, by hand %v", c.Sum, want)
	}
	r := c.Readings[0]
	if half := math.Sqrt(2.1*2.1 + 2.5758*2.5758*2*0.6633333); math.Abs(float64(r.Greatest.Length)-4000-half) > 1e-6 || math.Abs(4000-float64(r.Least.Length)-half) > 1e-6 {
		t.Errorf("accepted %v to %v, by hand ±%v", r.Least.Length, r.Greatest.Length, half)
	}
	if !r.Inside || !c.Passed || r.Off.Length != -3 {
		t.Errorf("%+v", r)
	}
}

// C of a 3-4-5 stands 15 mm too far along AC: AC reads 5015, BC √(3009² + 12²) =
// 3009.024, by hand. AB has nothing to do with it.
func TestOneWrongPegIsOne(t *testing.T) {
	c := compared(t, Asked{Pegs: corner, Found: measure(t, "AB=4000 BC=3009.024 CA=5015")})
	w := c.Wrong()
	if c.Passed || len(w) != 1 || w[0].Name != "C" {
		t.Fatalf("%+v", c.Explanations)
	}
	m := w[0]
	if at := geom.VectorOf(m.At); at.To(geom.Vector{X: 4012, Y: 3009}) > 0.001 || math.Abs(float64(m.Off)-15) > 0.001 {
		t.Errorf("C stands at %v", m.At)
	}
	if m.From != "A" || math.Abs(float64(m.Toward)-15) > 0.001 || math.Abs(float64(m.Left)) > 0.02 {
		t.Errorf("the move is %v towards %s and %v to the left", m.Toward, m.From, m.Left)
	}
	if !slices.Equal(m.Then, []int{1, 2}) || !m.AlongAlone() {
		t.Errorf("%+v", m)
	}
}

// The direction of a move, in each quarter, is what a person reads from the words:
// the peg put where they say comes to its place.
func TestMoveMends(t *testing.T) {
	for deg := 0; deg < 360; deg += 15 {
		s, k := math.Sincos(float64(deg) * math.Pi / 180)
		at := []geom.Vector{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 4000 + 40*k, Y: 3000 + 40*s}, {X: 0, Y: 3000}}
		var found []string
		for j := range at {
			for i := range j {
				found = append(found, fmt.Sprintf("%s%s=%.3fmm", letter(i), letter(j), at[i].To(at[j])))
			}
		}
		c := compared(t, Asked{Pegs: oblong, Found: measure(t, strings.Join(found, " "))})
		if w := c.Wrong(); len(w) != 1 || w[0].Name != "C" {
			t.Fatalf("%d°: %+v", deg, c.Explanations)
		}
		m := c.Wrong()[0]
		seen := geom.VectorOf(standing(c, m.From).Wanted)
		u := at[2].Minus(seen).Unit() // as one looks from there
		end := at[2].Minus(u.Times(float64(m.Toward))).Plus(u.Left().Times(float64(m.Left)))
		if d := end.To(geom.Vector{X: 4000, Y: 3000}); d > 0.02 {
			t.Errorf("%d°: moved %v towards %s and %v to the left, C is %v mm off", deg, m.Toward, m.From, m.Left, d)
		}
	}
}

// US Navy, NAVEDTRA 14043: a rectangle of 40 × 35 ft has a diagonal of 53.1507 ft.
func TestNavyRectangle(t *testing.T) {
	pegs := stakes(0, 0, 40*304.8, 0, 40*304.8, 35*304.8, 0, 35*304.8)
	read := func(tokens ...string) (all []triangle.Measurement) {
		for _, s := range tokens {
			m, err := triangle.ParseMeasurement(s, unit.MM)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, m)
		}
		return all
	}
	c := compared(t, Asked{Pegs: pegs, Found: read("AB=40ft", "BC=35ft", "CD=40ft", "DA=35ft", "AC=53.1507ft", "BD=53.1507ft")})
	if !c.Passed || !c.Fixed || math.Abs(float64(c.Readings[4].Off.Length)) > 0.00005*304.8 {
		t.Errorf("%+v", c.Readings[4])
	}
	// Racked: all sides are right and the diagonals are not alike. Sideways by
	// 2 15/16 in · 53.15/40 = 3 7/8 in, by hand.
	c = compared(t, Asked{Pegs: pegs, Found: read("AB=40ft 0in", "BC=35ft 0in", "CD=40ft 0in", "DA=35ft 0in", "AC=53ft 4 3/4in", "BD=52ft 10 7/8in")})
	if c.Passed || len(c.Explanations) != 1 || c.Explanations[0].Cause != Racked {
		t.Fatalf("%+v", c.Explanations)
	}
	for k, m := range c.Explanations[0].Pegs {
		if m.Name != names("C D")[k] || m.From != names("B A")[k] || math.Abs(float64(m.Left)-3.875*25.4) > 0.05*25.4 {
			t.Errorf("%+v", m)
		}
	}
}

func TestWhatCannotBeToldApart(t *testing.T) {
	for _, x := range []struct {
		pegs  []Stake
		found string
		want  []string // each explanation
		tell  string
	}{
		// One length of a triangle: either end, or the reading.
		{corner, "AB=4000 BC=3000 CA=5014", []string{"CA", "A", "C"}, ""},
		// A quadrangle with one diagonal: the other tells.
		{oblong, "AB=4000 BC=3020 CD=4000 DA=3000 CA=5000", []string{"BC", "B"}, "BD 5000 5012"},
		// With both diagonals only the reading is left.
		{oblong, "AB=4000 BC=3020 CD=4000 DA=3000 CA=5000 BD=5000", []string{"BC"}, ""},
	} {
		c := compared(t, Asked{Pegs: x.pegs, Found: measure(t, x.found)})
		var got []string
		for _, e := range c.Explanations {
			s := ""
			for _, i := range e.Reading {
				s += c.Readings[i].Measurement.Subject()
			}
			for _, m := range e.Pegs {
				s += string(m.Name)
			}
			got = append(got, s)
		}
		if !slices.Equal(got, x.want) {
			t.Errorf("%s: %q, want %q", x.found, got, x.want)
		}
		tell := ""
		if c.Tell != nil {
			tell = string(c.Tell.From + c.Tell.To)
			for _, l := range c.Tell.Reads {
				tell += fmt.Sprintf(" %.0f", l.MM())
			}
		}
		if tell != x.tell {
			t.Errorf("%s: told apart by %q, want %q", x.found, tell, x.tell)
		}
	}
}

// Two pegs of six stand wrong; each is named, with its move.
func TestTwoWrongPegs(t *testing.T) {
	pegs := stakes(0, 0, 8000, 0, 12000, 5000, 8000, 9000, 0, 9000, -4000, 5000)
	at := make([]geom.Vector, len(pegs))
	for i, p := range pegs {
		at[i] = geom.VectorOf(p.At)
	}
	at[1] = at[1].Plus(geom.Vector{X: 30, Y: -10})
	at[4] = at[4].Plus(geom.Vector{X: -5, Y: 40})
	var found []string
	for j := range at {
		for i := range j {
			found = append(found, fmt.Sprintf("%s%s=%.1f", letter(i), letter(j), at[i].To(at[j])))
		}
	}
	c := compared(t, Asked{Pegs: pegs, Found: measure(t, strings.Join(found, " "))})
	w := c.Wrong()
	if len(w) != 2 || w[0].Name != "B" || w[1].Name != "E" {
		t.Fatalf("%+v", c.Explanations)
	}
	for k, i := range []int{1, 4} {
		if d := geom.VectorOf(w[k].At).To(at[i]); d > 0.3 {
			t.Errorf("%s is found %v mm from where it stands", w[k].Name, d)
		}
	}
	if out := c.Outside(); len(out) != 8 {
		t.Error(out)
	}
	// With B mended and E not, what each length to B reads, by hand: BE alone is not
	// what was wanted. It is asked for after E.
	mended := slices.Clone(at)
	mended[1] = geom.VectorOf(pegs[1].At)
	for k, m := range w {
		if k == 1 {
			mended[4] = geom.VectorOf(pegs[4].At)
		}
		for _, i := range m.Then {
			r := c.Readings[i]
			p := r.Measurement.At
			if got := mended[strings.Index("ABCDEF", string(p[0]))].To(mended[strings.Index("ABCDEF", string(p[1]))]); math.Abs(got-r.Wanted.Length.MM()) > 1e-6 {
				t.Errorf("after %s is mended, %s reads %.1f, told is %.1f", m.Name, r.Measurement.Subject(), got, r.Wanted.Length.MM())
			}
		}
		if want := 4 + k; len(m.Then) != want {
			t.Errorf("after %s is mended, %d readings are to be taken, want %d", m.Name, len(m.Then), want)
		}
	}
}

// Four of seven pegs stand wrong: none is named, and it is known what would explain the
// most.
func TestTooManyWrongPegs(t *testing.T) {
	var found []string
	var pegs []Stake
	at := make([]geom.Vector, 7)
	for i := range at {
		s, k := math.Sincos(2 * math.Pi * float64(i) / 7)
		at[i] = geom.Vector{X: math.Round(9000 * k), Y: math.Round(9000 * s)}
		pegs = append(pegs, stakes(at[i].X, at[i].Y)...)
		pegs[i].Name = letter(i)
	}
	for i, off := range map[int]geom.Vector{1: {X: -45, Y: 0}, 2: {X: 0, Y: 60}, 3: {X: 80, Y: 0}, 5: {X: 60, Y: 0}} {
		at[i] = at[i].Plus(off)
	}
	for j := range at {
		for i := range j {
			found = append(found, fmt.Sprintf("%s%s=%.0f", letter(i), letter(j), at[i].To(at[j])))
		}
	}
	c := compared(t, Asked{Pegs: pegs, Found: measure(t, strings.Join(found, " "))})
	if len(c.Explanations) != 0 || c.Nearest == nil || c.Nearest.Agree {
		t.Errorf("%+v", c.Explanations)
	}
}

func TestCompareCautions(t *testing.T) {
	// Four sides do not hold a quadrangle.
	c := compared(t, Asked{Pegs: oblong, Found: measure(t, "AB=4000 BC=3000 CD=4000 DA=3000")})
	if !c.Passed || c.Fixed || c.Next != [2]geom.Name{"B", "D"} || c.ShouldRead("B", "D") != 5000 {
		t.Errorf("%+v", c)
	}
	// A diagonal does; D was not looked at.
	c = compared(t, Asked{Pegs: oblong, Found: measure(t, "AB=4000 BC=3000 AC=5000")})
	if !c.Fixed || !slices.Equal(c.Unseen, []geom.Name{"D"}) {
		t.Errorf("%v", c.Unseen)
	}
	// One reading alone: it may be either peg or the reading.
	c = compared(t, Asked{Pegs: oblong, Found: measure(t, "AB=4020")})
	if len(c.Explanations) != 3 || c.Explanations[1].Pegs[0].Known != 1 {
		t.Errorf("%+v", c.Explanations)
	}
}

// K of ±K√L is the user's; a range that a sheet printed wins; angles and heights.
func TestRanges(t *testing.T) {
	a := Asked{Pegs: oblong, Found: measure(t, "AB=4009 AC=5011 DAB=90.2deg C-AB=3004 BD=5002"), Permitted: 5, Outline: names("A B C D"),
		Ranges: []Range{{"D", "B", 4999, 5001}}}
	c := compared(t, a)
	for i, want := range []struct {
		least, greatest float64
		inside          bool
	}{{3990, 4010, true}, {5000 - 5*math.Sqrt(5), 5000 + 5*math.Sqrt(5), true}, {0, 0, true}, {2990, 3010, true}, {4999, 5001, false}} {
		r := c.Readings[i]
		if r.Inside != want.inside || want.least > 0 && (math.Abs(float64(r.Least.Length)-want.least) > 1e-6 || math.Abs(float64(r.Greatest.Length)-want.greatest) > 1e-6) {
			t.Errorf("%s: %+v", r.Measurement.Text, r)
		}
	}
	// What is printed is what is judged by: outward, what is permitted inward.
	a.Grain, a.Fine = adjust.Figure{Length: 1, Angle: unit.Degree / 10}, adjust.Figure{Length: 0.1}
	c = compared(t, a)
	if r := c.Readings[1]; math.Abs(float64(r.Least.Length)-4988.9) > 1e-9 || math.Abs(float64(r.Greatest.Length)-5011.1) > 1e-9 {
		t.Errorf("%+v", r)
	}
	// By hand: √(2.3² + 2.5758²·(1.1²/3 + 1.3²/3 + 2·0.25 + 2·0.01)) = 3.89.
	a.Permitted = 0
	c = compared(t, a)
	if r := c.Readings[1]; math.Abs(float64(r.Greatest.Length)-5004) > 1e-9 || math.Abs(float64(r.Least.Length)-4996) > 1e-9 {
		t.Errorf("%+v", r)
	}
	a.Found = measure(t, "A=93deg AB=4000")
	c = compared(t, a)
	if r := c.Readings[0]; r.Inside || math.Abs(r.Wanted.Angle.Degrees()-90) > 1e-9 {
		t.Errorf("%+v", r)
	}
}

// A poor reading is no pass: what it leaves open does not widen what is accepted
// beyond what it is without. Ranges by hand: a pull of 4 m is good within
// 0.3 + 0.2·4 + 1 = 2.1, of 5 m within 2.3.
func TestRoughReadings(t *testing.T) {
	exact := compared(t, Asked{Pegs: oblong, Outline: names("A B C D"), Found: measure(t, "AB=4000 AC=5000")})
	for _, x := range []struct {
		found         string
		rough, inside bool
	}{
		{"AB=4000", false, true},
		{"AB=4.00m", true, true}, // ±5 of a range of ±3.9
		{"AB=4m", true, true},
		{"AB=4.3m", true, false},      // it lay inside once, by its own ±50
		{"AB=4300+-400", true, false}, // and so by what was stated
		{"AB=4003+-3", false, true},   // less than is accepted: it counts
		{"AB=4010+-3", false, false},
		{"AB=400cm", true, true},
		{"AC=5m", true, true},
		{"A=90deg", false, true},
	} {
		c := compared(t, Asked{Pegs: oblong, Outline: names("A B C D"), Found: measure(t, x.found)})
		r := c.Readings[0]
		if r.Rough != x.rough || r.Inside != x.inside {
			t.Errorf("%s: rough %t, inside %t: %+v", x.found, r.Rough, r.Inside, r)
		}
		if i := strings.Index("AB AC", x.found[:2]); x.rough && i >= 0 && (r.Least != exact.Readings[i/3].Least || r.Greatest != exact.Readings[i/3].Greatest) {
			t.Errorf("%s: %v to %v is accepted", x.found, r.Least, r.Greatest)
		}
	}
	// Permitted: ±5√5 of 5 m; a stated ±20 is more.
	c := compared(t, Asked{Pegs: oblong, Found: measure(t, "AC=5002+-20"), Permitted: 5})
	if !c.Readings[0].Rough {
		t.Errorf("%+v", c.Readings[0])
	}
	c = compared(t, Asked{Pegs: oblong, Found: measure(t, "AB=40ft"), Permitted: 500})
	if c.Readings[0].Rough {
		t.Errorf("%+v", c.Readings[0])
	}
}

func TestCompareFaults(t *testing.T) {
	many := measure(t, "AB=4000")
	for len(many) <= adjust.MostMeasurements {
		many = append(many, many[0])
	}
	never := measure(t, "AB=4000") // a tolerance of 0, which the reader of tokens refuses already
	never[0].Value.Stated, never[0].Value.Tolerance = true, new(big.Rat)
	for _, x := range []struct {
		a                 Asked
		where, what, hint string
	}{
		{Asked{Pegs: oblong}, "", "nothing was measured back", "give what was found"},
		{Asked{Pegs: oblong, Found: many}, "", "2001 readings", "divide"},
		{Asked{Pegs: oblong, Found: measure(t, "AB=4000 AQ=3000")}, "AQ=3000", "Q was not asked for", "the pegs are A, B, C and D"},
		{Asked{Pegs: oblong, Found: measure(t, "AB=4000 BA=4003")}, "BA=4003", "BA is found twice, as 4000 before", "the mean of both"},
		{Asked{Pegs: oblong, Found: never}, "AB=4000", "a tolerance of 0", "leave the tolerance out"},
		{Asked{Pegs: append(slices.Clone(oblong), oblong[0]), Found: measure(t, "AB=4000")}, "A", "asked for twice", "once"},
		{Asked{Pegs: stakes(0, 0, 4000, 0, 4000, 0.5), Found: measure(t, "AB=4000")}, "B and C", "0.5 mm apart", "one name"},
	} {
		_, err := Compare(x.a)
		var f *unit.Fault
		if !errors.As(err, &f) || f.Of != x.where || !strings.Contains(f.What, x.what) || !strings.Contains(f.Hint, x.hint) {
			t.Errorf("%q %q: %#v", x.where, x.what, err)
		}
	}
}

// large is a grid of pegs, each taped to those around it, one of them wrong.
func large(t testing.TB, n int) Asked {
	a := Asked{}
	at := func(i int) geom.Vector { return geom.Vector{X: 4000 * float64(i%16), Y: 3000 * float64(i/16)} }
	for i := range n {
		a.Pegs = append(a.Pegs, Stake{Name: geom.Name(fmt.Sprintf("P%d", i)), At: geom.Point{X: unit.Length(at(i).X), Y: unit.Length(at(i).Y)}})
	}
	var found []string
	for j := range n {
		for i := range j {
			if d := at(i).To(at(j)); d < 8500 {
				p := at(j)
				if j == n/2 {
					p = p.Plus(geom.Vector{X: 40, Y: 30})
				}
				q := at(i)
				if i == n/2 {
					q = q.Plus(geom.Vector{X: 40, Y: 30})
				}
				found = append(found, fmt.Sprintf("P%dP%d=%.1f", i, j, p.To(q)))
			}
		}
	}
	a.Found = measure(t, strings.Join(found[:min(len(found), adjust.MostMeasurements)], " "))
	return a
}

func TestLargeAndTwice(t *testing.T) {
	a := large(t, 60)
	c := compared(t, a)
	if w := c.Wrong(); len(w) != 1 || w[0].Name != "P30" || geom.VectorOf(w[0].At).To(geom.VectorOf(w[0].Wanted).Plus(geom.Vector{X: 40, Y: 30})) > 0.5 {
		t.Fatalf("%+v", c.Explanations)
	}
	if again := compared(t, a); !reflect.DeepEqual(c, again) {
		t.Error("two runs differ")
	}
}

func BenchmarkCompare250(b *testing.B) {
	a := large(b, adjust.MostPoints)
	b.ReportMetric(float64(len(a.Found)), "readings")
	for b.Loop() {
		if c := compared(b, a); len(c.Wrong()) != 1 {
			b.Fatal("not named")
		}
	}
}
