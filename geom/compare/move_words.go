package compare

import (
	"fmt"
	"math"

	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Distance is how far the move is, as a hammer does it: "14 mm".
func (m Moved) Distance(style unit.Style) string { return moveBy(m.Off, style) }

// Stands says how far off a peg stands: "C stands 14 ± 5 mm off its place."; ±
// is the 95 % figure. Where one direction alone is known of it: "C stands 14 ± 5 mm too
// near to A."
func (m Moved) Stands(style unit.Style) string {
	off := "off its place"
	switch {
	case m.Known == 1 && m.From != "" && m.Toward > 0:
		off = "too far from " + string(m.From)
	case m.Known == 1 && m.From != "":
		off = "too near to " + string(m.From)
	}
	return fmt.Sprintf("%s stands %s %s.", m.Name, m.by(style), off)
}

// Move says how it is mended: "Move it 12 mm towards A and 7 mm to the left, seen
// from A."
func (m Moved) Move(style unit.Style) string {
	if m.From == "" {
		return "Set it out anew."
	}
	toward, left := "towards", "left"
	if m.Toward < 0 {
		toward = "away from"
	}
	if m.Left < 0 {
		left = "right"
	}
	along := fmt.Sprintf("%s %s %s", moveBy(m.Toward, style), toward, m.From)
	across := fmt.Sprintf("%s to the %s", moveBy(m.Left, style), left)
	switch t, l := math.Abs(float64(m.Toward)), math.Abs(float64(m.Left)); {
	case m.Known == 1 || nothing(m.Left, style) || l < inLine*t && l < tape.Expansion*float64(m.LeftSigma):
		return "Move it " + along + "."
	case nothing(m.Toward, style) || t < inLine*l && t < tape.Expansion*float64(m.TowardSigma):
		return fmt.Sprintf("Move it %s, seen from %s.", across, m.From)
	}
	return fmt.Sprintf("Move it %s and %s, seen from %s.", along, across, m.From)
}

// moveBy is the size of a move as a hammer does it: whole millimetres, or the
// style's fraction of an inch.
func moveBy(l unit.Length, style unit.Style) string {
	l = unit.Length(math.Abs(float64(l)))
	if style.Unit >= unit.IN {
		return style.LengthUnit(l)
	}
	return unit.Style{Decimals: -1}.LengthUnit(l)
}

// nothing says whether a move would be told as 0.
func nothing(l unit.Length, style unit.Style) bool { return moveBy(l, style) == moveBy(0, style) }
