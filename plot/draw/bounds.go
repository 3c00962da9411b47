package draw

import (
	"trammel/geom"
	"trammel/geom/unit"
)

func (o Line) Bounds(Ruler) geom.Rect     { return geom.RectOf(o.From, o.To) }
func (o Arc) Bounds(Ruler) geom.Rect      { return o.Arc.Bounds() }
func (o Polyline) Bounds(Ruler) geom.Rect { return geom.RectOf(o.Points[0], o.Points[1:]...) }

// descent is how far letters reach below the base line, in capital heights: the
// Go fonts' g, p, q and y reach 0.29 of a capital height down; a little more for
// parentheses and commas.
const descent = 0.35

// Box is the four corners of the text, counter-clockwise from the lower left as
// the words are read.
func (o Text) Box(r Ruler) [4]geom.Point {
	w := r.Width(o.Words, o.Height, o.Bold)
	x0 := -o.Align.Before(w)
	m := geom.Placement{Turn: o.Turn, Shift: o.At}
	lo, hi := -o.Height*descent, o.Height
	return [4]geom.Point{
		m.Apply(geom.Point{X: x0, Y: lo}), m.Apply(geom.Point{X: x0 + w, Y: lo}),
		m.Apply(geom.Point{X: x0 + w, Y: hi}), m.Apply(geom.Point{X: x0, Y: hi}),
	}
}

func (o Text) Bounds(r Ruler) geom.Rect {
	b := o.Box(r)
	return geom.RectOf(b[0], b[1:]...)
}

// Before is how much of a line of words so wide stands before its At.
func (a Align) Before(width unit.Length) unit.Length { return width * [...]unit.Length{0, 0.5, 1}[a] }
