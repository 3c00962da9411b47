package words

import (
	"cmp"
	"fmt"

	"trammel/geom"
	"trammel/plot/words/phrase"
)

// Aloud is what a document tells whoever has it read out: its language, and a sentence
// for each thing that is drawn.
type Aloud interface {
	// Language as BCP 47 has it.
	Language() string
	// Sheet is a piece at its true size: the sheet of that label, one of so many.
	Sheet(piece, label string, of int) string
	// Map of a template's sheets.
	Map(piece string, sheets int) string
	// Join of two sheets, the one on top last.
	Join(under, over string) string
	// Construction by hand, a small figure.
	Construction(piece string) string
	// Bar that is measured.
	Bar(length string) string
	// Plan of pegs at 1:scale.
	Plan(pegs []geom.Name) string
	// Detail of that plan, by its name.
	Detail(name string) string
	// Checked is the small plan of the lines of so many checks.
	Checked(n int) string
	// Found is the plan of what was found.
	Found() string
	// Crosses are the marks of a calibration sheet, the first of which has rulers at its edges.
	Crosses(n int) string
	// Lengths is the sketch that says which cross is which.
	Lengths() string
	// Boxes to write in, by their names.
	Boxes(names []string) string
}

// aloud in English.
type aloud struct{}

func (aloud) Language() string { return "en" }

func (aloud) Sheet(piece, label string, of int) string {
	s := fmt.Sprintf("Drawing of %s at its true size", cmp.Or(piece, "the piece"))
	if of > 1 {
		s += fmt.Sprintf(": sheet %s, one of %d that join", label, of)
	}
	return s + "."
}

func (aloud) Map(piece string, sheets int) string {
	s := "sheet"
	if sheets > 1 {
		s = fmt.Sprintf("%d sheets", sheets)
	}
	return fmt.Sprintf("Map of the %s, with the outline of %s across.", s, cmp.Or(piece, "the piece"))
}

func (aloud) Join(under, over string) string {
	return fmt.Sprintf("Sheet %s joined to sheet %s: half star meets half star, long tick meets long tick.", over, under)
}

func (aloud) Construction(piece string) string {
	return fmt.Sprintf("Small figure of %s on its baseline, with the arcs that cross.", cmp.Or(piece, "the piece"))
}

func (aloud) Bar(length string) string { return "Bar to be measured: " + length + " long." }

func (aloud) Plan(pegs []geom.Name) string {
	var names []string
	for _, p := range pegs {
		names = append(names, string(p))
	}
	return fmt.Sprintf("Plan of the pegs %s, with the lengths between them.", phrase.Few(names))
}

func (aloud) Detail(name string) string {
	return fmt.Sprintf("Detail %s: pegs that stand close together on the plan.", name)
}

func (aloud) Checked(n int) string {
	if n == 1 {
		return "Small plan with the line of the check."
	}
	return fmt.Sprintf("Small plan with the lines of the %d checks, numbered as in the table.", n)
}

func (aloud) Found() string {
	return "Plan of the pegs and of the lengths that were found."
}

func (aloud) Crosses(n int) string {
	if n > 1 {
		return "Four crosses to measure between, A, B, C and D, with ticks to read tenths by."
	}
	return "Four crosses to measure between, A, B, C and D, and four small rulers that run off the edges of the paper."
}

func (aloud) Lengths() string {
	return "Sketch of the crosses A, B, C and D with the width, the height and the two diagonals."
}

func (aloud) Boxes(names []string) string { return "Boxes to write in: " + geom.Listed(names) + "." }
