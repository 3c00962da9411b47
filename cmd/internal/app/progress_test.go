package app

import (
	"strings"
	"testing"

	"trammel/cmd/internal/solved"
	"trammel/plot/paging"
	"trammel/profiles/job"
)

// Pieces that each take all that they may still take no more together than a job may,
// and each gets something. Few of them get all that one search can use.
func TestJobsHaveOneEffort(t *testing.T) {
	for _, n := range []int{1, 3, 20, 200, 1000} {
		w := Work{Work: solved.Work{Pieces: make([]solved.Piece, n)}}
		left := allSteps
		for i := range n {
			e := w.effortFor(i, left)
			if e.Most < leastSteps || e.Most > paging.MostSteps {
				t.Fatalf("%d pieces: piece %d gets %d steps", n, i+1, e.Most)
			}
			if n <= 3 && e.Most != paging.MostSteps {
				t.Errorf("%d pieces: piece %d gets only %d steps", n, i+1, e.Most)
			}
			left -= e.Most
		}
		if n <= allSteps/leastSteps && left < 0 {
			t.Errorf("%d pieces take %d steps more than there are", n, -left)
		}
	}
}

// Who listens hears of each kind of work, with no more done than there is; who does
// not gets the same.
func TestProgressIsTold(t *testing.T) {
	heard := map[string]bool{}
	text := "pieces: [{name: Gable, measure: [AB=700, BC=600, CA=650]}, {name: Brace, measure: [AB=70, BC=60, CA=65]}, {name: Tie, measure: [AB=70, BC=60, CA=65]}]\n"
	w := mustOpen(t, text, Options{Tell: func(doing string, done, of int) {
		what, _, _ := strings.Cut(doing, ",")
		heard[what] = true
		if done < 0 || done > of {
			t.Errorf("%s: %d of %d", doing, done, of)
		}
	}})
	tpl, err := w.template()
	if err != nil {
		t.Fatal(err)
	}
	if n := len(written(t, tpl.document().pdf)); n != tpl.count {
		t.Errorf("%d pages, want %d", n, tpl.count)
	}
	for _, what := range []string{"reckoning", "looking for the fewest pages", "fitting pieces together", "drawing", "writing pages"} {
		if !heard[what] {
			t.Errorf("nothing is heard of %s", what)
		}
	}
}

// What cannot be drawn is refused before any piece is laid, however many there are; so
// is paper on which the index page has no room.
func TestCheapRefusalsComeFirst(t *testing.T) {
	many := "pieces:\n" + strings.Repeat("  - {name: Gable, measure: [AB=2700, BC=2600, CA=2650]}\n", 20)
	for _, c := range []struct{ text, paper, what string }{
		{many + "  - {name: 上, measure: [AB=2700, BC=2600, CA=2650]}\n", "A4", "the lettering has no character"},
		{many + "  - {name: Field, measure: [AB=90m, BC=80m, CA=70m]}\n", "A4", "the most is 20000"},
	} {
		laid := 0
		w := mustOpen(t, c.text, Options{Paper: job.Setting{Text: c.paper}, Tell: func(doing string, _, _ int) {
			if strings.HasPrefix(doing, "looking") {
				laid++
			}
		}})
		if _, err := w.template(); err == nil || !strings.Contains(err.Error(), c.what) {
			t.Errorf("%v, want %s", err, c.what)
		}
		if laid > 0 {
			t.Errorf("%s: pieces were laid first", c.what)
		}
	}
}
