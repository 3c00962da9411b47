package template

import (
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/words"
)

var (
	font = lettering.Go()
	a4   = paging.Sheet{Name: "A4", Width: 210, Height: 297, Left: 10, Right: 10, Top: 10, Bottom: 10, Overlap: 10}
	a5   = paging.Sheet{Name: "A5", Width: 148, Height: 210, Left: 10, Right: 10, Top: 10, Bottom: 10, Overlap: 10}
)

// pieces is one piece for each answer that fits the measurements.
func pieces(t testing.TB, by construct.Method, tokens string) []Piece {
	t.Helper()
	var measured []triangle.Measurement
	for _, token := range strings.Fields(tokens) {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			t.Fatalf("%s: %v", token, err)
		}
		measured = append(measured, m)
	}
	s, err := triangle.Solve(measured, [2]geom.Name{})
	if err != nil {
		t.Fatalf("%s: %v", tokens, err)
	}
	var all []Piece
	for i := range s.Answers {
		c, err := construct.Construct(s, i, by)
		if err != nil {
			t.Fatalf("%s: %v", tokens, err)
		}
		all = append(all, Piece{Job: "Boathouse refit", Name: "Brace plate", Marked: words.Marked{Each: 2}, Construction: c, Measured: measured})
	}
	return all
}

func piece(t testing.TB, tokens string) Piece { return pieces(t, construct.AsMeasured, tokens)[0] }

// laid is the plan for a piece.
func laid(t testing.TB, p Piece, on paging.Sheet, c paging.Cover) paging.Plan {
	t.Helper()
	plan, err := paging.Lay(p.Triangle.Polygon(), on, c, nil, paging.Effort{})
	if err != nil {
		t.Fatal(err)
	}
	return Settle(plan)
}

// cases has every determining set that there is, and each method.
var cases = []struct {
	by     construct.Method
	tokens string
}{
	{construct.AsMeasured, "AB=600 BC=450 CA=450"},
	{construct.AsMeasured, "AB=150 A=50deg B=70deg"},
	{construct.AsMeasured, "AB=140 A=40deg C=60deg"},
	{construct.AsMeasured, "AB=150 A=35.5deg CA=90"},
	{construct.AsMeasured, "AB=80 A=35deg BC=60"},
	{construct.AsMeasured, "AB=100 A=90deg CA=70"},
	{construct.AsMeasured, "AB=100 BC=130 A=90deg"},
	{construct.AsMeasured, "AB=150 C-AB=70 CA=90"},
	{construct.AsMeasured, "AB=150 C-AB=70 A=40deg"},
	{construct.AsMeasured, "AB=150 C-AB=70 B-CA=90"},
	{construct.AsMeasured, "AB=130 C=90deg CA=70"},
	{construct.AsMeasured, "AB=130 C=90deg B=35deg"},
	{construct.AsMeasured, "AB=130 C=90deg C-AB=60"},
	{construct.AsMeasured, "A-BC=50 B-CA=60 C-AB=70"},
	{construct.ByArcs, "AB=150 A=50deg B=70deg"},
	{construct.ByAngle, "AB=120 BC=110 CA=100"},
	{construct.BySquare, "AB=120 BC=110 CA=100"},
	{construct.BySquare, "AB=100 BC=80 CA=170"},
	{construct.ByArcs, "AB=20 BC=1000 CA=1005"},
}
