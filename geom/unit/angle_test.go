package unit

import (
	"math/big"
	"strings"
	"testing"
)

func TestParseAngle(t *testing.T) {
	for _, c := range []struct{ text, degrees, tolerance string }{
		{"35", "35", "1/2"},
		{"35.5", "35.5", "1/20"},
		{"35,5", "35.5", "1/20"},
		{"35deg", "35", "1/2"},
		{"35 degrees", "35", "1/2"},
		{"35°", "35", "1/2"},
		{"35º", "35", "1/2"},
		{"22½°", "22.5", "1/4"},
		{"22 1/2", "22.5", "1/4"},
		{"1/2°", "1/2", "1/4"},
		{"35°30'", "35.5", "1/120"},
		{"35° 30′", "35.5", "1/120"},
		{"35°30.5'", "2130.5/60", "1/1200"},
		{"35°30'15\"", "127815/3600", "1/7200"},
		{"35°30′15″", "127815/3600", "1/7200"},
		{"35°30'15''", "127815/3600", "1/7200"},
		{"35°30′15.5″", "127815.5/3600", "1/72000"},
		{"35°15\"", "126015/3600", "1/7200"},
		{"35d30m15s", "127815/3600", "1/7200"},
		{"35d 30m", "35.5", "1/120"},
		{"35deg30min15sec", "127815/3600", "1/7200"},
		{"0°0'1\"", "1/3600", "1/7200"},
		{"38.9gon", "35.01", "0.045"}, // 400 gon are a turn
		{"100gon", "90", "0.45"},
		{"1:1", "45", "1/2"},
		{"100%", "45", ""},
		{"179.999999999999999999999", "179.999999999999999999999", "5e-22"},
		{"35±0.5", "35", "1/2"},
		{"35+-1deg", "35", "1"},
		{"35±30'", "35", "1/2"},
		{"35°30'±10\"", "35.5", "1/360"},
		{"35±0.9gon", "35", "0.81"},
		// A bare tolerance counts the last unit that the value names.
		{"35°30'±5", "35.5", "1/12"},
		{"35°30'15\"±5", "127815/3600", "1/720"},
		{"35°±5", "35", "5"},
		{"35gr", "31.5", "0.45"},
		{"100 gr", "90", "0.45"},
		{"12\"/12\"", "45", "1/2"},
		{"1000‰", "45", ""},
	} {
		r, err := ParseAngle(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if a, b, ok := strings.Cut(c.degrees, "/"); ok && strings.Contains(a, ".") {
			want := new(big.Rat).Quo(rat(t, a), rat(t, b))
			c.degrees = want.String()
		}
		if r.Value.Cmp(rat(t, c.degrees)) != 0 || c.tolerance != "" && r.Tolerance.Cmp(rat(t, c.tolerance)) != 0 {
			t.Errorf("%q: %s ± %s, want %s ± %s", c.text, r.Value, r.Tolerance, c.degrees, c.tolerance)
		}
		if stated := strings.ContainsAny(c.text, "±+"); r.Stated != stated {
			t.Errorf("%q: stated %v", c.text, r.Stated)
		}
	}
}

// By mpmath 1.3.0 at 75 digits: degrees(mpf('0.61')), degrees(atan(mpf(1)/12)), …
// The rounded values 4.7636° and 1.4321° are handbook figures of ramps and falls.
func TestIrrationalAngles(t *testing.T) {
	for text, want := range map[string]string{
		"0.61rad":    "34.95042550298021573484687443660415390276733820460423614498774875533374",
		"1:12":       "4.763641690726177581327327633509630103538837033339262994297205860471938",
		"1 : 12":     "4.763641690726177581327327633509630103538837033339262994297205860471938",
		"1in12":      "4.763641690726177581327327633509630103538837033339262994297205860471938",
		"0.5:6":      "4.763641690726177581327327633509630103538837033339262994297205860471938",
		"½ in 6":     "4.763641690726177581327327633509630103538837033339262994297205860471938",
		"8.5%":       "4.858462919034286753862449779258202739626021690320239324926487690346637",
		"85‰":        "4.858462919034286753862449779258202739626021690320239324926487690346637",
		"85 ‰":       "4.858462919034286753862449779258202739626021690320239324926487690346637",
		"8.5\u202f%": "4.858462919034286753862449779258202739626021690320239324926487690346637",
		"6\"/12":     "26.56505117707798935157219372045329467120421429964522102798601631528807",
		"6\"/12\"":   "26.56505117707798935157219372045329467120421429964522102798601631528807",
		"6in/12in":   "26.56505117707798935157219372045329467120421429964522102798601631528807",
		"6 in 12":    "26.56505117707798935157219372045329467120421429964522102798601631528807",
		"1∶12":       "4.763641690726177581327327633509630103538837033339262994297205860471938",
		"8,5 %":      "4.858462919034286753862449779258202739626021690320239324926487690346637",
		"6in12":      "26.56505117707798935157219372045329467120421429964522102798601631528807",
		"1 in 40":    "1.432096184164646397287289018031773695547654343839686840388473816850593",
		"2.5%":       "1.432096184164646397287289018031773695547654343839686840388473816850593",
		"3000%":      "88.0908475670036237852346306359023300624610634368218115678411002040512",
		"30:1±1deg":  "88.0908475670036237852346306359023300624610634368218115678411002040512",
	} {
		r, err := ParseAngle(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		off := new(big.Rat).Sub(r.Value, rat(t, want))
		if off.Abs(off).Quo(off, r.Value); off.Cmp(rat(t, "1e-60")) > 0 {
			t.Errorf("%q is %s°, want %s°", text, r.Value.FloatString(65), want)
		}
		if n := r.Value.Denom().BitLen() + r.Value.Num().BitLen(); n > 600 {
			t.Errorf("%q takes %d bits", text, n)
		}
	}
}

// What half of the last digit turns a slope; by mpmath (…: degrees of the
// difference quotient 1/(1+t²) times the half digit).
func TestToleranceOfSlopes(t *testing.T) {
	for text, want := range map[string]float64{
		"0.61rad":   0.28647890, // 0.005 rad
		"8.5%":      0.02844239, // 0.05 %
		"8.5%±0.5%": 0.28442393,
		"85‰":       0.02844239, // 0.5 ‰ is 0.05 %
		"85‰±5‰":    0.28442393,
		"1:12":      0.19757165, // the run, 11.5 to 12.5
		"6in12":     0.5,        // not more than half a degree
		"1:1.50":    0.08814735, // the run, 1.495 to 1.505
	} {
		r, err := ParseAngle(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if got, _ := r.Tolerance.Float64(); got < want-1e-8 || got > want+1e-8 {
			t.Errorf("%q ± %.8f°, want %.8f°", text, got, want)
		}
	}
}

func TestNotAnAngle(t *testing.T) {
	for _, c := range []struct{ text, what, hint string }{
		{"", "no angle is written", ""},
		{"x", `"x" is not an angle`, "angles are written"},
		{"0", `"0" is not between 0° and 180°`, ""},
		{"0:5", "not between 0° and 180°", ""},
		{"0%", "not between 0° and 180°", ""},
		{"180", "not between 0° and 180°", ""},
		{"180°0'0\"", "not between 0° and 180°", ""},
		{"200gon", "not between 0° and 180°", ""},
		{"3.1416rad", "not between 0° and 180°", ""},
		{"1000000000000", "not between 0° and 180°", ""},
		{"-35", `"-35" is negative`, "without a sign"},
		{"+35", "is not an angle", "without a sign"},
		{"3O", "is not an angle", "30"},
		{"NaN", "is not an angle", "that can be measured"},
		{"inf", "is not an angle", "that can be measured"},
		{"1e1", "is not an angle", "power of ten"},
		{"0x1", "is not an angle", "decimal digits"},
		{"35,125", "in two ways", "35.125"},
		{"1/2", "could be degrees or a slope", "1:2"},
		{"½", "could be degrees or a slope", "1/2deg"},
		{"1:0", "a run of nothing", "90deg"},
		{"1/0deg", "divides by zero", ""},
		{"1:", "is not an angle", ""},
		{":12", "is not an angle", ""},
		{"1:2:3", "is not an angle", ""},
		{"30'", "it has no degrees", "0°30'"},
		{"30m", "it has no degrees", ""},
		{"35°30", "what its last number counts", "35°30'"},
		{"35°60'", "60 minutes or seconds", "0 to 59"},
		{"35°30'60\"", "60 minutes or seconds", "0 to 59"},
		{"35.5°30'", "a part of a degree", "whole degrees"},
		{"35°30.5'15\"", "a part of a degree", "whole degrees"},
		{"35°15\"30'", "is not an angle", ""},
		{"35°30°", "is not an angle", ""},
		{"35°30'15\"7", "what its last number counts", ""},
		{"35°30'x", "is not an angle", ""},
		{"50grad", "some read", "gon"},
		{"35mm", "is not an angle", ""},
		{"35 36", "is not an angle", ""},
		{"6in", "is not an angle", ""},
		{"8.5%5", "is not an angle", ""},
		{"1radx", "is not an angle", ""},
		{"1rad2", "is not an angle", ""},
		{"\xff", "is not text", ""},
		{strings.Repeat("3", 65), "is too long for an angle", "64"},
		{"35±", "where its tolerance should stand", ""},
		{"35±0", "allows nothing", ""},
		{"35±20", "more than half", ""},
		{"35±x", `"x" is not an angle`, ""},
		{"35±1:12", "is a slope", "deg"},
		{"35±1%", "is a slope", "deg"},
		{"35±1‰", "is a slope", "deg"},
		{"8.5%±5‰", "is a slope", "deg"},
		{"85‰±1", "does not say what it counts", "+-0.5deg"},
		{"45o", `"45o" is not an angle`, "write the degree sign, or deg: 45°"},
		{"22.5 o", "is not an angle", "or deg: 22.5°"},
		{"93/4°", "a top above its bottom", "write 23 1/4, or 9 3/4"},
		{"13/12", "could be degrees or a slope", "13:12"},
		{"1:/12", "is not an angle", ""},
		{"6\"/12mm", "is not an angle", ""},
		{"1:12in", "is not an angle", ""},
		{"0.61rad±0.01", `a tolerance of "0.01" behind "0.61rad"`, "+-0.5deg"},
		{"38.9gon±1", "does not say what it counts", "+-0.5deg"},
		{"8.5%±1", "does not say what it counts", "+-0.5deg"},
		{"1:12±1", "does not say what it counts", "+-0.5deg"},
	} {
		_, err := ParseAngle(c.text)
		fault(t, Quote(c.text), err, c.what, c.hint)
	}
}

func TestParseTurn(t *testing.T) {
	for text, want := range map[string]float64{
		"0": 0, "-0": 0, "90": 90, "-90": -90, "−12.5deg": -12.5, "360": 360, "-360": -360, "1:1": 45, "12°30'": 12.5, "200gon": 180,
	} {
		a, err := ParseTurn(text)
		if d := a.Degrees(); err != nil || d < want-1e-13 || d > want+1e-13 {
			t.Errorf("%q is %v°, %v; want %v°", text, d, err, want)
		}
	}
	for text, what := range map[string]string{
		"360.5": "more than a whole turn", "-400": "more than a whole turn", "x": "is not an angle", "": "no angle", "5±1": "has a tolerance", "--5": "negative",
		"35:30": "can be meant in two ways", "2:1": "can be meant in two ways",
	} {
		_, err := ParseTurn(text)
		fault(t, text, err, what, "")
	}
}

func TestLooks(t *testing.T) {
	for _, c := range []struct {
		text          string
		length, angle bool
	}{
		{"2400", true, true}, {"0.5", true, true}, {"2400mm", true, false}, {"35deg", false, true}, {"1:12", false, true},
		{"8.5%±1", false, true}, {"7'", true, true}, {`7'-10"`, true, false}, {"35°30'", false, true}, {"x", false, false}, {"", false, false},
	} {
		if l, a := IsLength(c.text), IsAngle(c.text); l != c.length || a != c.angle {
			t.Errorf("%q: length %v, angle %v; want %v, %v", c.text, l, a, c.length, c.angle)
		}
	}
}

func BenchmarkParseAngle(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ParseAngle("6in12"); err != nil {
			b.Fatal(err)
		}
	}
}

// How a slope was read is said where something else may have been meant: degrees and
// minutes, or run to rise. Angles by mpmath: degrees(atan(mpf(35)/30)), …
func TestReadAsSlope(t *testing.T) {
	for text, want := range map[string]string{
		"35:30":   "a slope 35 in 30 = 49.4°; degrees and minutes are written 35°30'",
		"35∶30":   "a slope 35 in 30 = 49.4°; degrees and minutes are written 35°30'",
		"10:45":   "a slope 10 in 45 = 12.5°; degrees and minutes are written 10°45'",
		"5:30":    "a slope 5 in 30 = 9.5°; degrees and minutes are written 5°30'",
		"2:1":     "a slope 2 in 1 = 63.4°; the other way round it is 1:2",
		"2 : 1.5": "a slope 2 in 1.5 = 53.1°; the other way round it is 1.5:2",
		"1:1":     "", "1:12": "", "1:30": "", "6:12": "", "1:2": "", "35.30": "", "12in6": "", "6\"/12": "", "200%": "",
	} {
		r, err := ParseAngle(text)
		if err != nil || r.Read != want {
			t.Errorf("%s: %q, %v; want %q", text, r.Read, err, want)
		}
	}
}
