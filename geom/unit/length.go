package unit

import (
	"math/big"
	"strings"
)

// The shortest and the longest length that is read as a measurement. Shorter
// than 1 mm cannot be marked out by hand; longer than 1 km is a surveyor's.
const (
	Shortest Length = 1 * Millimetre
	Longest  Length = 1000 * Metre
)

const lengthHint = `lengths are written 2400, 2400mm, 240cm, 2.4m, 94.5in, 7ft 10 1/2in or 7'-10 1/2"`

// unitNames are the units of length as they are written.
var unitNames = map[string]Unit{
	"mm": MM, "millimetre": MM, "millimetres": MM, "millimeter": MM, "millimeters": MM,
	"cm": CM, "centimetre": CM, "centimetres": CM, "centimeter": CM, "centimeters": CM,
	"m": M, "metre": M, "metres": M, "meter": M, "meters": M,
	"in": IN, "inch": IN, "inches": IN, `"`: IN,
	"ft": FT, "foot": FT, "feet": FT, "'": FT,
}

// ParseUnit reads the name of a unit: mm, cm, m, in, ft, or the word for it.
// The error is a *Fault.
func ParseUnit(text string) (Unit, error) {
	if f := CheckText(text, "unit"); f != nil {
		return 0, f
	}
	if u, ok := unitNames[strings.ToLower(plain(strings.TrimSpace(text)))]; ok {
		return u, nil
	}
	return 0, &Fault{What: Quote(text) + " is not a unit of length", Hint: "units are mm, cm, m, in or ft"}
}

// ParseLength reads a measured length, from Shortest to Longest, with its
// tolerance where one is written: 2400, 2.4m, 2,4m, 7ft 10 1/2in, 7′ 10½″,
// 2400+-2. A bare number counts the given unit (feet where that is FT). The
// value is exact. The error is a *Fault.
//
// The tolerance is, unless stated, half of the last digit written: 0.5 mm for
// 2400, 50 mm for 2.4m; of the last fraction's step for a fraction (1/32 in for
// 10 1/16in, as well for 10 8/16in); of the last part for feet and inches (1/2 in
// for 7'-10"). A stated one in bare digits counts the last unit that the value
// names, else the given one; it is more than 0 and at most half of the value.
func ParseLength(text string, bare Unit) (Reading, error) {
	if f := CheckText(text, "length"); f != nil {
		return Reading{}, f
	}
	value, tolerance, stated := cutTolerance(text)
	l, f := readLength(value, bare)
	if f == nil {
		f = within(value, l.value, Shortest, Longest, bareHint(l, bare))
	}
	if f != nil {
		return Reading{}, f
	}
	r := Reading{Value: l.value, Tolerance: l.half, Stated: stated, Text: value, Unit: l.unit, Bare: !l.named, Feet: l.feet}
	if stated {
		if tolerance == "" {
			return Reading{}, noTolerance(text)
		}
		t, f := readLength(tolerance, l.unit)
		if f == nil {
			f = checkTolerance(tolerance, t.value, l.value)
		}
		if f != nil {
			if f.Hint == "" && !t.named && l.named && t.value != nil {
				f.Hint = "a bare tolerance counts " + l.unit.String() + " here, as its length does: write its unit, such as +-2mm"
			}
			return Reading{}, f
		}
		r.Tolerance = t.value
	}
	return r, nil
}

// ParseSetting reads a length that somebody chooses instead of measuring (a
// margin, an overlap, an allowance): from least to most, so perhaps 0 or with a
// minus sign, and without a tolerance. The error is a *Fault.
func ParseSetting(text string, bare Unit, least, most Length) (Length, error) {
	if f := CheckText(text, "length"); f != nil {
		return 0, f
	}
	value, _, stated := cutTolerance(text)
	if stated {
		return 0, &Fault{What: Quote(text) + " has a tolerance", Hint: "write the length alone: " + plain(value)}
	}
	unsigned, negative := value, false
	if s := plain(value); strings.HasPrefix(s, "-") && least < 0 {
		unsigned, negative = strings.TrimSpace(s[1:]), true
	}
	l, f := readLength(unsigned, bare)
	if f != nil {
		return 0, f
	}
	if negative {
		l.value.Neg(l.value)
	}
	if f := within(value, l.value, least, most, bareHint(l, bare)); f != nil {
		return 0, f
	}
	mm, _ := l.value.Float64()
	return Length(mm), nil
}

// IsLength says whether the text is written as a length, of whatever size.
func IsLength(text string) bool {
	value, _, _ := cutTolerance(text)
	if CheckText(value, "length") != nil {
		return false
	}
	l, f := scanLength(value, MM)
	return f == nil && l.value != nil
}

// length is one length as it was read.
type length struct {
	value *big.Rat // mm
	half  *big.Rat // half of its last digit, mm
	unit  Unit     // the last one it names, or the given one
	named bool     // it names one
	feet  bool     // it names feet
}

// readLength reads a length without sign or tolerance.
func readLength(text string, bare Unit) (length, *Fault) {
	l, f := scanLength(text, bare)
	if f != nil {
		return length{}, f
	}
	if l.value == nil {
		return length{}, notA("length", text, func(s string) bool { l, f := scanLength(s, bare); return f == nil && l.value != nil })
	}
	return l, nil
}

// scanLength is readLength without a helpful answer: no value where the text
// is no length, a fault where it is known what is wrong.
func scanLength(text string, bare Unit) (length, *Fault) {
	s := scanner{text: plain(text)}
	n, ok, f := s.number()
	if !ok {
		return length{}, f
	}
	s.spaces()
	if s.done() {
		return length{value: n.value.Mul(n.value, bare.rat()), half: mul(n.half(), bare.rat()), unit: bare}, nil
	}
	word := s.word()
	u, ok := unitNames[word]
	if !ok {
		if word == "" || !letter(word[0]) {
			return length{}, nil
		}
		return length{}, wrongUnit(text, word)
	}
	l := length{n.value.Mul(n.value, u.rat()), mul(n.half(), u.rat()), u, true, u == FT}
	s.spaces()
	if s.done() {
		return l, nil
	}
	if u != FT {
		return length{}, nil
	}
	// Feet are followed by inches.
	if s.take("-"); !n.whole {
		return length{}, &Fault{What: Quote(text) + " has a part of a foot before its inches", Hint: `write whole feet: 7'-10 1/2"`}
	}
	s.spaces()
	n, ok, f = s.number()
	if !ok {
		return length{}, f
	}
	s.spaces()
	if s.done() {
		return length{}, &Fault{What: Quote(text) + " does not say what it counts after the feet", Hint: `write the inches with a mark: 7'-10" or 7ft 10in`}
	}
	if unitNames[s.word()] != IN || !s.done() {
		return length{}, nil
	}
	if n.value.Cmp(big.NewRat(12, 1)) >= 0 {
		return length{}, &Fault{What: Quote(text) + " has more than 11 inches after its feet", Hint: `write 8'-2", or 98", but not 7'-14"`}
	}
	l.value.Add(l.value, n.value.Mul(n.value, IN.rat()))
	return length{l.value, mul(n.half(), IN.rat()), IN, true, true}, nil
}

func mul(x, y *big.Rat) *big.Rat { return x.Mul(x, y) }

// within refuses a value outside the limits, which it says.
func within(text string, value *big.Rat, least, most Length, hint string) *Fault {
	lo, hi := new(big.Rat).SetFloat64(float64(least)), new(big.Rat).SetFloat64(float64(most))
	switch {
	case value.Cmp(lo) < 0:
		if least > 0 && value.Sign() == 0 {
			return &Fault{What: Quote(text) + " is no length at all", Hint: "the least is " + limit(least)}
		}
		return &Fault{What: Quote(text) + " is less than " + limit(least) + ", the least that is read", Hint: hint}
	case value.Cmp(hi) > 0:
		return &Fault{What: Quote(text) + " is more than " + limit(most) + ", the most that is read", Hint: hint}
	}
	return nil
}

// limit writes a limit.
func limit(l Length) string {
	if l >= 1000*Metre {
		return Style{}.Length(l/1e6) + " km"
	}
	return Style{}.LengthUnit(l)
}

// bareHint says what a bare number counts.
func bareHint(l length, bare Unit) string {
	if l.named {
		return ""
	}
	return "a bare number counts " + bare.String() + " here; another unit is written behind it, such as 2.4m"
}

func noTolerance(text string) *Fault {
	return &Fault{What: Quote(text) + " ends where its tolerance should stand", Hint: "write it behind the sign, such as +-2, or leave out the sign"}
}

// checkTolerance refuses a tolerance of nothing and one that is as large as
// what it belongs to.
func checkTolerance(text string, tolerance, value *big.Rat) *Fault {
	if tolerance.Sign() == 0 {
		return &Fault{What: "a tolerance of " + Quote(text) + " allows nothing",
			Hint: "leave it out: then it is half of the last digit written"}
	}
	if new(big.Rat).Add(tolerance, tolerance).Cmp(value) > 0 {
		return &Fault{What: "a tolerance of " + Quote(text) + " is more than half of what was measured"}
	}
	return nil
}
