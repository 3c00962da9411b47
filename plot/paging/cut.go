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
			// Edge by edge: each starts as far into the dashes as it lies from the
			// first corner. A narrow dash loses nothing visible without its mitre.
			way := unit.Length(0)
			for i := range edges(o) {
				l := geom.Line{From: o.Points[i], To: o.Points[(i+1)%len(o.Points)]}
				if c, ok := geom.ClipLine(l, window); ok {
					dst = append(dst, draw.Shift(draw.Line{Line: c, Pen: later(o.Pen, way+l.From.Distance(c.From)), On: o.On, Of: o.Of}, by))
				}
				way += l.Length()
			}
		} else {
			for _, run := range geom.ClipPolyline(o.Points, o.Closed, window) {
				dst = append(dst, draw.Shift(draw.Polyline{Points: run, Pen: o.Pen, On: o.On, Of: o.Of}, by))
			}
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

func edges(o draw.Polyline) int {
	if o.Closed {
		return len(o.Points)
	}
	return len(o.Points) - 1
}
