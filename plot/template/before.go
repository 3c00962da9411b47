package template

import (
	"math"
	"slices"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// before is what to check before cutting: the bar, and the sides once the sheets are
// together, in one table.
func (x index) before(width unit.Length, r draw.Ruler) []sheet.Block {
	here := x.Paper.Width == 0
	sheets, shape := len(x.plan.Cells), x.piece.Shape
	table := x.narrowed(here, width, r)
	text := func(words string, height unit.Length) sheet.Block {
		return sheet.Paragraph{Words: words, Height: height, Keep: true}
	}
	blocks := []sheet.Block{x.heading(words.BeforeCutting), text(x.say.Bar(sheets, here), x.style.sized(large))}
	sides := []sheet.Block{text(x.say.Sides(shape, sheets), x.style.sized(large)), sheet.KeptGap(1)}
	if here {
		blocks = append(blocks, ladder(x.style, width))
		sides = append([]sheet.Block{sheet.KeptGap(1), text(x.say.PrintAgain(), x.style.sized(large)), sheet.KeptGap(2)}, sides...)
		blocks = append(blocks, parted{table, 1, sides})
	} else {
		blocks = append(append(blocks, text(x.say.PrintAgain(), x.style.sized(large)), sheet.KeptGap(2)), append(sides, table)...)
	}
	blocks = append(blocks, sheet.Gap(1.5))
	for _, say := range append([]string{x.expected()}, x.say.Outside(sheets, x.Uncertainty != 0)...) {
		blocks = append(blocks, sheet.Paragraph{Words: say, Height: x.style.sized(small)})
	}
	return blocks
}

// narrowed is the table at a width, or the narrowest that there is.
func (x index) narrowed(here bool, width unit.Length, r draw.Ruler) sheet.Table {
	table := x.table(here)
	if table.Breadth(r) > width { // feet and inches are long
		table.Gutter = 2
	}
	if n := 5; table.Breadth(r) > width && len(table.Columns) > n { // the sheets have it beside the edges
		table.Columns = table.Columns[:n]
		for i := range table.Cells {
			table.Cells[i] = table.Cells[i][:n]
		}
	}
	if over := table.Breadth(r) - width; over > 0 {
		table.Columns[4].Width = max(20, boxWide-over)
	}
	return table
}

// table of the bar, where there is one, and of the sides, each with its range and a box.
func (x index) table(bar bool) sheet.Table {
	s := x.style.Figures
	length := sheet.Lengths(s.Unit >= unit.IN)
	table := sheet.Table{Heads: x.style.sized(small), Row: max(boxHigh+1, 2.2*x.style.sized(large)), Height: x.style.sized(large), Gutter: 4, Columns: columns(x.say.CheckHeads(x.piece.Shape), sheet.ToLeft, length, length, length, sheet.Box, length)}
	table.Columns[4].Width = boxWide
	add := func(what, figure, whole string, l, give unit.Length) {
		from, to := x.ends(l, give)
		cells := []string{what, figure, s.Aligned(from), s.Aligned(to), "", whole}
		table.Cells = append(table.Cells, cells[:len(table.Columns)])
	}
	if bar {
		long := 100 * unit.Millimetre
		if s.Unit >= unit.IN {
			long = 4 * unit.Inch
		}
		add(x.say.BarRow(), s.Aligned(long), "", long, Accept(long, 0, x.Uncertainty))
	}
	for _, c := range x.sides {
		whole := ""
		if c.whole > 0 {
			whole = words.Computed(s.Aligned(c.whole), c.given)
		}
		give := Accept(c.length, c.joins, x.Uncertainty)
		add(c.what, words.Computed(s.Aligned(c.length), c.measured), whole, c.length, give)
	}
	return table
}

// joins that a distance runs over; of two hands the more.
func (x index) joins(d distance) int {
	n := joinsAlong(x.plan, x.plan.Place.Line(d.Line))
	if x.Opposite == nil {
		return n
	}
	for _, o := range x.Opposite.Piece.checked() {
		if o.what == d.what || same(o.length, d.length) {
			n = max(n, joinsAlong(x.Opposite.Plan, x.Opposite.Plan.Place.Line(o.Line)))
		}
	}
	return n
}

// ends of the range of a length. In inches they are of the fraction that the job uses,
// outward: so is a length read that lies within.
func (x index) ends(l, give unit.Length) (from, to unit.Length) {
	s := x.style.Figures
	if s.Unit < unit.IN {
		return l - give, l + give
	}
	parts := s.Denominator
	if !slices.Contains([]int{1, 2, 4, 8, 16, 32, 64}, parts) {
		parts = 16
	}
	step := float64(unit.Inch) / float64(parts)
	return unit.Length(math.Floor(float64(l-give)/step) * step), unit.Length(math.Ceil(float64(l+give)/step) * step)
}

// parted is a table with something between two of its rows, all in its columns.
type parted struct {
	sheet.Table
	after   int // so many rows
	between []sheet.Block
}

func (b parted) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	rows := b.Table.Rows(width, r)
	at := b.after + 1 // its head
	rows[at-1].Keep = true
	return slices.Insert(rows, at, sheet.Stack(b.between, width, r)...)
}

// ladder is the bar to check the print by.
func ladder(s Style, width unit.Length) sheet.Figure {
	block, n := 10*unit.Millimetre, 10
	if s.Figures.Unit >= unit.IN {
		block, n = unit.Inch/2, 8
	}
	for n > 2 && block*unit.Length(n) > width {
		n -= 2
	}
	return sheet.Ladder(block, n, s.says().Aloud().Bar(s.Figures.LengthUnit(block*unit.Length(n))))
}

// expected says how true the template will be, for the worst of its sides.
func (x index) expected() string {
	e := words.Expected{Within: -1, Slip: joinSlip, Printer: x.Uncertainty > 0, Inches: x.style.Figures.Unit >= unit.IN}
	for _, c := range x.sides {
		if within := Expected(c.length, c.joins, x.Uncertainty); within > e.Within {
			e.Side, e.Within, e.Joins = c.what, within, c.joins
		}
	}
	return x.say.Expected(e)
}
