package template

import (
	"strings"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
)

// together says in which order the pages are joined: each row from the left, then
// the rows from the top, since a page lies over the one to its left and over the
// one above.
func (x index) together(l layout, width unit.Length, r draw.Ruler) []sheet.Block {
	if len(x.plan.Cells) < 2 {
		return nil
	}
	blocks := []sheet.Block{sheet.Heading{Words: "Put together"}, sheet.List{Items: order(x.plan, x.style.Figures), Numbered: true, Height: l.join, Whole: true}}
	return append(blocks, x.measuring(l, width, r)...)
}

// join stands between the names of two pages, and keeps to the first at a line's end.
const join = "\u00a0| "

// longList is how many letters a list of joins may have before the rule alone is said.
const longList = 260

// manyRows is how many rows are named before the rule alone is said.
const manyRows = 5

func order(plan paging.Plan, s unit.Style) []string {
	runs, rows := runsOf(plan)
	var joined []string
	below := false
	for _, run := range runs {
		if strings.Contains(run, "|") {
			joined = append(joined, run)
		}
	}
	for _, c := range plan.Cells {
		below = below || c.Above != ""
	}
	items := []string{cutting}
	const how = " Lay each page over the one before it, half star on star, and tape it."
	check := ""
	if len(rowSpans(plan)) > 0 {
		check = " Measure each row (below); a thread along its trimmed edge shows whether it is straight."
	}
	switch list := strings.Join(joined, "; "); {
	case joined == nil:
		all := strings.Join(runs, join)
		if len(all) > longList {
			all = "each page to the one above"
		}
		items = append(items, "Start at the top: "+all+"."+how)
	case !below:
		items = append(items, "Start at the left: "+shorter(list, joined)+"."+how+check)
	default:
		items = append(items, "Make up the rows from the left: "+shorter(list, joined)+"."+how+check)
		var over []string
		for i := 1; i < len(rows) && i < manyRows; i++ {
			over = append(over, rows[i]+" over "+rows[i-1])
		}
		if len(rows) > manyRows {
			over = append(over, "and so on down to "+rows[len(rows)-1])
		}
		then := ""
		if _, ok := stackSpan(plan); ok {
			then = " Measure down the rows (below)."
		}
		items = append(items, "Join the rows from the top: row "+strings.Join(over, ", ")+"."+then)
	}
	out := "0.1 mm"
	if s.Unit >= unit.IN {
		out = "0.004 in"
	}
	items = append(items, "The long ticks beside the stars must meet. Where another pair meets instead, count the ticks to it: each is "+out+".")
	if plan.Cover == paging.OutlineOnly {
		items = append(items, "Only the pages of the edges are printed. Where they close in a ring, the last join must meet without force: that is a free check.")
	}
	return items
}

// cutting says what is cut off a page, and why all of it.
const cutting = "Cut each page right across along its unbroken lines (stars and rim), not the dashed ones: then no page hides another."

// shorter is the list of rows, or where that is long its first row alone.
func shorter(list string, rows []string) string {
	if len(list) <= longList {
		return list
	}
	first := strings.SplitN(rows[0], join, 3)
	return first[0] + join + first[1] + ", and so on, as the map shows"
}

// runsOf is the unbroken runs of pages, by rows ("A1 | A2"), and the rows' letters.
func runsOf(plan paging.Plan) (runs, rows []string) {
	row := -1
	for _, c := range plan.Cells {
		switch {
		case c.LeftOf != "":
			runs[len(runs)-1] += join + c.Label
		default:
			runs = append(runs, c.Label)
		}
		if c.Row != row {
			row = c.Row
			rows = append(rows, rowOf(c))
		}
	}
	return runs, rows
}
