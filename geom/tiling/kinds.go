package tiling

import (
	"cmp"
	"slices"

	"trammel/geom"
)

// Piece is one cut piece of a layout.
type Piece struct {
	Spot
	Of      part     // in the frame of the grid
	Own     part     // in the frame of its tile lying, lower left corner at (0,0)
	Tile    box      // the whole tile in the frame of the grid
	Width   float64  // mm
	Area    float64  // mm²
	Corners int      // of the tile's own
	Kind    int      // in Layout.Kinds
	Turn    symmetry // takes the kind's shape to Own
}

// Kind is pieces that are cut alike, but for how the tile is turned; some of them may
// be of the other hand.
type Kind struct {
	Shape  part // in the frame of a lying tile
	Pieces []int
	Other  int // of the pieces, how many are of the other hand
	Width  float64
}

// sameKind is within how much corners of one kind agree, mm.
const sameKind = 0.5

// kindsOf sorts pieces into kinds, the most numerous first, and tells each its own.
func kindsOf(pieces []Piece, g grid) []Kind {
	var all []Kind
	ways := g.turns()
	for _, t := range g.turns() {
		ways = append(ways, symmetry{t.quarters, true})
	}
	turned := [][]part{} // shapes of each kind in all ways
	for i := range pieces {
		p := &pieces[i]
		p.Kind = -1
		for k := range all {
			if w := slices.IndexFunc(turned[k], func(q part) bool { return alike(p.Own, q, sameKind) }); w >= 0 {
				p.Kind, p.Turn = k, ways[w]
				break
			}
		}
		if p.Kind < 0 {
			p.Kind = len(all)
			all = append(all, Kind{Shape: p.Own, Width: p.Width})
			var shapes []part
			for _, w := range ways {
				shapes = append(shapes, w.part(p.Own, g))
			}
			turned = append(turned, shapes)
		}
		k := &all[p.Kind]
		k.Pieces = append(k.Pieces, i)
		if p.Turn.mirrored {
			k.Other++
		}
	}
	slices.SortStableFunc(all, func(a, b Kind) int { return cmp.Compare(len(b.Pieces), len(a.Pieces)) })
	for k, kind := range all {
		for _, i := range kind.Pieces {
			pieces[i].Kind = k
		}
	}
	return all
}

// Ring of the kind's shape in the frame of its tile lying, and its openings.
func (k Kind) Ring() (outer geom.Polygon, holes []geom.Polygon) { return k.Shape.polygons() }
