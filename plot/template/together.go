package template

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// together says how the sheets are joined in their order, each on top of those that lie,
// and shows a join.
func (x index) together(l composition, width unit.Length, r draw.Ruler) []sheet.Block {
	if len(x.plan.Cells) < 2 {
		return nil
	}
	j := x.joining
	all := []sheet.Block{x.heading(words.PutTogether)}
	list := sheet.List{Items: x.say.Join(j), Numbered: true, Height: x.style.sized(large), Whole: true}
	if l.figures && width >= 3*aside {
		over, under := j.Second()
		figure := sheet.Figure{Alt: x.style.says().Aloud().Join(under, over), Draw: func(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
			return joined(j, width, x.style.sized(draw.TitleHeight))
		}}
		all = append(all, besides([]sheet.Block{list}, []sheet.Block{figure}, width, aside))
	} else {
		all = append(all, list)
	}
	return append(all, x.measuring(width, r)...)
}

// joining is what of the plan tells in which order.
func joining(plan paging.Plan, s unit.Style) words.Joining {
	_, down := stackSpan(plan)
	many := len(plan.Cells) > fewSheets
	j := words.Joining{
		Sheets: len(plan.Cells), Last: plan.Cells[len(plan.Cells)-1].Label,
		Across: many && len(rowSpans(plan)) > 0, Down: many && down, Outline: plan.Cover == paging.OutlineOnly, Inches: s.Unit >= unit.IN,
	}
	for i, c := range plan.Cells {
		j.Lay = append(j.Lay, words.Lay{Sheet: c.Label, On: plan.On(i)})
	}
	return j
}

// joined is a join as a small picture: half star at half star, ticks at ticks, the numbers
// of the first two sheets.
func joined(j words.Joining, width, letters unit.Length) (draw.Drawing, unit.Length) {
	const (
		high, star, rim    unit.Length = 32, 4, 1
		pitch, short, long unit.Length = 1.6, 3, 6
		pairs                          = 5 // to each side of the long one
	)
	x, top, foot := width/2, -rim, rim-high
	d := draw.Drawing{
		sheet.NoteLine(0, top, width, top, draw.Thin), sheet.NoteLine(0, foot, width, foot, draw.Thin),
		sheet.NoteLine(x, top, x, foot, draw.Trim),
	}
	at := geom.Point{X: x, Y: top - star - 2}
	for i := range 4 {
		ray := unit.Turn / 8 * unit.Angle(i)
		d = append(d, draw.Line{Line: geom.Line{From: at.Toward(ray, -star), To: at.Toward(ray, star)}, Pen: draw.Thin, On: draw.Notes})
	}
	middle := foot + 2 + pitch*pairs
	for i := -pairs; i <= pairs; i++ {
		reach, y := short, middle+pitch*unit.Length(i)
		if i == 0 {
			reach = long
		}
		d = append(d, sheet.NoteLine(x-reach, y, x, y, draw.Thin), sheet.NoteLine(x, middle+pitch*0.9*unit.Length(i), x+reach, middle+pitch*0.9*unit.Length(i), draw.Thin))
	}
	number := func(n string, x unit.Length) draw.Op {
		return draw.Text{At: geom.Point{X: x, Y: middle - letters/2}, Height: letters, Align: draw.Middle, Bold: true, Words: n, On: draw.Notes}
	}
	over, under := j.Second()
	return append(d, number(under, width/6), number(over, width*5/6)), high
}

// byRows is the sheets by rows from the top, each from the left.
func byRows(plan paging.Plan) []paging.Cell {
	return slices.SortedFunc(slices.Values(plan.Cells), func(a, b paging.Cell) int { return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col)) })
}

// runs are sheets that follow one another without a gap, each joined to the one before.
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

// spanned is the length between the first and the last join of sheets that follow each
// other; with fewer than three there is none.
func spanned(run []paging.Cell, middle func(a, b paging.Cell) unit.Length) (span, bool) {
	n := len(run)
	if n < 3 {
		return span{}, false
	}
	return span{
		Span:   words.Span{From: [2]string{run[0].Label, run[1].Label}, To: [2]string{run[n-2].Label, run[n-1].Label}},
		length: unit.Length(math.Abs(float64(middle(run[n-2], run[n-1]) - middle(run[0], run[1])))),
		joins:  n - 2,
	}, true
}

func across(a, b paging.Cell) unit.Length { return (a.Window.Max.X + b.Window.Min.X) / 2 }

func along(a, b paging.Cell) unit.Length { return (a.Window.Min.Y + b.Window.Max.Y) / 2 }

// rowSpans are those of the rows, from the top.
func rowSpans(plan paging.Plan) (all []span) {
	for _, run := range runs(byRows(plan), leftOf) {
		if s, ok := spanned(run, across); ok {
			s.Row = [2]string{run[0].Label, run[len(run)-1].Label}
			all = append(all, s)
		}
	}
	return all
}

// stackSpan is the longest from row to row, of equals the leftmost.
func stackSpan(plan paging.Plan) (longest span, ok bool) {
	column := byRows(plan)
	slices.SortStableFunc(column, func(a, b paging.Cell) int { return cmp.Compare(a.Col, b.Col) })
	for _, run := range runs(column, func(c paging.Cell) string { return c.Above }) {
		if s, is := spanned(run, along); is && s.length > longest.length+1e-6 {
			longest, ok = s, true
		}
	}
	return longest, ok
}

// mostSpans is how many rows have a line of their own in the table of lengths.
const mostSpans = 5

// fewSheets is up to how many sheets the sides alone say whether they lie as they should.
const fewSheets = 12

// spans are the lines of that table, and what is said beside it. Of many rows there are
// the shortest and the longest: each sheet more adds the same.
func spans(plan paging.Plan, s unit.Style, say words.Templates) (all []span, more string) {
	if len(plan.Cells) <= fewSheets {
		return nil, ""
	}
	all = rowSpans(plan)
	if len(all) > mostSpans {
		byLength := func(a, b span) int { return cmp.Compare(a.length, b.length) }
		short, long := slices.MinFunc(all, byLength), slices.MaxFunc(all, byLength)
		all, more = []span{short}, say.Spans(0, s)
		if sheets := long.joins - short.joins; sheets > 0 {
			all, more = append(all, long), say.Spans((long.length-short.length)/unit.Length(sheets), s)
		}
		for i := range all {
			all[i].Sheets = all[i].joins + 2
		}
	}
	if stack, ok := stackSpan(plan); ok {
		all = append(all, stack)
	}
	return all, more
}

// measuring is what to measure between the joins.
func (x index) measuring(width unit.Length, r draw.Ruler) []sheet.Block {
	figures := x.style.Figures
	length := sheet.Lengths(figures.Unit >= unit.IN)
	if len(x.spans) == 0 {
		return nil
	}
	table := sheet.Table{Heads: x.style.sized(small), Height: x.style.sized(large), Whole: true, Columns: columns(x.say.SpanHeads(), sheet.ToLeft, sheet.ToLeft, sheet.ToLeft, length, length, length)}
	for _, s := range x.spans {
		which, from, to := x.say.Span(s.Span)
		least, most := x.ends(s.length, Accept(s.length, s.joins, x.Uncertainty))
		table.Cells = append(table.Cells, []string{which, from, to, figures.Aligned(s.length), figures.Aligned(least), figures.Aligned(most)})
	}
	if table.Breadth(r) > width {
		table.Gutter, table.Height = 2, x.style.sized(small)
	}
	blocks := []sheet.Block{sheet.Gap(1.5), table}
	if x.more != "" {
		blocks = append(blocks, sheet.Paragraph{Words: x.more})
	}
	return blocks
}

// besides sets blocks beside others, which take so much of the width on the right.
func besides(left, others []sheet.Block, width, right unit.Length) sheet.Block {
	return sheet.Beside{Stacks: [][]sheet.Block{left, others}, Shares: []float64{float64(width - gutter - right), float64(right)}, Gutter: gutter}
}
