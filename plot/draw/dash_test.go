package draw

import (
	"slices"
	"testing"

	"trammel/geom/unit"
)

// The lengths that ISO 128-2 gives in widths d of the line: dash 12d, long dash
// 24d, gap 3d, dot 0.5d, but 0.5 mm at least (the paper of a laser printer, no source);
// and those of the line that another sheet covers.
func TestDashLengths(t *testing.T) {
	for _, c := range []struct {
		pen  Pen
		want []unit.Length
	}{
		{Wide, nil},
		{Narrow, nil},
		{Hidden, []unit.Length{3, 0.75}},
		{Centre, []unit.Length{4.32, 0.54, 0.5, 0.54}},
		{Behind, []unit.Length{8.4, 1.05, 0.5, 1.05, 0.5, 1.05}},
		{Pen{Width: 2, Dash: LongDashDotted}, []unit.Length{48, 6, 1, 6}},
		{Covers, []unit.Length{3, 1.5}},
		{Pen{Width: 0.5, Dash: Dashed}, []unit.Length{6, 1.5}},
	} {
		if got := c.pen.Dash.Lengths(c.pen.Width); !slices.EqualFunc(got, c.want, func(a, b unit.Length) bool { return max(a-b, b-a) < 1e-9 }) {
			t.Errorf("%s: %v, want %v", c.pen, got, c.want)
		}
	}
}
