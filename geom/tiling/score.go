package tiling

import "math"

// Measures of a layout, by which it is chosen.
type Measures struct {
	Slivers   int     // pieces narrower than a quarter of a tile's shorter side
	Narrowest float64 // mm, of all pieces; that of a whole tile where nothing is cut
	Cuts      int     // pieces
	Least     int     // tiles that areas, corners and large pieces alone take
	Off       float64 // mm from a joint or a tile's middle on the middle lines, both ways together
}

// order is how layouts are compared.
type order int

const (
	byWidth order = iota // slivers, narrowest, cuts, wide, tiles, off-centre
	byCuts               // slivers, cuts, narrowest, wide, tiles, off-centre
)

// score is measures in the order in which they count, less is better.
type score [6]int

// classes of width: so many to a tile's shorter side; and of off-centre, in mm.
const (
	classes   = 60
	offCentre = 5
)

// in an order; a bound of measures gives a bound of the score. What a balanced start
// gives is as wide as counts before the cuts do; between starts alike in that and in
// cuts, half a tile is better than half of a tile less its joint.
func (m Measures) in(o order, g grid) score {
	class := func(most float64) int { return -int(math.Floor(min(m.Narrowest, most)/(g.short()/classes) + 1e-9)) }
	first, second := class(g.half()), m.Cuts
	if o == byCuts {
		first, second = second, first
	}
	return score{m.Slivers, first, second, class(g.short() / 2), m.Least, int(math.Floor(m.Off/offCentre + 1e-9))}
}

func (s score) less(t score) bool {
	for i, v := range s {
		if v != t[i] {
			return v < t[i]
		}
	}
	return false
}
