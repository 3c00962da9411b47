package net

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/slip"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// yard is a quadrilateral of 4000 by 3000 with a point E inside; its true
// distances come from its coordinates, by Pythagoras.
var yard = map[byte]geom.Vector{'A': {X: 0, Y: 0}, 'B': {X: 4000, Y: 0}, 'C': {X: 4200, Y: 3000}, 'D': {X: -100, Y: 3300}, 'E': {X: 1900, Y: 1500}}

// read is the distances with those given instead of the true ones.
func read(lines string, instead map[string]string) string {
	var all []string
	for _, l := range strings.Fields(lines) {
		value := fmt.Sprintf("%.0f", yard[l[0]].To(yard[l[1]]))
		if v, ok := instead[l]; ok {
			value = v
		}
		all = append(all, l+"="+value+"+-4")
	}
	return strings.Join(all, " ")
}

const yardLines = "AB BC CD DA AC DB AE BE CE DE"

// explained says whether the first suspect has a slip of a kind and size, in mm or rad,
// to a tenth of it.
func explained(a Adjusted, kind slip.Kind, by float64) bool {
	k := a.Results[a.Suspects[0].Index].Measurement.Kind
	return slices.ContainsFunc(a.Suspects[0].Slips, func(s slip.Slip) bool { return s.Kind == kind && math.Abs(s.By.Bare(k)-by) < 0.1*math.Abs(by) })
}

// With feet and inches the slips are feet and inches, with angles the other scale.
func TestSlipsOfTheTools(t *testing.T) {
	lines := map[string]string{}
	for _, l := range strings.Fields(yardLines) {
		lines[l] = fmt.Sprintf("%.2fin", yard[l[0]].To(yard[l[1]])/25.4)
	}
	lines["DB"] = fmt.Sprintf("%.2fin", yard['D'].To(yard['B'])/25.4+12)
	var text []string
	for _, l := range strings.Fields(yardLines) {
		text = append(text, l+"="+lines[l]+"+-0.15in")
	}
	a := adjusted(t, Net{Outline: names("A B C D"), Measured: measure(t, strings.Join(text, " "))})
	if !explained(a, slip.Misread, 304.8) {
		t.Errorf("%+v", a.Suspects)
	}
	o := adjust.Observation{Kind: triangle.Angle, At: [3]int{0, 1, 2}, N: 3}
	abc := o.Unsigned([]geom.Vector{yard['A'], yard['B'], yard['C']}) * 180 / math.Pi // 93.8°
	for value, want := range map[float64]slip.Kind{180 - abc: slip.OtherScale, abc + 10: slip.Misread} {
		text := read(yardLines, nil) + fmt.Sprintf(" ABC=%.1fdeg+-0.5deg", value)
		a = adjusted(t, Net{Outline: names("A B C D"), Measured: measure(t, text)})
		if len(a.Suspects) == 0 {
			t.Errorf("%.1f° is not noticed", value)
		} else if by := (value - abc) * math.Pi / 180; !explained(a, want, by) {
			t.Errorf("%.1f°: %+v", value, a.Suspects[0])
		}
	}
}

// A braced quadrilateral has one measurement more than it needs: any slip in it
// could be in any of the six, and none is blamed alone.
func TestNoTellingWhich(t *testing.T) {
	a := adjusted(t, Net{Outline: names("A B C D"), Measured: measure(t, read("AB BC CD DA AC DB", map[string]string{"DB": "5293"}))})
	if a.Freedom != 1 || a.Global.Passed {
		t.Fatalf("%+v", a.Global)
	}
	for i, s := range a.Suspects {
		if !s.Alike {
			t.Errorf("suspect %d counts as told apart", i)
		}
	}
	if len(a.Suspects) != 6 {
		t.Errorf("%+v", a.Suspects)
	}
	sum := 0.0
	for _, r := range a.Results {
		sum += r.Redundancy
		if math.Abs(math.Abs(r.W)-math.Sqrt(a.Sum)) > 1e-9 {
			t.Errorf("%s: w %v, want √Σ = %v alike for all", r.Measurement.Text, r.W, math.Sqrt(a.Sum))
		}
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("redundancies sum to %v", sum)
	}
}

// Three angles that do not make 180° by more than they allow.
func TestAngleSum(t *testing.T) {
	sides := "AB=4000 BC=3000 CA=5000 "
	for angles, warned := range map[string]bool{
		"ABC=90deg+-0.2deg BCA=53.1deg+-0.2deg CAB=36.9deg+-0.2deg": false,
		"ABC=90deg+-0.2deg BCA=53.5deg+-0.2deg CAB=37deg+-0.2deg":   false,
		"ABC=90deg+-0.2deg BCA=53.9deg+-0.2deg CAB=36.9deg+-0.2deg": true,
		"B=90deg+-0.2deg C=53.9deg+-0.2deg A=36.9deg+-0.2deg":       true,
	} {
		a := adjusted(t, Net{Measured: measure(t, sides+angles)})
		said := slices.ContainsFunc(a.Doubts, func(d Doubt) bool {
			return d.Kind == AngleSum && math.Abs(d.Sum.Degrees()-180.8) < 1e-9 && math.Abs(d.Allowed.Degrees()-0.6) < 1e-9
		})
		if said != warned {
			t.Errorf("%s: %+v", angles, a.Doubts)
		}
	}
}

// What fixes no net says which point hangs free and what would fix it.
func TestNotFixed(t *testing.T) {
	for _, c := range []struct{ measured, outline, what, hint string }{
		{"AB=4000 BC=3000 CD=4100 AC=5000", "A B C D", "D hangs free: only CD=4100 holds it to A, B and C", "measure DA as well|measure AD as well"},
		{"AB=4000 BC=3000 CA=5000 DE=3000 EF=3000 FD=3000", "", "the net is in two halves: nothing is measured from A, B or C to D, E or F", "measure from one to the other, three things such as AD, AE and BD"},
		{"AB=4000 BC=3000 CA=5000 DE=3000", "", "two halves", "AD"},
		{"AB=4000 BC=3000 CA=5000 CD=2000 DE=3000 EC=3000", "A B C D E", "D hangs free|D and E", "measure"},
		{"ABC=60deg BCA=60deg CAB=60deg", "", "no length is measured", "AB"},
		{"AB=4000 BC=3000 CA=5000 AD=800 CD=1000", "A B C D", "AD=800 and CD=1000 do not meet: AC is 5000 mm, 3200 mm more than both together", "measure them again, and AC"},
		{"AB=4000 BC=3000 CA=5000 AD=8000 CD=1000", "A B C D", "AD=8000 and CD=1000 do not meet: they differ by 7000 mm and AC is only 5000 mm", "measure them again"},
		{"AB=4000 BC=3000 CA=5000 C-DE=500", "", "C-DE=500 goes to the line DE, and nothing fixes", "measure AD and BD"},
		{"AB=4000 BC=3000 CA=5000 AD=2500 CD=4000", "", "the points may lie in 2 ways that fit: (1) D ", "say which, as side: [D "},
		{"AB=4000 BC=3000 CA=5000 AD=2500 AD=2501", "A B C D", "go to the same point", "measure "},
		{"AB=4000", "", "", ""}, // two points are a line and fixed
		{"A-BC=3000", "", "no triangle of the net is fixed", "AB"},
		{"AB=4000 AC=5000 BAC=0.001deg", "", "", ""},
		// Two triangles on three bars: fixed, but no triangle leads on.
		{"AB=4000 BC=4000 CA=4000 DE=1000 EF=1000 FD=1000 AD=1700 BE=1800 CF=1750", "A B C", "no triangle leads from A, B and C on to D", "measure BD"},
	} {
		a, err := Adjust(Net{Outline: names(c.outline), Measured: measure(t, c.measured)})
		if c.what == "" {
			if err != nil {
				t.Errorf("%s: %v", c.measured, err)
			}
			continue
		}
		var e *triangle.NoTriangle
		if !errors.As(err, &e) {
			t.Errorf("%s: %v, %v", c.measured, err, a.Points)
			continue
		}
		one := func(text, of string) bool {
			for _, part := range strings.Split(of, "|") {
				if strings.Contains(text, part) {
					return true
				}
			}
			return false
		}
		if !one(e.What, c.what) || !one(e.Hint, c.hint) {
			t.Errorf("%s: %s\n  %s\nwant %s\n  %s", c.measured, e.What, e.Hint, c.what, c.hint)
		}
	}
}

// Words that cannot be meant are a fault that says where.
func TestNetFaults(t *testing.T) {
	square := "AB=4000 BC=3000 CD=4000 DA=3000 AC=5000 "
	ok := measure(t, square)
	zero := measure(t, "AB=4000+-1 BC=3000 CA=5000")
	zero[0].Value.Tolerance.SetInt64(0)
	for name, c := range map[string]struct {
		net   Net
		about unit.Subject
		of    string // it, or the place where it is said
		what  string
	}{
		"nothing":            {Net{}, unit.Unsaid, "", "nothing is measured"},
		"tolerance of 0":     {Net{Measured: zero}, unit.Measured, "AB=4000+-1", "a tolerance of 0"},
		"many":               {Net{Measured: make([]triangle.Measurement, 10000)}, unit.Unsaid, "", "10000 measurements"},
		"outline stranger":   {Net{Measured: ok, Outline: names("A B C X")}, unit.Outline, "ABCX", "no measurement goes to X"},
		"outline twice":      {Net{Measured: ok, Outline: names("A B C B")}, unit.Outline, "ABCB", "B stands there twice"},
		"outline of two":     {Net{Measured: ok, Outline: names("A B")}, unit.Outline, "AB", "encloses nothing"},
		"side stranger":      {Net{Measured: ok, Sides: []Side{{Point: "X"}}}, unit.SideOf, "X", "no measurement goes to X"},
		"side of itself":     {Net{Measured: ok, Sides: []Side{{Point: "D", Of: [2]geom.Name{"D", "A"}}}}, unit.SideOf, "D", "two other points"},
		"base of one":        {Net{Measured: ok, Base: [2]geom.Name{"A", "A"}}, unit.Base, "AA", "two points"},
		"one control":        {Net{Measured: ok, Control: []Control{{Name: "A"}}}, unit.Control, "A", "one known point"},
		"control on control": {Net{Measured: ok, Control: []Control{{Name: "A"}, {Name: "B"}}}, unit.Control, "B", "it lies where A lies"},
		"which angle":        {Net{Measured: measure(t, square+"A=90deg")}, unit.Measured, "A=90deg", "3 measured lines meet at A"},
		"coincide":           {Net{Measured: measure(t, "AB=4000 AC=3000 BC=3000 AD=3000 BD=3000.3"), Sides: []Side{{Point: "D", Of: [2]geom.Name{"A", "B"}}, {Point: "C", Of: [2]geom.Name{"A", "B"}}}}, unit.Measured, "C and D", "mm apart"},
		"no kind":            {Net{Measured: []triangle.Measurement{{At: [3]geom.Name{"A"}}}}, unit.Measured, "A", "not those of a length"},
		"no value":           {Net{Measured: []triangle.Measurement{{At: [3]geom.Name{"A", "B"}}}}, unit.Measured, "AB", "no value"},
		"twice":              {Net{Measured: []triangle.Measurement{{At: [3]geom.Name{"A", "A"}}}}, unit.Measured, "AA", "named twice"},
	} {
		_, err := Adjust(c.net)
		var f *unit.Fault
		if !errors.As(err, &f) {
			t.Errorf("%s: %v", name, err)
		} else if f.Subject != c.about || !strings.Contains(f.Where+f.Of, c.of) || !strings.Contains(f.What, c.what) {
			t.Errorf("%s: %v, want %v %s: %s", name, f, c.about, c.of, c.what)
		}
	}
}
