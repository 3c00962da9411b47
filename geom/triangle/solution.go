// Package triangle knows what can be measured of a triangle, solves the triangle that it
// fixes, and says how far each corner moves for a slip in a measurement.
//
// Files, from the top floor to the ground: solve.go, sensitivity.go, branch.go,
// redundancy.go, redundancy_plain.go, solve_heights.go, solve_sides.go,
// solve_reasons.go, solve_direct.go, solve_square.go, solution.go, triangle.go,
// measurement.go, solve_names.go, solve_words.go, solve_triple.go, solve_number.go.
package triangle

import "trammel/geom/unit"

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
	Warnings  []string   // plain sentences: what is doubtful
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

// NoTriangle says that the measurements fix no single triangle.
type NoTriangle struct {
	What    string // in the words of the trade
	Hint    string
	Subject unit.Subject // that would tell, where there is one
	unit.Advice
}

func (e *NoTriangle) Error() string { return e.What }
