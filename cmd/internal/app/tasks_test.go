package app

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trammel/cmd/internal/classroom"
	"trammel/geom"
	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/pdf"
	"trammel/plot/png"
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

// The zones of the films, read back by PDFium: each corner lies within 0.005 mm of where the
// two lines cross that the givens, more or less their tolerance, leave to C; by circles and
// lines of the test's own.
func TestZonesAreTrue(t *testing.T) {
	w := classOf(t, "tasks: {pupils: 6, seed: 7, level: 2, kinds: [SSS, SAS]}\n")
	set, err := classroom.Draw(w.Merged, nil, false)
	if err != nil {
		t.Fatal(err)
	}
	file := filesOf(t, w, "overlay")["overlay.pdf"]
	pages := readback.Open(t, file)[1:] // the first is the film for all
	seen := 0
	for i, p := range set.Pupils {
		for n, d := range p.Tasks {
			// A is the middle of the stroke of 8 mm of its cross, of which there is one a task.
			var a geom.Point
			var zone []geom.Point
			low := pages[i].Height / 2
			for _, path := range pages[i].Paths {
				corners := path.Corners()
				upper := corners[0].Y > low
				if upper != (n == 0) || path.Layer != "outline" {
					continue
				}
				box := geom.RectOf(corners[0], corners[1:]...)
				switch {
				case len(path.Segments) >= 4:
					zone = corners
				case math.Abs(float64(box.Width()-8)) < 0.001 && box.Height() < 0.001:
					a = box.Centre()
				}
			}
			if len(zone) < 4 || a == (geom.Point{}) {
				t.Fatalf("pupil %d, task %d: no zone or no A on the film", i+1, n+1)
			}
			for _, want := range corners(d.Task) {
				near := math.Inf(1)
				for _, z := range zone {
					near = math.Min(near, math.Hypot(float64(z.X-a.X)-want[0], float64(z.Y-a.Y)-want[1]))
				}
				if seen++; near > 0.005 {
					t.Errorf("pupil %d, %s %v: the corner at %.3f is off by %.4f", i+1, d.Kind, d.Given, want, near)
				}
			}
		}
	}
	if seen != 6*2*4 {
		t.Errorf("%d corners seen", seen)
	}
}

// corners of the zone of C: rings of ±2 mm about both ends, or a ring and a wedge of ±2°.
func corners(t task.Task) (all [][2]float64) {
	c, x, y := float64(t.Given[0]), float64(t.Given[1]), float64(t.Given[2])
	for _, one := range []float64{-2, 2} {
		for _, two := range []float64{-2, 2} {
			if t.Kind == task.SAS {
				v, w := math.Sincos((x + one) * math.Pi / 180)
				all = append(all, [2]float64{(y + two) * w, (y + two) * v})
				continue
			}
			a, b := x+one, y+two
			u := (b*b - a*a + c*c) / (2 * c)
			all = append(all, [2]float64{u, math.Sqrt(b*b - u*u)})
		}
	}
	return all
}

// A projector's pages come as pictures too where a folder is made by who can paint.
func TestScreenAsPictures(t *testing.T) {
	w := classOf(t, "tasks: {pupils: 1, kinds: [SSS]}\n")
	d, err := makeTasks(Order{Work: w, Class: ClassOptions{Sheets: job.Setting{Text: "screen"}}, Picture: PictureOptions{Paint: png.Write}})
	if err != nil {
		t.Fatal(err)
	}
	out, err := d.As("")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	err = out.Folder(func(name string, write func(io.Writer) error) error {
		if strings.HasSuffix(name, ".png") {
			if n++; n > 1 {
				return nil
			}
			var b bytes.Buffer
			if err := write(&b); err != nil {
				return err
			}
			if !bytes.HasPrefix(b.Bytes(), []byte("\x89PNG")) {
				t.Errorf("%s is no picture", name)
			}
		}
		return nil
	})
	if err != nil || n < 50 {
		t.Errorf("%d pictures, %v", n, err)
	}
}
