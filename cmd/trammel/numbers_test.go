package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// written is a form in which a trade writes a number, and what becomes of it: read,
// perhaps with a word on how, or refused with its readings.
type written struct {
	args             []string // of trammel solve; site.csv and job.yaml hold text
	text             string
	value, tolerance float64 // of the first measurement in mm or degrees
	care             string  // what is said of it
	line, hint       string  // the whole message where it is refused
	source           string
}

const (
	practice  = "common practice, no source"
	decimals  = "ISO 80000-1 §7.3: the decimal sign is a comma or a point on the line, thousands are parted by a small space and by neither (from memory)"
	fractions = "The Unicode Standard §6.2: U+2044 makes a fraction of the digits on both sides, raised and lowered ones are shown so (from memory)"
	ratio     = "The Unicode Standard, code charts: U+2236 RATIO, U+339C SQUARE MM, U+33CC SQUARE IN, U+215F FRACTION NUMERATOR ONE (from memory)"
	pitch     = "common practice, no source: roofs are pitched so much in 12"
	gons      = "ISO 80000-3: 400 gon (grade) are a turn (from memory)"
	permille  = "ISO 80000-1 §6.5: ‰ is 0.001 (from memory); falls and railways are given so"
	composed  = "Unicode Standard Annex 15, form C"
	hidden    = "Unicode Standard Annex 9, Bidi_Control; general category Cc"
	tabular   = "RFC 4180 §2: a field that holds a comma is enclosed in quotes, each line has the same number of fields"
)

var (
	sides    = []string{"BC=2000", "CA=2000"}
	inInches = []string{"BC=9in", "CA=9in"}
	arms     = []string{"AB=600", "CA=450"}
)

func with(first string, rest []string) []string { return append([]string{first}, rest...) }

var numbersWritten = []written{
	// A point or a comma that may part thousands.
	{args: with("AB=2.400", sides), source: decimals, line: `AB=2.400: "2.400" can be read in two ways: the point may part thousands`, hint: "write 2400, or 2.4"},
	{args: with("AB=2.400", append(sides, "--unit", "cm")), source: decimals, line: `AB=2.400: "2.400" can be read in two ways: the point may part thousands`, hint: "write 2400, or 2.4"},
	{args: with("AB=123.456", sides), source: decimals, line: `AB=123.456: "123.456" can be read in two ways: the point may part thousands`, hint: "write 123456, or 123.456mm"},
	{args: with("AB=2,400", sides), source: decimals, line: `AB=2,400: "2,400" can be read in two ways: the comma may part thousands`, hint: "write 2400, or 2.4"},
	{args: with("AB=2,400m", sides), source: decimals, line: `AB=2,400m: "2,400" can be read in two ways: the comma may part thousands`, hint: "write 2400m, or 2.400m with a decimal point"},
	{args: []string{"AB=2.400m", "BC=2000mm", "CA=2000mm"}, source: decimals, value: 2400, tolerance: 0.5},
	{args: []string{"AB=2.400", "BC=2", "CA=2", "--unit", "m"}, source: decimals, value: 2400, tolerance: 0.5},
	{args: []string{"AB=2.400", "BC=2", "CA=2", "--unit", "ft"}, source: decimals, value: 731.52, tolerance: 0.1524},
	{args: []string{"AB=2.400", "BC=2", "CA=2", "--unit", "in"}, source: decimals, value: 60.96, tolerance: 0.0127},
	{args: []string{"AB=0,125m", "BC=200mm", "CA=200mm"}, source: decimals, value: 125, tolerance: 0.5},
	{args: with("AB=1234,567", sides), source: decimals, value: 1234.567, tolerance: 0.0005},
	// Tables.
	{args: []string{"site.csv"}, text: "from\tto\tvalue\nA\tB\t2,400\nB\tC\t2000\nC\tA\t2000\n", source: decimals,
		line: `site.csv:2:5: AB=2,400: "2,400" can be read in two ways: the comma may part thousands`, hint: "write 2400, or 2.4"},
	{args: []string{"site.csv"}, text: "from;to;value\nA;B;2,400\nB;C;2000\nC;A;2000\n", source: decimals,
		line: `site.csv:2:5: AB=2.400: "2.400" can be read in two ways: the point may part thousands`, hint: "write 2400, or 2.4"},
	{args: []string{"site.csv", "--unit", "m"}, text: "from;to;value\nA;B;2,400\nB;C;2\nC;A;2\n", source: practice + ": semicolons part fields where the comma is the decimal one", value: 2400, tolerance: 0.5},
	{args: []string{"site.csv"}, text: "from,to,value,note\nA,B,5,40\nB,C,5,\nC,A,5,\n", source: tabular, value: 0,
		line: "site.csv:2:5: 5,40 may be the value 5.40, or 5 with the note 40", hint: `write 5.40 or "5,40" in quotes for the one, the note in quotes for the other`},
	{args: []string{"site.csv"}, text: "from,to,value,tolerance\nA,B,5,2\nB,C,5,3\nC,A,5,1\n", source: tabular,
		line: "site.csv:2:5: 5,2 may be the value 5.2, or 5 with a tolerance of 2", hint: `write 5.2 or "5,2" in quotes for the one, ±2 for the other`},
	{args: []string{"site.csv"}, text: "from,to,value,tolerance,note\nA,B,600,2,\nB,C,450,3,\nC,A,450,1,\n", source: tabular, value: 600, tolerance: 2},
	{args: []string{"site.csv"}, text: "sep=;\nfrom;to;value\nA;B;600,5\nB;C;450\nC;A;450\n", source: practice + ": spreadsheets write it", value: 600.5, tolerance: 0.05},
	// Fractions.
	{args: with("AB=93/4in", inInches), source: practice, line: `AB=93/4in: "93/4" has a top above its bottom: a blank may be missing`, hint: "write 23 1/4in, or 9 3/4in"},
	{args: with("AB=94 1/2", sides), source: practice, line: `AB=94 1/2: "94 1/2" is a fraction without a unit, where a bare number counts mm: inches are written so`, hint: "write 94 1/2in for inches, or 94.5mm"},
	{args: []string{"AB=7-1/2", "BC=7", "CA=7", "--unit", "ft"}, source: practice, line: `AB=7-1/2: "7-1/2" can be read in two ways: the fraction may be of a foot or of an inch`, hint: `write 7 1/2, or 7'-0 1/2"`},
	{args: []string{"AB=7 1/2", "BC=7", "CA=7", "--unit", "ft"}, source: practice, value: 2286, tolerance: 76.2},
	{args: []string{"AB=7'1/2", "BC=7'", "CA=7'"}, source: practice, line: `AB=7'1/2: "7'1/2" can be read in two ways: the fraction may be of an inch or of a foot`, hint: `write 7'-0 1/2" or 7 1/2ft`},
	{args: []string{`AB=9³⁄₄"`, "BC=9in", "CA=9in"}, source: fractions, value: 247.65, tolerance: 3.175},
	{args: []string{`AB=9⅟₄"`, "BC=9in", "CA=9in"}, source: ratio, value: 234.95, tolerance: 3.175},
	// Feet and inches, metres and centimetres.
	{args: []string{"AB=7'10", "BC=7'", "CA=7'"}, source: practice, value: 2387.6, tolerance: 12.7},
	{args: []string{"AB=7'10½", "BC=7'", "CA=7'"}, source: practice, value: 2400.3, tolerance: 6.35},
	{args: []string{"AB=7'—10\"", "BC=7'", "CA=7'"}, source: practice, value: 2387.6, tolerance: 12.7},
	{args: []string{"AB=2m40", "BC=2m", "CA=2m"}, source: practice, value: 2400, tolerance: 5},
	{args: []string{"AB=2m4", "BC=2m", "CA=2m"}, source: practice, line: `AB=2m4: "2m4" can be read in two ways: a tenth of a metre, or a centimetre`, hint: "write 2m40 or 2m04"},
	{args: with("AB=2400㎜", []string{"BC=2000㎜", "CA=2000㎜"}), source: ratio, value: 2400, tolerance: 0.5},
	// Bare numbers.
	{args: []string{"AB=12in", "BC=9in", "CA=12"}, source: practice, line: "CA=12: has no unit, and AB=12in has one", hint: "write CA=12mm or CA=12in; or say what bare numbers count, such as --unit mm"},
	{args: []string{"AB=7'-10\"", "BC=90", "CA=60"}, source: practice, line: `BC=90: has no unit, and AB=7'-10" has one`, hint: "write BC=90mm, BC=90in or BC=90ft; or say what bare numbers count, such as --unit mm"},
	{args: []string{"job.yaml"}, text: "pieces:\n  - measure: [AB=12in, BC=9in, CA=9in]\n    holes: [1 at AB 2in from A 3in]\n", source: practice,
		line: "job.yaml:3:13: 1 at AB 2in from A 3in: holds a number without a unit, and AB=12in has one", hint: "write the unit of each, such as 3mm or 3in; or say what bare numbers count, such as unit: mm"},
	{args: []string{"AB=12in", "BC=9in", "CA=12", "--unit", "in"}, source: practice, value: 304.8, tolerance: 12.7},
	{args: []string{"AB=3.20", "BC=4.10", "CA=5.00"}, source: practice, value: 3.2, tolerance: 0.005, care: "every length is under 20 mm: if metres were meant, write AB=3.20m, or --unit m for all"},
	{args: []string{"job.yaml"}, text: "unit: mm\npieces:\n  - measure: [AB=3, BC=4, CA=5]\n", source: practice, value: 3, tolerance: 0.5, care: "every length is under 20 mm: if metres were meant, write AB=3m, or unit: m for all"},
	{args: []string{"AB=2300", "BC=1900", "CA=5000"}, source: practice, line: "AB 2300 and BC 1900 together are 800 short of reaching across CA 5000", hint: "one of the three is wrong: measure them again; with a digit less, CA 500 would fit"},
	{args: []string{"AB=4200", "BC=430", "CA=300"}, source: practice, line: "CA 300 and BC 430 together are 3470 short of reaching across AB 4200", hint: "one of the three is wrong: measure them again; with a digit less, AB 420 would fit"},
	// Angles and slopes.
	{args: with("A=35:30", arms), source: practice, value: 49.398705354995535, care: "A=35:30 is read as a slope 35 in 30 = 49.4°; degrees and minutes are written 35°30'"},
	{args: with("A=2:1", arms), source: practice, value: 63.43494882292201, care: "A=2:1 is read as a slope 2 in 1 = 63.4°; the other way round it is 1:2"},
	{args: with("A=35.30", arms), source: practice, value: 35.3, tolerance: 0.005},
	{args: with("A=35°30'±5", arms), source: practice + ": as with lengths, the last unit", value: 35.5, tolerance: 1. / 12},
	{args: with("A=1∶12", arms), source: ratio, value: 4.763641690726178},
	{args: with(`A=6"/12`, arms), source: pitch, value: 26.56505117707799, tolerance: 0.5},
	{args: with("A=8.5 %", arms), source: practice, value: 4.858462919034287},
	{args: with("A=8,5\u202f%", arms), source: practice, value: 4.858462919034287},
	{args: with("A=85‰", arms), source: permille, value: 4.858462919034287},
	{args: with("A=35gr", arms), source: gons, value: 31.5, tolerance: 0.45},
	{args: with("A=45o", arms), source: practice, line: `A=45o: "45o" is not an angle`, hint: "write the degree sign, or deg: 45°"},
	// Numbers that say nothing of what they measure.
	{args: []string{"2300", "1900", "2700"}, source: practice, line: `"2300" is a number and does not say what it measures`, hint: "write AB=2300 BC=1900 CA=2700"},
	{args: []string{"318"}, source: practice, line: `"318" is a number and does not say what it measures`, hint: "write what it measures, such as AB=318"},
	{args: []string{"AB=600", "BC=450", "450"}, source: practice, line: `"450" is a number and does not say what it measures`, hint: "write what it measures, such as CA=450"},
	// What nobody sees, and letters in pieces.
	{args: with("AB=24\u202e00", sides), source: hidden, line: `"AB=24\u202e00": holds the character U+202E, which cannot be seen and turns the order of letters`, hint: "take it out, or type the words anew"},
	{args: with("AB=2400", append(sides, "--name", "gable\u2067")), source: hidden, line: "--name: holds the character U+2067, which cannot be seen and turns the order of letters", hint: "take it out, or type the words anew"},
	{args: []string{"job.yaml"}, text: "pieces:\n  - name: \"gable\\u0007\"\n    measure: [AB=600, BC=450, CA=450]\n", source: hidden, line: "job.yaml:2:11: holds the character U+0007, which cannot be seen", hint: "take it out, or type the words anew"},
	{args: []string{"job.yaml"}, text: "# the \u202egable\npieces:\n  - measure: [AB=600, BC=450, CA=450]\n", source: hidden, line: "job.yaml:1:7: holds the character U+202E, which cannot be seen and turns the order of letters", hint: "take it out, or type the words anew"},
	{args: []string{"AB=600", "BC=450", "CA=450", "--config", "job.yaml"}, text: "trades:\n  barn\u200f: {unit: mm}\n", source: hidden, line: "job.yaml:2:7: holds the character U+200F, which cannot be seen and turns the order of letters", hint: "take it out, or type the words anew"},
	{args: []string{"job.yaml"}, text: "job: Cafe\u0301\npieces:\n  - measure: [AB=600, BC=450, CA=450]\n", source: composed, value: 600, tolerance: 0.5},
}

// Numbers as trades write them, whole messages: a form that a trade uses is read, one
// with two readings is refused with both.
func TestNumbersAsTradesWriteThem(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	for _, c := range numbersWritten {
		for _, name := range []string{"site.csv", "job.yaml"} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(c.text), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		status, stdout, stderr := trammel(t, dir, "", append([]string{"solve", "--json"}, c.args...)...)
		if c.source == "" {
			t.Errorf("%q: no source", c.args)
		}
		if c.line != "" {
			if want := "trammel: " + c.line + "\n  " + c.hint + "\n"; status == statusDone || stdout != "" || stderr != want {
				t.Errorf("%q %q\n got %d %s\nwant %s", c.args, c.text, status, stderr, want)
			}
			continue
		}
		var report struct {
			Job    string
			Pieces []struct {
				Measured []struct{ Value, Tolerance float64 }
				Warnings []string
			}
		}
		if err := json.Unmarshal([]byte(stdout), &report); err != nil || status != statusDone {
			t.Errorf("%q: %d %s %v", c.args, status, stderr, err)
			continue
		}
		p := report.Pieces[0]
		got := p.Measured[0]
		if math.Abs(got.Value-c.value) > 1e-9 || c.tolerance != 0 && math.Abs(got.Tolerance-c.tolerance) > 1e-9 {
			t.Errorf("%q is read as %v ± %v, want %v ± %v", c.args, got.Value, got.Tolerance, c.value, c.tolerance)
		}
		if all := strings.Join(p.Warnings, "\n"); c.care != "" && !strings.HasPrefix(all+"\n", c.care+"\n") || c.care == "" && strings.Contains(all, "read as") {
			t.Errorf("%q: %q, want %q", c.args, all, c.care)
		}
	}
}
