package paging_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// chain is a plan by hand: cells in a grid of which some are missing, on A4 with a
// margin; the neighbours are those that are there.
func chain(margin, overlap float64, rows ...string) paging.Plan {
	s := paging.Sheet{Name: "A4", Width: 210, Height: 297, Left: unit.Length(margin), Top: unit.Length(margin), Right: unit.Length(margin), Bottom: unit.Length(margin), Overlap: unit.Length(overlap)}
	w, h := s.Width-s.Left-s.Right, s.Height-s.Top-s.Bottom
	p := paging.Plan{Sheet: s, Rows: len(rows), Cols: len(rows[0])}
	name := func(row, col int) string {
		if row < 0 || col < 0 || row >= len(rows) || col >= len(rows[row]) || rows[row][col] != '#' {
			return ""
		}
		return fmt.Sprintf("%c%d", 'A'+row, col+1)
	}
	for row := range rows {
		for col := range rows[row] {
			if name(row, col) == "" {
				continue
			}
			low := geom.Point{X: unit.Length(col) * (w - s.Overlap), Y: unit.Length(len(rows)-1-row) * (h - s.Overlap)}
			p.Cells = append(p.Cells, paging.Cell{
				Row: row, Col: col, Label: name(row, col), Window: geom.Rect{Min: low, Max: low.Plus(geom.Point{X: w, Y: h})},
				LeftOf: name(row, col-1), RightOf: name(row, col+1), Above: name(row-1, col), Below: name(row+1, col),
			})
		}
	}
	return p
}

// What is kept, worked out by hand from the sizes of the paper: windows of 190 by 277
// on A4 with margins and strips of 10, cut 0.175 inside the window's edge.
func TestTrimmed(t *testing.T) {
	const c = 0.175
	for _, k := range []struct {
		name string
		plan paging.Plan
		want []geom.Rect
	}{
		{"alone", chain(10, 10, "#"), []geom.Rect{geom.RectOf(at(-10, -10), at(200, 287))}},
		{"a row", chain(10, 10, "##"), []geom.Rect{
			geom.RectOf(at(-10, -10), at(190-c, 287)), // the margin beyond the strip goes, and no more
			geom.RectOf(at(185, -10), at(380, 287)),
		}},
		{"a stair down", chain(10, 10, "##", ".#"), []geom.Rect{
			geom.RectOf(at(-10, 267+c), at(190-c, 554)), // its lower margin would lie over B2
			geom.RectOf(at(185, 267+c), at(380, 554)),
			geom.RectOf(at(180+c, -10), at(380, 272)), // its left margin would lie over A1
		}},
		{"a stair up", chain(10, 10, ".#", "##"), []geom.Rect{
			geom.RectOf(at(180+c, 267+c), at(380, 554)),
			geom.RectOf(at(-10, -10), at(190-c, 277-c)),
			geom.RectOf(at(185, -10), at(380, 272)),
		}},
		{"without overlap", chain(10, 0, "##"), []geom.Rect{geom.RectOf(at(-10, -10), at(190, 287)), geom.RectOf(at(190, -10), at(390, 287))}},
		// Strips as wide as half a window: a margin of 10 reaches over the sheet after the next.
		{"over the next", chain(10, 95, "#.#"), []geom.Rect{
			geom.RectOf(at(-10, -10), at(190-c, 287)),
			geom.RectOf(at(190+c, -10), at(390, 287)),
		}},
	} {
		got := k.plan.Trimmed()
		for i, want := range k.want {
			if off := max(got[i].Min.Distance(want.Min), got[i].Max.Distance(want.Max)); off > 1e-9 {
				t.Errorf("%s, %s: %v is kept, want %v", k.name, k.plan.Cells[i].Label, got[i], want)
			}
		}
	}
}

// Of any sheets in a grid none keeps paper where another has its window and it has
// none, and together they keep all that their windows show but for the rim.
func TestTrimmedHidesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 8))
	for range 300 {
		var rows []string
		for range 2 + r.IntN(3) {
			row := ""
			for range 4 {
				row += string(".#"[r.IntN(2)])
			}
			rows = append(rows, row)
		}
		margin, overlap := []float64{0, 3, 10, 40, 70}[r.IntN(5)], []float64{0, 0.2, 4, 10, 30}[r.IntN(5)]
		p := chain(margin, overlap, rows...)
		r.Shuffle(len(p.Cells), func(i, j int) { p.Cells[i], p.Cells[j] = p.Cells[j], p.Cells[i] }) // laid in any order
		kept := p.Trimmed()
		has := func(b geom.Rect, q geom.Point) bool { return b.Has(q) }
		name := fmt.Sprintf("%v, margin %v, overlap %v", rows, margin, overlap)
		for range 400 {
			if len(p.Cells) == 0 {
				break
			}
			w := p.Cells[r.IntN(len(p.Cells))].Window
			q := geom.Point{X: w.Min.X + unit.Length(r.Float64())*w.Width(), Y: w.Min.Y + unit.Length(r.Float64())*w.Height()}
			if r.IntN(2) == 0 { // near a corner, where it matters
				q.X = w.Min.X + unit.Length(r.IntN(2))*w.Width() + unit.Length(r.NormFloat64()*overlap/2)
				q.Y = w.Min.Y + unit.Length(r.IntN(2))*w.Height() + unit.Length(r.NormFloat64()*overlap/2)
			}
			shown := slices.ContainsFunc(p.Cells, func(c paging.Cell) bool { return has(c.Window.Grow(-0.2), q) })
			if !shown {
				continue
			}
			keeps := false
			for i, c := range p.Cells {
				keeps = keeps || has(kept[i], q)
				if has(kept[i], q) && !has(c.Window, q) {
					t.Fatalf("%s: %s keeps blank paper at %v, where another shows something", name, c.Label, q)
				}
			}
			if !keeps {
				t.Fatalf("%s: nobody keeps %v", name, q)
			}
		}
	}
}

// Every line to cut has a pair of scissors beside it, clear of all else, on paper of
// an ordinary size with strips of an ordinary width; else most have.
func TestScissors(t *testing.T) {
	lines, without := 0, 0
	for _, c := range slices.Concat(cases(t), crowded(t), random(t, paging.RandomPieces)) {
		for _, p := range pagesOf(c) {
			window := geom.Rect{Min: geom.Point{X: c.plan.Sheet.Left, Y: c.plan.Sheet.Bottom}, Max: geom.Point{X: p.Width - c.plan.Sheet.Right, Y: p.Height - c.plan.Sheet.Top}}
			var eyes []geom.Point
			for _, op := range p.Ops {
				if o, ok := op.(draw.Arc); ok && isJoin(op) {
					eyes = append(eyes, o.Centre)
					if !window.Grow(-0.3).Has(o.Centre) {
						t.Errorf("%s, %s: scissors at %v leave what is printed", c.name, p.Label, o.Centre)
					}
				}
			}
			for _, l := range p.Cuts {
				lines++
				if !slices.ContainsFunc(eyes, func(e geom.Point) bool { return fromLine(e, l) < 4 }) {
					without++
					if !c.hard && c.plan.Sheet.Overlap >= 9 {
						t.Errorf("%s, %s: no scissors at %v", c.name, p.Label, l)
					}
				}
			}
		}
	}
	t.Logf("%d of %d lines have no scissors", without, lines)
	if lines < 200 || without*8 > lines {
		t.Errorf("%d of %d lines have no scissors", without, lines)
	}
}

// fromLine is how far a point is from an upright or level line.
func fromLine(p geom.Point, l geom.Line) float64 {
	if l.From.X == l.To.X {
		return math.Abs(float64(p.X - l.From.X))
	}
	return math.Abs(float64(p.Y - l.From.Y))
}
