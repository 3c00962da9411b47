package paging

import (
	"cmp"
	"fmt"
	"math"
	"slices"

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
// page grid, so that the pages are as few as can be. With turn given it keeps
// that turn and chooses the shift; the plan says how many pages that costs. The
// same outline and sheet give the same plan. A *unit.Fault says when paper,
// margins and overlap cannot serve or when the piece would take more than
// MaxPages.
//
// Plan.Proven says that no turn and shift take fewer pages than Plan.Least, but
// for those that depend on windows larger by 0.02 mm than they are. Among equals
// an edge parallel to the paper comes first, then slack, then pages that carry
// more than a sliver of the outline, corners clear of the strips that two pages
// show, fewer rows and columns, fewer joins, and the smallest turn and shift.
//
// No more than that effort goes into each of its searches: one over all turns, and one
// more where the turn is given. Where it does not do for the proof, Plan has the fewest
// pages found, and says that nothing is proven.
func Lay(outline geom.Polygon, s Sheet, c Cover, turn *unit.Angle, e Effort) (Plan, error) {
	o, bound, err := newOutlined(outline, s, c, turn)
	if err != nil {
		return Plan{}, err
	}
	all := o.searching(e)
	parallel := parallelTurns(o.base)
	for _, t := range parallel {
		all.seeds(t)
	}
	for _, t := range parallel {
		all.shifts(t)
	}
	p := Plan{Plain: plainPages(outline, s), Parallel: all.best}
	p.Bound = min(max(bound, all.turns()), all.best)
	p.Least, p.Proven = all.best, p.Bound == all.best
	p.Settled = p.Proven
	if turn != nil {
		p.Steps = all.cost
		return o.keep(p, *turn, e)
	}
	if all.best < p.Parallel {
		all.at = upright(all.at, o.g)
		parallel = []float64{all.at.turn}
	}
	return o.finish(p, all, parallel, all.best)
}

// How much work goes into the search for the fewest pages, in spots and rows gone
// through; beyond it, or beyond its Effort, the plan is not proven. It is enough for 4000 triangles to 3 m
// and 400 to 20 m, most of which take a hundredth of it.
const (
	workTriangle = 100_000_000
	workPolygon  = 30_000_000
)

// upright is the same layout at a turn that is at most a quarter turn: half a
// turn takes the page grid to itself.
func upright(at pose, g grid) pose {
	if math.Abs(at.turn) <= math.Pi/2 {
		return at
	}
	return pose{math.Remainder(at.turn, math.Pi), modulo(g.u-at.x, g.p), modulo(g.v-at.y, g.q)}
}

// edgesTried is how many edges of a shape, the longest, are laid parallel to the paper.
const edgesTried = 8

// parallelTurns are those in (−90°, 90°] that lay an edge parallel to the paper,
// the smallest first.
func parallelTurns(p []geom.Vector) []float64 {
	type edge struct{ long, way float64 }
	var edges []edge
	for k, a := range p {
		b := p[(k+1)%len(p)]
		if d := math.Hypot(b.X-a.X, b.Y-a.Y); d > 0 {
			edges = append(edges, edge{d, math.Atan2(b.Y-a.Y, b.X-a.X)})
		}
	}
	slices.SortStableFunc(edges, func(a, b edge) int { return -cmp.Compare(a.long, b.long) })
	var turns []float64
	for _, e := range edges[:min(len(edges), edgesTried)] {
		for _, t := range [2]float64{-e.way, math.Pi/2 - e.way} {
			t = math.Remainder(t, math.Pi)
			if t <= -math.Pi/2+1e-12 {
				t += math.Pi
			}
			t += 0 // no −0
			if !slices.ContainsFunc(turns, func(o float64) bool { return math.Abs(o-t) < 1e-12 }) {
				turns = append(turns, t)
			}
		}
	}
	slices.SortStableFunc(turns, func(a, b float64) int {
		return cmp.Or(cmp.Compare(math.Abs(a), math.Abs(b)), cmp.Compare(a, b))
	})
	return turns
}

// checkSize returns a first bound of the pages, by size alone, and refuses what
// would take more than MaxPages by far before there is any search.
func checkSize(base []geom.Vector, s Sheet, g grid, c Cover, turn *unit.Angle) (int, error) {
	w, h := g.p+g.u, g.q+g.v
	least, area := 1.0, 0.0
	for k, a := range base {
		b := base[(k+1)%len(base)]
		area += (a.X*b.Y - a.Y*b.X) / 2
		// A page has no two points further apart than its corners.
		least = max(least, math.Hypot(a.X-base[0].X, a.Y-base[0].Y)/math.Hypot(w, h))
	}
	if c == Full {
		least = max(least, math.Abs(area)/(w*h))
	}
	if least > MaxPages {
		return 0, TooMany("the piece", math.Floor(least), true, s)
	}
	turns := parallelTurns(base)
	if turn != nil {
		turns = []float64{float64(*turn)}
	}
	fewest := far
	q := newSearch(base, g, c, 0)
	for _, t := range turns {
		rotate(q.turned, base, t)
		fewest = min(fewest, q.bound(q.turned, geom.Vector{}, geom.Vector{}, far))
		if fewest <= MaxPages {
			break
		}
	}
	if fewest > MaxPages+MaxPages/10 {
		return 0, TooMany("the piece", float64(fewest), true, s)
	}
	return ceil(least - grow), nil
}

// grid is the page grid in numbers. Its windows are those of the sheet less
// what is unreliable, moved so that window (i, j) is
// [i·p, i·p+p+u] × [j·q, j·q+q+v].
type grid struct{ p, q, u, v, edge float64 }

// page is a place in the grid, rows counted upward.
type page struct{ i, j int }

func newGrid(s Sheet) (grid, error) {
	fault := func(hint, what string, sizes ...unit.Length) (grid, error) {
		var said []any
		for _, l := range sizes {
			said = append(said, fmt.Sprintf("%.6g", float64(l)))
		}
		return grid{}, &unit.Fault{Subject: unit.Paper, Of: s.Name, What: fmt.Sprintf(what, said...), Hint: hint}
	}
	for _, l := range []unit.Length{s.Width, s.Height, s.Left, s.Right, s.Top, s.Bottom, s.Overlap} {
		if !(l >= 0 && l < 1e9) {
			return fault("give them as lengths that are not negative", "a size, margin or overlap of the paper is not a length")
		}
	}
	w, h, o := float64(s.Width-s.Left-s.Right), float64(s.Height-s.Top-s.Bottom), float64(s.Overlap)
	edge := min(float64(Unreliable), o/2) // an overlap under 2 mm has no more to spare
	least := max(10, 2*edge+1)
	const larger = "smaller margins or larger paper; a page must show at least 10 mm"
	switch {
	case w < least:
		return fault(larger, "margins of %s and %s mm leave too little of a paper %s mm wide", s.Left, s.Right, s.Width)
	case h < least:
		return fault(larger, "margins of %s and %s mm leave too little of a paper %s mm high", s.Top, s.Bottom, s.Height)
	case o > min(w, h)/2:
		return fault("10 mm is usual", "an overlap of %s mm is more than half of the %s mm that a page shows", s.Overlap, unit.Length(min(w, h)))
	}
	return grid{p: w - o, q: h - o, u: o - 2*edge, v: o - 2*edge, edge: edge}, nil
}

func checkOutline(outline geom.Polygon) error {
	if len(outline) < 3 {
		return &unit.Fault{What: fmt.Sprintf("an outline of %d corners is not a shape", len(outline)), Hint: "a piece has three corners or more"}
	}
	for _, p := range outline {
		if !(math.Abs(float64(p.X)) < 1e12 && math.Abs(float64(p.Y)) < 1e12) {
			return &unit.Fault{What: "a corner of the outline is not at a finite place", Hint: "a side is at most 1 km"}
		}
	}
	if b := outline.Bounds(); b.Width() == 0 && b.Height() == 0 {
		return &unit.Fault{What: "all corners of the outline are one point", Hint: "a side is at least 1 mm"}
	}
	return nil
}

// TooMany refuses a piece that would take more than MaxPages; more says that the
// number is a lower bound.
func TooMany(piece string, pages float64, more bool, s Sheet) *unit.Fault {
	or := ""
	if more {
		or = " or more"
	}
	return &unit.Fault{
		What:    fmt.Sprintf("%s takes %.0f pages of %s%s: the most is %d", piece, pages, s.Name, or, MaxPages),
		Subject: unit.Cover, Advice: unit.Advice{Code: unit.TooManyPages},
	}
}

// plainPages is what plain rows and columns take in the better orientation, the
// piece not turned.
func plainPages(outline geom.Polygon, s Sheet) int {
	b := outline.Bounds()
	w, h := float64(b.Width()), float64(b.Height())
	ww, wh, v := float64(s.Width-s.Left-s.Right), float64(s.Height-s.Top-s.Bottom), float64(s.Overlap)
	n := func(size, window float64) float64 { return max(1, math.Ceil((size-v-grow)/(window-v))) }
	return int(min(n(w, ww)*n(h, wh), n(h, ww)*n(w, wh), math.MaxInt32))
}

// grow is how much windows are grown so that a piece exactly as large as a
// window is one page in spite of rounding.
const grow = 1e-6

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
