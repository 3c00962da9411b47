package sheet

import (
	"strconv"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// leading is the distance between base lines, in capital heights (the Go fonts'
// own line is 1.2 em, and a capital is 0.72 em); hang is the share of it that
// lies below the base line.
const (
	leading = 1.7
	hang    = 0.45
)

// Wrap breaks words into lines no wider than width, at spaces; a word wider than
// that is broken between characters. A no-break space never breaks and comes out
// as a plain one, so that whoever searches the page finds the words; a thin space
// stays. There is at least one line.
func Wrap(words string, width, height unit.Length, bold bool, r draw.Ruler) []string {
	parts := strings.FieldsFunc(words, func(c rune) bool { return c == ' ' || c == '\n' || c == '\t' })
	for i := range parts {
		parts[i] = strings.ReplaceAll(parts[i], "\u00a0", " ")
	}
	return draw.Wrap(parts, func(s string) bool { return r.Width(s, height, bold) <= width })
}

// Paragraph is running text.
type Paragraph struct {
	Words  string
	Height unit.Length // of a capital; 0 is draw.NoteHeight
	Bold   bool
	Keep   bool      // with what follows
	Of     *draw.Tag // what it is to whoever has it read out; nil: a paragraph
}

func (b Paragraph) Rows(width unit.Length, r draw.Ruler) []Row {
	h := orNote(b.Height)
	var rows []Row
	lines := Wrap(b.Words, width, h, b.Bold, r)
	tag := b.Of
	if tag == nil {
		tag = &draw.Tag{}
	}
	for i, line := range lines {
		rows = append(rows, textRow(line, 0, h, b.Bold, tag))
		rows[i].Keep = b.Keep || len(lines) <= 3 && i < len(lines)-1
	}
	return rows
}

func orNote(h unit.Length) unit.Length {
	if h == 0 {
		return draw.NoteHeight
	}
	return h
}

func textRow(line string, x, h unit.Length, bold bool, tag *draw.Tag) Row {
	t := text(line, geom.Point{X: x, Y: baseLine(h)}, h, draw.Left, bold)
	t.Of = tag
	return Row{Height: h * leading, Marks: draw.Drawing{t}}
}

// baseLine of the first line of letters below the top of a row.
func baseLine(h unit.Length) unit.Length { return -h * (leading - hang) }

func text(words string, at geom.Point, h unit.Length, a draw.Align, bold bool) draw.Text {
	return draw.Text{At: at, Height: h, Align: a, Bold: bold, Words: words, On: draw.Notes}
}

// Heading is a rule across the width and bold words below it, kept with what follows.
type Heading struct {
	Words  string
	Height unit.Length // of a capital; 0 is draw.FigureHeight
}

func (b Heading) Rows(width unit.Length, r draw.Ruler) []Row {
	h := b.Height
	if h == 0 {
		h = draw.FigureHeight
	}
	rows := []Row{{Height: 4, Space: true}, {Height: 1, Keep: true, Marks: draw.Drawing{rule(0, width, 0)}}}
	tag := &draw.Tag{Role: draw.AsHeading}
	for _, line := range Wrap(b.Words, width, h, true, r) {
		row := textRow(line, 0, h, true, tag)
		row.Keep = true
		rows = append(rows, row)
	}
	return append(rows, Row{Height: 0.8, Keep: true})
}

// rule is nothing that is read out.
func rule(x0, x1, y unit.Length) draw.Line {
	l := NoteLine(x0, y, x1, y, draw.Narrow)
	l.Of = &draw.Tag{Role: draw.AsOrnament}
	return l
}

// List is numbered items (1, 2, 3 …), or unnumbered ones set off by a dash, the
// words hanging beside.
type List struct {
	Items    []string
	Numbered bool
	First    int         // number of the first item; 0 is 1
	Signs    []string    // what stands before each of them instead of its number
	Height   unit.Length // of a capital; 0 is draw.NoteHeight
	Gap      unit.Length // between items
	Whole    bool        // never parted
}

func (b List) Rows(width unit.Length, r draw.Ruler) []Row {
	h := orNote(b.Height)
	first := max(b.First, 1)
	sign := func(i int) string {
		if b.Signs != nil {
			return b.Signs[i]
		}
		if b.Numbered {
			return strconv.Itoa(first + i)
		}
		return "–"
	}
	// Figures end in one column, so that 9 and 10 stand right-aligned.
	figures := unit.Length(0)
	for i := range b.Items {
		figures = max(figures, r.Width(sign(i), h, b.Numbered))
	}
	indent := figures + h*0.9
	var rows []Row
	list := &draw.Tag{Role: draw.AsList}
	for i, item := range b.Items {
		at := &draw.Tag{Role: draw.AsItem, In: list}
		label, body := &draw.Tag{Role: draw.AsLabel, In: at}, &draw.Tag{Role: draw.AsItemBody, In: at}
		lines := Wrap(item, width-indent, h, false, r)
		for j, line := range lines {
			row := textRow(line, indent, h, false, body)
			row.Keep = j < len(lines)-1 && len(lines) <= 6
			if j == 0 {
				number := text(sign(i), geom.Point{X: figures, Y: baseLine(h)}, h, draw.Right, b.Numbered)
				number.Of = label
				row.Marks = append(draw.Drawing{number}, row.Marks...)
			}
			rows = append(rows, row)
		}
		if b.Gap > 0 && i < len(b.Items)-1 {
			rows = append(rows, Row{Height: b.Gap, Space: true})
		}
	}
	for i := range rows {
		rows[i].Keep = rows[i].Keep || b.Whole && i < len(rows)-1
	}
	return rows
}
