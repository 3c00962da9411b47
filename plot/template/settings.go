package template

import (
	"slices"
	"strings"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Settings of saw and square for the corners of a piece, as a table of words: a row
// of heads, a row a corner, one more for the edge that a cut corner makes.
func Settings(p Piece, s Style) [][]string { return s.says().Steps().Settings(p.ByHand(s)) }

// AboutSettings says how the table of Settings is used.
func AboutSettings(p Piece, s Style) []string { return s.says().Steps().AboutSettings(p.ByHand(s)) }

const settingsGutter unit.Length = 4

// settingsWidth is how wide the table is at least in letters of a height.
func settingsWidth(p Piece, s Style, height unit.Length, r draw.Ruler) unit.Length {
	rows := Settings(p, s)
	table := sheet.Table{Heads: s.sized(draw.NoteHeight), Height: height, Gutter: settingsGutter, Cells: rows[1:], Columns: columns(rows[0], make([]sheet.Align, len(rows[0]))...)}
	return table.Breadth(r) + 2 // figures that stand on their points may want a little more
}

// sawAndSquare is the table on paper.
func sawAndSquare(p Piece, s Style, heading unit.Length) []sheet.Block {
	return headed(sheet.Heading{Words: s.says().Templates().Heading(words.SawAndSquare), Height: s.sized(heading)}, p, s, s.sized(draw.NoteHeight))
}

// headed is the table under a heading, and how it is used.
func headed(by sheet.Heading, p Piece, s Style, height unit.Length) []sheet.Block {
	about := sheet.Paragraph{Words: strings.Join(AboutSettings(p, s), " "), Height: s.sized(draw.NoteHeight)}
	return []sheet.Block{by, settings{p, s, height}, sheet.Gap(1), about}
}

// settings is the table, a row a corner or, where that is too wide, a column.
type settings struct {
	piece  Piece
	style  Style
	height unit.Length
}

func (b settings) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	rows := Settings(b.piece, b.style)
	if width >= settingsWidth(b.piece, b.style, b.height, r) {
		length := sheet.Lengths(b.style.Figures.Unit >= unit.IN)
		heads := columns(rows[0], sheet.ToLeft, sheet.ToRight, sheet.ToLeft, sheet.ToLeft, length, length)
		return sheet.Table{Heads: b.style.sized(draw.NoteHeight), Height: b.height, Gutter: settingsGutter, Cells: rows[1:], Columns: heads, Whole: true}.Rows(width, r)
	}
	table := sheet.Table{Heads: b.style.sized(draw.NoteHeight), Height: b.height, Gutter: 2.5, Columns: []sheet.Column{{Head: rows[0][0], Fill: true}}}
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

// SettingsPages are the tables of pieces of one job, one at least, that share pages and
// have no room for them there, each under its name. Notes are said in the title line.
func SettingsPages(pieces []Piece, on paging.Sheet, r draw.Ruler, s Style, notes ...string) ([]draw.Page, error) {
	title := s.says().Templates().Heading(words.SawAndSquare)
	area := on.Printable().Grow(-legible.ToEdge)
	facts := slices.DeleteFunc(append([]string{pieces[0].Job}, notes...), func(w string) bool { return w == "" })
	blocks := []sheet.Block{sheet.Paragraph{Words: title, Height: s.sized(draw.CornerHeight), Bold: true, Keep: true, Of: &draw.Tag{Role: draw.AsTitle}}}
	if len(facts) > 0 {
		blocks = append(blocks, sheet.Paragraph{Words: strings.Join(facts, "; "), Height: s.sized(draw.NoteHeight), Keep: true})
	}
	blocks = append(blocks, sheet.Gap(3))
	for _, p := range pieces {
		blocks = append(append(blocks, headed(sheet.Heading{Words: p.Name, Height: s.sized(draw.FigureHeight)}, p, s, s.sized(draw.NoteHeight))...), sheet.Gap(3))
	}
	front := Front{Notes: notes, style: s}
	made, err := front.flow(blocks, area, area, max(1, int((area.Width()+gutter)/(110+gutter))), r)
	if err != nil {
		return nil, &unit.Fault{Subject: unit.Paper, Of: on.Name, What: "the paper is too small for the table of saw and square", Hint: "take larger paper, or a trade that does not show it"}
	}
	return front.pages(made, title, s.says().Templates().Continued(title), on, r), nil
}
