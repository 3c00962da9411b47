package paging

import (
	"fmt"
	"math"

	"trammel/geom/unit"
)

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

// grow is how much windows are grown so that a piece exactly as large as a
// window is one page in spite of rounding.
const grow = 1e-6

func floor(x float64) int {
	n := int(x)
	if float64(n) > x {
		n--
	}
	return n
}

func ceil(x float64) int { return -floor(-x) }

func modulo(x, p float64) float64 { return x - math.Floor(x/p)*p }

// pageSet is a set of pages that remembers the order in which they came.
type pageSet struct {
	list []page
	came map[uint64]int // when, by column and row
}

func (p page) key() uint64 { return uint64(uint32(p.i))<<32 | uint64(uint32(p.j)) }

func (s *pageSet) clear() {
	if s.came == nil {
		s.came = make(map[uint64]int)
	}
	s.list = s.list[:0]
	clear(s.came)
}

func (s *pageSet) has(n page) bool {
	_, ok := s.came[n.key()]
	return ok
}

// at is when the page came, counted from 0; far where it is not in the set.
func (s *pageSet) at(n page) int {
	if at, ok := s.came[n.key()]; ok {
		return at
	}
	return far
}

// put says whether the page was not there yet.
func (s *pageSet) put(n page) bool {
	if s.has(n) {
		return false
	}
	s.came[n.key()] = len(s.list)
	s.list = append(s.list, n)
	return true
}
