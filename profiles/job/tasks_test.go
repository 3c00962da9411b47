package job

import (
	"errors"
	"strings"
	"testing"

	"trammel/geom/task"
	"trammel/geom/unit"
)

// whole is a job whose tasks say all that there is to say.
const whole = `job: Triangles by hand
tasks:
  pupils: [Ada, {name: Bo, level: 3}, {name: Cy, demand: support}, 17]
  seed: 7
  level: 1
  kinds: [SSS, sas, SSA2]
  tolerance: 3 mm, 2.5 deg
  compass: 12 cm
  across: 6
  print: large
pieces: []
`

// Large print doubles the tolerance.
func TestTasksAreRead(t *testing.T) {
	j, err := Read("class.yaml", []byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	got := j.Tasks
	if got.Seed != 7 || got.Level != task.Centimetres || got.Compass != 120 || got.Across != 6 || !got.Large || got.Low || got.Accept != (task.Tolerance{MM: 6, Deg: 5}) || got.Demand != task.Standard {
		t.Errorf("%+v", got)
	}
	if len(got.Kinds) != 3 || got.Kinds[1] != task.SAS || len(got.Pupils) != 4 || got.Pupils[1].Level != task.Ones || got.Pupils[2].Demand != task.Support || got.Pupils[3].Name != "17" {
		t.Errorf("%+v", got)
	}
}

// What is wrong in a line is said of that line, with what to do.
func TestWrongTasks(t *testing.T) {
	for _, x := range []struct{ from, to, where, what string }{
		{"[Ada, {name: Bo, level: 3}, {name: Cy, demand: support}, 17]", "0", "class.yaml:3:11", "pupils is"},
		{"[Ada, {name: Bo, level: 3}, {name: Cy, demand: support}, 17]", "1000", "class.yaml:3:11", "pupils is"},
		{"[Ada, {name: Bo, level: 3}, {name: Cy, demand: support}, 17]", "[]", "class.yaml:3:11", "nobody"},
		{"Ada", strings.Repeat("a", 200), "class.yaml:3:12", "longer than 80 letters"},
		{"Ada", "bo", "class.yaml:3:16", "in the class already"},
		{"seed: 7", "seed: seven", "class.yaml:4:9", "seed is"},
		{"level: 1", "level: 4", "class.yaml:5:10", "level is"},
		{"level: 3", "level: high", "class.yaml:3:35", "level is"},
		{"sas", "SAAS", "class.yaml:6:16", "not a kind of task"},
		{"kinds: [SSS, sas, SSA2]", "kinds: SSS", "class.yaml:6:10", "not a list"},
		{"3 mm, 2.5 deg", "0", "class.yaml:7:14", "not a length and an angle"},
		{"3 mm, 2.5 deg", "0 mm, 0 deg", "class.yaml:7:14", ""},
		{"3 mm, 2.5 deg", "40 mm, 2 deg", "class.yaml:7:14", "nothing that a class can be marked by"},
		{"12 cm", "10 mm", "class.yaml:8:12", "no longest radius"},
		{"large", "huge", "class.yaml:10:10", "not known"},
		{"print: large", "on_a_page: 3", "class.yaml:10:14", "on_a_page"},
		{"across: 6", "on_a_page: 2", "class.yaml:9:14", "no room for large print"},
		{"across: 6", "demand: stretch", "class.yaml:9:11", "numbers of level 3"},
		{"across: 6", "rows: 6", "class.yaml:9:3", "unknown key"},
	} {
		text := strings.Replace(whole, x.from, x.to, 1)
		if text == whole {
			t.Fatalf("%q is not in the job", x.from)
		}
		_, err := Read("class.yaml", []byte(text))
		var f *unit.Fault
		if !errors.As(err, &f) {
			t.Errorf("%s: %v", x.to, err)
			continue
		}
		if f.Where != x.where || !strings.Contains(f.What, x.what) || f.Hint == "" && !strings.Contains(f.What, "longer than") {
			t.Errorf("%s: %s: %s (%s)", x.to, f.Where, f.What, f.Hint)
		}
	}
}

// A class list as other programs save it: with semicolons, a mark in front, empty lines and
// columns of no use here; or names alone.
func TestClassLists(t *testing.T) {
	for _, x := range []struct{ text, want, where, what string }{
		{"\ufeffnumber;name;level;demand\r\n\r\n1;Ada;;\r\n2;Bo;3;support\r\n\r\n", "Ada 0 |Bo 3 support|", "", ""},
		{"Ada\nBo\n", "Ada 0 |Bo 0 |", "", ""},
		{"name,level\n\"Ada, the elder\",2\n", "Ada, the elder 2 |", "", ""},
		{"name\nAda\nBo\nada\n", "", "class.csv:4:1", "in the class already: class.csv:2:1"},
		{"name;level\nAda;9\n", "", "class.csv:2:5", "not a level"},
		{"name;demand\nAda;lots\n", "", "class.csv:2:5", "not a demand"},
		{"name;level\n;2\n", "", "class.csv:2:1", "no name"},
		{"surname;first\nA;B\n", "", "class.csv:1:1", "no column is called name"},
		{"name\n", "", "class.csv:1:1", "no pupils"},
		{"\n\n", "", "class.csv:1:1", "is empty"},
		{"name,name\nAda,Bo\n", "", "class.csv:1:6", "two columns"},
	} {
		var c Tasks
		err := c.TakePupils("class.csv", []byte(x.text))
		got := ""
		for _, p := range c.Pupils {
			got += p.Name + " " + string(rune('0'+p.Level)) + " " + p.Demand.String() + "|"
		}
		var f *unit.Fault
		if x.what == "" {
			if err != nil || got != x.want {
				t.Errorf("%q: %q, %v", x.text, got, err)
			}
			continue
		}
		if !errors.As(err, &f) || f.Where != x.where || !strings.Contains(f.What, x.what) {
			t.Errorf("%q: %v", x.text, err)
		}
	}
}
