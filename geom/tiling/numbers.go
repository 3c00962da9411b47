package tiling

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"trammel/geom"
)

// Numbers are what the tiles of a layout are called on its sheets: row.column, rows
// from the lowest, columns from the first tile of the row; the pieces of one tile have
// letters.
type Numbers struct {
	layout *Layout
	row    int
	first  map[int]int // of each row, its first column
	count  map[Spot]int
}

// Numbers of the layout's tiles.
func (l *Layout) Numbers() Numbers {
	n := Numbers{layout: l, row: math.MaxInt, first: map[int]int{}, count: map[Spot]int{}}
	see := func(s Spot) {
		n.row = min(n.row, s.Row)
		if f, ok := n.first[s.Row]; !ok || column(s) < f {
			n.first[s.Row] = column(s)
		}
	}
	for _, s := range l.Whole {
		see(s)
	}
	for _, p := range l.Pieces {
		see(p.Spot)
		n.count[p.Spot]++
	}
	return n
}

// column of a spot, where lying and standing tiles of a herringbone count each.
func column(s Spot) int {
	if s.Standing {
		return 2*s.Column + 1
	}
	return 2 * s.Column
}

// Of is the row and the column that a spot is called by, both from 1.
func (n Numbers) Of(s Spot) (row, col int) {
	d := column(s) - n.first[s.Row]
	if !n.layout.standing {
		d /= 2
	}
	return s.Row - n.row + 1, d + 1
}

// Spot is what a spot is called.
func (n Numbers) Spot(s Spot) string {
	row, col := n.Of(s)
	return fmt.Sprintf("%d.%d", row, col)
}

// Piece is what a piece is called.
func (n Numbers) Piece(i int) string {
	s := n.layout.Pieces[i].Spot
	name := n.Spot(s)
	if n.count[s] < 2 {
		return name
	}
	k := 0
	for j := range i {
		if n.layout.Pieces[j].Spot == s {
			k++
		}
	}
	return fmt.Sprintf("%s%c", name, 'a'+rune(k%26))
}

// Rings of a piece where it lies, in the frame of the grid: its edge counter-clockwise, openings
// clockwise.
func (p Piece) Rings() (outer geom.Polygon, holes []geom.Polygon) { return p.Of.polygons() }

// OwnRings are the same in the frame of its own tile, lying, with the lower left corner
// at the origin.
func (p Piece) OwnRings() (outer geom.Polygon, holes []geom.Polygon) { return p.Own.polygons() }

// OtherHand says whether the piece is cut as the mirror image of its kind.
func (p Piece) OtherHand() bool { return p.Turn.mirrored }

func (p part) polygons() (outer geom.Polygon, holes []geom.Polygon) {
	for _, h := range p.holes {
		holes = append(holes, polygon(h))
	}
	return polygon(p.outer), holes
}

// Rows of a layout from the lowest: the spots of each from its first column, whole or
// cut.
func (l *Layout) Rows() [][]Spot {
	byRow := map[int][]Spot{}
	add := func(s Spot) {
		if !slices.Contains(byRow[s.Row], s) {
			byRow[s.Row] = append(byRow[s.Row], s)
		}
	}
	for _, s := range l.Whole {
		add(s)
	}
	for _, p := range l.Pieces {
		add(p.Spot)
	}
	var rows [][]Spot
	for _, all := range byRow {
		slices.SortFunc(all, func(a, b Spot) int { return cmp.Compare(column(a), column(b)) })
		rows = append(rows, all)
	}
	slices.SortFunc(rows, func(a, b []Spot) int { return cmp.Compare(a[0].Row, b[0].Row) })
	return rows
}

// Lying is how large the piece's tile is, along and across.
func (p Piece) Lying() geom.Point {
	w, h := p.Tile.width(), p.Tile.height()
	if p.Standing {
		w, h = h, w
	}
	return vec{X: w, Y: h}.Point()
}
