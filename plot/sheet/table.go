package sheet

import (
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Align is how the cells of a column stand.
type Align uint8

const (
	ToLeft  Align = iota
	ToRight       // also figures in feet and inches, which have no point
	OnPoint       // figures one above the other on the decimal point
	Box           // an empty box to write in; the cell's words are its unit, set to its right; "-" draws none
)

// Lengths is how a column of lengths stands: inches have no point.
func Lengths(inches bool) Align {
	if inches {
		return ToRight
	}
	return OnPoint
}

// Column of a table.
type Column struct {
	Head  string
	Align Align
	Width unit.Length // at least; 0 is as wide as its words
	Bold  bool        // all its cells
	Fill  bool        // takes the width that the others leave, and wraps (ToLeft only)
}

// strong begins a cell that is set bold.
const strong = "\x02"

// Strong is a cell in bold letters, told from those of its column.
func Strong(cell string) string { return strong + cell }

// Plain is the words of a cell, bold or not.
func Plain(cell string) string { return strings.TrimPrefix(cell, strong) }

// bold says whether a cell of a column is.
func (c Column) bold(cell string) bool { return c.Bold || strings.HasPrefix(cell, strong) }

// Headed is a table in letters of full size, of columns with these heads; those without an
// alignment stand to the left.
func Headed(heads []string, aligns ...Align) Table {
	t := Table{Height: draw.FigureHeight, Gutter: 3.5, Columns: make([]Column, len(heads))}
	for i, head := range heads {
		t.Columns[i].Head = head
	}
	for i, a := range aligns {
		t.Columns[i].Align = a
	}
	return t
}

// Table is rows of cells without any frame: white space parts them, and a narrow
// rule stands below the heads. The head is set again where the table is parted.
type Table struct {
	Columns []Column
	Cells   [][]string
	Height  unit.Length // of a capital; 0 is draw.NoteHeight
	Heads   unit.Length // of a capital of its heads; 0 is draw.NoteHeight
	Row     unit.Length // least height of a row; a Box is 1 mm lower than its row
	Gutter  unit.Length // between columns; 0 is 4 mm
	Whole   bool        // never parted
	Open    bool        // no rule below the heads
}

func (b Table) Rows(width unit.Length, r draw.Ruler) []Row {
	h := orNote(b.Height)
	lay := b.columns(width, h, r)
	var head *Row
	rows := []Row{}
	tag := &draw.Tag{Role: draw.AsTable}
	if b.headed() {
		// It is read out once; each cell knows what its column holds.
		again := b.head(lay, nil, r)
		again.Marks = draw.Tagged(again.Marks, &draw.Tag{Role: draw.AsOrnament})
		head = &again
		rows = append(rows, b.head(lay, b.tags(tag, draw.AsHead), r))
	}
	for _, cells := range b.Cells {
		row := b.row(cells, lay, h, b.tags(tag, draw.AsCell), r)
		row.Again = head
		rows = append(rows, row)
	}
	for i := range rows {
		rows[i].Keep = rows[i].Keep || b.Whole && i < len(rows)-1
	}
	return rows
}

// Breadth is the width that the table takes where there is no room to spare.
func (b Table) Breadth(r draw.Ruler) unit.Length {
	lay := b.columns(0, orNote(b.Height), r)
	last := lay[len(lay)-1]
	return last.x + last.width
}

func (b Table) headed() bool {
	return slices.ContainsFunc(b.Columns, func(c Column) bool { return c.Head != "" })
}

// tags are those of the cells of a new row.
func (b Table) tags(table *draw.Tag, cell draw.Role) []*draw.Tag {
	row := &draw.Tag{Role: draw.AsRow, In: table}
	for range b.Columns {
		row.Holds = append(row.Holds, &draw.Tag{Role: cell, In: row})
	}
	return row.Holds
}

// column is where a column stands: from x, so wide, its points at x+point.
type column struct{ x, width, point unit.Length }

func (b Table) columns(width, h unit.Length, r draw.Ruler) []column {
	gutter := b.Gutter
	if gutter == 0 {
		gutter = 4
	}
	lay := make([]column, len(b.Columns))
	used, fills := gutter*unit.Length(len(lay)-1), 0
	for i, c := range b.Columns {
		var whole, left, right unit.Length
		for _, cells := range b.Cells {
			if i >= len(cells) {
				continue
			}
			if c.Align == OnPoint {
				l, t := atPoint(Plain(cells[i]))
				left, right = max(left, r.Width(l, h, c.bold(cells[i]))), max(right, r.Width(t, h, c.bold(cells[i])))
			}
			whole = max(whole, r.Width(Plain(cells[i]), h, c.bold(cells[i])))
		}
		if c.Align == OnPoint {
			whole = left + right
		}
		if c.Align == Box {
			whole = c.Width
			if whole == 0 {
				whole = 22
			}
		}
		for _, line := range strings.Split(c.Head, "\n") {
			whole = max(whole, r.Width(line, orNote(b.Heads), false))
		}
		if c.Fill {
			whole = 4 * h
			for _, cells := range b.Cells {
				if i < len(cells) {
					for _, word := range strings.Fields(cells[i]) {
						whole = max(whole, r.Width(word, h, false))
					}
				}
			}
		}
		lay[i].width = max(whole, c.Width)
		// Figures stand at the right of their column, below the end of its head.
		lay[i].point = lay[i].width - right
		if c.Fill {
			fills++
			continue
		}
		used += lay[i].width
	}
	x := unit.Length(0)
	for i, c := range b.Columns {
		if c.Fill {
			lay[i].width = max((width-used)/unit.Length(fills), lay[i].width)
		}
		lay[i].x = x
		x += lay[i].width + gutter
	}
	return lay
}

// head is the row of heads; without tags they are no cells.
func (b Table) head(lay []column, tags []*draw.Tag, r draw.Ruler) Row {
	n := orNote(b.Heads)
	lines := 1
	for _, c := range b.Columns {
		lines = max(lines, 1+strings.Count(c.Head, "\n"))
	}
	row := Row{Height: n*leading*unit.Length(lines) + 1.2, Keep: true}
	last := lay[len(lay)-1]
	for i, c := range b.Columns {
		parts := strings.Split(c.Head, "\n")
		for j, words := range parts {
			if words == "" {
				continue
			}
			y := baseLine(n) - n*leading*unit.Length(lines-len(parts)+j)
			x, a := lay[i].x, draw.Left
			if c.Align == ToRight || c.Align == OnPoint {
				x, a = lay[i].x+lay[i].width, draw.Right
			}
			t := text(words, geom.Point{X: x, Y: y}, n, a, false)
			if tags != nil {
				t.Of = tags[i]
			}
			row.Marks = append(row.Marks, t)
		}
	}
	if !b.Open {
		row.Marks = append(row.Marks, rule(0, last.x+last.width, -row.Height+0.8))
	}
	return row
}

func (b Table) row(cells []string, lay []column, h unit.Length, tags []*draw.Tag, r draw.Ruler) Row {
	row := Row{Height: max(b.Row, h*leading)}
	wrapped := make([][]string, len(cells))
	for i, cell := range cells {
		wrapped[i] = []string{cell}
		if b.Columns[i].Fill {
			wrapped[i] = Wrap(cell, lay[i].width, h, false, r)
			row.Height = max(row.Height, h*leading*unit.Length(len(wrapped[i])))
		}
	}
	// The words stand in the middle of a row that is higher than they are.
	for i, cell := range cells {
		c, at := b.Columns[i], lay[i]
		bold := c.bold(cell)
		cell = Plain(cell)
		write := func(words string, x, y unit.Length, a draw.Align) {
			t := text(words, geom.Point{X: x, Y: y}, h, a, bold)
			t.Of = tags[i]
			row.Marks = append(row.Marks, t)
		}
		y := baseLine(h) - (row.Height-h*leading*unit.Length(len(wrapped[i])))/2
		switch {
		case c.Align == Box:
			if cell == "-" {
				continue
			}
			w := at.width
			if cell != "" {
				w -= r.Width(cell, h, false) + 1.5
				write(cell, at.x+at.width, y, draw.Right)
			}
			frame := Frame(geom.Rect{Min: geom.Point{X: at.x, Y: -row.Height + 0.5}, Max: geom.Point{X: at.x + w, Y: -0.5}})
			frame.Of = tags[i]
			row.Marks = append(row.Marks, frame)
		case cell == "":
		case c.Align == OnPoint:
			_, t := atPoint(cell)
			write(cell, at.x+at.point+r.Width(t, h, bold), y, draw.Right)
		case c.Align == ToRight:
			write(cell, at.x+at.width, y, draw.Right)
		default:
			for j, line := range wrapped[i] {
				write(line, at.x, y-h*leading*unit.Length(j), draw.Left)
			}
		}
	}
	return row
}

// Frame is a rectangle drawn round.
func Frame(r geom.Rect) draw.Polyline {
	c := r.Corners()
	return draw.Polyline{Points: c[:], Closed: true, Pen: draw.Narrow, On: draw.Notes}
}

// atPoint parts a figure where its decimal point stands or would stand: after
// the last digit of its whole part. Feet and inches have no such place and keep
// to the left part whole.
func atPoint(cell string) (whole, rest string) {
	if strings.ContainsAny(cell, `'"′″`) && !strings.ContainsRune(cell, '.') {
		return cell, ""
	}
	if i := strings.IndexByte(cell, '.'); i >= 0 {
		return cell[:i], cell[i:]
	}
	i := strings.LastIndexAny(cell, "0123456789")
	return cell[:i+1], cell[i+1:]
}
