package calibrate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/unit"
)

// printed is a printer of the kind that the figures are for: each scale 0.985 to
// 1.015, skew up to 0.3° either way.
func printed(random *rand.Rand) geom.Distortion {
	one := func() float64 { return 2*random.Float64() - 1 }
	return geom.Distortion{Across: 0.015 * one(), Along: 0.015 * one(), Skew: unit.Angle(0.3*one()) * unit.Degree}
}

// readBy is what a careful person reads of a sheet from that printer: by eye to the
// nearest quarter; by the ticks, the one that is nearest to a mark of the rule.
func readBy(s Sheet, d geom.Distortion) Readings {
	r := s.Blank()
	file, _ := r.Corrected.Affine().Inverse()
	m := d.Affine().After(file)
	var found [4]unit.Length
	for i, v := range r.over() {
		long, came := v.Distance(geom.Point{}).MM(), m.Apply(v).Distance(geom.Point{}).MM()
		if !r.Fine {
			found[i] = unit.Length(math.Round(came/0.25) * 0.25)
			continue
		}
		start := tickStart(r.Width, r.Height, i >= 2).MM()
		tick, least := 0, math.Inf(1)
		for k := range 10 {
			at := came * (long - start - 1.1*float64(k)) / long
			if off := math.Abs(at - math.Round(at)); off < least {
				tick, least = k, off
			}
		}
		// The whole millimetres that bring it nearest to where the cross stands.
		tenths := float64(tick) / 10
		found[i] = unit.Length(math.Round(came-tenths) + tenths)
	}
	r.AB, r.AD, r.AC, r.BD = found[0], found[1], found[2], found[3]
	return r
}

// rate is how a paper serves, over many printers.
type rate struct {
	quarter float64 // printers of which no length, in whatever direction, is off by more than 0.25 mm per metre
	lengths float64 // lengths, in a direction taken at random, that are not
	within  float64 // printers of which no length is off by more than was predicted
	predict float64 // the prediction, mm per metre
	refused int
}

func serve(t testing.TB, s Sheet, sheets, printers int, seed uint64) rate {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 7))
	var r rate
	var u float64
	for i := range printers {
		d := printed(random)
		var all []Readings
		var fit geom.Fit
		s.Number, s.Corrected = 1, geom.Distortion{}
		for range sheets {
			q := readBy(s, d)
			all = append(all, q)
			err := q.Check("A4")
			if err == nil {
				fit, err = Solve(all)
			}
			if err != nil {
				r.refused++
				break
			}
			s.Number, s.Corrected = s.Number+1, fit.Distortion
		}
		if len(all) < sheets {
			continue
		}
		if i%100 == 0 { // hardly changes from printer to printer
			u = fit.Uncertainty()
			r.predict = 1000 * u
		}
		back, _ := fit.Affine().Inverse()
		left := d.Affine().After(back)
		e := distortionOf(left)
		if e.Worst() <= 0.00025 {
			r.quarter++
		}
		if e.Worst() <= u {
			r.within++
		}
		v := geom.Point{}.Toward(unit.Angle(random.Float64())*unit.Turn, 1)
		if math.Abs(left.Apply(v).Distance(geom.Point{}).MM()-1) <= 0.00025 {
			r.lengths++
		}
	}
	n := float64(printers)
	r.quarter, r.within, r.lengths = 100*r.quarter/n, 100*r.within/n, 100*r.lengths/n
	return r
}

// distortionOf is what a map does to lines across and along.
func distortionOf(m geom.Affine) geom.Distortion {
	x, y := math.Hypot(m[0], m[1]), math.Hypot(m[2], m[3])
	return geom.Distortion{Across: x - 1, Along: y - 1, Skew: unit.Angle(-math.Asin((m[0]*m[2] + m[1]*m[3]) / (x * y)))}
}

func onPaper(name string, w, h unit.Length) Sheet {
	return Sheet{Printer: "shed", Paper: name, Width: w, Height: h, Inset: 10, Number: 1, Says: flagged}
}

// flagged says what to type as a command line does.
func flagged(of unit.Subject, value string, _ bool) string {
	return strings.TrimSpace("--" + string(of) + " " + value)
}

// What can be reached, paper by paper, with 4000 printers each in the gate. From one sheet, read
// by eye, a quarter of a millimetre per metre takes A2 for lengths and A1 for the
// worst of them; with the corrected sheet, read by its ticks, A4 has it for lengths.
// The prediction covers 95 of 100 throughout.
func TestWhatCanBeReached(t *testing.T) {
	for _, c := range []struct {
		sheet            Sheet
		sheets           int
		lengths, quarter float64 // at least, per cent
		most             float64 // of lengths: what is not reached is not claimed
	}{
		{onPaper("A4", 210, 297), 1, 60, 15, 75},
		{onPaper("A4", 210, 297), 2, 98, 90, 100},
		{onPaper("A4", 210, 297), 3, 99, 98, 100},
		{onPaper("Letter", 215.9, 279.4), 1, 60, 15, 75},
		{onPaper("Letter", 215.9, 279.4), 2, 98, 92, 100},
		{onPaper("A3", 297, 420), 1, 80, 40, 92},
		{onPaper("A3", 297, 420), 2, 99, 98, 100},
		{onPaper("A2", 420, 594), 1, 95, 78, 99},
		{onPaper("A1", 594, 841), 1, 99, 97, 100},
	} {
		name := fmt.Sprintf("%s, %d", c.sheet.Paper, c.sheets)
		r := serve(t, c.sheet, c.sheets, gate.Of(1000, 4000), 11)
		t.Logf("%-12s within 0.25 mm/m: lengths %.1f %%, worst %.1f %%; predicted %.3f, covers %.1f %%; refused %d", name, r.lengths, r.quarter, r.predict, r.within, r.refused)
		if r.lengths < c.lengths || r.lengths > c.most {
			t.Errorf("%s: %.1f %% of lengths within a quarter, want %v to %v", name, r.lengths, c.lengths, c.most)
		}
		if r.quarter < c.quarter {
			t.Errorf("%s: %.1f %% of printers within a quarter, want %v", name, r.quarter, c.quarter)
		}
		// A third sheet repeats what the second left of a tenth from its other side:
		// the readings are no longer independent, and the prediction is cautious.
		if top := []float64{0, 97, 97, 100}[c.sheets]; r.within < 93 || r.within > top {
			t.Errorf("%s: the prediction covers %.1f %%, want 93 to %v", name, r.within, top)
		}
		if r.refused > 0 {
			t.Errorf("%s: %d honest readings refused", name, r.refused)
		}
	}
}

// A slip in one reading that is larger than the limit is refused, and the reading
// that slipped is mostly the one that is to be repeated first.
func TestSlips(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	s := onPaper("A4", 210, 297)
	named, refused, tried := 0, 0, 0
	for range 2000 {
		r := readBy(s, printed(random))
		slip := unit.Length(2+8*random.Float64()) * unit.Length(1-2*float64(random.IntN(2)))
		which := random.IntN(4)
		*[]*unit.Length{&r.AB, &r.AD, &r.AC, &r.BD}[which] += slip
		tried++
		if r.Check("A4") == nil {
			continue
		}
		refused++
		if math.Abs(r.Closing().MM()) > 0.6 && r.suspects()[0].name == names[which] {
			named++
		}
	}
	t.Logf("%d slips of 2 to 10 mm: %d refused, the right reading named %d times", tried, refused, named)
	if refused < tried {
		t.Errorf("%d slips of 2 mm or more pass", tried-refused)
	}
	if named*100 < refused*50 {
		t.Errorf("of %d slips %d are named", refused, named)
	}
}
