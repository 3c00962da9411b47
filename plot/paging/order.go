package paging

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// inWalkOrder is sheets, given by rows, in the order in which one comes to them on the
// way round the outline, from where it enters the first; each joins one before it, where
// it joins any.
func inWalkOrder(cells []Cell, outline geom.Polygon) []Cell {
	var round, start unit.Length
	for k := range outline {
		edge := outline.Edge(k)
		if part, ok := geom.ClipLine(edge, cells[0].Window); ok && part.From != edge.From {
			start = round + edge.From.Distance(part.From)
		}
		round += edge.Length()
	}
	met := make([]unit.Length, len(cells)) // how far on from there each is come to
	order := make([]int, len(cells))
	for i := range cells {
		order[i], met[i] = i, 2*round
	}
	walked := -start
	for k := range outline {
		edge := outline.Edge(k)
		for i, c := range cells {
			part, ok := geom.ClipLine(edge, c.Window)
			if !ok {
				continue
			}
			d := walked + edge.From.Distance(part.From)
			if d < 0 {
				d += round
			}
			met[i] = min(met[i], d)
		}
		walked += edge.Length()
	}
	met[0] = 0
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(met[a], met[b]) })
	at := cellsAt(cells)
	laid := make([]bool, len(cells))
	joins := func(i int) bool {
		c := cells[i]
		return slices.ContainsFunc(besides, func(n [2]int) bool {
			k, ok := at[[2]int{c.Row + n[0], c.Col + n[1]}]
			return ok && laid[k]
		})
	}
	all := make([]Cell, 0, len(cells))
	for len(order) > 0 {
		next := max(0, slices.IndexFunc(order, joins))
		laid[order[next]] = true
		all = append(all, cells[order[next]])
		order = slices.Delete(order, next, next+1)
	}
	return all
}

// On is the sheets that a sheet is laid on, in the order of laying: its neighbours that lie
// already; none for the first and for one that is laid loose.
func (p Plan) On(i int) (all []string) {
	c := p.Cells[i]
	for _, o := range p.Cells[:i] {
		if slices.Contains([]string{c.LeftOf, c.RightOf, c.Above, c.Below}, o.Label) {
			all = append(all, o.Label)
		}
	}
	return all
}

// besides is the rows and columns on to the neighbours left, right, above and below, in
// the order of furniture's sides.
var besides = [][2]int{{0, -1}, {0, 1}, {-1, 0}, {1, 0}}
