package unit

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Style says how lengths and angles are written back. Every figure is rounded
// once, here; half of the last place goes up (away from zero). "Half" is judged
// on the value at 15 significant digits, about what a float64 carries: 0.15 mm
// is half of the way, though the nearest float64 lies a hair below.
//
// NIST Handbook 44 rounds half of a sixteenth to even; carpentry texts round it
// up (NAVEDTRA 14044), and so is it done here.
type Style struct {
	Unit        Unit // MM, CM, M: decimals; IN: inches and fractions; FT: feet, inches and fractions
	Denominator int  // of the smallest fraction of an inch: 1, 2, 4, 8, 16, 32 or 64; anything else means 16
	Decimals    int  // at most so many decimals of a metric unit, trailing zeros dropped; 0 means down to 0.1 mm (1 for MM, 2 for CM, 4 for M), less than 0 means none
	Minutes     bool // angles as degrees and minutes instead of 0.1°
}

const (
	thinSpace = "\u2009"
	minus     = "\u2212"
)

// Name of the unit in words, for a title line.
func (s Style) Name() string {
	return [...]string{"millimetres", "centimetres", "metres", "inches", "feet and inches"}[min(s.Unit, FT)]
}

// Length writes a length without the name of a metric unit: "2400", "12 345.5"
// (a thin space every three digits from 10 000 on), `94 1/2"`, `7'-10 1/2"`.
func (s Style) Length(l Length) string {
	if s.Unit >= IN {
		return s.inches(l)
	}
	return decimalText(float64(l), int64(s.Unit.Length()), s.decimals())
}

// Aligned is Length with all its decimals, as figures stand in a table: "820.0".
func (s Style) Aligned(l Length) string {
	text := s.Length(l)
	if s.Unit >= IN {
		return text
	}
	_, behind, found := strings.Cut(text, ".")
	if n := s.decimals(); n > 0 && !found {
		return text + "." + strings.Repeat("0", n)
	} else if n > len(behind) {
		return text + strings.Repeat("0", n-len(behind))
	}
	return text
}

// decimals of a metric unit at most.
func (s Style) decimals() int {
	return min(max(cmp.Or(s.Decimals, [...]int{MM: 1, CM: 2, M: 4}[s.Unit]), 0), 9)
}

// Signed is Length with its sign, also where it is positive.
func (s Style) Signed(l Length) string {
	if l < 0 {
		return minus + s.Length(-l)
	}
	return "+" + s.Length(l)
}

// LengthUnit writes a length with its unit: "2400 mm", "2.4 m", `7'-10 1/2"`.
func (s Style) LengthUnit(l Length) string {
	if s.Unit >= IN {
		return s.inches(l)
	}
	return s.Length(l) + " " + s.Unit.String()
}

// Angle writes an angle to 0.1° ("52.4°", "90°") or to the minute ("52°24′").
func (s Style) Angle(a Angle) string {
	degrees := a.Degrees()
	if !s.Minutes {
		return decimalText(degrees, 1, 1) + "°"
	}
	n, sign, ok := rounded(degrees, 60, 1)
	if !ok {
		return "?°"
	}
	return fmt.Sprintf("%s%d°%02d′", sign, n/60, n%60)
}

// decimalText writes x/per with at most so many decimals.
func decimalText(x float64, per int64, decimals int) string {
	p := int64(math.Pow10(decimals))
	n, text, ok := rounded(x, p, per)
	if !ok {
		return "?"
	}
	text += grouped(n / p)
	if n%p != 0 {
		text += trimmed("." + strconv.FormatInt(p+n%p, 10)[1:])
	}
	return text
}

func trimmed(decimal string) string {
	if strings.Contains(decimal, ".") {
		decimal = strings.TrimRight(strings.TrimRight(decimal, "0"), ".")
	}
	return decimal
}

// Decimals writes x with at most n decimals.
func Decimals(x float64, n int) string { return trimmed(strconv.FormatFloat(x, 'f', n, 64)) }

// rounded is |x|·num/den to the nearest whole number, half up, and the sign;
// ok is false for what is no number or has more than 15 digits or so.
func rounded(x float64, num, den int64) (n int64, sign string, ok bool) {
	if !(math.Abs(x) < 1e15) {
		return 0, "", false
	}
	exact, _ := new(big.Rat).SetString(strconv.FormatFloat(math.Abs(x), 'e', 14, 64))
	exact.Mul(exact, big.NewRat(num, den))
	exact.Add(exact, big.NewRat(1, 2))
	whole := new(big.Int).Quo(exact.Num(), exact.Denom())
	if !whole.IsInt64() {
		return 0, "", false
	}
	if n = whole.Int64(); n != 0 && x < 0 {
		sign = minus
	}
	return n, sign, true
}

// grouped writes a whole number, from 10 000 on with thin spaces between thousands.
func grouped(n int64) string {
	text := strconv.FormatInt(n, 10)
	if n < 10000 {
		return text
	}
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + thinSpace + text[i:]
	}
	return text
}

// inches writes feet, inches and a fraction, or inches and a fraction.
func (s Style) inches(l Length) string {
	d := int64(16)
	switch s.Denominator {
	case 1, 2, 4, 8, 32, 64:
		d = int64(s.Denominator)
	}
	n, text, ok := rounded(float64(l), 10*d, 254)
	if !ok {
		return "?"
	}
	feet := int64(0)
	if s.Unit != IN {
		feet = n / (12 * d)
		n -= feet * 12 * d
	}
	if feet > 0 {
		text += grouped(feet) + "'-"
	}
	whole, part := n/d, n%d
	if whole > 0 || feet > 0 || part == 0 { // 1/2", but 1'-0 1/2"
		text += grouped(whole)
		if part > 0 {
			text += " "
		}
	}
	if part > 0 {
		for part%2 == 0 {
			part, d = part/2, d/2
		}
		text += fmt.Sprintf("%d/%d", part, d)
	}
	return text + `"`
}

// Seconds is an angle in degrees, minutes and seconds: what is known to less than a
// minute is written so. Half a second rounds away from zero.
func Seconds(a Angle) string {
	n, sign, _ := rounded(a.Degrees(), 3600, 1)
	return fmt.Sprintf("%s%d°%02d\u2032%02d\u2033", sign, n/3600, n/60%60, n%60)
}
