// Package furniture is what every page of a template bears beside the drawing: its label,
// what it belongs to, its neighbours and the bars to check the print by, placed where a
// page has room for them. Lengths are mm on paper.
//
// Files, from the top floor to the ground: page.go, furniture.go.
package furniture

import (
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
	"trammel/plot/words"
)

// Furniture is what every page bears beside the drawing: its label, what it
// belongs to, its neighbours, and the bars to check the print by.
type Furniture struct {
	Job, Piece string
	PieceIndex int            // of the piece in the job
	Copy       int            // which copy of the template this is, counted from 0
	Copies     int            // how many copies are printed; 0 and 1 say nothing
	Mark       string         // how many pieces are marked from it; empty says nothing
	Inches     bool           // check bars in inches
	Figures    string         // the unit of the figures, "millimetres"; empty says nothing
	Date       string         // as the job states it; empty says nothing
	Note       string         // one more line; empty says nothing
	Printer    string         // the one that the pages are made for; empty: any
	Language   words.Language // nil: English at the bench
	First      int            // the number that the plan's first page has in the document; 0 says nothing
}

// bar is a length to check the print by.
type bar struct {
	length unit.Length
	words  string
}

// Check bars from the best to the last resort.
var (
	barsMM   = []bar{{100, "100 mm"}, {50, "50 mm"}, {25, "25 mm"}, {10, "10 mm"}}
	barsInch = []bar{{4 * unit.Inch, "4 in"}, {2 * unit.Inch, "2 in"}, {unit.Inch, "1 in"}, {unit.Inch / 2, "1/2 in"}}
)

const (
	longBar  = 0
	shortBar = 2
	stubBar  = 4
)

// bars are the check bars, the two longest with and without a word what they are for: the
// first that has a place is drawn. A page of the ordinary kind has the first or the third.
func (f Furniture) bars() (all []bar) {
	lengths := barsMM
	if f.Inches {
		lengths = barsInch
	}
	for i, b := range lengths {
		if i < 2 {
			all = append(all, bar{b.length, f.says().MeasureBar(b.words)})
		}
		all = append(all, b)
	}
	return all
}

func (f Furniture) says() words.Pages { return words.In(f.Language).Pages() }

// howToPrint is said on every page: a page made for one printer is not true on
// another.
func (f Furniture) howToPrint(width unit.Length, r draw.Ruler) []line {
	all := wrap(line{words: f.says().HowToPrint(), height: draw.NoteHeight}, width, r)
	if f.Printer != "" {
		all = append(all, wrap(line{words: f.says().ForPrinter(f.Printer), height: draw.NoteHeight, bold: true}, width, r)...)
	}
	return all
}

// line is one line of words of the title.
type line struct {
	words  string
	height unit.Length
	bold   bool
	note   bool // one may do without it
}

// How much the title says: all of it; which piece; nothing but the label and how
// to print.
const (
	sayAll = iota
	sayPiece
	sayLeast
)

// title is the lines of words of a page, none wider than width if that can be.
func (f Furniture) title(label string, number, say int, width unit.Length, r draw.Ruler) (all []line) {
	if label != "" {
		all = append(all, line{words: label, height: draw.LabelHeight, bold: true})
	}
	if say < sayLeast && f.Piece != "" {
		all = append(all, wrap(line{words: f.Piece, height: draw.FigureHeight, bold: true}, width, r)...)
	}
	if say == sayAll {
		var facts []string
		add := func(fact string, said bool) {
			if said {
				facts = append(facts, fact)
			}
		}
		add(f.Job, f.Job != "")
		add(f.Mark, f.Mark != "")
		add(f.says().Copy(f.Copy+1, f.Copies), f.Copies > 1)
		add(f.Figures, f.Figures != "")
		add(f.Date, f.Date != "")
		add(f.says().Number(number, 0), f.First > 0)
		note := func(facts ...string) {
			all = append(all, wrap(line{words: strings.Join(facts, ", "), height: draw.NoteHeight, note: true}, width, r)...)
		}
		if f.Job != "" && r.Width(strings.Join(facts, ", "), draw.NoteHeight, false) > width {
			note(facts[0]) // the job's name by itself
			facts = facts[1:]
		}
		note(facts...)
		all = append(all, wrap(line{words: f.Note, height: draw.NoteHeight, note: true}, width, r)...)
	}
	return append(all, f.howToPrint(width, r)...)
}

// wrap breaks a line at its spaces into two at most; what has no room in the
// second ends in an ellipsis.
func wrap(l line, width unit.Length, r draw.Ruler) (all []line) {
	fits := func(s string) bool { return r.Width(s, l.height, l.bold) <= width }
	words := strings.Fields(l.words)
	if len(words) == 0 {
		return nil
	}
	set := draw.Wrap(words, func(s string) bool { return fits(s) || !strings.Contains(s, " ") })
	if len(set) > 1 {
		set = []string{set[0], strings.Join(set[1:], " ")}
	}
	for _, s := range set {
		l.words = draw.Shorten(s, " ,", fits)
		all = append(all, l)
	}
	return all
}

// Sizes of the furniture, in mm.
const (
	barTick   unit.Length = 2   // half an end tick of a check bar
	barWords  unit.Length = 1.2 // from the bar to its words
	barStart  unit.Length = 8   // from the corner where the bars meet to the words along them
	letterLow unit.Length = 0.35
	wedge     unit.Length = 3.5 // length and width of a neighbour's arrow
	wedgeGap  unit.Length = 1.2
)

// tall is how much height a line of words takes, tails and all.
func tall(height unit.Length) unit.Length { return height * (1 + letterLow) }

// barBlock is a check bar with its corner end at the origin, running right (or left),
// its words above (or below) it; along: the same running up (or down), its words to the
// right (or left).
func barBlock(b bar, left, down, along bool, r draw.Ruler) place.Block {
	at := func(x, y unit.Length) geom.Point {
		if along {
			x, y = y, x
		}
		if left {
			x = -x
		}
		if down {
			y = -y
		}
		return geom.Point{X: x, Y: y}
	}
	stroke := func(x0, y0, x1, y1 unit.Length) draw.Op {
		return draw.Line{Line: geom.Line{From: at(x0, y0), To: at(x1, y1)}, Pen: draw.Narrow, On: draw.Furniture}
	}
	// Words start (or end) at the same distance from the corner.
	const h = draw.NoteHeight
	w := r.Width(b.words, h, false)
	start := barStart
	if start+w+barWords > b.length { // words that would run into the tick stand past it
		start = b.length + barWords
	}
	back, above := left, !down // as the words are read
	if along {
		back, above = down, left
	}
	text := draw.Text{At: geom.Point{X: start, Y: barWords + h*letterLow}, Height: h, Words: b.words, On: draw.Furniture}
	if !above {
		text.At.Y = -barWords - h
	}
	if back {
		text.At.X, text.Align = -start, draw.Right
	}
	if along {
		text.At, text.Turn = geom.Point{X: -text.At.Y, Y: text.At.X}, 90*unit.Degree
	}
	return place.Block{
		Rects: []geom.Rect{geom.RectOf(at(-draw.Narrow.Width, -barTick), at(max(b.length+draw.Narrow.Width, start+w), barWords+tall(h)))},
		Ops: draw.Drawing{
			stroke(0, 0, b.length, 0),
			stroke(0, -barTick, 0, barTick),
			stroke(b.length, -barTick, b.length, barTick),
			text,
		},
		Right: left, Top: down,
	}
}

// titleBlock is lines of words with a corner at the origin, the lower left one or
// as the flags say, set flush with that side.
func titleBlock(lines []line, left, down bool, r draw.Ruler) place.Block {
	var w, h unit.Length
	for i, l := range lines {
		w = max(w, r.Width(l.words, l.height, l.bold))
		h += tall(l.height)
		if i > 0 {
			h += leading(l)
		}
	}
	b := place.Block{Right: left, Top: down}
	y := h // top of the next line
	if down {
		y = 0
	}
	align := draw.Left
	if left {
		align = draw.Right
	}
	low := y - h
	for i, l := range lines {
		if i > 0 {
			y -= leading(l)
		}
		on := draw.Furniture
		if l.note {
			on = draw.Notes
		}
		b.Ops = append(b.Ops, draw.Text{At: geom.Point{Y: y - l.height}, Height: l.height, Align: align, Bold: l.bold, Words: l.words, On: on})
		y -= tall(l.height)
	}
	x0, x1 := unit.Length(0), w
	if left {
		x0, x1 = -w, 0
	}
	b.Rects = []geom.Rect{{Min: geom.Point{X: x0, Y: low}, Max: geom.Point{X: x1, Y: low + h}}}
	return b
}

// leading is the white above a line.
func leading(l line) unit.Length { return 0.35 * l.height }

// corner is the whole of it in the shape that a reader looks for: two bars that
// meet in an L, the words inside it.
func corner(b bar, lines []line, left, down bool, r draw.Ruler) place.Block {
	across, along := barBlock(b, left, down, false, r), barBlock(b, left, down, true, r)
	words := titleBlock(lines, left, down, r)
	in := geom.Point{X: barStart, Y: barStart}
	if left {
		in.X = -in.X
	}
	if down {
		in.Y = -in.Y
	}
	box := words.Rects[0].Shift(in)
	out := place.Block{Right: left, Top: down, Rects: []geom.Rect{
		across.Rects[0], along.Rects[0],
		box.Join(geom.RectOf(geom.Point{})), // with the white between: nothing runs through the L
	}}
	out.Ops = append(append(out.Ops, across.Ops...), along.Ops...)
	for _, op := range words.Ops {
		out.Ops = append(out.Ops, draw.Shift(op, in))
	}
	return out
}

// Sides of a page.
const (
	LeftOf = iota
	RightOf
	Above
	Below
)

// Sides of a rectangle, each to be read and moved.
func Sides(r *geom.Rect) [4]*unit.Length {
	return [4]*unit.Length{&r.Min.X, &r.Max.X, &r.Max.Y, &r.Min.Y}
}

// Inward is which way along its axis a side moves in.
var Inward = [4]unit.Length{1, -1, -1, 1}

// inward is the way in from a side.
func inward(side int) geom.Point {
	if side < Above {
		return geom.Point{X: Inward[side]}
	}
	return geom.Point{Y: Inward[side]}
}

// pointer is the label of the neighbour at a side and a wedge towards it, the wedge's
// tip at the origin.
func pointer(label string, side int, r draw.Ruler) place.Block {
	in := inward(side)
	foot, half := in.Times(float64(wedge)), geom.Point{X: -in.Y * wedge / 2, Y: in.X * wedge / 2}
	text := draw.Text{At: in.Times(float64(wedge + wedgeGap)), Height: draw.FigureHeight, Bold: true, Words: label, On: draw.Furniture,
		Align: [4]draw.Align{draw.Left, draw.Right, draw.Middle, draw.Middle}[side]}
	text.At.Y -= [4]unit.Length{0.5, 0.5, 1, 0}[side] * text.Height
	arrow := draw.Polyline{Points: []geom.Point{{}, foot.Minus(half), foot.Plus(half)}, Closed: true, Solid: true, On: draw.Furniture}
	return place.Block{Rects: []geom.Rect{arrow.Bounds(r).Join(text.Bounds(r))}, Ops: draw.Drawing{arrow, text}}
}
