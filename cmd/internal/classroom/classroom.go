// Package classroom makes of a job with tasks what every pupil is to draw.
//
// Files, from the top floor to the ground: sheets.go, classroom.go.
package classroom

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/lettering"
	"trammel/plot/tasks"
	"trammel/plot/words"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// Task is the sheets that pupils get.
const Task = "task"

// all sheets of a class that there are. What pupils get stands in no file with anything else.
func all() []string { return []string{Task, "key", "overlay", "answers", "model", "screen"} }

// SheetsOf reads which are wanted, parted by commas; task alone where nothing is said.
func SheetsOf(s job.Setting) (wanted []string, err error) {
	if s.Text == "" {
		return []string{Task}, nil
	}
	for _, name := range strings.Split(s.Text, ",") {
		name = strings.TrimSpace(name)
		switch {
		case !slices.Contains(all(), name):
			return nil, &unit.Fault{Where: s.Where, What: fmt.Sprintf("%q is no sheet of a class", strict.Shorten(name)), Hint: strict.Suggest(name, all())}
		case slices.Contains(wanted, name):
			return nil, &unit.Fault{Where: s.Where, What: fmt.Sprintf("%s is named twice", name)}
		}
		wanted = append(wanted, name)
	}
	return wanted, nil
}

// Draw is the tasks of every pupil. The error is a *unit.Fault where nobody is in the class, a
// name has letters that the lettering lacks, or the rules leave too few tasks.
func Draw(m job.Merged, l words.Language, twoSided bool) (tasks.Set, error) {
	t := m.Job.Tasks
	if t == nil {
		return tasks.Set{}, &unit.Fault{Where: m.File, What: "the job has no tasks for a class", Hint: "tasks: and below it  pupils: 28 and  kinds: [SSS, SAS, ASA]"}
	}
	if len(t.Pupils) == 0 {
		return tasks.Set{}, &unit.Fault{Where: t.Where, What: "nobody is in the class", Hint: "pupils: 28, or a list of names"}
	}
	for i, p := range t.Pupils {
		if r := lettering.Go().Missing(p.Name); r != 0 {
			return tasks.Set{}, &unit.Fault{Where: t.Places[i], What: fmt.Sprintf("%q: the lettering has no character %q (%U)", p.Name, r, r), Hint: "write the name in Latin, Greek or Cyrillic letters, or give a number"}
		}
	}
	if r := lettering.Go().Missing(m.Name.Text); r != 0 {
		return tasks.Set{}, &unit.Fault{Where: m.Name.Where, What: fmt.Sprintf("the job's name: the lettering has no character %q (%U)", r, r), Hint: "write it with other letters"}
	}
	drawn, err := t.Draw()
	var short *task.Short
	if errors.As(err, &short) {
		return tasks.Set{}, tooFew(*t, short)
	}
	s := tasks.Set{Title: m.Name.Text, Date: m.Date, Seed: t.Seed, Accept: t.Accept, Large: t.Large, TwoUp: t.Low, TwoSided: twoSided, Language: l}
	for i, p := range t.Pupils {
		s.Pupils = append(s.Pupils, tasks.Pupil{Number: i + 1, Name: p.Name, Tasks: drawn[i]})
	}
	return s, err
}

// tooFew says which rule leaves too few tasks, and what to loosen.
func tooFew(t job.Tasks, s *task.Short) error {
	stock := s.Stock
	f := &unit.Fault{Where: t.KindsAt, What: fmt.Sprintf("kinds: no %s is left for pupil %d (task %d): %d of %d tasks of level %d keep all rules",
		stock.Kind, s.Pupil, s.Number, len(stock.Kept), stock.Size(), stock.Level)}
	var loosen []string
	if s.Most() == task.Reach && t.CompassAt != "" {
		f.Where = t.CompassAt
		f.What = fmt.Sprintf("compass: with %g mm no %s is left for pupil %d: %d tasks need a longer radius", t.Compass, stock.Kind, s.Pupil, stock.Fell[task.Reach])
		loosen = append(loosen, "a longer compass")
	}
	if s.Low {
		loosen = append(loosen, "on_a_page: 1")
	}
	if !s.Alone {
		loosen = append(loosen, "across left out, so that neighbours may have answers alike")
	}
	if stock.Level < task.Ones {
		loosen = append(loosen, fmt.Sprintf("level: %d, which has many more", stock.Level+1))
	}
	loosen = append(loosen, "fewer pupils, or this kind left out")
	f.Hint = "loosen one: " + strings.Join(loosen, "; ")
	return f
}
