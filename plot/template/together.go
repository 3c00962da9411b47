package template

import (
	"fmt"
	"strings"

	"trammel/plot/paging"
	"trammel/plot/sheet"
)

// together says in which order the pages are joined: each row from the left, then
// the rows from the top, since a page lies over the one to its left and over the
// one above.
func (x index) together(l layout) []sheet.Block {
	if len(x.plan.Cells) < 2 {
		return nil
	}
	return []sheet.Block{sheet.Heading{Words: "Put together"}, sheet.List{Items: order(x.plan), Numbered: true, Height: l.height, Whole: true}}
}

// join stands between the names of two pages, and keeps to the first at a line's end.
const join = "\u00a0| "

// longList is how many letters a list of joins may have before the rule alone is said.
const longList = 260

func order(plan paging.Plan) []string {
	runs, rows := runsOf(plan)
	items := []string{"Trim each page along the unbroken line at its left and at its top, where it has one; the dashed lines show where the next page will end."}
	joined := 0
	for _, run := range runs {
		if strings.Contains(run, "|") {
			joined++
		}
	}
	first := plan.Cells[0].Label
	const how = " Lay each page over the one before it, cross on cross; it is right when the long ticks meet. Tape it."
	switch list := strings.Join(runs, "; "); {
	case joined == 0:
		all := strings.Join(runs, join)
		if len(all) > longList {
			all = "each to the one above"
		}
		return append(items, "Start at the top: "+all+"."+how)
	case len(rows) == 1:
		return append(items, "Start at the left: "+shorter(list, first, plan)+"."+how)
	default:
		items = append(items, "Rows first, each from the left, beginning with "+first+": "+shorter(list, first, plan)+"."+how)
	}
	var over []string
	for i := 1; i < len(rows); i++ {
		over = append(over, rows[i]+" over "+rows[i-1])
	}
	say := strings.Join(over, ", ")
	if len(say) > longList {
		say = fmt.Sprintf("%s over %s, and so on down to %s", rows[1], rows[0], rows[len(rows)-1])
	}
	items = append(items, "Then the rows to each other, from the top: row "+say+".")
	if plan.Cover == paging.OutlineOnly {
		items = append(items, "Only the pages of the edges are printed. Where they close in a ring, the last join must meet without force: that is a free check.")
	}
	return items
}

func shorter(list, first string, plan paging.Plan) string {
	if len(list) <= longList {
		return list
	}
	second := plan.Cells[1].Label
	return first + join + second + ", and so on, as the map shows"
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
			rows = append(rows, strings.TrimRight(c.Label, "0123456789"))
		}
	}
	return runs, rows
}
