package sheet

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/words"
)

// Layout of a leaf.
const (
	LeastMargin unit.Length = 10  // ISO 5457: the border is 10 mm
	Wide        unit.Length = 250 // from here on, the words may stand in two columns
	Gutter      unit.Length = 10  // between them
	// BetweenTables is the least room between two that stand side by side.
	BetweenTables unit.Length = 8

	headHeight unit.Length = 18 // on the first page
	nextHeight unit.Length = 9  // on those that follow
	footHeight unit.Length = 10.5
)

// Leaf is a sheet of paper as it is read and the part of it that is printed on, a
// head and a foot included.
type Leaf struct {
	Width, Height unit.Length
	Area          geom.Rect
}

// LeafOf is the leaf of a paper, on which a printer prints a part.
func LeafOf(width, height unit.Length, printable geom.Rect) Leaf {
	return Leaf{width, height, geom.Rect{
		Min: geom.Point{X: max(printable.Min.X, LeastMargin), Y: max(printable.Min.Y, LeastMargin)},
		Max: geom.Point{X: min(printable.Max.X, width-LeastMargin), Y: min(printable.Max.Y, height-LeastMargin)},
	}}
}

// Turn is the leaf read from its side; which side the printer turns it to is not
// known, so of two opposite margins the larger holds on both.
func (l Leaf) Turn() Leaf {
	x := max(l.Area.Min.X, l.Width-l.Area.Max.X)
	y := max(l.Area.Min.Y, l.Height-l.Area.Max.Y)
	return Leaf{l.Height, l.Width, geom.Rect{Min: geom.Point{X: y, Y: x}, Max: geom.Point{X: l.Height - y, Y: l.Width - x}}}
}

// Body is what head and foot leave on the first page, Next on those that follow.
func (l Leaf) Body() geom.Rect {
	b := l.Next()
	b.Max.Y -= headHeight - nextHeight
	return b
}

// Whole is a body without the room of a check bar: one line stands below it.
func (l Leaf) Whole(body geom.Rect) geom.Rect {
	body.Min.Y = l.Area.Min.Y + 4.5
	return body
}

// Next is Body of the pages behind the first.
func (l Leaf) Next() geom.Rect {
	b := l.Area
	b.Min.Y += footHeight
	b.Max.Y -= nextHeight
	return b
}

// TitleBlock says what a sheet is of (ISO 7200).
type TitleBlock struct {
	Job, Piece, Date string
}

// Title is job and piece.
func (b TitleBlock) Title() string { return parted(": ", b.Job, b.Piece) }

// parted is what there is to say of all that might be.
func parted(by string, words ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == "" }), by)
}

// Lettered is a *unit.Fault where the lettering lacks a character of the title block's
// words or of more words.
func (b TitleBlock) Lettered(r draw.Ruler, more ...string) error {
	for _, words := range append([]string{b.Job, b.Piece, b.Date}, more...) {
		if c := r.Missing(words); c != 0 {
			return &unit.Fault{Subject: unit.Written, Of: fmt.Sprintf("%q", words), What: fmt.Sprintf("the lettering has no %q (U+%04X)", c, c), Hint: "write it with other letters"}
		}
	}
	return nil
}

// Margin is what stands at the head and at the foot of every page of a sheet.
type Margin struct {
	Title    string
	Second   []string       // below the title of the first page: what the sheet is, parted by dots
	Third    []string       // below that: the first of these that has room, else the last, cut
	Language words.Language // nil: English at the bench
	// Picture says at the foot that nothing on the page is measured: there is no check bar,
	// and any printer will do. Sides: the leaf is printed on both, and what stands at the head of each
	// instead of the number of the page, with a line below it.
	Picture string
	Sides   [][2]string
}

// Draw is the margin of one page.
func (m Margin) Draw(l Leaf, number, of int, r draw.Ruler) draw.Drawing {
	note := Note(m.Picture, l.Area.Min.X, l.Area.Min.Y+0.9, draw.Left)
	note.Of = &draw.Tag{Role: draw.AsOrnament}
	if number == 1 {
		note.Of = &draw.Tag{}
	}
	return append(m.head(l.Area, number, of, r), note)
}

func (m Margin) head(area geom.Rect, number, of int, r draw.Ruler) draw.Drawing {
	top, left, right := area.Max.Y, area.Min.X, area.Max.X
	count := words.In(m.Language).Pages().Number(number, of)
	if number <= len(m.Sides) {
		count = m.Sides[number-1][0]
	}
	// What stands on every page is read out on the first one, its number never.
	title, again := &draw.Tag{Role: draw.AsTitle, First: true}, &draw.Tag{Role: draw.AsOrnament}
	if number > 1 {
		title = again
	}
	d := draw.Drawing{
		draw.Text{Of: title, At: geom.Point{X: left, Y: top - draw.TitleHeight}, Height: draw.TitleHeight, Bold: true, On: draw.Notes,
			Words: shorten(m.Title, right-left-r.Width(count, draw.FigureHeight, false)-6, draw.TitleHeight, true, r)},
		draw.Text{Of: again, At: geom.Point{X: right, Y: top - draw.TitleHeight}, Height: draw.FigureHeight, Align: draw.Right, Words: count, On: draw.Notes},
	}
	if number <= len(m.Sides) {
		d[1] = draw.Text{At: geom.Point{X: right, Y: top - draw.TitleHeight}, Height: draw.TitleHeight, Bold: true, Align: draw.Right, Words: count, On: draw.Notes}
	}
	if number > 1 {
		return d
	}
	if len(m.Sides) > 0 {
		d = append(d, Note(m.Sides[0][1], right, top-draw.TitleHeight-4.6, draw.Right))
	}
	third := ""
	for _, third = range m.Third {
		if r.Width(third, draw.NoteHeight, false) <= right-left {
			break
		}
	}
	return append(d, draw.Tagged(draw.Drawing{
		Note(shorten(parted(" · ", m.Second...), right-left, draw.NoteHeight, false, r), left, top-draw.TitleHeight-4.6, draw.Left),
		Note(shorten(third, right-left, draw.NoteHeight, false, r), left, top-draw.TitleHeight-9, draw.Left),
	}, &draw.Tag{First: true})...)
}

// Note is a line of small words.
func Note(words string, x, y unit.Length, a draw.Align) draw.Text {
	return draw.Text{At: geom.Point{X: x, Y: y}, Height: draw.NoteHeight, Align: a, Words: words, On: draw.Notes}
}

// NoteLine is a line that belongs to notes.
func NoteLine(x0, y0, x1, y1 unit.Length, p draw.Pen) draw.Line {
	return draw.Line{Line: geom.Line{From: geom.Point{X: x0, Y: y0}, To: geom.Point{X: x1, Y: y1}}, Pen: p, On: draw.Notes}
}

// shorten cuts words that are too long for their line.
func shorten(words string, room, h unit.Length, bold bool, r draw.Ruler) string {
	return draw.Shorten(words, "", func(s string) bool { return r.Width(s, h, bold) <= room })
}
