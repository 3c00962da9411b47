package setout

import (
	"fmt"

	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

// columned sets a long table in two halves side by side where the width allows, in
// smaller letters where it allows only those.
type columned struct {
	sheet.Table
	gutter unit.Length
}

func (b columned) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	n := (len(b.Cells) + 1) / 2
	if 2*b.Breadth(r)+b.gutter > width && n > short/4 {
		b.Height = draw.NoteHeight
	}
	if n < 4 || 2*b.Breadth(r)+b.gutter > width || n > 2*short {
		return narrowing{Table: b.Table}.Rows(width, r)
	}
	left, right := b.Table, b.Table
	left.Cells, right.Cells = b.Cells[:n], b.Cells[n:]
	return sheet.Beside{Stacks: [][]sheet.Block{{left}, {right}}, Gutter: b.gutter}.Rows(width, r)
}

// short is how many rows a table may have to stand in one piece, beside another.
const short = 24

// pullsAndPegs are the two tables.
func (s Sheet) pullsAndPegs() (pulls, pegs sheet.Table) {
	both := s.BothSides()
	out := "square\nout"
	if !both {
		out = "square\nout, " + s.OneSide().String()
	}
	pegs = sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: len(s.Pegs) <= short, Columns: []sheet.Column{
		{Head: "", Align: sheet.ToRight}, {Head: "peg"}, {Head: "along,\nfrom " + string(s.Baseline.From), Align: sheet.Lengths(s.Inches())}, {Head: out, Align: sheet.Lengths(s.Inches())}, {Head: "side"}, {Head: "what it is"},
	}}
	for _, p := range s.Pegs {
		along, offset := s.pegFigures(p)
		pegs.Cells = append(pegs.Cells, []string{fmt.Sprint(p.Number), string(p.Name), along, offset, p.Side.String(), s.Says().Peg(p)})
	}
	if !both {
		pegs = without(pegs, 4)
	}
	pulls = sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: len(s.Pulls) <= short, Columns: []sheet.Column{
		{Head: "pull", Align: sheet.ToRight}, {Head: "hold\n0 at"}, {Head: "pull\nto"}, {Head: "true", Align: sheet.Lengths(s.Inches())}, {Head: "tape\nreads", Align: sheet.Lengths(s.Inches())}, {Head: "for"},
	}}
	for _, p := range s.Pulls {
		known := p.Measured || p.Use == pegging.ForLeg
		reads := bracketed(s.Figure(p.Reads), known && !s.Corrected)
		length := bracketed(s.Figure(p.Length), known)
		if p.Use == pegging.ForAngle {
			reads, length = s.toldAngle(p), ""
		}
		pulls.Cells = append(pulls.Cells, []string{fmt.Sprint(p.Number), string(p.Hold), string(p.To), length, reads, s.Says().Use(p)})
	}
	if !s.Corrected {
		pulls = without(pulls, 3)
		pulls.Columns[3].Head = "\nreads"
	}
	return pulls, pegs
}

// without leaves a column out.
func without(t sheet.Table, column int) sheet.Table {
	t.Columns = append(append([]sheet.Column(nil), t.Columns[:column]...), t.Columns[column+1:]...)
	cells := make([][]string, len(t.Cells))
	for i, c := range t.Cells {
		cells[i] = append(append([]string(nil), c[:column]...), c[column+1:]...)
	}
	t.Cells = cells
	return t
}

// narrowing is a table that on narrow paper is set in smaller letters, and where that
// does not do without its last column.
type narrowing struct {
	sheet.Table
	less  bool // the last column may go: it only says what the letters say
	after bool // not parted from what follows
}

func (b narrowing) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	if b.Breadth(r) > width {
		b.Height = draw.NoteHeight
	}
	if b.less && b.Breadth(r) > width {
		b.Table = without(b.Table, len(b.Columns)-1)
	}
	rows := b.Table.Rows(width, r)
	rows[len(rows)-1].Keep = b.after && b.Whole
	return rows
}

func (s Sheet) checksTable() sheet.Table {
	// A box is 1 mm lower than its row.
	t := sheet.Table{Height: draw.FigureHeight, Row: 9.1, Gutter: 3.5, Columns: []sheet.Column{
		{Head: "check", Align: sheet.ToRight}, {Head: "from"}, {Head: "to"}, {Head: "should\nread", Align: sheet.Lengths(s.Inches())},
		{Head: "accept\nfrom", Align: sheet.Lengths(s.Inches())}, {Head: "accept\nto", Align: sheet.Lengths(s.Inches())}, {Head: "found", Align: sheet.Box, Width: 26}, {Head: "what it is", Fill: true},
	}}
	for _, c := range s.Checks {
		t.Cells = append(t.Cells, []string{fmt.Sprint(c.Number), string(c.From), string(c.To),
			bracketed(s.Figure(c.Reads), c.Measured && !s.Corrected), s.Figure(c.Least), s.Figure(c.Greatest), "", s.Says().Check(c)})
	}
	return t
}

// sureTable says how far off each peg may be.
func (s Sheet) sureTable() sheet.Table {
	u := s.SmallUnit()
	t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: len(s.Sure) <= short, Columns: []sheet.Column{
		{Head: "peg"}, {Head: "σ along,\n" + u, Align: sheet.OnPoint}, {Head: "σ across,\n" + u, Align: sheet.OnPoint},
		{Head: "95 %: as\nmeasured", Align: sheet.OnPoint}, {Head: "as set\nout", Align: sheet.OnPoint}, {Head: "both,\n" + u, Align: sheet.OnPoint},
		{Head: "may be\noff, " + u, Align: sheet.OnPoint}, {Head: ""},
	}}
	for _, x := range s.Sure {
		t.Cells = append(t.Cells, []string{string(x.Peg), s.Small(x.Along), s.Small(x.Across), s.Small(x.Measured), s.Small(x.SetOut), s.Small(x.Both), s.Small(x.Permitted), s.Says().Inside(x)})
	}
	if s.Permitted == 0 {
		t = without(without(t, 7), 6)
	}
	return t
}

// rankTable compares the ways.
func (s Sheet) rankTable() sheet.Table {
	t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: true, Columns: []sheet.Column{
		{Head: "way"}, {Head: "from"}, {Head: "worst\npeg"}, {Head: "95 %,\n" + s.SmallUnit(), Align: sheet.OnPoint}, {Head: "times", Align: sheet.OnPoint}, {Head: ""},
	}}
	for i, x := range s.Ranking.Best {
		used := ""
		if i == s.Ranking.Used {
			used = "used"
		}
		t.Cells = append(t.Cells, []string{s.Says().Way(x.Method), string(x.Base[0] + x.Base[1]), string(x.Pegs[x.Worst].Name), s.Small(x.Figure), fmt.Sprintf("%.1f", x.Times), used})
	}
	return t
}
