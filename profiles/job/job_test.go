package job

import (
	"errors"
	"regexp"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
)

const good = `# for the slip
job: Slip gate brace
unit: mm
trade: joiner
date: 2031-04-30
pieces:
  - name: Brace plate
    measure: [AB=600, BC=450, "CA=2,4m", AB=7'-10 1/2"]
    quantity: 2
    pick: both
    base: AB
    with: arcs
  - measure:
      - AB=640
      - A=52°
      - C-AB=620
`

func TestRead(t *testing.T) {
	j, err := Read("slip.yaml", []byte(good))
	if err != nil {
		t.Fatal(err)
	}
	if j.Name.Text != "Slip gate brace" || j.Unit != (Setting{"mm", "slip.yaml:3:7"}) || j.Date != "2031-04-30" || j.Trade.Text != "joiner" || j.Paper.Text != "" {
		t.Errorf("settings: %+v", j)
	}
	if string(j.Raw) != good {
		t.Error("the bytes are not kept as read")
	}
	if len(j.Pieces) != 2 {
		t.Fatalf("%d pieces", len(j.Pieces))
	}
	p := j.Pieces[0]
	if p.Name != "Brace plate" || p.Quantity != 2 || p.Pick != Both || p.Base != [2]geom.Name{"A", "B"} || p.With != construct.ByArcs {
		t.Errorf("piece: %+v", p)
	}
	// The place of a token is its own, within a list on one line as well (counted by hand).
	want := []Setting{{"AB=600", "slip.yaml:8:15"}, {"BC=450", "slip.yaml:8:23"}, {"CA=2,4m", "slip.yaml:8:31"}, {`AB=7'-10 1/2"`, "slip.yaml:8:42"}}
	for i, w := range want {
		if p.Measure[i] != w {
			t.Errorf("token %d: %+v, want %+v", i, p.Measure[i], w)
		}
	}
	if q := j.Pieces[1]; q.Quantity != 1 || q.Pick != Unpicked || q.Measure[1] != (Setting{"A=52°", "slip.yaml:15:9"}) {
		t.Errorf("second piece: %+v", q)
	}
}

// JSON is a subset of YAML (RFC 8259 and YAML 1.2), tabs for indentation included.
func TestReadJSON(t *testing.T) {
	j, err := Read("-", []byte("{\n\t\"job\": \"Gate\",\n\t\"pieces\": [\n\t\t{\"measure\": [\"AB=1\", \"BC=1\", \"CA=1\"], \"quantity\": 3}\n\t]\n}\n"))
	if err != nil {
		t.Fatal(err)
	}
	if j.Name.Text != "Gate" || j.Pieces[0].Quantity != 3 || len(j.Pieces[0].Measure) != 3 {
		t.Errorf("%+v", j)
	}
}

func TestFaults(t *testing.T) {
	const m = "pieces:\n- measure: [AB=1]\n"
	tests := []struct{ text, want, hint string }{
		{"", "j:1:1: the file is empty", ""},
		{"# only a remark\n", "j:1:1: the file is empty", ""},
		{"\x00\x01", `j:1:1: holds the byte 0x00, so it is not text`, "save it as plain UTF-8 text"},
		{"job: \xff", "j:1:6: is not UTF-8 text", "save it as plain UTF-8 text"},
		{"[]", "j:1:1: the job is not keys with values but a list", "write key: value, one a line; keys: job, unit, fraction, angles, voice, trade, paper, printer, both_hands, date, site, tasks, pieces"},
		{"job: x\n", "j:1:1: the job has no pieces", "pieces: and below it  - measure: [AB=600, BC=450, CA=450]"},
		{"piece: x\n", `j:1:1: unknown key "piece" in the job`, `did you mean "pieces"?`},
		{"Job: x\n", `j:1:1: unknown key "Job" in the job`, `did you mean "job"?`},
		{m + "colour: red\n", `j:3:1: unknown key "colour" in the job`, "known: job, unit, fraction, angles, voice, trade, paper, printer, both_hands, date, site, tasks, pieces"},
		{m + "unit: mm\nunit: cm\n", `j:4:1: key "unit" is repeated; it stands in line 3 already`, ""},
		{m + "unit:\n", "j:3:6: unit is empty", "take the line out, or say what it is"},
		{m + "unit: [mm]\n", "j:3:7: unit is a list, not text", ""},
		{m + "date: 30.4.2031\n", `j:3:7: "30.4.2031" is not a date`, "write year-month-day, such as 2031-04-30"},
		{m + "date: 2031-02-30\n", `j:3:7: "2031-02-30" is not a date`, "write year-month-day, such as 2031-04-30"},
		{m + "job: " + strings.Repeat("x", 81) + "\n", "j:3:6: the job's name is longer than 80 letters", ""},
		{m + "job: \"a\\tb\"\n", "j:3:6: the job's name holds a character that cannot be printed", ""},
		{m + "# the pe\u202eg\n", "j:3:9: holds the character U+202E, which cannot be seen and turns the order of letters", "take it out, or type the words anew"},
		{m + "job: \"a\\u202eb\"\n", "j:3:6: holds the character U+202E, which cannot be seen and turns the order of letters", "take it out, or type the words anew"},
		{"{\"pieces\": [{\"name\": \"x\\u0007\", \"measure\": [\"AB=1\"]}]}", "j:1:22: holds the character U+0007, which cannot be seen", "take it out, or type the words anew"},
		{m + "\"j\\u200fob\": x\n", "j:3:1: holds the character U+200F, which cannot be seen and turns the order of letters", "take it out, or type the words anew"},
		{m + "job: a\u2028b\n", "j:3:7: holds the character U+2028, which cannot be seen", "take it out, or type the words anew"},
		{m + "job: |\n a\n b\n", "j:3:6: the job's name is longer than one line", ""},
		{"pieces: AB=1\n", "j:1:9: pieces is not a list", "begin each piece with a dash: - measure: [AB=600, BC=450, CA=450]"},
		{"pieces: []\n", "j:1:9: the job has no pieces", "- measure: [AB=600, BC=450, CA=450]"},
		{"pieces:\n- name: x\n", "j:2:3: the piece has no measurements", "measure: [AB=600, BC=450, CA=450]"},
		{"pieces:\n- measure: []\n", "j:2:12: the piece has no measurements", "measure: [AB=600, BC=450, CA=450]"},
		{"pieces:\n- measure: {AB: 600}\n", "j:2:12: measure is not a list of measurements", "measure: [AB=600, BC=450, CA=450]"},
		{"pieces:\n- measure: [AB: 600]\n", "j:2:13: a measurement is written with =, not with a colon", "write AB=…"},
		{"pieces:\n- measure: [AB=2,4m, BC=3]\n", `j:2:18: "4m" is not a measurement: it has no =`, `a comma parts the items of a list: for a decimal comma quote the whole, "AB=2,4m"`},
		{"pieces:\n- measure: [600]\n", `j:2:13: "600" is not a measurement: it has no =`, "write what was measured and its value, such as AB=600"},
		{"pieces:\n- measure: [[AB=600]]\n", "j:2:13: the measurement is a list, not text", ""},
		{"pieces:\n- measure: [~]\n", "j:2:13: the measurement is empty", "take the line out, or say what it is"},
		{"pieces:\n- measure: [AB=1]\n  quantitty: 2\n", `j:3:3: unknown key "quantitty" in the piece`, `did you mean "quantity"?`},
		{"pieces:\n- measure: [AB=1]\n  quantity: 0\n", `j:3:13: quantity is "0"`, "write a whole number from 1 to 1000"},
		{"pieces:\n- measure: [AB=1]\n  quantity: 010\n", `j:3:13: quantity is "010"`, "write a whole number from 1 to 1000"},
		{"pieces:\n- measure: [AB=1]\n  quantity: true\n", `j:3:13: quantity is "true"`, "write a whole number from 1 to 1000"},
		{"pieces:\n- measure: [AB=1]\n  quantity: 2.5\n", `j:3:13: quantity is "2.5"`, "write a whole number from 1 to 1000"},
		{"pieces:\n- measure: [AB=1]\n  quantity: [2]\n", `j:3:13: quantity is a list`, "write a whole number from 1 to 1000"},
		{"pieces:\n- measure: [AB=1]\n  pick: 3\n", `j:3:9: pick: "3" is not a pick`, "where two triangles fit, write 1, 2 or both"},
		{"pieces:\n- measure: [AB=1]\n  base: ab\n", `j:3:9: base: "ab" does not name two points`, "points have capital letters: AB"},
		{"pieces:\n- measure: [AB=1]\n  base: AA\n", `j:3:9: base: "AA" does not name two points`, "write the two ends of the baseline, such as AB"},
		{"pieces:\n- measure: [AB=1]\n  with: arc\n", `j:3:9: with: "arc" is not a way to construct`, `did you mean "arcs"?`},
		{"pieces:\n- &x\n  measure: [AB=1]\n- *x\n", "j:2:3: anchors (&x) are not read here", "write the value out where it is needed"},
		{"pieces:\n- *x\n", "j:2:3: is not YAML: unknown anchor 'x' referenced", "anchors and aliases are not read here: write the value out"},
		{"pieces:\n- <<: {name: x}\n  measure: [AB=1]\n", "j:2:3: merge keys (<<) are not read here", "write the values out"},
		{"job: !!str x\n" + m, "j:1:6: tags (!!str) are not read here", "write the plain value"},
		{m + "---\n" + m, "j:3:1: a second document begins here", "one file holds one document: take the line --- out, or make two files"},
		{"pieces:\n\t- measure: [AB=1]\n", "j:2:2: is not YAML: found character that cannot start any token", "indent with spaces, never with tabs; quote a value that begins with @, ` or %"},
		{"job: a: b\n" + m, "j:1:1: is not YAML: mapping values are not allowed in this context", "a value that holds a colon needs quotes; otherwise look at the indentation"},
		{strings.Repeat("[", 3_000_000), "j: is larger than 1 MB", "the largest file that trammel reads is 1 000 000 bytes"},
		{strings.Repeat("[", 900_000), "j:1:41: lists within lists more than 40 deep", ""},
		{strings.Repeat("- ", 400_000), "j:1:81: lists within lists more than 40 deep", ""},
		{"pieces:\n" + strings.Repeat("- measure: [AB=1]\n", 1001), "j:1002:3: more than 1000 pieces", "make several jobs of it"},
		{"pieces:\n- measure: [" + strings.Repeat("AB=1,", 2001) + "]\n", "j:2:10013: more than 2000 measurements", ""},
	}
	for _, c := range tests {
		_, err := Read("j", []byte(c.text))
		var f *unit.Fault
		if !errors.As(err, &f) {
			t.Errorf("%.60q: error %v is not a fault", c.text, err)
			continue
		}
		if f.Error() != c.want || f.Hint != c.hint {
			t.Errorf("%.60q:\n got %s\n     %s\nwant %s\n     %s", c.text, f, f.Hint, c.want, c.hint)
		}
	}
}

var place = regexp.MustCompile(`^j(:[0-9]+:[0-9]+|: is larger than 1 MB)`)

// Whatever the bytes, the reader returns, and an error has a place and one line.
func FuzzJob(f *testing.F) {
	for _, s := range []string{good, "", "{}", "pieces: [{measure: [AB=1, BC=1, CA=1]}]", "a: &x [*x]", "[[[[", "\xef\xbb\xbfjob: x", "? [a]\n: b", "pieces:\n- measure:\n  - \"A\\u0000=3\""} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := Read("j", data)
		if err != nil {
			var fault *unit.Fault
			if !errors.As(err, &fault) {
				t.Fatalf("%T: %v", err, err)
			}
			if !place.MatchString(fault.Error()) || strings.ContainsAny(fault.Error()+fault.Hint, "\n\r") {
				t.Fatalf("no place, or more than one line: %q", fault)
			}
			return
		}
		if len(j.Pieces) == 0 {
			t.Fatal("no pieces and no error")
		}
		for _, p := range j.Pieces {
			if len(p.Measure) == 0 || p.Quantity < 1 || p.Quantity > MaxQuantity {
				t.Fatalf("%+v", p)
			}
		}
	})
}
