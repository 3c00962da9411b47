package words

import (
	"fmt"

	"trammel/geom/unit"
)

// Calibration tells how a printer is measured. The first sheet is read by eye, one that
// is corrected by what was measured before by its ticks.
type Calibration interface {
	// Title of sheet number n.
	Title(printer string, n int) string
	// Headings of its parts: where the lengths are measured, the edges read, and what was found typed.
	Headings() (measure, edges, found string)
	// Lengths are the four to measure: what each is, and from where to where.
	Lengths() [4][2]string
	// Sides of the paper, in the order in which they are typed: left, top, right, bottom.
	Sides() [4]string
	// Facts are what the sheet is and how it is printed.
	Facts(paper string, n int) string
	// Measure is how the four lengths are measured, with a rule that is so long at least.
	Measure(rule unit.Length, n int) []string
	// Edges is how the small rulers at the edges of the paper are read.
	Edges() string
	// Typed is how what was found is typed.
	Typed() string
}

// calibration in English.
type calibration struct{ voice Voice }

func (calibration) Title(printer string, n int) string {
	if n > 1 {
		return "Calibration of " + printer + ", corrected"
	}
	return "Calibration of " + printer
}

func (calibration) Headings() (measure, edges, found string) {
	return "Measure four lengths", "Read where printing stops", "Type what you found"
}

func (calibration) Lengths() [4][2]string {
	return [4][2]string{{"width", "A to B"}, {"height", "A to D"}, {"first diagonal", "A to C"}, {"second diagonal", "B to D"}}
}

func (calibration) Sides() [4]string { return [4]string{"left", "top", "right", "bottom"} }

func (calibration) Facts(paper string, n int) string {
	facts := fmt.Sprintf("%s, millimetres. Print at 100 %%, actual size, on one side: never \"fit to page\".", paper)
	if n > 1 {
		return fmt.Sprintf("Sheet %d, corrected by what was measured before: on any other printer it is wrong. ", n) + facts
	}
	return facts
}

func (calibration) Measure(rule unit.Length, n int) []string {
	read := "Read to the nearest 0.25 mm, twice. Do not guess what it ought to be: a good reading is seldom a round one."
	if n > 1 {
		read = "Read whole millimetres at the second cross. Before it are ten ticks, 0 to 9: the one that meets a millimetre mark of the rule is the tenths. Use a lens, and read twice. Near a whole millimetre the tick decides: tick 9 before 190 is 189.9."
	}
	return []string{
		"Use the paper that templates are printed on. Let it lie flat for ten minutes.",
		fmt.Sprintf("Take a steel rule of %.0f mm or more; a pocket tape is not true enough. Hold its 10 mm mark on the first cross, read at the second and take off the 10: the end of a rule is worn. See which class is stamped on it, I or II: it says how true it is.", rule.MM()),
		read,
	}
}

func (calibration) Edges() string {
	return "Four small rulers run off the edges of the paper. At each, write down the number of the outermost tick that is there to see, counted in millimetres from the edge: 5, 10, 15 and 20 are marked."
}

func (calibration) Typed() string {
	return "All in one line, in the order of the boxes; decimals after a point. It says how true your pages will be, and what to do next."
}
