package template

import (
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
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

// SettingsPages are the tables of pieces that share pages and have no room for them
// there, each under its name. Notes are said in the title line.
func SettingsPages(pieces []Piece, on paging.Sheet, job string, r draw.Ruler, s Style, notes ...string) ([]draw.Page, error) {
	const title = "Saw and square"
	area := geom.Rect{Min: geom.Point{X: on.Left, Y: on.Bottom}, Max: geom.Point{X: on.Width - on.Right, Y: on.Height - on.Top}}.Grow(-1)
	facts := slices.DeleteFunc(append([]string{job}, notes...), func(w string) bool { return w == "" })
	blocks := []sheet.Block{sheet.Paragraph{Words: title, Height: draw.CornerHeight, Bold: true, Keep: true}}
	if len(facts) > 0 {
		blocks = append(blocks, sheet.Paragraph{Words: strings.Join(facts, "; "), Keep: true})
	}
	blocks = append(blocks, sheet.Gap(2), sheet.Paragraph{Words: AboutSettings, Height: draw.FigureHeight}, sheet.Gap(3))
	for _, p := range pieces {
		blocks = append(blocks, sheet.Heading{Words: p.Name}, settings{p, s, draw.NoteHeight}, sheet.Gap(3))
	}
	columns := max(1, int((area.Width()+gutter)/(110+gutter)))
	head := index{notes: notes}
	made, err := sheet.Flow(blocks, func(n int) []geom.Rect {
		if n == 0 {
			return sheet.Columns(area, columns, gutter)
		}
		return sheet.Columns(head.below(area), columns, gutter)
	}, r)
	if err != nil {
		return nil, &unit.Fault{Where: on.Name, What: "the paper is too small for the table of saw and square", Hint: "take larger paper, or a trade that does not show it"}
	}
	var pages []draw.Page
	for i, d := range made {
		if i > 0 {
			d = append(continued(title, notes, area, r), d...)
		}
		pages = append(pages, draw.Page{Kind: draw.Index, Piece: title, Width: on.Width, Height: on.Height, Ops: onFurniture(d)})
	}
	return pages, nil
}
