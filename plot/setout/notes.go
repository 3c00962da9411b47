package setout

import (
	"trammel/geom"
	"trammel/geom/pegging"
)

func edge(e [2]geom.Name) string { return string(e[0] + e[1]) }

// checkNote says what a check is.
func checkNote(c pegging.Check) string {
	if c.Along == pegging.HalfOfSide {
		return "half of " + edge(c.HalfOf)
	}
	return [...]string{
		pegging.AlongEdge: "side", pegging.AlongDiagonal: "diagonal", pegging.AlongLine: "line", pegging.FromOtherEnd: "from the other end",
		pegging.FromMiddle: "from the middle", pegging.AlongHeight: "height", pegging.AlongHeightHalf: "height, median",
		pegging.AlongFoot: "foot", pegging.AlongMedian: "median",
	}[c.Along]
}

// crossingNote says whether arcs that cross so are to be trusted.
func crossingNote(c pegging.Crossing) string {
	if c.Sound {
		return "sound"
	}
	return "flat, so go slowly"
}

// pullNote says where a pull's length comes from.
func pullNote(p pegging.Pull) string {
	switch {
	case p.Measured:
		return "measured"
	case p.Use == pegging.ForLeg:
		return "chosen"
	}
	return "computed"
}

// sureNote says whether a peg is as sure as is permitted.
func sureNote(x pegging.Sure) string {
	if x.Inside {
		return "inside"
	}
	return "outside"
}

func wayWords(m pegging.Method) string {
	return [...]string{"two arcs", "offset by 3-4-5", "angle and distance"}[m]
}
