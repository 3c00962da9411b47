package tasks

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"trammel/geom/gate"
	"trammel/geom/task"
	"trammel/plot/draw"
	"trammel/plot/internal/pagetest"
	"trammel/plot/lettering"
)

// set of a class with every kind of task.
func set(t testing.TB, seed, pupils int, change func(*task.Class)) Set {
	t.Helper()
	c := task.Class{Seed: seed, Level: task.Fives, Demand: task.Standard, Kinds: task.Kinds()[:12], Across: 6, Limits: task.School}
	for range pupils {
		c.Pupils = append(c.Pupils, task.Pupil{})
	}
	if change != nil {
		change(&c)
	}
	drawn, err := c.Draw()
	if err != nil {
		t.Fatal(err)
	}
	s := Set{Title: "Triangles by hand", Seed: seed, Accept: task.Maths, TwoUp: c.Low}
	for i := range drawn {
		s.Pupils = append(s.Pupils, Pupil{Number: i + 1, Tasks: drawn[i]})
	}
	return s
}

// pagesOf the task sheets.
func pagesOf(t testing.TB, s Set) (all []draw.Page) {
	t.Helper()
	for _, paper := range []string{"A4", "Letter"} {
		on := pagetest.A4
		if paper == "Letter" {
			on = pagetest.Letter
		}
		seq, err := s.TaskPages(on, lettering.Go())
		if low := s.TwoUp || s.Pupils[0].Tasks[0].Demand == task.Support; low && paper == "Letter" {
			if err == nil {
				t.Error("Letter has no room for that")
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range seq {
			all = append(all, p)
		}
	}
	return all
}

// No words lie on words, nor outside of the margin, on any sheet of any kind: support,
// standard and stretch, large and two a page.
func TestSheetsAreLegible(t *testing.T) {
	r := lettering.Go()
	for seed := range gate.Of(4, 40) {
		for name, change := range map[string]func(*task.Class){
			"standard": nil,
			"support":  func(c *task.Class) { c.Demand = task.Support },
			"stretch":  func(c *task.Class) { c.Demand = task.Stretch },
			"two-up":   func(c *task.Class) { c.Low = true },
		} {
			s := set(t, seed, 1, change)
			all := pagesOf(t, s)
			if name == "standard" {
				s.Large = true
				all = append(all, pagesOf(t, s)...)
			}
			keys, err := s.KeyPages(pagetest.A4, r)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, keys...)
			answers, err := s.AnswerPages(pagetest.A4, r)
			if err != nil {
				t.Fatal(err)
			}
			films, err := s.OverlayPages(pagetest.A4, r)
			if err != nil {
				t.Fatal(err)
			}
			all = append(slices.AppendSeq(all, answers), slices.Collect(films)...)
			for _, p := range all {
				if p.Kind != draw.Overlay { // one film lies on the rays of another
					pagetest.Overlaps(t, fmt.Sprintf("%s, seed %d", name, seed), []draw.Page{p}, r)
				}
			}
			for i, p := range all {
				inside := p.Bounds().Grow(-5)
				for _, op := range p.Ops {
					if b := op.Bounds(r); !inside.Has(b.Min) || !inside.Has(b.Max) {
						t.Errorf("%s, seed %d, page %d: %+v lies in the margin", name, seed, i+1, op)
					}
				}
			}
		}
	}
}

// The words of a task's pages hold none of its answers, whole or with a decimal, and the
// sketch has no corner where the answer could be measured.
func TestTaskHoldsNoAnswer(t *testing.T) {
	s := set(t, 7, 12, nil)
	seq, err := s.TaskPages(pagetest.A4, lettering.Go())
	if err != nil {
		t.Fatal(err)
	}
	n := map[int]int{}
	for pupil, p := range seq {
		d := s.Pupils[pupil].Tasks[n[pupil]]
		n[pupil]++
		var given []string
		for _, x := range d.Given {
			given = append(given, fmt.Sprint(x))
		}
		var said []string
		for _, op := range p.Ops {
			if w, ok := op.(draw.Text); ok {
				said = append(said, strings.FieldsFunc(w.Words, func(c rune) bool { return (c < '0' || c > '9') && c != '.' })...)
			}
		}
		for _, b := range d.Measured(task.Maths) {
			for _, form := range []string{fmt.Sprintf("%.0f", b.Value), fmt.Sprintf("%.1f", b.Value), fmt.Sprint(b.Low), fmt.Sprint(b.High)} {
				if slices.Contains(said, form) && !slices.Contains(given, form) && form != fmt.Sprint(len(s.Pupils[pupil].Tasks)) && form != "12" {
					t.Errorf("pupil %d, %s %v: %s stands on the sheet", pupil+1, d.Kind, d.Given, form)
				}
			}
		}
		if p.Alt != "" || len(p.Places) > 0 {
			t.Errorf("the page says where its piece lies: %+v", p.Places)
		}
	}
}

// The key as a table says the same as the boxes, in the columns that were agreed.
func TestKeyCSV(t *testing.T) {
	s := set(t, 7, 3, nil)
	var b bytes.Buffer
	if err := s.KeyCSV(&b); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(rows[0], ","); got != "set,seed,pupil,task,kind,level,givens,box,value,low,high,unit,if_scale,if_swapped,if_included,if_other" {
		t.Error(got)
	}
	row := 1
	for _, p := range s.Pupils {
		for n, d := range p.Tasks {
			for _, box := range d.Measured(task.Maths) {
				want := []string{"Triangles by hand", "7", fmt.Sprintf("%02d", p.Number), fmt.Sprint(n + 1), d.Kind.String(), "2", strings.Join(d.Tokens(), " "), box.Of.String(), fmt.Sprintf("%.3f", box.Value), fmt.Sprint(box.Low), fmt.Sprint(box.High)}
				if !slices.Equal(rows[row][:11], want) {
					t.Errorf("row %d is %v, not %v", row, rows[row][:11], want)
				}
				row++
			}
		}
	}
	if row != len(rows) {
		t.Errorf("%d rows, %d boxes", len(rows)-1, row-1)
	}
}
