package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// table is one way for what came from a site as site.csv to be wrong.
type table struct {
	args string // behind the command and the file
	text string
	line string
	hint string
}

const (
	head    = "from,to,value,tolerance,note\n"
	naming  = "begin with a line that names the columns: from,to,value,tolerance,note"
	kindsOf = "from=A, to=B is a distance; from=C, to=AB a height; from=BAC and nothing in to an angle"
	widths  = `the head names 5 columns; a value with a decimal comma wants quotes, "2,5", and so does a note with a comma`
	inches  = `an inch mark within quotes is written twice: "7'-10"""`
	plain   = "save it as plain UTF-8 text"
	good    = head + "A,B,8m,,\nB,C,6m,,\nC,A,5m,,\n"
)

// wrongTables: tables and lists of measurements.
var wrongTables = []table{
	// Nothing, and what is neither.
	{"", "", "site.csv:1:1: holds no measurements", naming + "; or write one token a line: AB=600"},
	{"", "\ufeff# nothing yet\r\n\r\n", "site.csv:1:1: holds no measurements", naming + "; or write one token a line: AB=600"},
	{"", ",,,\n;;\n", "site.csv:2:1: the first line does not name the columns", naming},
	{"", head, "site.csv:2:1: the table ends behind its head: it holds no measurements", "below it write one a line: A,B,4510"},
	{"", "hello\n", `site.csv:1:1: "hello" is neither a measurement nor the head of a table`, naming + "; or write one token a line: AB=600"},
	{"", "pieces:\n  - measure: [AB=600, BC=450, CA=450]\n", `site.csv:1:1: "pieces:" is neither a measurement nor the head of a table`, naming + "; or write one token a line: AB=600"},
	{"", "%PDF", `site.csv:1:1: "%PDF" is neither a measurement nor the head of a table`, naming + "; or write one token a line: AB=600"},
	// Columns.
	{"", "A,B,4510\nB,C,3000\n", "site.csv:1:1: the first line does not name the columns", naming},
	{"", "from,to,valeu\nA,B,4510\n", `site.csv:1:9: unknown column "valeu"`, `did you mean "value"?`},
	{"", "\ufefffrom;to;value;colour\nA;B;4510;red\n", `site.csv:1:15: unknown column "colour"`, "take the column out; known: from, to, value, tolerance, note"},
	{"", "# day 2\nfrom,to,value,to\nA,B,4510,C\n", `site.csv:2:15: the column "to" stands there twice`, "keep one of both"},
	{"", "from,value\nAB,4510\n", `site.csv:1:1: the table has no column "to"`, naming},
	// Rows.
	{"", head + "A,B,2,5\n", `site.csv:2:7: the row has 4 fields of 5: "5" may be a tolerance or the decimals of a value`, `write every field of the row, were it empty; a value with a decimal comma wants quotes, "2,5"`},
	{"", head + "A,B,8m,,the sill, the old one\n", `site.csv:2:19: "the old one" stands in a field that has no column`, widths},
	{"", head + "A,B\n", "site.csv:2:4: the row ends before its value", widths},
	{"", head + "A,B,,3,\n", "site.csv:2:5: AB has no value", "write what was read, or take the line out"},
	{"", head + ",B,4510,,\n", "site.csv:2:1: nothing says from where it was measured", kindsOf},
	{"", head + "\"a\",B,4510,,\n", `site.csv:2:1: "a" names no points`, "points have capital letters: A"},
	{"", head + "A,7,4510,,\n", `site.csv:2:3: "7" names no points`, "a point is a capital letter, perhaps with digits behind it, such as A or K2"},
	{"", head + "AB,C,4510,,\n", "site.csv:2:1: from AB to C is neither a distance nor a height", "a height goes from its point to a line: from=C, to=AB"},
	{"", head + "A,A,4510,,\n", `site.csv:2:5: AA=4510: "AA" names A twice`, "a measurement is AB=2400, A=35deg, BAC=35deg or C-AB=620"},
	// Values and tolerances.
	{"", head + "A,B,8m,,\nB,C,45oo,,\n", `site.csv:3:5: BC=45oo: "45oo" is not a length`, "write digits, not letters that look like them: 4500"},
	{"", head + "A,B,\"4,510\",,\n", `site.csv:2:5: AB=4,510: "4,510" can be read in two ways: the comma may part thousands`, "write 4510, or 4.51"},
	{"", "from;to;value\nA;B;4.510,5\n", `site.csv:2:5: AB=4.510,5: "4.510,5" has two decimal marks`, "write one decimal mark and nothing between the thousands: 4510.5"},
	{"", head + "A,B,35deg,,\n", `site.csv:2:5: AB=35deg: "35deg" is not a length: "deg" is not a unit of length`, "an angle has one letter or three: A=35deg or BAC=35deg"},
	{"", head + "A,B,8m,0,\n", `site.csv:2:8: a tolerance of "0" allows nothing`, "leave it out: then it is half of the last digit written"},
	{"", head + "A,B,8m,\"±0,00\",\n", `site.csv:2:8: a tolerance of "0,00" allows nothing`, "leave it out: then it is half of the last digit written"},
	{"", head + "A,B,8m,good,\n", `site.csv:2:8: "good" is not a tolerance`, "write how far off the value may be, such as 2 or 2mm, or leave it out"},
	{"", head + "A,B,8m+-2mm,3,\n", "site.csv:2:13: the value 8m+-2mm has a tolerance already", "leave one of both out"},
	{"", head + "A,B,8m,5,\n", `site.csv:2:5: AB=8m+-5: a tolerance of "5" is more than half of what was measured`, "a bare tolerance counts m here, as its length does: write its unit, such as +-2mm"},
	// Quotes and bytes.
	{"", head + "A,B,\"8m,,\nB,C,6m,,\n", "site.csv:2:5: a quote that begins here is never closed", "a field in quotes ends with a quote; " + strings.Replace(inches, "within quotes", "in it", 1)},
	{"", head + "A,B,\"94.5\"in,,\n", "site.csv:2:11: something stands behind the quote that ends a field", inches},
	{"", head + "A,B,8m,,caf\xe9\n", "site.csv:2:12: is not UTF-8 text", plain},
	{"", "\xff\xfef\x00r\x00", "site.csv:1:1: is not UTF-8 text", plain},
	{"", head + "A,B,8m,,\x1b[31m\n", "site.csv:2:9: holds the byte 0x1b, so it is not text", plain},
	// Tokens, one a line.
	{"", "AB=8m\nBC\n", `site.csv:2:1: "BC" is not a measurement: it has no =`, "write what was measured and its value, one a line, such as AB=600"},
	{"", "AB=8m\n BC=6m, CA=5m\n", `site.csv:2:2: "BC=6m, CA=5m" holds more than one measurement`, "write one a line"},
	{"", "AB=8m\nab=6m # again\n", `site.csv:2:1: ab=6m: "ab" has a small letter`, "points have capital letters: write AB"},
	// Many.
	{"", head + strings.Repeat("A,B,8m,,\n", 10_000), "site.csv:2002:1: more than 2000 measurements", "a piece may have 2000: divide it into several jobs"},
	{"", strings.Repeat("AB=8m\n", 10_000), "site.csv:2001:1: more than 2000 measurements", "a piece may have 2000: divide it into several jobs"},
	{"", strings.Repeat("# nothing\n", 100_001), "site.csv: is larger than 1 MB", "the largest file that trammel reads is 1 000 000 bytes"},
	// What the flags say of a site.
	{"--tape IV", good, `--tape: "IV" is not a class of tapes`, "write I, II or III, as the tape itself says near its zero; II is the usual one"},
	{"--instrument sextant", good, `--instrument: "sextant" is not known here`, "known: none, square, protractor, theodolite"},
	{"--permitted 0", good, `--permitted: "0" is no length at all`, "the least is 0.1 mm"},
	{"--every 1", good, `--every: "1" is less than 10 mm, the least that is read`, "a bare number counts mm here; another unit is written behind it, such as 2.4m"},
	{"--boards 2km", good, `--boards: "2km" is not a length: "km" is not a unit of length`, "units are mm, cm, m, in or ft"},
	{"--origin 1000", good, `--origin: "1000" is not a place`, "write easting,northing, such as 1000,2000; with decimal commas 1000,5; 2000,5"},
	{"--bearing 400", good, `--bearing: "400" is more than a whole turn`, "write an angle from -360 to 360 degrees"},
	{"--bearing=", good, "--bearing: wants a value", ""},
	{"--temperature 31", good, `--temperature: "31" is not a temperature`, "write 31C or 88F: a number alone could be either"},
	{"--pull 80N", good, "--pull: the tape is true at 50 N and stretches otherwise, and nothing says how thick it is",
		"add under site: section: 4.2mm2 or 0.0075in2 (width times thickness); or tape_pull, where it is true at another pull"},
	{"--span 10m", good, "--span: a tape that hangs sags, and nothing says what it weighs", "add under site: weight: 0.18N/m, 18g/m or 2.8lb/100ft"},
	{"--slope 3deg", good, "--slope: one fall for every line would be wrong for all but one direction", `each line falls in its own way: say how high the pegs stand, under the piece levels: [A 0, B 320], or --levels "A 0, B 320"`},
	{"--levels A=0", good, `--levels: "A=0" does not say how high pegs stand`, "write each peg and its height, such as A 0, B 320, C -0.15m"},
	{"--levels=", good, `--levels: "" does not say how high pegs stand`, "write each peg and its height, such as A 0, B 320, C -0.15m"},
	{"--walls ab", good, `--walls: "ab" does not name two points`, "points have capital letters: AB"},
	{"--walls=", good, "--walls: no line is named", "write each wall by its two ends, such as AB,BC, or outline for all edges of the piece"},
	{"--walls all", good, `--walls: "all" does not name two points`, "write each wall by its two ends, such as AB,BC, or outline for all edges of the piece"},
	{"--blocked AX", good, "--blocked: there are no two points AX", "the points are A, B and C"},
	// Where the pegs go.
	{"--pegs=", good, "--pegs: wants a value", ""},
	{"--pegs pegs.txt", good, "--pegs pegs.txt: is not a name that ends in .csv", "such as --pegs pegs.csv"},
	{"--pegs .csv", good, "--pegs .csv: is not a name that ends in .csv", "such as --pegs pegs.csv"},
	{"--pegs site.csv", good, "--pegs site.csv: is the job file itself, which would be lost", "name another file to write"},
	{"--pegs nowhere/pegs.csv", good, `nowhere/pegs.csv: there is no folder "nowhere"`, "make the folder first, or name another"},
}

func TestWrongTables(t *testing.T) {
	t.Parallel()
	dir := place(t)
	for _, c := range wrongTables {
		if err := os.WriteFile(filepath.Join(dir, "site.csv"), []byte(c.text), 0o666); err != nil {
			t.Fatal(err)
		}
		wrong{args: append([]string{"setout", "site.csv", "-o", "out.txt"}, strings.Fields(c.args)...), status: statusWords, line: c.line, hint: c.hint}.check(t, dir)
	}
	os.Remove(filepath.Join(dir, "site.csv"))
	for _, c := range []wrong{
		// The same from standard input, where nothing but the text says what it is.
		{args: []string{"solve", "-"}, stdin: "from,to,valeu\nA,B,4510\n", status: statusWords, line: `standard input:1:9: unknown column "valeu"`, hint: `did you mean "value"?`},
		{args: []string{"solve", "-"}, stdin: "AB=600\nBC\n", status: statusWords, line: `standard input:2:1: "BC" is not a measurement: it has no =`, hint: "write what was measured and its value, one a line, such as AB=600"},
		{args: []string{"solve", "-", "--name", strings.Repeat("x", 81)}, stdin: "AB=600\n", status: statusWords, line: "--name: is longer than 80 letters"},
		{args: []string{"solve", "site.csv"}, status: statusWords, line: "site.csv: there is no such file", hint: "name a job file, or give measurements such as AB=600 BC=450 CA=450"},
		{args: []string{"setout", "job.yaml", "-o", "out.csv", "--pegs", "pegs.csv"}, job: "pieces:\n  - measure: [AB=8m, BC=6m, CA=5m]\n  - measure: [AB=8m, BC=6m, CA=7m]\n", status: statusWords,
			line: "--pegs pegs.csv: a file of pegs is of one sheet, and this job has 2", hint: "make a job of the piece"},
		{args: []string{"setout", "AB=8m", "BC=6m", "CA=5m", "-o", "out.csv", "--pegs", "./out.csv"}, status: statusWords,
			line: "--pegs ./out.csv: leads to the same file as -o out.csv", hint: "name another file for the pegs"},
		// What a job says of its site.
		siteWrong("tape: IV", `job.yaml:2:9: tape: "IV" is not a class of tapes`, "write I, II or III, as the tape itself says near its zero; II is the usual one"),
		siteWrong("taep: II", `job.yaml:2:3: unknown key "taep" in site`, `did you mean "tape"?`),
		siteWrong("angle: 30mm", `job.yaml:2:10: angle: "30mm" is not an angle`, `what 95 of 100 angles keep: write 30', 20" or 0.1deg`),
		siteWrong("tape_says: 30m", "job.yaml:2:14: tape_says: nothing says how long the tape truly is", "add tape_is, from its certificate, or leave tape_says out"),
		siteWrong("weight: 2.8lb", `job.yaml:2:11: weight: "2.8lb" is not a weight`, "of a run of tape: write 0.18N/m, 18g/m or 2.8lb/100ft"),
		siteWrong("expansion: 11.6", `job.yaml:2:14: expansion: "11.6" is not a coefficient of expansion`, "write 11.6e-6/C or 6.45e-6/F; steel has 11.6e-6/C"),
		siteWrong("temperature: [31]", "job.yaml:2:16: temperature is a list, not text", ""),
	} {
		c.check(t, dir)
	}
}

func siteWrong(key, line, hint string) wrong {
	return wrong{
		args: []string{"setout", "job.yaml", "-o", "out.pdf"}, job: fmt.Sprintf("site:\n  %s\npieces:\n  - measure: [AB=8m, BC=6m, CA=5m]\n", key),
		status: statusWords, line: line, hint: hint,
	}
}
