package plan

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// lengths writes the lengths beside their lines, those of the edges outside and first, then
// those that were measured. What finds no place is led out of all that is drawn, of few
// pegs; of many it stands in the tables alone.
func (v *view) lengths() {
	rank := func(s Side) int {
		switch {
		case v.edgeHand(s) != 0:
			return 0
		case s.Measured:
			return 1
		}
		return 2
	}
	sides := slices.Clone(v.drawnSides())
	slices.SortStableFunc(sides, func(a, b Side) int { return cmp.Compare(rank(a), rank(b)) })
	var left []label
	for _, s := range sides {
		from, ok := v.at[s.From]
		to, also := v.at[s.To]
		inside := v.in == nil || v.in.has(from) && v.in.has(to)
		if c := crowdOf(v.crowds, s.From); ok && also && s.Words != "" && inside && (c < 0 || c != crowdOf(v.crowds, s.To)) {
			if lab, ok := v.length(geom.Line{From: from, To: to}, v.edgeHand(s), s); !ok && v.in == nil && v.corners() <= somePegs {
				left = append(left, lab)
			}
		}
	}
	for _, lab := range left {
		v.lead(lab, longReach, true)
	}
}

// length writes a length beside its line: outside of an edge, and inside where
// that has no room; on either hand of another line, or in a gap of it; else on a
// leader, where there are few.
func (v *view) length(l geom.Line, hand unit.Angle, s Side) (lab label, ok bool) {
	n := v.corners()
	heights := []unit.Length{draw.FigureHeight, draw.NoteHeight}
	if n > somePegs {
		heights = heights[1:]
	}
	first := hand
	if hand == 0 {
		first = 1
	}
	lab = label{words: s.Words, bold: s.Measured, on: draw.Dimension, anchor: l.At(0.5), clear: 0.2}
	if hand == 0 && n > 3 {
		lab.anchor = l.At(0.4) // diagonals cross in the middle
	}
	for _, lab.height = range heights {
		if n > 3 && lab.width(v.r) > 1.1*l.Length() {
			continue
		}
		if hand == 0 && n > 3 && v.part(lab, l) { // in its own line nobody takes it for another's
			return lab, true
		}
		places := beside(l, lab.height, first*unit.Turn/4)
		if hand == 0 {
			places = append(places, beside(l, lab.height, -first*unit.Turn/4)...)
		}
		if v.label(lab, places, v.nextTo(l)) {
			return lab, true
		}
		if n <= 3 && hand != 0 {
			break // a triangle's side always finds room on a leader
		}
	}
	if hand != 0 && n > 3 && lab.width(v.r) <= 1.1*l.Length() && v.label(lab, beside(l, lab.height, -first*unit.Turn/4), v.nextTo(l)) {
		return lab, true
	}
	if n <= 3 {
		lab.height = draw.FigureHeight
		return lab, v.lead(lab, longReach, true)
	}
	return lab, n <= somePegs && v.lead(lab, lengthReach, false)
}

// nextTo tells of places beside a line whether nobody takes a length there for another
// line's: none parts them from it, none is nearer.
func (w *linework) nextTo(l geom.Line) func(spot, geom.Polygon) bool {
	const less = 0.3
	return func(s spot, _ geom.Polygon) bool {
		foot := l.Nearest(s.at)
		own := foot.Distance(s.at)
		return w.overLines(geom.Line{From: foot.Toward(geom.Line{From: foot, To: s.at}.Direction(), 0.4), To: s.at}) == 0 &&
			!slices.ContainsFunc(w.lines, func(x drawnLine) bool {
				return x.Line.Distance(s.at) < own+less && ends(x.From, x.To) != ends(l.From, l.To) && ends(x.To, x.From) != ends(l.From, l.To)
			})
	}
}

// part writes a length in a gap of its own line.
func (w *linework) part(l label, on geom.Line) bool {
	const gap = 0.8
	half := l.width(w.r)/2 + gap
	for i, d := range w.lines {
		if w.in != nil || d.op < 0 || d.From.Distance(on.From) > onLine || d.To.Distance(on.To) > onLine {
			continue
		}
		for _, t := range along {
			at := unit.Length(t) * on.Length()
			if at < half+leaderStart || on.Length()-at < half+leaderStart {
				continue
			}
			put := l.at(spot{on.At(t), place.Readable(unit.Turn/4, on.Direction())}, w.r)
			if !w.Free(put.box, gaps, d.number) {
				continue
			}
			whole := w.ops[d.op].(draw.Line)
			rest := whole
			whole.To = on.At(float64((at - half) / on.Length()))
			rest.From = on.At(float64((at + half) / on.Length()))
			w.ops[d.op] = whole
			w.add(rest)
			w.put(put)
			w.lines[i].op = -1
			return true
		}
	}
	return false
}

// along is where along a line a length is tried, the middle first.
var along = []float64{0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88}

// beside are places along a line, on its left (90°) or right (−90°), the middle first.
func beside(l geom.Line, h unit.Length, out unit.Angle) []spot {
	dir := l.Direction()
	var places []spot
	for _, t := range along {
		for _, off := range []unit.Length{2.2, 3.8} {
			places = append(places, spot{l.At(t).Toward(dir+out, off+h/2), place.Readable(unit.Turn/4, dir)})
		}
	}
	return places
}
