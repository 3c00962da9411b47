package words

import "trammel/plot/words/lesson"

// Tasks is what pupils read on the sheets of a class, Marking what who marks them reads,
// Models what stands on the sheets that show how it is done.
type (
	Tasks   = lesson.Tasks
	Marking = lesson.Marking
	Models  = lesson.Models
)

func (e English) Tasks() Tasks     { return lesson.EnglishTasks{} }
func (e English) Marking() Marking { return lesson.EnglishMarking{} }
func (e English) Models() Models   { return lesson.EnglishModels{} }
