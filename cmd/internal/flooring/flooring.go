// Package flooring makes of a solved piece and what its job says of tiles a floor with
// its layouts, and the report of it for other software.
//
// Files, from the top floor to the ground: sheets.go, report.go, flooring.go, single.go, openings.go,
// walls.go.
package flooring

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/profiles/job"
	"trammel/profiles/tiled"
)

// Floor is one piece of a job with its tiles laid.
type Floor struct {
	Piece    solved.Piece
	Words    tiled.Floor
	Outline  geom.Outline
	Openings []tiling.Opening
	Gaps     []unit.Length
	Plan     tiling.Plan
	Wall     int     // of the outline, that the rows run along; −1: none
	Tried    []Tried // the walls, where the best was asked for
	Given    bool    // the shift was given
	Single   bool    // no floor, but one tile that is cut
}

// Tried is a wall that rows could run along, and what comes of it.
type Tried struct {
	Wall   string
	Across bool // the tiles' long sides run square to it
	Plan   tiling.Plan
}

// Of lays the floor of a piece. Shift is where it is to be laid, nil for the best. The
// errors are *unit.Fault.
func Of(ctx context.Context, p solved.Piece, j job.Piece, bare unit.Unit, shift *geom.Point) (Floor, error) {
	f := Floor{Piece: p, Outline: p.Outline(), Wall: -1}
	var err error
	if f.Words, err = j.Floor(bare); err != nil {
		return f, err
	}
	if len(f.Outline.Names) == 0 {
		return f, &unit.Fault{Where: f.Words.TilesAt, What: "nothing says which points are the walls", Hint: "outline: and the corners in the order of walking round, such as [A, B, C, D]"}
	}
	if len(j.Shape.Edges) > 0 {
		return f, f.one(j, bare)
	}
	region, err := f.region()
	if err != nil {
		return f, err
	}
	w := tiling.Wish{Aims: f.Words.Aims}
	if f.Words.Centre != ([2]geom.Name{}) {
		k, err := f.wall(f.Words.Centre, "centre", f.Words.CentreAt)
		if err != nil {
			return f, err
		}
		line := f.Outline.Points.Edge(k)
		w.Centre = &line
	}
	if f.Words.Best && shift == nil {
		return f, f.tryWalls(ctx, region, w)
	}
	grid, err := f.grid()
	if err != nil {
		return f, err
	}
	if err := f.sized(region, grid); err != nil {
		return f, err
	}
	if shift != nil {
		f.Given = true
		f.Plan = tiling.Plan{Region: region, Grid: grid, Choices: []tiling.Choice{{Aim: "given", Layout: region.Lay(grid, *shift)}}}
		return f, nil
	}
	f.Plan = region.Best(ctx, grid, w)
	return f, nil
}

// region is the floor less its gaps and openings.
func (f *Floor) region() (tiling.Region, error) {
	f.Gaps = make([]unit.Length, len(f.Outline.Names))
	for i := range f.Gaps {
		f.Gaps[i] = f.Words.Gap
	}
	for _, g := range f.Words.Gaps {
		k, err := f.wall(g.Wall, "gap", g.Where)
		if err != nil {
			return tiling.Region{}, err
		}
		f.Gaps[k] = g.Gap
	}
	if err := f.openings(); err != nil {
		return tiling.Region{}, err
	}
	region, err := tiling.Floor{Walls: f.Outline.Points, Gaps: f.Gaps, Openings: f.Openings}.Region()
	if errors.Is(err, tiling.ErrNothing) {
		return region, &unit.Fault{Where: f.Words.TilesAt, What: "the gaps and openings leave nothing of the floor", Hint: "write narrower gaps, such as gap: 8"}
	}
	return region, err
}

// grid with the angle that the job asks for.
func (f *Floor) grid() (tiling.Grid, error) {
	g := f.Words.Grid
	switch {
	case f.Words.Wall != ([2]geom.Name{}):
		k, err := f.wall(f.Words.Wall, "along", f.Words.AlongAt)
		if err != nil {
			return g, err
		}
		f.Wall = k
		g.Angle = bearing(f.Outline.Points.Edge(k), g)
	default:
		f.Wall = 0 // the baseline
		base := bearing(f.Outline.Points.Edge(0), g)
		g.Angle = base + f.Words.WallTurn
		if f.Words.WallTurn != 0 {
			f.Wall = -1
		}
	}
	return g, nil
}

// bearing of a wall, as the angle of a grid of which the rows run along it: within a
// quarter to either side; for square tiles in plain rows within half of one.
func bearing(wall geom.Line, g tiling.Grid) unit.Angle {
	round := unit.Turn / 2
	if g.Pattern == tiling.Straight && math.Abs(float64(g.Along-g.Across)) < 1e-9 {
		round = unit.Turn / 4
	}
	a := unit.Angle(math.Remainder(float64(wall.Direction()), float64(round)))
	if math.Abs(float64(a)) < 1e-12 {
		a = 0
	}
	return a
}

// sized refuses what is no floor of such tiles.
func (f *Floor) sized(r tiling.Region, g tiling.Grid) error {
	switch n := r.Tiles(g); {
	case r.SmallerThan(g):
		return &unit.Fault{Where: f.Words.SizeAt, What: "size: one tile is larger than the floor", Hint: "write the size of a tile as measured, such as size: 600x300, and its unit where bare numbers count another"}
	case n > tiling.MostTiles:
		return &unit.Fault{Where: f.Words.SizeAt, What: fmt.Sprintf("size: the floor takes some %d tiles, and no more than %d are laid", n, tiling.MostTiles),
			Hint: "a floor of that size is parted at its movement joints: make a piece of each part"}
	}
	return nil
}

// tryWalls takes of all walls the one along which the layout comes out best; among
// those alike the longest.
func (f *Floor) tryWalls(ctx context.Context, r tiling.Region, w tiling.Wish) error {
	walls := make([]int, len(f.Outline.Names))
	for i := range walls {
		walls[i] = i
	}
	slices.SortStableFunc(walls, func(a, b int) int { return cmp.Compare(f.Outline.Sides[b], f.Outline.Sides[a]) })
	type way struct {
		wall   int
		across bool
		grid   tiling.Grid
	}
	var ways []way
	for _, across := range []bool{false, true} {
		for _, k := range walls {
			g := f.Words.Grid
			line := f.Outline.Points.Edge(k)
			if across {
				line = geom.Line{To: line.To.Minus(line.From)}
				line.To.X, line.To.Y = -line.To.Y, line.To.X
			}
			g.Angle = bearing(line, g)
			same := func(o way) bool { return math.Abs(float64(o.grid.Angle-g.Angle)) < 1e-6 }
			if len(ways) < mostWays && !slices.ContainsFunc(ways, same) {
				ways = append(ways, way{k, across, g})
			}
		}
	}
	best := -1
	for _, y := range ways {
		if err := f.sized(r, y.grid); err != nil {
			return err
		}
		one := w
		one.Effort = tiling.Effort / len(ways)
		f.Tried = append(f.Tried, Tried{f.Outline.Side(y.wall), y.across, r.Best(ctx, y.grid, one)})
		if n := len(f.Tried) - 1; best < 0 || f.Tried[n].Plan.Better(f.Tried[best].Plan) {
			best, f.Wall = n, y.wall
		}
	}
	f.Plan = f.Tried[best].Plan
	if f.Tried[best].Across {
		f.Wall = -1
	}
	return nil
}

// mostWays are how many directions of rows are tried.
const mostWays = 16
