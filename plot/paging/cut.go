package paging

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// cut adds to dst what a window shows of an operation, moved by a shift. Strokes
// run to the window's edge and end there. Words and solid shapes are never cut
// in two: one that does not lie wholly within is left out. box is the
// operation's bounds. Dashes keep their step from page to page.
func cut(dst []draw.Op, op draw.Op, box, window geom.Rect, by geom.Point) []draw.Op {
	if !box.Meets(window) {
		return dst
	}
	if window.Holds(box) {
		return append(dst, draw.Shift(op, by))
	}
	if whole(op) {
		return dst
	}
	switch o := op.(type) {
	case draw.Line:
		if l, ok := geom.ClipLine(o.Line, window); ok {
			o.Pen = later(o.Pen, o.From.Distance(l.From))
			o.Line = l
			dst = append(dst, draw.Shift(o, by))
		}
	case draw.Arc:
		whole := o.Arc
		for _, a := range geom.ClipArc(whole, window) {
			o.Arc = a
			part := o
			part.Pen = later(o.Pen, whole.Radius*unit.Length(math.Abs(float64(a.Start-whole.Start))))
			dst = append(dst, draw.Shift(part, by))
		}
	case draw.Polyline:
		if o.Pen.Dash != draw.Continuous {
			// Edge by edge, as a path: a narrow dash loses nothing visible without its mitre.
			sides := geom.Polygon(o.Points).Contour()
			if !o.Closed {
				sides = sides[:len(sides)-1]
			}
			return cut(dst, draw.Path{Segments: sides, Pen: o.Pen, On: o.On, Of: o.Of}, box, window, by)
		}
		for _, run := range geom.ClipPolyline(o.Points, o.Closed, window) {
			dst = append(dst, draw.Shift(draw.Polyline{Points: run, Pen: o.Pen, On: o.On, Of: o.Of}, by))
		}
	case draw.Path:
		if o.Pen.Dash != draw.Continuous {
			for _, part := range o.Parts() {
				dst = cut(dst, part, part.Bounds(nil), window, by)
			}
			break
		}
		for _, run := range geom.ClipPath(o.Segments, o.Closed, window) {
			dst = append(dst, draw.Shift(draw.Path{Segments: run, Pen: o.Pen, On: o.On, Of: o.Of}, by))
		}
	}
	return dst
}

// whole says whether an operation is shown whole or not at all.
func whole(op draw.Op) bool {
	switch o := op.(type) {
	case draw.Text:
		return true
	case draw.Polyline:
		return o.Solid
	}
	return false
}

// later is a pen that has already drawn for a while.
func later(p draw.Pen, way unit.Length) draw.Pen {
	if p.Dash != draw.Continuous {
		p.Phase += way
	}
	return p
}
