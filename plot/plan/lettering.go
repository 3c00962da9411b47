package plan

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// How many pegs a plan may have for lettering of the sizes.
const (
	fewPegs  = 8
	somePegs = 20
)

// How far a name, a length may be led away from what it belongs to.
const (
	nameReach   unit.Length = 20 // where a detail can do better
	longReach   unit.Length = 90
	lengthReach unit.Length = 40
)

// corners is how many pegs of the piece itself there are, in all: a detail is
// lettered as its plan.
func (v *view) corners() int {
	n := 0
	for _, peg := range v.Pegs {
		if peg.Role == Corner {
			n++
		}
	}
	return n
}

// labels letters everything: what has the fewest places first.
func (v *view) labels() {
	on := func(peg Peg) bool { return math.Abs(float64(peg.At.Y)) < onLine }
	for _, now := range []func(Peg) bool{
		func(peg Peg) bool { return peg.Role == Corner },
		func(peg Peg) bool { return peg.Role != Corner && !on(peg) },
		nil,
		func(peg Peg) bool { return peg.Role != Corner && on(peg) },
	} {
		if now == nil {
			v.lengths()
			continue
		}
		for _, peg := range v.shown {
			if v.onlyWhole && len(v.unnamed) > 0 {
				return
			}
			if peg.Name != "" && !v.member[peg.Name] && now(peg) {
				v.name(peg, v.byRunning(peg))
			}
		}
	}
}

// byRunning says whether a mark has its name in the running figures below the
// baseline that it lies on.
func (v *view) byRunning(peg Peg) bool {
	return peg.Role != Corner && v.inRun[peg.Name] && math.Abs(float64(peg.At.Y)) < onLine
}

// name letters a peg; optional where the running figures name it as well.
func (v *view) name(peg Peg, optional bool) {
	heights := []unit.Length{draw.FigureHeight}
	n := v.corners()
	switch {
	case peg.Role != Corner:
	case n <= fewPegs:
		heights = []unit.Length{draw.CornerHeight, draw.TitleHeight, draw.FigureHeight}
	case n <= somePegs:
		heights = []unit.Length{draw.TitleHeight, draw.FigureHeight}
	}
	if n > 3 {
		heights = append(heights, draw.NoteHeight)
	}
	l := label{words: string(peg.Name), number: peg.Number, bold: true, on: draw.Dimension, anchor: peg.At, clear: leaderStart}
	var own func(spot, geom.Polygon) bool
	if n > 3 {
		own = v.own(peg)
	}
	// Rather smaller than on the other side of the lines.
	for _, last := range []float64{119, 179} {
		for _, l.height = range heights {
			places := v.aroundMark(peg, l)
			if peg.Role == Corner {
				places = v.aroundCorner(peg, l, last)
			}
			if v.labelWhere(l, places, own) {
				return
			}
		}
		if n <= 3 || peg.Role != Corner {
			break
		}
	}
	if optional {
		return
	}
	if n <= 3 {
		l.height = heights[0]
	}
	if v.lastResort || v.forced[peg.Name] {
		// Outside of all that is drawn there is always a place.
		if v.lead(l, longReach, true) || v.lead(l, v.bounds.Width()+v.bounds.Height()+longReach, true) {
			return
		}
	} else if v.lead(l, nameReach, false) {
		return
	}
	v.unnamed = append(v.unnamed, peg.Name)
}

// own tells of places whether nobody takes a label there for another peg's:
// nearer to its own one, and no line from peg to peg between.
func (v *view) own(peg Peg) func(spot, geom.Polygon) bool {
	const far, less = 45, 0.8
	var pegs []geom.Point
	for _, other := range v.shown {
		if other.Name != peg.Name && other.At.Distance(peg.At) < far {
			pegs = append(pegs, other.At)
		}
	}
	var lines []geom.Line
	for _, line := range v.lines {
		if d := line.Line.Distance(peg.At); d < far/2 && d > onLine {
			lines = append(lines, line.Line)
		}
	}
	return func(_ spot, box geom.Polygon) bool {
		near := nearestOn(box, peg.At)
		way := geom.Line{From: peg.At, To: near}
		return !slices.ContainsFunc(pegs, func(p geom.Point) bool { return nearestOn(box, p).Distance(p) < near.Distance(peg.At)+less }) &&
			!slices.ContainsFunc(lines, func(line geom.Line) bool { return line.Apart(way) == 0 })
	}
}

// aroundCorner are places outside, on the bisector and to the last degree off it;
// off it rather 1 mm further out than 7°.
func (v *view) aroundCorner(peg Peg, l label, last float64) []spot {
	out := v.outward(peg)
	least := leaderStart + 0.6*l.height
	wider := max(0, l.width(v.r)-l.height) / 2
	var places []spot
	add := func(turn float64, d unit.Length) {
		a := out + unit.Angle(turn)*unit.Degree
		places = append(places, spot{peg.At.Toward(a, d+wider*unit.Length(math.Abs(math.Cos(float64(a))))), 0})
	}
	for cost := 0.0; cost < 28; cost++ {
		for turn := 0.0; turn <= last; turn += 7 {
			if d := cost - turn/7; d >= 0 && d <= 7 {
				add(turn, least+unit.Length(d))
				add(-turn, least+unit.Length(d))
			}
		}
	}
	return places
}

// outward is where a corner's letter belongs: on the bisector outside, of hollow
// corners too; of other pegs where the lines leave the widest gap.
func (v *view) outward(peg Peg) unit.Angle {
	n := len(v.Edge)
	for i, name := range v.Edge {
		before, ok := v.at[v.Edge[(i+n-1)%n]]
		after, also := v.at[v.Edge[(i+1)%n]]
		if name != peg.Name || !ok || !also || n < 3 {
			continue
		}
		in := geom.Line{From: before, To: peg.At}.Direction()
		turn := math.Remainder(float64(geom.Line{From: peg.At, To: after}.Direction()-in), 2*math.Pi)
		return in + unit.Angle(turn/2) + v.outside()*unit.Turn/4
	}
	var along []float64
	for _, l := range v.lines {
		dir := float64(l.Direction())
		switch {
		case l.Line.Distance(peg.At) > onLine:
		case l.From.Distance(peg.At) < onLine:
			along = append(along, dir)
		case l.To.Distance(peg.At) < onLine:
			along = append(along, dir+math.Pi)
		default:
			along = append(along, dir, dir+math.Pi)
		}
	}
	return widestGap(along)
}

// widestGap is the middle of the widest gap between directions; up and to the
// right where there are none.
func widestGap(along []float64) unit.Angle {
	if len(along) == 0 {
		return 45 * unit.Degree
	}
	for i := range along {
		along[i] = math.Mod(along[i]+4*math.Pi, 2*math.Pi)
	}
	slices.Sort(along)
	best, gap := 0.0, 0.0
	for i, a := range along {
		next := along[0] + 2*math.Pi
		if i+1 < len(along) {
			next = along[i+1]
		}
		if next-a > gap+1e-9 {
			best, gap = (a+next)/2, next-a
		}
	}
	return unit.Angle(best)
}

// outside is the hand on which the outside of the edges lies, walked in their
// order: −1 the right one, +1 the left.
func (v *view) outside() unit.Angle {
	out, area := v.outline(), 0.0
	for i := range out {
		area += side(out.Edge(i), geom.Point{})
	}
	if area < 0 {
		return 1
	}
	return -1
}

// aroundMark are places for the name of a mark: inward of an edge, which leaves
// its length the room outside; else to the right and a little down, away from
// lines that stand upright.
func (v *view) aroundMark(peg Peg, l label) []spot {
	first := -45 * unit.Degree
	if peg.Role == Midpoint && math.Abs(float64(peg.At.Y)) >= onLine {
		first = geom.Line{From: peg.At, To: geom.Line{From: v.at[v.Base[0]], To: v.at[v.Base[1]]}.At(0.5)}.Direction()
	}
	wider := max(0, l.width(v.r)-l.height) / 2
	var places []spot
	for _, d := range []unit.Length{4, 5, 6, 7.5, 9} {
		for _, deg := range []unit.Angle{0, 30, -30, 60, -60, 90, -90, 120, -120, 150, -150, 180} {
			a := first + deg*unit.Degree
			places = append(places, spot{peg.At.Toward(a, d+wider*unit.Length(math.Abs(math.Cos(float64(a))))), 0})
		}
	}
	return places
}

// lengths writes the lengths beside their lines, those of the edges outside.
func (v *view) lengths() {
	sides := slices.Clone(v.drawnSides())
	edge := func(s Side) unit.Angle { return v.edgeHand(s) }
	slices.SortStableFunc(sides, func(a, b Side) int {
		rank := func(s Side) int {
			switch {
			case edge(s) != 0:
				return 0
			case s.Measured:
				return 1
			}
			return 2
		}
		return cmp.Compare(rank(a), rank(b))
	})
	for _, s := range sides {
		from, ok := v.at[s.From]
		to, also := v.at[s.To]
		if !ok || !also || s.Words == "" {
			continue
		}
		if v.in != nil && !(v.in.has(from) && v.in.has(to)) {
			continue
		}
		if v.together(s.From, s.To) {
			continue
		}
		if !v.length(geom.Line{From: from, To: to}, edge(s), s.Words) {
			v.untold = append(v.untold, s.Words)
		}
	}
}

// edgeHand is the hand of a side on which the outside lies, +1 the left one; 0
// where it is no edge.
func (v *view) edgeHand(s Side) unit.Angle {
	for i, n := range v.Edge {
		next := v.Edge[(i+1)%len(v.Edge)]
		switch {
		case n == s.From && next == s.To:
			return v.outside()
		case n == s.To && next == s.From:
			return -v.outside()
		}
	}
	return 0
}

// length writes a length beside its line: outside of an edge, and inside where
// that has no room; on either hand of another line, or in a gap of it; else on a
// leader, where there are few.
func (v *view) length(l geom.Line, hand unit.Angle, words string) bool {
	n := v.corners()
	heights := []unit.Length{draw.FigureHeight, draw.NoteHeight}
	if n > somePegs {
		heights = heights[1:]
	}
	first := hand
	if hand == 0 {
		first = 1
	}
	lab := label{words: words, on: draw.Dimension, anchor: l.At(0.5), clear: 0.2}
	if hand == 0 && n > 3 {
		lab.anchor = l.At(0.4) // diagonals cross in the middle
	}
	for _, lab.height = range heights {
		if n > 3 && lab.width(v.r) > 1.1*l.Length() {
			continue
		}
		places := beside(l, lab.height, first*unit.Turn/4)
		if hand == 0 {
			places = append(places, beside(l, lab.height, -first*unit.Turn/4)...)
		}
		if v.labelWhere(lab, places, v.nextTo(l)) {
			return true
		}
		if n <= 3 && hand != 0 {
			break // a triangle's side always finds room on a leader
		}
	}
	if hand != 0 && n > 3 && lab.width(v.r) <= 1.1*l.Length() && v.labelWhere(lab, beside(l, lab.height, -first*unit.Turn/4), v.nextTo(l)) {
		return true
	}
	if hand == 0 && n > 3 && v.part(lab, l) {
		return true
	}
	if n <= 3 {
		lab.height = draw.FigureHeight
		return v.lead(lab, longReach, true)
	}
	return n <= somePegs && v.lead(lab, lengthReach, false)
}

// nextTo tells of places beside a line whether no other line parts them from it.
func (v *view) nextTo(l geom.Line) func(spot, geom.Polygon) bool {
	return func(s spot, _ geom.Polygon) bool {
		foot := l.Nearest(s.at)
		return v.overLines(geom.Line{From: foot.Toward(geom.Line{From: foot, To: s.at}.Direction(), 0.4), To: s.at}) == 0
	}
}

// part writes a length in a gap of its own line.
func (v *view) part(l label, on geom.Line) bool {
	const gap = 0.8
	w := l.width(v.r)/2 + gap
	for i, d := range v.lines {
		if v.in != nil || d.op < 0 || d.From.Distance(on.From) > onLine || d.To.Distance(on.To) > onLine {
			continue
		}
		for _, t := range along {
			at := unit.Length(t) * on.Length()
			if at < w+leaderStart || on.Length()-at < w+leaderStart {
				continue
			}
			put := l.at(spot{on.At(t), readable(on.Direction())}, v.r)
			if !v.Free(put.box, gaps, d.number) {
				continue
			}
			whole := v.ops[d.op].(draw.Line)
			rest := whole
			whole.To = on.At(float64((at - w) / on.Length()))
			rest.From = on.At(float64((at + w) / on.Length()))
			v.ops[d.op] = whole
			v.add(rest)
			v.put(put)
			v.lines[i].op = -1
			return true
		}
	}
	return false
}

// along is where along a line a length is tried, the middle first.
var along = []float64{0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88}

// readable turns a direction so that words along it read from below or from the
// right: between −90° (not read) and +90°.
func readable(turn unit.Angle) unit.Angle {
	for turn > unit.Turn/4+1e-9 {
		turn -= unit.Turn / 2
	}
	for turn <= -unit.Turn/4+1e-9 {
		turn += unit.Turn / 2
	}
	return turn
}

// beside are places along a line, on its left (out = 90°) or right (−90°), the
// middle first.
func beside(l geom.Line, h unit.Length, out unit.Angle) []spot {
	dir := l.Direction()
	var places []spot
	for _, t := range along {
		for _, off := range []unit.Length{2.2, 3.8} {
			places = append(places, spot{l.At(t).Toward(dir+out, off+h/2), readable(dir)})
		}
	}
	return places
}
