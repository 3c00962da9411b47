package plan

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Sizes of a move, on paper: it has no scale.
const (
	moveLong  unit.Length = 13 // from the cross to the place
	crossHalf unit.Length = 1.6
	wedgeLong unit.Length = 3.2
	wedgeHalf unit.Length = 0.9
)

// moves draws where pegs stand that are wrong.
func (v *view) moves() {
	for _, m := range v.Moves {
		if to, ok := v.at[m.Name]; ok {
			v.move(to, m)
		}
	}
}

// move draws a cross where a peg stands and an arrow to its place, true in direction alone.
func (c *scene) move(to geom.Point, m Move) {
	dir := m.Way
	from := to.Toward(dir+unit.Turn/2, moveLong)
	for _, d := range []unit.Angle{45 * unit.Degree, -45 * unit.Degree} {
		c.line(from.Toward(dir+d, crossHalf), from.Toward(dir+d, -crossHalf), draw.Wide, draw.Notes)
	}
	tip := to.Toward(dir, -cornerPeg-0.3)
	base := tip.Toward(dir, -wedgeLong)
	c.line(from, base, draw.Narrow, draw.Notes)
	c.solid(geom.Polygon{tip, base.Toward(dir+unit.Turn/4, wedgeHalf), base.Toward(dir-unit.Turn/4, wedgeHalf)}, draw.Notes)
	l := label{words: m.Words, height: draw.FigureHeight, bold: true, on: draw.Notes, anchor: from, clear: crossHalf}
	var places []spot
	wider := l.width(c.r) / 2
	for _, out := range []unit.Length{3.4, 5} {
		for _, a := range []unit.Angle{0, 45, -45, 90, -90, 135, -135, 180} {
			way := dir + unit.Turn/2 + a*unit.Degree
			places = append(places, spot{from.Toward(way, out).Plus(geom.Point{X: wider * unit.Length(math.Cos(float64(way)))}), 0})
		}
	}
	if !c.label(l, places, nil) {
		c.lead(l, longReach, true)
	}
}
