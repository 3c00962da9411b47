package lines

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom/unit"
)

// Area in the square of a unit that gives it three digits or so.
func Area(f unit.Style, a unit.Area) string {
	mm2 := float64(a)
	const inch2, foot2 = 25.4 * 25.4, 304.8 * 304.8
	switch {
	case f.Unit >= unit.IN && mm2 >= foot2:
		return figures(mm2/foot2) + " sq ft"
	case f.Unit >= unit.IN:
		return figures(mm2/inch2) + " sq in"
	case mm2 >= 1e4:
		return figures(mm2/1e6) + " m²"
	}
	return figures(mm2) + " mm²"
}

// figures writes four significant digits, never with an exponent.
func figures(x float64) string {
	digits := 0
	if x > 0 {
		digits = max(0, 3-int(math.Floor(math.Log10(x))))
	}
	return unit.Decimals(x, digits)
}

// SecondsBelow is the uncertainty below which an angle is written to the second.
const SecondsBelow = unit.Degree / 60

// AngleKnown is an angle as figures have it, and where those are in minutes and it is
// known to less than one, to the second.
func AngleKnown(f unit.Style, a, sigma unit.Angle) string {
	if f.Minutes && sigma < SecondsBelow {
		return unit.Seconds(a)
	}
	return f.Angle(a)
}

// SmallLength is a few millimetres to a tenth, or where inches are read, to a hundredth
// of one.
func SmallLength(f unit.Style, l unit.Length) string {
	if f.Unit >= unit.IN {
		return fmt.Sprintf("%.2f in", float64(l/unit.Inch))
	}
	return fmt.Sprintf("%.1f mm", l.MM())
}

// SignedSmall is the same with its sign.
func SignedSmall(f unit.Style, l unit.Length) string {
	if l < 0 {
		return "-" + SmallLength(f, -l)
	}
	return "+" + SmallLength(f, l)
}

// Sentence begins with a capital letter.
func Sentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// Plural counts things.
func Plural(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
