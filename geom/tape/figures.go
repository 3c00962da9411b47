package tape

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom/unit"
)

// Figures are how lengths and angles are written for those who read them off a tape
// and an instrument. What is reckoned for paper holds to them: a length is what the
// figure says, and an angle what is turned.
type Figures struct {
	unit.Style
	Instrument Instrument // angles are turned with it
}

// FiguresOf are the figures of a style where nothing else is asked: a tape is read to the
// whole millimetre, and who has a theodolite reads tenths; metres have three decimals with
// either. Without an instrument angles are turned by a protractor.
func FiguresOf(s unit.Style, i Instrument) Figures {
	if s.Decimals == 0 && (s.Unit == unit.M || i.Name != Theodolite.Name) {
		s.Decimals = [...]int{unit.MM: -1, unit.CM: 1, unit.M: 3, unit.IN: 0, unit.FT: 0}[min(s.Unit, unit.FT)]
	}
	if i.Angle <= 0 {
		i = Protractor
	}
	return Figures{s, i}
}

// Inches says whether lengths are written in inches or feet.
func (f Figures) Inches() bool { return f.Unit == unit.IN || f.Unit == unit.FT }

// Figure is a length without its unit: as the style writes it, but metres with all
// their decimals.
func (f Figures) Figure(l unit.Length) string {
	text := f.Style.Length(l)
	if f.Unit != unit.M || f.Decimals <= 0 {
		return text
	}
	whole, rest, _ := strings.Cut(text, ".")
	return whole + "." + rest + strings.Repeat("0", f.Decimals-len(rest))
}

// Signed puts its sign before the figure of x; one that is written as 0 has none.
func Signed(x float64, figure string) string {
	switch {
	case !strings.ContainsAny(figure, "123456789"):
		return figure
	case x < 0:
		return "−" + figure
	}
	return "+" + figure
}

// Below is Signed without a plus.
func Below(l unit.Length, figure string) string {
	return strings.TrimPrefix(Signed(float64(l), figure), "+")
}

// Rounded is the length that Figure writes.
func (f Figures) Rounded(l unit.Length) unit.Length {
	r, err := unit.ParseLength(strings.ReplaceAll(f.Figure(l), "\u2009", ""), f.Unit)
	if err != nil {
		return l // no tape shows it: zero, which is refused as a measurement
	}
	return r.Length()
}

// Grain is the step that ranges are given to: a millimetre, or the fraction of an inch.
func (f Figures) Grain() unit.Length {
	if !f.Inches() {
		return unit.Millimetre
	}
	return unit.Inch / unit.Length(f.Fraction())
}

// Fraction of an inch that ranges are given to: the style's, where a tape has it, else
// sixteenths.
func (f Figures) Fraction() int {
	switch d := f.Denominator; d {
	case 1, 2, 4, 8, 32, 64:
		return d
	}
	return 16
}

// Outward moves the ends of a range out to the grain.
func (f Figures) Outward(from, to unit.Length) (unit.Length, unit.Length) {
	g := f.Grain()
	// A range that ends on a whole step but for rounding stays there.
	const hair = 1e-6
	return unit.Length(math.Floor(float64(from/g)+hair)) * g, unit.Length(math.Ceil(float64(to/g)-hair)) * g
}

// Turned is an angle to be turned, written as finely as the instrument wants it:
// degrees, minutes and seconds where it keeps less than 2′, degrees and minutes
// below 15′, else as other angles.
func (f Figures) Turned(a unit.Angle) string {
	switch keeps := f.Instrument.Angle; {
	case keeps < unit.Degree/30:
		n := int(math.Round(a.Degrees() * 3600))
		return fmt.Sprintf("%d°%02d′%02d″", n/3600, n/60%60, n%60)
	case keeps < unit.Degree/4:
		n := int(math.Round(a.Degrees() * 60))
		return fmt.Sprintf("%d°%02d′", n/60, n%60)
	}
	return f.Style.Angle(a)
}

// RoundedAngle is the angle that Turned writes.
func (f Figures) RoundedAngle(a unit.Angle) unit.Angle {
	r, err := unit.ParseAngle(f.Turned(a))
	if err != nil {
		return a
	}
	return r.Angle()
}

// Small is a figure of the few millimetres that a peg is off: to a tenth of a
// millimetre or a hundredth of an inch, as SmallUnit says.
func (f Figures) Small(l unit.Length) string {
	if f.Inches() {
		return fmt.Sprintf("%.2f", float64(l/unit.Inch))
	}
	return fmt.Sprintf("%.1f", l.MM())
}

// SmallUnit is what Small counts.
func (f Figures) SmallUnit() string {
	if f.Inches() {
		return "in"
	}
	return "mm"
}

// Tight is a length of less than a millimetre or so with its unit: to two decimals of a
// millimetre or three of an inch.
func (f Figures) Tight(l unit.Length) string {
	if f.Inches() {
		return fmt.Sprintf("%.3f in", float64(l/unit.Inch))
	}
	return fmt.Sprintf("%.2f mm", l.MM())
}

// Fine is the style of tape corrections: a hundredth of a millimetre, so that they add
// up to what is laid off, or a sixty-fourth of an inch.
func (f Figures) Fine() unit.Style {
	if f.Inches() {
		return unit.Style{Unit: unit.IN, Denominator: 64}
	}
	return unit.Style{Unit: unit.MM, Decimals: 2}
}
