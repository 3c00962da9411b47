package template

import (
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/legible"
	"trammel/plot/paging"
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
	leastColumn unit.Length = 54 // of the steps
	mostColumn  unit.Length = 72
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

// Arrange sets a block's name and, if it is to have steps, the construction by hand
// beside the drawing or, where that is too wide, below it. It says false where
// neither fits.
func (b Block) Arrange(name string, steps bool, most paging.Size, r draw.Ruler) (Arranged, bool) {
	// Its name is read before what is drawn.
	part := &draw.Tag{Role: draw.AsSection}
	heading := &draw.Tag{Role: draw.AsHeading, In: part}
	part.Holds = []*draw.Tag{heading}
	b.drawing = draw.Pictured(b.drawing, words.In(b.style.Language).Aloud().Sheet(b.piece.Name, "", 1), part)
	title := b.style.sizedAll([]sheet.Block{sheet.Paragraph{Words: name, Height: draw.FigureHeight, Bold: true, Of: heading}})
	var rest []sheet.Block
	if steps && b.style.Steps {
		rest = append(rest, sheet.Gap(belowName), sheet.List{Items: set(b.piece, b.style), Numbered: true, Height: b.style.sized(draw.NoteHeight)})
	}
	w, h := b.size.Width, b.size.Height
	column := min(mostColumn, most.Width-w-toColumn)
	room := column
	if column < leastColumn {
		room = max(w, min(leastColumn, most.Width))
	}
	// Only where they lie in their usual order: higher, they would cost pages.
	wanted := steps && b.style.Settings && b.piece.shaped()
	lost := wanted && room < settingsWidth(b.piece, b.style, r)
	if wanted && !lost {
		rest = append(rest, sawAndSquare(b.piece, b.style, b.style.sized(draw.NoteHeight))...)
	}
	var d draw.Drawing
	var size paging.Size
	down := unit.Length(0) // to the drawing
	if len(rest) > 0 && column >= leastColumn {
		head, high := sheet.Set(title, geom.Point{X: w + toColumn}, column, r)
		steps, more := sheet.Set(rest, geom.Point{X: w + toColumn, Y: -high}, column, r)
		d = append(onFurniture(head), steps...)
		size = paging.Size{Width: w + toColumn + column, Height: max(h, high+more)}
	} else {
		size.Width = max(w, min(leastColumn, most.Width))
		head, high := sheet.Set(title, geom.Point{}, size.Width, r)
		d = onFurniture(head)
		down = high + belowName
		if size.Height = down + h; len(rest) > 0 {
			under, more := sheet.Set(rest, geom.Point{Y: -size.Height - belowName}, size.Width, r)
			d = append(d, under...)
			size.Height += belowName + more
		}
	}
	by := geom.Point{Y: -down - h}
	place := b.place
	place.Shift = place.Shift.Plus(by)
	return Arranged{
		Size: size, Drawing: append(sheet.Shift(b.drawing, by), d...),
		Place: place, Outline: place.Polygon(b.piece.Shown), Lost: lost,
	}, size.Width <= most.Width && size.Height <= most.Height
}

// onFurniture keeps the names of pieces where notes are left out: without them
// nobody knows which piece is which.
func onFurniture(d draw.Drawing) draw.Drawing {
	for i, op := range d {
		d[i] = draw.OnLayer(op, draw.Furniture)
	}
	return d
}
