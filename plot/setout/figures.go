package setout

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom/unit"
)

// styled is the style that the sheet writes in: metres, which a tape shows in
// millimetres, get three decimals where nothing else is asked.
func styled(s unit.Style) unit.Style {
	if s.Unit == unit.M && s.Decimals == 0 {
		s.Decimals = 3
	}
	return s
}

// Figure is a length as the sheet prints it, without its unit: as the style
// writes it, but metres with all their decimals.
func (s Sheet) Figure(l unit.Length) string {
	text := s.Style.Length(l)
	if s.Style.Unit != unit.M || s.Style.Decimals <= 0 {
		return text
	}
	whole, rest, _ := strings.Cut(text, ".")
	return whole + "." + rest + strings.Repeat("0", s.Style.Decimals-len(rest))
}

// Rounded is the length that Figure prints.
func (s Sheet) Rounded(l unit.Length) unit.Length {
	r, err := unit.ParseLength(strings.ReplaceAll(s.Figure(l), "\u2009", ""), s.Style.Unit)
	if err != nil {
		return l // no tape shows it: zero, which is refused as a measurement
	}
	return r.Length()
}

// grain is the step that accept ranges are given to.
func (s Sheet) grain() unit.Length {
	if !inches(s.Style) {
		return unit.Millimetre
	}
	return unit.Inch / unit.Length(s.denominator())
}

func (s Sheet) denominator() int {
	switch d := s.Style.Denominator; d {
	case 1, 2, 4, 8, 32, 64:
		return d
	}
	return 16
}

// outward moves the ends of a range out to whole millimetres, or to the style's
// fraction of an inch.
func (s Sheet) outward(from, to unit.Length) (unit.Length, unit.Length) {
	g := s.grain()
	// A range that ends on a whole step but for rounding stays there.
	const hair = 1e-6
	return unit.Length(math.Floor(float64(from/g)+hair)) * g, unit.Length(math.Ceil(float64(to/g)-hair)) * g
}

// grainWords name it.
func (s Sheet) grainWords() string {
	if inches(s.Style) {
		return fmt.Sprintf("1/%d in", s.denominator())
	}
	return "the whole millimetre"
}

// told is a figure that is in parentheses where it is computed.
func (s Sheet) told(l unit.Length, measured bool) string {
	if !measured {
		return "(" + s.Figure(l) + ")"
	}
	return s.Figure(l)
}
