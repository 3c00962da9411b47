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
// tolerance where one is written: 2400, 2.4m, 2,4m, 2m40, 7ft 10 1/2in, 7′ 10½″,
// 7'10, 2400+-2. A bare number counts the given unit (feet where that is FT). The
// value is exact. The error is a *Fault, also of what can be read in two ways:
// 2,400; 93/4in; bare 2.400 where mm or cm are counted, bare 94 1/2 where mm are,
// bare 7-1/2 where feet are.
//
// The tolerance is, unless stated, half of the last digit written: 0.5 mm for
// 2400, 50 mm for 2.4m; of the last fraction's step for a fraction (1/32 in for
// 10 1/16in, as well for 10 8/16in); of the last part for feet and inches (1/2 in
// for 7'-10", 1/2 cm for 2m40). A stated one in bare digits counts the last unit that the value
// names, else the given one; it is more than 0 and at most half of the value.
func ParseLength(text string, bare Unit) (Reading, error) {
	if f := CheckText(text, "length"); f != nil {
		return Reading{}, f
	}
	value, tolerance, stated := cutTolerance(text)
	l, f := readLength(value, bare, false)
	if f == nil {
		f = within(value, l.value, Shortest, Longest, bareHint(l, bare))
	}
	if f != nil {
		return Reading{}, f
	}
	r := Reading{Value: l.value, Tolerance: l.half, Stated: stated, Text: legible(value), Unit: l.unit, Bare: !l.named, Feet: l.feet}
	if stated {
		if tolerance == "" {
			return Reading{}, noTolerance(text)
		}
		t, f := readLength(tolerance, l.unit, l.named)
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
	value, unsigned, negative, f := chosen(text, "length", least < 0)
	if f != nil {
		return 0, f
	}
	l, f := readLength(unsigned, bare, false)
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

// chosen parts a value that somebody chooses from its sign, where it may have one; it
// has no tolerance.
func chosen(text, what string, signed bool) (value, unsigned string, negative bool, f *Fault) {
	if f := CheckText(text, what); f != nil {
		return "", "", false, f
	}
	value, _, stated := cutTolerance(text)
	if stated {
		return "", "", false, &Fault{What: Quote(text) + " has a tolerance", Hint: "write the " + what + " alone: " + plain(value)}
	}
	if s, negative := strings.CutPrefix(plain(value), "-"); negative && signed {
		return value, strings.TrimSpace(s), true, nil
	}
	return value, value, false, nil
}

// IsLength says whether the text is written as a length, of whatever size.
func IsLength(text string) bool {
	value, _, _ := cutTolerance(text)
	return CheckText(value, "length") == nil && reads(value, MM)
}

// IsBare says whether the text is written as a length without a unit and without a
// tolerance, perhaps with a minus sign.
func IsBare(text string) bool {
	if CheckText(text, "length") != nil {
		return false
	}
	l, f := scanLength(strings.TrimSpace(strings.TrimPrefix(plain(strings.TrimSpace(text)), "-")), MM, true)
	return f == nil && l.value != nil && !l.named
}

func reads(text string, bare Unit) bool {
	l, f := scanLength(text, bare, true)
	return f == nil && l.value != nil
}

type length struct {
	value *big.Rat // mm
	half  *big.Rat // half of its last digit, mm
	unit  Unit     // the last one it names, or the given one
	named bool     // it names one
	feet  bool     // it names feet
}

// readLength reads a length without sign or tolerance. said: what a bare number
// counts was written just before, as the unit of a value is before its tolerance.
func readLength(text string, bare Unit, said bool) (length, *Fault) {
	l, f := scanLength(text, bare, said)
	if f != nil {
		return length{}, f
	}
	if l.value == nil {
		return length{}, notA("length", text, func(s string) bool { return reads(s, bare) })
	}
	return l, nil
}

// scanLength is readLength without a helpful answer: no value where the text
// is no length, a fault where it is known what is wrong.
func scanLength(text string, bare Unit, said bool) (length, *Fault) {
	s := scanner{text: plain(text)}
	n, ok, f := s.number()
	if !ok {
		return length{}, f
	}
	s.spaces()
	if s.done() {
		if !said {
			f = bareDoubt(n, s.text, bare)
		}
		return measured(n, bare, false), or(f, n.doubt(""))
	}
	if feet, inches, ok := strings.Cut(s.text, "-"); ok && bare == FT && onlyDigits(feet) && onlyDigits(inches) {
		return length{}, &Fault{What: Quote(text) + " does not say what it counts after the hyphen", Hint: "write feet and inches with their marks: " + feet + "'-" + inches + `"`}
	}
	word := s.word()
	u, ok := unitNames[word]
	if !ok {
		if word == "" || !letter(word[0]) {
			return length{}, nil
		}
		return length{}, wrongUnit(text, word)
	}
	if f := n.doubt(word); f != nil {
		return length{}, f
	}
	l := measured(n, u, true)
	s.spaces()
	switch {
	case s.done():
		return l, nil
	case u == FT && n.whole:
		return s.behindFeet(text, l)
	case u == FT:
		return length{}, &Fault{What: Quote(text) + " has a part of a foot before its inches", Hint: `write whole feet: 7'-10 1/2"`}
	case u == M && n.whole:
		return s.behindMetres(text, l)
	}
	return length{}, nil
}

func measured(n number, u Unit, named bool) length {
	return length{new(big.Rat).Mul(n.value, u.rat()), mul(n.half(), u.rat()), u, named, named && u == FT}
}

func onlyDigits(text string) bool { return text != "" && strings.Trim(text, "0123456789") == "" }

// behindFeet reads the inches behind whole feet, whose mark may be left out: 7'10.
func (s *scanner) behindFeet(text string, l length) (length, *Fault) {
	before := s.at
	s.take("-")
	s.spaces()
	n, ok, f := s.sure()
	if !ok {
		return length{}, f
	}
	s.spaces()
	if s.done() {
		if n.fraction {
			feet, part := strings.TrimRight(s.text[:before], "' ftoe"), strings.TrimLeft(s.text[before:], "- ")
			return length{}, &Fault{What: Quote(text) + " can be read in two ways: the fraction may be of an inch or of a foot",
				Hint: "write " + feet + "'-0 " + part + `" or ` + feet + " " + part + "ft"}
		}
	} else if unitNames[s.word()] != IN || !s.done() {
		return length{}, nil
	}
	if n.value.Cmp(big.NewRat(12, 1)) >= 0 {
		return length{}, &Fault{What: Quote(text) + " has more than 11 inches after its feet", Hint: `write 8'-2", or 98", but not 7'-14"`}
	}
	l.value.Add(l.value, n.value.Mul(n.value, IN.rat()))
	return length{l.value, mul(n.half(), IN.rat()), IN, true, true}, nil
}

// behindMetres reads the centimetres or millimetres behind whole metres, as they
// are said: 2m40, 2m405, 2 m 40 cm.
func (s *scanner) behindMetres(text string, l length) (length, *Fault) {
	digits := s.digits()
	s.spaces()
	u, named := unitNames[s.word()]
	switch {
	case digits == "" || !s.done():
		return length{}, nil
	case !named && len(digits) == 1 && s.text[len(s.text)-1] == digits[0]:
		metres := strings.TrimRight(s.text[:len(s.text)-1], " ")
		return length{}, &Fault{What: Quote(text) + " can be read in two ways: a tenth of a metre, or a centimetre",
			Hint: "write " + metres + digits + "0 or " + metres + "0" + digits}
	case !named && len(digits) == 2, named && u == CM && len(digits) <= 2:
		u = CM
	case !named && len(digits) == 3, named && u == MM && len(digits) <= 3:
		u = MM
	default:
		return length{}, nil
	}
	n := decimal(digits, "")
	l.value.Add(l.value, mul(n.value, u.rat()))
	return length{value: l.value, half: mul(n.half(), u.rat()), unit: u, named: true}, nil
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

func limit(l Length) string {
	if l >= 1000*Metre {
		return Style{}.Length(l/1e6) + " km"
	}
	return Style{}.LengthUnit(l)
}

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
