package tiling

import (
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// A piece in the tile that it is cut from is its own shape, turned by as many quarters as are told.
func TestPiecesLieAsTurned(t *testing.T) {
	walls := geom.Polygon{{}, {X: 3810}, {X: 2860, Y: 2470}, {X: -60, Y: 2460}}
	r, err := Floor{Walls: walls, Gaps: []unit.Length{8, 8, 8, 8}}.Region()
	if err != nil {
		t.Fatal(err)
	}
	turned := 0
	for _, g := range []Grid{{Along: 600, Across: 300, Joint: 3, Kerf: 3, Pattern: Brick, Step: 1, Of: 3}, {Along: 300, Across: 300, Joint: 3, Kerf: 3}} {
		l := r.Lay(g, geom.Point{X: 100, Y: 50})
		for _, group := range l.Groups {
			for _, p := range group {
				if p.Quarters != 0 {
					turned++
				}
				own := symmetry{quarters: p.Quarters}.part(l.Pieces[p.Piece].Own, grid{t1: g.Along.MM(), t2: g.Across.MM()})
				if !alike(own, p.Shape, 2e-3) {
					t.Errorf("piece %d does not lie turned by %d quarters", p.Piece, p.Quarters)
				}
			}
		}
	}
	if turned < 4 {
		t.Errorf("only %d pieces are turned", turned)
	}
}
