package lesson

import "trammel/geom/task"

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
	AnswerTitle(pupil string, n int) string
	Comes(b task.Box) string
}

// Models says what stands on the sheets that show how a triangle is constructed, beside the
// sentences of its steps.
type Models interface {
	Title(k task.Kind) string
	HalfCircle() string
	Touching() string
	NoneOfThree() string
	Kite() string
	Mark() string
	Why(angle, other string, acute bool) string
	FullSize() string
	CutsTwice(centre, radius, arm string) string
	JoinBoth(from string) string
	CheckBoth(from string) string
	FallsShort(centre, radius, gap string) string
	FirstArc(centre, radius string) string
	NoCrossing(centre, radius, gap string) string
	TooShort(a, b, c string) string
	Alt(number int) string
}
