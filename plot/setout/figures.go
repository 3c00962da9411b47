package setout

import (
	"fmt"
	"strings"

	"trammel/geom/tape"
	"trammel/geom/unit"
)

// grainWords name the step that accept ranges are given to.
func grainWords(f tape.Figures) string {
	if f.Inches() {
		return fmt.Sprintf("1/%d in", f.Fraction())
	}
	return "the whole millimetre"
}

// bracketed is a figure that is in parentheses where it is computed.
func bracketed(figure string, measured bool) string {
	if !measured {
		return "(" + figure + ")"
	}
	return figure
}

// keeps is what an instrument keeps, in minutes or seconds.
func keeps(a unit.Angle) string {
	if a < unit.Degree/60 {
		return unit.Decimals(a.Degrees()*3600, 2) + "″"
	}
	return unit.Decimals(a.Degrees()*60, 2) + "′"
}

func upper(words string) string {
	first := []rune(words)
	return strings.ToUpper(string(first[:1])) + string(first[1:])
}
