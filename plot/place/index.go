package place

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Index files things by place, in squares of the plane, so that what is near is found
// without asking everything.
type Index[T any] struct {
	size unit.Length
	in   map[[2]int32][]T
}

// NewIndex is an index in squares of a size: about that of what is asked for.
func NewIndex[T any](size unit.Length) Index[T] { return Index[T]{size, map[[2]int32][]T{}} }

func (f Index[T]) squares(r geom.Rect, do func(at [2]int32) bool) bool {
	n := func(l unit.Length) int32 { return int32(math.Floor(float64(l / f.size))) }
	for x := n(r.Min.X); x <= n(r.Max.X); x++ {
		for y := n(r.Min.Y); y <= n(r.Max.Y); y++ {
			if !do([2]int32{x, y}) {
				return false
			}
		}
	}
	return true
}

// Put files t under every square that its bounds meet.
func (f Index[T]) Put(bounds geom.Rect, t T) {
	f.squares(bounds, func(at [2]int32) bool { f.in[at] = append(f.in[at], t); return true })
}

// Every asks all things filed near r, some perhaps twice, and says whether ok held for
// all; it stops at the first for which it did not.
func (f Index[T]) Every(r geom.Rect, ok func(T) bool) bool {
	return f.squares(r, func(at [2]int32) bool {
		for _, t := range f.in[at] {
			if !ok(t) {
				return false
			}
		}
		return true
	})
}
