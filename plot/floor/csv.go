package floor

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
)

// CSV writes every cut piece of the layout that is drawn: figures in mm from the tile's
// own lower left corner, its long side level.
func (s Sheet) CSV(out io.Writer) error {
	w := csv.NewWriter(out)
	rows := [][]string{{"floor", "layout", "tile", "row", "column", "kind", "hand", "width", "area_mm2", "corners"}}
	c := s.drawn()
	names := c.Numbers()
	mm := func(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }
	for i, p := range c.Pieces {
		hand := "as drawn"
		if p.OtherHand() {
			hand = "opposite"
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
