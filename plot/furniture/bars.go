package furniture

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// bar is a length to check the print by: a ladder of black and white blocks, which nobody
// takes for a line to cut.
type bar struct {
	length  unit.Length
	blocks  int
	words   string
	letters unit.Length // height of the words
}

// Check bars from the best to the last resort.
var (
	barsMM   = []bar{{100, 10, "100 mm", draw.NoteHeight}, {50, 5, "50 mm", draw.NoteHeight}, {25, 5, "25 mm", draw.NoteHeight}, {10, 5, "10 mm", draw.NoteHeight}}
	barsInch = []bar{{4 * unit.Inch, 8, "4 in", draw.NoteHeight}, {2 * unit.Inch, 4, "2 in", draw.NoteHeight}, {unit.Inch, 4, "1 in", draw.NoteHeight}, {unit.Inch / 2, 4, "1/2 in", draw.NoteHeight}}
)

// stubBar is the first that is hardly worth measuring.
const stubBar = 2

// bars are the check bars of a document, each with the words beside it.
func (f Furniture) bars() (all []bar) {
	lengths := barsMM
	if f.Inches {
		lengths = barsInch
	}
	for i, b := range lengths {
		b.letters = f.Sized(draw.NoteHeight)
		if i < stubBar {
			b.words = f.says().MeasureBar(b.words)
		}
		all = append(all, b)
	}
	return all
}

const (
	barHigh   unit.Length = 2.4
	barWords  unit.Length = 1.4 // from the bar to its words
	letterLow unit.Length = 0.35
)

// tall is how much height a line of words takes, tails and all.
func tall(height unit.Length) unit.Length { return height * (1 + letterLow) }

// ladder is a bar with its words below, its lower left corner at the origin; along: the
// same turned to run up.
func (b bar) ladder(along bool, r draw.Ruler) place.Block {
	foot := tall(b.letters) + barWords
	area := func(x0, x1, y0, y1 unit.Length) []geom.Point {
		return []geom.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	}
	ink := draw.Thin.Width / 2 // the frame's ink lies within the length
	ops := draw.Drawing{draw.Polyline{Points: area(ink, b.length-ink, foot+ink, foot+barHigh-ink), Closed: true, Pen: draw.Thin, On: draw.Furniture}}
	block := b.length / unit.Length(b.blocks)
	for i := 0; i < b.blocks; i += 2 {
		x := unit.Length(i) * block
		ops = append(ops, draw.Polyline{Points: area(x, x+block, foot, foot+barHigh), Closed: true, Solid: true, On: draw.Furniture})
	}
	ops = append(ops, draw.Text{At: geom.Point{Y: b.letters * letterLow}, Height: b.letters, Words: b.words, On: draw.Furniture})
	size := geom.Point{X: max(b.length, r.Width(b.words, b.letters, false)), Y: foot + barHigh}
	if along {
		turned := geom.Placement{Turn: unit.Turn / 4, Shift: geom.Point{X: size.Y}}
		for i, op := range ops {
			ops[i] = draw.Move(op, turned)
		}
		size.X, size.Y = size.Y, size.X
	}
	return place.Block{Rects: []geom.Rect{{Max: size}}, Ops: ops}
}

// Ladder says whether an operation is the frame of a check bar, and its length and which
// way it runs.
func Ladder(op draw.Op) (length unit.Length, along, ok bool) {
	o, is := op.(draw.Polyline)
	if !is || o.On != draw.Furniture || o.Solid || o.Pen != draw.Thin || len(o.Points) != 4 {
		return 0, false, false
	}
	b := geom.Polygon(o.Points).Bounds()
	w, h := b.Width()+draw.Thin.Width, b.Height()+draw.Thin.Width
	return max(w, h), h > w, true
}
