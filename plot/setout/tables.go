package setout

import (
	"fmt"
	"slices"

	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// short is how many rows a table may have to stand in one piece, beside another.
const short = 42

// columned sets a long table in two halves side by side, where need be in smaller letters.
type columned struct{ sheet.Table }

func (b columned) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	n := (len(b.Cells) + 1) / 2
	wide := func() bool { return 2*b.Breadth(r)+sheet.BetweenTables > width }
	if wide() && n > short/4 {
		b.Height = draw.NoteHeight
	}
	if n < 4 || n > 2*short || wide() {
		return narrowing{Table: b.Table}.Rows(width, r)
	}
	left, right := b.Table, b.Table
	left.Cells, right.Cells = b.Cells[:n], b.Cells[n:]
	return sheet.Beside{Stacks: [][]sheet.Block{{left}, {right}}, Gutter: sheet.BetweenTables}.Rows(width, r)
}

// narrowing is a table that on narrow paper has smaller letters, then its last column less.
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

// without leaves columns out.
func without(t sheet.Table, columns ...int) sheet.Table {
	for _, i := range columns {
		t.Columns = slices.Delete(slices.Clone(t.Columns), i, i+1)
		for k, row := range t.Cells {
			t.Cells[k] = slices.Delete(slices.Clone(row), i, i+1)
		}
	}
	return t
}

// table of a part, its lengths aligned as the sheet's unit wants it.
func (s written) table(of words.Part, cells [][]string, aligns ...sheet.Align) sheet.Table {
	t := sheet.Headed(s.heads().Columns(of), aligns...)
	t.Cells, t.Whole, t.Open = cells, len(cells) <= short, true
	return t
}

// lengths is how columns of lengths stand.
func (s written) lengths() sheet.Align { return sheet.Lengths(s.Inches()) }

func (s written) pegsTable() sheet.Table {
	var cells [][]string
	for _, p := range s.sitePegs() {
		along, offset := s.pegFigures(p)
		cells = append(cells, []string{string(p.Name), along, offset, p.Side.String(), s.Says().Peg(p)})
	}
	t := s.table(words.PartPegs, cells, sheet.ToLeft, s.lengths(), s.lengths())
	t.Columns[0].Bold = true
	if !s.BothSides() {
		t = without(t, 3)
	}
	return t
}

// pullsTable is the pulls of the work, or those of the second way.
func (s written) pullsTable(second bool) sheet.Table {
	var cells [][]string
	for _, p := range s.Pulls {
		if second != (p.Part == pegging.SecondWay) {
			continue
		}
		length, reads := inBold(s.Figure(p.Length), p.Measured), inBold(s.Figure(p.Reads), p.Measured && !s.Corrected)
		if p.Use == pegging.ForAngle {
			length, reads = "", inBold(s.Turned(p.Angle), p.Measured)
		}
		cells = append(cells, []string{fmt.Sprint(p.Number), string(p.Hold), string(p.To), length, reads, s.Says().Do(p)})
	}
	t := s.table(words.PartPulls, cells, sheet.ToRight, sheet.ToLeft, sheet.ToLeft, s.lengths(), s.lengths())
	t.Columns[1].Bold, t.Columns[2].Bold = true, true
	if !s.Corrected {
		t = without(t, 3)
	}
	return t
}

func (s written) correctionsTable() sheet.Table {
	var cells [][]string
	for _, p := range s.Pulls {
		if s.corrects(p) {
			cells = append(cells, []string{fmt.Sprint(p.Number), string(p.Hold), string(p.To), s.Figure(p.Length), tape.Signed(float64(p.By.Sum()), s.Fine().Length(max(p.By.Sum(), -p.By.Sum()))), s.Figure(p.Reads), s.Says().Broken(p)})
		}
	}
	t := s.table(words.PartCorrections, cells, sheet.ToRight, sheet.ToLeft, sheet.ToLeft, s.lengths(), sheet.OnPoint, s.lengths())
	t.Height, t.Whole, t.Columns[6].Fill = 0, len(s.Pulls) <= short, true
	return t
}

func (s written) marksTable() sheet.Table {
	var cells [][]string
	for _, m := range s.Marks {
		edge, along, out := s.EdgeFalls(m)
		cells = append(cells, []string{string(m.Edge[0] + m.Edge[1]), s.laid(m.At, edge), s.laidAlong(m.Along, along), s.laid(m.Offset, out), m.Side.String()})
	}
	return s.table(words.PartMarks, cells, sheet.ToLeft, s.lengths(), s.lengths(), s.lengths())
}

func (s written) nailsTable() sheet.Table {
	var cells [][]string
	for _, n := range s.Nails {
		cells = append(cells, []string{edge(n.Edge), string(n.Beyond), s.laid(n.Past, 0), s.laidAlong(n.Along, 0), s.laid(n.Offset, 0), n.Side.String()})
	}
	return s.table(words.PartNails, cells, sheet.ToLeft, sheet.ToLeft, s.lengths(), s.lengths(), s.lengths())
}

func (s written) stringsTable() sheet.Table {
	var cells [][]string
	for _, x := range s.Strings {
		cells = append(cells, []string{edge(x.Edge), s.laid(x.Length, 0), edge(x.With[0]), s.laid(x.Corners[0], 0), edge(x.With[1]), s.laid(x.Corners[1], 0)})
	}
	return s.table(words.PartStrings, cells, sheet.ToLeft, s.lengths(), sheet.ToLeft, s.lengths(), sheet.ToLeft, s.lengths())
}

// checkRow is the least height of a row with a box for a thick pencil.
const checkRow unit.Length = 9.1

func (s written) checksTable(checks []pegging.Check) sheet.Table {
	var cells [][]string
	for _, c := range checks {
		cells = append(cells, []string{fmt.Sprint(c.Number), string(c.From), string(c.To),
			inBold(s.Figure(c.Reads), c.Measured && !s.Corrected), s.Figure(c.Least), s.Figure(c.Greatest), ""})
	}
	t := s.table(words.PartChecks, cells, sheet.ToRight, sheet.ToLeft, sheet.ToLeft, s.lengths(), s.lengths(), s.lengths(), sheet.Box)
	t.Row, t.Columns[6].Width, t.Whole = checkRow, 26, true // a box is 1 mm lower than its row
	t.Columns[1].Bold, t.Columns[2].Bold = true, true
	return t
}

// sureTable says how far off each peg may be.
func (s written) sureTable() sheet.Table {
	var cells [][]string
	for _, x := range s.Sure {
		cells = append(cells, []string{string(x.Peg), s.Small(x.Along), s.Small(x.Across), s.Small(x.Measured), s.Small(x.SetOut), s.Small(x.Both), s.Small(x.Permitted), s.Says().Inside(x)})
	}
	t := s.table(words.PartSure, cells, sheet.ToLeft, sheet.OnPoint, sheet.OnPoint, sheet.OnPoint, sheet.OnPoint, sheet.OnPoint, sheet.OnPoint)
	if s.Permitted == 0 {
		t = without(t, 7, 6)
	}
	return t
}

// waysTable compares the ways.
func (s written) waysTable() sheet.Table {
	var cells [][]string
	for i, x := range s.Ranking.Best {
		used := ""
		if i == s.Ranking.Used {
			used = "used"
		}
		cells = append(cells, []string{s.Says().Way(x.Method), edge(x.Base), string(x.Pegs[x.Worst].Name), s.Small(x.Figure), fmt.Sprintf("%.1f", x.Times), used})
	}
	return s.table(words.PartWays, cells, sheet.ToLeft, sheet.ToLeft, sheet.ToLeft, sheet.OnPoint, sheet.OnPoint)
}
