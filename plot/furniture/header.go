package furniture

import (
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// line is one line of words of the header.
type line struct {
	words  string
	height unit.Length
	bold   bool
	note   bool // one may do without it
}

// How much the header says: all of it; which piece; nothing but the number and how
// to print.
const (
	sayAll = iota
	sayPiece
	sayLeast
)

// title is the lines of words that all sheets bear, none wider than width if that can be.
func (f Furniture) title(say int, width unit.Length, r draw.Ruler) (all []line) {
	if say < sayLeast && f.Piece != "" {
		all = append(all, wrap(line{words: f.Piece, height: f.Sized(draw.FigureHeight), bold: true}, width, r)...)
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
		note := func(facts ...string) {
			all = append(all, wrap(line{words: strings.Join(facts, "; "), height: f.Sized(draw.NoteHeight), note: true}, width, r)...)
		}
		if f.Job != "" && r.Width(strings.Join(facts, "; "), f.Sized(draw.NoteHeight), false) > width {
			note(facts[0]) // the job's name by itself
			facts = facts[1:]
		}
		note(facts...)
		if f.Note != "" { // what says which line is which is not cut short
			height := f.Sized(draw.NoteHeight)
			for _, s := range draw.Wrap(strings.Fields(f.Note), func(s string) bool { return r.Width(s, height, false) <= width }) {
				all = append(all, line{words: s, height: height, note: true})
			}
		}
	}
	return append(all, f.howToPrint(width, r)...)
}

// howToPrint is said on every page: a page made for one printer is not true on
// another.
func (f Furniture) howToPrint(width unit.Length, r draw.Ruler) []line {
	all := wrap(line{words: f.says().HowToPrint(), height: f.Sized(draw.NoteHeight)}, width, r)
	if f.Printer != "" {
		all = append(all, wrap(line{words: f.says().ForPrinter(f.Printer), height: f.Sized(draw.NoteHeight), bold: true}, width, r)...)
	}
	return all
}

// wrap breaks a line at its spaces into two at most, of which the second is never one lone
// word; what has no room in the second ends in an ellipsis.
func wrap(l line, width unit.Length, r draw.Ruler) (all []line) {
	fits := func(s string) bool { return r.Width(s, l.height, l.bold) <= width }
	words := strings.Fields(l.words)
	if len(words) == 0 {
		return nil
	}
	set := draw.Wrap(words, func(s string) bool { return fits(s) || !strings.Contains(s, " ") })
	if len(set) > 1 {
		first := len(strings.Fields(set[0]))
		if first == len(words)-1 && first > 1 {
			first--
		}
		set = []string{strings.Join(words[:first], " "), strings.Join(words[first:], " ")}
		if len(words) == 2 {
			set = []string{strings.Join(words, " ")}
		}
	}
	for _, s := range set {
		l.words = draw.Shorten(s, " ,;", fits)
		all = append(all, l)
	}
	return all
}

// Distances in the header, in mm.
const (
	belowBar    unit.Length = 3.6
	belowNumber unit.Length = 1.5
	toMap       unit.Length = 6
	toWords     unit.Length = 6
)

// header is the block that every sheet bears: hung from its check bar the number, the map
// and the words beside each other or, stacked, without a bar, the words below them. The
// lower left corner is at the origin.
func (w *Furnisher) header(l Leaf, b *bar, y way) place.Block {
	var ops draw.Drawing
	width, top := y.width, unit.Length(0)
	if b != nil {
		ladder := w.laddered(*b, false)
		size := ladder.Rects[0].Max
		width, top = max(width, size.X), -size.Y
		for _, op := range ladder.Ops {
			ops = append(ops, draw.Shift(op, geom.Point{Y: -size.Y}))
		}
		top -= belowBar
	}
	sheet, x, foot, column := "", unit.Length(0), top, y.width
	numberTop := w.f.Sized(draw.LabelHeight)
	if w.multi {
		number := draw.Text{At: geom.Point{Y: top - numberTop}, Height: numberTop, Bold: true, Words: l.Label, On: draw.Furniture}
		wide := w.r.Width(l.Label, number.Height, true)
		ops = append(ops, number)
		if turns(l.Label) {
			ops = append(ops, footRule(number, wide))
		}
		sheet = w.f.says().Sheet(l.Label, len(w.small.spread.Sheets))
		x, foot = wide+toMap, top-numberTop
		if y.say < sayLeast || b != nil {
			ops = append(ops, w.small.here(l.Lay, l.Over, geom.Point{X: x, Y: top})...)
			x, foot = x+w.small.size.X+toWords, min(foot, top-w.small.size.Y)
		}
		if b == nil {
			width = max(width, x-toWords)
			top, x = min(foot, top-tall(numberTop))-belowNumber, 0
		} else {
			column = y.width - x
		}
	}
	if !w.multi && w.f.Sheets > 1 {
		sheet = w.f.says().Sheet(l.Label, w.f.Sheets)
	}
	for i, t := range w.title(sheet, y.say, column) {
		if i > 0 {
			top -= leading(t)
		}
		on := draw.Furniture
		if t.note {
			on = draw.Notes
		}
		ops = append(ops, draw.Text{At: geom.Point{X: x, Y: top - t.height}, Height: t.height, Bold: t.bold, Words: t.words, On: on})
		top -= tall(t.height)
		width = max(width, x+w.r.Width(t.words, t.height, t.bold))
	}
	foot = min(foot, top)
	for i, op := range ops {
		ops[i] = draw.Shift(op, geom.Point{Y: -foot})
	}
	return place.Block{Rects: []geom.Rect{{Max: geom.Point{X: width, Y: -foot}}}, Ops: ops}
}

// title is the lines of words of a sheet; those that all sheets bear are made once.
func (w *Furnisher) title(sheet string, say int, width unit.Length) (all []line) {
	y := way{say: say, width: width}
	lines, ok := w.titles[y]
	if !ok {
		lines = w.f.title(say, width, w.r)
		w.titles[y] = lines
	}
	if sheet != "" {
		all = append(all, line{words: sheet, height: w.f.Sized(draw.FigureHeight)})
	}
	return append(all, lines...)
}

// turns says whether a number is another one for somebody who stands at the head of the sheet.
func turns(number string) bool {
	return strings.Trim(number, "0689") == "" && strings.ContainsAny(number, "69")
}

// footRule is a bar below a number, so that its foot is seen from any side of the bench.
func footRule(number draw.Text, width unit.Length) draw.Op {
	const below, thick unit.Length = 1.4, 0.7
	top := number.At.Y - below
	return draw.Polyline{Points: []geom.Point{
		{X: number.At.X, Y: top - thick}, {X: number.At.X + width, Y: top - thick}, {X: number.At.X + width, Y: top}, {X: number.At.X, Y: top},
	}, Closed: true, Solid: true, On: draw.Furniture}
}

// leading is the white above a line.
func leading(l line) unit.Length { return 0.35 * l.height }

// titleBlock is lines of words, the lower left corner at the origin.
func titleBlock(lines []line, r draw.Ruler) place.Block {
	var b place.Block
	var w, high unit.Length
	for i, l := range lines {
		if high += tall(l.height); i > 0 {
			high += leading(l)
		}
	}
	y := high
	for i, l := range lines {
		if i > 0 {
			y -= leading(l)
		}
		on := draw.Furniture
		if l.note {
			on = draw.Notes
		}
		b.Ops = append(b.Ops, draw.Text{At: geom.Point{Y: y - l.height}, Height: l.height, Bold: l.bold, Words: l.words, On: on})
		w = max(w, r.Width(l.words, l.height, l.bold))
		y -= tall(l.height)
	}
	b.Rects = []geom.Rect{{Max: geom.Point{X: w, Y: high}}}
	return b
}
