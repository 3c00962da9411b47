package place

import (
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
