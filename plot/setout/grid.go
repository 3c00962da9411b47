package setout

import (
	"io"
	"math"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/unit"
)

// Grid is where coordinates count from: x is east and y north.
type Grid struct {
	Origin  geom.Point // of the baseline's first end: the one that is named first, or else its zero end
	Bearing unit.Angle // of the baseline from there, clockwise from north; a quarter turn: along x
}

// Place is a point of a plane in the grid. zero is the baseline's first end in the
// plane and end its other one; left of the baseline stays left.
//
// Accuracy: 1e-12 of the point's distance from the zero end and of the origin.
func (g Grid) Place(at, zero, end geom.Point) geom.Point {
	l := float64(zero.Distance(end))
	ux, uy := float64(end.X-zero.X)/l, float64(end.Y-zero.Y)/l
	x, y := float64(at.X-zero.X), float64(at.Y-zero.Y)
	along, left := x*ux+y*uy, y*ux-x*uy
	sin, cos := math.Sincos(g.Bearing.Radians())
	return geom.Point{
		X: g.Origin.X + unit.Length(along*sin-left*cos),
		Y: g.Origin.Y + unit.Length(along*cos+left*sin),
	}
}

// PegsCSV writes where pegs stand for a total station or other software: RFC 4180,
// UTF-8, lines ended by CRLF, the header point,x,y, millimetres to 0.001 with a
// decimal point. The first two arguments behind the pegs are the ends of the
// baseline in the pegs' plane, the one at the origin first.
func PegsCSV(out io.Writer, pegs []pegging.Peg, zero, end geom.Point, g Grid) error {
	rows := [][]string{{"point", "x", "y"}}
	for _, p := range pegs {
		at := g.Place(p.At, zero, end)
		rows = append(rows, []string{string(p.Name), mm(at.X), mm(at.Y)})
	}
	return write(out, rows)
}

// PegsCSV writes every peg of the sheet in a grid: see the function of that name.
func (s Sheet) PegsCSV(out io.Writer, g Grid) error {
	var pegs []pegging.Peg
	for _, p := range s.Pegs {
		pegs = append(pegs, pegging.Peg{Name: p.Name, At: p.At})
	}
	return PegsCSV(out, pegs, s.Spot(s.Baseline.From), s.Spot(s.Baseline.To), g)
}
