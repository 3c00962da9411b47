package setout

import (
	"trammel/geom"
	"trammel/geom/survey"
	"trammel/geom/unit"
)

func inches(s unit.Style) bool { return s.Unit == unit.IN || s.Unit == unit.FT }

// crowd is how near, as a share of the baseline, the square's marks come to
// other marks only where nothing else fits: nearer, pegs and letters run together.
const crowd = 0.05

// squareFor is the square that a corner is set off by, as an index into Squares: one
// that stands at its foot already, else a new one, the largest 3-4-5 triangle that
// lies along the baseline and within the offset (or a quarter of the baseline, where
// the triangle is flatter: a leg much shorter than that would not hold a direction).
// Where the foot lies beyond an end, the string is there to mark the leg on as well.
func (w *work) squareFor(n geom.Name) int {
	_, offset, side := w.running(w.sides[n])
	for i, q := range w.Squares {
		if q.At == w.feet[n] && q.Side == side {
			return i
		}
	}
	b := w.Baseline.Length
	x := w.sides[n].X
	for i, end := range w.ends() {
		if w.feet[n] == end {
			x = b * unit.Length(i)
		}
	}
	room := b / 4
	for _, m := range w.beside { // the others that it serves
		if _, o, s := w.running(w.sides[m]); w.feet[m] == w.feet[n] && s == side {
			offset = max(offset, o)
		}
	}
	room = max(room, offset)
	up := unit.Length(1)
	if w.sides[n].Y < 0 {
		up = -1
	}
	q := Square{At: w.feet[n], Side: side}
	ends := w.ends()
	switch {
	case x < -sameMark:
		q.Past, q.End = -x, ends[0]
	case x > b+sameMark:
		q.Past, q.End = x-b, ends[1]
	}
	standing := w.standing()
	fits := func(k survey.Square, left bool, clear unit.Length) bool {
		leg := x + k.Along
		if left {
			leg = x - k.Along
		}
		if k.Up > room || leg < min(0, x) || leg > max(b, x) {
			return false
		}
		for _, p := range standing {
			if p.Distance(geom.Point{X: leg}) < clear || p.Distance(geom.Point{X: x, Y: up * k.Up}) < clear {
				return false
			}
		}
		q.Toward = ends[1]
		if left {
			q.Toward = ends[0]
		}
		q.Square = k
		return true
	}
	farLeft := x > b/2 // the longer part of the baseline lies to the left of the foot
	found := false
	all := w.Tools.Squares()
search:
	for _, clear := range []unit.Length{crowd * b, crowd * b / 4, 0} {
		for i := 0; i < len(all); i += 2 { // of one unit, both ways round
			for _, left := range []bool{farLeft, !farLeft} {
				if fits(all[i], left, clear) || fits(all[i+1], left, clear) {
					found = true
					break search
				}
			}
		}
	}
	if !found {
		q.Square, q.Toward = all[len(all)-1], ends[0] // a baseline of 1 m has room for it
	}
	q.Loop = [3]unit.Length{q.Along, q.Along + q.Across, q.Along + q.Across + q.Up}
	if w.lone() {
		q.Leg, q.Top = w.free("Q"), w.free("R")
	} else {
		q.Leg, q.Top = w.numbered("Q"), w.numbered("R")
	}
	w.Squares = append(w.Squares, q)
	for _, p := range w.squarePegs(q) {
		w.squareMarks = append(w.squareMarks, p.At)
	}
	return len(w.Squares) - 1
}

// standing are the marks that those of a square keep clear of: all but the feet,
// which are as far off as its legs are long.
func (w *work) standing() (all []geom.Point) {
	for _, p := range w.sides {
		all = append(all, p)
	}
	for _, p := range w.marksOn {
		if p.Role != Foot {
			all = append(all, p.At)
		}
	}
	for _, p := range w.mids {
		all = append(all, p.At)
	}
	return append(all, w.squareMarks...)
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
