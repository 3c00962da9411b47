package job

import (
	"strings"
	"testing"

	"trammel/geom/unit"
)

func TestWallsAndBlockedLines(t *testing.T) {
	for text, want := range map[string]string{
		"walls: outline": "outline;", "walls: [AB, BC]": "AB,BC;", "walls: 'AB,BC'": "AB,BC;", "walls: [AB, K2L]": "AB,K2L;",
		"blocked: [AC]": ";AC", "blocked: AC BD": ";AC,BD", "walls: outline, blocked: [AC, AC]": "outline;AC,AC",
	} {
		j, err := Read("job.yaml", []byte("pieces: [{measure: [AB=1], "+text+"}]\n"))
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		p := j.Pieces[0]
		if got := p.Walls.String() + ";" + p.Blocked.String(); got != want {
			t.Errorf("%s is read as %s, want %s", text, got, want)
		}
		if again, err := ParseWalls(p.Walls.String()); p.Walls.Said() && (err != nil || again.String() != p.Walls.String()) {
			t.Errorf("%s is written as %q: %v", text, p.Walls, err)
		}
	}
	for text, want := range map[string]string{
		"walls: [outline]":  `job.yaml:1:36: walls: "outline" does not name two points`,
		"walls: []":         "job.yaml:1:35: walls: no line is named",
		"walls: {AB: 1}":    "job.yaml:1:35: walls is not a list of lines",
		"walls: [AA]":       `job.yaml:1:36: walls: "AA" does not name two points`,
		"blocked: outline":  `job.yaml:1:37: blocked: "outline" does not name two points`,
		"blocked: [A, C]":   `job.yaml:1:38: blocked: "A" does not name two points`,
		"blocked: [[AC]]":   "job.yaml:1:38: a line is a list, not text",
		"blocked: \" , \"":  "job.yaml:1:37: blocked: no line is named",
		"walls: [ABC, ABD]": `job.yaml:1:36: walls: "ABC" does not name two points`,
	} {
		_, err := Read("job.yaml", []byte("pieces: [{measure: [AB=1], "+text+"}]\n"))
		if f, ok := err.(*unit.Fault); !ok || f.Error() != want || f.Hint == "" && !strings.Contains(want, "list, not") {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}
