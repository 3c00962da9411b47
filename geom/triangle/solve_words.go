package triangle

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// words speaks about the corners and the measurements of one problem.
type words struct {
	names  [3]geom.Name
	spelt  [3]string  // the sides as they were written, else round the triangle: BC, CA, AB
	value  [9]string  // what was measured, as written; empty where it was not
	unit   unit.Unit  // that figures are given in
	bare   float64    // millimetres in it; of feet those in an inch
	mark   string     // behind figures; empty where the measurements are bare numbers too
	inches unit.Style // of inches and feet, else zero
}

func wordsOf(names [3]geom.Name, of []Quantity, ms []Measurement) words {
	w := words{names: names}
	for i := range names {
		w.spelt[i] = string(names[(i+1)%3] + names[(i+2)%3])
	}
	for n, q := range of {
		m := ms[n]
		w.value[q] = m.Value.Text
		if q.Kind() == Distance {
			w.spelt[q.Corner()] = string(m.At[0] + m.At[1])
		}
	}
	u, marked := unitOfFigures(ms)
	w.unit, w.bare = u, u.Length().MM()
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

// length with about three figures, and never fewer than one decimal where there
// is something behind the point.
func (w words) length(x number) string { return w.float(x.float64()) }

func (w words) float(mm float64) string {
	if w.inFractions(mm) {
		return w.inches.Length(unit.Length(mm))
	}
	return trimmed(mm/w.bare, w.places(mm)) + w.mark
}

// inFractions says whether a length is told in fractions of an inch: from an
// inch on. Less is a difference that sixteenths may not show.
func (w words) inFractions(mm float64) bool {
	return w.inches.Unit != unit.MM && math.Abs(mm) >= float64(unit.Inch)
}

// places behind the point that a length is told with.
func (w words) places(mm float64) int {
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

// beside is x with enough figures to tell it from y.
func (w words) beside(x, y number) string {
	if s := w.float(x.float64()); w.inFractions(x.float64()) && s != w.float(y.float64()) {
		return s
	}
	v, u := x.float64()/w.bare, y.float64()/w.bare
	for places := w.places(x.float64()); ; places++ {
		if s := trimmed(v, places); s != trimmed(u, places) || places > 15 {
			return s + w.mark
		}
	}
}

// at is a value of a quantity, a length or degrees, with so many decimals that its
// difference from another shows two figures.
func (w words) at(q Quantity, v, from *big.Rat) string {
	x, y := exact(v), exact(from)
	off, scale, mark := x.minus(y).float64(), 1.0, "°"
	if q.Kind() != Angle {
		scale, mark = w.bare, w.mark
	}
	return trimmed(x.float64()/scale, max(1, figuresBehind(off/scale, 2))) + mark
}

// withUnit is the same with the unit, whatever the measurements are written in.
func (w words) withUnit(mm float64) string {
	if w.mark != "" {
		return w.float(mm)
	}
	return w.float(mm) + " " + w.unit.String()
}

// slip is the slip that a warning speaks of, and how many times that of Move it is:
// 1 mm, or where inches are read, a sixteenth.
func (w words) slip() (text string, times float64) {
	if w.inches.Unit >= unit.IN {
		return `1/16"`, unit.Inch.MM() / 16
	}
	return "1 mm", 1
}

// trimmed is v with at most so many decimals, trailing zeros dropped.
func trimmed(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// is names a quantity and gives its value as written: "AB 100", "the angle
// 35deg at A", "the height 620 from C".
func (w words) is(q Quantity) string {
	at := string(w.names[q.Corner()])
	switch v := w.value[q]; {
	case v == "":
		return w.name(q)
	case q.Kind() == Angle:
		return "the angle " + v + " at " + at
	case q.Kind() == Height:
		return "the height " + v + " from " + at
	default:
		return w.name(q) + " " + v
	}
}

func (w words) name(q Quantity) string {
	switch q.Kind() {
	case Distance:
		return w.spelt[q.Corner()]
	case Angle:
		return "the angle at " + string(w.names[q.Corner()])
	}
	return "the height from " + string(w.names[q.Corner()])
}

// misfit writes what a quantity should be and by how much it is off, both with
// the figures that the difference asks for. In mm or degrees.
func (w words) misfit(q Quantity, makes, is float64) string {
	off, more, mark := makes-is, "more", w.mark
	if off < 0 {
		off, more = -off, "less"
	}
	var places int
	switch {
	case q.Kind() != Angle && w.inFractions(makes) && w.inFractions(off):
		return w.float(makes) + ", " + w.float(off) + " " + more
	case q.Kind() == Angle:
		mark, places = "°", max(1, figuresBehind(off, 1))
	case w.places(0) < figuresBehind(off/w.bare, 1):
		makes, off, places = makes/w.bare, off/w.bare, figuresBehind(off/w.bare, 1)
	default:
		makes, off, places = makes/w.bare, off/w.bare, w.places(0)
	}
	if q.Kind() == Angle {
		return fmt.Sprintf("%.*f%s, %.*f%s %s", places, makes, mark, places, off, mark, more)
	}
	return trimmed(makes, places) + mark + ", " + trimmed(off, places) + mark + " " + more
}

// figure writes a value of the quantity, in mm or degrees, with enough figures
// to tell it from what it is instead.
func (w words) figure(q Quantity, v, instead float64) string {
	if q.Kind() != Angle {
		return w.beside(fromFloat(v), fromFloat(instead))
	}
	return strconv.FormatFloat(v, 'f', max(1, figuresBehind(v-instead, 1)), 64) + "°"
}
