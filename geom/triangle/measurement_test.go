package triangle

import (
	"errors"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

func TestParseMeasurement(t *testing.T) {
	for _, c := range []struct {
		token   string
		bare    unit.Unit
		kind    Kind
		at      [3]geom.Name
		value   float64 // mm or degrees
		subject string
	}{
		{"AB=2400", unit.MM, Distance, [3]geom.Name{"A", "B"}, 2400, "AB"},
		{"AB=94.5", unit.IN, Distance, [3]geom.Name{"A", "B"}, 2400.3, "AB"},
		{`AB=7'-10 1/2"`, unit.MM, Distance, [3]geom.Name{"A", "B"}, 2400.3, "AB"},
		{"  AB = 2.4m ", unit.MM, Distance, [3]geom.Name{"A", "B"}, 2400, "AB"},
		{"AB=2400+-2", unit.MM, Distance, [3]geom.Name{"A", "B"}, 2400, "AB"},
		{"AB=2400±2", unit.MM, Distance, [3]geom.Name{"A", "B"}, 2400, "AB"},
		{"K2L10=5", unit.FT, Distance, [3]geom.Name{"K2", "L10"}, 1524, "K2L10"},
		{"AA1=5", unit.MM, Distance, [3]geom.Name{"A", "A1"}, 5, "AA1"},
		{"A=35deg", unit.MM, Angle, [3]geom.Name{"", "A", ""}, 35, "A"},
		{"A=35", unit.FT, Angle, [3]geom.Name{"", "A", ""}, 35, "A"},
		{"A12=35°30'", unit.MM, Angle, [3]geom.Name{"", "A12", ""}, 35.5, "A12"},
		{"BAC=35d", unit.MM, Angle, [3]geom.Name{"B", "A", "C"}, 35, "BAC"},
		{"BAC=1:1", unit.MM, Angle, [3]geom.Name{"B", "A", "C"}, 45, "BAC"},
		{"C-AB=620", unit.MM, Height, [3]geom.Name{"C", "A", "B"}, 620, "C-AB"},
		{"C–AB=620", unit.MM, Height, [3]geom.Name{"C", "A", "B"}, 620, "C-AB"},
		{"C3-A1B2=62cm", unit.MM, Height, [3]geom.Name{"C3", "A1", "B2"}, 620, "C3-A1B2"},
	} {
		m, err := ParseMeasurement(c.token, c.bare)
		if err != nil {
			t.Errorf("%s: %v", c.token, err)
			continue
		}
		value, _ := m.Value.Value.Float64()
		if m.Kind != c.kind || m.At != c.at || value != c.value || m.Subject() != c.subject {
			t.Errorf("%s: %v %q %v %s", c.token, m.Kind, m.At, value, m.Subject())
		}
		if m.Text != strings.TrimSpace(c.token) || m.Where != "" {
			t.Errorf("%s: text %q, where %q", c.token, m.Text, m.Where)
		}
		for _, p := range m.Points() {
			if p == "" {
				t.Errorf("%s: points %q", c.token, m.Points())
			}
		}
		if m.Value.Stated != strings.ContainsAny(c.token, "+±") {
			t.Errorf("%s: stated %v", c.token, m.Value.Stated)
		}
	}
}

func TestNotAMeasurement(t *testing.T) {
	for _, c := range []struct{ token, err, hint string }{
		{"", "no measurement is written", ""},
		{"AB", `"AB" is not a measurement: it has no =`, "AB=2400"},
		{"AB: 2400", `"AB: 2400" is not a measurement: it has no =`, "AB=2400"},
		{"CA=12OO", `CA=12OO: "12OO" is not a length`, "1200"},
		{"=5", "=5: nothing stands before the =", "AB=2400"},
		{"AB=", "AB=: no length is written", ""},
		{"A=", "A=: no angle is written", ""},
		{"AB==5", `AB==5: "=5" is not a length`, ""},
		{"AB=5=6", `AB=5=6: "5=6" is not a length`, ""},
		{"ab=2400", `ab=2400: "ab" has a small letter`, "write AB"},
		{"Ab=2400", `Ab=2400: "Ab" has a small letter`, "write AB"},
		{"bac=35", `bac=35: "bac" has a small letter`, "write BAC"},
		{"c-ab=620", `c-ab=620: "c-ab" has a small letter`, "write C-AB"},
		{"aa=5", `"aa" names no points`, "capital letter"},
		{"AA=5", `AA=5: "AA" names A twice`, "AB=2400"},
		{"ABA=5", `ABA=5: "ABA" names A twice`, ""},
		{"AAB=5", `"AAB" names A twice`, ""},
		{"A-AB=5", `A-AB=5: "A-AB" names A twice`, ""},
		{"C-AA=5", `"C-AA" names A twice`, ""},
		{"AB-C=620", `"AB-C" is no height`, "C-AB"},
		{"A-B=620", `"A-B" is neither a distance nor a height`, "AB"},
		{"A-BCD=5", `"A-BCD" is no height`, "C-AB=620"},
		{"AB-CD=5", `"AB-CD" is no height`, "C-AB=620"},
		{"ABCD=5", `"ABCD" names 4 points`, "one or three"},
		{"A--B=5", `"A--B" names no points`, ""},
		{"-AB=5", `"-AB" names no points`, ""},
		{"AB-=5", `"AB-" names no points`, ""},
		{"A B=5", `"A B" names no points`, ""},
		{"1A=5", `"1A" names no points`, ""},
		{"A01B=5", `"A01B" names no points`, ""},
		{"A1234=5", `"A1234" names no points`, ""},
		{"ÄB=5", `"ÄB" names no points`, "A to Z"},
		{"∠A=5", `"∠A" names no points`, ""},
		{"A=2400", `A=2400: "2400" is not between 0° and 180°`, "a distance has two"},
		{"A=2400mm", `A=2400mm: "2400mm" is not an angle`, "a distance has two"},
		{"BAC=7ft 10in", "is not an angle", "a distance has two"},
		{"AB=35deg", `AB=35deg: "35deg" is not a length`, "A=35deg or BAC=35deg"},
		{"AB=1:12", `AB=1:12: "1:12" is not a length`, "A=35deg or BAC=35deg"},
		{"AB=0.5", `AB=0.5: "0.5" is less than 1 mm`, "a bare number counts mm"},
		{"AB=2,400", `AB=2,400: "2,400" can be read in two ways`, "2400"},
		{"AB=0", `AB=0: "0" is no length at all`, ""},
		{"A=180", "not between 0° and 180°", ""},
		{"A\nB=5", `"A\nB=5": "A\nB" names no points`, ""},
		{"AB=5\n6", `"AB=5\n6": "5\n6" is not a length`, ""},
		{"AB=\xff", "is not text", "UTF-8"},
		{"AB=" + strings.Repeat("1", 62), "is too long for a measurement", "64 characters"},
	} {
		_, err := ParseMeasurement(c.token, unit.MM)
		var f *unit.Fault
		if !errors.As(err, &f) {
			t.Errorf("%q: %v", c.token, err)
			continue
		}
		if !strings.Contains(f.Error(), c.err) || !strings.Contains(f.Hint, c.hint) {
			t.Errorf("%q: %s, hint %q; want %s, hint %q", c.token, f, f.Hint, c.err, c.hint)
		}
		if strings.ContainsAny(f.Error()+f.Hint, "\n\r") {
			t.Errorf("%q: not one line: %q, %q", c.token, f, f.Hint)
		}
	}
}

func TestSame(t *testing.T) {
	groups := [][]string{
		{"AB=5", "BA=6"},
		{"AC=5", "CA=1m"},
		{"A=5", "BAC=6", "CAB=7"},
		{"B=5", "ABC=6", "CBA=7"},
		{"C-AB=5", "C-BA=6"},
		{"A-BC=5", "A-CB=6"},
	}
	for i, g := range groups {
		for j, h := range groups {
			for _, a := range g {
				for _, b := range h {
					m, err := ParseMeasurement(a, unit.MM)
					n, err2 := ParseMeasurement(b, unit.MM)
					if err != nil || err2 != nil {
						t.Fatal(err, err2)
					}
					if got := m.Same(n); got != (i == j) {
						t.Errorf("%s and %s: same %v", a, b, got)
					}
				}
			}
		}
	}
	m, _ := ParseMeasurement("BAC=6", unit.MM)
	n, _ := ParseMeasurement("BAD=6", unit.MM)
	if m.Same(n) {
		t.Error("BAC and BAD are the same")
	}
}

// What is read names one to three different points, and reads as the same when
// it is put together again.
func FuzzMeasurement(f *testing.F) {
	for _, token := range []string{
		"AB=2400", "A=35deg", "BAC=35°30'", "C-AB=620", "AB=2400+-2", "K2L10=7ft 10 1/2in", " AB = 2,4m ", "ab=5", "AA=5", "ABCD=5", "A-AB=5",
		"AB=12OO", "A=2400", "AB=35deg", "AB", "=", "C–AB=6in", "\xff=1",
	} {
		f.Add(token, byte(0))
	}
	f.Fuzz(func(t *testing.T, token string, bare byte) {
		u := unit.Unit(bare % 5)
		m, err := ParseMeasurement(token, u)
		if err != nil {
			var fault *unit.Fault
			if !errors.As(err, &fault) || fault.What == "" || strings.ContainsAny(fault.Error()+fault.Hint, "\n\r\x1b") || len(fault.Error()) > 1000 {
				t.Fatalf("%q: %q", token, err)
			}
			return
		}
		points := m.Points()
		if len(points) < 1 || len(points) > 3 {
			t.Fatalf("%q names %q", token, points)
		}
		for i, p := range points {
			for _, q := range points[:i] {
				if p == q {
					t.Fatalf("%q names %q", token, points)
				}
			}
		}
		again, err := ParseMeasurement(m.Subject()+"="+m.Value.Text, u)
		if err != nil || !m.Same(again) || !again.Same(m) || m.At != again.At || again.Value.Value.Cmp(m.Value.Value) != 0 {
			t.Fatalf("%q reads again as %v, %v", token, again, err)
		}
	})
}
