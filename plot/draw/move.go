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
func OnLayer(op Op, l Layer) Op { return changed(op, func(on *Layer, _ **Tag) { *on = l }) }

// changed is the operation with its layer or its tag changed.
func changed(op Op, change func(*Layer, **Tag)) Op {
	switch o := op.(type) {
	case Line:
		change(&o.On, &o.Of)
		return o
	case Arc:
		change(&o.On, &o.Of)
		return o
	case Polyline:
		change(&o.On, &o.Of)
		return o
	case Path:
		change(&o.On, &o.Of)
		return o
	case Text:
		change(&o.On, &o.Of)
		return o
	}
	panic(fmt.Sprintf("draw: unknown operation %T", op))
}
