package paging_test

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/plot/paging"
)

// The literal definition of a set of pages that serves, written down without a
// look at how one is found: every point of the piece (or of its edges) is on a
// page of the set, and one can walk once round the outline changing only between
// side neighbours, at a point that both show. Nothing relies on the outer 1 mm
// of a window. Rounding is given a thousandth of a millimetre.

const roundingGrace = 1e-3

type sheetAt struct {
	row, col int
	x0, y0   float64
	x1, y1   float64
}

// sheetsOf is what each page of a plan can be relied on to show.
func sheetsOf(p paging.Plan, slack float64) []sheetAt {
	var all []sheetAt
	unreliable := math.Min(1, float64(p.Sheet.Overlap)/2) + slack - roundingGrace
	for _, c := range p.Cells {
		all = append(all, sheetAt{c.Row, c.Col,
			float64(c.Window.Min.X) + unreliable, float64(c.Window.Min.Y) + unreliable,
			float64(c.Window.Max.X) - unreliable, float64(c.Window.Max.Y) - unreliable})
	}
	return all
}

// placed is the point that a complaint is about.
func placed(bad string) (x, y float64, ok bool) {
	at := strings.IndexByte(bad, '(')
	if at < 0 {
		return 0, 0, false
	}
	n, _ := fmt.Sscanf(bad[at:], "(%g, %g)", &x, &y)
	return x, y, n == 2
}

// literal says what is wrong with the pages, or "".
func literal(outline geom.Polygon, sheets []sheetAt, c paging.Cover) string {
	if c == paging.Full {
		if bad := literalCover(outline, sheets); bad != "" {
			return bad
		}
	}
	return literalWalk(outline, sheets)
}

// literalWalk follows the outline from stop to stop. Stops are the corners and
// all places where the outline crosses a border of a window; between two stops
// the pages that show both show all between, windows being convex.
func literalWalk(outline geom.Polygon, sheets []sheetAt) string {
	type stop struct{ x, y float64 }
	var stops []stop
	for k := range outline {
		e := outline.Edge(k)
		ax, ay, bx, by := float64(e.From.X), float64(e.From.Y), float64(e.To.X), float64(e.To.Y)
		times := []float64{0}
		for _, s := range sheets {
			for _, t := range []float64{(s.x0 - ax) / (bx - ax), (s.x1 - ax) / (bx - ax), (s.y0 - ay) / (by - ay), (s.y1 - ay) / (by - ay)} {
				if t > 0 && t < 1 {
					times = append(times, t)
				}
			}
		}
		slices.Sort(times)
		for n, t := range times {
			if n == 0 || t > times[n-1] {
				stops = append(stops, stop{ax + t*(bx-ax), ay + t*(by-ay)})
			}
		}
	}
	// Rounding must not lose a page at a stop on its border, so a page shows a
	// stop if it does within a tenth of the grace.
	const close = roundingGrace / 10
	show := make([][]int, len(stops))
	for k, p := range stops {
		for n, s := range sheets {
			if s.x0-close <= p.x && p.x <= s.x1+close && s.y0-close <= p.y && p.y <= s.y1+close {
				show[k] = append(show[k], n)
			}
		}
		if len(show[k]) == 0 {
			return fmt.Sprintf("no page shows (%.3f, %.3f) of the outline", p.x, p.y)
		}
	}
	beside := func(a, b int) bool {
		dr, dc := sheets[a].row-sheets[b].row, sheets[a].col-sheets[b].col
		return dr*dr+dc*dc == 1
	}
	// at spreads what is reached among the pages of one stop.
	at := func(reached map[int]bool, k int) map[int]bool {
		now := map[int]bool{}
		for _, n := range show[k] {
			if reached[n] {
				now[n] = true
			}
		}
		for again := true; again; {
			again = false
			for _, n := range show[k] {
				for m := range now {
					if !now[n] && beside(n, m) {
						now[n], again = true, true
					}
				}
			}
		}
		return now
	}
	var far string
	for _, first := range show[0] {
		reached := at(map[int]bool{first: true}, 0)
		for k := 1; k <= len(stops) && len(reached) > 0; k++ {
			p := stops[k%len(stops)]
			if reached = at(reached, k%len(stops)); len(reached) == 0 {
				far = fmt.Sprintf("the walk ends before (%.3f, %.3f)", p.x, p.y)
			}
		}
		if reached[first] {
			return ""
		}
	}
	if far == "" {
		far = "the walk does not come back to where it began"
	}
	return far
}

// literalCover cuts the piece by level lines: between two that follow each other
// no border, corner or crossing of an edge with a border lies, so what holds at
// half height holds for all between.
func literalCover(outline geom.Polygon, sheets []sheetAt) string {
	var levels []float64
	for k := range outline {
		e := outline.Edge(k)
		levels = append(levels, float64(e.From.Y))
		for _, s := range sheets {
			for _, x := range []float64{s.x0, s.x1} {
				if t := (x - float64(e.From.X)) / float64(e.To.X-e.From.X); t > 0 && t < 1 {
					levels = append(levels, float64(e.From.Y)+t*float64(e.To.Y-e.From.Y))
				}
			}
		}
	}
	low, high := slices.Min(levels), slices.Max(levels)
	for _, s := range sheets {
		levels = append(levels, s.y0, s.y1)
	}
	slices.Sort(levels)
	for n := 1; n < len(levels); n++ {
		y := (levels[n-1] + levels[n]) / 2
		if levels[n]-levels[n-1] < 1e-9 || y < low || y > high {
			continue
		}
		var cuts []float64
		for k := range outline {
			e := outline.Edge(k)
			ay, by := float64(e.From.Y), float64(e.To.Y)
			if (ay > y) != (by > y) {
				cuts = append(cuts, float64(e.From.X)+(y-ay)/(by-ay)*float64(e.To.X-e.From.X))
			}
		}
		slices.Sort(cuts)
		var here []sheetAt
		for _, s := range sheets {
			if s.y0 <= y && y <= s.y1 {
				here = append(here, s)
			}
		}
		slices.SortFunc(here, func(a, b sheetAt) int { return a.col - b.col })
		for k := 0; k+1 < len(cuts); k += 2 {
			x := cuts[k]
			for _, s := range here {
				if s.x0 <= x+1e-9 && x < s.x1 {
					x = s.x1
				}
			}
			if x < cuts[k+1]-1e-9 {
				return fmt.Sprintf("no page shows (%.3f, %.3f) of the piece", x, y)
			}
		}
	}
	return ""
}
