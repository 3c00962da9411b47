package template

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// distance between two corners, to be measured when the pages are together.
type distance struct {
	geom.Line // in the piece's own coordinates
	from, to  geom.Name
	length    unit.Length
}

// What the table of distances has at most: it is to stay beside the map.
const (
	mostSides     = 6
	mostDiagonals = 3
)

// checked are the distances that say whether a piece is true: its sides, of many
// the longest, and as many diagonals as sides leave open, those measured before
// the long ones. Sides alone do not hold a shape of more than three.
func (p Piece) checked() []distance {
	o := p.Outline()
	n := len(o.Names)
	between := func(i, j int) distance {
		l := geom.Line{From: o.Points[i], To: o.Points[j]}
		return distance{l, o.Names[i], o.Names[j], l.Length()}
	}
	var sides, diagonals []distance
	for i := range n {
		d := between(i, o.Next(i))
		d.length = o.Sides[i]
		sides = append(sides, d)
		for j := i + 2; j < n; j++ {
			if i > 0 || j < n-1 {
				diagonals = append(diagonals, between(i, j))
			}
		}
	}
	if n > mostSides {
		longest := slices.Clone(sides)
		slices.SortStableFunc(longest, func(a, b distance) int { return cmp.Compare(b.length, a.length) })
		sides = slices.DeleteFunc(sides, func(d distance) bool { return !slices.Contains(longest[:mostSides], d) })
	}
	taped := map[[2]geom.Name]bool{}
	for _, m := range p.Measured {
		if m.Kind == geom.Distance {
			taped[[2]geom.Name{m.At[0], m.At[1]}], taped[[2]geom.Name{m.At[1], m.At[0]}] = true, true
		}
	}
	computed := func(d distance) int {
		if taped[[2]geom.Name{d.from, d.to}] {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(diagonals, func(a, b distance) int {
		return cmp.Or(cmp.Compare(computed(a), computed(b)), cmp.Compare(b.length, a.length))
	})
	return append(sides, diagonals[:max(0, min(n-3, mostDiagonals))]...)
}
