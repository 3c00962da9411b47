package draw

import (
	"trammel/geom"
	"trammel/geom/unit"
)

// Kept is the part of the paper that is left when all cuts are made, in page
// coordinates, counter-clockwise: the whole page where there are none. It is convex,
// since every cut goes straight through.
func (p Page) Kept() geom.Polygon {
	kept := geom.Polygon{{}, {X: p.Width}, {X: p.Width, Y: p.Height}, {Y: p.Height}}
	for _, c := range p.Cuts {
		kept = leftOf(kept, c)
	}
	return kept
}

// leftOf is the part of a convex polygon to the left of a line (Sutherland and
// Hodgman 1974, for one line).
func leftOf(p geom.Polygon, l geom.Line) (left geom.Polygon) {
	along := l.To.Minus(l.From)
	side := func(a geom.Point) unit.Length {
		b := a.Minus(l.From)
		return along.X*b.Y - along.Y*b.X
	}
	for i, a := range p {
		b := p[(i+1)%len(p)]
		from, to := side(a), side(b)
		if from >= 0 {
			left = append(left, a)
		}
		if from > 0 && to < 0 || from < 0 && to > 0 {
			left = append(left, geom.Line{From: a, To: b}.At(float64(from/(from-to))))
		}
	}
	return left
}
