// Package plan draws pegs at a scale: a layout's pegs, sides and strokes of the work, with
// names, lengths and running dimensions that lie on nothing else, in mm on paper. What is
// on the ground is given in the plane in which the baseline lies on the x axis. Where pegs
// crowd, details enlarge them.
//
// Files, from the top floor to the ground: details.go, draw.go, work.go, names.go,
// rings.go, angles.go, lengths.go, moves.go, crowds.go, notes.go, ellipses.go, linework.go, shown.go, label.go,
// running.go, tapeline.go, turned.go, plan.go, scene.go.
package plan

import (
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// Plan is what a plan shows: everything on the ground, in the plane in which the baseline
// lies on the x axis, its left end at the origin. Pegs may lie all about it.
type Plan struct {
	Edge      []geom.Name // outline, once round; none: pegs alone
	Pegs      []Peg
	Sides     []Side
	Strokes   []Stroke
	Moves     []Move
	Angles    []Angle
	Rings     []Ring
	Small     bool         // a picture beside a table: small letters, nothing but lines and rings
	Base      [2]geom.Name // its left and its right end
	ZeroFirst bool         // running distances count from Base[0]
	// Enlarged is how many times larger than the plan the ellipses are: 0 draws
	// none, Roundly takes a round number that makes them easy to see.
	Enlarged float64
	// Details: where pegs crowd, their names stand in details of their own, which
	// then have to be printed too. Otherwise all names are on the plan.
	Details bool
	// Wide is how wide the running figures may spread on paper: as far as the plan
	// reaches in any case.
	Wide     unit.Length
	North    North
	Turn     unit.Angle     // by which all is drawn turned counter-clockwise about the baseline's left end
	Notes    []string       // a line each, below the plan
	Language words.Language // of what is read out; nil: English

	level unit.Angle // direction of the baseline, of a plan that was turned
}

// Roundly as Plan.Enlarged is 1, 2 or 5 times a power of ten, as fits the plan.
const Roundly float64 = -1

// North is what a plan's reference arrow points at.
type North struct {
	Name string     // "north", "the quay"; empty: no arrow
	Turn unit.Angle // counter-clockwise from the x axis
}

// Role is what a peg is drawn as.
type Role uint8

const (
	Corner   Role = iota // of the piece
	Helper               // any other mark
	Midpoint             // a tick across the line that it lies on
)

// Peg is a mark as the plan shows it; without a name it is not lettered.
type Peg struct {
	Name    geom.Name
	Figure  string // behind the name of a mark: how far it is from where the tape is held
	At      geom.Point
	Role    Role
	Also    bool           // ticked across the baseline as well: the middle of it
	Ellipse adjust.Ellipse // half axes on the ground of the one that holds 95 %
	Along   unit.Length    // running distance from the zero end
	Running string         // its figure as the running dimensions have it; empty: it has none there
	Given   bool           // that figure was measured
	Quiet   bool           // its name is left out
}

// Side is a length beside the line between two pegs, which is drawn where nothing else does.
type Side struct {
	From, To geom.Name
	Words    string // as printed
	Measured bool   // these find their places first, and are bold
}

// Angle is an angle that was measured, written in its corner.
type Angle struct {
	At, From, To geom.Name // from one arm to the other, less than half a turn
	Words        string
}

// Ring is a number in a ring on a line between two pegs, which it draws.
type Ring struct {
	From, To geom.Name
	Number   int
}

// Stroke is a mark of the hand's work.
type Stroke struct {
	Kind     Kind
	From, To geom.Point
}

// Move is how a peg that stands wrong is to be moved to its place.
type Move struct {
	Name  geom.Name
	Way   unit.Angle // from where it stands to its place
	Words string
}

type Kind uint8

const (
	ArcTo      Kind = iota // the tape's end swung about From, near To
	OffsetTo               // from a foot on the baseline to the peg
	SightTo                // from an instrument to the peg
	SquareLeg              // a side of a 3-4-5 that nothing else draws
	RightAngle             // the sign of one at From, in the quarter that To lies in
	Board                  // a profile board
	StringLine             // a string from board to board
)

// Extent is the rectangle round all that has a place on the ground.
func (p Plan) Extent() geom.Rect {
	p = p.turned()
	var all []geom.Point
	for _, peg := range p.Pegs {
		all = append(all, peg.At)
	}
	for _, s := range p.Strokes {
		if s.Kind != RightAngle {
			all = append(all, s.From, s.To)
		}
	}
	if len(all) == 0 {
		return geom.Rect{}
	}
	return geom.RectOf(all[0], all...)
}
