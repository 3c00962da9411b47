package paging

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// MaxPages is the most pages that one piece may take.
const MaxPages = 20000

// Unreliable is the outer part of every window that nothing relies on: a sheet
// is cut to ±1.5 mm (ISO 216) and fed a little off.
const Unreliable unit.Length = 1

// Lay chooses where the pages lie under a piece: its turn and shift against the
// page grid. With turn given it keeps that turn. The same outline and sheet give
// the same plan. A *unit.Fault says when paper, margins and overlap cannot serve
// or when the piece would take more than MaxPages.
func Lay(outline geom.Polygon, s Sheet, c Cover, turn *unit.Angle) (Plan, error) {
	g, err := newGrid(s)
	if err != nil {
		return Plan{}, err
	}
	if err := checkOutline(outline); err != nil {
		return Plan{}, err
	}
	plain, err := plainPages(outline, s)
	if err != nil {
		return Plan{}, err
	}
	var best []page
	var at geom.Placement
	for _, t := range turns(outline, turn) {
		turned := geom.Placement{Turn: t}.Polygon(outline)
		for _, sh := range borderShifts(turned, g) {
			pages := hit(toXY(turned, sh), g, c)
			if best == nil || len(pages) < len(best) {
				best, at = pages, geom.Placement{Turn: t, Shift: geom.Point{X: unit.Length(sh.x), Y: unit.Length(sh.y)}}
			}
			if len(turned)*len(pages) > 10000 {
				break
			}
		}
	}
	if len(best) > MaxPages {
		return Plan{}, tooMany(s, float64(len(best)), "")
	}
	p := assemble(outline, s, c, g, at, best)
	p.Least, p.Bound, p.Parallel, p.Kept, p.Plain = len(best), 1, len(best), turn != nil, plain
	return p, nil
}

// turns to try: the one given, or the outline as it is and as it stands upright.
func turns(outline geom.Polygon, turn *unit.Angle) []unit.Angle {
	if turn != nil {
		return []unit.Angle{*turn}
	}
	all := []unit.Angle{0, 90 * unit.Degree}
	for i := 0; i < len(outline) && i < 8; i++ {
		d := -outline.Edge(i).Direction()
		all = append(all, d, d+90*unit.Degree)
	}
	return all
}

// grid is the page grid in numbers. Its windows are those of the sheet less
// what is unreliable, moved so that window (i, j) is
// [i·p, i·p+p+u] × [j·q, j·q+q+v].
type grid struct{ p, q, u, v, edge float64 }

// page is a place in the grid, rows counted upward.
type page struct{ i, j int }

type xy struct{ x, y float64 }

func newGrid(s Sheet) (grid, error) {
	for _, l := range []unit.Length{s.Width, s.Height, s.Left, s.Right, s.Top, s.Bottom, s.Overlap} {
		if !(l >= 0 && l < 1e9) {
			return grid{}, &unit.Fault{Where: s.Name, What: "a size, margin or overlap of the paper is not a length", Hint: "give them as lengths that are not negative"}
		}
	}
	w, h, o := float64(s.Width-s.Left-s.Right), float64(s.Height-s.Top-s.Bottom), float64(s.Overlap)
	edge := min(float64(Unreliable), o/2)
	least := max(10, 2*edge+1)
	if w < least {
		return grid{}, &unit.Fault{Where: s.Name, What: fmt.Sprintf("margins of %s and %s mm leave too little of a paper %s mm wide", mm(s.Left), mm(s.Right), mm(s.Width)), Hint: "smaller margins or larger paper; a page must show at least 10 mm"}
	}
	if h < least {
		return grid{}, &unit.Fault{Where: s.Name, What: fmt.Sprintf("margins of %s and %s mm leave too little of a paper %s mm high", mm(s.Top), mm(s.Bottom), mm(s.Height)), Hint: "smaller margins or larger paper; a page must show at least 10 mm"}
	}
	if o > min(w, h)/2 {
		return grid{}, &unit.Fault{Where: s.Name, What: fmt.Sprintf("an overlap of %s mm is more than half of the %s mm that a page shows", mm(s.Overlap), mm(unit.Length(min(w, h)))), Hint: "10 mm is usual"}
	}
	return grid{p: w - o, q: h - o, u: o - 2*edge, v: o - 2*edge, edge: edge}, nil
}

func mm(l unit.Length) string { return fmt.Sprintf("%.6g", float64(l)) }

func checkOutline(outline geom.Polygon) error {
	if len(outline) < 3 {
		return &unit.Fault{What: fmt.Sprintf("an outline of %d corners is not a shape", len(outline)), Hint: "a piece has three corners or more"}
	}
	for _, p := range outline {
		if !(math.Abs(float64(p.X)) < 1e12 && math.Abs(float64(p.Y)) < 1e12) {
			return &unit.Fault{What: "a corner of the outline is not at a finite place", Hint: "a side is at most 1 km"}
		}
	}
	return nil
}

func tooMany(s Sheet, n float64, least string) error {
	return &unit.Fault{Where: s.Name, What: fmt.Sprintf("the piece would take %s%.0f pages; the limit is %d", least, n, MaxPages), Hint: "take larger paper, print only the outline, or make a setting-out sheet"}
}

// plainPages is what plain rows and columns take in the better orientation, the
// piece not turned.
func plainPages(outline geom.Polygon, s Sheet) (int, error) {
	b := outline.Bounds()
	w, h := float64(b.Width()), float64(b.Height())
	ww, wh, v := float64(s.Width-s.Left-s.Right), float64(s.Height-s.Top-s.Bottom), float64(s.Overlap)
	n := func(size, window float64) float64 { return max(1, math.Ceil((size-v-grow)/(window-v))) }
	plain := min(n(w, ww)*n(h, wh), n(h, ww)*n(w, wh))
	// Neither its width nor its height can be had with fewer rows or columns than
	// the narrowest way across the longest window.
	if least := max(w, h) / math.Hypot(ww, wh); least > MaxPages {
		return 0, tooMany(s, math.Floor(least), "at least ")
	}
	return int(min(plain, math.MaxInt32)), nil
}

// grow is how much windows are grown so that a piece exactly as large as a
// window is one page in spite of rounding.
const grow = 1e-6

func toXY(p geom.Polygon, shift xy) []xy {
	q := make([]xy, len(p))
	for i, a := range p {
		q[i] = xy{float64(a.X) + shift.x, float64(a.Y) + shift.y}
	}
	return q
}

// borderShifts are those that bring the corner of the lowest and leftmost
// extent onto the borders of a window.
func borderShifts(p geom.Polygon, g grid) []xy {
	b := p.Bounds()
	xs := []float64{-float64(b.Min.X), g.u - float64(b.Max.X)}
	ys := []float64{-float64(b.Min.Y), g.v - float64(b.Max.Y)}
	var all []xy
	for _, x := range xs {
		for _, y := range ys {
			all = append(all, xy{x, y})
		}
	}
	return all
}

// hit is the pages whose share of the plane the piece or its edges meet, the
// plane being shared out along the middle of the strips. They cover, and going
// round the outline leads from neighbour to neighbour.
func hit(p []xy, g grid, c Cover) []page {
	lo, hi := p[0], p[0]
	for _, a := range p {
		lo.x, lo.y, hi.x, hi.y = min(lo.x, a.x), min(lo.y, a.y), max(hi.x, a.x), max(hi.y, a.y)
	}
	span := func(lo, hi, p, u float64) (int, int) {
		a := int(math.Floor((lo + grow) / p))
		return a, max(a, int(math.Ceil((hi-u-grow)/p))-1)
	}
	i0, i1 := span(lo.x, hi.x, g.p, g.u)
	j0, j1 := span(lo.y, hi.y, g.q, g.v)
	var pages []page
	for j := j0; j <= j1; j++ {
		y0, y1 := float64(j)*g.q+g.v/2, float64(j+1)*g.q+g.v/2
		if j == j0 {
			y0 = lo.y
		}
		if j == j1 {
			y1 = hi.y
		}
		on := make([]bool, i1-i0+1)
		col := func(x float64) int {
			return min(max(int(math.Floor((x-g.u/2)/g.p)), i0), i1) - i0
		}
		for k, a := range p {
			b := p[(k+1)%len(p)]
			x0, x1, ok := within(a, b, y0, y1)
			if !ok {
				continue
			}
			for i := col(x0); i <= col(x1); i++ {
				on[i] = true
			}
		}
		for i := range on {
			if !on[i] && c == Full {
				on[i] = inside(p, xy{(float64(i+i0)+0.5)*g.p + g.u/2, (y0 + y1) / 2})
			}
			if on[i] {
				pages = append(pages, page{i + i0, j})
			}
		}
	}
	return pages
}

// within is the extent in x of the part of ab between the heights y0 and y1.
func within(a, b xy, y0, y1 float64) (x0, x1 float64, ok bool) {
	if a.y > b.y {
		a, b = b, a
	}
	if b.y < y0 || a.y > y1 {
		return 0, 0, false
	}
	at := func(y float64) float64 {
		if y <= a.y {
			return a.x
		}
		if y >= b.y {
			return b.x
		}
		return a.x + (b.x-a.x)*((y-a.y)/(b.y-a.y))
	}
	x0, x1 = at(y0), at(y1)
	return min(x0, x1), max(x0, x1), true
}

func inside(p []xy, a xy) bool {
	in := false
	for k, b := range p {
		c := p[(k+1)%len(p)]
		if (b.y > a.y) != (c.y > a.y) && a.x < b.x+(c.x-b.x)*((a.y-b.y)/(c.y-b.y)) {
			in = !in
		}
	}
	return in
}

// assemble names the pages and moves the plane so that the lowest row and the
// leftmost column have number 0.
func assemble(outline geom.Polygon, s Sheet, c Cover, g grid, at geom.Placement, pages []page) Plan {
	i0, j0, i1, j1 := pages[0].i, pages[0].j, pages[0].i, pages[0].j
	for _, k := range pages {
		i0, j0, i1, j1 = min(i0, k.i), min(j0, k.j), max(i1, k.i), max(j1, k.j)
	}
	// The grid leaves out the unreliable edge; the plane of the sheets has it.
	at.Shift.X += unit.Length(g.edge - float64(i0)*g.p)
	at.Shift.Y += unit.Length(g.edge - float64(j0)*g.q)
	plan := Plan{Sheet: s, Cover: c, Place: at, Outline: at.Polygon(outline), Rows: j1 - j0 + 1, Cols: i1 - i0 + 1}
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
