package template

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// together says in which order the pages are joined: each row from the left, then
// the rows from the top, since a page lies over the one to its left and over the
// one above.
func (x index) together(l composition, width unit.Length, r draw.Ruler) []sheet.Block {
	if len(x.plan.Cells) < 2 {
		return nil
	}
	list := sheet.List{Items: x.say.Join(joining(x.plan, x.style.Figures)), Numbered: true, Height: l.join, Whole: true}
	return append([]sheet.Block{sheet.Heading{Words: x.say.Heading(words.PutTogether)}, list}, x.measuring(l, width, r)...)
}

// joining is what of the plan tells in which order.
func joining(plan paging.Plan, s unit.Style) words.Joining {
	_, down := stackSpan(plan)
	j := words.Joining{Across: len(rowSpans(plan)) > 0, Down: down, Outline: plan.Cover == paging.OutlineOnly, Inches: s.Unit >= unit.IN}
	if j.Outline && !slices.IsSortedFunc(plan.Cells, byRows) {
		var last string
		j.Walk = labels(runs(plan.Cells, func(c paging.Cell) (before string) {
			if slices.Contains([]string{c.LeftOf, c.RightOf, c.Above, c.Below}, last) {
				before = last
			}
			last = c.Label
			return before
		}))
	}
	j.Runs = labels(runs(inRows(plan), leftOf))
	j.Below = slices.ContainsFunc(plan.Cells, func(c paging.Cell) bool { return c.Above != "" })
	for _, row := range runs(inRows(plan), sameRow()) {
		j.Rows = append(j.Rows, rowOf(row))
	}
	return j
}

// labels are the numbers of the sheets of each run.
func labels(runs [][]paging.Cell) [][]string {
	all := make([][]string, len(runs))
	for i, run := range runs {
		for _, c := range run {
			all[i] = append(all[i], c.Label)
		}
	}
	return all
}

func byRows(a, b paging.Cell) int {
	return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col))
}

// inRows is the sheets by rows from the top, whatever the order of laying.
func inRows(plan paging.Plan) []paging.Cell {
	return slices.SortedFunc(slices.Values(plan.Cells), byRows)
}

// sameRow says of sheet after sheet whether it lies in the row of the one before.
func sameRow() func(paging.Cell) string {
	row := -1
	return func(c paging.Cell) (before string) {
		if c.Row == row {
			before = c.Label
		}
		row = c.Row
		return before
	}
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

// span is a length to measure while pages are put together: square from one join to
// another, in a row from its first to its last, among the rows down the longest column.
type span struct {
	words.Span
	length unit.Length
	joins  int // between those two
}

// spanned is the length between the first and the last join of pages that follow each
// other; with fewer than three pages there is none.
func spanned(row string, run []paging.Cell, middle func(a, b paging.Cell) unit.Length) (span, bool) {
	n := len(run)
	if n < 3 {
		return span{}, false
	}
	return span{
		Span:   words.Span{Row: row, From: [2]string{run[0].Label, run[1].Label}, To: [2]string{run[n-2].Label, run[n-1].Label}},
		length: unit.Length(math.Abs(float64(middle(run[n-2], run[n-1]) - middle(run[0], run[1])))),
		joins:  n - 2,
	}, true
}

func across(a, b paging.Cell) unit.Length { return (a.Window.Max.X + b.Window.Min.X) / 2 }

func along(a, b paging.Cell) unit.Length { return (a.Window.Min.Y + b.Window.Max.Y) / 2 }

// rowSpans are those of the rows, from the top.
func rowSpans(plan paging.Plan) (all []span) {
	for _, run := range runs(inRows(plan), leftOf) {
		if s, ok := spanned(rowOf(run), run, across); ok {
			all = append(all, s)
		}
	}
	return all
}

// stackSpan is the longest from row to row, of equals the leftmost.
func stackSpan(plan paging.Plan) (longest span, ok bool) {
	column := inRows(plan)
	slices.SortStableFunc(column, func(a, b paging.Cell) int { return cmp.Compare(a.Col, b.Col) })
	for _, run := range runs(column, func(c paging.Cell) string { return c.Above }) {
		if s, is := spanned("", run, along); is && s.length > longest.length+1e-6 {
			longest, ok = s, true
		}
	}
	return longest, ok
}

// mostSpans is how many rows have a line of their own in the table of lengths.
const mostSpans = 5

// spans are the lines of that table, and what is said beside it. Of many rows there are
// the shortest and the longest: each page more adds the same.
func spans(plan paging.Plan, s unit.Style, say words.Templates) (all []span, more string) {
	all = rowSpans(plan)
	if len(all) > mostSpans {
		byLength := func(a, b span) int { return cmp.Compare(a.length, b.length) }
		short, long := slices.MinFunc(all, byLength), slices.MaxFunc(all, byLength)
		all, more = []span{short}, say.Spans(0, s)
		if pages := long.joins - short.joins; pages > 0 {
			all, more = append(all, long), say.Spans((long.length-short.length)/unit.Length(pages), s)
		}
		for i := range all {
			all[i].Pages = all[i].joins + 2
		}
	}
	if stack, ok := stackSpan(plan); ok {
		all = append(all, stack)
	}
	return all, more
}

// measuring is what to measure between the joins, and how true the template will be;
// beside each other where there is room.
func (x index) measuring(l composition, width unit.Length, r draw.Ruler) []sheet.Block {
	fine := x.fine()
	length := sheet.Lengths(fine.Unit >= unit.IN)
	all, more := spans(x.plan, fine, x.say)
	expected := sheet.Paragraph{Words: x.expected(), Height: l.care}
	if len(all) == 0 {
		return []sheet.Block{sheet.Gap(1.5), expected}
	}
	table := sheet.Table{Height: l.care, Gutter: 4, Columns: columns(x.say.SpanHeads(), sheet.ToLeft, sheet.ToLeft, length, length, length)}
	for _, s := range all {
		which, joins := x.say.Span(s.Span)
		give := Accept(s.length, s.joins, x.Uncertainty)
		table.Cells = append(table.Cells, []string{which, joins, fine.Length(s.length), fine.Length(s.length - give), fine.Length(s.length + give)})
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
		return []sheet.Block{sheet.Gap(1.5), besides(blocks, []sheet.Block{expected}, width, right)}
	}
	return append(append([]sheet.Block{sheet.Gap(1.5)}, blocks...), sheet.Gap(1.5), expected)
}

// besides sets blocks beside others, which take so much of the width on the right.
func besides(left, others []sheet.Block, width, right unit.Length) sheet.Block {
	return sheet.Beside{Stacks: [][]sheet.Block{left, others}, Shares: []float64{float64(width - gutter - right), float64(right)}, Gutter: gutter}
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
	e := words.Expected{
		Within: -1, Sheets: len(x.plan.Cells), Slip: joinSlip, Paper: paper, Printer: x.Uncertainty, Inches: x.style.Figures.Unit >= unit.IN,
	}
	for _, c := range x.piece.checked() {
		n := joinsAlong(x.plan, x.plan.Place.Line(c.Line))
		if within := Expected(c.length, n, x.Uncertainty); within > e.Within {
			e.Side, e.Within, e.Joins = c.what, within, n
		}
	}
	return x.say.Expected(e)
}

// rowOf names a row by its first and last sheet, or by its first where they are not
// numbered from the left.
func rowOf(row []paging.Cell) string {
	first, last := row[0].Label, row[len(row)-1].Label
	a, _ := strconv.Atoi(first)
	switch b, _ := strconv.Atoi(last); {
	case len(row) == 1:
		return first
	case b-a != len(row)-1:
		return "from " + first
	}
	return first + "–" + last
}
