package template

import (
	"slices"
	"strings"

	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

// Settings of saw and square for the corners of a piece, as a table of words: a row
// of heads, a row a corner.
func Settings(p Piece, s Style) [][]string {
	rows := [][]string{{"corner", "inside", "joint to\nthe edge", "saw from a\nsquare cut", "joint rises\nin 100 mm", "joint rises\nin 12 in"}}
	t := p.Outline()
	order := make([]int, len(t.Names))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return strings.Compare(string(t.Names[i]), string(t.Names[j])) })
	for _, i := range order {
		n := t.Names[i]
		c := shape.SettingOf(t.Angles[i])
		rows = append(rows, []string{
			string(n), s.Figures.Angle(c.Interior), s.Figures.Angle(c.ToEdge), s.Figures.Angle(c.Saw),
			rise(c, 100, unit.Style{Decimals: 1}), rise(c, 12*unit.Inch, unit.Style{Unit: unit.IN, Denominator: 16}),
		})
	}
	return rows
}

// rise of a joint over a run; a dash where it is too steep to be set so.
func rise(c shape.Setting, run unit.Length, s unit.Style) string {
	const steep = 20
	l := c.Rise(run)
	if l > steep*run {
		return "–"
	}
	return s.Length(l)
}

// AboutSettings says what the settings are for. Texts call either angle the mitre.
const AboutSettings = "For two like parts that meet half and half. Texts call either the mitre: the joint's angle to the edge, or the saw's from a square cut."

const settingsGutter unit.Length = 4

// settingsWidth is how wide the table is at least.
func settingsWidth(p Piece, s Style, r draw.Ruler) unit.Length {
	rows := Settings(p, s)
	width := settingsGutter * unit.Length(len(rows[0])-1)
	for i := range rows[0] {
		col := unit.Length(0)
		for _, row := range rows {
			for _, line := range strings.Split(row[i], "\n") {
				col = max(col, r.Width(line, draw.NoteHeight, false))
			}
		}
		width += col
	}
	return width + 2 // figures that stand on their points may want a little more
}

// sawAndSquare is the table on paper.
func sawAndSquare(p Piece, s Style, height unit.Length) []sheet.Block {
	return []sheet.Block{sheet.Heading{Words: "Saw and square"}, settings{p, s, height}, sheet.Gap(1), sheet.Paragraph{Words: AboutSettings, Height: height}}
}

// settings is the table, a row a corner or, where that is too wide, a column.
type settings struct {
	piece  Piece
	style  Style
	height unit.Length
}

func (b settings) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	rows := Settings(b.piece, b.style)
	if width >= settingsWidth(b.piece, b.style, r) {
		table := sheet.Table{Height: b.height, Gutter: settingsGutter, Cells: rows[1:]}
		for i, head := range rows[0] {
			align := sheet.OnPoint
			switch {
			case i == 0:
				align = sheet.ToLeft
			case i == 5 || i < 4 && b.style.Figures.Minutes:
				align = sheet.ToRight
			}
			table.Columns = append(table.Columns, sheet.Column{Head: head, Align: align})
		}
		return table.Rows(width, r)
	}
	table := sheet.Table{Height: b.height, Gutter: 2.5, Columns: []sheet.Column{{Head: rows[0][0], Fill: true}}}
	for i, head := range rows[0][1:] {
		cells := []string{strings.ReplaceAll(head, "\n", " ")}
		for _, row := range rows[1:] {
			cells = append(cells, row[i+1])
		}
		table.Cells = append(table.Cells, cells)
	}
	for _, row := range rows[1:] {
		table.Columns = append(table.Columns, sheet.Column{Head: row[0], Align: sheet.ToRight})
	}
	return table.Rows(width, r)
}
