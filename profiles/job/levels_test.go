package job

import (
	"fmt"
	"strings"
	"testing"

	"trammel/geom/unit"
)

func TestParseLevels(t *testing.T) {
	for text, want := range map[string]string{
		"A 0, B 320": "A=0 B=320", "A 0; B -0,15 m": "A=0 B=-0,15 m", "K2 1'-2 1/2\", C 0.3m": "K2=1'-2 1/2\" C=0.3m",
	} {
		all, err := ParseLevels(text, "")
		var got []string
		for _, l := range all {
			got = append(got, fmt.Sprintf("%s=%s", l.Name, l.Text))
		}
		if s := strings.Join(got, " "); err != nil || s != want {
			t.Errorf("%s: %q, %v, want %q", text, s, err, want)
		}
		if again, err := ParseLevels(joined(all, "; "), ""); err != nil || fmt.Sprint(again) != fmt.Sprint(all) {
			t.Errorf("%s is written as %q", text, joined(all, "; "))
		}
	}
	for _, text := range []string{"", "A", "A=0", "a 0", "0 A", "AB 3 4, x"} {
		if all, err := ParseLevels(text, ""); err == nil {
			t.Errorf("%q is read as %v", text, all)
		} else if f, ok := err.(*unit.Fault); !ok || f.Hint == "" {
			t.Errorf("%q: %v", text, err)
		}
	}
	for levels, want := range map[string]string{
		"[A 0, B 320]": "A=0 B=320", "A 0; B 320": "A=0 B=320",
	} {
		j, err := Read("job.yaml", []byte("pieces: [{measure: [AB=1], levels: "+levels+"}]\n"))
		if err != nil || len(j.Pieces[0].Levels) != 2 || string(j.Pieces[0].Levels[1].Name)+"="+j.Pieces[0].Levels[1].Text != "B=320" {
			t.Errorf("%s: %v, %v, want %s", levels, j.Pieces, err, want)
		}
	}
	for text, want := range map[string]string{
		"pieces: [{measure: [AB=1], levels: [A 0, B: 3]}]\n":  "job.yaml:1:42: a level is written with a blank, not with a colon",
		"site: {slope: 3deg}\npieces: [{measure: [AB=1]}]\n":  "job.yaml:1:15: slope: one fall for every line would be wrong for all but one direction",
		"pieces: [{measure: [AB=1], levels: [A 0, \"B\"]}]\n": `job.yaml:1:42: levels: "B" does not say how high a peg stands`,
	} {
		if _, err := Read("job.yaml", []byte(text)); err == nil || err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
}
