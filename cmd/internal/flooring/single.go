package flooring

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/profiles/job"
)

// squareCorner is how far a corner may be from a right angle to lie on the corner of a tile.
const squareCorner = unit.Degree / 2

// one is the floor of a single tile that is cut: the piece was measured to walls and to the
// next tiles, and edges: says what of it is joint and gap.
func (f *Floor) one(j job.Piece, bare unit.Unit) error {
	f.Single, f.Given = true, true
	work, err := j.Shape.Work(bare)
	if err != nil {
		return err
	}
	f.Gaps = make([]unit.Length, len(f.Outline.Names))
	for _, a := range work.Allowances {
		k, err := f.wall(a.Edge, "edges", a.Where)
		if err != nil {
			return err
		}
		if a.By > 0 {
			return &unit.Fault{Where: a.Where, What: "edges: a tile is cut smaller than it was measured, by its joint or its gap, never larger", Hint: fmt.Sprintf("write such as %s allow -3", f.Outline.Side(k))}
		}
		f.Gaps[k] = -a.By
	}
	corner := -1
	for i, a := range f.Outline.Angles {
		if math.Abs(float64(a-unit.Turn/4)) > float64(squareCorner) {
			continue
		}
		if corner < 0 || f.reach(i) < f.reach(corner) {
			corner = i
		}
	}
	if corner < 0 {
		return &unit.Fault{Where: f.Words.TilesAt, What: "one tile cut by itself wants a square corner, which lies on a corner of the tile", Hint: "measure from the corner of the tile, or lay the floor: leave edges: out and write gap: under tiles:"}
	}
	region, err := tiling.Floor{Walls: f.Outline.Points, Gaps: f.Gaps}.Region()
	if err != nil {
		return &unit.Fault{Where: f.Words.TilesAt, What: "joint and gap leave nothing of the tile", Hint: "measure the place again"}
	}
	g := f.Words.Grid
	edge := f.Outline.Points.Edge(corner)
	g.Pattern, g.Angle = tiling.Straight, edge.Direction()
	at := geom.Placement{Turn: -g.Angle}.Apply(edge.From).Plus(geom.Point{X: f.Gaps[f.Outline.Before(corner)], Y: f.Gaps[corner]})
	laid := region.Lay(g, at)
	if len(laid.Pieces) != 1 || len(laid.Whole) > 0 || laid.Pieces[0].Row != 0 || laid.Pieces[0].Column != 0 {
		return &unit.Fault{Where: f.Words.SizeAt, What: "size: the piece does not come out of one tile", Hint: "write the size of the tile as measured; a floor of several tiles is laid with gap: under tiles:, and without edges:"}
	}
	f.Plan = tiling.Plan{Region: region, Grid: g, Choices: []tiling.Choice{{Aim: "given", Layout: laid}}}
	return nil
}

// reach is what joints and gaps take at a corner: least where both of its sides go to joints.
func (f *Floor) reach(corner int) unit.Length {
	return f.Gaps[corner] + f.Gaps[f.Outline.Before(corner)]
}
