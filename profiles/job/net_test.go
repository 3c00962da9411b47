package job

import (
	"errors"
	"reflect"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

const netted = `site:
  tape: III
  every: 1 m
pieces:
  - measure: [AB=4510, BC=3005, CD=4500, DA=3000, AC=5410, BE=2000, CE=2100]
    outline: [A, B, C, D]
    side:
      - E right of BC
      - D left
    found: [AB=4511, AC=5409]
`

func TestNet(t *testing.T) {
	j, err := Read("n.yaml", []byte(netted))
	if err != nil {
		t.Fatal(err)
	}
	p := j.Pieces[0]
	if want := []geom.Name{"A", "B", "C", "D"}; !reflect.DeepEqual(p.Outline, want) {
		t.Errorf("outline %v, want %v", p.Outline, want)
	}
	want := []Aside{{Point: "E", Of: [2]geom.Name{"B", "C"}, Right: true, Where: "n.yaml:8:9"}, {Point: "D", Where: "n.yaml:9:9"}}
	if !reflect.DeepEqual(p.Sides, want) {
		t.Errorf("sides %+v, want %+v", p.Sides, want)
	}
	if len(p.Found) != 2 || p.Found[1] != (Setting{"AC=5409", "n.yaml:10:22"}) {
		t.Errorf("found %v", p.Found)
	}
	if j.Site["every"] != (Setting{"1 m", "n.yaml:3:10"}) || len(j.Site) != 2 {
		t.Errorf("site %v", j.Site)
	}
}

// What counts over a job stands in the job that is written, and what it had stays.
func TestNetWritten(t *testing.T) {
	j, err := Read("n.yaml", []byte(netted))
	if err != nil {
		t.Fatal(err)
	}
	over := Overrides{
		Piece: Piece{Outline: []geom.Name{"A", "B", "E", "C"}, Sides: []Aside{{Right: true}, {Point: "E", Of: [2]geom.Name{"C", "B"}}}},
		Site:  map[string]Setting{"tape": {Text: "I"}, "permitted": {Text: "2 mm"}},
	}
	data, err := Write(j, over)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Read("n.yaml", data)
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	p := again.MadeWith.Piece
	for i := range p.Sides {
		p.Sides[i].Where = ""
	}
	if !reflect.DeepEqual(p.Outline, over.Piece.Outline) || !reflect.DeepEqual(p.Sides, over.Piece.Sides) {
		t.Errorf("%v %v from\n%s", p.Outline, p.Sides, data)
	}
	if got := again.MadeWith.Site; len(got) != 2 || got["tape"].Text != "I" || got["permitted"].Text != "2 mm" {
		t.Errorf("site %v", got)
	}
	if !reflect.DeepEqual(again.Pieces, j.Pieces) || !reflect.DeepEqual(again.Site, j.Site) {
		t.Errorf("the job's own lines say something else:\n%s", data)
	}
}

func TestNetFaults(t *testing.T) {
	const m = "pieces:\n- measure: [AB=1]\n  "
	for _, c := range []struct{ text, want, hint string }{
		{"outline: [A, B]", "j:3:12: outline: an outline has three corners or more", "name them in the order of walking round, such as A,B,C,D"},
		{"outline: [A, B, A]", "j:3:19: outline: A stands in it twice", "name each corner once, in the order of walking round"},
		{"outline: [A, b, C]", `j:3:16: outline: "b" is not a point`, "points have capital letters: B"},
		{"outline: ABCA", "j:3:12: outline: A stands in it twice", "name each corner once, in the order of walking round"},
		{"outline: a,b,c", `j:3:12: outline: "a,b,c" does not name the corners of an outline`, "points have capital letters: A,B,C"},
		{"outline: {A: B}", "j:3:12: outline is not a list of points", "outline: [A, B, C, D]"},
		{"side: up", `j:3:9: side: "up" does not say on which side a point lies`, "write left or right, or D left, or E right of AB (walking from A to B)"},
		{"side: [D left, E above AB]", `j:3:18: side: "E above AB" does not say on which side a point lies`, "write left or right, or D left, or E right of AB (walking from A to B)"},
		{"found: AB=3", "j:3:10: found is not a list of measurements", "found: [AB=600, BC=450, CA=450]"},
		{"fixed: [A, b]", "j:3:10: fixed: \"A,b\" does not name pegs", "pegs have capital letters: A,B"},
		{"fixed: [A, A]", "j:3:10: fixed: A stands in it twice", "name each peg once"},
		{"found: []", "j:3:10: the list of what was found is empty", "found: [AB=600, BC=450, CA=450]"},
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
	_, err := Read("j", []byte("site: {tapes: II}\npieces: []\n"))
	if f, ok := err.(*unit.Fault); !ok || f.Error() != `j:1:8: unknown key "tapes" in site` || f.Hint == "" {
		t.Errorf("%v", err)
	}
}
