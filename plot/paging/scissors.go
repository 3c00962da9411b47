package paging

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/place"
)

// A line to cut paper along must not be taken for one of the piece, so a small pair
// of scissors runs into it, the tips of its blades on the line, so that it belongs to no
// other line near: on what falls off if the page shows enough of that, else on what stays.

// Sizes of the scissors, in mm.
const (
	scissorsLong unit.Length = 4.8 // along the line
	scissorsHigh unit.Length = 3.3 // from the line to the farther eye
	scissorsTip  unit.Length = 0.2 // of the lower blade from the middle of the line
	scissorsLean             = 20 * unit.Degree
	scissorsStep unit.Length = 2.5 // between the places that are tried
)

// scissors stand once beside each cut of a page, at the first place from its start
// that is clear of everything on it; none where there is no such place.
func scissors(cuts []geom.Line, window geom.Rect, ops []draw.Op, r draw.Ruler) (d draw.Drawing) {
	boxes := make([]geom.Rect, 0, len(ops))
	for _, op := range ops {
		boxes = append(boxes, op.Bounds(r))
	}
	var joins, rest []place.Shape
	for _, c := range cuts {
		l, ok := geom.ClipLine(c, window)
		if !ok {
			continue
		}
		way := l.To.Minus(l.From).Times(float64(1 / l.Length()))
		kept := geom.Point{X: -way.Y, Y: way.X}
		at := func(u, v unit.Length) geom.Point {
			return l.From.Plus(way.Times(float64(u))).Plus(kept.Times(float64(v)))
		}
		side := unit.Length(-1)
		if !window.Has(at(0, side*(scissorsHigh+armRoom))) {
			side = 1
		}
		band := geom.RectOf(at(0, 0), at(l.Length(), side*scissorsHigh)).Grow(furniture.RoomLeast)
		near := func(i int) bool { return boxes[i].Meets(band) && !isLine(ops[i], l) }
		joins, rest = inTheWay(ops, near, joins[:0], rest[:0], r)
		for u := scissorsStep; u+scissorsLong+scissorsStep <= l.Length(); u += scissorsStep {
			box := geom.RectOf(at(u, side*scissorsTip), at(u+scissorsLong, side*scissorsHigh))
			if keepsClear(box, joins, armRoom, armRoom) && keepsClear(box, rest, furniture.RoomLeast, furniture.RoomLeast) {
				d = append(d, pair(func(a, b unit.Length) geom.Point { return at(u+a, side*b) })...)
				break
			}
		}
	}
	return d
}

// inTheWay adds the shapes of those that are near: marks and words of joins, and all else.
func inTheWay(ops []draw.Op, near func(i int) bool, joins, rest []place.Shape, r draw.Ruler) (_, _ []place.Shape) {
	for i, op := range ops {
		switch {
		case !near(i):
		case op.Layer() == draw.Joins:
			joins = place.Shapes(joins, op, r)
		default:
			rest = place.Shapes(rest, op, r)
		}
	}
	return joins, rest
}

func isLine(op draw.Op, l geom.Line) bool {
	o, ok := op.(draw.Line)
	return ok && o.Line == l
}

// pair is a pair of scissors, half open, that cuts into the line where the second
// coordinate is 0, along the first: two eyes, two blades that cross.
func pair(at func(along, across unit.Length) geom.Point) (d draw.Drawing) {
	const eye, long, open unit.Length = 0.6, 4.5, 0.5 // open: half between the tips
	sin, cos := math.Sincos(float64(scissorsLean))
	lean := func(a, b unit.Length) geom.Point {
		return at(0.4+a*unit.Length(cos)+b*unit.Length(sin), scissorsTip+(long-a)*unit.Length(sin)+(b+open)*unit.Length(cos))
	}
	for _, s := range [2]unit.Length{1, -1} {
		d = append(d,
			draw.Arc{Arc: geom.Arc{Centre: lean(eye, s*0.7), Radius: eye, Sweep: unit.Turn}, Pen: draw.Narrow, On: draw.Joins},
			draw.Line{Line: geom.Line{From: lean(1.05, s*0.4), To: lean(long, -s*open)}, Pen: draw.Narrow, On: draw.Joins})
	}
	return d
}
