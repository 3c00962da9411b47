package area

import (
	"github.com/tdewolff/canvas"

	"trammel/geom"
	"trammel/geom/unit"
)

// path is a region as canvas has it.
type path struct{ *canvas.Path }

func pathOf(r Region) path {
	p := &canvas.Path{}
	for _, ring := range r.rings {
		for i, at := range ring {
			if i == 0 {
				p.MoveTo(float64(at.X), float64(at.Y))
			} else {
				p.LineTo(float64(at.X), float64(at.Y))
			}
		}
		p.Close()
	}
	return path{p}
}

func (p path) settled() path   { return path{p.Settle(canvas.EvenOdd)} }
func (p path) and(q path) path { return path{p.And(q.Path)} }
func (p path) or(q path) path  { return path{p.Or(q.Path)} }
func (p path) not(q path) path { return path{p.Not(q.Path)} }

func (p path) grown(d unit.Length) path {
	return path{p.Offset(float64(d), canvas.Tolerance).Settle(canvas.Positive)}
}

// rings of straight edges, each without its first point repeated.
func (p path) rings() []geom.Polygon {
	var rings []geom.Polygon
	for s := p.Scanner(); s.Scan(); {
		end := s.End()
		at := geom.Point{X: unit.Length(end.X), Y: unit.Length(end.Y)}
		switch s.Cmd() {
		case canvas.MoveToCmd:
			rings = append(rings, geom.Polygon{at})
		case canvas.LineToCmd:
			rings[len(rings)-1] = append(rings[len(rings)-1], at)
		case canvas.CloseCmd:
			if last := &rings[len(rings)-1]; at != (*last)[0] {
				*last = append(*last, at)
			}
		}
	}
	kept := rings[:0]
	for _, r := range rings {
		if len(r) > 2 {
			kept = append(kept, r)
		}
	}
	return kept
}
