package template

import (
	"cmp"
	"fmt"
	"math"
	"slices"
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
	list := sheet.List{Items: order(x.plan, x.style.Figures), Numbered: true, Height: l.join, Whole: true}
	return append([]sheet.Block{sheet.Heading{Words: "Put together"}, list}, x.measuring(l, width, r)...)
}

// join stands between the names of two pages, and keeps to the first at a line's end.
const join = "\u00a0| "

// longList is how many letters a list of joins may have before the rule alone is said.
const longList = 260

// manyRows is how many rows are named before the rule alone is said.
const manyRows = 5

func order(plan paging.Plan, s unit.Style) []string {
	var all, joined, rows []string
	for _, run := range runs(plan.Cells, leftOf) {
		labels := labels(run)
		if all = append(all, labels); len(run) > 1 {
			joined = append(joined, labels)
		}
		if row := rowOf(run[0]); !slices.Contains(rows, row) {
			rows = append(rows, row)
		}
	}
	below := slices.ContainsFunc(plan.Cells, func(c paging.Cell) bool { return c.Above != "" })
	items := []string{cutting}
	const how = " Lay each page over the one before it, half star on star, and tape it."
	check := ""
	if len(rowSpans(plan)) > 0 {
		check = " Measure each row (below); a thread along its trimmed edge shows whether it is straight."
	}
	switch list := strings.Join(joined, "; "); {
	case joined == nil:
		list := strings.Join(all, join)
		if len(list) > longList {
			list = "each page to the one above"
		}
		items = append(items, "Start at the top: "+list+"."+how)
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

// runs are pages that follow one another without a gap, each joined to the one before.
func runs(cells []paging.Cell, before func(paging.Cell) string) (all [][]paging.Cell) {
	for _, c := range cells {
		if before(c) == "" {
			all = append(all, nil)
		}
		all[len(all)-1] = append(all[len(all)-1], c)
	}
	return all
}

func leftOf(c paging.Cell) string { return c.LeftOf }

// labels of pages that are joined: "A1 | A2".
func labels(run []paging.Cell) string {
	var all []string
	for _, c := range run {
		all = append(all, c.Label)
	}
	return strings.Join(all, join)
}

// span is a length to measure while pages are put together: square from one join to
// another, in a row from its first to its last, among the rows down the longest column.
type span struct {
	what   string // "row B", "rows"
	joined string // the joins, by the names that the pages have for them
	length unit.Length
	joins  int // between those two
}

// spanned is the length between the first and the last join of pages that follow each
// other; with fewer than three pages there is none.
func spanned(what string, run []paging.Cell, middle func(a, b paging.Cell) unit.Length) (span, bool) {
	n := len(run)
	if n < 3 {
		return span{}, false
	}
	return span{
		what:   what,
		joined: labels(run[:2]) + " to " + labels(run[n-2:]),
		length: unit.Length(math.Abs(float64(middle(run[n-2], run[n-1]) - middle(run[0], run[1])))),
		joins:  n - 2,
	}, true
}

func across(a, b paging.Cell) unit.Length { return (a.Window.Max.X + b.Window.Min.X) / 2 }

func along(a, b paging.Cell) unit.Length { return (a.Window.Min.Y + b.Window.Max.Y) / 2 }

// rowSpans are those of the rows, from the top.
func rowSpans(plan paging.Plan) (all []span) {
	for _, run := range runs(plan.Cells, leftOf) {
		if s, ok := spanned("row "+rowOf(run[0]), run, across); ok {
			all = append(all, s)
		}
	}
	return all
}

// stackSpan is the longest from row to row, of equals the leftmost.
func stackSpan(plan paging.Plan) (longest span, ok bool) {
	column := slices.Clone(plan.Cells)
	slices.SortStableFunc(column, func(a, b paging.Cell) int { return cmp.Compare(a.Col, b.Col) })
	for _, run := range runs(column, func(c paging.Cell) string { return c.Above }) {
		if s, is := spanned("rows", run, along); is && s.length > longest.length+1e-6 {
			longest, ok = s, true
		}
	}
	return longest, ok
}

// mostSpans is how many rows have a line of their own in the table of lengths.
const mostSpans = 5

// spans are the lines of that table, and what is said beside it. Of many rows there are
// the shortest and the longest: each page more adds the same.
func spans(plan paging.Plan, s unit.Style) (all []span, more string) {
	all = rowSpans(plan)
	if len(all) > mostSpans {
		byLength := func(a, b span) int { return cmp.Compare(a.length, b.length) }
		short, long := slices.MinFunc(all, byLength), slices.MaxFunc(all, byLength)
		step := long.length
		if long.joins > short.joins {
			step = (long.length - short.length) / unit.Length(long.joins-short.joins)
		}
		all = []span{short}
		if long.joins > short.joins {
			all = append(all, long)
			more = fmt.Sprintf("Between these, each page adds %s.", s.Length(step))
		} else {
			more = "The other rows are as long."
		}
		for i := range all {
			all[i].what = fmt.Sprintf("row of %d", all[i].joins+2)
		}
	}
	if stack, ok := stackSpan(plan); ok {
		all = append(all, stack)
	}
	return all, more
}

// measuring is what to measure between the joins, and how true the template will be;
// beside each other where there is room.
func (x index) measuring(l layout, width unit.Length, r draw.Ruler) []sheet.Block {
	fine := x.fine()
	length := sheet.Lengths(fine.Unit >= unit.IN)
	all, more := spans(x.plan, fine)
	expected := sheet.Paragraph{Words: x.expected(), Height: l.care}
	if len(all) == 0 {
		return []sheet.Block{sheet.Gap(1.5), expected}
	}
	table := sheet.Table{Height: l.care, Gutter: 4, Columns: []sheet.Column{
		{Head: "measure"}, {Head: "square from join to join"}, {Head: "length", Align: length}, {Head: "from", Align: length}, {Head: "to", Align: length},
	}}
	for _, s := range all {
		give := Accept(s.length, s.joins, x.Uncertainty)
		table.Cells = append(table.Cells, []string{s.what, s.joined, fine.Length(s.length), fine.Length(s.length - give), fine.Length(s.length + give)})
	}
	if table.Breadth(r) > width {
		table.Gutter, table.Columns[1].Fill = 2, true
	}
	blocks := []sheet.Block{table}
	if more != "" {
		blocks = append(blocks, sheet.Paragraph{Words: more, Height: l.care})
	}
	const leastWords = 60
	left := table.Breadth(r) + 1
	if right := width - left - gutter; l.columns == 1 && right >= leastWords {
		return []sheet.Block{sheet.Gap(1.5), sheet.Beside{Stacks: [][]sheet.Block{blocks, {expected}}, Shares: []float64{float64(left), float64(right)}, Gutter: gutter}}
	}
	return append(append([]sheet.Block{sheet.Gap(1.5)}, blocks...), sheet.Gap(1.5), expected)
}

// fine is how lengths are written where a range is what matters: a sixteenth of an
// inch would swallow it.
func (x index) fine() unit.Style {
	s := x.style.Figures
	if s.Unit >= unit.IN {
		s.Denominator = 64
	}
	return s
}

// expected says how true the template will be and why, for the worst of its sides.
func (x index) expected() string {
	worst, joins, side := unit.Length(-1), 0, ""
	for _, c := range x.piece.checked() {
		n := joinsAlong(x.plan, x.plan.Place.Line(c.Line))
		if e := Expected(c.length, n, x.Uncertainty); e > worst {
			worst, joins, side = e, n, c.what
		}
	}
	inches := x.style.Figures.Unit >= unit.IN
	small := func(l unit.Length) string {
		if inches {
			return fmt.Sprintf("%.1g in", float64(l/unit.Inch))
		}
		return fmt.Sprintf("%.1f mm", l.MM())
	}
	rate := func(share float64) string {
		if inches {
			return fmt.Sprintf("%.1g in a foot", 12*share)
		}
		return fmt.Sprintf("%.2g mm a metre", 1000*share)
	}
	over := "no join"
	if joins > 0 {
		over = fmt.Sprintf("%d joins of ±%s as a random walk", joins, small(joinSlip))
		if joins == 1 {
			over = "1 join of ±" + small(joinSlip)
		}
	}
	say := fmt.Sprintf("Expected: %s within %s, 95 times in 100: %d sheets; along %s %s; %s for paper and tape; ", side, small(worst), len(x.plan.Cells), side, over, rate(paper))
	if x.Uncertainty > 0 {
		return say + fmt.Sprintf("%s for the printer as calibrated.", rate(x.Uncertainty))
	}
	return say + "the printer's own scale is in none of the ranges."
}

// rowOf is the letter of a page's row.
func rowOf(c paging.Cell) string { return strings.TrimRight(c.Label, "0123456789") }
