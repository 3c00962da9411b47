package words

import (
	"trammel/geom/task"
	"trammel/plot/words/lesson"
)

// Tasks says what stands on the sheets of a class.
type Tasks interface {
	Head() [3]string
	Pupil(number int, name string) string
	Of(first, last, of int) string
	Wording(d task.Drawn) string
	Given(t task.Task) []string
	OnSketch(q task.Quantity, x int) string
	NotToScale() string
	Measure(d task.Drawn, boxes []task.Quantity) string
	Box(k task.Kind, q task.Quantity) (before, after string)
	HowMany() string
	Steps(t task.Task) []string
	SketchAlt() string
}

// Marking says what stands on the key and on the films.
type Marking interface {
	Pupil(number int, name string) string
	KeyTitle() string
	KeyHeads() (pupil, task, given, diagnosed string)
	Asked(k task.Kind, q task.Quantity) string
	Range(b task.Box) string
	Mistake(k task.Kind, m task.Mistake) string
	Has(w task.Wrong, boxes []task.Box) string
	Ranges(t task.Tolerance) string
	Marks() string
	Seed(seed int) string
	OverlayTitle() string
	OverlayUse() string
	Ghost(m task.Mistake) string
	PolarTitle() string
	PolarUse() string
	Place(ca, a float64) string
	FilmAlt() string
}

func (e English) Tasks() Tasks     { return lesson.Tasks{} }
func (e English) Marking() Marking { return lesson.Marking{} }
