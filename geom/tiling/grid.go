package tiling

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Pattern is how rows of tiles lie to one another.
type Pattern int

const (
	Straight    Pattern = iota
	Brick               // each row a part of a tile further on than the one before
	Herringbone         // lying and standing tiles in turn
)

// Grid is tiles of one size laid in a pattern, turned by Angle about the origin.
type Grid struct {
	Along, Across unit.Length // one tile, along its rows and across them
	Joint         unit.Length
	Pattern       Pattern
	Step, Of      int // of a brick: each row is Step/Of of a tile and joint further on
	Angle         unit.Angle
	Kerf          unit.Length // what a saw takes between two pieces of one tile
}

// Spot is one place of a grid: a tile by row and column, standing where it is the
// turned one of a herringbone.
type Spot struct {
	Row, Column int
	Standing    bool
}

// grid in bare numbers.
type grid struct {
	t1, t2, j float64
	p1, p2    float64 // tile and joint
	kerf      float64
	pattern   Pattern
	step, of  int
}

func (g Grid) bare() grid {
	b := grid{t1: float64(g.Along), t2: float64(g.Across), j: float64(g.Joint), pattern: g.Pattern, step: g.Step, of: max(g.Of, 1), kerf: float64(g.Kerf)}
	b.p1, b.p2 = b.t1+b.j, b.t2+b.j
	return b
}

// short is the shorter side of a tile.
func (g grid) short() float64 { return min(g.t1, g.t2) }

// quarter and half are the widths under which a piece is counted. Half is that of a
// tile and a joint that are parted evenly: two such pieces and a joint are a tile.
func (g grid) quarter() float64 { return g.short() / 4 }
func (g grid) half() float64    { return (g.short() - g.j) / 2 }

// square says whether a tile can be turned by quarters.
func (g grid) square() bool { return math.Abs(g.t1-g.t2) < 1e-9 }

// domain is the shifts that differ: 0 to each of these. Herringbone repeats by (p2,p2)
// and by (p1,−p1): with v in [0,p2) the next one in the same strip is p1 and so many
// p2 further on that it covers at most p1 to that.
func (g grid) domain() (u, v float64) {
	if g.pattern == Herringbone {
		return g.p1 + math.Ceil(g.p1/g.p2-1e-9)*g.p2, g.p2
	}
	return g.p1, g.p2
}

// normal is a shift as the same one within the domain.
func (g grid) normal(s vec) vec {
	switch g.pattern {
	case Herringbone:
		k := math.Floor(s.Y / g.p2)
		s = s.Minus(vec{X: k * g.p2, Y: k * g.p2})
		step := g.p1 + math.Ceil(g.p1/g.p2-1e-9)*g.p2
		if math.Abs(math.Mod(g.p1+1e-9, g.p2)) < 2e-9 {
			s.X -= math.Floor(s.X/step) * step
		}
		return s
	case Brick:
		k := math.Floor(s.Y / g.p2)
		s = vec{X: s.X + k*float64(g.step)/float64(g.of)*g.p1, Y: s.Y - k*g.p2}
	default:
		s.Y -= math.Floor(s.Y/g.p2) * g.p2
	}
	s.X -= math.Floor(s.X/g.p1) * g.p1
	return s
}

// at is the box of a tile at a shift.
func (g grid) at(s Spot, shift vec) box {
	var low vec
	w, h := g.t1, g.t2
	if g.pattern == Herringbone {
		m, n := float64(s.Row), float64(s.Column)
		low = vec{X: m*g.p2 + n*g.p1, Y: m*g.p2 - n*g.p1}
		if s.Standing {
			low.X -= g.p2
			w, h = h, w
		}
	} else {
		low = vec{X: g.offset(s.Row) + float64(s.Column)*g.p1, Y: float64(s.Row) * g.p2}
	}
	low = low.Plus(shift)
	return box{low, vec{X: low.X + w, Y: low.Y + h}}
}

// offset of a row of bricks.
func (g grid) offset(row int) float64 {
	if g.pattern != Brick {
		return 0
	}
	k := (row * g.step) % g.of
	if k < 0 {
		k += g.of
	}
	return float64(k) / float64(g.of) * g.p1
}

// each calls do with every spot of which the tile meets the box, in the order of
// rows and columns.
func (g grid) each(within box, shift vec, do func(Spot, box)) {
	if g.pattern == Herringbone {
		g.eachHerringbone(within, shift, do)
		return
	}
	first := int(math.Floor((within.min.Y - shift.Y - g.t2) / g.p2))
	last := int(math.Ceil((within.max.Y - shift.Y) / g.p2))
	for r := first; r <= last; r++ {
		x := shift.X + g.offset(r)
		for c, end := int(math.Floor((within.min.X-x-g.t1)/g.p1)), int(math.Ceil((within.max.X-x)/g.p1)); c <= end; c++ {
			s := Spot{Row: r, Column: c}
			if b := g.at(s, shift); b.meets(within) {
				do(s, b)
			}
		}
	}
}

// eachHerringbone: the sum of a tile's coordinates grows with its row alone, their
// difference with its column.
func (g grid) eachHerringbone(within box, shift vec, do func(Spot, box)) {
	reach := g.p1 + g.p2
	low := (within.min.X + within.min.Y - shift.X - shift.Y - 2*reach) / (2 * g.p2)
	high := (within.max.X + within.max.Y - shift.X - shift.Y + 2*reach) / (2 * g.p2)
	left := (within.min.X - within.max.Y - shift.X + shift.Y - 2*reach) / (2 * g.p1)
	right := (within.max.X - within.min.Y - shift.X + shift.Y + 2*reach) / (2 * g.p1)
	for r := int(math.Floor(low)); r <= int(math.Ceil(high)); r++ {
		for c := int(math.Floor(left)); c <= int(math.Ceil(right)); c++ {
			for _, standing := range [2]bool{false, true} {
				s := Spot{r, c, standing}
				if b := g.at(s, shift); b.meets(within) {
					do(s, b)
				}
			}
		}
	}
}

// Tile is where the tile of a spot lies at a shift, in the frame of the grid.
func (g Grid) Tile(s Spot, shift geom.Point) geom.Rect {
	b := g.bare().at(s, geom.VectorOf(shift))
	return geom.Rect{Min: b.min.Point(), Max: b.max.Point()}
}
