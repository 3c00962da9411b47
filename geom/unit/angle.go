package unit

import (
	"math/big"
	"slices"
	"strings"

	"fmt"

	"trammel/geom/internal/trig"
)

// Slope is the rise and the run of an angle that was written as a slope: 1 and 12 of
// 1:12 or 1in12, 8.5 and 100 of 8.5%. ok is false for any other angle.
func (r Reading) Slope() (rise, run *big.Rat, ok bool) { return r.rise, r.run, r.rise != nil }

// Given writes an angle as it was measured, nothing rounded: "35.25°", "35°30′15″",
// "1 in 12", "8.5 %"; what has no form of its own here as it was written.
func (s Style) Given(r Reading) string {
	text := strings.ReplaceAll(strings.TrimSpace(plain(r.Text)), ",", ".")
	if _, _, slope := r.Slope(); slope {
		if rise, percent := strings.CutSuffix(text, "%"); percent {
			return strings.TrimSpace(rise) + " %"
		}
		for _, mark := range []string{":", "in"} {
			if rise, run, cut := strings.Cut(text, mark); cut {
				return strings.TrimSpace(rise) + " in " + strings.TrimSpace(run)
			}
		}
	}
	scan := scanner{text: text}
	n, ok, _ := scan.number()
	scan.spaces()
	mark, known := angleMarks[scan.word()]
	scan.spaces()
	switch minutes := new(big.Rat).Mul(r.Value, big.NewRat(60, 1)); {
	case !ok || !known || mark > markDegree:
		return text
	case s.Minutes && minutes.IsInt() || !scan.done():
		return sexagesimal(minutes)
	case n.fraction || strings.Contains(text, "/"):
		return text
	}
	return trimmed(r.Value.FloatString(9)) + "°"
}

// sexagesimal writes minutes as degrees, minutes and what is left as seconds.
func sexagesimal(minutes *big.Rat) string {
	whole := new(big.Int).Quo(minutes.Num(), minutes.Denom())
	left := new(big.Rat).Sub(minutes, new(big.Rat).SetInt(whole))
	degrees, rest := new(big.Int).QuoRem(whole, big.NewInt(60), new(big.Int))
	text := fmt.Sprintf("%d°%02d′", degrees, rest)
	if left.Sign() == 0 {
		return text
	}
	seconds := trimmed(left.Mul(left, big.NewRat(60, 1)).FloatString(6))
	if whole, _, _ := strings.Cut(seconds, "."); len(whole) < 2 {
		seconds = "0" + seconds
	}
	return text + seconds + "″"
}

const angleHint = `angles are written 35, 35.5deg, 35°30', 35d30m15s, 0.61rad, 38.9gon, or as a slope 1:12, 8.5%, 6in12`

// angleMark is what stands behind a number of an angle.
type angleMark uint8

const (
	noMark angleMark = iota
	markDegree
	markMinute
	markSecond
	markRadian
	markGon
	markPercent
	markPermille
	markRatio // rise : run, rise in run
)

var angleMarks = map[string]angleMark{
	"":  noMark,
	"°": markDegree, "deg": markDegree, "degs": markDegree, "degree": markDegree, "degrees": markDegree, "d": markDegree,
	"'": markMinute, "m": markMinute, "min": markMinute,
	`"`: markSecond, "s": markSecond, "sec": markSecond,
	"rad": markRadian, "radian": markRadian, "radians": markRadian,
	"gon": markGon, "gons": markGon, "gr": markGon,
	"%": markPercent, "‰": markPermille, ":": markRatio, "in": markRatio,
}

// ParseAngle reads a measured angle, more than 0° and less than 180°, with its
// tolerance where one is written: 35, 35.5deg, 35°30'15", 35d30m, 0.61rad,
// 38.9gon, 38.9gr; or a slope, rise over run: 1:12, 8.5%, 85‰, 6in12, 6"/12. A bare
// number counts degrees. Degrees, minutes, seconds and gons are exact, as are the slopes 1:1
// and 100%; radians and the other slopes are irrational in degrees and held
// within 1e-60. The error is a *Fault.
//
// The tolerance is, unless stated, half of the last digit written (30′ for 35°,
// ½′ for 35°30′), of a fraction's step for a fraction; for a slope of two numbers
// what half of the last digit of either would turn it, whichever is less, and
// never more than 30′, since 1:1 is not written to mean 31° to 59°. A stated one in
// bare digits counts the last unit that the value names, degrees, minutes or
// seconds, else degrees; behind radians, gons and slopes, where that could be
// misread, its unit must be written.
//
// Read of the reading says how a slope was read that may have been meant otherwise.
func ParseAngle(text string) (Reading, error) {
	if f := CheckText(text, "angle"); f != nil {
		return Reading{}, f
	}
	value, tolerance, stated := cutTolerance(text)
	a, f := readAngle(value)
	if f != nil {
		return Reading{}, f
	}
	if a.value.Sign() == 0 || a.value.Cmp(big.NewRat(180, 1)) >= 0 {
		return Reading{}, &Fault{What: Quote(value) + " is not between 0° and 180°"}
	}
	r := Reading{Value: a.value, Tolerance: a.half, Stated: stated, Text: legible(value), Read: a.asSlope(value), rise: a.rise, run: a.run}
	if stated {
		if tolerance == "" {
			return Reading{}, noTolerance(text)
		}
		if r.Tolerance, f = angleTolerance(value, tolerance, a); f != nil {
			return Reading{}, f
		}
	}
	return r, nil
}

// ParseTurn reads an angle that somebody chooses instead of measuring, such as
// the turn of a piece on its pages: from −360° to 360°, without a tolerance. The
// error is a *Fault.
func ParseTurn(text string) (Angle, error) {
	value, unsigned, negative, f := chosen(text, "angle", true)
	if f != nil {
		return 0, f
	}
	a, f := readAngle(unsigned)
	if f != nil {
		return 0, f
	}
	if read := a.asSlope(unsigned); read != "" {
		return 0, &Fault{What: Quote(value) + " can be meant in two ways", Hint: "write it in degrees: it would be " + read}
	}
	if a.value.Cmp(big.NewRat(360, 1)) > 0 {
		return 0, &Fault{What: Quote(value) + " is more than a whole turn", Hint: "write an angle from -360 to 360 degrees"}
	}
	if negative {
		a.value.Neg(a.value)
	}
	return radians(a.value), nil
}

// IsAngle says whether the text is written as an angle, of whatever size.
func IsAngle(text string) bool {
	value, _, _ := cutTolerance(text)
	return CheckText(value, "angle") == nil && readsAngle(value)
}

func readsAngle(text string) bool {
	a, f := scanAngle(text)
	return f == nil && a.value != nil
}

type angle struct {
	value *big.Rat // degrees
	half  *big.Rat // half of its last digit, degrees
	first angleMark
	last  angleMark // of degrees, minutes and seconds
	colon bool      // a slope with a colon

	rise, run *big.Rat // of a slope but one in inches with a stroke
	whole     bool     // they are
}

// readAngle reads an angle without sign or tolerance.
func readAngle(text string) (angle, *Fault) {
	a, f := scanAngle(text)
	switch {
	case f != nil:
		return angle{}, f
	case a.value == nil:
		return angle{}, notA("angle", text, readsAngle)
	case a.first == markMinute || a.first == markSecond:
		return angle{}, &Fault{What: Quote(text) + " is not an angle: it has no degrees", Hint: `write them, were they 0: 0°30'`}
	}
	return a, nil
}

// scanAngle is readAngle without a helpful answer: no value where the text is no
// angle. It reads minutes and seconds alone, which a tolerance may be.
func scanAngle(text string) (angle, *Fault) {
	s := scanner{text: plain(text)}
	n, ok, f := s.number()
	if !ok {
		return angle{}, f
	}
	s.spaces()
	word := s.word()
	mark, ok := angleMarks[word]
	if !ok || mark == noMark && !s.done() {
		return angle{}, wrongAngleUnit(text, word)
	}
	if mark == noMark && n.fraction {
		return angle{}, &Fault{What: Quote(text) + " could be degrees or a slope",
			Hint: "write " + strings.Replace(plain(text), "/", ":", 1) + " for the slope, " + plain(text) + "deg for degrees"}
	}
	if f := n.doubt(""); f != nil {
		return angle{}, f
	}
	s.spaces()
	inches := word == `"` || word == "in"
	switch {
	case inches && s.take("/"):
		a, f := s.ratio(text, n, true)
		a.rise = nil
		return a, f
	case mark == markRatio:
		return s.ratio(text, n, inches)
	case mark >= markDegree && mark <= markSecond:
		return s.sexagesimal(text, n, mark)
	case !s.done():
		return angle{}, nil
	}
	return inMarks(n, mark), nil
}

// inMarks is an angle of one number.
func inMarks(n number, mark angleMark) angle {
	a := angle{value: mul(n.value, mark.per()), half: mul(n.half(), mark.per()), first: mark}
	switch mark {
	case markRadian:
		a.value, a.half = ofRadians(a.value), ofRadians(a.half)
	case markPercent, markPermille:
		if mark == markPercent {
			a.rise, a.run = mul(big.NewRat(100, 1), a.value), big.NewRat(100, 1)
		}
		a.value, a.half = ofSlope(a.value), ofRadians(mul(a.half, flatter(a.value)))
	}
	return a
}

// ratio reads the run of a slope; in inches it may have a mark of its own: 6"/12".
func (s *scanner) ratio(text string, rise number, inches bool) (angle, *Fault) {
	s.spaces()
	run, ok, f := s.sure()
	if !ok {
		return angle{}, f
	}
	if s.spaces(); inches && !s.done() && unitNames[s.word()] != IN || !s.done() {
		return angle{}, nil
	}
	if run.value.Sign() == 0 {
		return angle{}, &Fault{What: Quote(text) + " has a run of nothing", Hint: "a slope is rise over run, such as 1:12; an upright is 90deg"}
	}
	slope := new(big.Rat).Quo(rise.value, run.value)
	byRise := new(big.Rat).Quo(rise.half(), run.value)
	byRun := mul(run.half(), slope)
	byRun.Quo(byRun, run.value)
	if byRise.Cmp(byRun) < 0 || byRun.Sign() == 0 {
		byRun = byRise
	}
	half := ofRadians(mul(byRun, flatter(slope)))
	if most := big.NewRat(1, 2); half.Cmp(most) > 0 {
		half = most
	}
	return angle{value: ofSlope(slope), half: half, first: markRatio, colon: !inches, rise: rise.value, run: run.value, whole: rise.whole && run.whole}, nil
}

// asSlope says how a slope with a colon was read where something else may have been
// meant: degrees and minutes (35:30), or run to rise (2:1). Otherwise it is empty.
func (a angle) asSlope(text string) string {
	if !a.colon || a.value.Sign() == 0 {
		return ""
	}
	rise, run, _ := strings.Cut(plain(text), ":")
	rise, run = strings.TrimSpace(rise), strings.TrimSpace(run)
	read := "a slope " + rise + " in " + run + " = " + Style{}.Angle(radians(a.value))
	sixty, one := big.NewRat(60, 1), big.NewRat(1, 1)
	quarter := run == "15" || run == "30" || run == "45"
	switch steep := a.rise.Cmp(a.run) > 0; {
	case a.whole && len(run) == 2 && a.run.Cmp(sixty) < 0 && a.rise.Cmp(big.NewRat(180, 1)) < 0 &&
		(steep || len(rise) > 1 || quarter && a.rise.Cmp(one) > 0):
		return read + "; degrees and minutes are written " + rise + "°" + run + "'"
	case steep:
		return read + "; the other way round it is " + run + ":" + rise
	}
	return ""
}

// sexagesimal reads on in degrees, minutes and seconds behind the first of them.
func (s *scanner) sexagesimal(text string, n number, mark angleMark) (angle, *Fault) {
	a := angle{value: new(big.Rat), first: mark}
	for {
		per := mark.per()
		if mark != a.first && n.value.Cmp(big.NewRat(60, 1)) >= 0 {
			return angle{}, &Fault{What: Quote(text) + " has 60 minutes or seconds, or more", Hint: "they go from 0 to 59"}
		}
		whole := n.whole
		a.half = mul(n.half(), per)
		a.value.Add(a.value, n.value.Mul(n.value, per))
		a.last = mark
		s.spaces()
		if s.done() {
			return a, nil
		}
		var ok bool
		var f *Fault
		if n, ok, f = s.sure(); !ok {
			return angle{}, f
		}
		if !whole {
			return angle{}, &Fault{What: Quote(text) + " has a part of a degree or minute before the next smaller ones", Hint: `write whole degrees before minutes: 35°30'15"`}
		}
		s.spaces()
		if s.done() {
			return angle{}, &Fault{What: Quote(text) + " does not say what its last number counts", Hint: `write minutes and seconds with their marks: 35°30'15"`}
		}
		last := mark
		if mark = angleMarks[s.word()]; mark <= last || mark > markSecond {
			return angle{}, nil
		}
	}
}

// per is a degree, a minute, a second or a gon in degrees, and what one percent or one
// permille rises.
func (m angleMark) per() *big.Rat {
	of := [...][2]int64{{1, 1}, {1, 1}, {1, 60}, {1, 3600}, {1, 1}, {9, 10}, {1, 100}, {1, 1000}, {1, 1}}[m]
	return big.NewRat(of[0], of[1])
}

func angleTolerance(value, tolerance string, of angle) (*big.Rat, *Fault) {
	t, f := scanAngle(tolerance)
	switch {
	case f != nil:
		return nil, f
	case t.value == nil:
		_, f := readAngle(tolerance)
		return nil, f
	case t.first == noMark && of.first >= markRadian:
		return nil, &Fault{What: "a tolerance of " + Quote(tolerance) + " behind " + Quote(value) + " does not say what it counts",
			Hint: "write its unit, such as +-0.5deg"}
	case t.first >= markPercent && (t.first == markRatio || t.first != of.first):
		return nil, &Fault{What: "a tolerance of " + Quote(tolerance) + " is a slope", Hint: "write it as an angle, such as +-0.5deg"}
	case t.first >= markPercent:
		s := scanner{text: plain(tolerance)}
		n, _, _ := s.number()
		rise := new(big.Float).SetPrec(trig.Prec).SetRat(of.value)
		rise = trig.Tan(rise.Quo(rise.Mul(rise, trig.Pi(trig.Prec)), big.NewFloat(180)))
		slope, _ := rise.Rat(nil)
		t.value = ofRadians(mul(n.value.Mul(n.value, t.first.per()), flatter(slope)))
	case t.first == noMark:
		t.value.Mul(t.value, of.last.per())
	}
	return t.value, checkTolerance(tolerance, t.value, of.value)
}

// precision of what is irrational: 320 bits are 1e-96.
const precision = trig.Prec + 64

func ofRadians(x *big.Rat) *big.Rat { return degrees(new(big.Float).SetPrec(precision).SetRat(x)) }

// degrees of so many radians, rounded to 256 bits: enough for 1e-60 and shorter to
// reckon with.
func degrees(f *big.Float) *big.Rat {
	f.Mul(f, big.NewFloat(180))
	r, _ := f.Quo(f, trig.Pi(precision)).SetPrec(trig.Prec).Rat(nil)
	return r
}

// ofSlope is the angle in degrees whose tangent is the slope. Of all rational
// slopes only 0 and 1 have a rational one (Niven's theorem).
func ofSlope(slope *big.Rat) *big.Rat {
	if slope.Cmp(big.NewRat(1, 1)) == 0 {
		return big.NewRat(45, 1)
	}
	return degrees(trig.Atan(new(big.Float).SetPrec(precision).SetRat(slope)))
}

// flatter is 1/(1+t²): how far a slope of t turns for each 1 that it rises.
func flatter(slope *big.Rat) *big.Rat {
	x := new(big.Rat).Mul(slope, slope)
	x.Add(x, big.NewRat(1, 1))
	return x.Inv(x)
}

// wrongAngleUnit is the fault of an angle in a unit that is not read, nil where
// something else is wrong.
func wrongAngleUnit(text, word string) *Fault {
	if !slices.Contains([]string{"grad", "grads", "grade", "g"}, word) {
		return nil
	}
	return &Fault{What: Quote(text) + " is not clear: some read " + Quote(word) + " as degrees, some as gons",
		Hint: "write deg, or gon for the four-hundredth part of a turn"}
}
