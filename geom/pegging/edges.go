package pegging

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/passage"
	"trammel/geom/unit"
)

// mostMarks is how many marks along the edges a sheet lists.
const mostMarks = 400

// EdgeMark is a mark on an edge, for where a line cannot be stretched.
type EdgeMark struct {
	Edge   [2]geom.Name // counted from the first
	At     unit.Length  // from there
	Along  unit.Length  // as of a peg
	Offset unit.Length
	Side   Side
	Point  geom.Point // in the plane of the baseline
}

// Nail in a profile board, on the line of an edge beyond a corner, clear of the digging.
type Nail struct {
	Edge   [2]geom.Name
	Beyond geom.Name   // one of its ends
	Past   unit.Length // from there
	Along  unit.Length // as of a peg
	Offset unit.Length
	Side   Side
	Point  geom.Point
}

// String runs over an edge from nail to nail. It crosses those of the edges before
// and after it over its two corners.
type String struct {
	Edge    [2]geom.Name
	Length  unit.Length    // from nail to nail
	Corners [2]unit.Length // from its first nail to either corner
	With    [2][2]geom.Name
}

// edges of the outline, that of the baseline from its zero end.
func (f Frame) edges() (all [][2]geom.Name) {
	for i, a := range f.Outline {
		e := [2]geom.Name{a, f.Outline[(i+1)%len(f.Outline)]}
		if e == [2]geom.Name{f.Baseline.To, f.Baseline.From} {
			e[0], e[1] = e[1], e[0]
		}
		all = append(all, e)
	}
	return all
}

func (f Frame) edgeMarks(every unit.Length) (marks []EdgeMark, err error) {
	if every <= 0 {
		return nil, nil
	}
	count := 0.0
	for _, e := range f.edges() {
		count += math.Floor(float64(f.distance(e[0], e[1]) / every))
	}
	if count > mostMarks {
		return nil, &unit.Fault{Subject: unit.Site, Of: "every", What: fmt.Sprintf("marks every %s are %.0f along the edges: a sheet lists %d at most", f.Style.LengthUnit(every), count, mostMarks), Hint: "take them farther apart"}
	}
	for _, e := range f.edges() {
		l := geom.Line{From: f.spots[e[0]], To: f.spots[e[1]]}
		length := l.Length()
		for i := 1; every*unit.Length(i) <= length-SameMark; i++ { // beyond: the corner itself
			at := every * unit.Length(i)
			m := EdgeMark{Edge: e, At: at, Point: l.At(float64(at / length))}
			m.Along, m.Offset, m.Side = f.Running(m.Point)
			marks = append(marks, m)
		}
	}
	return marks, nil
}

// flat is up to which sine of the turn at a corner the line of an edge runs so close
// along the next one that a board clear of it stands too far off.
const flat = 0.2

// boards sets profile boards: beyond each corner, on the line of either edge, where that
// may be pulled; shut is how many that leaves out.
func (f Frame) boards(clear unit.Length, open passage.Passage) (nails []Nail, strings []String, shut int) {
	if clear <= 0 || len(f.Outline) < 3 {
		return nil, nil, 0
	}
	var piece geom.Polygon
	for _, n := range f.Outline {
		piece = append(piece, f.spots[n])
	}
	n := len(piece)
	for i, a := range f.Outline {
		b := f.Outline[(i+1)%n]
		var past [2]unit.Length // beyond the first corner of the edge and the second
		for k, end := range [2]geom.Name{a, b} {
			at, way := beyond(piece.Edge(i), k)
			if past[k] = clearOf(piece, i, k, clear); past[k] > 0 && !open.Free(at, at.Toward(way, past[k])) {
				past[k] = 0
				shut++
			}
			if past[k] > 0 {
				nail := Nail{Edge: [2]geom.Name{a, b}, Beyond: end, Past: past[k], Point: at.Toward(way, past[k])}
				nail.Along, nail.Offset, nail.Side = f.Running(nail.Point)
				nails = append(nails, nail)
			}
		}
		if past[0] <= 0 || past[1] <= 0 {
			continue
		}
		l := piece.Edge(i).Length()
		strings = append(strings, String{
			Edge: [2]geom.Name{a, b}, Length: past[0] + l + past[1],
			Corners: [2]unit.Length{past[0], past[0] + l},
			With:    [2][2]geom.Name{{f.Outline[(i+n-1)%n], a}, {b, f.Outline[(i+2)%n]}},
		})
	}
	return nails, strings, shut
}

// beyond is where an edge runs on past its first corner, or its second, and which way.
func beyond(e geom.Line, corner int) (at geom.Point, way unit.Angle) {
	if corner == 0 {
		return e.From, e.Direction() + unit.Turn/2
	}
	return e.To, e.Direction()
}

// clearOf is how far beyond one of its corners an edge's line is clear of the piece for
// good; 0 where it runs too close along the next edge there.
func clearOf(piece geom.Polygon, own, end int, clear unit.Length) unit.Length {
	n := len(piece)
	corner, way := beyond(piece.Edge(own), end)
	turn := float64(piece.Edge((own+n-1+2*end)%n).Direction() - piece.Edge(own).Direction())
	if math.Abs(math.Sin(turn)) < flat && math.Cos(turn) > 0 {
		return 0
	}
	d := float64(clear)
	sin, cos := math.Sincos(float64(way))
	var places []float64
	circle := func(p geom.Point) {
		x, y := float64(corner.X-p.X), float64(corner.Y-p.Y)
		b, c := x*cos+y*sin, x*x+y*y-d*d
		if root := b*b - c; root >= 0 {
			places = append(places, -b+math.Sqrt(root), -b-math.Sqrt(root))
		}
	}
	for i := range piece {
		e := piece.Edge(i)
		circle(e.From)
		es, ec := math.Sincos(float64(e.Direction()))
		off := ec*float64(corner.Y-e.From.Y) - es*float64(corner.X-e.From.X) // left of the edge
		rate := ec*sin - es*cos
		if math.Abs(rate) > 1e-12 {
			places = append(places, (d-off)/rate, (-d-off)/rate)
		}
	}
	slices.Sort(places)
	shape := piece.Contour()
	const hair = 1e-6
	for _, s := range places {
		if s < d-hair {
			continue
		}
		if p := corner.Toward(way, unit.Length(s+hair)); float64(shape.Distance(p)) >= d-hair && !shape.Has(p) {
			return unit.Length(s)
		}
	}
	return 0
}
