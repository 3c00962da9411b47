package courses

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Side of a tile that lies with its laying arrow pointing away.
type Side int

const (
	Near Side = iota
	Right
	Far
	Left
	Within // not on a side
)

// End is where a cut ends: on a side, so far from its two corners, or within the tile, so far
// from its left and its near side.
type End struct {
	Side   Side
	At     geom.Point
	Before unit.Length // on a near or far side from its left corner, on others from its near corner
	After  unit.Length // from the other corner of the side
}

// Cut is one straight cut of a tile.
type Cut struct {
	Edge     int // of the piece's ring
	From, To End
	Length   unit.Length
	Angle    unit.Angle // to the near side, 0 to a quarter turn
}

// onEdge is how near a corner of a piece is to be to a side of its tile to lie on it, mm.
const onEdge = 1e-5

// Cuts are the edges of a piece that are no factory edges of its tile, which lies with its lower
// left corner at the origin and is so large.
func Cuts(ring geom.Polygon, tile geom.Point) (all []Cut) {
	for i := range ring {
		e := ring.Edge(i)
		if factory(e, tile) {
			continue
		}
		d := e.To.Minus(e.From)
		all = append(all, Cut{Edge: i, From: end(e.From, tile), To: end(e.To, tile), Length: e.Length(),
			Angle: unit.Angle(math.Atan2(math.Abs(float64(d.Y)), math.Abs(float64(d.X))))})
	}
	return all
}

// factory says whether an edge lies on a side of the tile.
func factory(e geom.Line, tile geom.Point) bool {
	on := func(a, b, side unit.Length) bool {
		return math.Abs(float64(a-side)) < onEdge && math.Abs(float64(b-side)) < onEdge
	}
	return on(e.From.X, e.To.X, 0) || on(e.From.X, e.To.X, tile.X) || on(e.From.Y, e.To.Y, 0) || on(e.From.Y, e.To.Y, tile.Y)
}

func end(p geom.Point, tile geom.Point) End {
	near := func(a, b unit.Length) bool { return math.Abs(float64(a-b)) < onEdge }
	switch {
	case near(p.Y, 0):
		return End{Near, p, p.X, tile.X - p.X}
	case near(p.Y, tile.Y):
		return End{Far, p, p.X, tile.X - p.X}
	case near(p.X, 0):
		return End{Left, p, p.Y, tile.Y - p.Y}
	case near(p.X, tile.X):
		return End{Right, p, p.Y, tile.Y - p.Y}
	}
	return End{Within, p, p.X, p.Y}
}
