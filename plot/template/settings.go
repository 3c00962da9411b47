package template

import (
	"fmt"
	"math"
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
// of heads, a row a corner, one more for the edge that a cut corner makes.
func Settings(p Piece, s Style) [][]string {
	run, mm := squareRun(s)
	heads := []string{"corner", "inside", "edge\nheld", "saw from a\nsquare cut", "along\nthe edge", "square\nup"}
	if mm {
		heads[4], heads[5] = "along the\nedge, mm", "square\nup, mm"
	}
	rows := [][]string{heads}
	for _, c := range p.settings() {
		along, up := c.Square(run)
		rows = append(rows, []string{corner(c), p.inside(c, s), held(c), s.saw(c), onSquare(along, mm), onSquare(up, mm)})
	}
	return rows
}

func (p Piece) settings() []shape.Setting { return shape.Settings(p.Outline(), p.Shape.Corners) }

// squareRun is the run that figures of the square are for, one system on a sheet:
// that of the job.
func squareRun(s Style) (run unit.Length, mm bool) {
	if s.Figures.Unit >= unit.IN {
		return 12 * unit.Inch, false
	}
	return 100, true
}

// onSquare is a reading of the square: to 0.1 mm, or to 1/32 in, in which the printed
// tables go (POCKET).
func onSquare(l unit.Length, mm bool) string {
	if mm {
		return unit.Style{}.Length(l)
	}
	return unit.Style{Unit: unit.IN, Denominator: 32}.Length(l)
}

func corner(c shape.Setting) string {
	switch c.Do {
	case shape.Cut:
		return string(c.Corner) + " cut"
	case shape.Mitre:
		return string(c.Corner) + " mitre"
	}
	return string(c.Corner)
}

func held(c shape.Setting) string {
	if c.Edge == "" {
		return "each"
	}
	return c.Edge
}

// inside is the piece's angle at the corner that is cut.
func (p Piece) inside(c shape.Setting, s Style) string {
	if i, ok := p.Outline().Corner(c.Corner); ok && c.Do != shape.Cut {
		if given, is := p.Given(i); is {
			return s.Figures.Given(given)
		}
	}
	return s.fineAngle(c.Interior)
}

// fineAngle writes an angle to 0.1°, and one that is even in hundredths to these: so
// nothing is lost that somebody wrote.
func (s Style) fineAngle(a unit.Angle) string {
	hundredths := a.Degrees() * 100
	whole := math.Round(hundredths)
	if s.Figures.Minutes || math.Abs(hundredths-whole) > 1e-7 {
		return s.Figures.Angle(a)
	}
	return unit.Style{Decimals: 2}.Length(unit.Length(whole/100)) + "°"
}

// saw is what the scale reads, and which way the cut leans.
func (s Style) saw(c shape.Setting) string {
	how, scale := c.How(s.sawRange())
	say := s.fineAngle(scale)
	switch {
	case how == shape.ToLine:
		say = "to the line,"
	case how == shape.AtBlock:
		say = "block " + say
	case !s.leans(c):
		return say
	}
	if c.Out {
		return say + " out"
	}
	return say + " in"
}

// leans says whether a scale shows that the cut leans at all.
func (s Style) leans(c shape.Setting) bool { return s.fineAngle(c.Saw) != s.fineAngle(0) }

// sawRange is how far the saw turns to each side of a square cut.
func (s Style) sawRange() unit.Angle {
	if s.Saw == 0 {
		return commonSaw
	}
	return s.Saw
}

// commonSaw is where most stops are: common practice (FHB names 50, others 45 to 60).
const commonSaw = 45 * unit.Degree

// AboutSettings says how the table of Settings is used: what all rows need, and what
// those need that are not set at the fence.
func AboutSettings(p Piece, s Style) string {
	var out, leans, block, inward, far, mitre, cut bool
	for _, c := range p.settings() {
		how, _ := c.How(s.sawRange())
		leans = leans || s.leans(c)
		out = out || c.Out
		block = block || how == shape.AtBlock
		inward = inward || c.Inward
		far = far || how == shape.ToLine && !c.Inward
		mitre = mitre || c.Do == shape.Mitre
		cut = cut || c.Do == shape.Cut
	}
	say := []string{"Saw: the edge held lies at the fence."}
	if leans {
		say = append(say, "In: the cut leans back over that edge, out: away from it; scales with 90 at square read 90 less.")
	}
	mark, side := "Square: so far along it from the corner", ", then up"
	if out {
		mark += " (out: carried on)"
	}
	if inward {
		side = ", then up, at an inward corner on the waste side"
	}
	say = append(say, mark+side+": finer than any scale.")
	hand := "100 mm"
	if s.Figures.Unit >= unit.IN {
		hand = "4 in"
	}
	if block {
		say = append(say, fmt.Sprintf("Block: beyond the saw's %s the edge held stands square to the fence, against a square block; clamp all, hands %s from the blade. Or cut to the line.", s.fineAngle(s.sawRange()), hand))
	}
	if far {
		say = append(say, fmt.Sprintf("To the line: a saw of %s does not reach it.", s.fineAngle(s.sawRange())))
	}
	if inward {
		say = append(say, "Inward: both cuts stop at the corner.")
	}
	if cut {
		say = append(say, "Cut: across the corner, from the set-back.")
	}
	if mitre {
		say = append(say, "Mitre: the joint of the parts that meet; of each its outer edge is held.")
	}
	return strings.Join(say, " ")
}

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
	return []sheet.Block{sheet.Heading{Words: "Saw and square"}, settings{p, s, height}, sheet.Gap(1), sheet.Paragraph{Words: AboutSettings(p, s), Height: height}}
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
			align := sheet.ToRight
			switch _, mm := squareRun(b.style); {
			case i == 0 || i == 2 || i == 3:
				align = sheet.ToLeft
			case i > 3 && mm:
				align = sheet.OnPoint
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
	blocks = append(blocks, sheet.Gap(3))
	for _, p := range pieces {
		blocks = append(blocks, sheet.Heading{Words: p.Name}, settings{p, s, draw.NoteHeight}, sheet.Gap(1), sheet.Paragraph{Words: AboutSettings(p, s), Height: draw.NoteHeight}, sheet.Gap(3))
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
