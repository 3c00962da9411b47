package sheet

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Gap is empty height; it vanishes at the top of an area.
type Gap unit.Length

func (b Gap) Rows(unit.Length, draw.Ruler) []Row {
	return []Row{{Height: unit.Length(b), Space: true}}
}

// Figure is a drawing as high as Draw says at a width, its marks from the top
// left corner down (negative y). It is never parted.
type Figure struct {
	Draw func(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length)
	Alt  string // one sentence that says what is drawn
}

func (b Figure) Rows(width unit.Length, r draw.Ruler) []Row {
	d, h := b.Draw(width, r)
	return []Row{{Height: h, Marks: draw.Tagged(d, &draw.Tag{Role: draw.AsFigure, Alt: b.Alt})}}
}

// Ladder is a bar to check the print by, true to scale, of n blocks black and white: nobody takes it
// for a line to cut.
func Ladder(block unit.Length, n int, alt string) Figure {
	const high, above, below unit.Length = 2.4, 1, 2
	area := func(x0, x1, in unit.Length) []geom.Point { // a frame's ink lies within the length
		c := geom.Rect{Min: geom.Point{X: x0 + in, Y: in - above - high}, Max: geom.Point{X: x1 - in, Y: -above - in}}.Corners()
		return c[:]
	}
	d := draw.Drawing{draw.Polyline{Points: area(0, block*unit.Length(n), draw.Thin.Width/2), Closed: true, Pen: draw.Thin, On: draw.Notes}}
	for i := 0; i < n; i += 2 {
		x := block * unit.Length(i)
		d = append(d, draw.Polyline{Points: area(x, x+block, 0), Closed: true, Solid: true, On: draw.Notes})
	}
	return Figure{Alt: alt, Draw: func(unit.Length, draw.Ruler) (draw.Drawing, unit.Length) { return d, above + high + below }}
}

// Beside sets stacks of blocks side by side, each with its share of the width
// left by the gutters. It is never parted.
type Beside struct {
	Stacks [][]Block
	Shares []float64 // as many as Stacks; they need not add up to 1. Nil: equal
	Gutter unit.Length
}

func (b Beside) Rows(width unit.Length, r draw.Ruler) []Row {
	total, shares := 0.0, b.Shares
	for i := range b.Stacks {
		if b.Shares == nil {
			shares = append(shares, 1)
		}
		total += shares[i]
	}
	room := width - b.Gutter*unit.Length(len(b.Stacks)-1)
	row := Row{}
	x := unit.Length(0)
	for i, s := range b.Stacks {
		w := room * unit.Length(shares[i]/total)
		d, h := Set(s, geom.Point{X: x}, w, r)
		row.Marks = append(row.Marks, d...)
		row.Height = max(row.Height, h)
		x += w + b.Gutter
	}
	return []Row{row}
}

// Entries are places to write in by hand: each a label and a line to write on,
// side by side.
type Entries struct {
	Labels []string
	Height unit.Length // from line to line; 0 is 9 mm, for a thick pencil
}

func (b Entries) Rows(width unit.Length, r draw.Ruler) []Row {
	h := b.Height
	if h == 0 {
		h = 9
	}
	const gutter = 5
	n := unit.Length(len(b.Labels))
	each, x := (width-gutter*(n-1))/n, unit.Length(0)
	row := Row{Height: h}
	for _, label := range b.Labels {
		w := r.Width(label, draw.NoteHeight, false)
		words := text(label, geom.Point{X: x, Y: -h + 1}, draw.NoteHeight, draw.Left, false)
		words.Of = &draw.Tag{}
		row.Marks = append(row.Marks, words, rule(x+min(w+2, each), x+each, -h+0.5))
		x += each + gutter
	}
	return []Row{row}
}

// KeptGap is a gap between two things that must not be parted.
type KeptGap unit.Length

func (b KeptGap) Rows(unit.Length, draw.Ruler) []Row {
	return []Row{{Height: unit.Length(b), Keep: true}}
}
