// Package floor is the sheets that a tiler lays a floor by: the plan with every tile
// numbered, the lines to snap, the courses, a card and a template for every kind of cut,
// what comes from which tile, and what to buy.
//
// Files, from the top floor to the ground: pages.go, text.go, floor.go.
package floor

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Sheet is one floor with its tiles laid.
type Sheet struct {
	sheet.TitleBlock
	Language words.Language // nil: English at the bench
	Figures  unit.Style
	Outline  geom.Outline
	Openings []tiling.Opening
	Gaps     []unit.Length // along each wall of the outline
	Plan     tiling.Plan
	Along    string  // the wall that the rows run along; empty: none
	Tried    []Tried // where the best wall was asked for
	Box      int     // tiles in a box; 0: not said
	Given    bool    // the start was given: nothing was searched
}

// Tried is a wall that rows could run along.
type Tried struct {
	Wall   string
	Across bool
	Plan   tiling.Plan
}

// Pages draws the sheets.
func (s Sheet) Pages(paging.Sheet, draw.Ruler) ([]draw.Page, error) { return nil, nil }

// Text is the floor for a phone.
func (s Sheet) Text(out io.Writer) error { return nil }

// advised is the layout that the sheets are drawn of.
func (s Sheet) advised() *tiling.Choice {
	i, _ := s.Plan.Advised()
	return &s.Plan.Choices[i]
}

// CSV writes every cut piece of the layout that is advised: figures in mm from the
// tile's own lower left corner.
func (s Sheet) CSV(out io.Writer) error {
	w := csv.NewWriter(out)
	rows := [][]string{{"floor", "layout", "tile", "row", "column", "kind", "hand", "width", "area_mm2", "corners"}}
	c := s.advised()
	names := c.Numbers()
	mm := func(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }
	for i, p := range c.Pieces {
		hand := "as drawn"
		if p.OtherHand() {
			hand = "other"
		}
		ring, _ := p.OwnRings()
		corners := ""
		for k, q := range ring {
			if k > 0 {
				corners += " "
			}
			corners += mm(q.X.MM()) + " " + mm(q.Y.MM())
		}
		row, col := names.Of(p.Spot)
		rows = append(rows, []string{s.Piece, string(c.Aim), names.Piece(i), fmt.Sprint(row), fmt.Sprint(col), fmt.Sprint(p.Kind + 1), hand, mm(p.Width), mm(p.Area), corners})
	}
	return w.WriteAll(rows)
}
