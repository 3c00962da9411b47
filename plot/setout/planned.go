package setout

import (
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// planned is what a plan shows, whatever the layout has for pegs: everything on
// the ground, in the plane in which the baseline lies on the x axis, its left end
// at the origin. Pegs may lie above and below it and beyond its ends.
type planned struct {
	Edge      []geom.Name // outline, once round; none: pegs alone
	Pegs      []planPeg
	Sides     []planSide
	Strokes   []planStroke
	Base      [2]geom.Name // its left and its right end
	ZeroFirst bool         // running distances count from Base[0]
	// Enlarged is how many times larger than the plan the ellipses are: 0 draws
	// none, roundly takes a round number that makes them easy to see.
	Enlarged Ratio
	// Details: where pegs crowd, their names stand in details of their own, which
	// then have to be printed too. Otherwise all names are on the plan.
	Details bool
	// Wide is how wide the running figures may spread on paper: as far as the plan
	// reaches in any case.
	Wide  unit.Length
	North Reference
	Notes []string // a line each, below the plan
}

// roundly as planned.Enlarged is 1, 2 or 5 times a power of ten, as fits the plan.
const roundly Ratio = -1

// planPeg is a mark as the plan shows it. One without a name is drawn and not
// lettered.
type planPeg struct {
	Name    geom.Name
	Number  int // in the order of the work, in a circle behind the name; 0: none
	At      geom.Point
	Role    Role
	Also    bool           // ticked across the baseline as well: the middle of it
	Ellipse adjust.Ellipse // half axes on the ground of the one that holds 95 %
	Along   unit.Length    // running distance from the zero end
	Running string         // its figure as the running dimensions have it; empty: it has none there
}

// planSide is a length beside the line between two pegs. Where nothing else draws
// that line, it is drawn narrow.
type planSide struct {
	From, To geom.Name
	Words    string // as printed, with parentheses where computed
	Measured bool   // these find their places first
}

// planStroke is a mark of the hand's work.
type planStroke struct {
	Kind     strokeKind
	From, To geom.Point
}

type strokeKind uint8

const (
	arcTo      strokeKind = iota // the tape's end swung about From, near To
	offsetTo                     // from a foot on the baseline to the peg
	sightTo                      // from an instrument to the peg
	squareLeg                    // a side of a 3-4-5 that nothing else draws
	rightAngle                   // the sign of one at From, in the quarter that To lies in
	board                        // a profile board
	stringLine                   // a string from board to board
)

// extent is the rectangle round all that has a place on the ground.
func (p planned) extent() geom.Rect {
	var all []geom.Point
	for _, peg := range p.Pegs {
		all = append(all, peg.At)
	}
	for _, s := range p.Strokes {
		if s.Kind != rightAngle {
			all = append(all, s.From, s.To)
		}
	}
	if len(all) == 0 {
		return geom.Rect{}
	}
	return geom.RectOf(all[0], all...)
}
