// Package paging spreads a drawing over sheets of paper: where each page lies,
// what neighbours show twice, what each page is called, and the marks that bring
// neighbours together.
//
// It works in the plane of the sheets: the piece is turned and shifted by
// Plan.Place, and page windows are upright there.
//
// Files, from the top floor to the ground: pages.go, lay.go, cut.go, choose.go, fewest.go,
// plan.go, order.go, cover.go, walk_bound.go, walk_chain.go, trim.go, paging.go, scissors.go, walk.go,
// triangle_rows.go, grid.go, shelves.go, joins.go, join_words.go.
package paging

import (
	"trammel/geom"
	"trammel/geom/unit"
)

// Sheet is a kind of paper in a kind of printer.
type Sheet struct {
	Name          string // "A4"
	Width, Height unit.Length
	Left, Top     unit.Length // margins that the printer cannot or should not print on
	Right, Bottom unit.Length
	Overlap       unit.Length // what neighbours show twice
}

// Printable is the part of the sheet within its margins.
func (s Sheet) Printable() geom.Rect {
	return geom.Rect{Min: geom.Point{X: s.Left, Y: s.Bottom}, Max: geom.Point{X: s.Width - s.Right, Y: s.Height - s.Top}}
}

// Cover is which pages are printed.
type Cover uint8

const (
	Full        Cover = iota // every page that shows some of the piece
	OutlineOnly              // only those that carry its edges
)

// Plan is where the pages lie.
type Plan struct {
	Sheet      Sheet
	Cover      Cover
	Place      geom.Placement // piece → plane of the sheets
	Outline    geom.Polygon   // in the plane of the sheets
	Cells      []Cell         // the printed sheets in the order of laying: by rows from the top, each from the left; with OutlineOnly as one walks round the outline
	Rows, Cols int            // of the grid they lie in
	Least      int            // the fewest pages found over all turns and shifts; no placement needs fewer, where Proven
	Proven     bool           // Least is proven, to 0.02 mm
	Bound      int            // no placement needs fewer than this; Least where Proven
	Parallel   int            // the fewest found with an edge of the piece parallel to the paper
	Kept       bool           // the turn was given, and len(Cells) − Least is what keeping it costs
	Settled    bool           // len(Cells) is proven to be the fewest for what was free to choose
	Slack      unit.Length    // every window may shrink by this on each side, beyond Unreliable, with the same pages; at most 4
	Steps      int            // what the search took, as Effort counts it
	Plain      int            // pages that plain rows and columns, unturned, would have taken
}

// Cell is one page of a plan.
type Cell struct {
	Row, Col int
	Label    string    // its number in the order of laying, from 1
	Window   geom.Rect // what it shows, in the plane of the sheets
	// Labels of the neighbours that are printed, empty where there is none.
	LeftOf, RightOf, Above, Below string
}

// next is the labels of the neighbours, by the sides of furniture.
func (c Cell) next() [4]string { return [4]string{c.LeftOf, c.RightOf, c.Above, c.Below} }
