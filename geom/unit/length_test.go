package unit

import (
	"errors"
	"math/big"
	"strings"
	"testing"
)

// rat reads an exact number for a test: "2400.3", "1/32".
func rat(t *testing.T, text string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		t.Fatalf("bad number %q in the test", text)
	}
	return r
}

// Values by the definitions 1 in = 25.4 mm and 1 ft = 0.3048 m; tolerances by
// the rule of half the last digit.
func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text      string
		bare      Unit
		mm        string
		tolerance string
		stated    bool
	}{
		{"2400", MM, "2400", "1/2", false},
		{"2400mm", IN, "2400", "1/2", false},
		{"2400 MM", IN, "2400", "1/2", false},
		{"  2400  ", MM, "2400", "1/2", false},
		{"2400.0", MM, "2400", "1/20", false},
		{"240 cm", MM, "2400", "5", false},
		{"2.4m", MM, "2400", "50", false},
		{"2.400m", MM, "2400", "1/2", false},
		{"2.400", M, "2400", "1/2", false},
		{"2,4m", MM, "2400", "50", false},
		{"2,4000m", MM, "2400", "1/20", false},
		{"12,25", MM, "12.25", "1/200", false},
		{".5in", MM, "12.7", "1.27", false},
		{"94.5\"", MM, "2400.3", "1.27", false},
		{"94 1/2", IN, "2400.3", "6.35", false},
		{"94-1/2\"", MM, "2400.3", "6.35", false},
		{"94½ inches", MM, "2400.3", "6.35", false},
		{"94 ½″", MM, "2400.3", "6.35", false},
		{"10 1/16in", MM, "255.5875", "0.79375", false},
		{"10 8/16in", MM, "266.7", "0.79375", false},
		{"2½m", MM, "2500", "250", false},
		{"⅞\"", MM, "22.225", "1.5875", false},
		{"⅓ft", MM, "101.6", "50.8", false},
		{"1⅔'", MM, "508", "50.8", false},
		{"9/16 in", MM, "14.2875", "0.79375", false},
		{"1⁄2 in", MM, "12.7", "6.35", false},
		{"7ft 10 1/2in", MM, "2400.3", "6.35", false},
		{"7ft10½in", MM, "2400.3", "6.35", false},
		{"7 feet 10 inches", MM, "2387.6", "12.7", false},
		{"7FT 10IN", MM, "2387.6", "12.7", false},
		{`7'-10 1/2"`, MM, "2400.3", "6.35", false},
		{`7'-10-1/2"`, MM, "2400.3", "6.35", false},
		{`7' - 10 1/2"`, MM, "2400.3", "6.35", false},
		{`7'10.5"`, MM, "2400.3", "1.27", false},
		{"7′ 10½″", MM, "2400.3", "6.35", false},
		{"7’ 10½”", MM, "2400.3", "6.35", false},
		{"7' 10½''", MM, "2400.3", "6.35", false},
		{`0'-10 1/2"`, MM, "266.7", "6.35", false},
		{`7'-0"`, MM, "2133.6", "12.7", false},
		{"7'", MM, "2133.6", "152.4", false},
		{"7ft", MM, "2133.6", "152.4", false},
		{"7.875ft", MM, "2400.3", "0.1524", false},
		{"7", FT, "2133.6", "152.4", false},
		{"7 1/2", FT, "2286", "76.2", false},
		{"7.5", FT, "2286", "15.24", false},
		{"94.5", IN, "2400.3", "1.27", false},
		{"240", CM, "2400", "5", false},
		// A blank between thousands, wide or thin; ISO 80000-1 (from memory).
		{"12 345.5", MM, "12345.5", "1/20", false},
		{"12\u2009345.5 mm", MM, "12345.5", "1/20", false},
		{"12\u00a0345", MM, "12345", "1/2", false},
		{"999 999", MM, "999999", "1/2", false},
		{"10 000 1/2\"", MM, "254012.7", "6.35", false},
		// The limits themselves.
		{"1", MM, "1", "1/2", false},
		{"1000m", MM, "1000000", "500", false},
		{"1000000", MM, "1000000", "1/2", false},
		// W. Kahan's decimals are kept whole.
		{"94721.35941", MM, "94721.35941", "0.000005", false},
		// Stated tolerances.
		{"2400+-2", MM, "2400", "2", true},
		{"2400±2", MM, "2400", "2", true},
		{"2400 +/- 2.5", MM, "2400", "2.5", true},
		{"2400 ± 1/4in", MM, "2400", "6.35", true},
		{"2.4m+-2mm", MM, "2400", "2", true},
		{"2.4m+-0.002", MM, "2400", "2", true},
		{"2.4m+-0,002m", MM, "2400", "2", true},
		{"2.4m+-1,002mm", MM, "", "", false}, // a comma before three digits, there as well
		// Nothing is grouped behind a zero, nor behind four digits: one reading.
		{"0,125m", MM, "125", "1/2", false},
		{"1234,567", MM, "1234.567", "1/2000", false},
		{"12 345,678", MM, "12345.678", "1/2000", false},
		{"0.400m", CM, "400", "1/2", false},
		{"12.400", IN, "314.96", "0.0127", false},
		{"2.400", FT, "731.52", "0.1524", false},
		{"2.400mm", MM, "2.4", "1/2000", false},
		{"2.4000", MM, "2.4", "1/20000", false},
		{"10±2.400", M, "10000", "2400", true},
		// The mark of the inches left out.
		{"7'10", MM, "2387.6", "12.7", false},
		{"7'10½", MM, "2400.3", "6.35", false},
		{"7'-10 1/2", MM, "2400.3", "6.35", false},
		{"7ft 10", MM, "2387.6", "12.7", false},
		{"7'10±1/4", MM, "2387.6", "6.35", true},
		{"7'—10\"", MM, "2387.6", "12.7", false},
		{"7'–10\"", MM, "2387.6", "12.7", false},
		// Metres and what is said behind them.
		{"2m40", MM, "2400", "5", false},
		{"2m04", MM, "2040", "5", false},
		{"2m405", MM, "2405", "1/2", false},
		{"2 m 40 cm", MM, "2400", "5", false},
		{"2m 40cm", IN, "2400", "5", false},
		{"2m 5cm", MM, "2050", "5", false},
		{"2m 400mm", MM, "2400", "1/2", false},
		{"2m40±1", MM, "2400", "10", true},
		// Raised and lowered digits, the stroke of fractions, units of one character.
		{"9³⁄₄\"", MM, "247.65", "3.175", false},
		{"9 ³/₄ in", MM, "247.65", "3.175", false},
		{"¹⁵⁄₁₆″", MM, "23.8125", "0.79375", false},
		{"⅟₁₆in", MM, "1.5875", "0.79375", false},
		{"9 3⁄4in", MM, "247.65", "3.175", false},
		{"2400㎜", IN, "2400", "1/2", false},
		{"240㎝", MM, "2400", "5", false},
		{"12㏌", MM, "304.8", "12.7", false},
		{"2400mm±1/2", IN, "2400", "1/2", true},
		{`7'-10 1/2"+-1/16`, MM, "2400.3", "1.5875", true},
		{`7'-10 1/2"±1/16"`, MM, "2400.3", "1.5875", true},
		{"94.5±⅛", IN, "2400.3", "3.175", true},
		{"7+-1/48", FT, "2133.6", "6.35", true},
	} {
		r, err := ParseLength(c.text, c.bare)
		if c.mm == "" {
			if err == nil {
				t.Errorf("%q is read as %s mm", c.text, r.Value)
			}
			continue
		}
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if r.Value.Cmp(rat(t, c.mm)) != 0 || r.Tolerance.Cmp(rat(t, c.tolerance)) != 0 || r.Stated != c.stated {
			t.Errorf("%q: %s ± %s stated %v, want %s ± %s stated %v", c.text,
				r.Value.FloatString(6), r.Tolerance.FloatString(6), r.Stated, c.mm, c.tolerance, c.stated)
		}
	}
}

// All vulgar fractions of Unicode (1⁄4 … 7⁄8, blocks Latin-1 and Number Forms)
// but nought thirds.
func TestVulgarFractions(t *testing.T) {
	for text, want := range map[string]string{
		"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
		"⅙": "1/6", "⅚": "5/6", "⅐": "1/7", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅑": "1/9", "⅒": "1/10",
	} {
		for _, whole := range []string{"", "10"} {
			r, err := ParseLength(whole+text, CM)
			if err != nil {
				t.Errorf("%s%s: %v", whole, text, err)
				continue
			}
			n := rat(t, want)
			if whole != "" {
				n.Add(n, rat(t, whole))
			}
			if n.Mul(n, rat(t, "10")); r.Value.Cmp(n) != 0 {
				t.Errorf("%s%s cm is %s mm, want %s", whole, text, r.Value, n)
			}
		}
	}
}

func TestReadingText(t *testing.T) {
	r, err := ParseLength("  7′ 10½″ ± 1/16 ", MM)
	if err != nil || r.Text != "7′ 10½″" {
		t.Errorf("text %q, %v", r.Text, err)
	}
	for text, want := range map[string]string{"9³⁄₄″": `9 3/4"`, "2400㎜": "2400mm", "2½ m": "2½ m"} {
		if r, err := ParseLength(text, MM); err != nil || r.Text != want {
			t.Errorf("%s is written %q, %v; want %q", text, r.Text, err, want)
		}
	}
	if got := r.Length(); got != 2400.3 {
		t.Errorf("length %v", got)
	}
	if got := r.LengthTolerance(); got != 1.5875 {
		t.Errorf("tolerance %v", got)
	}
}

func TestReadingUnit(t *testing.T) {
	for text, want := range map[string]Unit{"2": CM, "2mm": MM, "2'": FT, `2' 3"`: IN, "2m±3mm": M, "2 1/2in": IN} {
		if r, err := ParseLength(text, CM); err != nil || r.Unit != want {
			t.Errorf("%q counts %v, %v; want %v", text, r.Unit, err, want)
		}
	}
}

// fault checks that the error is a fault with the words, on one line.
func fault(t *testing.T, name string, err error, what, hint string) {
	t.Helper()
	var f *Fault
	if !errors.As(err, &f) {
		t.Errorf("%s: %v is no fault", name, err)
		return
	}
	if !strings.Contains(f.What, what) || !strings.Contains(f.Hint, hint) {
		t.Errorf("%s: %q, hint %q; want %q, hint %q", name, f.What, f.Hint, what, hint)
	}
	if strings.ContainsAny(f.What+f.Hint, "\n\r") || f.What == "" {
		t.Errorf("%s: not one line: %q, %q", name, f.What, f.Hint)
	}
}

func TestNotALength(t *testing.T) {
	for _, c := range []struct{ text, what, hint string }{
		{"", "no length is written", ""},
		{"   ", "no length is written", ""},
		{"12OO", `"12OO" is not a length`, "not letters that look like them: 1200"},
		{"l2O0mm", `"l2O0mm" is not a length`, "1200mm"},
		{"12ОО", "is not a length", "1200"}, // Cyrillic
		{"NaN", `"NaN" is not a length`, "that can be measured"},
		{"Inf", `"Inf" is not a length`, "that can be measured"},
		{"+infinity", "is not a length", "that can be measured"},
		{"-5", `"-5" is negative`, "without a sign"},
		{"−5mm", `"−5mm" is negative`, "without a sign"},
		{"+5", "is not a length", "without a sign"},
		{"0", `"0" is no length at all`, "1 mm"},
		{"0.0ft", "is no length at all", "1 mm"},
		{"0/5in", "is no length at all", "1 mm"},
		{"94 1/2", `"94 1/2" is a fraction without a unit`, "write 94 1/2in for inches, or 94.5mm"},
		{"⅓", `"1/3" is a fraction without a unit`, "write 1/3in for inches"},
		{"2400±1/4", `"1/4" is a fraction without a unit`, "write 1/4in for inches, or 0.25mm"},
		{"2.400", `"2.400" can be read in two ways: the point may part thousands`, "write 2400, or 2.4"},
		{"123.456", "the point may part thousands", "write 123456, or 123.456mm"},
		{"2.000", "the point may part thousands", "write 2000, or 2"},
		{"2400±1.500", "the point may part thousands", "write 1500, or 1.5"},
		{"93/4in", `"93/4" has a top above its bottom: a blank may be missing`, "write 23 1/4in, or 9 3/4in"},
		{"115/16\"", "a blank may be missing", `write 7 3/16", or 1 15/16", or 11 5/16"`},
		{"12/4in", "a blank may be missing", "write 3in, or 1 2/4in"},
		{"7'93/4", "a blank may be missing", "write 23 1/4, or 9 3/4"},
		{"7'1/2", "may be of an inch or of a foot", `write 7'-0 1/2" or 7 1/2ft`},
		{"2m4", "a tenth of a metre, or a centimetre", "write 2m40 or 2m04"},
		{"2m 4", "a tenth of a metre, or a centimetre", "write 2m40 or 2m04"},
		{"2m4567", "is not a length", "lengths are written"},
		{"2.4m40", "is not a length", "lengths are written"},
		{"2m 400cm", "is not a length", "lengths are written"},
		{"1㎡", "is not a length", "lengths are written"},
		{"1㎞", `"km" is not a unit of length`, "mm, cm, m, in or ft"},
		{"9³\"", "is not a length", "lengths are written"},
		{"9₄", "is not a length", "lengths are written"},
		{"0.5", `"0.5" is less than 1 mm`, "a bare number counts mm here"},
		{"0.000000001mm", "less than 1 mm", ""},
		{"1000000000000", "more than 1 km", "a bare number counts mm"},
		{"1000.001m", "more than 1 km", ""},
		{"1e3", "is not a length", "without a power of ten"},
		{"2.4E+3mm", "is not a length", "without a power of ten"},
		{"1e-9", "is not a length", "without a power of ten"},
		{"0x10", "is not a length", "in decimal digits"},
		{"0X1p4", "is not a length", "in decimal digits"},
		{"2_400", "is not a length", "nothing between the digits"},
		{"2,400", "in two ways", "write 2400, or 2.4"},
		{"2,400mm", "in two ways", "write 2400mm, or 2.400mm with a decimal point"},
		{"12,345", "in two ways", "write 12345, or 12.345mm"},
		{"2.400,5", "two decimal marks", "2400.5"},
		{"2,400.5", "two decimal marks", "2400.5"},
		{"1.234.567", "two decimal marks", "nothing between the thousands"},
		{"2.400,", "two decimal marks", ""},
		{"2400.", "is not a length", "lengths are written"},
		{".", "is not a length", "lengths are written"},
		{"mm", "is not a length", "lengths are written"},
		{"m2", "is not a length", "lengths are written"},
		{"2400 mn", `"mn" is not a unit of length`, "mm, cm, m, in or ft"},
		{"2km", `"km" is not a unit of length`, "mm, cm, m, in or ft"},
		{"35deg", `"deg" is not a unit of length`, ""},
		{"35°", "is not a length", "lengths are written"},
		{"2400 2400mm", "is not a length", "lengths are written"},
		{"7 10", "is not a length", "lengths are written"},
		{"7ft 10mm", "is not a length", ""},
		{`7' 14"`, "more than 11 inches", `8'-2"`},
		{`7.5' 3"`, "part of a foot", "whole feet"},
		{`7½' 3"`, "part of a foot", "whole feet"},
		{`10" 7'`, "is not a length", "lengths are written"},
		{"3/0", `"3/0" divides by zero`, ""},
		{`7'-10 1/0"`, `"1/0" divides by zero`, ""},
		{"10 3/2", `"3/2" behind a whole number`, "10 1/2"},
		{"10.5 1/2", "is not a length", "lengths are written"},
		{"1/2/3", "is not a length", "lengths are written"},
		{"½½", "is not a length", "lengths are written"},
		{"½5", "is not a length", "lengths are written"},
		{"1.½", "is not a length", "lengths are written"},
		{"/2", "is not a length", "lengths are written"},
		{"1/", "is not a length", "lengths are written"},
		{"10²", "is not a length", "lengths are written"},
		{"٣", "is not a length", "digits 0 to 9"},
		{"１２", "is not a length", "digits 0 to 9"},
		{"12\n34", `"12\n34" is not a length`, "lengths are written"},
		{"\x1b[31m12", `"\x1b[31m12" holds the character U+001B, which cannot be seen`, "take it out"},
		{"\ufeff12", `"\ufeff12" is not a length`, "character U+FEFF"},
		{"12\u200f", `"12\u200f" holds the character U+200F, which cannot be seen and turns the order of letters`, "take it out"},
		{"12\u0301", "is not a length", "character U+0301"},
		{"1234 567", "is not a length", "lengths are written"},
		{"0 345", "is not a length", "lengths are written"},
		{"12 34", "is not a length", "lengths are written"},
		{"\xff\xfe1", "is not text", "UTF-8"},
		{strings.Repeat("1", 65), "is too long for a length", "64 characters"},
		{"0." + strings.Repeat("0", 61) + "1", "less than 1 mm", ""},
		{strings.Repeat("9", 3<<20), "is too long for a length", "64 characters"},
		{strings.Repeat("½", 65), "is too long for a length", "64 characters"},
		{"2400+-", "where its tolerance should stand", "+-2"},
		{"2400±0", "allows nothing", "half of the last digit"},
		{"2400±-2", `"-2" is negative`, "without a sign"},
		{"2400±x", `"x" is not a length`, ""},
		{"2400+-2+-3", `"2+-3" is not a length`, ""},
		{"2400±2kg", `"kg" is not a unit of length`, ""},
		{"2.4m+-2", "more than half", "a bare tolerance counts m here"},
		{"2400±1201", "more than half", ""},
		{"+-2", "no length is written", ""},
	} {
		_, err := ParseLength(c.text, MM)
		fault(t, Quote(c.text), err, c.what, c.hint)
	}
}

func TestParseUnit(t *testing.T) {
	for text, want := range map[string]Unit{"mm": MM, " cm ": CM, "m": M, "in": IN, "inch": IN, "ft": FT, "feet": FT, "Metres": M, "′": FT} {
		if u, err := ParseUnit(text); err != nil || u != want {
			t.Errorf("%q is %v, %v", text, u, err)
		}
	}
	for _, text := range []string{"", "km", "mm.", "furlong", "\xff", "1"} {
		u, err := ParseUnit(text)
		if err == nil {
			t.Errorf("%q is %v", text, u)
		}
	}
	_, err := ParseUnit("yd")
	fault(t, "yd", err, `"yd" is not a unit of length`, "mm, cm, m, in or ft")
	for u := MM; u <= FT; u++ {
		if back, err := ParseUnit(u.String()); err != nil || back != u {
			t.Errorf("%v reads back as %v, %v", u, back, err)
		}
		r, err := ParseLength("8 "+u.String(), MM) // 8: so that the product is exact
		if err != nil || r.Length() != 8*u.Length() {
			t.Errorf("8 %v is %v mm, want %v", u, r.Length(), 8*u.Length())
		}
	}
}

func TestParseSetting(t *testing.T) {
	for _, c := range []struct {
		text        string
		least, most Length
		want        Length
		what        string // empty: accepted
	}{
		{"0", 0, 100, 0, ""},
		{"10", 0, 100, 10, ""},
		{"10 mm", 0, 100, 10, ""},
		{"1/2in", 0, 100, 12.7, ""},
		{"100", 0, 100, 100, ""},
		{"0.2", 0, 100, 0.2, ""},
		{"-3", -10, 10, -3, ""},
		{"−3.5mm", -10, 10, -3.5, ""},
		{"- 3", -10, 10, -3, ""},
		{"-3", 0, 100, 0, `"-3" is negative`},
		{"-30", -10, 10, 0, `"-30" is less than −10 mm`},
		{"--3", -10, 10, 0, `"-3" is negative`},
		{"100.1", 0, 100, 0, `"100.1" is more than 100 mm`},
		{"0", 1, 100, 0, "no length at all"},
		{"10+-1", 0, 100, 0, "has a tolerance"},
		{"", 0, 100, 0, "no length"},
		{"1e1", 0, 100, 0, "is not a length"},
		{"12OO", 0, 100, 0, "is not a length"},
	} {
		got, err := ParseSetting(c.text, MM, c.least, c.most)
		if c.what != "" {
			fault(t, c.text, err, c.what, "")
		} else if err != nil || got != c.want {
			t.Errorf("%q is %v, %v; want %v", c.text, got, err, c.want)
		}
	}
}

func BenchmarkParseLength(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ParseLength(`7'-10 1/2"+-1/16`, MM); err != nil {
			b.Fatal(err)
		}
	}
}

// A bare number, feet and what they hold are told apart however they are spelt.
func TestLengthUnitsWritten(t *testing.T) {
	for _, c := range []struct {
		text       string
		unit       Unit
		bare, feet bool
	}{
		{"240", M, true, false},
		{"10½", M, true, false},
		{"12 345.5 mm", MM, false, false},
		{"10 1/2in", IN, false, false},
		{"7ft", FT, false, true},
		{"7’-10½”", IN, false, true},
		{"7 feet", FT, false, true},
	} {
		r, err := ParseLength(c.text, M)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
		} else if r.Unit != c.unit || r.Bare != c.bare || r.Feet != c.feet {
			t.Errorf("%s: %v, bare %t, feet %t", c.text, r.Unit, r.Bare, r.Feet)
		}
	}
}

// What can be read in two ways depends on what a bare number counts.
func TestBareDoubt(t *testing.T) {
	for _, c := range []struct {
		text       string
		bare       Unit
		what, hint string
	}{
		{"2.400", CM, `"2.400" can be read in two ways: the point may part thousands`, "write 2400, or 2.4"},
		{"123.456", CM, `"123.456" can be read in two ways: the point may part thousands`, "write 123456, or 123.456cm"},
		{"2,400", M, `"2,400" can be read in two ways: the comma may part thousands`, "write 2400, or 2.400 with a decimal point"},
		{"7-1/2", FT, `"7-1/2" can be read in two ways: the fraction may be of a foot or of an inch`, `write 7 1/2, or 7'-0 1/2"`},
		{"7-10", FT, `"7-10" does not say what it counts after the hyphen`, `write feet and inches with their marks: 7'-10"`},
	} {
		_, err := ParseLength(c.text, c.bare)
		var f *Fault
		if !errors.As(err, &f) || f.What != c.what || f.Hint != c.hint {
			t.Errorf("%s in %s: %+v, want %s (%s)", c.text, c.bare, f, c.what, c.hint)
		}
	}
}
