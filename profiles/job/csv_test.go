package job_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/profiles/job"
)

// the tokens of what was read, and where the last one stands.
func tokens(t *testing.T, text string) (all, last string) {
	t.Helper()
	list, err := job.ReadMeasurements("site.csv", []byte(text))
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	var words []string
	for _, m := range list {
		words = append(words, m.Text)
		last = m.Where
	}
	return strings.Join(words, " | "), last
}

// The forms in which a site sends its figures.
func TestReadMeasurements(t *testing.T) {
	for _, c := range []struct{ text, want, last string }{
		{"from,to,value,tolerance,note\nA,B,4510,3,along the quay\nB,C,3005,,\n", "AB=4510+-3 | BC=3005", "site.csv:3:5"},
		{"from,to,value\nA,B,4510\nC,AB,2105\nBAC,,35°30'\n", "AB=4510 | C-AB=2105 | BAC=35°30'", "site.csv:4:6"},
		{"Note, VALUE ,To,From\nwest,4510,B,A\n", "AB=4510", "site.csv:2:6"},
		// RFC 4180: CRLF, fields in quotes, quotes in them, a line's end within.
		{"from,to,value,note\r\nA,B,\"4,51 m\",\"he said \"\"about\"\"\r\nand went\"\r\nB,C,\"7'-10 1/2\"\"\",x\r\n", `AB=4,51 m | BC=7'-10 1/2"`, "site.csv:4:5"},
		{"from,to,value\nA,B,94.5\"\nB,C,7'-10 1/2\"", `AB=94.5" | BC=7'-10 1/2"`, "site.csv:3:5"},
		{"\ufefffrom,to,value\nA,B,4510\n", "AB=4510", "site.csv:2:5"},
		{"\ufeff\"from\",\"to\",\"value\"\r\"A\",\"B\",\"4510\"\r", "AB=4510", "site.csv:2:9"},
		{"from;to;value;tolerance\nA;B;4,510 m;2,5mm\nB;C;3,25m;\n", "AB=4.510 m+-2.5mm | BC=3.25m", "site.csv:3:5"},
		{"from\tto\tvalue\nA\tB\t4,51 m\nB\tC\t7ft 10in\n", "AB=4.51 m | BC=7ft 10in", "site.csv:3:5"},
		// Between tabs a comma before three digits is left, to be refused with both readings.
		{"from\tto\tvalue\ttolerance\nA\tB\t2,400\t\nB\tC\t0,125 m\t1,5\n", "AB=2,400 | BC=0.125 m+-1.5", "site.csv:3:5"},
		// What spreadsheets write above a table.
		{"sep=;\nfrom;to;value\nA;B;45,1\n", "AB=45.1", "site.csv:3:5"},
		{"\ufeff\"sep=;\"\r\nfrom;to;value\r\nA;B;45,1\r\n", "AB=45.1", "site.csv:3:5"},
		{"SEP=,\nfrom,to,value\nA,B,4510\n", "AB=4510", "site.csv:3:5"},
		{"sep=\t\nfrom\tto\tvalue\nA\tB\t4510\n", "AB=4510", "site.csv:3:5"},
		{"sep=\\t\nfrom\tto\tvalue\nA\tB\t4510\n", "AB=4510", "site.csv:3:5"},
		// Fields that are counted out, a sign, a point or quotes say that no comma is a decimal one.
		{"from,to,value,tolerance,note\nA,B,5,2,\nB,C,5,2,north\n", "AB=5+-2 | BC=5+-2", "site.csv:3:5"},
		{"from,to,value,tolerance\nA,B,5,2\nB,C,5,\n", "AB=5+-2 | BC=5", "site.csv:3:5"},
		{"from,to,value,tolerance\nA,B,5,2\nB,C,5,±2\n", "AB=5+-2 | BC=5+-2", "site.csv:3:5"},
		{"from,to,value,tolerance\nA,B,5,2\nB,C,5.5,2\n", "AB=5+-2 | BC=5.5+-2", "site.csv:3:5"},
		{"from,to,value,tolerance\nA,B,\"5\",2\nB,C,5mm,2\n", "AB=5+-2 | BC=5mm+-2", "site.csv:3:5"},
		{"from,to,value,note\nA,B,5,\"40\"\nB,C,5,nail 2\n", "AB=5 | BC=5", "site.csv:3:5"},
		{"# the boathouse, spring tide\n\nfrom,to,value,tolerance\n  # first day\nA,B,4510,±3\n,,,\nB,C,3005,+-2mm\n\n", "AB=4510+-3 | BC=3005+-2mm", "site.csv:7:5"},
		{"from,to,value,,\nA,B,4510,,\n", "AB=4510", "site.csv:2:5"},
		{"from,to,value,tolerance,note\nA,B,4510\nBAC,,35°30',0°30',\n", "AB=4510 | BAC=35°30'+-0°30'", "site.csv:3:6"},
		{"value,from,to\n4510,AB\n35deg,BAC\n620,C-AB\n", "AB=4510 | BAC=35deg | C-AB=620", "site.csv:4:1"},
		{"from,to,value\n A , B , 4510 \n", "AB=4510", "site.csv:2:10"},
		{"from,to,value\nK2,L13,4510\nM1,K2L13,300\n", "K2L13=4510 | M1-K2L13=300", "site.csv:3:10"},
		{"AB=4510\nBC=3005+-2 # read twice\n\n# C\n  C-AB = 2105\r\nBAC=35°30'\n", "AB=4510 | BC=3005+-2 | C-AB = 2105 | BAC=35°30'", "site.csv:6:1"},
	} {
		if got, last := tokens(t, c.text); got != c.want || last != c.last {
			t.Errorf("%q\n got %s, %s\nwant %s, %s", c.text, got, last, c.want, c.last)
		}
	}
}

// What is measured is read as the geometry reads it.
func TestMeasurementsParse(t *testing.T) {
	list, err := job.ReadMeasurements("site.csv", []byte("from;to;value;tolerance\nA;B;4,510 m;2,5mm\nC;AB;7ft 10 1/2in;\nBAC;;35°30';0°10'\n"))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, s := range list {
		m, err := triangle.ParseMeasurement(s.Text, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, fmt.Sprint(m.Kind, m.At, " ", m.Value.Value.FloatString(3), " ", m.Value.Tolerance.FloatString(4)))
	}
	want := []string{"0 [A B ] 4510.000 2.5000", "2 [C A B] 2400.300 6.3500", "1 [B A C] 35.500 0.1667"}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// Letters in pieces (a letter and its accent apart) become those that fonts have; the
// places are those of the file as it is.
func TestLettersComposed(t *testing.T) {
	const text = "from,to,value,note\nA,B,600,re\u0301gle\nB,C,700,\"e\u0301\",x\n"
	_, err := job.ReadAny("site.csv", []byte(text))
	var f *unit.Fault
	if !errors.As(err, &f) || f.Where != "site.csv:3:14" {
		t.Errorf("%v, want the place 3:14", err)
	}
	j, err := job.ReadAny("site.csv", []byte(strings.Replace(text, ",x", "", 1)))
	if err != nil || fmt.Sprint(j.Pieces[0].Notes) != "[r\u00e9gle \u00e9]" {
		t.Errorf("%+v, %v", j.Pieces, err)
	}
	j, err = job.Read("job.yaml", []byte("job: Cafe\u0301\npieces:\n  - name: 'Me\u0301tier'\n    measure: [AB=600, BC=450, CA=450]\n"))
	if err != nil || j.Name.Text != "Caf\u00e9" || j.Pieces[0].Name != "M\u00e9tier" {
		t.Errorf("%q %+v, %v", j.Name.Text, j.Pieces, err)
	}
}

// Every word of a table is kept: as many measurements as rows, and the notes.
func TestNothingIsLost(t *testing.T) {
	var b strings.Builder
	b.WriteString("from,to,value,tolerance,note\n")
	for i := range job.MaxMeasurements {
		fmt.Fprintf(&b, "P%d,Q,%d,2,no. %d\n", i+1, 1000+i, i)
	}
	j, err := job.ReadAny("site.csv", []byte(b.String()))
	if err != nil {
		t.Fatal(err)
	}
	p := j.Pieces[0]
	if len(p.Measure) != job.MaxMeasurements || len(p.Notes) != job.MaxMeasurements {
		t.Fatalf("%d measurements, %d notes", len(p.Measure), len(p.Notes))
	}
	for i, m := range p.Measure {
		if want := fmt.Sprintf("P%dQ=%d+-2", i+1, 1000+i); m.Text != want || p.Notes[i] != fmt.Sprintf("no. %d", i) {
			t.Fatalf("row %d: %s, %q", i, m.Text, p.Notes[i])
		}
	}
	_, err = job.ReadAny("site.csv", []byte(b.String()+"A,B,600\n"))
	var f *unit.Fault
	if !errors.As(err, &f) || f.Where != fmt.Sprintf("site.csv:%d:1", job.MaxMeasurements+2) || f.What != fmt.Sprintf("more than %d measurements", job.MaxMeasurements) {
		t.Errorf("one more: %v", err)
	}
}

// What a file is shows in its text, whatever its name says.
func TestReadAny(t *testing.T) {
	const yaml = "pieces:\n  - measure: [AB=600, BC=450, CA=450]\n"
	for _, c := range []struct {
		file, text string
		list       bool
	}{
		{"job.yaml", yaml, false}, {"job.txt", yaml, false}, {"job.txt", "# a remark\n\n" + yaml, false}, {"standard input", yaml, false},
		{"job", `{"pieces": [{"measure": ["AB=600", "BC=450", "CA=450"]}]}`, false}, {"job", "---\n" + yaml, false},
		{"job", "job: A, B\n" + yaml, false}, {"job", "unit: mm\n" + yaml, false},
		{"site.txt", "AB=600\nBC=450\nCA=450\n", true}, {"standard input", "sep=;\nfrom;to;value\nA;B;600\n", true}, {"standard input", "AB=600\nBC=450\nCA=450\n", true}, {"site", "C-AB = 450\nAB=600\nCA=500", true},
		{"standard input", "from,to,value\nA,B,600\nB,C,450\nC,A,450\n", true}, {"site.CSV", "from;to;value\nA;B;600\n", true},
	} {
		j, err := job.ReadAny(c.file, []byte(c.text))
		if err != nil || (j.Raw == nil) != c.list || j.File != c.file || len(j.Pieces) != 1 {
			t.Errorf("%s %q: %+v, %v", c.file, c.text, j, err)
		}
	}
}

// What a document carries of a table is a job file, notes and all.
func TestTableCarried(t *testing.T) {
	const text = "from,to,value,tolerance,note\nA,B,600,3,\"the quay: #1, 'wet'\"\nB,C,450,,\nC,A,450,,slope\n"
	j, err := job.ReadAny("site.csv", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	data, err := job.Write(j, job.Overrides{})
	const want = "pieces:\n  - measure:\n      - 'AB=600+-3' # the quay: #1, 'wet'\n      - 'BC=450'\n      - 'CA=450' # slope\n"
	if err != nil || string(data) != want {
		t.Fatalf("%s, %v", data, err)
	}
	data, err = job.Write(j, job.Overrides{
		Piece: job.Piece{Outline: []geom.Name{"A", "B", "C"}, Sides: []job.Aside{{Right: true}, {Point: "C", Of: [2]geom.Name{"A", "B"}}}, Found: []job.Setting{{Text: "AB=601"}, {Text: "BC=450"}}},
		Site:  map[string]job.Setting{"tape": {Text: "II"}, "origin": {Text: "1000,2000"}},
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []string{"# the quay: #1, 'wet'\n", "# slope\n"} {
		if !strings.Contains(string(data), s) {
			t.Errorf("%q is lost: %s", s, data)
		}
	}
	back, err := job.Read("job.yaml", data)
	if err != nil {
		t.Fatal(err)
	}
	p, o := back.Pieces[0], back.MadeWith
	got := fmt.Sprintf("%v %v, %v %d %s %d %s %s %s", o.Piece.Outline, o.Piece.Sides[0], o.Piece.Sides[1], len(p.Measure), p.Measure[0].Text, len(p.Found), p.Found[0].Text, o.Site["tape"].Text, o.Site["origin"].Text)
	if got != "[A B C] right, C left of AB 3 AB=600+-3 2 AB=601 II 1000,2000" {
		t.Errorf("carried: %s\n%s", got, data)
	}
}

func TestWrongTables(t *testing.T) {
	const head = "from,to,value,tolerance,note\n"
	const begin = "begin with a line that names the columns: from,to,value,tolerance,note"
	const whole = `write every field of the row, were it empty; a value with a decimal comma wants quotes, "2,5"`
	const kinds = "from=A, to=B is a distance; from=C, to=AB a height; from=BAC and nothing in to an angle"
	const five = `the head names 5 columns; a value with a decimal comma wants quotes, "2,5", and so does a note with a comma`
	for _, c := range []struct{ text, where, what, hint string }{
		{"", "1:1", "holds no measurements", begin + "; or write one token a line: AB=600"},
		{"# nothing\n\n", "1:1", "holds no measurements", begin + "; or write one token a line: AB=600"},
		{head, "2:1", "the table ends behind its head: it holds no measurements", "below it write one a line: A,B,4510"},
		{"A,B,4510\n", "1:1", "the first line does not name the columns", begin},
		{"measurements\n", "1:1", `"measurements" is neither a measurement nor the head of a table`, begin + "; or write one token a line: AB=600"},
		{"from,to,valeu\nA,B,4510\n", "1:9", `unknown column "valeu"`, `did you mean "value"?`},
		{"from,to,value,colour\nA,B,4510,red\n", "1:15", `unknown column "colour"`, "take the column out; known: from, to, value, tolerance, note"},
		{"from,to,value,to\nA,B,4510,C\n", "1:15", `the column "to" stands there twice`, "keep one of both"},
		{"from,value\nAB,4510\n", "1:1", `the table has no column "to"`, begin},
		{head + "A,B,2,5\n", "2:7", `the row has 4 fields of 5: "5" may be a tolerance or the decimals of a value`, whole},
		{head + "A,B,24,5,,x\n", "2:11", `"x" stands in a field that has no column`, five},
		{head + "A,B\n", "2:4", "the row ends before its value", five},
		{head + "A,B,,3,\n", "2:5", "AB has no value", "write what was read, or take the line out"},
		{head + ",B,4510,,\n", "2:1", "nothing says from where it was measured", kinds},
		{head + "a,B,4510,,\n", "2:1", `"a" names no points`, "points have capital letters: A"},
		{head + "A,7,4510,,\n", "2:3", `"7" names no points`, "a point is a capital letter, perhaps with digits behind it, such as A or K2"},
		{head + "AB,C,4510,,\n", "2:1", "from AB to C is neither a distance nor a height", "a height goes from its point to a line: from=C, to=AB"},
		{head + "AB,CD,4510,,\n", "2:1", "from AB to CD is neither a distance nor a height", kinds},
		{head + "A,B,4510,0,\n", "2:10", `a tolerance of "0" allows nothing`, "leave it out: then it is half of the last digit written"},
		{head + "A,B,4510,±0.0 mm,\n", "2:10", `a tolerance of "0.0 mm" allows nothing`, "leave it out: then it is half of the last digit written"},
		{head + "A,B,4510,good,\n", "2:10", `"good" is not a tolerance`, "write how far off the value may be, such as 2 or 2mm, or leave it out"},
		{head + "A,B,4510+-2,3,\n", "2:13", "the value 4510+-2 has a tolerance already", "leave one of both out"},
		{head + "A,B,\"4510,,\n", "2:5", "a quote that begins here is never closed", `a field in quotes ends with a quote; an inch mark in it is written twice: "7'-10"""`},
		{head + "A,B,\"94.5\"in,,\n", "2:11", "something stands behind the quote that ends a field", `an inch mark within quotes is written twice: "7'-10"""`},
		{head + "A,B,45\x00,,\n", "2:7", "holds the byte 0x00, so it is not text", "save it as plain UTF-8 text"},
		{head + "A,B,45\xbd,,\n", "2:7", "is not UTF-8 text", "save it as plain UTF-8 text"},
		{"from,to,value,note\nA,B,5,40\n", "2:5", "5,40 may be the value 5.40, or 5 with the note 40", `write 5.40 or "5,40" in quotes for the one, the note in quotes for the other`},
		{"from,to,value,tolerance\nA,B,5,2\n", "2:5", "5,2 may be the value 5.2, or 5 with a tolerance of 2", `write 5.2 or "5,2" in quotes for the one, ±2 for the other`},
		{"from,to,value,tolerance\nA,B,5,2mm\n", "2:5", "5,2mm may be the value 5.2mm, or 5 with a tolerance of 2mm", `write 5.2mm or "5,2mm" in quotes for the one, ±2mm for the other`},
		{head + "A,B,5,2,,\n", "2:5", "the row has 6 fields, the head 5: 5,2 may be the value 5.2, or 5 with a tolerance of 2", `write 5.2 or "5,2" in quotes for the one, ±2 for the other`},
		{head + "A,B,4510,2,5\n", "2:10", "2,5 may be the tolerance 2.5, or 2 with the note 5", `write 2.5 or "2,5" in quotes for the one, the note in quotes for the other`},
		{"from,to,value\nA,B,5,\n,,,\nB,C,5,40\n", "4:7", `"40" stands in a field that has no column`, `the head names 3 columns; a value with a decimal comma wants quotes, "2,5", and so does a note with a comma`},
		{"sep=|\nfrom|to|value\n", "1:1", `"|" parts no fields here`, "save the table with commas, semicolons or tabs"},
		{"sep=;\n", "1:1", "holds no measurements", begin + "; or write one token a line: AB=600"},
		{head + "A,B,4510,,pe\u202eg\n", "2:13", "holds the character U+202E, which cannot be seen and turns the order of letters", "take it out, or type the words anew"},
		{"AB=600 # \u2067north\n", "1:10", "holds the character U+2067, which cannot be seen and turns the order of letters", "take it out, or type the words anew"},
		{"AB=600\u0085BC=500\n", "1:7", "holds the character U+0085, which cannot be seen", "take it out, or type the words anew"},
		{"AB=600\nBC\n", "2:1", `"BC" is not a measurement: it has no =`, "write what was measured and its value, one a line, such as AB=600"},
		{"AB=600\n  BC=450, CA=450\n", "2:3", `"BC=450, CA=450" holds more than one measurement`, "write one a line"},
	} {
		_, err := job.ReadMeasurements("site.csv", []byte(c.text))
		var f *unit.Fault
		if !errors.As(err, &f) || f.Where != "site.csv:"+c.where || f.What != c.what || f.Hint != c.hint {
			t.Errorf("%q\n got %+v\nwant %s: %s (%s)", c.text, err, c.where, c.what, c.hint)
			if f != nil {
				t.Log(f.Hint)
			}
		}
	}
	_, err := job.ReadMeasurements("site.csv", make([]byte, 1_000_001))
	if err == nil || err.Error() != "site.csv: is larger than 1 MB" {
		t.Errorf("a large file: %v", err)
	}
}
