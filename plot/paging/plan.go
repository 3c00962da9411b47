package paging

import (
	"cmp"
	"math"
	"slices"
	"strconv"

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
	w, h := s.Width-s.Left-s.Right, s.Height-s.Top-s.Bottom
	for _, k := range pages {
		low := geom.Point{X: unit.Length(float64(k.i-i0) * g.p), Y: unit.Length(float64(k.j-j0) * g.q)}
		plan.Cells = append(plan.Cells, Cell{Row: j1 - k.j, Col: k.i - i0, Window: geom.Rect{Min: low, Max: low.Plus(geom.Point{X: w, Y: h})}})
	}
	slices.SortFunc(plan.Cells, byRows)
	if o.cover == OutlineOnly {
		plan.Cells = inWalkOrder(plan.Cells, plan.Outline)
	}
	numbered(plan.Cells)
	return plan
}

func byRows(a, b Cell) int { return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col)) }

// numbered gives each sheet its number and those of its neighbours.
func numbered(cells []Cell) {
	at := cellsAt(cells)
	name := func(row, col int) string {
		if k, ok := at[[2]int{row, col}]; ok {
			return strconv.Itoa(k + 1)
		}
		return ""
	}
	for i := range cells {
		c := &cells[i]
		c.Label = name(c.Row, c.Col)
		c.LeftOf, c.RightOf, c.Above, c.Below = name(c.Row, c.Col-1), name(c.Row, c.Col+1), name(c.Row-1, c.Col), name(c.Row+1, c.Col)
	}
}

// span is the first and last column and row of pages.
func span(pages []page) (i0, j0, i1, j1 int) {
	i0, j0, i1, j1 = pages[0].i, pages[0].j, pages[0].i, pages[0].j
	for _, k := range pages {
		i0, j0, i1, j1 = min(i0, k.i), min(j0, k.j), max(i1, k.i), max(j1, k.j)
	}
	return i0, j0, i1, j1
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
