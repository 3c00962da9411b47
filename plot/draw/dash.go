package draw

import "trammel/geom/unit"

// Lengths of the marks and gaps of a line type drawn with a pen of the width,
// mark first, in the order in which they repeat; nil for a continuous line.
//
// They are the multiples of the line width that ISO 128-2 gives for lines drawn
// with butt ends: dash 12, long dash 24, gap 3, dot not more than 0.5.
func (d Dash) Lengths(width unit.Length) []unit.Length {
	var l []unit.Length
	for _, k := range dashes[d] {
		l = append(l, width*k)
	}
	return l
}

const (
	dot      = 0.5
	gap      = 3
	dash     = 12
	longDash = 24
)

var dashes = [...][]unit.Length{
	Continuous:           nil,
	Dashed:               {dash, gap},
	LongDashDotted:       {longDash, gap, dot, gap},
	LongDashDoubleDotted: {longDash, gap, dot, gap, dot, gap},
}
