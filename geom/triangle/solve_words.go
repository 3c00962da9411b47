package triangle

import (
	"fmt"
	"strconv"

	"trammel/geom"
	"trammel/geom/unit"
)

// words speaks about the corners and the measurements of one problem.
type words struct {
	names [3]geom.Name
	spelt [3]string // the sides as they were written, else round the triangle: BC, CA, AB
	value [9]string // what was measured, as written; empty where it was not
	Figures
}

func wordsOf(names [3]geom.Name, of []Quantity, ms []Measurement) words {
	w := words{names: names, Figures: FiguresOf(ms)}
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
	return w
}

// beside is x with enough figures to tell it from y.
func (w words) beside(x, y number) string {
	if s := w.float(x.float64()); w.inFractions(x.float64()) && s != w.float(y.float64()) {
		return s
	}
	v, u := x.float64()/w.bare, y.float64()/w.bare
	for places := w.places(x.float64()); ; places++ {
		if s := unit.Decimals(v, places); s != unit.Decimals(u, places) || places > 15 {
			return s + w.mark
		}
	}
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
	return unit.Decimals(makes, places) + mark + ", " + unit.Decimals(off, places) + mark + " " + more
}

// figure writes a value of the quantity, in mm or degrees, with enough figures
// to tell it from what it is instead.
func (w words) figure(q Quantity, v, instead float64) string {
	if q.Kind() != Angle {
		return w.beside(fromFloat(v), fromFloat(instead))
	}
	return strconv.FormatFloat(v, 'f', max(1, figuresBehind(v-instead, 1)), 64) + "°"
}
