package setout

import (
	"trammel/geom"
	"trammel/geom/unit"
)

// Sheet is a setting-out sheet as data. Lengths are exact; they are rounded where
// they are written.
type Sheet struct {
	Job, Piece, Date string
	Printer          string // the one that the pages are made for; empty: any
	Index            int    // of the piece in the job
	Style            unit.Style
	Tape             Tape
	North            Reference

	// Triangle on its baseline: corner 0 at the origin, corner 1 on the x axis,
	// the apex, corner 2, above. Place leads here from the solution's own plane.
	Triangle geom.Triangle
	Place    geom.Placement

	Baseline Baseline
	Pegs     []Peg
	Pulls    []Pull // the baseline and the marks on it
	Crossing Crossing
	Square   Square
	Ways     [2]Way // the first places the apex, the second checks it
	Middles  []Pull // the marks that only the checks need
	Checks   []Check
	Steps    []Step
	Bring    []string
	Cautions []string
	Basis    []string // how the accept ranges are reckoned
}

// Baseline is the side that everything is set out from.
type Baseline struct {
	Zero     int // 0: running distances count from Triangle corner 0, 1: from corner 1
	From, To geom.Name
	Length   unit.Length
	Measured bool
}

// Role is what a peg is for.
type Role uint8

const (
	Corner    Role = iota
	Foot           // of the height over the baseline
	Middle         // of a side
	SquareLeg      // on the baseline: end of the 3-4-5's leg
	SquareTop      // over the foot: end of the 3-4-5's other leg
)

// Peg is a mark on the ground.
type Peg struct {
	Name   geom.Name
	Role   Role
	At     geom.Point  // in the plane of Sheet.Triangle
	Along  unit.Length // running distance along the baseline from its zero end, never chained
	Offset unit.Length // square to the baseline, on the apex's side
	Of     [2]geom.Name
	Also   bool   // a Foot that is the middle of the baseline as well
	Note   string // what it is
}

// Use is what a pull of the tape is for.
type Use string

const (
	ForBaseline Use = "baseline"
	ForRunning  Use = "along"
	ForArc      Use = "arc"
	ForLeg      Use = "square"
	ForHeight   Use = "height"
	ForMiddle   Use = "middle"
)

// Pull is one pull of the tape: zero held at one mark, a length read at another.
type Pull struct {
	Number   int
	Use      Use
	Hold, To geom.Name
	Length   unit.Length
	Measured bool        // one of the measurements; otherwise computed
	Limit    unit.Length // good within ± this, see the package comment
}

// Method is a way to place the apex.
type Method uint8

const (
	SwingArcs    Method = iota // two arcs from the ends of the baseline
	OffsetSquare               // from the foot of the height, square by 3-4-5
)

// Way is one way to place the apex.
type Way struct {
	Method Method
	Pulls  []Pull // after the baseline
	// Rounding is how far from its true place the apex comes when the printed
	// figures of this way are followed exactly: what rounding them costs.
	Rounding unit.Length
}

// Ratio is a number without a unit.
type Ratio float64

// Crossing is how the two arcs meet at the apex.
type Crossing struct {
	At    geom.Name
	Angle unit.Angle // between the two pulls
	Sound bool       // 30° to 150°
	// Spread is σ_P/σ = √2/sin γ: how much further off the apex is than one pull.
	Spread Ratio
}

// Arcs that cross at an angle outside these are not to be trusted (common
// practice, no source).
const (
	Flattest = 30 * unit.Degree
	Bluntest = 150 * unit.Degree
)

// Square is the 3-4-5 triangle at the foot of the height.
type Square struct {
	At, Leg, Top      geom.Name   // the foot, the mark on the baseline, the mark over the foot
	Toward            geom.Name   // the end of the baseline on whose side Leg lies, seen from At
	Along, Up, Across unit.Length // 3 or 4, 4 or 3, and 5 times Unit
	Unit              unit.Length
	Loop              [3]unit.Length // the tape in one loop from 0 at the foot: at Leg, at Top, at the foot again
	// Past is by how much the foot lies beyond the end End of the baseline, which
	// has to be extended there; 0 where it lies on the baseline.
	Past unit.Length
	End  geom.Name
}

// CheckKind is what a check compares.
type CheckKind string

const (
	CheckHeight  CheckKind = "height"
	CheckFoot    CheckKind = "foot"
	CheckMedian  CheckKind = "median"
	CheckMiddles CheckKind = "middles"
	CheckSide    CheckKind = "side"
)

// Check is a distance that was not used to set out.
type Check struct {
	Number   int
	Kind     CheckKind
	From, To geom.Name
	Value    unit.Length
	Least    unit.Length // accepted from
	Greatest unit.Length // to
	Measured bool
	Note     string
	Half     unit.Length // half the range before its ends were moved outward
}

// Step is one numbered step of the work.
type Step struct {
	Number int
	Words  string
}
