package tiling

import "slices"

// least is how many tiles any cutting plan of this kind takes for the pieces, and the
// whole tiles beside them.
func (c *cutting) least(whole int) int {
	t := tally{area: float64(whole) * c.grid.t1 * c.grid.t2, corners: 4 * whole, large: whole}
	for _, p := range c.pieces {
		t.add(p.Area, p.Corners, p.Area > c.grid.large() || p.Corners >= 3)
	}
	return max(t.least(c.grid), whole+c.twoCorners(), whole+c.strangers())
}

// twoCorners: of pieces with two factory corners at least, no three come from one
// tile, which has four.
func (c *cutting) twoCorners() int {
	var some []int
	for i, p := range c.pieces {
		if p.Corners >= 2 {
			some = append(some, i)
		}
	}
	pairs := 0
	for _, m := range matching(len(some), func(i, j int) bool { return c.pair(some[i], some[j]) }) {
		if m >= 0 {
			pairs++
		}
	}
	return len(some) - pairs/2
}

// strangers is a set of pieces of which no two come from one tile, taken one after
// another, the one with most strangers first.
func (c *cutting) strangers() int {
	n := len(c.pieces)
	others := make([]int, n)
	for i := range n {
		for j := range n {
			if i != j && !c.pair(i, j) {
				others[i]++
			}
		}
	}
	byMost := make([]int, n)
	for i := range byMost {
		byMost[i] = i
	}
	slices.SortStableFunc(byMost, func(a, b int) int { return others[b] - others[a] })
	var set []int
	for _, i := range byMost {
		if !slices.ContainsFunc(set, func(j int) bool { return c.pair(i, j) }) {
			set = append(set, i)
		}
	}
	return len(set)
}
