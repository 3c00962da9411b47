package furniture

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Spread is how the sheets of a piece lie beside each other, in the order of laying.
type Spread struct {
	Sheets        [][2]int    // row from the top and column of each
	Width, Height unit.Length // from one sheet to the next, across and down
}

// Sizes of the small map, in mm.
const (
	mapHigh  unit.Length = 20
	mapWide  unit.Length = 22  // at most
	mapLeast unit.Length = 0.9 // a sheet smaller than that has no frame of its own
	hatches              = 12  // at most, on a sheet
	hatching unit.Length = 0.8 // at least
)

// smallMap is the sheets at a small scale, its upper left corner at the origin.
type smallMap struct {
	w, h   unit.Length // of a sheet
	size   geom.Point
	grid   draw.Drawing // what all sheets have in common
	spread Spread
}

func newMap(s Spread) (m smallMap) {
	if len(s.Sheets) < 2 {
		return m
	}
	var rows, cols int
	there := make(map[[2]int]bool, len(s.Sheets))
	for _, at := range s.Sheets {
		rows, cols = max(rows, at[0]+1), max(cols, at[1]+1)
		there[at] = true
	}
	k := min(mapHigh/(s.Height*unit.Length(rows)), mapWide/(s.Width*unit.Length(cols)))
	m = smallMap{w: s.Width * k, h: s.Height * k, spread: s}
	m.size = geom.Point{X: m.w * unit.Length(cols), Y: m.h * unit.Length(rows)}
	fine := min(m.w, m.h) >= mapLeast
	line := func(from, to geom.Point) {
		m.grid = append(m.grid, draw.Line{Line: geom.Line{From: from, To: to}, Pen: draw.Thin, On: draw.Furniture})
	}
	// Each edge once, in one stroke as far as it goes.
	run := func(n int, has func(i int) bool, at func(i int) geom.Point) {
		for i := 0; i < n; i++ {
			if !has(i) {
				continue
			}
			first := i
			for i < n && has(i) {
				i++
			}
			line(at(first), at(i))
		}
	}
	for y := 0; y <= rows; y++ {
		run(cols, func(x int) bool { return edge(there[[2]int{y - 1, x}], there[[2]int{y, x}], fine) }, func(x int) geom.Point { return m.corner(y, x) })
	}
	for x := 0; x <= cols; x++ {
		run(rows, func(y int) bool { return edge(there[[2]int{y, x - 1}], there[[2]int{y, x}], fine) }, func(y int) geom.Point { return m.corner(y, x) })
	}
	return m
}

// edge says whether a line stands between two places.
func edge(a, b, fine bool) bool { return a != b || fine && a && b }

// corner is the upper left corner of a sheet.
func (m smallMap) corner(row, col int) geom.Point {
	return geom.Point{X: unit.Length(col) * m.w, Y: -unit.Length(row) * m.h}
}

// here is the map with one sheet black and others hatched, its upper left corner at a point.
func (m smallMap) here(sheet int, over []int, at geom.Point) (d draw.Drawing) {
	for _, op := range m.grid {
		d = append(d, draw.Shift(op, at))
	}
	box := func(k int) geom.Rect {
		from := m.corner(m.spread.Sheets[k][0], m.spread.Sheets[k][1]).Plus(at)
		return geom.RectOf(from, from.Plus(geom.Point{X: m.w, Y: -m.h}))
	}
	for _, k := range over {
		r := box(k)
		step := max(hatching, (r.Width()+r.Height())/hatches)
		for c := step; c < r.Width()+r.Height(); c += step {
			l := geom.Line{From: geom.Point{X: r.Min.X + c, Y: r.Min.Y}, To: geom.Point{X: r.Min.X + c - r.Height(), Y: r.Max.Y}}
			if part, ok := geom.ClipLine(l, r); ok {
				d = append(d, draw.Line{Line: part, Pen: draw.Fine, On: draw.Furniture})
			}
		}
	}
	r := box(sheet).Corners()
	return append(d, draw.Polyline{Points: r[:], Closed: true, Solid: true, On: draw.Furniture})
}
