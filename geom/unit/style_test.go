package unit

import (
	"bufio"
	"math"
	"os"
	"strings"
	"testing"
)

// Every line of testdata/written.txt, made by testdata/written.py.
func TestWrittenAgainstPython(t *testing.T) {
	file, err := os.Open("testdata/written.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines := 0
	for in := bufio.NewScanner(file); in.Scan(); lines++ {
		f := strings.Split(in.Text(), " | ")
		kind, text, _ := strings.Cut(f[0], " ")
		var got []string
		if kind == "mm" {
			l, err := ParseSetting(text+"mm", MM, 0, 2*Longest)
			if err != nil {
				t.Fatal(err)
			}
			got = []string{Style{}.Length(l), Style{Unit: FT}.Length(l), Style{Unit: IN, Denominator: 64}.Length(l), Style{Unit: M, Decimals: 3}.Length(l)}
		} else {
			r, err := ParseAngle(text)
			if err != nil {
				t.Fatal(err)
			}
			got = []string{Style{}.Angle(r.Angle()), Style{Minutes: true}.Angle(r.Angle())}
		}
		if strings.Join(got, "|") != strings.Join(f[1:], "|") {
			t.Errorf("%s: %q, want %q", f[0], got, f[1:])
		}
	}
	if lines < 500 {
		t.Fatalf("only %d lines in the table", lines)
	}
}

func TestStyleLength(t *testing.T) {
	third := Length(100.0 / 3)
	for _, c := range []struct {
		style Style
		l     Length
		want  string
	}{
		{Style{}, 2400, "2400"},
		{Style{}, 2400.04, "2400"},
		{Style{}, 2400.05, "2400.1"},
		{Style{}, third, "33.3"},
		{Style{}, 0, "0"},
		{Style{}, Length(math.Copysign(0, -1)), "0"},
		{Style{}, -0.04, "0"},
		{Style{}, -0.05, "−0.1"},
		{Style{}, -2400.5, "−2400.5"},
		{Style{}, 9999.9, "9999.9"},
		{Style{}, 9999.95, "10\u2009000"},
		{Style{}, 12345.5, "12\u2009345.5"},
		{Style{}, 123456.7, "123\u2009456.7"},
		{Style{}, 1e6, "1\u2009000\u2009000"},
		{Style{Decimals: -1}, 2400.5, "2401"},
		{Style{Decimals: 3}, 2400.1005, "2400.101"},
		{Style{Decimals: 3}, 2400.1, "2400.1"},
		{Style{Unit: CM}, 2400.5, "240.05"},
		{Style{Unit: CM, Decimals: 1}, 2400.5, "240.1"},
		{Style{Unit: M}, 2400.5, "2.4005"},
		{Style{Unit: M, Decimals: 2}, 2400, "2.4"},
		{Style{Unit: M}, 1e6, "1000"},
		{Style{Unit: IN}, 2400.3, `94 1/2"`},
		{Style{Unit: IN}, 12.7, `1/2"`},
		{Style{Unit: IN}, 25.4, `1"`},
		{Style{Unit: IN}, 0, `0"`},
		{Style{Unit: IN}, 0.7, `0"`},
		{Style{Unit: IN}, 0.8, `1/16"`},
		{Style{Unit: IN}, -38.1, `−1 1/2"`},
		{Style{Unit: IN}, 1e6, "39\u2009370 1/16\""},
		{Style{Unit: FT}, 2400.3, `7'-10 1/2"`},
		{Style{Unit: FT}, 2133.6, `7'-0"`},
		{Style{Unit: FT}, 2146.3, `7'-0 1/2"`},
		{Style{Unit: FT}, 266.7, `10 1/2"`},
		{Style{Unit: FT}, 304.7, `1'-0"`}, // 11.996 in carries into the next foot
		{Style{Unit: FT}, 304, `11 15/16"`},
		{Style{Unit: FT}, -2400.3, `−7'-10 1/2"`},
		{Style{Unit: FT, Denominator: 8}, 2400.3 + 1.5875, `7'-10 5/8"`}, // half of an eighth goes up
		{Style{Unit: FT, Denominator: 8}, 2400.3 + 1.58, `7'-10 1/2"`},
		{Style{Unit: FT, Denominator: 32}, 2400.3 + 25.4/32, `7'-10 17/32"`},
		{Style{Unit: FT, Denominator: 64}, 2400.3 + 25.4/64, `7'-10 33/64"`},
		{Style{Unit: FT, Denominator: 7}, 2400.3, `7'-10 1/2"`},
		// NAVEDTRA 14044: a common rafter of 7 in 12 over a run of 8 ft, 111.1396 in.
		{Style{Unit: FT}, 111.1396 * Inch, `9'-3 1/8"`},
		{Style{Unit: IN}, 111.1396 * Inch, `111 1/8"`},
		// The same: unit lengths for 4 and 12 in 12 are 12.65 and 16.97 in.
		{Style{Unit: IN}, 12.65 * Inch, `12 5/8"`},
		{Style{Unit: FT}, 16.97 * Inch, `1'-5"`},
		{Style{}, Length(math.NaN()), "?"},
		{Style{}, Length(math.Inf(1)), "?"},
		{Style{Unit: FT}, 1e300, "?"},
		{Style{Unit: 99}, 2400.3, `7'-10 1/2"`},
	} {
		if got := c.style.Length(c.l); got != c.want {
			t.Errorf("%+v of %v: %q, want %q", c.style, float64(c.l), got, c.want)
		}
	}
}

func TestStyleWithUnit(t *testing.T) {
	for u, want := range map[Unit][2]string{
		MM: {"2400.3 mm", "millimetres"}, CM: {"240.03 cm", "centimetres"}, M: {"2.4003 m", "metres"},
		IN: {`94 1/2"`, "inches"}, FT: {`7'-10 1/2"`, "feet and inches"},
	} {
		s := Style{Unit: u}
		if got := s.LengthUnit(2400.3); got != want[0] {
			t.Errorf("%v: %q, want %q", u, got, want[0])
		}
		if got := s.Name(); got != want[1] {
			t.Errorf("%v: %q, want %q", u, got, want[1])
		}
	}
}

func TestStyleAngle(t *testing.T) {
	for _, c := range []struct {
		degrees       float64
		tenth, minute string
	}{
		{52.4, "52.4°", "52°24′"},
		{90, "90°", "90°00′"},
		{0, "0°", "0°00′"},
		{-0.001, "0°", "0°00′"},
		{-12.55, "−12.6°", "−12°33′"},
		{59.96, "60°", "59°58′"},
		{59.995, "60°", "60°00′"}, // 59.7′ carries into the next degree
		{35.25, "35.3°", "35°15′"},
		{52.1, "52.1°", "52°06′"},
		{4.763641690726178, "4.8°", "4°46′"},
		{179.99, "180°", "179°59′"},
		{math.Inf(-1), "?°", "?°"},
	} {
		a := Angle(c.degrees) * Degree
		if got := (Style{}).Angle(a); got != c.tenth {
			t.Errorf("%v°: %q, want %q", c.degrees, got, c.tenth)
		}
		if got := (Style{Minutes: true}).Angle(a); got != c.minute {
			t.Errorf("%v°: %q, want %q", c.degrees, got, c.minute)
		}
	}
}

func BenchmarkStyleLength(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Style{Unit: FT}.Length(2400.3)
	}
}

// Half a second rounds away from zero; nothing is −0.
func TestSeconds(t *testing.T) {
	for deg, want := range map[float64]string{53.13: "53°07′48″", 0: "0°00′00″", 59.99999: "60°00′00″", -0.5: "−0°30′00″"} {
		if got := Seconds(Angle(deg) * Degree); got != want {
			t.Errorf("%v: %s, want %s", deg, got, want)
		}
	}
}
