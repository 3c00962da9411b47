package draw

import (
	"fmt"

	"trammel/geom"
)

// Move places an operation: turned, then shifted.
func Move(op Op, m geom.Placement) Op {
	switch o := op.(type) {
	case Line:
		o.Line = m.Line(o.Line)
		return o
	case Arc:
		o.Arc = m.Arc(o.Arc)
		return o
	case Polyline:
		o.Points = m.Polygon(o.Points)
		return o
	case Path:
		o.Segments = m.Contour(o.Segments)
		return o
	case Text:
		o.At, o.Turn = m.Apply(o.At), o.Turn+m.Turn
		return o
	}
	panic(fmt.Sprintf("draw: unknown operation %T", op))
}

// Shift moves an operation.
func Shift(op Op, by geom.Point) Op { return Move(op, geom.Placement{Shift: by}) }

// OnLayer is the operation on another layer.
func OnLayer(op Op, l Layer) Op {
	switch o := op.(type) {
	case Line:
		o.On = l
		return o
	case Arc:
		o.On = l
		return o
	case Polyline:
		o.On = l
		return o
	case Path:
		o.On = l
		return o
	case Text:
		o.On = l
		return o
	}
	panic(fmt.Sprintf("draw: unknown operation %T", op))
}
