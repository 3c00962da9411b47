package plan

import (
	"math"

	"trammel/geom"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// work draws the lines and the pegs.
func (v *view) work() {
	v.baseline()
	if out := v.outline(); len(out) > 2 {
		pen := draw.Wide
		if v.Small {
			pen = draw.Narrow
		}
		v.closed(out, pen, draw.Outline)
		for i := range out {
			v.remember(out.Edge(i), -1, place.NoLine)
		}
	}
	for _, s := range v.Strokes {
		if s.Kind == OffsetTo {
			v.between(s.From.Times(v.k), s.To.Times(v.k), draw.Centre)
		}
	}
	for _, peg := range v.shown {
		v.mark(peg)
	}
	for _, s := range v.Strokes {
		v.stroke(s.Kind, s.From.Times(v.k), s.To.Times(v.k))
	}
	for _, s := range v.drawnSides() {
		from, ok := v.at[s.From]
		to, also := v.at[s.To]
		if ok && also {
			v.between(from, to, draw.Narrow)
		}
	}
}

// baseline draws it where it is no edge, and as far beyond its ends as there are feet.
func (v *view) baseline() {
	left, ok := v.at[v.Base[0]]
	right, also := v.at[v.Base[1]]
	if !ok || !also {
		return
	}
	if v.edgeHand(Side{From: v.Base[0], To: v.Base[1]}) == 0 {
		v.between(left, right, draw.Centre)
	}
	first, _ := v.along(left)
	last, _ := v.along(right)
	from, to := first, last
	reach := func(p geom.Point) {
		if along, across := v.along(p); math.Abs(float64(across)) < onLine {
			first, last = min(first, along), max(last, along)
		}
	}
	for _, peg := range v.shown {
		reach(peg.At)
	}
	for _, s := range v.Strokes {
		if s.Kind == OffsetTo {
			reach(s.From.Times(v.k))
		}
	}
	if first < from {
		v.seen(left, v.place(first-pastFoot, 0), draw.Narrow)
	}
	if last > to {
		v.seen(right, v.place(last+pastFoot, 0), draw.Narrow)
	}
}
