// Package area unites, cuts and takes away areas with straight edges. It is the
// one fence round canvas, whose sweep does the work; no other package imports it.
//
// Accuracy: canvas snaps crossings to a grid of 1e-8 mm, so a corner of a result
// lies within 2e-8 mm of the crossing that geometry has, and the area of a result
// within its perimeter times that. It is not meant for arcs nor for truth to the
// micrometre on paper: those strokes are cut by package geom.
package area

import (
	"fmt"
	"math"
	"slices"

	"github.com/tdewolff/canvas"

	"trammel/geom"
	"trammel/geom/unit"
)

// Region is an area of one or more parts: outer rings counter-clockwise, holes
// clockwise, each ring without its first point repeated. A ring never crosses
// another. The zero value is empty.
type Region struct{ rings []geom.Polygon }

// Of is the region that the rings enclose: what lies within an odd number of
// them. Which way round a ring runs does not matter.
func Of(rings ...geom.Polygon) (Region, error) {
	return sweep(func(p, _ *canvas.Path) *canvas.Path { return p.Settle(canvas.EvenOdd) }, Region{rings}, Region{})
}

// United is what lies in either.
func (r Region) United(s Region) (Region, error) { return sweep((*canvas.Path).Or, r, s) }

// Common is what lies in both.
func (r Region) Common(s Region) (Region, error) { return sweep((*canvas.Path).And, r, s) }

// Less is r without what lies in s.
func (r Region) Less(s Region) (Region, error) { return sweep((*canvas.Path).Not, r, s) }

// Grown is the region with every place within d of it, d > 0. Corners are rounded
// by chords that lie within 0.01 mm of the arc: canvas flattens them so.
func (r Region) Grown(d unit.Length) (Region, error) {
	return sweep(func(p, _ *canvas.Path) *canvas.Path {
		return p.Offset(float64(d), canvas.Tolerance).Settle(canvas.Positive)
	}, r, Region{})
}

// Rings of the region, outer ones counter-clockwise and each followed by its
// holes, clockwise.
func (r Region) Rings() []geom.Polygon { return r.rings }

// Parts that do not hang together, each with its holes.
func (r Region) Parts() []Region {
	var parts []Region
	for _, ring := range r.rings {
		if signed(ring) > 0 {
			parts = append(parts, Region{})
		}
		if last := len(parts) - 1; last >= 0 {
			parts[last].rings = append(parts[last].rings, ring)
		}
	}
	return parts
}

// Area of all parts, holes taken off.
func (r Region) Area() unit.Area {
	var sum float64
	for _, ring := range r.rings {
		sum += signed(ring)
	}
	return unit.Area(sum)
}

// signed area of a ring: positive where it runs counter-clockwise. Near its
// first corner as origin, so that a place far off costs nothing.
func signed(ring geom.Polygon) float64 {
	var twice float64
	for i := 2; i < len(ring); i++ {
		p, q := ring[i-1].Minus(ring[0]), ring[i].Minus(ring[0])
		twice += float64(p.X*q.Y - p.Y*q.X)
	}
	return twice / 2
}

// largest extent that is taken, in mm: beyond it the grid of crossings is finer
// than float64 keeps.
const largest = 1e6

// check refuses what the sweep is not made for.
func check(r Region) error {
	for _, ring := range r.rings {
		for _, p := range ring {
			if !(math.Abs(float64(p.X)) <= largest && math.Abs(float64(p.Y)) <= largest) {
				return fmt.Errorf("area: a corner at %v, %v, which is more than 1 km away", p.X, p.Y)
			}
		}
	}
	return nil
}

// sweep does one operation. canvas gives up by a panic where its sweep meets what
// it cannot order; here that is an error.
func sweep(do func(p, q *canvas.Path) *canvas.Path, r, s Region) (result Region, err error) {
	for _, side := range []Region{r, s} {
		if err := check(side); err != nil {
			return Region{}, err
		}
	}
	defer func() {
		if cause := recover(); cause != nil {
			result, err = Region{}, fmt.Errorf("area: the edges could not be ordered: %v", cause)
		}
	}()
	return Region{oriented(ringsOf(do(pathOf(r), pathOf(s))))}, nil
}

// oriented turns and orders rings that do not cross: outer ones counter-clockwise,
// each followed by its holes, clockwise. canvas says that it does so, but a hole of
// a union comes out the wrong way round in one of forty pairs of random rings.
func oriented(rings []geom.Polygon) []geom.Polygon {
	round := make([][]int, len(rings)) // the rings that lie round each, by number
	for i, r := range rings {
		at := r.Edge(0).At(0.5)
		for j, s := range rings {
			if i != j && s.Contour().Has(at) {
				round[i] = append(round[i], j)
			}
		}
	}
	var all []geom.Polygon
	for i, r := range rings {
		if len(round[i])%2 == 1 {
			continue
		}
		all = append(all, turned(r, 1))
		for j, hole := range rings {
			if len(round[j]) == len(round[i])+1 && slices.Contains(round[j], i) {
				all = append(all, turned(hole, -1))
			}
		}
	}
	return all
}

// turned is the ring run through so that its signed area has the sign.
func turned(r geom.Polygon, sign float64) geom.Polygon {
	if signed(r)*sign < 0 {
		slices.Reverse(r)
	}
	return r
}

// pathOf is a region as canvas has it.
func pathOf(r Region) *canvas.Path {
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
	return p
}

// ringsOf are rings of straight edges, each without its first point repeated.
func ringsOf(p *canvas.Path) []geom.Polygon {
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
