package draw

import (
	"slices"
	"testing"

	"trammel/geom/unit"
)

// The lengths that ISO 128-2 gives in widths d of the line: dash 12d, long dash
// 24d, gap 3d, dot at most 0.5d.
func TestDashLengths(t *testing.T) {
	for _, c := range []struct {
		pen  Pen
		want []unit.Length
	}{
		{Wide, nil},
		{Narrow, nil},
		{Hidden, []unit.Length{3, 0.75}},
		{Centre, []unit.Length{6, 0.75, 0.125, 0.75}},
		{Behind, []unit.Length{6, 0.75, 0.125, 0.75, 0.125, 0.75}},
		{Pen{Width: 0.5, Dash: Dashed}, []unit.Length{6, 1.5}},
	} {
		if got := c.pen.Dash.Lengths(c.pen.Width); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.pen, got, c.want)
		}
	}
}
