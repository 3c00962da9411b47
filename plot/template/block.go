package template

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/legible"
	"trammel/plot/paging"
	"trammel/plot/place"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Block is a piece made ready to share a page with others: its drawing with all
// its words, in one place.
type Block struct {
	piece   Piece
	style   Style
	drawing draw.Drawing // from the lower left corner of its extent
	size    paging.Size
	place   geom.Placement // piece → drawing
}

const (
	roomAround  unit.Length = 24 // for the words about a piece; arcs end there
	toColumn    unit.Length = 6  // from the drawing to the words beside it
	leastColumn unit.Length = 48 // of the steps
	mostColumn  unit.Length = 100
	belowName   unit.Length = legible.ToWords
)

// NewBlock draws a piece at a turn, with its words about it. It says false where that is
// larger than most. A *unit.Fault names a character that the lettering does not have.
func NewBlock(p Piece, turn unit.Angle, most paging.Size, r draw.Ruler, s Style) (Block, bool, error) {
	turned := geom.Placement{Turn: turn}
	box := turned.Polygon(p.Shown).Bounds()
	if box.Width() > most.Width || box.Height() > most.Height {
		return Block{}, false, nil
	}
	across, up := min(roomAround, (most.Width-box.Width())/2), min(roomAround, (most.Height-box.Height())/2)
	turned.Shift = geom.Point{X: across, Y: up}.Minus(box.Min)
	on := paging.Sheet{Name: "block", Width: box.Width() + 2*across, Height: box.Height() + 2*up}
	plan := paging.Plan{
		Sheet: on, Place: turned, Outline: turned.Polygon(p.Shown), Rows: 1, Cols: 1,
		Cells: []paging.Cell{{Label: "1", Window: geom.Rect{Max: geom.Point{X: on.Width, Y: on.Height}}}},
	}
	drawing, err := Draw(p, plan, r, s)
	if err != nil {
		return Block{}, false, err
	}
	var d draw.Drawing
	for page := range plan.Pages(drawing, furniture.Furniture{}, r) {
		d = slices.DeleteFunc(page.Ops, func(op draw.Op) bool { return op.Layer() == draw.Furniture })
	}
	box = plan.Outline.Bounds()
	for _, op := range d {
		box = box.Join(op.Bounds(r))
	}
	back := geom.Point{}.Minus(box.Min)
	turned.Shift = turned.Shift.Plus(back)
	return Block{
		piece: p, style: s, drawing: sheet.Shift(d, back), size: paging.Size{Width: box.Width(), Height: box.Height()},
		place: turned,
	}, true, nil
}

// Turn of the piece on the page.
func (b Block) Turn() unit.Angle { return b.place.Turn }

// Arranged is a block with its words, from its upper left corner, so that its marks
// lie at negative y.
type Arranged struct {
	paging.Size
	Drawing draw.Drawing
	Place   geom.Placement // of the piece
	Outline geom.Polygon
	Lost    bool // saw and square, which were asked for, have no room
}

// Said is what stands with a block.
type Said struct {
	Name  string
	Steps bool     // the construction by hand
	Bare  bool     // saw and square stand elsewhere
	As    string   // a block before it: the steps that both begin with are not told again
	Told  []string // all steps of that one
}

// Arrange sets a block's name and, if it is to have steps, the construction by hand
// beside the drawing, as much of it as makes the block lowest; the rest stands below both. It
// says false where that does not fit.
func (b Block) Arrange(say Said, most paging.Size, r draw.Ruler) (Arranged, bool) {
	// Its name is read before what is drawn.
	part := &draw.Tag{Role: draw.AsSection}
	heading := &draw.Tag{Role: draw.AsHeading, In: part}
	part.Holds = []*draw.Tag{heading}
	b.drawing = draw.Pictured(b.drawing, words.In(b.style.Language).Aloud().Sheet(b.piece.Name, "", 1), part)
	title := b.style.sizedAll([]sheet.Block{sheet.Paragraph{Words: say.Name, Height: draw.FigureHeight, Bold: true, Of: heading}, sheet.Gap(belowName)})
	set := arrangement{Block: b, width: max(b.size.Width, min(b.style.sized(leastColumn), most.Width)), across: title, r: r}
	if say.Steps && b.style.Steps {
		set.steps = b.steps(say)
	}
	column := min(b.style.sized(mostColumn), most.Width-b.size.Width-toColumn)
	beside := len(set.steps.items) > 0 && column >= b.style.sized(leastColumn)
	if beside {
		set.width, set.column = b.size.Width+toColumn+column, column
	}
	// Only where they lie in their usual order: higher, they would cost pages.
	wanted := say.Steps && b.style.Settings && b.piece.shaped()
	table := settingsWidth(b.piece, b.style, b.style.sized(draw.NoteHeight), r)
	lost := wanted && (say.Bare || set.width < table)
	if wanted && !lost {
		set.under, set.table = sawAndSquare(b.piece, b.style, draw.FigureHeight), table
	}
	if beside {
		set = set.lowest()
	}
	d, down, high := set.draw()
	by := geom.Point{Y: -down - b.size.Height}
	place := b.place
	place.Shift = place.Shift.Plus(by)
	return Arranged{
		Size: paging.Size{Width: set.width, Height: high}, Drawing: append(sheet.Shift(b.drawing, by), d...),
		Place: place, Outline: place.Polygon(b.piece.Shown), Lost: lost,
	}, set.width <= most.Width && high <= most.Height
}

// arrangement is where the words of a block stand about its drawing.
type arrangement struct {
	Block
	r             draw.Ruler
	width         unit.Length   // of all
	across, above []sheet.Block // the name: over all, or over the column,
	corner        []sheet.Block // or in the corner of the drawing, where that is free
	column        unit.Length   // beside the drawing
	steps         steps
	n             int           // of the steps, so many in the column
	under         []sheet.Block // below the steps: a table so wide,
	table         unit.Length
	tabled        bool // in the column too
}

// lowest is the lowest arrangement with a column beside the drawing.
func (a arrangement) lowest() (best arrangement) {
	over, in := a, a
	over.across, over.above = nil, a.across
	in.across, in.corner = nil, a.across
	least := unit.Length(math.Inf(1))
	// More than there is room for beside the drawing is no lower there than below, unless it is all.
	free, most := a.size.Height, 0
	for n, item := range a.steps.items {
		free -= sheet.Height([]sheet.Block{sheet.List{Items: []string{item}, Numbered: true, First: len(a.steps.items), Height: a.steps.height}}, a.column, a.r)
		if free >= 0 {
			most = n + 1
		}
	}
	all := []arrangement{over, in, a}
	if len(a.under) > 0 && a.table <= a.column {
		for _, a := range all[:3] {
			a.tabled = true
			all = append(all, a)
		}
	}
	tries := []int{len(a.steps.items), most, max(0, most-1), max(0, most-2), max(0, most-3)}
	for _, a := range all {
		for i, n := range tries {
			if a.n = n; slices.Contains(tries[:i], n) || a.tabled && n < len(a.steps.items) {
				continue
			}
			if _, _, high := a.draw(); high < least-1e-6 {
				best, least = a, high
			}
		}
	}
	return best
}

// draw is the words of the block from its upper left corner, how far down the drawing begins, and how
// high all is.
func (a arrangement) draw() (d draw.Drawing, down, high unit.Length) {
	head, down := sheet.Set(a.across, geom.Point{}, a.width, a.r)
	if len(a.corner) > 0 {
		head, down = a.inCorner()
	}
	d, high = onFurniture(head), down+a.size.Height
	at := geom.Point{X: a.size.Width + toColumn}
	if len(a.corner) == 0 {
		at.Y = -down
	}
	head, more := sheet.Set(a.above, at, a.column, a.r)
	d, at.Y = append(d, onFurniture(head)...), at.Y-more
	if a.n > 0 {
		head, more = sheet.Set(a.steps.first(a.n), at, a.column, a.r)
		d, at.Y = append(d, head...), at.Y-more
	}
	below := append(a.steps.from(a.n), a.under...)
	if a.tabled {
		head, more = sheet.Set(a.under, at, a.column, a.r)
		d, at.Y, below = append(d, head...), at.Y-more, nil
	}
	if high = max(high, -at.Y); len(below) > 0 {
		high += belowName
		foot, more := sheet.Set(below, geom.Point{Y: -high}, a.width, a.r)
		d, high = append(d, foot...), high+more
	}
	return d, down, high
}

// inCorner is the name in the upper left corner of the drawing, in lines of half its width, and how far the
// drawing goes down to keep clear of it.
func (a arrangement) inCorner() (name draw.Drawing, down unit.Length) {
	width := a.size.Width * 0.6
	for high := sheet.Height(a.corner, width, a.r); width > 1 && sheet.Height(a.corner, width-1, a.r) <= high; {
		width-- // no line is one lone word, nor reaches far into the drawing
	}
	name, low := sheet.Set(a.corner, geom.Point{}, width, a.r)
	box := name[0].Bounds(a.r)
	for _, op := range name {
		box = box.Join(op.Bounds(a.r))
	}
	beside := geom.Rect{Max: geom.Point{X: box.Max.X + legible.ToWords, Y: a.size.Height}} // of the drawing, below the name
	top := unit.Length(0)
	for _, op := range a.drawing {
		if b := op.Bounds(a.r); !beside.Meets(b) {
			continue
		} else if _, is := op.(draw.Text); is {
			top = max(top, b.Max.Y)
			continue
		}
		for _, k := range place.Strokes(op, legible.About) {
			if part, ok := geom.ClipLine(k.Line, beside); ok {
				top = max(top, part.From.Y+k.Half, part.To.Y+k.Half)
			}
		}
	}
	return name, max(0, low+legible.ToWords-(a.size.Height-top))
}

// steps are the construction by hand as it stands with a block, parted between two steps.
type steps struct {
	before string // what is said of those that are not told again
	items  []string
	number int // of the first item
	height unit.Length
}

func (b Block) steps(say Said) steps {
	s := steps{items: set(b.piece, b.style), number: 1, height: b.style.sized(draw.NoteHeight)}
	same, mine := 0, Steps(b.piece, b.style)
	for same < min(len(mine)-1, len(say.Told)) && mine[same] == say.Told[same] {
		same++
	}
	if same > 1 {
		s.before, s.items, s.number = b.style.says().Steps().AsFor(same, say.As), s.items[same:], same+1
	}
	return s
}

// first are so many of the steps, from those that are the rest.
func (s steps) first(n int) (all []sheet.Block) {
	if s.before != "" {
		all = append(all, sheet.Paragraph{Words: s.before, Height: s.height})
	}
	return append(all, s.list(0, n))
}

func (s steps) from(n int) (all []sheet.Block) {
	switch {
	case n == 0 && len(s.items) > 0:
		return s.first(len(s.items))
	case n < len(s.items):
		return []sheet.Block{s.list(n, len(s.items))}
	}
	return nil
}

func (s steps) list(from, to int) sheet.Block {
	return sheet.List{Items: s.items[from:to], Numbered: true, First: s.number + from, Height: s.height}
}

// onFurniture keeps the names of pieces where notes are left out: without them
// nobody knows which piece is which.
func onFurniture(d draw.Drawing) draw.Drawing {
	for i, op := range d {
		d[i] = draw.OnLayer(op, draw.Furniture)
	}
	return d
}
