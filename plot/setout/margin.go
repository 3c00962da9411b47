package setout

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

// margin is the head and the foot of every page.
func (c composer) margin() sheet.Margin {
	name := c.Piece
	if name == "" {
		for _, n := range c.Outline[:min(len(c.Outline), 12)] {
			name += string(n)
		}
	}
	return sheet.Margin{
		Title: name, Second: []string{c.heads().Title(false), c.Job, c.Date}, Inches: c.Inches(), Printer: c.Printer, Language: c.Language,
		Third: c.heads().Units(false, c.Style)[:2],
	}
}

// scaleBar is the plan's scale as a bar of three parts and as a ratio.
func (c composer) scaleBar(at geom.Point) draw.Drawing {
	const parts = 3
	one, sign := unit.Metre, " m"
	if c.Inches() {
		one, sign = unit.Foot, " ft"
	}
	round := c.barStep(one)
	paper := unit.Length(round) * one / unit.Length(c.plan.Scale)
	y := at.Y - 6
	d := draw.Drawing{sheet.NoteLine(at.X, y, at.X+paper*parts, y, draw.Wide)}
	for i := range parts + 1 {
		x, name, align := at.X+paper*unit.Length(i), strings.TrimSuffix(fmt.Sprintf("%.1f", round*float64(i)), ".0"), draw.Middle
		switch i {
		case 0:
			align = draw.Left
		case parts:
			name += sign
		}
		d = append(d, sheet.NoteLine(x, y, x, y+2, draw.Narrow), sheet.Note(name, x, y+3, align))
	}
	return append(d, draw.Text{At: geom.Point{X: at.X + paper*parts + 10, Y: y}, Height: draw.FigureHeight, Bold: true, Words: fmt.Sprintf("1:%d", c.plan.Scale), On: draw.Notes},
		sheet.Note(c.heads().NoScale(), at.X, y-4.4, draw.Left))
}

// barStep is what a part of the bar stands for: a round number, 12 to 30 mm on paper.
func (c composer) barStep(one unit.Length) float64 {
	for e := -1; ; e++ {
		for _, m := range []float64{1, 2, 5} {
			if round := m * math.Pow10(e); unit.Length(round)*one/unit.Length(c.plan.Scale) >= 12 {
				return round
			}
		}
	}
}
