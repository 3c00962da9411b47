package app

import (
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/pdf"
	"trammel/plot/tasks"
	"trammel/plot/words"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// ClassOptions say which sheets of a class are wanted.
type ClassOptions struct {
	Sheets   job.Setting // names parted by commas; empty: task
	TwoSided bool
}

// Sheets of a class that there are. What pupils get stands in no file with anything else.
var classSheets = []string{"task", "key", "overlay"}

// class is the sheets of a class.
type class struct {
	Work
	set    tasks.Set
	sheets []string
}

// OpenClass is a merged job whose tasks are to be drawn; its pieces are not looked at.
func OpenClass(m job.Merged, tell Progress) Work {
	w := Work{stock: stockOf(m), tell: tell}
	w.Merged = m
	w.madeFor, w.Sheet = calibrated(m.Known, w.Sheet)
	return w
}

// makeTasks draws the tasks of a class and its sheets. The errors are a *unit.Fault where the
// rules leave too few, a name has letters that are not there, or the paper is too small.
func makeTasks(o Order) (*Document, error) {
	c := &class{Work: o.Work}
	var err error
	if c.sheets, err = sheetsOf(o.Class.Sheets); err != nil {
		return nil, err
	}
	if c.set, err = classSet(o.Work, o.Class.TwoSided); err != nil {
		return nil, err
	}
	d := &Document{Summary: c.summary, head: draw.Document{Title: c.set.Title, Subject: strings.Join(c.sheets, ", "), Language: words.In(c.Language).Aloud().Language(), Date: c.Job.Date}}
	if c.roll {
		return nil, &unit.Fault{Subject: unit.Paper, Of: c.Sheet.Name, What: "a class draws on sheets, not on a roll", Advice: unit.Advice{Code: unit.OffRoll}}
	}
	seq, err := c.pages(c.sheets)
	if err != nil {
		return nil, err
	}
	d.pages = func() iter.Seq[draw.Page] { return seq }
	d.files = map[string]func(io.Writer) error{"csv": c.set.KeyCSV} // a table is of the key
	d.folder = c.folder
	d.apart = c.apart
	return d, nil
}

func sheetsOf(s job.Setting) (all []string, err error) {
	if s.Text == "" {
		return classSheets[:1], nil
	}
	for _, name := range strings.Split(s.Text, ",") {
		name = strings.TrimSpace(name)
		switch {
		case !slices.Contains(classSheets, name):
			return nil, &unit.Fault{Where: s.Where, What: fmt.Sprintf("%q is no sheet of a class", strict.Shorten(name)), Hint: strict.Suggest(name, classSheets)}
		case slices.Contains(all, name):
			return nil, &unit.Fault{Where: s.Where, What: fmt.Sprintf("%s is named twice", name)}
		}
		all = append(all, name)
	}
	return all, nil
}

// apart refuses one file for what pupils get and for what they must not see.
func (c *class) apart() error {
	if len(c.sheets) > 1 && slices.Contains(c.sheets, classSheets[0]) {
		return &unit.Fault{What: "task sheets and " + strings.Join(slices.DeleteFunc(slices.Clone(c.sheets), func(s string) bool { return s == classSheets[0] }), ", ") + " are not put into one file: pupils would have the answers",
			Hint: "name a folder: -o set/"}
	}
	return nil
}

// classSet draws the numbers.
func classSet(w Work, twoSided bool) (tasks.Set, error) {
	t := w.Job.Tasks
	if t == nil {
		return tasks.Set{}, &unit.Fault{Where: w.Job.File, What: "the job has no tasks for a class", Hint: "tasks: and below it  pupils: 28 and  kinds: [SSS, SAS, ASA]"}
	}
	if len(t.Pupils) == 0 {
		return tasks.Set{}, &unit.Fault{Where: t.Where, What: "nobody is in the class", Hint: "pupils: 28, or a list of names"}
	}
	for i, p := range t.Pupils {
		if r := lettering.Go().Missing(p.Name); r != 0 {
			return tasks.Set{}, &unit.Fault{Where: t.Places[i], What: fmt.Sprintf("%q: the lettering has no character %q (%U)", p.Name, r, r), Hint: "write the name in Latin, Greek or Cyrillic letters, or give a number"}
		}
	}
	if r := lettering.Go().Missing(w.Job.Name.Text); r != 0 {
		return tasks.Set{}, &unit.Fault{Where: w.Job.Name.Where, What: fmt.Sprintf("the job's name: the lettering has no character %q (%U)", r, r), Hint: "write it with other letters"}
	}
	drawn, err := t.Draw()
	var short *task.Short
	if errors.As(err, &short) {
		return tasks.Set{}, tooFew(*t, short)
	}
	s := tasks.Set{Title: w.Job.Name.Text, Date: w.Job.Date, Seed: t.Seed, Accept: t.Accept, Large: t.Large, TwoUp: t.Low, TwoSided: twoSided, Language: w.Language}
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

// pages of sheets by their names, one after the other.
func (c *class) pages(names []string) (iter.Seq[draw.Page], error) {
	var all []iter.Seq[draw.Page]
	for _, name := range names {
		switch name {
		case "task":
			seq, err := c.set.TaskPages(c.Sheet, lettering.Go())
			if err != nil {
				return nil, err
			}
			all = append(all, func(yield func(draw.Page) bool) {
				for _, p := range seq {
					if !yield(p) {
						return
					}
				}
			})
		case "key":
			pages, err := c.set.KeyPages(c.Sheet, lettering.Go())
			if err != nil {
				return nil, err
			}
			all = append(all, slices.Values(pages))
		case "overlay":
			pages, err := c.set.OverlayPages(c.Sheet, lettering.Go())
			if err != nil {
				return nil, err
			}
			all = append(all, pages)
		}
	}
	return func(yield func(draw.Page) bool) {
		for _, seq := range all {
			for p := range seq {
				if !yield(c.warped(p)) {
					return
				}
			}
		}
	}, nil
}

// folder has a PDF of each kind of sheet; of the task sheets one for each pupil.
func (c *class) folder(file func(name string, write func(io.Writer) error) error) error {
	put := func(name, subject string, pages iter.Seq[draw.Page]) error {
		head := draw.Document{Title: c.set.Title, Subject: subject, Language: words.In(c.Language).Aloud().Language(), Date: c.Job.Date, Pages: pages}
		return file(name+".pdf", func(out io.Writer) error { return pdf.Write(out, head) })
	}
	for _, name := range c.sheets {
		if name == "task" {
			if err := c.eachPupil(put); err != nil {
				return err
			}
			continue
		}
		pages, err := c.pages([]string{name})
		if err != nil {
			return err
		}
		if err := put(name, name, pages); err != nil {
			return err
		}
		if name == "key" {
			if err := file("key.csv", c.set.KeyCSV); err != nil {
				return err
			}
		}
	}
	return nil
}

func (c *class) eachPupil(put func(name, subject string, pages iter.Seq[draw.Page]) error) error {
	for i, p := range c.set.Pupils {
		one := c.set
		one.Pupils = c.set.Pupils[i : i+1]
		seq, err := one.TaskPages(c.Sheet, lettering.Go())
		if err != nil {
			return err
		}
		name := fmt.Sprintf("task-%0*d", len(fmt.Sprint(max(10, len(c.set.Pupils)))), p.Number)
		if p.Name != "" {
			name += "-" + fileName(p.Name)
		}
		if err := put(name, "task", func(yield func(draw.Page) bool) {
			for _, page := range seq {
				if !yield(c.warped(page)) {
					return
				}
			}
		}); err != nil {
			return err
		}
	}
	return nil
}

// summary says what was made, and what is not in it.
func (c *class) summary() []string {
	n := 0
	for _, p := range c.set.Pupils {
		n += len(p.Tasks)
	}
	all := []string{fmt.Sprintf("%s, %s: %s", lines.Plural(len(c.set.Pupils), "pupil"), lines.Plural(n, "task"), strings.Join(c.sheets, ", "))}
	if slices.Contains(c.sheets, "task") {
		all = append(all, "the job does not travel inside: with its seed anyone could make the key")
	}
	return all
}
