package words

import (
	"trammel/geom/compare"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/words/checked"
)

// Ranges are what readings were held to.
type Ranges = checked.Ranges

// Checks tells what became of a layout that was measured back.
type Checks interface {
	// Verdict says in a sentence whether the layout passed.
	Verdict(c compare.Comparison) string
	// Advice says what is wrong and what to do next; empty where there is nothing to do.
	Advice(c compare.Comparison, style unit.Style) []string
	// Move says how a peg that stands wrong is mended: "Move it 12 mm towards A and
	// 7 mm to the left, seen from A."
	Move(m compare.Moved, style unit.Style) string
	// OnPlan is the label of a move: "move 14 mm", "perhaps 14 mm" where it is not sure.
	OnPlan(m compare.Moved, sure bool, style unit.Style) string
	// Reading is the verdict on one in a word.
	Reading(r compare.Compared) string
	// Held says in a plain line what readings were held to.
	Held(r Ranges) string
	// Basis says to the office how the ranges are reckoned.
	Basis(r Ranges, f tape.Figures, c compare.Comparison) string
}
