// Package tasks is the sheets of a class: tasks to be drawn by hand, with no answer on them,
// the key that marks them, and the films that are laid on what was drawn.
//
// Files, from the top floor to the ground: task_pages.go, key.go, key_csv.go, overlay.go, polar.go, answers.go, model.go,
// sketch.go, tasks.go.
package tasks

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/words"
)

// Set is the tasks of a class, pupil by pupil.
type Set struct {
	Title, Date string
	Seed        int
	Pupils      []Pupil
	Accept      task.Tolerance
	Large       bool           // letters of 18 pt, a task over two pages
	TwoUp       bool           // two tasks on a page
	TwoSided    bool           // each pupil begins on a new sheet of paper
	Language    words.Language // nil: English
}

// Pupil has a number, perhaps a name, and tasks.
type Pupil struct {
	Number int
	Name   string
	Tasks  []task.Drawn
}

// Grid of all sheets: the margin, and the least space that a triangle is drawn in.
const (
	margin      unit.Length = 12
	leastWide   unit.Length = 156
	leastHigh   unit.Length = 128
	lowSpace    unit.Length = 72 // of one of two tasks on a page
	leading     unit.Length = 6.2
	boxHigh     unit.Length = 13
	rulePen                 = 0.35
	largeLetter unit.Length = draw.TitleHeight
)

// leaf is one page that is being drawn; y counts down from its top edge.
type leaf struct {
	wide, high unit.Length
	r          draw.Ruler
	ops        []draw.Op
}

func (l *leaf) at(x, y unit.Length) geom.Point { return geom.Point{X: x, Y: l.high - y} }

func (l *leaf) add(ops ...draw.Op) { l.ops = append(l.ops, ops...) }

// line of a pen from one place to another.
func (l *leaf) line(x0, y0, x1, y1 unit.Length, width unit.Length) {
	l.add(draw.Line{Line: geom.Line{From: l.at(x0, y0), To: l.at(x1, y1)}, Pen: draw.Pen{Width: width}, On: draw.Notes, Of: ornament})
}

// ornament is what nobody has read out.
var ornament = &draw.Tag{Role: draw.AsOrnament}

// frame is an empty rectangle.
func (l *leaf) frame(x, y, wide, high, pen unit.Length) {
	l.add(draw.Polyline{Points: []geom.Point{l.at(x, y), l.at(x+wide, y), l.at(x+wide, y+high), l.at(x, y+high)}, Closed: true, Pen: draw.Pen{Width: pen}, On: draw.Notes, Of: ornament})
}

// style of a line of words.
type style struct {
	height unit.Length
	bold   bool
	align  draw.Align
}

var (
	note  = style{height: draw.NoteHeight}
	read  = style{height: draw.FigureHeight}
	bold  = style{height: draw.FigureHeight, bold: true}
	title = style{height: draw.TitleHeight, bold: true}
)

func (s style) to(a draw.Align) style { s.align = a; return s }

// words of a line; y is its base line.
func (l *leaf) words(text string, x, y unit.Length, s style) {
	l.add(draw.Text{At: l.at(x, y), Height: s.height, Bold: s.bold, Align: s.align, Words: text, On: draw.Notes})
}

// lines of running words; the base line of the next one comes back.
func (l *leaf) lines(text string, x, y, wide unit.Length, s style) unit.Length {
	for _, line := range l.broken(text, wide, s) {
		l.words(line, x, y, s)
		y += s.height * leading / draw.FigureHeight
	}
	return y
}

func (l *leaf) broken(text string, wide unit.Length, s style) []string {
	return draw.Wrap(split(text), func(t string) bool { return l.r.Width(t, s.height, s.bold) <= wide })
}

// page that is drawn.
func (l *leaf) page(kind draw.Kind, of string) draw.Page {
	return draw.Page{Kind: kind, Piece: of, Width: l.wide, Height: l.high, Ops: l.ops}
}

func newLeaf(on paging.Sheet, r draw.Ruler) *leaf {
	return &leaf{wide: on.Width, high: on.Height, r: r}
}

// split at blanks.
func split(text string) (all []string) {
	word := ""
	for _, c := range text + " " {
		if c != ' ' {
			word += string(c)
			continue
		}
		if word != "" {
			all = append(all, word)
		}
		word = ""
	}
	return all
}

// fits says whether a triangle of a class has room on a paper.
func (s Set) fits(on paging.Sheet) error {
	high := on.Height - 87 - 50
	for _, p := range s.Pupils {
		if len(p.Tasks) > 0 && p.Tasks[0].Demand == task.Support && !s.TwoUp {
			high = on.Height - 118 - 50
		}
	}
	switch {
	case s.TwoUp:
		high = (on.Height-44)/2 - 54
		if on.Width-2*margin < leastWide || high < lowSpace {
			return tooSmall(on)
		}
	case on.Width-2*margin < leastWide || high < leastHigh:
		return tooSmall(on)
	}
	return nil
}

func tooSmall(on paging.Sheet) error {
	return &unit.Fault{Subject: unit.Paper, Of: on.Name,
		What: fmt.Sprintf("%.0f × %.0f mm leave less than the %.0f × %.0f mm that a triangle of a class is drawn in", on.Width, on.Height, leastWide, leastHigh),
		Hint: "use A4 or Letter upright, or larger"}
}

func (s Set) says() words.Tasks      { return words.In(s.Language).Tasks() }
func (s Set) models() words.Models   { return words.In(s.Language).Models() }
func (s Set) marking() words.Marking { return words.In(s.Language).Marking() }
