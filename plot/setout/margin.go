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

// margin is the head and the foot of every page; what all figures count stands at
// the head of the first.
func (c composer) margin() sheet.Margin {
	name := c.Piece
	if name == "" {
		for _, n := range c.Outline[:min(len(c.Outline), 12)] {
			name += string(n)
		}
	}
	return sheet.Margin{
		Title: name, Second: []string{c.heads().Title(false), c.Job, c.Date}, Inches: c.Inches(), Printer: c.Printer,
		Third: c.heads().Units(false, c.Style)[:2],
	}
}

// scaleBar is the plan's scale as a bar and as a ratio, from its top left down.
func (c composer) scaleBar(at geom.Point) draw.Drawing {
	step, n, name := c.barStep()
	paper := step / unit.Length(c.plan.Scale)
	y := at.Y - 6
	d := draw.Drawing{sheet.NoteLine(at.X, y, at.X+paper*unit.Length(n), y, draw.Wide)}
	for i := range n + 1 {
		x := at.X + paper*unit.Length(i)
		d = append(d, sheet.NoteLine(x, y, x, y+2, draw.Narrow))
		a := draw.Middle
		if i == 0 {
			a = draw.Left
		}
		d = append(d, sheet.Note(name(i), x, y+3, a))
	}
	d = append(d, draw.Text{At: geom.Point{X: at.X + paper*unit.Length(n) + 10, Y: y}, Height: draw.FigureHeight, Bold: true, Words: fmt.Sprintf("1:%d", c.plan.Scale), On: draw.Notes})
	not := sheet.Note(c.heads().NoScale(), at.X, y-4.4, draw.Left)
	not.Of = &draw.Tag{}
	return append(d, not)
}

// barStep is the length that one part of the scale bar stands for: a round
// number of metres or feet, some 12 to 30 mm on paper.
func (c composer) barStep() (step unit.Length, n int, name func(int) string) {
	one, sign := unit.Metre, "m"
	if c.Inches() {
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
