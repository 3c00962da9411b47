package job

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/profiles"
	"trammel/profiles/strict"
)

// plain is a job without its places and bytes, to compare what it says.
func plain(t *testing.T, data []byte) Job {
	t.Helper()
	j, err := ReadWithin("gusset.pdf", "job.yaml", data)
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	j.File, j.Within, j.Raw = "", "", nil
	for _, s := range []*Setting{&j.Name, &j.Unit, &j.Fraction, &j.Angles, &j.Voice, &j.Trade, &j.Paper, &j.Printer} {
		s.Where = ""
	}
	for i := range j.Pieces {
		p := &j.Pieces[i]
		p.Where, p.NameAt, p.PickAt, p.BaseAt = "", "", "", ""
		for k := range p.Measure {
			p.Measure[k].Where = ""
		}
	}
	return j
}

func TestWriteAsRead(t *testing.T) {
	j, err := Read("slip.yaml", []byte(good))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := Write(j, Overrides{}); err != nil || string(got) != good {
		t.Errorf("%v\n%s", err, got)
	}
}

// full is all that can count over a job.
var full = Overrides{
	Unit: Setting{Text: "mm"}, Figures: Setting{Text: "in"}, Fraction: Setting{Text: "1/8"}, Angles: Setting{Text: "minutes"}, Voice: Setting{Text: "floor"},
	Trade:     Profile{Setting{Text: "stair's"}, []profiles.Item{{Key: "tape", Text: "no"}, {Key: "compass", Text: `7'-10 1/2"`}}},
	Paper:     Profile{Name: Setting{Text: "12x18in"}},
	Printer:   Profile{Setting{Text: "shed # 2"}, []profiles.Item{{Key: "left", Text: "4 mm"}}},
	Landscape: Setting{Text: "yes"}, Pages: Setting{Text: "outline"}, Turn: Setting{Text: "1:12"}, Apart: Setting{Text: "yes"}, Without: Setting{Text: "notes,construction"},
	Correction: Setting{Text: "across 0.001, along 0"}, Pegs: Setting{Text: "square"}, Source: Setting{Text: "gräben.csv"},
	Site: map[string]Setting{"every": {Text: "1 m"}, "permitted": {Text: "2 mm"}},
	Piece: Piece{Pick: Second, Base: [2]geom.Name{"A", "B2"}, With: construct.BySquare, Outline: []geom.Name{"A", "B", "C"},
		Sides: []Aside{{Point: "E", Of: [2]geom.Name{"C", "B"}}, {Right: true}}, Found: []Setting{{Text: "AB=2,4m"}, {Text: "C-AB=12"}},
		Fixed: []geom.Name{"A", "B2"}, Levels: []Level{{"A", Setting{Text: "0"}}, {"C", Setting{Text: "-3'-2 1/2\""}}}},
	FoundOf: 1, Places: []Setting{{Text: "3:9"}, {Text: "4:9"}},
}

// bare is Overrides without its places.
func (o Overrides) bare() Overrides {
	for _, w := range []*Setting{&o.Source, &o.Unit, &o.Figures, &o.Fraction, &o.Angles, &o.Voice, &o.Landscape, &o.Correction, &o.Pages, &o.Turn, &o.Apart, &o.Without, &o.Pegs} {
		w.Where = ""
	}
	profile := func(p Profile) Profile {
		p.Name.Where = ""
		p.Values = slices.Clone(p.Values)
		for i := range p.Values {
			p.Values[i].From = ""
		}
		return p
	}
	list := func(l []Setting) []Setting {
		l = slices.Clone(l)
		for i := range l {
			l[i].Where = ""
		}
		return l
	}
	o.Trade, o.Paper, o.Printer = profile(o.Trade), profile(o.Paper), profile(o.Printer)
	o.Places, o.Piece.Found = list(o.Places), list(o.Piece.Found)
	site := map[string]Setting{}
	for k, s := range o.Site {
		site[k] = Setting{Text: s.Text}
	}
	o.Site = site
	p := &o.Piece
	p.PickAt, p.BaseAt, p.OutlineAt, p.FoundAt, p.FixedAt, p.LevelsAt = "", "", "", "", "", ""
	p.Sides = slices.Clone(p.Sides)
	for i := range p.Sides {
		p.Sides[i].Where = ""
	}
	p.Levels = slices.Clone(p.Levels)
	for i := range p.Levels {
		p.Levels[i].Where = ""
	}
	return o
}

// forms are jobs as people and programs write them. Each says the same.
var forms = map[string]string{
	"block":                           "# on the slip\njob: Gate\npieces: # two\n  - measure: [AB=1, BC=1, CA=1] # by the quay\n\n  - measure:\n      - KL=2,4m\n    pick: 1\n",
	"block, no end of line":           "job: Gate\npieces:\n- measure: [AB=1, BC=1, CA=1]\n- {measure: [\"KL=2,4m\"], pick: 1}",
	"block, begun and ended":          "---\njob: Gate\npieces:\n- measure: [AB=1, BC=1, CA=1]\n- {measure: [\"KL=2,4m\"], pick: 1}\n...\n# the end.\n",
	"block, indented":                 "  job: Gate\n  pieces:\n    - measure: [AB=1, BC=1, CA=1]\n    - measure: [\"KL=2,4m\"]\n      pick: 1\n  # made_with: nothing\n",
	"block, words over lines":         "pieces:\n- measure: [AB=1, BC=1, CA=1]\n- measure:\n  - KL=2,4m\n  pick: 1\njob:\n  Gate\n    # indented\n",
	"block, Windows":                  "job: Gate\r\npieces:\r\n  - measure: [AB=1, BC=1, CA=1]\r\n  - measure:\r\n      - KL=2,4m\r\n    pick: 1\r\n",
	"flow":                            "{job: Gate, pieces: [{measure: [AB=1, BC=1, CA=1]}, {measure: ['KL=2,4m'], pick: 1}]}",
	"flow, with a comma at the end":   "{job: Gate, # }\n  pieces: [{measure: [AB=1, BC=1, CA=1]}, {measure: ['KL=2,4m'], pick: 1},],\n} # that's it }\n# {}\n",
	"flow, a remark before the brace": "--- {job: Gate,\n  pieces: [{measure: [AB=1, BC=1, CA=1]}, {measure: ['KL=2,4m'], pick: 1}] # }, two\n}\n",
	"JSON":                            "{\n\t\"job\": \"Gate\",\n\t\"pieces\": [\n\t\t{\"measure\": [\"AB=1\", \"BC=1\", \"CA=1\"]}, {\"measure\": [\"KL=2,4m\"], \"pick\": 1}\n\t]\n}\n",
	"JSON on a line":                  `{"job":"Gate","pieces":[{"measure":["AB=1","BC=1","CA=1"]},{"measure":["KL=2,4m"],"pick":1}]}`,
}

// What counts over a job is in what is written and reads as it was, whatever the form
// of the job; every measurement stands where it stood; JSON stays JSON; written again
// the file is the same, and without it is what it was.
func TestWriteOver(t *testing.T) {
	for name, text := range forms {
		j, err := Read("gate.yaml", []byte(text))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		data, err := Write(j, full)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		got, err := Read("gate.yaml", data)
		if err != nil {
			t.Errorf("%s: %v\n%s", name, err, data)
			continue
		}
		if !reflect.DeepEqual(got.MadeWith.bare(), full.bare()) {
			t.Errorf("%s: written\n%s\nsays %+v\nwant %+v", name, data, got.MadeWith.bare(), full.bare())
		}
		if got.Pieces[0].Found == nil || got.Pieces[0].Fixed == nil {
			t.Errorf("%s: what was found is not with its piece", name)
		}
		got.Pieces[0].Found, got.Pieces[0].FoundAt, got.Pieces[0].Fixed, got.Pieces[0].FixedAt = nil, "", nil, ""
		if !reflect.DeepEqual(got.Pieces, j.Pieces) || got.Name != j.Name {
			t.Errorf("%s: the pieces, or their places, have changed:\n%s", name, data)
		}
		if strings.HasPrefix(name, "JSON") && !json.Valid(data) {
			t.Errorf("%s: is no JSON any more:\n%s", name, data)
		}
		if again, err := Write(got, full); err != nil || string(again) != string(data) {
			t.Errorf("%s: written again\n%s\nwas\n%s\n%v", name, again, data, err)
		}
		if back, err := Write(got, Overrides{}); err != nil || solid(string(back)) != solid(text) {
			t.Errorf("%s: without it\n%q, was\n%q; %v", name, back, text, err)
		}
		if remarks := strings.Count(text, "#"); strings.Count(string(data), "#") < remarks {
			t.Errorf("%s: a remark is gone:\n%s", name, data)
		}
	}
}

// solid is a text without blanks, and without a comma that parts nothing.
func solid(text string) string {
	return strings.ReplaceAll(strings.Join(strings.Fields(text), ""), ",}", "}")
}

// What a flag may hold and a file may not: tabs and ends of lines.
func TestOverOfFlags(t *testing.T) {
	j, err := Read("slip.yaml", []byte(good))
	if err != nil {
		t.Fatal(err)
	}
	data, err := Write(j, Overrides{Turn: Setting{Text: " 30\t"}, Without: Setting{Text: "notes,\n construction"}, Paper: Profile{Name: Setting{Text: "300\tx 500"}},
		Piece: Piece{Found: []Setting{{Text: "AB=12\u2009345\t"}}}})
	if err != nil {
		t.Fatal(err)
	}
	got, err := Read("slip.yaml", data)
	if o := got.MadeWith; err != nil || o.Turn.Text != "30" || o.Without.Text != "notes,  construction" || o.Paper.Name.Text != "300 x 500" || o.Piece.Found[0].Text != "AB=12\u2009345" {
		t.Errorf("%+v, %v", o.bare(), err)
	}
}

// A file with it that somebody changed by hand is read, and written without it.
func TestOverByHand(t *testing.T) {
	for _, text := range []string{
		"made_with:\n  unit: in\n\n  # mine\n  site: {every: 1 m}\n# my own\npieces:\n- measure: [AB=1]\n",
		"pieces:\n- measure: [AB=1]\nmade_with: {unit: in,\n  site: {every: 1 m}}\n# my own\njob: x\n",
		"{made_with: {unit: in, site: {every: 1 m}}, # my own\n pieces: [{measure: [AB=1]}], job: 'made_with: {'}",
		"{pieces: [{measure: [AB=1], name: 'ä made_with'}], made_with: {unit: in, site: {every: 1 m}}, job: x # my own\n}",
	} {
		j, err := Read("j", []byte(text))
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if j.MadeWith.Unit.Text != "in" || j.MadeWith.Site["every"].Text != "1 m" {
			t.Errorf("%q: %+v", text, j.MadeWith)
		}
		data, err := Write(j, Overrides{Unit: Setting{Text: "m"}})
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		again, err := Read("j", data)
		if err != nil || again.MadeWith.Unit.Text != "m" || again.MadeWith.Site != nil || again.Name.Text != j.Name.Text || !strings.Contains(string(data), "# my own") {
			t.Errorf("%q has become\n%s\n%v", text, data, err)
		}
	}
}

func TestOverRefuses(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"unti: mm", `j:4:3: unknown key "unti" in made_with`},
		{"unit: ", "j:4:8: unit is empty"},
		{"trade: joiner", `j:4:10: trade is not keys with values but "joiner"`},
		{"trade: {tape: II}", "j:4:10: trade has no name"},
		{"paper: {name: [A4]}", "j:4:17: name is a list, not text"},
		{"pick: 3", `j:4:9: pick: "3" is not a pick`},
		{"outline: [A, A, B]", "j:4:16: outline: A stands in it twice"},
		{"site: {evry: 1 m}", `j:4:10: unknown key "evry" in site`},
		{"found: [AB=1]\n  found_of: 2", "j:4:3: found_of: there is no piece 2"},
		{"landscape: perhaps", `j:4:3: made_with: "perhaps" is not known in it`},
		{"pegs: ropes", `j:4:3: made_with: pegs: "ropes" is not a way to construct`},
	} {
		_, err := Read("j", []byte("pieces:\n- measure: [AB=1]\nmade_with:\n  "+c.text+"\n"))
		if err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", c.text, err, c.want)
		}
	}
	j, err := Read("j", []byte("pieces:\n- measure: [AB=1]\n#"+strings.Repeat("x", strict.MaxBytes-500)+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Write(j, full); err == nil || !strings.Contains(err.Error(), "is too large to go into a PDF") {
		t.Errorf("a job that could not be opened again: %v", err)
	}
}

// Measurements from the command line, with whatever YAML could take for its own.
func TestWriteMeasurements(t *testing.T) {
	j := Job{Pieces: []Piece{{Name: "Pete's: #1 - {x}", Quantity: 3}, {Quantity: 1}}}
	for _, m := range []string{"AB=2400+-2", `BC=7'-10 1/2"`, "CA=2,4m", "A=35°30'", "B=1:12", "C-AB=12\u2009345", "CA=7′ 10½″", "AB= 3\tm"} {
		for i := range j.Pieces {
			j.Pieces[i].Measure = append(j.Pieces[i].Measure, Setting{Text: m})
		}
	}
	data, err := Write(j, Overrides{})
	if err != nil {
		t.Fatal(err)
	}
	want := j
	for i := range want.Pieces {
		want.Pieces[i].Measure[7].Text = "AB= 3 m"
	}
	if got := plain(t, data); !reflect.DeepEqual(got, want) {
		t.Errorf("written\n%s\nsays %+v", data, got)
	}
}

func TestReadWithin(t *testing.T) {
	_, err := ReadWithin("gusset.pdf", "job.yaml", []byte("job: x\npieces:\n  - measure: [AB=60, BC]\n"))
	if err == nil || err.Error() != `gusset.pdf (job.yaml:3:22): "BC" is not a measurement: it has no =` {
		t.Error(err)
	}
	j, err := ReadWithin("gusset.pdf", "job.yaml", []byte(good))
	if err != nil || j.File != "job.yaml" || j.Within != "gusset.pdf" || j.Pieces[0].Where != "gusset.pdf (job.yaml:7:5)" || string(j.Raw) != good {
		t.Errorf("%v: %+v", err, j)
	}
}
