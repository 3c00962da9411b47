package words

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"trammel/geom/unit"
)

// Joining is how the sheets of a template are joined, in the order of their numbers.
type Joining struct {
	Sheets       int
	Lay          []Lay // the sheets in the order of laying
	Last         string
	Across, Down bool // rows, or the stack of them, have a length to measure
	Outline      bool // only the sheets of the edges are printed
	Curved       bool // an edge or a corner of the piece is round
	Inches       bool
}

// Lay is a sheet with those that it is laid on; none: it lies loose until another joins it.
type Lay struct {
	Sheet string
	On    []string
}

// Second is the first sheet that is laid on another, and that other.
func (j Joining) Second() (over, under string) {
	for _, l := range j.Lay {
		if len(l.On) > 0 {
			return l.Sheet, l.On[0]
		}
	}
	return "", ""
}

// loose says whether a sheet behind the first is laid on none.
func (j Joining) loose() bool {
	return len(j.Lay) > 0 && slices.ContainsFunc(j.Lay[1:], func(l Lay) bool { return len(l.On) == 0 })
}

// Alike says whether the same words are true of both.
func (j Joining) Alike(k Joining) bool {
	if j.loose() || k.loose() {
		return reflect.DeepEqual(j, k)
	}
	over, under := j.Second()
	over2, under2 := k.Second()
	j.Lay, k.Lay = nil, nil
	return over == over2 && under == under2 && reflect.DeepEqual(j, k)
}

// longOrder is how many sheets are told one by one at most.
const longOrder = 24

// order of laying, where a sheet is laid loose: sheet by sheet or, of many, the loose ones.
func (j Joining) order() string {
	if j.Sheets > longOrder {
		var loose []string
		for _, l := range j.Lay[1:] {
			if len(l.On) == 0 {
				loose = append(loose, l.Sheet)
			}
		}
		return fmt.Sprintf("Lay the sheets in this order, each on all its neighbours with lower numbers. No such neighbour: %s; lay loose.", strings.Join(loose, ", "))
	}
	said := []string{j.Lay[0].Sheet}
	for _, l := range j.Lay[1:] {
		if len(l.On) == 0 {
			said = append(said, l.Sheet+"\u00a0loose")
		} else {
			said = append(said, l.Sheet+"\u00a0on\u00a0"+strings.Join(l.On, " and "))
		}
	}
	return "Lay the sheets in this order: " + strings.Join(said, "; ") + "."
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

func (w templates) Join(j Joining) []string {
	over, under := j.Second()
	items := []string{
		"Cut each sheet along the thin lines with scissors, never the heavy one.",
		fmt.Sprintf("Lay the cut edge of %s on the dashed line of %s, half star to half star. Tape it.", over, under),
	}
	switch {
	case j.loose():
		items[1] = "Lay them as it says below the map: cut edge on dashed line, half star to half star. Tape."
	case j.Sheets > 2:
		items = append(items, fmt.Sprintf("Go on in order to %s. Each dashed line says which sheet it waits for.", j.Last))
	}
	third := "0.3 mm"
	if j.Inches {
		third = "0.012 in"
	}
	items = append(items, "Long ticks meet. If the third pair beside them does, the upper sheet is "+third+" too far that way.")
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
	return append(items, onto(w.voice, j.Curved))
}

// onto is how the shape comes from the paper on the work.
func onto(voice Voice, curved bool) string {
	say := map[Voice]string{
		Class:  "Tape it on the card, prick the corners through, lift it, draw from prick to prick.",
		Bench:  "Tape it down, prick the corners through, lift it, knife from prick to prick.",
		Floor:  "Tape it down, mark the corners through, lift it, draw from mark to mark.",
		Ground: "Hold it down, mark the corners through, lift it, draw from mark to mark.",
	}[voice]
	if curved {
		say += " Along a curve do so every 5 mm."
	}
	return say
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
