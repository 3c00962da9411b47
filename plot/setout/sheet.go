package setout

import (
	"trammel/geom/pegging"
	"trammel/plot/plan"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Sheet is a setting-out sheet as data. Lengths are exact; they are rounded where
// they are written.
type Sheet struct {
	sheet.TitleBlock
	Index    int // of the piece in the job
	Language words.Language
	pegging.Layout
	North plan.North

	Steps    []Step
	Bring    []string
	Cautions []string
	Doubts   []string // about what was measured
	Basis    []string // how the accept ranges are reckoned
}

// Step is one numbered step of the work.
type Step struct {
	Number int
	Words  string
}
