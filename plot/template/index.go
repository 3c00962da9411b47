package template

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Index is the page that goes before those of the template: what it is, a map of
// its pages, what to check before cutting, how to put the pages together, the
// construction by hand and cautions. It is one page where that can be done with
// letters of 2.5 mm, else it flows on. A *unit.Fault names a character that the
// lettering does not have, or a paper too small to say anything on.
func Index(p Piece, plan paging.Plan, r draw.Ruler, s Style, of Front) ([]draw.Page, error) {
	if err := Ready(p, r); err != nil {
		return nil, err
	}
	x := index{piece: p, plan: plan, style: s, Front: of, say: s.says().Templates()}
	made := x.best(plan.Sheet.Printable().Grow(-toEdge), r)
	if made == nil {
		return nil, &unit.Fault{Subject: unit.Paper, Of: plan.Sheet.Name, What: "the paper is too small for the page that says how to put the pages together", Hint: "a page must show at least about 60 by 60 mm"}
	}
	return of.pages(made, p.Name, x.say.Continued(p.Name), plan.Sheet, r), nil
}

// Front is what that page says beside the piece.
type Front struct {
	Uncertainty float64  // of the printer: what 95 of 100 lengths stay within once corrected, of the length; 0: nothing is known of it
	Notes       []string // in the title line: a date, the printer the pages are made for
}

// pages on which that is drawn. They are read whole: the layers are those of the template.
func (f Front) pages(made []draw.Drawing, name, continued string, on paging.Sheet, r draw.Ruler) (pages []draw.Page) {
	for i, d := range made {
		if i > 0 {
			d = append(f.head(continued, on.Printable().Grow(-toEdge), r), d...)
		}
		pages = append(pages, draw.Page{Kind: draw.Index, Piece: name, Width: on.Width, Height: on.Height, Ops: onFurniture(d)})
	}
	return pages
}

// flow lets blocks run through n columns of an area, behind the first page through those
// of another, below its head.
func (f Front) flow(blocks []sheet.Block, first, next geom.Rect, n int, r draw.Ruler) ([]draw.Drawing, error) {
	next.Max.Y -= 2 * large
	if len(f.Notes) > 0 {
		next.Max.Y -= 2 * small
	}
	return sheet.Flow(blocks, func(page int) []geom.Rect {
		if page == 0 {
			return sheet.Columns(first, n, gutter)
		}
		return sheet.Columns(next, n, gutter)
	}, r)
}

// head of a page that goes on with the index: its name, cut short where it is longer than
// a line, and the notes.
func (f Front) head(name string, area geom.Rect, r draw.Ruler) draw.Drawing {
	again := &draw.Tag{Role: draw.AsOrnament}
	blocks := []sheet.Block{sheet.Paragraph{Words: name, Height: large, Bold: true, Of: again}}
	d, high := sheet.Set(blocks, geom.Point{X: area.Min.X, Y: area.Max.Y}, area.Width(), r)
	d, high = d[:1:1], high/unit.Length(len(d))
	if len(f.Notes) > 0 {
		more, _ := sheet.Set([]sheet.Block{sheet.Paragraph{Words: strings.Join(f.Notes, "; "), Of: again}}, geom.Point{X: area.Min.X, Y: area.Max.Y - high}, area.Width(), r)
		d = append(d, more[:1]...)
	}
	return d
}

// best is the page, or pages, in the most generous composition that makes as few as any.
func (x index) best(all geom.Rect, r draw.Ruler) (made []draw.Drawing) {
	const widest unit.Length = 190 // longer lines are not read
	for _, l := range compositions {
		area := all
		if most := widest*unit.Length(l.halves) + gutter*unit.Length(l.halves-1); area.Width() > most {
			area.Max.X = area.Min.X + most
		}
		if area.Width() < l.least {
			continue
		}
		d, err := x.compose(l, area, r)
		if err == nil && (made == nil || len(d) < len(made)) {
			made = d
		}
		if len(made) == 1 {
			break
		}
	}
	return made
}

type index struct {
	piece Piece
	plan  paging.Plan
	style Style
	Front
	say words.Templates
}

// composition is one way to set the page.
type composition struct {
	least   unit.Length // width that it needs
	halves  int         // columns of the whole page: two on paper that lies on its side
	beside  bool        // the checks stand beside the map, not below it
	columns int         // of what follows them
	height  unit.Length // of the letters
	join    unit.Length // of those of how to put the pages together
	checks  unit.Length // of those of what to check before cutting
	care    unit.Length // of those of the cautions, of saw and square and of the ranges
	mapHigh unit.Length // at most
}

// compositions from the most generous to the tightest: the first that makes one page
// is taken, or the one that makes fewest.
var compositions = []composition{
	{180, 1, true, 1, large, large, large, large, 100},
	{180, 1, true, 1, large, large, large, large, 80},
	{180, 1, true, 1, large, large, large, small, 80},
	{220, 2, false, 1, large, large, large, small, 80},
	{180, 1, true, 1, large, large, small, small, 70},
	{180, 1, true, 1, large, small, large, small, 80},
	{180, 1, true, 1, large, small, small, small, 90},
	{180, 1, true, 1, large, small, small, small, 70},
	{220, 2, false, 1, large, small, small, small, 60},
	{180, 1, true, 1, small, small, small, small, 100},
	{180, 1, true, 1, small, small, small, small, 70},
	{180, 1, true, 1, small, small, small, small, tightMap},
	{180, 1, true, 2, small, small, small, small, 90},
	{220, 2, false, 1, small, small, small, small, 50},
	{0, 1, false, 1, small, small, small, small, 70},
	{120, 1, false, 2, small, small, small, small, 60},
	{0, 1, false, 1, small, small, small, small, 40},
}

// tightMap is the height of the map in the tightest composition of the usual kind, where the
// boxes to write in are lower as well.
const tightMap unit.Length = 62

const large, small = draw.FigureHeight, draw.NoteHeight

const gutter unit.Length = 8

func (x index) compose(l composition, area geom.Rect, r draw.Ruler) ([]draw.Drawing, error) {
	page := area
	area = sheet.Columns(page, l.halves, gutter)[0]
	head := x.title(area.Width(), r)
	picture := x.picture(l.mapHigh)
	if l.beside {
		right := max(104, area.Width()*0.5)
		head = append(head, besides([]sheet.Block{picture}, x.before(l, right, r), area.Width(), right))
	} else {
		head = append(append(head, picture), x.before(l, area.Width(), r)...)
	}
	rest := append(x.together(l, area.Width(), r), x.byHand(l, area, r)...)
	care := []sheet.Block{sheet.Heading{Words: x.say.Heading(words.TakeCare)}, sheet.List{Items: x.style.says().Cautions().Template(), Height: l.care}}
	if saw := sawAndSquare(x.piece, x.style, l.care); x.style.Settings && l.beside && l.columns == 1 && l.care == draw.NoteHeight {
		right := max(settingsWidth(x.piece, x.style, r), area.Width()*0.6)
		care = []sheet.Block{besides(care, saw, area.Width(), right)}
	} else if x.style.Settings {
		care = append(saw, care...)
	}
	rest = append(rest, care...)
	if l.columns == 1 {
		return x.flow(append(head, rest...), page, page, l.halves, r)
	}
	d, high := sheet.Set(head, geom.Point{X: area.Min.X, Y: area.Max.Y}, area.Width(), r)
	left := area
	if left.Max.Y -= high; left.Height() < 40 {
		return nil, fmt.Errorf("no room below the map")
	}
	pages, err := x.flow(rest, left, area, l.columns, r)
	if err == nil {
		pages[0] = append(d, pages[0]...)
	}
	return pages, err
}

func (x index) title(width unit.Length, r draw.Ruler) []sheet.Block {
	p := x.piece
	facts := x.say.Facts(p.byHand(x.style), words.Ordered{
		Quantity: p.Quantity, Pages: len(x.plan.Cells), Paper: x.plan.Sheet.Name, Hand: p.Hand, Face: p.Face, Grain: p.Grain, Which: p.Which,
	})
	if p.Job != "" {
		facts = slices.Insert(facts, 0, p.Job)
	}
	facts = append(facts, x.Notes...)
	height := draw.CornerHeight
	if r.Width(x.piece.Name, height, true) > width {
		height = draw.FigureHeight
	}
	return []sheet.Block{
		sheet.Paragraph{Words: x.piece.Name, Height: height, Bold: true, Keep: true, Of: &draw.Tag{Role: draw.AsTitle}},
		sheet.Paragraph{Words: strings.Join(facts, "; "), Keep: true},
		sheet.Gap(3),
	}
}

// before is what to check before cutting: the bar, and the sides once the pages are
// together.
func (x index) before(l composition, width unit.Length, r draw.Ruler) []sheet.Block {
	fine := x.fine()
	length := sheet.Lengths(fine.Unit >= unit.IN)
	row := unit.Length(8)
	if l.mapHigh == tightMap {
		row = 6.5
	}
	shape := x.piece.Shape
	table := sheet.Table{Row: row, Height: l.checks, Gutter: 3, Columns: columns(x.say.SideHeads(shape), sheet.ToLeft, length, length, length, sheet.Box, length)}
	for _, c := range x.piece.checked() {
		give := Accept(c.length, joinsAlong(x.plan, x.plan.Place.Line(c.Line)), x.Uncertainty)
		whole := ""
		if c.whole > 0 {
			whole = words.Computed(fine.Length(c.whole), c.given)
		}
		cells := []string{c.what, words.Computed(fine.Length(c.length), c.measured), fine.Length(c.length - give), fine.Length(c.length + give), "", whole}
		table.Cells = append(table.Cells, cells[:len(table.Columns)])
	}
	if table.Breadth(r) > width {
		table.Height = draw.NoteHeight // feet and inches are long
	}
	return []sheet.Block{
		sheet.Heading{Words: x.say.Heading(words.BeforeCutting)},
		sheet.Paragraph{Words: x.say.Bar(), Height: l.checks, Keep: true},
		checkBar(x.style, width),
		sheet.Paragraph{Words: x.say.Sides(shape, len(x.plan.Cells), x.Uncertainty != 0), Height: l.checks, Keep: true},
		sheet.Gap(1.5),
		table,
	}
}

// columns under heads, each standing as said.
func columns(heads []string, aligns ...sheet.Align) (all []sheet.Column) {
	for i, head := range heads {
		all = append(all, sheet.Column{Head: head, Align: aligns[i]})
	}
	return all
}

// checkBar is the bar to check the print by, true to scale, in the shape it has on
// every page.
func checkBar(s Style, width unit.Length) sheet.Figure {
	type bar struct {
		length unit.Length
		words  string
	}
	bars := []bar{{100, "100 mm"}, {50, "50 mm"}, {20, "20 mm"}}
	if s.Figures.Unit >= unit.IN {
		bars = []bar{{4 * unit.Inch, "4 in"}, {2 * unit.Inch, "2 in"}, {unit.Inch, "1 in"}}
	}
	b := bars[2]
	if i := slices.IndexFunc(bars, func(b bar) bool { return b.length+draw.Narrow.Width <= width }); i >= 0 {
		b = bars[i]
	}
	const y, tick unit.Length = -8, 2
	x := draw.Narrow.Width / 2
	to := x + b.length
	d := draw.Drawing{
		sheet.NoteLine(x, y, to, y, draw.Narrow), sheet.NoteLine(x, y-tick, x, y+tick, draw.Narrow), sheet.NoteLine(to, y-tick, to, y+tick, draw.Narrow),
		sheet.Note(b.words, x+b.length/2, y+1.9, draw.Middle),
	}
	return sheet.Figure{Alt: words.In(s.Language).Aloud().Bar(b.words), Draw: func(unit.Length, draw.Ruler) (draw.Drawing, unit.Length) { return d, 13 }}
}

// byHand is the construction in words, in one piece unless it is long.
func (x index) byHand(l composition, area geom.Rect, r draw.Ruler) []sheet.Block {
	if !x.style.Steps {
		return nil
	}
	list := sheet.List{Items: set(x.piece, x.style), Numbered: true, Height: l.height}
	list.Whole = sheet.Height([]sheet.Block{list}, area.Width(), r) < area.Height()/2
	return []sheet.Block{sheet.Heading{Words: x.say.Heading(words.MadeByHand)}, list}
}

// set is the steps as they are set on paper: the name of a corner keeps to the
// word before it, so that no line starts with a lone letter.
func set(p Piece, s Style) []string {
	steps := Steps(p, s)
	for i, step := range steps {
		for _, n := range p.Names() {
			for _, end := range []string{".", ",", ";", ":", " "} {
				step = strings.ReplaceAll(step, " "+string(n)+end, "\u00a0"+string(n)+end)
			}
		}
		steps[i] = step
	}
	return steps
}
