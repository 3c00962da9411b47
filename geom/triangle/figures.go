package triangle

import (
	"math"
	"math/big"
	"strings"

	"trammel/geom/unit"
)

// Figures writes computed lengths as measurements are written.
type Figures struct {
	unit   unit.Unit  // that figures are given in
	bare   float64    // millimetres in it; of feet those in an inch
	mark   string     // behind figures; empty where the measurements are bare numbers too
	inches unit.Style // of inches and feet, else zero
}

// FiguresOf are those that fit the measurements.
func FiguresOf(ms []Measurement) Figures {
	u, marked := unitOfFigures(ms)
	w := Figures{unit: u, bare: u.Length().MM()}
	switch {
	case u >= unit.IN: // less than an inch is told in decimals of it, of a foot too
		w.inches.Unit, w.bare, w.mark = u, unit.Inch.MM(), `"`
	case marked:
		w.mark = " " + u.String()
	}
	return w
}

// unitOfFigures is the unit that computed lengths are told in: that of the bare
// numbers where there are any, else feet or inches where those are written, else
// millimetres; marked says that some length is more than a plain decimal number, so
// that a figure alone would look unlike it.
func unitOfFigures(ms []Measurement) (u unit.Unit, marked bool) {
	bare := false
	for _, m := range ms {
		switch v := m.Value; {
		case m.Kind == Angle:
		case v.Bare:
			u, bare = v.Unit, true
			marked = marked || strings.Trim(v.Text, "0123456789.,") != ""
		default:
			marked = true
			switch {
			case bare:
			case v.Feet:
				u = unit.FT
			case v.Unit == unit.IN && u == unit.MM:
				u = unit.IN
			}
		}
	}
	return u, marked
}

// float has about three figures, and never fewer than one decimal where there is
// something behind the point.
func (w Figures) float(mm float64) string {
	if w.inFractions(mm) {
		return w.inches.Length(unit.Length(mm))
	}
	return unit.Decimals(mm/w.bare, w.places(mm)) + w.mark
}

// inFractions says whether a length is told in fractions of an inch: from an
// inch on. Less is a difference that sixteenths may not show.
func (w Figures) inFractions(mm float64) bool {
	return w.inches.Unit != unit.MM && math.Abs(mm) >= float64(unit.Inch)
}

// places behind the point that a length is told with.
func (w Figures) places(mm float64) int {
	least := 1
	switch {
	case w.bare >= 100: // metres
		least = 3
	case w.bare > 10: // inches
		least = 2
	}
	return max(least, figuresBehind(mm/w.bare, 3))
}

// figuresBehind is the places behind the point that show so many figures of v.
func figuresBehind(v float64, figures int) int {
	if v == 0 {
		return 0
	}
	return max(0, min(12, figures-1-int(math.Floor(math.Log10(math.Abs(v))))))
}

// At is a value in mm or degrees, with so many decimals that its difference from
// another shows two figures.
func (w Figures) At(kind Kind, v, from *big.Rat) string {
	x, y := exact(v), exact(from)
	off, scale, mark := x.minus(y).float64(), 1.0, "°"
	if kind != Angle {
		scale, mark = w.bare, w.mark
	}
	return unit.Decimals(x.float64()/scale, max(1, figuresBehind(off/scale, 2))) + mark
}

// Length has its unit, whatever the measurements are written in.
func (w Figures) Length(l unit.Length) string {
	if w.mark != "" {
		return w.float(l.MM())
	}
	return w.float(l.MM()) + " " + w.unit.String()
}

// Slip is 1 mm, or where inches are read a sixteenth, and how many millimetres that is.
func (w Figures) Slip() (text string, mm float64) {
	if w.inches.Unit >= unit.IN {
		return `1/16"`, unit.Inch.MM() / 16
	}
	return "1 mm", 1
}
