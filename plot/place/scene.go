package place

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Scene is what labels keep clear of, filed by place: ink, and the boxes of words and of
// areas that no words may stand in, convex and counter-clockwise.
type Scene struct {
	Ink   Index[Stroke]
	Boxes Index[geom.Polygon]
}

// NewScene is an empty scene, filed in squares of a size.
func NewScene(size unit.Length) Scene {
	return Scene{NewIndex[Stroke](size), NewIndex[geom.Polygon](size)}
}

// Draw files ink.
func (s Scene) Draw(strokes ...Stroke) {
	for _, k := range strokes {
		s.Ink.Put(k.Bounds(), k)
	}
}

// Block files a box.
func (s Scene) Block(box geom.Polygon) { s.Boxes.Put(box.Bounds(), box) }

// Gaps are what words keep from the ink of lines and from other words.
type Gaps struct{ Ink, Words unit.Length }

// NoLine is the number of no line.
const NoLine = -1

// mostHalf is half the width of the widest ink.
const mostHalf unit.Length = 1

// Free says whether a box keeps its gaps from ink, but for that of one line, and from
// other boxes.
func (s Scene) Free(box geom.Polygon, g Gaps, but int) bool {
	b := box.Bounds()
	far := b.Grow(g.Words)
	return s.Ink.Every(b.Grow(g.Ink+mostHalf), func(k Stroke) bool {
		near := g.Ink + k.Half
		return k.Of == but || !k.Bounds().Grow(near).Meets(b) || box.ApartFrom(k.Line) >= near
	}) && s.Boxes.Every(far, func(o geom.Polygon) bool {
		return !far.Meets(o.Bounds()) || box.Apart(o) >= g.Words
	})
}

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
