package words

import (
	"fmt"
	"strings"

	"trammel/geom/unit"
)

// Joining is how the pages of a template are joined.
type Joining struct {
	Runs         [][]string // sheets that follow one another, row by row from the top
	Rows         []string   // the rows by their first and last sheets, "1–4", or the first, "from 9"
	Walk         [][]string // all sheets in the order of laying, where that is not by rows: each of a run joins the one before
	Below        bool       // some page is joined to the one above
	Across, Down bool       // rows, or the stack of them, have a length to measure
	Outline      bool       // only the pages of the edges are printed
	Inches       bool
}

// Span is a length to measure while pages are put together: between the first join and
// the last, of a row, of every row of so many pages, or down the rows.
type Span struct {
	Row      string // its first and last sheet, "1–4", or its first, "from 9"
	Pages    int    // of a row that stands for all others; 0: of that row, or of the rows
	From, To [2]string
}

// Expected is how true a template will be: its worst side, and what makes it differ.
type Expected struct {
	Side           string
	Within         unit.Length // 95 times in 100
	Sheets, Joins  int         // of all, and those along the side
	Slip           unit.Length // of a join
	Paper, Printer float64     // of the length; no printer: nothing is known of it
	Inches         bool
}

const (
	join     = "\u00a0| " // between the names of two pages; keeps to the first at a line's end
	longList = 260        // letters that a list of joins may have before the rule alone is said
	manyRows = 5          // rows that are named before the rule alone is said
)

func (templates) Join(j Joining) []string {
	var all, joined []string
	for _, run := range j.Runs {
		all = append(all, strings.Join(run, join))
		if len(run) > 1 {
			joined = append(joined, strings.Join(run, join))
		}
	}
	list := strings.Join(joined, "; ")
	if len(list) > longList {
		first := strings.SplitN(joined[0], join, 3)
		list = first[0] + join + first[1] + ", and so on, as the map shows"
	}
	const how = ". Lay each page over the one before it, half star on star, and tape it."
	check := ""
	if j.Across {
		check = " Measure each row (below); a thread along its trimmed edge shows whether it is straight."
	}
	items := []string{"Cut each page right across along its unbroken lines (stars and rim), not the dashed ones: then no page hides another."}
	switch {
	case j.Walk != nil:
		var ways []string
		for _, run := range j.Walk {
			ways = append(ways, strings.Join(run, join))
		}
		walk := strings.Join(ways, "; ")
		if len(walk) > longList {
			walk = strings.Join(j.Walk[0][:2], join) + ", and so on, as the map shows"
		}
		items = append(items, "Go round by the numbers: "+walk+". Lay each page over those that are there, half star on star, and tape it."+check)
	case joined == nil:
		down := strings.Join(all, join)
		if len(down) > longList {
			down = "each page to the one above"
		}
		items = append(items, "Start at the top: "+down+how)
	case !j.Below:
		items = append(items, "Start at the left: "+list+how+check)
	default:
		items = append(items, "Make up the rows from the left: "+list+how+check, rowsDown(j))
	}
	out := "0.1 mm"
	if j.Inches {
		out = "0.004 in"
	}
	items = append(items, "The long ticks beside the stars must meet. Where another pair meets instead, count the ticks to it: each is "+out+".")
	if j.Outline {
		items = append(items, "Only the pages of the edges are printed. Where they close in a ring, the last join must meet without force: that is a free check.")
	}
	return items
}

// rowsDown says how the rows are joined once each is made up.
func rowsDown(j Joining) string {
	var over []string
	for i := 1; i < len(j.Rows) && i < manyRows; i++ {
		over = append(over, j.Rows[i]+" over "+j.Rows[i-1])
	}
	if len(j.Rows) > manyRows {
		over = append(over, "and so on down to "+j.Rows[len(j.Rows)-1])
	}
	say := "Join the rows from the top: row " + strings.Join(over, ", ") + "."
	if j.Down {
		say += " Measure down the rows (below)."
	}
	return say
}

func (templates) SpanHeads() []string {
	return []string{"measure", "square from join to join", "length", "from", "to"}
}

func (templates) Span(s Span) (which, joins string) {
	which = "rows"
	switch {
	case s.Pages > 0:
		which = fmt.Sprintf("row of %d", s.Pages)
	case s.Row != "":
		which = "row " + s.Row
	}
	return which, s.From[0] + join + s.From[1] + " to " + s.To[0] + join + s.To[1]
}

func (templates) Spans(page unit.Length, s unit.Style) string {
	if page == 0 {
		return "The other rows are as long."
	}
	return fmt.Sprintf("Between these, each page adds %s.", s.Length(page))
}

func (templates) Expected(e Expected) string {
	small := func(l unit.Length) string {
		if e.Inches {
			return fmt.Sprintf("%.1g in", float64(l/unit.Inch))
		}
		return fmt.Sprintf("%.1f mm", l.MM())
	}
	rate := func(share float64) string {
		if e.Inches {
			return fmt.Sprintf("%.1g in a foot", 12*share)
		}
		return fmt.Sprintf("%.2g mm a metre", 1000*share)
	}
	over := fmt.Sprintf("%d joins of ±%s as a random walk", e.Joins, small(e.Slip))
	switch e.Joins {
	case 0:
		over = "no join"
	case 1:
		over = "1 join of ±" + small(e.Slip)
	}
	printer := "the printer's own scale is in none of the ranges."
	if e.Printer > 0 {
		printer = rate(e.Printer) + " for the printer as calibrated."
	}
	return fmt.Sprintf("Expected: %s within %s, 95 times in 100: %d sheets; along %s %s; %s for paper and tape; %s",
		e.Side, small(e.Within), e.Sheets, e.Side, over, rate(e.Paper), printer)
}
