package setout

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// mostMarks is how many marks along the edges a sheet lists.
const mostMarks = 400

// edges of the outline, that of the baseline from its zero end.
func (w *work) edges() (all [][2]geom.Name) {
	for i, a := range w.Outline {
		e := [2]geom.Name{a, w.Outline[(i+1)%len(w.Outline)]}
		if e == [2]geom.Name{w.Baseline.To, w.Baseline.From} {
			e[0], e[1] = e[1], e[0]
		}
		all = append(all, e)
	}
	return all
}

// marks lists the marks along the edges.
func (w *work) marks() error {
	if w.Every <= 0 {
		return nil
	}
	count := 0.0
	for _, e := range w.edges() {
		count += math.Floor(float64(w.distance(e[0], e[1]) / w.Every))
	}
	if count > mostMarks {
		return &unit.Fault{Subject: unit.Site, Of: "every", What: fmt.Sprintf("marks every %s are %.0f along the edges: a sheet lists %d at most", w.Style.LengthUnit(w.Every), count, mostMarks), Hint: "take them farther apart"}
	}
	for _, e := range w.edges() {
		l := geom.Line{From: w.sides[e[0]], To: w.sides[e[1]]}
		length := l.Length()
		for i := 1; ; i++ {
			at := w.Every * unit.Length(i)
			if at > length-sameMark {
				break // the corner itself
			}
			m := EdgeMark{Edge: e, At: at, Point: l.At(float64(at / length))}
			m.Along, m.Offset, m.Side = w.running(m.Point)
			w.Marks = append(w.Marks, m)
		}
	}
	return nil
}

// flat is up to which sine of the turn at a corner the line of an edge runs so close
// along the next one that a board clear of it stands too far off.
const flat = 0.2

// boards sets profile boards: beyond each corner, on the line of either edge, where
// that is clear of the digging.
func (w *work) boards() {
	if w.Boards <= 0 || len(w.Outline) < 3 {
		return
	}
	var piece geom.Polygon
	for _, n := range w.Outline {
		piece = append(piece, w.sides[n])
	}
	n := len(piece)
	past := make([][2]unit.Length, n) // of edge i, beyond its first and its second corner
	for i := range piece {
		e := piece.Edge(i)
		past[i][0] = w.clear(piece, e.From, e.Direction()+unit.Turn/2, i, (i+n-1)%n)
		past[i][1] = w.clear(piece, e.To, e.Direction(), i, (i+1)%n)
	}
	for i, a := range w.Outline {
		b := w.Outline[(i+1)%n]
		e := piece.Edge(i)
		for k, end := range [2]geom.Name{a, b} {
			if past[i][k] <= 0 {
				continue
			}
			at, way := e.From, e.Direction()+unit.Turn/2
			if k == 1 {
				at, way = e.To, e.Direction()
			}
			nail := Nail{Edge: [2]geom.Name{a, b}, Beyond: end, Past: past[i][k], Point: at.Toward(way, past[i][k])}
			nail.Along, nail.Offset, nail.Side = w.running(nail.Point)
			w.Nails = append(w.Nails, nail)
		}
		if past[i][0] <= 0 || past[i][1] <= 0 {
			continue
		}
		l := e.Length()
		w.Strings = append(w.Strings, String{
			Edge: [2]geom.Name{a, b}, Length: past[i][0] + l + past[i][1],
			Corners: [2]unit.Length{past[i][0], past[i][0] + l},
			With:    [2][2]geom.Name{{w.Outline[(i+n-1)%n], a}, {b, w.Outline[(i+2)%n]}},
		})
	}
}

// clear is how far beyond a corner, in a direction, a line is clear of the piece for
// good: outside it, and Boards from its edges. 0 where it runs too close along the
// next edge.
func (w *work) clear(piece geom.Polygon, corner geom.Point, way unit.Angle, own, next int) unit.Length {
	turn := math.Sin(float64(piece.Edge(next).Direction() - piece.Edge(own).Direction()))
	if math.Abs(turn) < flat && math.Cos(float64(piece.Edge(next).Direction()-piece.Edge(own).Direction())) > 0 {
		return 0
	}
	d := float64(w.Boards)
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
