package setout

import (
	"trammel/geom"
	"trammel/geom/unit"
)

// The units of a 3-4-5 triangle that a tape shows as round figures, the largest
// first: 9-12-15 m down to 150-200-250 mm, and 30-40-50 ft down to 6-8-10 in.
// Above 15 m the tape sags more than the larger triangle gains.
var (
	metricUnits = []unit.Length{3000, 2500, 2000, 1500, 1000, 800, 600, 500, 400, 300, 200, 100, 50}
	feetUnits   = []unit.Length{10 * unit.Foot, 8 * unit.Foot, 5 * unit.Foot, 4 * unit.Foot, 3 * unit.Foot, 2 * unit.Foot, 1.5 * unit.Foot, unit.Foot, 9 * unit.Inch, 6 * unit.Inch, 3 * unit.Inch, 2 * unit.Inch}
)

func inches(s unit.Style) bool { return s.Unit == unit.IN || s.Unit == unit.FT }

// crowd is how near, as a share of the baseline, the square's marks come to
// other marks only where nothing else fits: nearer, pegs and letters run together.
const crowd = 0.05

// fitSquare finds the largest 3-4-5 triangle that lies along the baseline and
// within the height (or a quarter of the baseline, where the triangle is flatter:
// a leg much shorter than that would not hold a direction). Where the foot lies
// beyond an end, the string is there to mark the leg on as well.
func (w *work) fitSquare() {
	p, b := w.Triangle.Points, w.Baseline.Length
	units := metricUnits
	if inches(w.Style) {
		units = feetUnits
	}
	room := max(p[2].Y, b/4)
	x := p[2].X
	if w.foot == w.left {
		x = 0
	} else if w.foot == w.right {
		x = b
	}
	w.Square.At = w.foot
	switch {
	case x < 0:
		w.Square.Past, w.Square.End = -x, w.left
	case x > b:
		w.Square.Past, w.Square.End = x-b, w.right
	}
	try := func(u, along, up unit.Length, left bool, clear unit.Length) bool {
		leg := x + along
		if left {
			leg = x - along
		}
		if up > room || leg < min(0, x) || leg > max(b, x) {
			return false
		}
		for _, peg := range w.Pegs {
			if peg.Role == Foot {
				continue // as far off as the legs are long
			}
			if peg.At.Distance(geom.Point{X: leg}) < clear || peg.At.Distance(geom.Point{X: x, Y: up}) < clear {
				return false
			}
		}
		toward := w.right
		if left {
			toward = w.left
		}
		w.Square.Toward = toward
		w.Square.Along, w.Square.Up, w.Square.Across, w.Square.Unit = along, up, 5*u, u
		w.Square.Loop = [3]unit.Length{along, along + 5*u, 12 * u}
		leg0, top := w.free("Q"), w.free("R")
		w.Square.Leg, w.Square.Top = leg0, top
		w.Pegs = append(w.Pegs,
			Peg{Name: leg0, Role: SquareLeg, At: geom.Point{X: leg}, Along: w.along(leg), Note: "for the square"},
			Peg{Name: top, Role: SquareTop, At: geom.Point{X: x, Y: up}, Along: w.along(x), Offset: up, Note: "for the square"})
		return true
	}
	farLeft := x > b/2 // the longer part of the baseline lies to the left of the foot
	for _, clear := range []unit.Length{crowd * b, crowd * b / 4, 0} {
		for _, u := range units {
			for _, left := range []bool{farLeft, !farLeft} {
				if try(u, 4*u, 3*u, left, clear) || try(u, 3*u, 4*u, left, clear) {
					return
				}
			}
		}
	}
}
