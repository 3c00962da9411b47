package place

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Stroke is a straight bit of a line's ink, half its width to each side.
type Stroke struct {
	geom.Line
	Half unit.Length
	Of   int // the line that it is a bit of, where that matters
}

// Sag is how far the chords that stand for an arc may lie from it: their half width
// is that much more.
const Sag unit.Length = 0.05

// Strokes cuts an operation into straight bits no longer than so much, so that a side of
// 15 m is not looked at everywhere in its bounds. Words have none.
func Strokes(op draw.Op, longest unit.Length) []Stroke {
	var all []Stroke
	line := func(l geom.Line, half unit.Length) {
		n := max(1, math.Ceil(float64(l.Length()/longest)))
		for i := range int(n) {
			all = append(all, Stroke{Line: geom.Line{From: l.At(float64(i) / n), To: l.At(float64(i+1) / n)}, Half: half})
		}
	}
	switch o := op.(type) {
	case draw.Line:
		line(o.Line, o.Pen.Width/2)
	case draw.Arc:
		if o.Radius <= 0 {
			break
		}
		step := 2 * math.Acos(1-min(1, float64(Sag/o.Radius)))
		n := max(1, math.Ceil(math.Abs(float64(o.Sweep))/step))
		for i := range int(n) {
			line(geom.Line{From: o.At(float64(i) / n), To: o.At(float64(i+1) / n)}, o.Pen.Width/2+Sag)
		}
	case draw.Path:
		for _, part := range o.Parts() {
			all = append(all, Strokes(part, longest)...)
		}
	case draw.Polyline:
		for i := range o.Points {
			if i < len(o.Points)-1 || o.Closed || o.Solid {
				line(geom.Polygon(o.Points).Edge(i), o.Pen.Width/2)
			}
		}
	}
	return all
}
