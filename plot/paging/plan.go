package paging

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// assemble names the pages and moves the plane so that the lowest row and the
// leftmost column have number 0. The place is of the piece moved so that its
// centre is the origin.
func assemble(plan Plan, o outlined, at pose, pages []page) Plan {
	s, g := o.sheet, o.g
	i0, j0, i1, j1 := span(pages)
	centre := o.centre.Turned(unit.Angle(at.turn))
	// The grid leaves out the unreliable edge; the plane of the sheets has it.
	plan.Place = geom.Placement{Turn: unit.Angle(at.turn), Shift: geom.Point{
		X: unit.Length(at.x - centre.X + g.edge - float64(i0)*g.p),
		Y: unit.Length(at.y - centre.Y + g.edge - float64(j0)*g.q),
	}}
	plan.Sheet, plan.Cover, plan.Outline = s, o.cover, plan.Place.Polygon(o.outline)
	plan.Rows, plan.Cols = j1-j0+1, i1-i0+1
	there := make(map[page]bool, len(pages))
	for _, k := range pages {
		there[k] = true
	}
	name := func(k page) string {
		if !there[k] {
			return ""
		}
		return label(j1-k.j, k.i-i0)
	}
	w, h := s.Width-s.Left-s.Right, s.Height-s.Top-s.Bottom
	for j := j1; j >= j0; j-- {
		for i := i0; i <= i1; i++ {
			if !there[page{i, j}] {
				continue
			}
			low := geom.Point{X: unit.Length(float64(i-i0) * g.p), Y: unit.Length(float64(j-j0) * g.q)}
			plan.Cells = append(plan.Cells, Cell{
				Row: j1 - j, Col: i - i0, Label: name(page{i, j}),
				Window: geom.Rect{Min: low, Max: low.Plus(geom.Point{X: w, Y: h})},
				LeftOf: name(page{i - 1, j}), RightOf: name(page{i + 1, j}),
				Above: name(page{i, j + 1}), Below: name(page{i, j - 1}),
			})
		}
	}
	return plan
}

// span is the first and last column and row of pages.
func span(pages []page) (i0, j0, i1, j1 int) {
	i0, j0, i1, j1 = pages[0].i, pages[0].j, pages[0].i, pages[0].j
	for _, k := range pages {
		i0, j0, i1, j1 = min(i0, k.i), min(j0, k.j), max(i1, k.i), max(j1, k.j)
	}
	return i0, j0, i1, j1
}

// label is the row's letter (A to Z without I and O, then AA, AB, …) and the
// column's number from 1.
func label(row, col int) string {
	const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	name := ""
	for n := row + 1; n > 0; n = (n - 1) / len(letters) {
		name = string(letters[(n-1)%len(letters)]) + name
	}
	return fmt.Sprintf("%s%d", name, col+1)
}

// Matrix takes the piece's own coordinates to those of the page, from the
// bottom left corner of the paper.
func (p Plan) Matrix(c Cell) draw.Matrix {
	s, k := math.Sincos(float64(p.Place.Turn))
	return draw.Matrix{k, s, -s, k,
		float64(p.Place.Shift.X - c.Window.Min.X + p.Sheet.Left),
		float64(p.Place.Shift.Y - c.Window.Min.Y + p.Sheet.Bottom)}
}

// Windows is what each printed page shows, in the order of Cells and in the
// plane of the sheets.
func (p Plan) Windows() []geom.Rect {
	all := make([]geom.Rect, len(p.Cells))
	for i, c := range p.Cells {
		all[i] = c.Window
	}
	return all
}
