package draw

import "fmt"

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
