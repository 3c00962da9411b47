package words

import (
	"fmt"
	"math"
	"strconv"

	"trammel/geom/unit"
)

// Joining is how the sheets of a template are joined, in the order of their numbers.
type Joining struct {
	Sheets       int
	Second       [2]string // the first sheet that is laid on another, and that other
	Alone        string    // the first, behind the first of all, that meets none which lies already; empty: none
	Last         string
	Across, Down bool // rows, or the stack of them, have a length to measure
	Outline      bool // only the sheets of the edges are printed
	Inches       bool
}

// Span is a length to measure while sheets are put together: between the first join and
// the last, of a row, of every row of so many sheets, or down the rows.
type Span struct {
	Row      [2]string // its first sheet and its last; empty: down the rows
	Sheets   int       // of a row that stands for all others; 0: of that row, or of the rows
	From, To [2]string
}

// Expected is how true a template will be: its worst side, and what that rests on.
type Expected struct {
	Side    string
	Within  unit.Length // nearly always: 95 times in 100
	Joins   int         // along the side
	Slip    unit.Length // of a join
	Printer bool        // it was calibrated
	Inches  bool
}

const join = "\u00a0| " // between the names of two sheets; keeps to the first at a line's end

func (templates) Join(j Joining) []string {
	over, under := j.Second[0], j.Second[1]
	items := []string{
		"Cut each sheet along the lines with scissors, notches too.",
		fmt.Sprintf("Lay %s on the light line of %s, half star to half star. Tape it.", over, under),
	}
	if j.Sheets > 2 {
		on := fmt.Sprintf("Go on in order to %s. Each light line says which sheet it waits for.", j.Last)
		if j.Alone != "" {
			on += fmt.Sprintf(" Sheet %s meets none as yet: lay it loose, the next ones join it.", j.Alone)
		}
		items = append(items, on)
	}
	third := "0.3 mm"
	if j.Inches {
		third = "0.012 in"
	}
	items = append(items, "Long tick meets long tick. Where the third pair beside it meets instead, the sheet is "+third+" out.")
	switch {
	case j.Across && j.Down:
		items = append(items, "Measure each row when it lies, and down the rows at the end, as the table says. A thread along a row shows whether it is straight.")
	case j.Across:
		items = append(items, "Measure the row when it lies, as the table says. A thread along it shows whether it is straight.")
	case j.Down:
		items = append(items, "Measure down the rows when all lie, as the table says.")
	}
	if j.Outline {
		items = append(items, "Only the sheets of the edges are printed. Where they close in a ring, the last join must meet without force.")
	}
	return items
}

func (templates) SpanHeads() []string {
	return []string{"measure", "from join", "to join", "length", "from", "to"}
}

func (templates) Span(s Span) (which, from, to string) {
	which = "down the rows"
	switch {
	case s.Sheets > 0:
		which = fmt.Sprintf("row of %d", s.Sheets)
	case s.Row[0] != "":
		which = "row " + s.Row[0] + " to " + s.Row[1]
	}
	return which, s.From[0] + join + s.From[1], s.To[0] + join + s.To[1]
}

func (templates) Spans(sheet unit.Length, s unit.Style) string {
	if sheet == 0 {
		return "The other rows are as long."
	}
	return fmt.Sprintf("Between these, each sheet adds %s.", s.Length(sheet))
}

func (templates) Expected(e Expected) string {
	small := func(l unit.Length) string {
		if e.Inches {
			const step = unit.Inch / 64
			return unit.Style{Unit: unit.IN, Denominator: 64}.Length(step * unit.Length(max(1, math.Ceil(float64(l/step)-1e-9))))
		}
		return strconv.FormatFloat(max(0.1, math.Ceil(l.MM()*10-1e-9)/10), 'f', 1, 64) + "\u00a0mm"
	}
	if e.Joins == 0 {
		return fmt.Sprintf("Expected: %s nearly always comes within %s.", e.Side, small(e.Within))
	}
	rests := "each join is true to " + small(e.Slip)
	if e.Printer {
		rests += " and the printer prints as it was calibrated"
	}
	return fmt.Sprintf("Expected: %s, joined with care, nearly always comes within %s, where %s.", e.Side, small(e.Within), rests)
}
