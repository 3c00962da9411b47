package tiling

import (
	"cmp"
	"slices"
)

// Laid is a piece within the tile it is cut from: the piece by number and where it
// lies in the tile.
type Laid struct {
	Piece    int
	Shape    part
	Quarters int // that it lies turned there against its own tile, counter-clockwise
}

// cutting says which pieces come from which tile. Each keeps its factory edges, so it
// lies where it lay in its own tile, turned with it, a kerf from the others.
type cutting struct {
	grid   grid
	pieces []Piece
	class  []int    // of each piece: those of a class are alike but for turns
	shapes [][]part // of each class, in all turns
	first  []int    // of each class, a piece
	fits   [][]int8 // of two classes: 0 not known, 1 yes, −1 no
}

func newCutting(pieces []Piece, g grid) *cutting {
	c := &cutting{grid: g, pieces: pieces, class: make([]int, len(pieces))}
	for i, p := range pieces {
		c.class[i] = -1
		for k, all := range c.shapes {
			if slices.ContainsFunc(all, func(q part) bool { return alike(p.Own, q, 1e-3) }) {
				c.class[i] = k
				break
			}
		}
		if c.class[i] < 0 {
			c.class[i] = len(c.shapes)
			var all []part
			for _, t := range g.turns() {
				all = append(all, t.part(p.Own, g))
			}
			c.shapes, c.first = append(c.shapes, all), append(c.first, i)
		}
	}
	c.fits = make([][]int8, len(c.shapes))
	for k := range c.fits {
		c.fits[k] = make([]int8, len(c.shapes))
	}
	return c
}

// pair says whether two pieces come from one tile.
func (c *cutting) pair(i, j int) bool {
	k, m := c.class[i], c.class[j]
	if c.fits[k][m] == 0 {
		fits := int8(-1)
		if c.turnBeside(m, []Laid{{Shape: c.shapes[k][0]}}) >= 0 {
			fits = 1
		}
		c.fits[k][m], c.fits[m][k] = fits, fits
	}
	return c.fits[k][m] > 0
}

// turnBeside is the first turn in which a piece of a class lies clear of those laid;
// −1 for none.
func (c *cutting) turnBeside(class int, laid []Laid) int {
	return slices.IndexFunc(c.shapes[class], func(p part) bool {
		return !slices.ContainsFunc(laid, func(q Laid) bool { return !apart(p, q.Shape, c.grid.kerf) })
	})
}

// laid is a piece where a shape of its class lies, with how it is turned to lie so.
func (c *cutting) laid(piece int, shape part) Laid {
	l := Laid{Piece: piece, Shape: shape}
	for _, t := range c.grid.turns() {
		if alike(t.part(c.pieces[piece].Own, c.grid), shape, 2e-3) {
			l.Quarters = t.quarters
			break
		}
	}
	return l
}

// groups are the pieces of each tile that is cut: pairs as many as can be, then small
// groups emptied into the room that others have left.
func (c *cutting) groups() [][]Laid {
	mate := matching(len(c.pieces), c.pair)
	var all [][]Laid
	for i, j := range mate {
		if j >= 0 && j < i {
			continue
		}
		group := []Laid{{Piece: i, Shape: c.pieces[i].Own}}
		if j >= 0 {
			k := c.class[j]
			group = append(group, c.laid(j, c.shapes[k][c.turnBeside(k, group)]))
		}
		all = append(all, group)
	}
	area := func(g []Laid) (sum float64) {
		for _, l := range g {
			sum += c.pieces[l.Piece].Area
		}
		return sum
	}
	slices.SortStableFunc(all, func(a, b []Laid) int { return cmp.Compare(area(a), area(b)) })
	for i := 0; i < len(all); i++ {
		if rest, ok := c.emptied(all, i); ok {
			all, i = rest, i-1
		}
	}
	return all
}

// emptied is the groups without one, its pieces laid into the room of the others;
// ok is false where they do not all find room.
func (c *cutting) emptied(all [][]Laid, which int) (rest [][]Laid, ok bool) {
	rest = slices.Clone(all)
	rest = slices.Delete(rest, which, which+1)
	tile := c.grid.t1 * c.grid.t2
	for _, l := range all[which] {
		k := c.class[l.Piece]
		home := slices.IndexFunc(rest, func(g []Laid) bool {
			var sum float64
			for _, o := range g {
				sum += c.pieces[o.Piece].Area
			}
			return sum+c.pieces[l.Piece].Area < tile && c.turnBeside(k, g) >= 0
		})
		if home < 0 {
			return nil, false
		}
		rest[home] = append(slices.Clone(rest[home]), c.laid(l.Piece, c.shapes[k][c.turnBeside(k, rest[home])]))
	}
	return rest, true
}
