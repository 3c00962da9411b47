package app

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trammel/cmd/internal/classroom"
	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/pdf"
	"trammel/plot/readback"
	"trammel/profiles"
	"trammel/profiles/job"
)

// classOf is the work of a job with tasks.
func classOf(t testing.TB, text string) Work {
	t.Helper()
	j, err := job.Read("class.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	set, err := profiles.Load()
	if err != nil {
		t.Fatal(err)
	}
	m, err := job.Merge(j, job.Overrides{}, set, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	return OpenClass(m, nil)
}

const eight = "job: Triangles by hand\ntasks: {pupils: 28, seed: 7, level: 2, kinds: [SSS, SAS, SASO, ASA, AAS, RHS, SSA2, BHA], across: 6}\n"

// filesOf are the files of a folder.
func filesOf(t testing.TB, w Work, sheets string) map[string][]byte {
	t.Helper()
	d, err := makeTasks(Order{Work: w, Class: ClassOptions{Sheets: job.Setting{Text: sheets}}})
	if err != nil {
		t.Fatal(err)
	}
	out, err := d.As("")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{}
	err = out.Folder(func(name string, write func(io.Writer) error) error {
		var b bytes.Buffer
		err := write(&b)
		all[name] = b.Bytes()
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// A folder has each pupil's tasks as a file of its own, and what the teacher keeps in others.
func TestClassFolder(t *testing.T) {
	files := filesOf(t, classOf(t, eight), "task,key,overlay")
	if len(files) != 28+3 {
		t.Errorf("%d files", len(files))
	}
	for _, name := range []string{"task-01.pdf", "task-28.pdf", "key.pdf", "key.csv", "overlay.pdf"} {
		if len(files[name]) == 0 {
			t.Errorf("there is no %s", name)
		}
	}
}

// Nobody gets the answer out of a task's file: no word of it (read by PDFium), no attachment,
// nothing in what the file says of itself, and neither seed nor job.
func TestNoAnswerInTaskFiles(t *testing.T) {
	w := classOf(t, strings.Replace(eight, "seed: 7", "seed: 918273", 1))
	set, err := classroom.Draw(w.Merged, nil, false)
	if err != nil {
		t.Fatal(err)
	}
	files := filesOf(t, w, "task")
	number := regexp.MustCompile(`\d+(\.\d+)?`)
	for i, p := range set.Pupils {
		file := files[fmt.Sprintf("task-%02d.pdf", i+1)]
		if _, err := pdf.Attached(bytes.NewReader(file), int64(len(file))); err == nil {
			t.Fatalf("pupil %d has the job in the file", i+1)
		}
		if i%7 != 0 { // reading takes a while
			continue
		}
		pages := readback.Open(t, file)
		for n, d := range p.Tasks {
			var said []string
			for _, w := range pages[n].Words {
				said = append(said, number.FindAllString(w.Text, -1)...)
			}
			if len(said) < 3 {
				t.Fatalf("nothing was read of pupil %d, task %d: %v", i+1, n+1, pages[n].Words)
			}
			given := []string{fmt.Sprint(i + 1), fmt.Sprint(n + 1), "8"}
			for _, x := range d.Given {
				given = append(given, fmt.Sprint(x))
			}
			for _, b := range d.Measured(task.Maths) {
				for _, x := range []string{fmt.Sprintf("%.0f", b.Value), fmt.Sprintf("%.1f", b.Value)} {
					if slices.Contains(said, x) && !slices.Contains(given, x) {
						t.Errorf("pupil %d, task %d: %s stands in the text", i+1, n+1, x)
					}
				}
			}
		}
		for _, secret := range []string{"918273", "seed", "SSA2", "key"} {
			if bytes.Contains(bytes.ToLower(file), []byte("("+strings.ToLower(secret))) {
				t.Errorf("pupil %d: %q stands in the file", i+1, secret)
			}
		}
	}
}

// Rules that leave too few say which, and what to loosen.
func TestTooFewTasks(t *testing.T) {
	for _, x := range []struct{ tasks, where, what, hint string }{
		{"{pupils: 100, level: 1, kinds: [SSA2]}", "class.yaml:1:39", "no SSA2 is left for pupil", "level: 2"},
		{"{pupils: 28, level: 1, kinds: [RHS], across: 6, on_a_page: 2, compass: 60}", "class.yaml:1:67", "compass: with 60 mm", "longer compass"},
		{"{pupils: 80, level: 1, kinds: [SSA0], across: 6}", "class.yaml:1:31", "SSA0", "across"},
	} {
		_, err := makeTasks(Order{Work: classOf(t, "tasks: "+x.tasks+"\n")})
		var f *unit.Fault
		if !errors.As(err, &f) {
			t.Errorf("%s: %v", x.tasks, err)
			continue
		}
		if !strings.Contains(f.What, x.what) || !strings.Contains(f.Hint, x.hint) || !strings.HasPrefix(f.Where, "class.yaml:1:") {
			t.Errorf("%s: %s: %s (%s)", x.tasks, f.Where, f.What, f.Hint)
		}
	}
	for _, x := range []struct{ text, what string }{
		{"tasks: {pupils: [نور], kinds: [SSS]}\n", "lettering has no character"},
		{"tasks: {kinds: [SSS]}\n", "nobody is in the class"},
		{"pieces: [{measure: [AB=30, BC=40, CA=50]}]\n", "no tasks for a class"},
		{"paper: A5\ntasks: {pupils: 2, kinds: [SSS]}\n", "leave less than"},
	} {
		_, err := makeTasks(Order{Work: classOf(t, x.text)})
		var f *unit.Fault
		if !errors.As(err, &f) || !strings.Contains(f.What, x.what) || f.Hint == "" {
			t.Errorf("%s: %v", x.text, err)
		}
	}
}
