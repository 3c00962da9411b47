package job

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
)

const shaped = `job: Slip gate brace
pieces:
  - measure: [AB=600, BC=450, CA=450]
    edges: [AB allow 3, "BC allow -1.5mm"]
    corners:
      - A cut 20
      - "B round 1,5cm"
    holes: {12 at AB 40 from A 60, 12 at A 300 B 320}
    handed: pair
    face: down
    grain: CA
`

func TestShape(t *testing.T) {
	j, err := Read("b.yaml", []byte(shaped))
	if err != nil {
		t.Fatal(err)
	}
	// Places counted by hand.
	want := Shape{
		Edges:   []Setting{{"AB allow 3", "b.yaml:4:13"}, {"BC allow -1.5mm", "b.yaml:4:25"}},
		Corners: []Setting{{"A cut 20", "b.yaml:6:9"}, {"B round 1,5cm", "b.yaml:7:9"}},
		Holes:   []Setting{{"12 at AB 40 from A 60", "b.yaml:8:13"}, {"12 at A 300 B 320", "b.yaml:8:36"}},
		Pair:    true, Face: FaceDown, Grain: [2]geom.Name{"C", "A"}, GrainAt: "b.yaml:11:12",
	}
	if got := j.Pieces[0].Shape; !reflect.DeepEqual(got, want) {
		t.Errorf("%+v\nwant %+v", got, want)
	}
	w, err := want.Work(unit.MM)
	if err != nil {
		t.Fatal(err)
	}
	read := shape.Work{
		Allowances: []shape.Allowance{
			{Edge: [2]geom.Name{"A", "B"}, By: 3, Text: "AB allow 3", Where: "b.yaml:4:13"},
			{Edge: [2]geom.Name{"B", "C"}, By: -1.5, Text: "BC allow -1.5mm", Where: "b.yaml:4:25"},
		},
		Corners: []shape.Corner{
			{At: "A", Do: shape.Cut, By: 20, Text: "A cut 20", Where: "b.yaml:6:9"},
			{At: "B", Do: shape.Round, By: 15, Text: "B round 1,5cm", Where: "b.yaml:7:9"},
		},
		Holes: []shape.Hole{
			{Diameter: 12, Centre: shape.FromEdge{Edge: [2]geom.Name{"A", "B"}, Square: 40, From: "A", Along: 60}, Text: "12 at AB 40 from A 60", Where: "b.yaml:8:13"},
			{Diameter: 12, Centre: shape.FromCorners{Corners: [2]geom.Name{"A", "B"}, Arms: [2]unit.Length{300, 320}}, Text: "12 at A 300 B 320", Where: "b.yaml:8:36"},
		},
	}
	if !reflect.DeepEqual(w, read) {
		t.Errorf("%+v\nwant %+v", w, read)
	}
	if inches, err := want.Work(unit.IN); err != nil || inches.Allowances[0].By != 76.2 || inches.Allowances[1].By != -1.5 {
		t.Errorf("in inches: %+v, %v", inches.Allowances, err)
	}
	json := `{"pieces": [{"measure": ["AB=1"], "edges": ["AB allow 3"], "handed": "pair", "face": "up", "grain": "AB"}]}`
	j, err = Read("-", []byte(json))
	if s := j.Pieces[0].Shape; err != nil || len(s.Edges) != 1 || !s.Pair || s.Face != FaceUp || s.Grain != [2]geom.Name{"A", "B"} || s.Corners != nil {
		t.Errorf("%+v, %v", s, err)
	}
	if j, err = Read("-", []byte("pieces: [measure: [AB=1]]")); err != nil || !reflect.DeepEqual(j.Pieces[0].Shape, Shape{}) {
		t.Errorf("nothing said: %+v, %v", j.Pieces, err)
	}
}

func TestShapeFaults(t *testing.T) {
	const m = "pieces:\n- measure: [AB=1]\n  "
	for _, c := range []struct{ text, want, hint string }{
		{"edge: [AB allow 3]", `j:3:3: unknown key "edge" in the piece`, `did you mean "edges"?`},
		{"edges: AB allow 3", "j:3:10: edges is not a list", "edges: [AB allow 3]"},
		{"edges:", "j:3:9: edges is not a list", "edges: [AB allow 3]"},
		{"edges: []", "j:3:10: the list of edges is empty", "edges: [AB allow 3]"},
		{"edges: {}", "j:3:10: the list of edges is empty", "edges: [AB allow 3]"},
		{"edges: {AB: 3}", "j:3:11: this is written without a colon", "write AB … as in AB allow 3"},
		{"edges: {AB allow: 3}", "j:3:11: this is written without a colon", "write AB allow … as in AB allow 3"},
		{"edges: [AB: allow 3]", "j:3:11: this is written without a colon", "write AB … as in AB allow 3"},
		{"edges:\n    AB: 3", "j:4:5: this is written without a colon", "write AB … as in AB allow 3"},
		{"edges: [[AB allow 3]]", "j:3:11: one of the edges is a list, not text", ""},
		{"edges: [~]", "j:3:11: one of the edges is empty", "take the line out, or say what it is"},
		{"edges: {AB allow 3, AB allow 3}", `j:3:23: key "AB allow 3" is repeated; it stands in line 3 already`, ""},
		{"edges: [AB allow 1,5mm]", `j:3:22: "5mm" is none of the edges`, `a comma parts the items of a list: for a decimal comma quote the whole, "AB allow 1,5mm"`},
		{"corners: [A cut 1,5]", `j:3:21: "5" is none of the corners`, `a comma parts the items of a list: for a decimal comma quote the whole, "A cut 1,5"`},
		{"holes: [12 at A 30,5 B 30]", `j:3:22: "5 B 30" is none of the holes`, `a comma parts the items of a list: for a decimal comma quote the whole, "12 at A 30,5 B 30"`},
		{"corners: A cut 20", "j:3:12: corners is not a list", "corners: [A cut 20]"},
		{"holes: 12", "j:3:10: holes is not a list", "holes: [12 at AB 40 from A 60]"},
		{"holes: [" + strings.Repeat("1 at A 2 B 3, ", 501) + "]", "j:3:7011: more than 500 holes", ""},
		{"handed: left", `j:3:11: handed: "left" is not a way to hand a piece`, "write pair for one of each hand, or take the line out"},
		{"handed:", "j:3:10: handed is empty", "take the line out, or say what it is"},
		{"handed: [pair]", "j:3:11: handed is a list, not text", ""},
		{"face: Up", `j:3:9: face: "Up" is not a way for a face to lie`, "write up or down, or take the line out"},
		{"grain: A", `j:3:10: grain: "A" does not name an edge`, "write the two ends of the edge that the grain runs along, such as AB"},
		{"grain: ab", `j:3:10: grain: "ab" does not name an edge`, "points have capital letters: AB"},
	} {
		_, err := Read("j", []byte(m+c.text+"\n"))
		var f *unit.Fault
		if !errors.As(err, &f) {
			t.Errorf("%s: %v is no fault", c.text, err)
			continue
		}
		if f.Error() != c.want || f.Hint != c.hint {
			t.Errorf("%s:\n got %s\n     %s\nwant %s\n     %s", c.text, f, f.Hint, c.want, c.hint)
		}
	}
	// What a token says, with its place.
	for text, want := range map[string]string{
		"edges: [BC allow 3, AB alow 3]":      `j:3:23: AB alow 3: "alow" stands where "allow" should`,
		"corners:\n  - A cut 20\n  - a cut 3": `j:5:5: a cut 3: "a" has a small letter`,
		"holes: [12 at AB 40 from C 60]":      "j:3:11: 12 at AB 40 from C 60: C is no end of edge AB",
	} {
		j, err := Read("j", []byte(m+text+"\n"))
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		_, err = j.Pieces[0].Shape.Work(unit.MM)
		var f *unit.Fault
		if !errors.As(err, &f) || f.Error() != want || f.Hint == "" {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

// What is written over a job leaves the tokens as they are.
func TestShapeWritten(t *testing.T) {
	j, err := Read("b.yaml", []byte(shaped))
	if err != nil {
		t.Fatal(err)
	}
	data, err := Write(j, Overrides{Paper: Profile{Name: Setting{Text: "A3"}}})
	if err != nil {
		t.Fatal(err)
	}
	again, err := Read("b.yaml", data)
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	texts := func(s Shape) (all []string) {
		for _, list := range [][]Setting{s.Edges, s.Corners, s.Holes} {
			for _, t := range list {
				all = append(all, t.Text)
			}
		}
		return all
	}
	a, b := j.Pieces[0].Shape, again.Pieces[0].Shape
	if !reflect.DeepEqual(texts(a), texts(b)) || a.Pair != b.Pair || a.Face != b.Face || a.Grain != b.Grain || again.MadeWith.Paper.Name.Text != "A3" {
		t.Errorf("written\n%s\nsays %+v", data, b)
	}
}

// Whatever stands behind the keys of a shape, an error has a place and one line.
func FuzzShape(f *testing.F) {
	for _, s := range []string{
		"edges: [AB allow 3, BC allow -2]", "edges: {AB allow 3, BC allow -2}", "corners: [A cut 20]\n  holes: [12 at AB 40 from A 60]",
		"handed: pair\n  face: up\n  grain: AB", "edges: [A\u00a0B]", "edges: {? [a] : b}", "holes: {\"12 at A 8 B 9\"}", "corners: [\"A\\tcut 3\"]",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		j, err := Read("j", []byte("pieces:\n- measure: [AB=1]\n  "+text+"\n"))
		if err == nil {
			for _, p := range j.Pieces {
				if _, err = p.Shape.Work(unit.MM); err != nil {
					break
				}
			}
		}
		if err == nil {
			return
		}
		var fault *unit.Fault
		if !errors.As(err, &fault) {
			t.Fatalf("%T: %v", err, err)
		}
		if !place.MatchString(fault.Error()) || strings.ContainsAny(fault.Error()+fault.Hint, "\n\r") {
			t.Fatalf("no place, or more than one line: %q, %q", fault, fault.Hint)
		}
	})
}

// Quantity counts pieces: of a pair without it there are two, and an odd number is none.
func TestPairsAreCounted(t *testing.T) {
	for more, want := range map[string]int{"": 1, "    quantity: 3\n": 3, "    handed: pair\n": 2, "    handed: pair\n    quantity: 4\n": 4, "    quantity: 6\n    handed: pair\n": 6} {
		j, err := Read("j", []byte("pieces:\n  - measure: [AB=1, BC=1, CA=1]\n"+more))
		if err != nil || j.Pieces[0].Quantity != want {
			t.Errorf("%q: %v, %v, want %d", more, j.Pieces, err, want)
		}
	}
	_, err := Read("j", []byte("pieces:\n  - measure: [AB=1, BC=1, CA=1]\n    quantity: 3\n    handed: pair\n"))
	if f, ok := err.(*unit.Fault); !ok || f.Where != "j:3:15" || !strings.Contains(f.Hint, "write 4") {
		t.Errorf("an odd number of a pair: %v", err)
	}
}
