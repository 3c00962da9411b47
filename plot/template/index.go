package template

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Index is the page that goes before those of the template: what it is, a map of
// its sheets, what to check before cutting, how to put the sheets together, the
// construction by hand, cautions, and how saw and square are set. No letter is below the
// size of its role: what has no room on one page flows on. A *unit.Fault names a character
// that the lettering does not have, or a paper too small to say anything on.
func Index(p Piece, plan paging.Plan, r draw.Ruler, s Style, of Front) ([]draw.Page, error) {
	if err := Ready(p, r); err != nil {
		return nil, err
	}
	r = draw.Remembered(r)
	x := newIndex(p, plan, s, of)
	on := of.on(plan.Sheet)
	made := x.best(on.Printable().Grow(-legible.ToEdge), r)
	if made == nil {
		return nil, &unit.Fault{Subject: unit.Paper, Of: on.Name, What: "the paper is too small for the page that says how to put the pages together", Hint: "a page must show at least about 60 by 60 mm"}
	}
	return x.pages(made, p.Name, x.say.Continued(p.Name), on, r), nil
}

// Front is what that page says beside the piece.
type Front struct {
	Uncertainty float64  // of the printer: what 95 of 100 lengths stay within once corrected, of the length; 0: nothing is known of it
	Notes       []string // in the title line: a date, the printer the pages are made for

	// Paper is what this page is printed on where the sheets are too large for an office's
	// printer; a bar on it says nothing about them. Without a size: it is that of the sheets.
	Paper paging.Sheet

	style Style

	Opposite *Hand // the other hand of the piece, where it has a template too: the page is of both
}

// Hand is a piece on its sheets.
type Hand struct {
	Piece Piece
	Plan  paging.Plan
}

// Alike says whether what is said of joining the sheets of one hand is true of the other.
func Alike(a, b paging.Plan) bool { return joining(a, unit.Style{}).Alike(joining(b, unit.Style{})) }

// on is the paper of that page.
func (f Front) on(sheets paging.Sheet) paging.Sheet {
	if f.Paper.Width > 0 {
		return f.Paper
	}
	return sheets
}

// pages on which that is drawn. They are read whole: the layers are those of the template.
func (f Front) pages(made []draw.Drawing, name, continued string, on paging.Sheet, r draw.Ruler) (pages []draw.Page) {
	for i, d := range made {
		if i > 0 {
			d = append(f.head(continued, on.Printable().Grow(-legible.ToEdge), r), d...)
		}
		pages = append(pages, draw.Page{Kind: draw.Index, Piece: name, Width: on.Width, Height: on.Height, Ops: onFurniture(d)})
	}
	return pages
}

// flow lets blocks run through n columns of an area, behind the first page through those
// of another, below its head.
func (f Front) flow(blocks []sheet.Block, first, next geom.Rect, n int, r draw.Ruler) ([]draw.Drawing, error) {
	next.Max.Y -= 2 * f.style.sized(large)
	if len(f.Notes) > 0 {
		next.Max.Y -= 2 * f.style.sized(small)
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
	blocks := []sheet.Block{sheet.Paragraph{Words: name, Height: f.style.sized(large), Bold: true, Of: again}}
	d, high := sheet.Set(blocks, geom.Point{X: area.Min.X, Y: area.Max.Y}, area.Width(), r)
	d, high = d[:1:1], high/unit.Length(len(d))
	if len(f.Notes) > 0 {
		more, _ := sheet.Set([]sheet.Block{sheet.Paragraph{Words: strings.Join(f.Notes, "; "), Height: f.style.sized(small), Of: again}}, geom.Point{X: area.Min.X, Y: area.Max.Y - high}, area.Width(), r)
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

	// The same in every composition, and of many sheets long to find out.
	sides   []crossing
	spans   []span
	more    string // about those that are not told
	joining words.Joining
	maps    map[mapOf]draw.Drawing
}

func newIndex(p Piece, plan paging.Plan, s Style, of Front) index {
	of.style = s
	x := index{piece: p, plan: plan, style: s, Front: of, say: s.says().Templates(), maps: map[mapOf]draw.Drawing{}, joining: joining(plan, s.Figures)}
	x.joining.Curved = slices.ContainsFunc(p.Shape.Corners, func(v shape.Vertex) bool { return v.Do == shape.Round })
	x.spans, x.more = spans(plan, s.Figures, x.say)
	for _, d := range p.checked() {
		x.sides = append(x.sides, crossing{d, x.joins(d)})
	}
	return x
}

// crossing is a distance with the joins that it runs over.
type crossing struct {
	distance
	joins int
}

// composition is one way to set the page.
type composition struct {
	least   unit.Length // width that it needs
	halves  int         // columns of the whole page: two on paper that lies on its side
	beside  bool        // the checks stand beside the map, not below it
	mapHigh unit.Length // at most
	figures bool        // small figures beside what is said
	pairs   bool        // what is said stands in two columns: put together and by hand, saw and square and cautions
	care    unit.Length // of the letters of the cautions
}

// compositions from the most generous to the tightest: of those that make the fewest
// pages the first is taken.
var compositions = []composition{
	{180, 1, true, 125, true, false, large},
	{180, 1, true, 105, true, false, large},
	{180, 1, true, 90, true, false, large},
	{180, 1, true, 105, true, false, small},
	{180, 1, true, 90, true, false, small},
	{180, 1, true, 105, false, true, large},
	{180, 1, true, 105, false, true, small},
	{180, 1, true, 100, false, false, small},
	{180, 1, true, 90, false, false, small},
	{180, 1, true, 90, false, true, small},
	{220, 2, false, 90, true, false, large},
	{180, 1, true, 75, false, false, small},
	{180, 1, true, 75, false, true, small},
	{220, 2, false, 60, false, false, small},
	{0, 1, false, 90, true, false, large},
	{0, 1, false, 60, false, false, small},
}

const large, small = draw.FigureHeight, draw.NoteHeight

const (
	gutter  unit.Length = 8
	right   unit.Length = 102 // of what stands beside the map: a check bar of 4 in and a little
	aside   unit.Length = 46  // of the small figures
	boxWide unit.Length = 28  // to write in with a thick pencil
	boxHigh unit.Length = 8
)

func (x index) compose(l composition, page geom.Rect, r draw.Ruler) ([]draw.Drawing, error) {
	area := sheet.Columns(page, l.halves, gutter)[0]
	width := area.Width()
	picture := []sheet.Block{x.picture(Hand{x.piece, x.plan}, l.mapHigh)}
	if x.Opposite != nil {
		picture = []sheet.Block{x.picture(Hand{x.piece, x.plan}, l.mapHigh/2), x.picture(*x.Opposite, l.mapHigh/2)}
	}
	if by := x.say.InThisOrder(x.joining, x.Opposite != nil, x.piece.ByHand(x.style)); by != "" {
		picture = append(picture, sheet.Paragraph{Words: by, Height: x.style.sized(small)})
	}
	name, mark := x.title(r)
	var head []sheet.Block
	if l.beside {
		here := x.Paper.Width == 0
		share := min(max(right, x.table(here).Breadth(r)), width*0.6)
		if x.narrowed(here, share, r).Breadth(r) > share {
			return nil, fmt.Errorf("the table is too wide beside a map")
		}
		head = []sheet.Block{besides(name, mark, width, share), besides(picture, x.before(share, r), width, share)}
	} else {
		if _, gap := mark[0].(sheet.KeptGap); gap {
			mark = mark[1:]
		}
		head = slices.Concat(name, mark, picture, x.before(width, r))
	}
	var saw []sheet.Block
	if x.style.Settings {
		saw = headed(x.heading(words.SawAndSquare), x.piece, x.style, x.style.sized(large))
	}
	if l.pairs {
		half := (width - gutter) / 2
		care := min(half, max(width*0.4, width-gutter-settingsWidth(x.piece, x.style, x.style.sized(large), r))) // beside the table
		if saw == nil {
			care = width
		}
		return x.flow(slices.Concat(head,
			pair(x.together(l, half, r), x.byHand(l, geom.Rect{Max: geom.Point{X: half, Y: area.Height()}}, r), width, half),
			pair(saw, x.cautions(l, care), width, care)), page, page, l.halves, r)
	}
	blocks := slices.Concat(head, x.together(l, width, r), x.byHand(l, area, r), x.cautions(l, width), saw)
	return x.flow(blocks, page, page, l.halves, r)
}

// pair sets blocks beside each other, or what there is of them over the whole width.
func pair(left, others []sheet.Block, width, right unit.Length) []sheet.Block {
	if len(left) == 0 || len(others) == 0 {
		return append(left, others...)
	}
	return []sheet.Block{besides(left, others, width, right)}
}

// title is the name of the piece with what there is to say of its figures, and how many
// are marked with what there is to say of the sheets.
func (x index) title(r draw.Ruler) (name, mark []sheet.Block) {
	p := x.piece
	o := words.Ordered{
		Pages: len(x.plan.Cells), Both: x.Opposite != nil, Paper: x.plan.Sheet.Name, Hand: p.Hand, Face: p.Face, Grain: p.Grain, Which: p.Which,
	}
	line := func(facts []string) sheet.Block {
		return sheet.Paragraph{Words: strings.Join(facts, "; "), Height: x.style.sized(small), Keep: true}
	}
	facts := x.say.Facts(p.ByHand(x.style), o)
	if p.Job != "" {
		facts = slices.Insert(facts, 0, p.Job)
	}
	name = []sheet.Block{sheet.Paragraph{Words: p.Name, Height: x.style.sized(draw.CornerHeight), Bold: true, Keep: true, Of: &draw.Tag{Role: draw.AsTitle}}, line(facts)}
	marks := x.say.Mark(p.Marked)
	height := x.style.sized(draw.CornerHeight)
	if r.Width(marks, height, true) > right {
		height = x.style.sized(draw.TitleHeight)
	}
	mark = []sheet.Block{sheet.KeptGap(sheet.Height(name[:1], 1000, r))} // so that the lines below stand on one level
	if marks != "" {
		mark = []sheet.Block{sheet.Paragraph{Words: marks, Height: height, Bold: true, Keep: true}}
	}
	return name, append(mark, line(append(x.say.Sheets(o), x.Notes...)))
}

// heading of a section.
func (x index) heading(s words.Section) sheet.Heading {
	return sheet.Heading{Words: x.say.Heading(s), Height: x.style.sized(draw.TitleHeight)}
}

// cautions in two columns where they have room.
func (x index) cautions(l composition, width unit.Length) []sheet.Block {
	list := func(items []string) []sheet.Block {
		return []sheet.Block{sheet.List{Items: items, Height: x.style.sized(l.care), Whole: true}}
	}
	all := x.style.says().Cautions().Template()
	if half := (len(all) + 1) / 2; width >= 2*aside+gutter {
		return []sheet.Block{x.heading(words.TakeCare), besides(list(all[:half]), list(all[half:]), width, (width-gutter)/2)}
	}
	return append([]sheet.Block{x.heading(words.TakeCare)}, list(all)...)
}

// columns under heads, each standing as said.
func columns(heads []string, aligns ...sheet.Align) (all []sheet.Column) {
	for i, head := range heads {
		all = append(all, sheet.Column{Head: head, Align: aligns[i]})
	}
	return all
}

// byHand is the construction in words with a small figure, in one piece unless it is long.
func (x index) byHand(l composition, area geom.Rect, r draw.Ruler) []sheet.Block {
	if !x.style.Steps {
		return nil
	}
	list := sheet.List{Items: set(x.piece, x.style), Numbered: true, Height: x.style.sized(large)}
	width := area.Width()
	high := sheet.Height([]sheet.Block{list}, width-aside-gutter, r)
	list.Whole = high < area.Height()/3
	if !l.figures || !list.Whole || width < 3*aside {
		return []sheet.Block{x.heading(words.MadeByHand), list}
	}
	figure := []sheet.Block{sheet.Figure{Draw: x.constructed, Alt: x.style.says().Aloud().Construction(x.piece.Name)}}
	return []sheet.Block{x.heading(words.MadeByHand), besides([]sheet.Block{list}, figure, width, aside)}
}

// set is the steps as they are set on paper.
func set(p Piece, s Style) []string {
	h := p.ByHand(s)
	h.Drawn = s.Lengths && s.Angles && s.Heights
	return words.Set(s.says().Steps(), h, p.Names())
}
