// Package place finds room on paper for labels and furniture. Two ways lead there: a Scene
// files ink and words by place and says whether a box, turned or not, keeps its gaps from
// them; a FreeGrid divides an area into small squares and finds a free rectangle, or a block
// of several, among thousands of positions. Cheapest takes what costs least. Lengths are mm
// on paper; a label's candidates, their costs and gaps are their owner's.
//
// Files, from the top floor to the ground: readable.go, cheapest.go, scene.go, stroke.go,
// free_grid.go.
package place

import (
	"math"

	"trammel/geom/unit"
)

// Readable turns a direction so that words along it read from below or from the right:
// they fall by less than steep, which is a quarter turn at most.
func Readable(steep, a unit.Angle) unit.Angle {
	a = unit.Angle(math.Remainder(float64(a), float64(unit.Turn/2)))
	if a <= 1e-9-steep {
		a += unit.Turn / 2
	}
	return a
}
