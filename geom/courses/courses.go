// Package courses is what of a laid grid goes onto the floor and onto a tile: the lines to
// snap with their distances from the walls, the triangle that squares them, the courses,
// and where each cut meets the edges of its tile.
//
// Files, from the top floor to the ground: courses.go, lines.go, cuts.go.
package courses

import (
	"math"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
)

// Course is one row of tiles. Distances are in the frame of the grid, positive away from
// the start line on the side where the next higher courses lie.
type Course struct {
	Number      int
	From        unit.Length // its near edge from the first line
	Whole, Cuts int
	// First is where its first joint's far side lies from the second line: the near edge of the first
	// tile behind it, positive to the right.
	First       unit.Length
	Left, Right unit.Length // lengths of the pieces at its ends along the row; 0: a whole tile
}

// Courses of a layout, from the lowest. None of a herringbone, which has no rows.
func Courses(g tiling.Grid, l *tiling.Layout, s Start) (all []Course) {
	if g.Pattern == tiling.Herringbone {
		return nil
	}
	pieces := map[tiling.Spot][]tiling.Piece{}
	for _, p := range l.Pieces {
		pieces[p.Spot] = append(pieces[p.Spot], p)
	}
	names := l.Numbers()
	for _, row := range l.Rows() {
		n, _ := names.Of(row[0])
		at := g.Tile(row[0], l.Shift)
		c := Course{Number: n, From: at.Min.Y - s.Rows.At, First: at.Max.X + g.Joint - s.Cross.At}
		for i, spot := range row {
			ps := pieces[spot]
			if len(ps) == 0 {
				c.Whole++
				continue
			}
			c.Cuts += len(ps)
			if i == 0 {
				c.Left = breadth(ps[0])
			}
			if i == len(row)-1 {
				c.Right = breadth(ps[len(ps)-1])
			}
		}
		all = append(all, c)
	}
	return all
}

// breadth of a piece along its row.
func breadth(p tiling.Piece) unit.Length {
	outer, _ := p.Rings()
	return outer.Bounds().Width()
}

// Taper is the cuts along one wall that is not parallel to the rows nor square to them: each its
// own, one after the other.
type Taper struct {
	Wall  int
	Side  Side // of each tile, as it lies on the floor, that is cut off: the wall's
	Tiles []Tapered
}

// Tapered is one piece of a taper: how long its two sides are that run to the wall, the left or
// near one first.
type Tapered struct {
	Piece    int
	From, To unit.Length
}

// fewTapered cuts along a wall are as soon cut by their cards.
const fewTapered = 4

// Tapers of a layout: for each wall that is askew to the grid, but by less than 20°, the pieces
// whose cut runs along it from side to side. Walls are those of the floor moved by their gaps.
func Tapers(walls geom.Polygon, gaps []unit.Length, g tiling.Grid, l *tiling.Layout) (all []Taper) {
	turn := geom.Placement{Turn: -g.Angle}
	for w := range walls {
		wall := turn.Line(walls.Edge(w))
		off := math.Abs(math.Remainder(float64(wall.Direction()), math.Pi/2))
		if off*float64(wall.Length()) < 2*tiling.Slack || off > 20*float64(unit.Degree) {
			continue
		}
		t := Taper{Wall: w, Side: outside(wall)}
		for i, p := range l.Pieces {
			if at, ok := along(p, wall, gaps[w]); ok {
				t.Tiles = append(t.Tiles, Tapered{Piece: i, From: at[0], To: at[1]})
			}
		}
		if len(t.Tiles) >= fewTapered {
			all = append(all, t)
		}
	}
	return all
}

// outside is the side of the floor, as its grid lies, that a wall is nearest to.
func outside(wall geom.Line) Side {
	out := geom.VectorOf(wall.From.Minus(wall.To)).Left() // walls run counter-clockwise
	switch {
	case math.Abs(out.X) > math.Abs(out.Y) && out.X > 0:
		return Right
	case math.Abs(out.X) > math.Abs(out.Y):
		return Left
	case out.Y > 0:
		return Far
	}
	return Near
}

// along are the lengths of a piece's two sides that run to a wall, if its only cut is along
// it: from the tile's own corners.
func along(p tiling.Piece, wall geom.Line, gap unit.Length) (at [2]unit.Length, ok bool) {
	outer, holes := p.Rings()
	own, _ := p.OwnRings()
	cuts := Cuts(own, p.Lying())
	if len(cuts) != 1 || len(holes) > 0 || len(own) != 4 {
		return at, false
	}
	k := cuts[0].Edge
	mid := outer.Edge(k).At(0.5)
	near := wall.Distance(mid)
	if math.Abs(float64(near-gap)) > 1 {
		return at, false
	}
	n := len(outer)
	before, after := outer.Edge((k+n-1)%n), outer.Edge((k+1)%n)
	if d := after.At(0.5).Minus(before.At(0.5)); d.X+d.Y < 0 { // the left or near one first
		before, after = after, before
	}
	return [2]unit.Length{before.Length(), after.Length()}, true
}
