package setout

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom/tape"
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

// instrument is the one that angles are turned with.
func (s Sheet) instrument() tape.Instrument {
	if s.Tools.Instrument.Angle <= 0 {
		return tape.Protractor
	}
	return s.Tools.Instrument
}

// turned is an angle to be turned, written as finely as the instrument wants it:
// degrees, minutes and seconds where it keeps less than 2′, degrees and minutes
// below 15′, else as other angles.
func (s Sheet) turned(a unit.Angle) string {
	switch keeps := s.instrument().Angle; {
	case keeps < unit.Degree/30:
		n := int(math.Round(a.Degrees() * 3600))
		return fmt.Sprintf("%d°%02d′%02d″", n/3600, n/60%60, n%60)
	case keeps < unit.Degree/4:
		n := int(math.Round(a.Degrees() * 60))
		return fmt.Sprintf("%d°%02d′", n/60, n%60)
	}
	return s.Style.Angle(a)
}

// shownAngle is the angle that turned prints.
func (s Sheet) shownAngle(a unit.Angle) unit.Angle {
	r, err := unit.ParseAngle(s.turned(a))
	if err != nil {
		return a
	}
	return r.Angle()
}

// turnedOf is what an instrument keeps, in minutes or seconds.
func (s Sheet) turnedOf(a unit.Angle) string {
	if a < unit.Degree/60 {
		return number(a.Degrees()*3600) + "″"
	}
	return number(a.Degrees()*60) + "′"
}

// number is a plain one, without zeros behind its point.
func number(x float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", x), "0"), ".")
}

// small is a figure of the few millimetres that a peg is off: to a tenth of a
// millimetre or a hundredth of an inch.
func (s Sheet) small(l unit.Length) string {
	if inches(s.Style) {
		return fmt.Sprintf("%.2f", float64(l/unit.Inch))
	}
	return fmt.Sprintf("%.1f", l.MM())
}

// smallUnit is what small counts.
func (s Sheet) smallUnit() string {
	if inches(s.Style) {
		return "in"
	}
	return "mm"
}

// sentence begins with a capital and ends with a full stop.
func sentence(words string) string { return upper(words) + "." }

func upper(words string) string {
	first := []rune(words)
	return strings.ToUpper(string(first[:1])) + string(first[1:])
}
