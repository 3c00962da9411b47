package plan

import (
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
			v.angles()
			v.lengths()
			continue
		}
		for _, peg := range v.shown {
			if v.onlyWhole && len(v.unnamed) > 0 {
				return
			}
			if peg.Name != "" && !peg.Quiet && !v.member[peg.Name] && now(peg) {
				v.name(peg, v.byRunning(peg))
			}
		}
	}
}

// letters are the heights that the corners' names may have, the largest first.
func (p Plan) letters() []unit.Length {
	all, n := []unit.Length{draw.CornerHeight, draw.TitleHeight, draw.FigureHeight, draw.NoteHeight}, p.corners()
	switch {
	case n > somePegs:
		return all[2:]
	case n > fewPegs:
		return all[1:]
	case p.Small:
		return all[2:]
	case n <= 3:
		return all[:3]
	}
	return all
}

// figureGap parts the name of a mark from its figure.
const figureGap = "  "

// name letters a peg; optional where the running figures name it as well.
func (v *view) name(peg Peg, optional bool) {
	heights := []unit.Length{draw.FigureHeight}
	n := v.corners()
	if peg.Role == Corner {
		heights[0] = v.letters
	}
	if n > 3 && (peg.Role != Corner || v.in != nil) {
		heights = append(heights, draw.NoteHeight)
	}
	l := label{words: string(peg.Name), bold: true, on: draw.Dimension, anchor: peg.At, clear: leaderStart}
	if peg.Figure != "" {
		l.words += figureGap + peg.Figure
	}
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
			if v.label(l, places, own) {
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
	v.tight = v.tight || peg.Role == Corner
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
	for cost := 0.0; cost < 28; cost++ {
		for turn := 0.0; turn <= last; turn += 7 {
			if d := cost - turn/7; d >= 0 && d <= 7 {
				for _, turn := range []float64{turn, -turn} {
					places = append(places, off(peg.At, wider, out+unit.Angle(turn)*unit.Degree, least+unit.Length(d)))
				}
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

// widestGap is the middle of the widest gap between directions; 45° where there are none.
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

// aroundMark are places for a mark's name: inward of an edge, whose length stands outside;
// else to the right and a little down.
func (v *view) aroundMark(peg Peg, l label) []spot {
	first := -45 * unit.Degree
	if peg.Role == Midpoint && math.Abs(float64(peg.At.Y)) >= onLine {
		first = geom.Line{From: peg.At, To: geom.Line{From: v.at[v.Base[0]], To: v.at[v.Base[1]]}.At(0.5)}.Direction()
	}
	wider := max(0, l.width(v.r)-l.height) / 2
	var places []spot
	for _, d := range []unit.Length{4, 5, 6, 7.5, 9} {
		for _, deg := range []unit.Angle{0, 30, -30, 60, -60, 90, -90, 120, -120, 150, -150, 180} {
			places = append(places, off(peg.At, wider, first+deg*unit.Degree, d))
		}
	}
	return places
}

// off is a place so far off a peg, and the wider, the more so along the words.
func off(at geom.Point, wider unit.Length, a unit.Angle, d unit.Length) spot {
	return spot{at.Toward(a, d+wider*unit.Length(math.Abs(math.Cos(float64(a))))), 0}
}
