package plan

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Sizes of a tape line, on paper.
const (
	tapeFigures unit.Length = 6.5 // base line of its figures, below it
	tapeBetween unit.Length = 3   // from figure to figure
	tapeAside   unit.Length = 5   // how far a figure may stand beside its mark
	tapeWedge   unit.Length = 2.6
)

// layRunning settles whether the figures have room along the tape, each below its mark: the
// marks then have their names beside them.
func layRunning(v *view, marks []runMark) bool {
	slices.SortStableFunc(marks, func(a, b runMark) int { return cmp.Compare(a.x, b.x) })
	for i, x := range figuresAt(v, marks) {
		if math.Abs(float64(x-marks[i].x)) > float64(tapeAside) {
			return false
		}
	}
	v.dims, v.flat = marks, true
	return true
}

// figuresAt are the places of the middles of figures that stand in a row.
func figuresAt(v *view, marks []runMark) []unit.Length {
	at, offset := make([]unit.Length, len(marks)), make([]unit.Length, len(marks))
	for i, m := range marks {
		if i > 0 {
			offset[i] = offset[i-1] + (figureWidth(v, marks[i-1])+figureWidth(v, m))/2 + tapeBetween
		}
		at[i] = m.x - offset[i]
	}
	spread(at, 0)
	for i := range at {
		at[i] += offset[i]
	}
	return at
}

func figureWidth(v *view, m runMark) unit.Length {
	return v.r.Width(m.figure, draw.FigureHeight, m.given)
}

// runningFlat draws the tape from its zero, a wedge and a figure for every mark.
func runningFlat(v *view) {
	marks := v.dims
	at := figuresAt(v, marks)
	first, last := marks[0].x, marks[len(marks)-1].x
	line := v.runLevel(first, last)
	zero, way := v.at[v.Base[0]].X, unit.Length(1)
	if !v.ZeroFirst {
		zero, way = v.at[v.Base[1]].X, -1
	}
	v.line(geom.Point{X: first, Y: line}, geom.Point{X: last, Y: line}, draw.Narrow, draw.Dimension)
	for i, m := range marks {
		v.line(geom.Point{X: m.x, Y: -cornerPeg - 1}, geom.Point{X: m.x, Y: line - 1.2}, draw.Narrow, draw.Dimension)
		if off := m.x - zero; math.Abs(float64(off)) < onLine {
			v.circle(geom.Point{X: m.x, Y: line}, 0.9, draw.Narrow, draw.Dimension)
		} else {
			back := tapeWedge * way
			if off*way < 0 { // behind the zero
				back = -back
			}
			v.solid(geom.Polygon{{X: m.x, Y: line}, {X: m.x - back, Y: line + 0.7}, {X: m.x - back, Y: line - 0.7}}, draw.Dimension)
		}
		if math.Abs(float64(at[i]-m.x)) > 0.5 {
			v.line(geom.Point{X: m.x, Y: line - 1.2}, geom.Point{X: at[i], Y: line - tapeFigures + draw.FigureHeight + 0.9}, draw.Narrow, draw.Dimension)
		}
		v.text(draw.Text{At: geom.Point{X: at[i], Y: line - tapeFigures}, Height: draw.FigureHeight, Align: draw.Middle, Bold: m.given, Words: m.figure, On: draw.Dimension})
	}
}
