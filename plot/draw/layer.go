package draw

import "fmt"

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
