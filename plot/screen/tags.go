package screen

import (
	"math"
	"slices"
	"unicode/utf8"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/place"
)

// board is a picture that is being filled: ink, and boxes that no other may lie on.
type board struct {
	place.Scene
	room  geom.Rect
	bound map[int]geom.Line // sides of the outline, by the number of their ink
}

// spot is one place for a box.
type spot struct {
	at     geom.Point // the middle
	cost   float64
	leader geom.Line // zero: none
	over   bool      // it may lie on other lines

	onSides bool // and then on sides of the outline too: it is plain all the same what it is of
}

const (
	apartBoxes unit.Length = 2
	apartInk   unit.Length = 2 // at least, from a side
	clearOf    unit.Length = 5 // better, from any line
	toEdge     unit.Length = 3
	pen        unit.Length = 1 // half of the widest line
)

func newBoard(v view) board {
	return board{place.NewScene(60), geom.Rect{Max: geom.Point{X: v.width, Y: v.height}}.Grow(-toEdge), map[int]geom.Line{}}
}

func box(at geom.Point, w, h unit.Length) geom.Rect {
	half := geom.Point{X: w / 2, Y: h / 2}
	return geom.Rect{Min: at.Minus(half), Max: at.Plus(half)}
}

func polygon(r geom.Rect) geom.Polygon {
	c := r.Corners()
	return geom.Polygon(c[:])
}

// ink files a line of the thing with a number, 1 for the first.
func (b board) ink(l geom.Line, number int) {
	b.Draw(place.Stroke{Line: l, Half: pen, Of: number})
}

// free says whether a box has room there.
func (b board) free(s spot, w, h unit.Length, own int) bool {
	r := box(s.at, w, h)
	if !b.room.Has(r.Min) || !b.room.Has(r.Max) {
		return false
	}
	p := polygon(r)
	if s.over {
		far := r.Grow(apartBoxes)
		if !s.onSides && b.onSide(p, own) {
			return false
		}
		if !b.Boxes.Every(far, func(o geom.Polygon) bool { return !far.Meets(o.Bounds()) || p.Apart(o) >= apartBoxes }) {
			return false
		}
	} else if !b.Free(p, place.Gaps{Ink: clearOf, Words: apartBoxes}, own) {
		return false
	}
	if s.leader == (geom.Line{}) {
		return true
	}
	for i, l := range b.bound {
		if i != own && l.Apart(s.leader) == 0 && l.Distance(s.leader.From) > 1 {
			return false
		}
	}
	return b.Boxes.Every(s.leader.Bounds(), func(o geom.Polygon) bool { return o.Has(s.leader.From) || o.ApartFrom(s.leader) >= 1 })
}

// onSide says whether a box lies on a side of the outline that is not its own.
func (b board) onSide(p geom.Polygon, own int) bool {
	for i, l := range b.bound {
		if i != own && p.ApartFrom(l) < apartInk {
			return true
		}
	}
	return false
}

// best takes the cheapest place that is free, and files the box.
func (b board) best(all []spot, w, h unit.Length, own int) (taken spot, ok bool) {
	over := make([]spot, len(all))
	for i, s := range all {
		s.over, s.cost = true, s.cost+onLines
		over[i] = s
	}
	all = slices.Concat(all, over)
	ok = place.Cheapest(len(all), place.Never, func(i int) float64 { return all[i].cost }, func(i int) (bool, float64) {
		taken = all[i]
		return b.free(all[i], w, h, own), place.Never
	})
	if ok {
		b.Block(polygon(box(taken.at, w, h)))
	}
	return taken, ok
}

// onLines is what it costs a box to lie on lines that are not its own.
const onLines = 70

// reach is how far a box reaches from its middle in a direction.
func reach(w, h unit.Length, a unit.Angle) unit.Length {
	s, c := math.Sincos(float64(a))
	return w/2*unit.Length(math.Abs(c)) + h/2*unit.Length(math.Abs(s))
}

// wide is the width of words and what is about them.
func wide(say string) unit.Length {
	return max(Target, unit.Length(utf8.RuneCountInString(say))*character+beside)
}

// places for the tag of a thing.
func (t thing) places() []spot {
	if t.Kind == Angle {
		return t.anglePlaces()
	}
	length, dir := t.line.Length(), t.line.Direction()
	w := unit.Length(t.W)
	along, across := reach(w, Target, dir), reach(w, Target, dir+unit.Turn/4)
	var all []spot
	for s := unit.Length(0); s <= length*0.45; s += 10 {
		for _, shift := range [2]unit.Length{s, -s} {
			at, cost := t.line.At(0.5+float64(shift/max(length, 1))), float64(s)*0.3
			if s+along+8 < length/2 || s == 0 && along+5 < length/2 {
				all = append(all, spot{at: at, cost: cost})
			}
			if t.Kind == Side {
				all = append(all, spot{at: at.Toward(t.out, across+4), cost: cost + 15}, spot{at: at.Toward(t.out, -across-4), cost: cost + 40})
			}
		}
	}
	if t.Kind != Side { // beside it or away from it, it would be taken for another's
		return all
	}
	return append(all, led(t.line.At(0.5), t.out, w, Target, 55)...)
}

// led are places about a point with a leader to it.
func led(from geom.Point, out unit.Angle, w, h unit.Length, cost float64) (all []spot) {
	for d := unit.Length(8); d <= 170; d += 12 {
		for k := range 24 {
			turn := unit.Angle(float64((k+1)/2)*float64(1-2*(k%2))) * 15 * unit.Degree
			a := out + turn
			at := from.Toward(a, d+reach(w, h, a))
			all = append(all, spot{at: at, cost: cost + float64(d)*0.5 + math.Abs(turn.Degrees())*0.2, leader: geom.Line{From: from, To: from.Toward(a, d+4)}})
		}
	}
	return all
}

// anywhere are places all over the picture, the nearest to a point the cheapest.
func (b board) anywhere(from geom.Point) (all []spot) {
	for x := b.room.Min.X; x < b.room.Max.X; x += 6 {
		for y := b.room.Min.Y; y < b.room.Max.Y; y += 6 {
			at := geom.Point{X: x, Y: y}
			all = append(all, spot{at: at, cost: float64(from.Distance(at)), over: true, onSides: true})
		}
	}
	return all
}

// anglePlaces are on the line that halves the angle, inside; then outside with a leader.
func (t thing) anglePlaces() []spot {
	var all []spot
	in, corner, w := t.out+unit.Turn/2, t.line.From, unit.Length(t.W)
	for d := unit.Length(6); d <= 60; d += 4 { // farther in it would be nobody's
		all = append(all, spot{at: corner.Toward(in, d+reach(w, Target, in)), cost: float64(d), onSides: d < 20})
	}
	return append(all, led(corner, t.out, w, Target, 70)...)
}

// radius of the arc that marks an angle.
func (t thing) radius() unit.Length {
	return min(20, 0.3*min(t.line.From.Distance(t.arms[0]), t.line.From.Distance(t.arms[1])))
}

// arc that marks an angle.
func (t thing) arc() geom.Arc {
	first, second := geom.Line{From: t.line.From, To: t.arms[0]}.Direction(), geom.Line{From: t.line.From, To: t.arms[1]}.Direction()
	return geom.Arc{Centre: t.line.From, Radius: t.radius(), Start: first, Sweep: between(first, second)}
}
