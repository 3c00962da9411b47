// Package lesson says what stands on the sheets of a class: tasks to be drawn by hand, the key
// that marks them, and the film that is laid on them. It is said to pupils and teachers in the
// words of examinations, whatever the voice of other pages.
//
// Files, from the top floor to the ground: subjects.go, wording.go, marking.go, model.go, lesson.go.
package lesson

import (
	"fmt"
	"strings"

	"trammel/geom/task"
)

// EnglishTasks says what pupils read.
type EnglishTasks struct{}

// EnglishMarking says what who marks them reads.
type EnglishMarking struct{}

// name of a quantity as a sentence has it.
func name(q task.Quantity) string {
	switch q {
	case task.A, task.B, task.C:
		return "angle " + q.String()
	case task.Height:
		return "the height of C over AB"
	case task.CA2:
		return "the shorter CA"
	}
	return q.String()
}

// figure with its unit.
func figure(q task.Quantity, x int) string {
	if q.IsAngle() {
		return fmt.Sprintf("%d°", x)
	}
	return fmt.Sprintf("%d mm", x)
}

// Head is what a pupil fills in at the top of a sheet.
func (EnglishTasks) Head() [3]string { return [3]string{"Name", "Class", "Date"} }

// Pupil is a pupil's number and name; Of is the page's place in the pupil's set.
func (EnglishTasks) Pupil(number int, name string) string {
	if name == "" {
		return fmt.Sprintf("pupil %02d", number)
	}
	return name
}

// Of says which task of how many a page holds; of two, both.
func (EnglishTasks) Of(first, last, of int) string {
	if first != last {
		return fmt.Sprintf("tasks %d and %d of %d", first, last, of)
	}
	return fmt.Sprintf("task %d of %d", first, of)
}

// Given is what is given, one a line, as a pupil writes it.
func (EnglishTasks) Given(t task.Task) (all []string) {
	if t.Kind == task.ISO {
		return []string{"AB = " + figure(task.AB, t.Given[0]), "BC = CA = " + figure(task.BC, t.Given[1])}
	}
	for i, q := range t.Kind.Given() {
		what := name(q)
		if q == task.Height {
			what = "height of C over AB"
		}
		all = append(all, what+" = "+figure(q, t.Given[i]))
	}
	if t.Kind == task.BHS {
		all = append(all, "angle A is acute")
	}
	return all
}

// OnSketch is a given figure as the sketch bears it.
func (EnglishTasks) OnSketch(q task.Quantity, x int) string { return figure(q, x) }

// NotToScale stands under a sketch.
func (EnglishTasks) NotToScale() string { return "NOT TO SCALE" }

// Box is what stands before a box and behind it.
func (EnglishTasks) Box(k task.Kind, q task.Quantity) (before, after string) {
	after = "mm"
	if q.IsAngle() {
		after = "°"
	}
	switch {
	case q == task.Height:
		return "height =", after
	case k == task.SSA2 && q == task.CA:
		return "longer CA =", after
	case q == task.CA2:
		return "shorter CA =", after
	case k == task.SSA0:
		return "least BC =", after
	}
	return name(q) + " =", after
}

// HowMany stands before the box for how many triangles fit.
func (EnglishTasks) HowMany() string { return "triangles that fit:" }

// joined is a and b, or a alone.
func joined(all []string) string { return strings.Join(all, " and ") }
