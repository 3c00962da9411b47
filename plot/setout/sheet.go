package setout

import (
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// Sheet is a setting-out sheet as data. Lengths are exact; they are rounded where
// they are written.
type Sheet struct {
	Job, Piece, Date string
	Printer          string // the one that the pages are made for; empty: any
	Index            int    // of the piece in the job
	Language         words.Language
	tape.Figures
	Tools   tape.Tools
	North   Reference
	Outline []geom.Name // once round, counter-clockwise; empty: the points have no edge

	// Place leads from the net's own plane to that of the sheet: the baseline on
	// the x axis, its left end at the origin, more of the pegs above it than below.
	Place geom.Placement

	Baseline Baseline
	Grid     [2]geom.Name // the baseline as coordinates and its bearing take it: from the first to the second
	Method   pegging.Method
	Pegs     []Peg     // in the order in which they are set
	Pulls    []Pull    // in the order of the work
	Main     []Placing // the corners beside the baseline, in the order of the work
	Second   []Placing // the same by another method, as a check: where there is but one
	Squares  []Square
	Ranking  Ranking
	Sure     []Sure // one for each point of the net, in the order of Pegs
	Checks   []Check

	Permitted, Every, Boards unit.Length // as asked for; 0: not
	Marks                    []EdgeMark
	Nails                    []Nail   // in profile boards
	Strings                  []String // from nail to nail

	// Corrected: pulls, checks, marks and nails are told as the tape reads. Weighed: for
	// what the tape is and how it is used. Falls: for the fall of the ground.
	Corrected, Weighed, Falls bool

	Ground     pegging.Ground // under the pegs, where Falls
	Standard   tape.Standard
	Conditions tape.Conditions

	Steps    []Step
	Bring    []string
	Cautions []string
	Doubts   []string // about what was measured
	Basis    []string // how the accept ranges are reckoned

	sides  map[geom.Name]geom.Point // points of the net in the sheet's plane
	net    net.Adjusted
	level  map[geom.Name]unit.Length // of every mark, where Falls
	given  []net.Result
	middle geom.Name // the mark that the net's checks are pulled from; empty: none
}

// Baseline is the line that everything is set out from.
type Baseline struct {
	Zero     int       // 0: running distances count from its left end, 1: from its right end
	From, To geom.Name // From has the zero
	Length   unit.Length
	Measured bool
}

// Role is what a peg is for.
type Role uint8

const (
	Corner    Role = iota
	Foot           // of a corner, on the baseline
	Middle         // of a side
	SquareLeg      // on the baseline: end of the 3-4-5's leg
	SquareTop      // over the foot: end of the 3-4-5's other leg
)

// Peg is a mark on the ground.
type Peg struct {
	Name   geom.Name
	Number int
	Role   Role
	At     geom.Point  // in the sheet's plane
	Along  unit.Length // running distance along the baseline from its zero end, never chained; negative: behind it
	Offset unit.Length // square to the baseline, never negative
	Side   Side        // of the baseline
	Of     [2]geom.Name
	Also   bool   // a Foot that is the middle of the baseline as well
	Note   string // what it is
}

// Side of the baseline, looking from its zero end to the other.
type Side uint8

const (
	OnLine Side = iota
	Left
	Right
)

func (s Side) String() string { return [...]string{"", "left", "right"}[s] }

// Use is what a pull of the tape is for.
type Use string

const (
	ForBaseline Use = "baseline"
	ForRunning  Use = "along"
	ForArc      Use = "arc"
	ForLeg      Use = "square"
	ForHeight   Use = "height" // an offset
	ForAngle    Use = "angle"  // turned, not pulled
	ForRay      Use = "ray"    // along the sight
	ForMiddle   Use = "middle"
)

// Whole says whether the pull is of a length from peg to peg.
func (u Use) Whole() bool { return u == ForBaseline || u == ForRunning || u == ForArc || u == ForRay }

// Part of the work that a pull belongs to.
type Part string

const (
	MainWay   Part = "main way"
	SecondWay Part = "second way"
	ForChecks Part = "for the checks"
)

// Pull is one pull of the tape: zero held at one mark, a length read at another;
// or one angle turned at Hold from the other end of the baseline to To.
type Pull struct {
	Number   int
	Use      Use
	Part     Part // empty: the baseline and the marks on it
	Hold, To geom.Name
	Length   unit.Length // true
	Reads    unit.Length // what the tape shows: Length, unless it is corrected
	By       tape.Corrections
	Behind   bool        // of a mark along the baseline: on the far side of Hold
	Angle    unit.Angle  // of an angle
	Side     Side        // to which it is turned
	Measured bool        // one of the measurements; otherwise computed
	Limit    unit.Length // good within ± this, see the package comment; 0 of an angle
	Within   unit.Angle  // of an angle, good within ± this
}

// Placing is one way to place one corner.
type Placing struct {
	Peg      geom.Name
	Method   pegging.Method
	Side     Side
	Pulls    []int // into Sheet.Pulls
	Crossing Crossing
	Square   int       // into Sheet.Squares; −1: none
	Foot     geom.Name // of an offset
	Behind   bool      // of an offset: the foot lies on the extended line
	// Rounding is how far from its true place the corner comes when the printed
	// figures are followed exactly: what rounding them costs.
	Rounding unit.Length
}

// Ratio is a number without a unit.
type Ratio float64

// Crossing is how the two arcs meet at a corner.
type Crossing struct {
	At    geom.Name
	Angle unit.Angle // between the two pulls
	Sound bool       // 30° to 150°
	// Spread is σ_P/σ = √2/sin γ: how much further off the corner is than one pull.
	Spread Ratio
}

// Arcs that cross at an angle outside these are not to be trusted (common
// practice, no source).
const (
	Flattest = 30 * unit.Degree
	Bluntest = 150 * unit.Degree
)

// Square is the 3-4-5 triangle at the foot of an offset.
type Square struct {
	At, Leg, Top geom.Name // the foot, the mark on the baseline, the mark over the foot
	Toward       geom.Name // the end of the baseline on whose side Leg lies, seen from At
	pegging.Square
	Side Side           // on which Top lies
	Loop [3]unit.Length // the tape in one loop from 0 at the foot: at Leg, at Top, at the foot again
	// Past is by how much the foot lies beyond the end End of the baseline, which
	// has to be extended there; 0 where it lies on the baseline.
	Past unit.Length
	End  geom.Name
}

// Ranking of the ways of setting out, the surest first.
type Ranking struct {
	Best []pegging.Way // the best few, the one that is used among them
	Used int           // index into Best
	Of   int           // how many were compared
	Why  string        // in a sentence; empty where there was nothing to choose
}

// Sure is how sure a corner is.
type Sure struct {
	Peg           geom.Name
	Along, Across unit.Length    // σ along the baseline and across it, all in all
	Ellipse       adjust.Ellipse // the one that holds 95 of 100, in the sheet's plane
	// 95 % figures: from the measurements, from the setting-out, from both.
	Measured, SetOut, Both unit.Length
	// Distance from the nearer end of the baseline, and what that permits; 0: not asked for.
	Distance, Permitted unit.Length
	Inside              bool // Both is not more than Permitted
}

// CheckKind is what a check compares.
type CheckKind string

const (
	CheckHeight   CheckKind = "height"
	CheckFoot     CheckKind = "foot"
	CheckMedian   CheckKind = "median"
	CheckMiddles  CheckKind = "middles"
	CheckSide     CheckKind = "side"
	CheckDiagonal CheckKind = "diagonal"
)

// Check is a distance that was not used to set out.
type Check struct {
	Number   int
	Kind     CheckKind
	From, To geom.Name
	Value    unit.Length // true
	Reads    unit.Length // what the tape shows
	Least    unit.Length // accepted from, as the tape shows it
	Greatest unit.Length // to
	Measured bool
	Note     string
	Half     unit.Length // half the range before its ends were moved outward
}

// EdgeMark is a mark on an edge, for where a line cannot be stretched.
type EdgeMark struct {
	Edge   [2]geom.Name // counted from the first
	At     unit.Length  // from there
	Along  unit.Length  // as of a peg
	Offset unit.Length
	Side   Side
	Point  geom.Point // in the sheet's plane
}

// Nail in a profile board: where the line of an edge, beyond a corner, is clear of
// the digging.
type Nail struct {
	Edge   [2]geom.Name
	Beyond geom.Name   // one of its ends
	Past   unit.Length // from there
	Along  unit.Length // as of a peg
	Offset unit.Length
	Side   Side
	Point  geom.Point
}

// String runs over an edge from nail to nail. It crosses those of the edges before
// and after it over its two corners.
type String struct {
	Edge    [2]geom.Name
	Length  unit.Length    // from nail to nail
	Corners [2]unit.Length // from its first nail to either corner
	With    [2][2]geom.Name
}

// Step is one numbered step of the work.
type Step struct {
	Number int
	Words  string
}
