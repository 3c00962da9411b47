// Package sheet sets words, rules, lists, tables and small figures on a page: the
// index page of a template and the setting-out sheet are made of its blocks.
//
// A block is cut into rows at a given width; rows flow from the top of one area
// to its foot and on into the next area or page. Everything is in millimetres,
// y up.
//
// Files, from the top floor to the ground: table.go, figure.go, words.go, leaf.go, fill.go, sheet.go.
package sheet

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Row is the least that can stand alone between two breaks. Its marks are drawn
// from the row's top left corner, so they lie at negative y.
type Row struct {
	Height unit.Length
	Marks  draw.Drawing
	Keep   bool // the next row must not be parted from this one
	Space  bool // only a gap: left out at the top of an area
	Again  *Row // set once more where a break falls before this row (a table's head)
}

// Block is a part of a page that can say how it looks at a width.
type Block interface {
	Rows(width unit.Length, r draw.Ruler) []Row
}

// Stack is the rows of all blocks, one below the other.
func Stack(blocks []Block, width unit.Length, r draw.Ruler) []Row {
	var rows []Row
	for _, b := range blocks {
		rows = append(rows, b.Rows(width, r)...)
	}
	return rows
}

// Height of blocks set at a width without any break.
func Height(blocks []Block, width unit.Length, r draw.Ruler) unit.Length {
	return heightOf(Stack(blocks, width, r))
}

func heightOf(rows []Row) unit.Length {
	h := unit.Length(0)
	for _, row := range rows {
		h += row.Height
	}
	return h
}

// Set draws blocks without any break, from the corner topLeft down, and says how
// high they are.
func Set(blocks []Block, topLeft geom.Point, width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
	var d draw.Drawing
	h := unit.Length(0)
	for _, row := range Stack(blocks, width, r) {
		d = append(d, Shift(row.Marks, geom.Point{X: topLeft.X, Y: topLeft.Y - h})...)
		h += row.Height
	}
	return d, h
}

// fit is how much a row may overhang the foot of its area: sums of heights carry
// rounding, and a block measured to fit exactly must fit.
const fit unit.Length = 1e-6

// Flow lets the blocks run through the areas, which areas(n) gives for page n counted
// from 0, in order of reading, all set at the width of the first one, and returns the
// marks of each page. Rows that are kept together and are higher than any area are parted
// all the same; it is an error when a single row is.
func Flow(blocks []Block, areas func(page int) []geom.Rect, r draw.Ruler) ([]draw.Drawing, error) {
	f, err := flow(Stack(blocks, areas(0)[0].Width(), r), areas)
	return f.pages, err
}

// Laid is rows that were set before, at the width that they are asked for.
type Laid []Row

func (b Laid) Rows(unit.Length, draw.Ruler) []Row { return b }

// flown is the marks of each page, and how much of the height of its areas they take.
type flown struct {
	pages []draw.Drawing
	used  []unit.Length
}

func flow(rows []Row, areas func(page int) []geom.Rect) (flown, error) {
	pages, used := []draw.Drawing{nil}, []unit.Length{0}
	page, at, fresh := 0, 0, true // fresh: nothing stands in this area yet
	area := areas(0)[0]
	top := area.Max.Y
	put := func(row Row) {
		pages[page] = append(pages[page], Shift(row.Marks, geom.Point{X: area.Min.X, Y: top})...)
		top -= row.Height
		used[page] += row.Height
		fresh = false
	}
	for i := 0; i < len(rows); {
		group := keptFrom(rows, i)
		if fresh {
			for i < group && rows[i].Space {
				i++
			}
		}
		// What is higher than any page is parted where it must be.
		if top-heightOf(rows[i:group]) < area.Min.Y-fit {
			room := roomFor(rows[i], areas(page)[at+1:], areas(page+1))
			for group > i+1 && heightOf(rows[i:group]) > room+fit {
				group--
			}
		}
		for tried := 0; i < group && top-heightOf(rows[i:group]) < area.Min.Y-fit; {
			if rows[i].Space { // a gap never opens an area
				i++
				continue
			}
			if fresh {
				tried++
			}
			if n := len(areas(page)) + len(areas(page+1)); tried > n {
				return flown{}, fmt.Errorf("%.0f mm of text that belong together do not fit a page area %.0f mm high", heightOf(rows[i:group]), area.Height())
			}
			if at++; at == len(areas(page)) {
				page, at = page+1, 0
				pages, used = append(pages, nil), append(used, 0)
			}
			area, fresh = areas(page)[at], true
			top = area.Max.Y
			if again := rows[i].Again; again != nil {
				put(*again)
				fresh = true
			}
		}
		for ; i < group; i++ {
			put(rows[i])
		}
	}
	return flown{pages, used}, nil
}

// roomFor is the height of the highest of the areas to come, less what stands again above a row there.
func roomFor(row Row, areas ...[]geom.Rect) (room unit.Length) {
	for _, page := range areas {
		for _, a := range page {
			room = max(room, a.Height())
		}
	}
	if row.Again != nil {
		room -= row.Again.Height
	}
	return room
}

// keptFrom is the end of the group of rows that starts at i and is kept together.
func keptFrom(rows []Row, i int) int {
	for i < len(rows) && rows[i].Keep {
		i++
	}
	return min(i+1, len(rows))
}

// Shift moves a drawing by the vector by.
func Shift(d draw.Drawing, by geom.Point) draw.Drawing {
	return Move(d, geom.Placement{Shift: by})
}

// Move places a drawing: turned, then shifted.
func Move(d draw.Drawing, m geom.Placement) draw.Drawing {
	out := make(draw.Drawing, len(d))
	for i, op := range d {
		out[i] = draw.Move(op, m)
	}
	return out
}

// Columns cuts an area into n columns of equal width.
func Columns(area geom.Rect, n int, gutter unit.Length) []geom.Rect {
	w := (area.Width() - gutter*unit.Length(n-1)) / unit.Length(n)
	cols := make([]geom.Rect, n)
	for i := range cols {
		x := area.Min.X + unit.Length(i)*(w+gutter)
		cols[i] = geom.Rect{Min: geom.Point{X: x, Y: area.Min.Y}, Max: geom.Point{X: x + w, Y: area.Max.Y}}
	}
	return cols
}
