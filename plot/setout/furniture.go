package setout

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

func note(words string, x, y unit.Length, a draw.Align) draw.Text {
	return draw.Text{At: geom.Point{X: x, Y: y}, Height: draw.NoteHeight, Align: a, Words: words, On: draw.Notes}
}

func stroke(x0, y0, x1, y1 unit.Length, p draw.Pen) draw.Line {
	return draw.Line{Line: geom.Line{From: geom.Point{X: x0, Y: y0}, To: geom.Point{X: x1, Y: y1}}, Pen: p, On: draw.Notes}
}

// head is the line of title at the top of every page; what all figures count
// stands below it on the first.
func (c composer) head(area geom.Rect, number, of int) draw.Drawing {
	top := area.Max.Y
	left, right := area.Min.X, area.Max.X
	count := fmt.Sprintf("page %d of %d", number, of)
	name := c.Piece
	if name == "" {
		for _, n := range c.Outline[:min(len(c.Outline), 12)] {
			name += string(n)
		}
	}
	first := draw.Text{At: geom.Point{X: left, Y: top - draw.TitleHeight}, Height: draw.TitleHeight, Bold: true, On: draw.Notes}
	last := draw.Text{At: geom.Point{X: right, Y: top - draw.TitleHeight}, Height: draw.FigureHeight, Align: draw.Right, Words: count, On: draw.Notes}
	room := right - left - c.r.Width(count, draw.FigureHeight, false) - 6
	first.Words = shorten(name, room, draw.TitleHeight, true, c.r)
	if number > 1 {
		return draw.Drawing{first, last}
	}
	parts := []string{"Setting-out sheet"}
	if c.Job != "" {
		parts = append(parts, c.Job)
	}
	if c.Date != "" {
		parts = append(parts, c.Date)
	}
	second := shorten(strings.Join(parts, " · "), right-left, draw.NoteHeight, false, c.r)
	third := fmt.Sprintf("All figures in %s. In parentheses: computed. Bare: measured or chosen.", c.Style.Name())
	if c.r.Width(third, draw.NoteHeight, false) > right-left {
		third = fmt.Sprintf("Figures in %s, computed ones in parentheses.", c.Style.Name())
	}
	return draw.Drawing{first, last,
		note(second, left, top-draw.TitleHeight-4.6, draw.Left),
		note(third, left, top-draw.TitleHeight-9, draw.Left),
	}
}

// shorten cuts words that are too long for their line and shows that by dots.
func shorten(words string, room, h unit.Length, bold bool, r draw.Ruler) string {
	if r.Width(words, h, bold) <= room {
		return words
	}
	cut := []rune(words)
	for len(cut) > 0 && r.Width(string(cut)+"…", h, bold) > room {
		cut = cut[:len(cut)-1]
	}
	return string(cut) + "…"
}

// foot is the check bar at the bottom of every page, 100 mm or 4 in long.
func (c composer) foot(area geom.Rect) draw.Drawing {
	x, y := area.Min.X, area.Min.Y+1
	long, words, parts := 100*unit.Millimetre, "100 mm", 10
	if inches(c.Style) {
		long, words, parts = 4*unit.Inch, "4 in", 4
	}
	d := draw.Drawing{stroke(x, y, x+long, y, draw.Narrow)}
	for i := range parts + 1 {
		at, h := x+long*unit.Length(i)/unit.Length(parts), unit.Length(1.5)
		if i == 0 || i == parts {
			h = 4
		}
		d = append(d, stroke(at, y, at, y+h, draw.Narrow))
	}
	const right = 4
	say, then := "print at 100 %, actual size", "the bar is then "+words+" long"
	room := area.Max.X - x - long - right
	if max(c.r.Width(say, draw.NoteHeight, false), c.r.Width(then, draw.NoteHeight, false)) > room {
		// Narrow paper: the words stand on the bar.
		d = append(d, note(words+": "+say, x+2, y+6, draw.Left))
		if c.Printer != "" {
			d = append(d, note(c.forPrinter(long-4), x+2, y+2.2, draw.Left))
		}
		return d
	}
	if c.Printer != "" {
		then = c.forPrinter(room)
	}
	return append(d, note(words, x+long/2, y+3, draw.Middle), note(say, x+long+right, y+3.6, draw.Left), note(then, x+long+right, y-0.4, draw.Left))
}

func (c composer) forPrinter(room unit.Length) string {
	return shorten("for printer "+c.Printer+": wrong on any other", room, draw.NoteHeight, false, c.r)
}

// scaleBar is the plan's scale as a bar and as a ratio, from its top left down.
func (c composer) scaleBar(at geom.Point) draw.Drawing {
	step, n, name := c.barStep()
	paper := step / unit.Length(c.plan.Scale)
	y := at.Y - 6
	d := draw.Drawing{stroke(at.X, y, at.X+paper*unit.Length(n), y, draw.Wide)}
	for i := range n + 1 {
		x := at.X + paper*unit.Length(i)
		d = append(d, stroke(x, y, x, y+2, draw.Narrow))
		a := draw.Middle
		if i == 0 {
			a = draw.Left
		}
		d = append(d, note(name(i), x, y+3, a))
	}
	d = append(d, draw.Text{At: geom.Point{X: at.X + paper*unit.Length(n) + 10, Y: y}, Height: draw.FigureHeight, Bold: true, Words: fmt.Sprintf("1:%d", c.plan.Scale), On: draw.Notes})
	return append(d, note("Do not scale from the plan: use the figures.", at.X, y-4.4, draw.Left))
}

// barStep is the length that one part of the scale bar stands for: a round
// number of metres or feet, some 12 to 30 mm on paper.
func (c composer) barStep() (step unit.Length, n int, name func(int) string) {
	one, sign := unit.Metre, "m"
	if inches(c.Style) {
		one, sign = unit.Foot, "ft"
	}
	round := 0.0
	for e := -1; round == 0; e++ {
		for _, m := range []float64{1, 2, 5} {
			v := m * math.Pow10(e)
			if unit.Length(v)*one/unit.Length(c.plan.Scale) >= 12 {
				round = v
				break
			}
		}
	}
	n = 3
	return unit.Length(round) * one, n, func(i int) string {
		words := strings.TrimSuffix(fmt.Sprintf("%.1f", round*float64(i)), ".0")
		if i == n {
			words += " " + sign
		}
		return words
	}
}
