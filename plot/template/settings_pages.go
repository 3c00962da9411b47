package template

import (
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
)

// SettingsPages are the tables of pieces of one job, one at least, that share pages and
// have no room for them there, each under its name. Notes are said in the title line.
func SettingsPages(pieces []Piece, on paging.Sheet, r draw.Ruler, s Style, notes ...string) ([]draw.Page, error) {
	const title = "Saw and square"
	area := geom.Rect{Min: geom.Point{X: on.Left, Y: on.Bottom}, Max: geom.Point{X: on.Width - on.Right, Y: on.Height - on.Top}}.Grow(-1)
	facts := slices.DeleteFunc(append([]string{pieces[0].Job}, notes...), func(w string) bool { return w == "" })
	blocks := []sheet.Block{sheet.Paragraph{Words: title, Height: draw.CornerHeight, Bold: true, Keep: true}}
	if len(facts) > 0 {
		blocks = append(blocks, sheet.Paragraph{Words: strings.Join(facts, "; "), Keep: true})
	}
	blocks = append(blocks, sheet.Gap(3))
	for _, p := range pieces {
		blocks = append(blocks, sheet.Heading{Words: p.Name}, settings{p, s, draw.NoteHeight}, sheet.Gap(1), sheet.Paragraph{Words: strings.Join(AboutSettings(p, s), " "), Height: draw.NoteHeight}, sheet.Gap(3))
	}
	columns := max(1, int((area.Width()+gutter)/(110+gutter)))
	head := index{Front: Front{Notes: notes}}
	made, err := sheet.Flow(blocks, func(n int) []geom.Rect {
		if n == 0 {
			return sheet.Columns(area, columns, gutter)
		}
		return sheet.Columns(head.below(area), columns, gutter)
	}, r)
	if err != nil {
		return nil, &unit.Fault{Subject: unit.Paper, Of: on.Name, What: "the paper is too small for the table of saw and square", Hint: "take larger paper, or a trade that does not show it"}
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
