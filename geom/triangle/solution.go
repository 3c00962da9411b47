// Package triangle knows what can be measured of a triangle, solves the triangle that it
// fixes, and says how far each corner moves for a slip in a measurement.
//
// Files, from the top floor to the ground: solve.go, sensitivity.go,
// redundancy.go, redundancy_plain.go, solve_heights.go, solve_sides.go, solve_reasons.go, solve_square.go, solution.go,
// triangle.go, measurement.go, solve_names.go, solve_words.go, figures.go, solve_triple.go, solve_number.go.
package triangle

import (
	"math/big"

	"trammel/geom"
	"trammel/geom/unit"
)

// Solution is what a set of measurements fixes.
type Solution struct {
	Case     string        // the set that was solved: SSS, SAS, ASA, AAS, SSA, or with H for a height SSH, SAH, SHH, AAH, AHH, HHH (side, angle, height in this order)
	Answers  []Answer      // one, or two where two triangles fit, in the order that Solve says
	Measured []Measurement // all of them, in the order given
}

// Answer is one triangle that fits, with what is known of its reliability.
type Answer struct {
	Triangle  Triangle
	Residuals []Residual // one for each measurement, in order
	Moves     []Move     // how far each corner moves for a slip in each measurement
	Doubts    []Doubt    // what is doubtful
}

// Residual compares a measurement with the triangle.
type Residual struct {
	Length unit.Length // computed less measured, of a distance or a height
	Angle  unit.Angle  // the same of an angle
}

// Move is the sensitivity to one measurement: how far each corner moves, with
// the baseline's first corner and direction held, when the measurement is 1 mm
// (a length) or 0.5° (an angle) more; less, where more leaves no triangle.
// Solved again and not from a derivative: see moves for the accuracy.
type Move struct {
	Measurement int // index into Solution.Measured
	Corners     [3]unit.Length
}

// DoubtCode tells doubts apart.
type DoubtCode uint8

const (
	SlipMoves  DoubtCode = iota // a slip in a measured length moves a corner far
	SlipEnds                    // after a slip there is no triangle, or only the other of two
	NearlySame                  // the two triangles that fit are nearly the same
	Tolerances                  // those stated leave a corner in doubt
	LeftOut                     // a second triangle fits, one side of which is too short or too long
)

// Doubt is one thing that is doubtful; which fields say something depends on its code.
type Doubt struct {
	Code     DoubtCode
	Measured int          // SlipMoves, SlipEnds: index into Solution.Measured
	Less     bool         // SlipEnds: the slip takes away
	Other    bool         // SlipEnds: the other triangle still fits
	End      *big.Rat     // SlipEnds: the value at which this triangle ends (mm, degrees); nil where that is not known, or is what was measured
	Corner   geom.Name    // SlipMoves, NearlySame, Tolerances: that moves, or lies apart
	Side     [2]geom.Name // LeftOut: that would be too short or too long
	By       unit.Length  // how far the corner moves (SlipMoves: for a slip of 1 mm) or lies apart; LeftOut: the side
}

// NoTriangle says that the measurements fix no single triangle.
type NoTriangle struct {
	What    string // in the words of the trade
	Hint    string
	Subject unit.Subject // that would tell, where there is one
	unit.Advice
}

func (e *NoTriangle) Error() string { return e.What }
