package paging

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/furniture"
)

// Paper hides what it lies on, and a margin shows nothing. So no sheet may keep
// paper beyond its window where another sheet has its own window: then whichever
// lies on top, it shows there what the other would show.
//
// At a join the sheet on top is cut along the middle of the strip, where its edge
// meets the light line of the other; the one below is cut at the outer edge of the
// strip, which then is all window. A side without a neighbour is cut at the window's
// edge as well where its margin would reach over a sheet that lies across a corner,
// or one place further on. Every cut goes straight through from edge to edge of the
// paper: nothing of the piece lies beyond it that no other sheet keeps.

// rim is how far inside the window's edge the outer cuts lie: the line's ink stays
// within the window.
const rim = 0.35 / 2

// Trimmed is what is left of each sheet when it is cut, in the order of Cells and in
// the plane of the sheets.
func (p Plan) Trimmed() []geom.Rect {
	at := cellsAt(p.Cells)
	kept := make([]geom.Rect, len(p.Cells))
	for i := range p.Cells {
		kept[i] = p.trimmed(i, at)
	}
	return kept
}

// paper is a whole sheet in the plane of the sheets.
func (p Plan) paper(c Cell) geom.Rect {
	return geom.Rect{
		Min: c.Window.Min.Minus(geom.Point{X: p.Sheet.Left, Y: p.Sheet.Bottom}),
		Max: c.Window.Max.Plus(geom.Point{X: p.Sheet.Right, Y: p.Sheet.Top}),
	}
}

// trimmed is what is left of one sheet among others.
func (p Plan) trimmed(i int, at map[[2]int]int) geom.Rect {
	others := p.about(i, at)
	c, paper := p.Cells[i], p.paper(p.Cells[i])
	w, half := c.Window, p.Sheet.Overlap/2
	edge := min(rim, half)
	kept := paper
	on, window, margin := furniture.Sides(&kept), furniture.Sides(&w), furniture.Sides(&paper)
	for k, n := range besides {
		next, ok := at[[2]int{c.Row + n[0], c.Col + n[1]}]
		if !ok {
			continue
		}
		in := edge
		if next < i { // this sheet is laid on top
			in = half
		}
		*on[k] = *window[k] + furniture.Inward[k]*in
	}
	// First the sheets that lie along a side, then those that only a corner of the
	// paper reaches: for these one of two sides is enough.
	for _, along := range [2]geom.Rect{w, paper} {
		for _, k := range [4]int{furniture.Above, furniture.Below, furniture.LeftOf, furniture.RightOf} {
			band := along // beyond the window
			of := furniture.Sides(&band)
			*of[k], *of[k^1] = *margin[k], *window[k]
			if slices.ContainsFunc(others, func(o geom.Rect) bool { return laps(common(band, kept), o) }) {
				*on[k] = *window[k] + furniture.Inward[k]*edge
			}
		}
	}
	return kept
}

// about is the windows of the other sheets near enough for the paper of one to reach.
func (p Plan) about(i int, at map[[2]int]int) (all []geom.Rect) {
	c, sh := p.Cells[i], p.Sheet
	w := c.Window
	far := func(size, margin unit.Length) int {
		return int(math.Ceil(float64((size + margin) / (size - sh.Overlap))))
	}
	cols, rows := far(w.Width(), max(sh.Left, sh.Right)), far(w.Height(), max(sh.Top, sh.Bottom))
	for row := c.Row - rows; row <= c.Row+rows; row++ {
		for col := c.Col - cols; col <= c.Col+cols; col++ {
			if k, ok := at[[2]int{row, col}]; ok && k != i {
				all = append(all, p.Cells[k].Window)
			}
		}
	}
	return all
}

func cellsAt(cells []Cell) map[[2]int]int {
	at := make(map[[2]int]int, len(cells))
	for i, c := range cells {
		at[[2]int{c.Row, c.Col}] = i
	}
	return at
}

func common(a, b geom.Rect) geom.Rect {
	return geom.Rect{
		Min: geom.Point{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)},
		Max: geom.Point{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)}}
}

// laps says whether two rectangles have more in common than an edge.
func laps(a, b geom.Rect) bool {
	const hair = 1e-6 // windows that only touch, in spite of rounding
	c := common(a, b)
	return c.Width() > hair && c.Height() > hair
}

// cuts are the lines along which a sheet is cut to what is kept of it, from edge to
// edge of the paper, what is kept to the left of each.
func cuts(paper, kept geom.Rect) (all []geom.Line) {
	line := func(is bool, x0, y0, x1, y1 unit.Length) {
		if is {
			all = append(all, geom.Line{From: geom.Point{X: x0, Y: y0}, To: geom.Point{X: x1, Y: y1}})
		}
	}
	lo, hi := paper.Min, paper.Max
	line(kept.Min.Y > lo.Y, lo.X, kept.Min.Y, hi.X, kept.Min.Y)
	line(kept.Max.X < hi.X, kept.Max.X, lo.Y, kept.Max.X, hi.Y)
	line(kept.Max.Y < hi.Y, hi.X, kept.Max.Y, lo.X, kept.Max.Y)
	line(kept.Min.X > lo.X, kept.Min.X, hi.Y, kept.Min.X, lo.Y)
	return all
}
