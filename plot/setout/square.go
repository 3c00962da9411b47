package setout

import (
	"trammel/geom"
	"trammel/geom/unit"
)

// squareFor is the square that a corner is set off by, as an index into Squares: one
// that stands at its foot already, else the one that the way is ranked by. Where the
// foot lies beyond an end, the string is there to mark the leg on as well.
func (w *work) squareFor(n geom.Name) int {
	along, _, side := w.running(w.sides[n])
	for i, q := range w.Squares {
		if q.At == w.feet[n] && q.Side == side {
			return i
		}
	}
	b := w.Baseline.Length
	from, to := w.Baseline.From, w.Baseline.To
	q := Square{At: w.feet[n], Square: w.squareOf[n], Side: side, Toward: to}
	if q.Back {
		q.Toward = from
	}
	switch {
	case along < -sameMark:
		q.Past, q.End = -along, from
	case along > b+sameMark:
		q.Past, q.End = along-b, to
	}
	q.Loop = [3]unit.Length{q.Along, q.Along + q.Across, q.Along + q.Across + q.Up}
	if w.lone() {
		q.Leg, q.Top = w.free("Q"), w.free("R")
	} else {
		q.Leg, q.Top = w.numbered("Q"), w.numbered("R")
	}
	w.Squares = append(w.Squares, q)
	return len(w.Squares) - 1
}

// squarePegs are the two marks of a square.
func (w *work) squarePegs(q Square) [2]Peg {
	x := unit.Length(0)
	switch ends := w.ends(); q.At {
	case ends[0]:
	case ends[1]:
		x = w.Baseline.Length
	default:
		for _, p := range w.marksOn {
			if p.Name == q.At {
				x = p.At.X
			}
		}
	}
	leg, top := geom.Point{X: x + q.Along}, geom.Point{X: x, Y: q.Up}
	if q.Toward == w.ends()[0] {
		leg.X = x - q.Along
	}
	if w.plane(0, 1).Y > 0 != (q.Side == Left) {
		top.Y = -q.Up
	}
	return [2]Peg{w.mark(q.Leg, SquareLeg, leg, "for the square"), w.mark(q.Top, SquareTop, top, "for the square")}
}
