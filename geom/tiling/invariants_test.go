package tiling

import (
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/unit"
)

// randomFloor is a room of three to eight corners round its middle, hollow ones among
// them, perhaps with a post.
func randomFloor(r *rand.Rand) Floor {
	n := 3 + r.IntN(6)
	var f Floor
	size := 800 + 1800*r.Float64()
	for i := range n {
		a := (float64(i) + 0.2 + 0.6*r.Float64()) / float64(n) * 2 * math.Pi
		d := size * (0.45 + 0.55*r.Float64())
		f.Walls = append(f.Walls, geom.Point{X: unit.Length(2000 + d*math.Cos(a)), Y: unit.Length(2000 + d*math.Sin(a))})
		f.Gaps = append(f.Gaps, []unit.Length{0, 5, 8, 12}[r.IntN(4)])
	}
	if r.IntN(2) == 0 {
		s := unit.Length(40 + 120*r.Float64())
		f.Openings = append(f.Openings, Opening{Ring: geom.Polygon{{X: 2000, Y: 2000}, {X: 2000 + s, Y: 2000}, {X: 2000 + s, Y: 2000 + s}, {X: 2000, Y: 2000 + s}}, Gap: 5})
	}
	return f
}

func randomGrid(r *rand.Rand) Grid {
	g := Grid{Along: 300, Across: 300, Joint: 3, Kerf: 3}
	switch r.IntN(4) {
	case 1:
		g.Along, g.Pattern, g.Step, g.Of = 600, Brick, 1, 2+r.IntN(2)
	case 2:
		g.Along, g.Across, g.Joint, g.Pattern = 200, 97, 6, Herringbone
	case 3:
		g.Along = 450
	}
	if r.IntN(2) == 0 {
		g.Angle = unit.Angle(r.Float64()) * unit.Turn / 4
	}
	return g
}

// randomCase is a floor that leaves a region, with a grid.
func randomCase(r *rand.Rand) (Region, Grid) {
	for {
		f := randomFloor(r)
		if _, _, crossing := f.Walls.Crossing(); crossing || f.Walls.Contour().Area() < 4e5 {
			continue
		}
		if region, err := f.Region(); err == nil {
			return region, randomGrid(r)
		}
	}
}

// What must hold of every layout: areas add up, kinds count every piece, what is bought
// is no less than the bound, a period further on or turned with the floor nothing
// changes, and a row of bricks up is a part of a tile along.
func TestInvariants(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(13, 1))
	for i := range gate.Of(60, 800) {
		region, grid := randomCase(r)
		g := grid.bare()
		at := vec{X: r.Float64() * g.p1, Y: r.Float64() * g.p2}
		y := region.Lay(grid, at.Point())
		tiles := float64(y.Areas.Whole + y.Areas.Cut + y.Areas.Dropped)
		if tiles > float64(region.Area())+1e-2 {
			t.Errorf("%d: tiles have more area than the floor", i)
		}
		pieces, groups := 0, 0
		for _, k := range y.Kinds {
			pieces += len(k.Pieces)
		}
		for _, all := range y.Groups {
			groups += len(all)
		}
		if pieces != len(y.Pieces) || groups != len(y.Pieces) {
			t.Errorf("%d: %d pieces, %d in kinds, %d from tiles", i, len(y.Pieces), pieces, groups)
		}
		if y.Bought < y.Least {
			t.Errorf("%d: %d bought, and no fewer than %d", i, y.Bought, y.Least)
		}
		for _, all := range y.Groups {
			for k := range all {
				for m := range k {
					if !apart(all[k].Shape, all[m].Shape, g.kerf-1e-5) {
						t.Errorf("%d: two pieces of one tile are nearer than the kerf", i)
					}
				}
			}
		}
		same := func(what string, region Region, grid Grid, at vec) {
			z := region.Lay(grid, at.Point())
			if len(z.Whole) != len(y.Whole) || len(z.Pieces) != len(y.Pieces) || math.Abs(z.Measures.Narrowest-y.Measures.Narrowest) > 1e-5 || math.Abs(float64(z.Areas.Cut-y.Areas.Cut)) > 1e-2 {
				t.Errorf("%d: %s: %d whole %d cut %.6f, else %d, %d, %.6f", i, what, len(z.Whole), len(z.Pieces), z.Measures.Narrowest, len(y.Whole), len(y.Pieces), y.Measures.Narrowest)
			}
		}
		switch grid.Pattern {
		case Herringbone:
			same("a row further on", region, grid, at.Plus(vec{X: g.p2, Y: g.p2}))
			same("a column further on", region, grid, at.Plus(vec{X: g.p1, Y: -g.p1}))
		case Brick:
			same("a tile further on", region, grid, at.Plus(vec{X: g.p1}))
			same("a row of bricks up", region, grid, at.Plus(vec{X: -g.offset(1), Y: -g.p2}))
		default:
			same("a tile further on", region, grid, at.Plus(vec{X: g.p1, Y: -g.p2}))
		}
		turn := unit.Angle(r.Float64())
		turned := grid
		turned.Angle += turn
		same("turned with the floor", region.turned(turn), turned, at)
		n := g.normal(at.Plus(vec{X: 3 * g.p1, Y: 2 * g.p2}))
		if grid.Pattern != Herringbone {
			same("brought into the domain", region, grid, g.normal(at))
			if n.X < 0 || n.Y < 0 || n.X >= g.p1 || n.Y >= g.p2 {
				t.Errorf("%d: %v is outside the domain", i, n)
			}
		}
	}
}

// No shift of a box betters the bounds of the box in anything.
func TestBoundsHold(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(13, 2))
	const shifts = 12
	for i := range gate.Of(550, 8400) {
		region, grid := randomCase(r)
		frame := region.turned(-grid.Angle)
		l := newLayer(frame, grid.bare(), frame.middle(0, nil))
		for range 1 {
			at := vec{X: r.Float64() * 600, Y: r.Float64() * 300}
			size := 0.1 * math.Pow(550, r.Float64())
			half := vec{X: size * r.Float64(), Y: size * r.Float64()}
			b := l.bound(at, half)
			for k := range shifts {
				s := at.Plus(vec{X: half.X * (2*r.Float64() - 1), Y: half.Y * (2*r.Float64() - 1)})
				if k < 4 {
					s = at.Plus(vec{X: half.X * float64(k%2*2-1), Y: half.Y * float64(k/2*2-1)})
				}
				m := l.measure(s)
				half, short := l.grid.half(), l.grid.short()/2
				if m.Slivers < b.Slivers || m.Cuts < b.Cuts || m.Least < b.Least || m.Off < b.Off-1e-9 ||
					min(m.Narrowest, short) > min(b.Narrowest, short)+1e-6 || min(m.Narrowest, half) > min(b.Narrowest, half)+1e-6 {
					t.Fatalf("%d: at %v in a box of %v about %v: %+v, bound %+v", i, s, half, at, m, b)
				}
			}
		}
	}
}

// Every start on a grid of 2 mm (5 mm where the tiles are large) is measured: none is
// better than the one that is proven.
func TestDenseSampling(t *testing.T) {
	t.Parallel()
	post := room(8, 0, 0, 2450, 0, 2450, 1210, 1630, 1210, 1630, 2240, 0, 2240)
	post.Openings = []Opening{{Ring: geom.Polygon{{X: 900, Y: 700}, {X: 1050, Y: 700}, {X: 1050, Y: 850}, {X: 900, Y: 850}}, Gap: 8}}
	skew := room(6, 0, 0, 2710, 35, 2660, 2015, 1210, 2320, -40, 1930)
	cases := []struct {
		name  string
		floor Floor
		grid  Grid
	}{
		{"store", store, small}, {"triangle", triangle, small}, {"post", post, small}, {"skew", skew, diagonal},
		{"skew, bricks", skew, Grid{Along: 400, Across: 200, Joint: 2, Kerf: 3, Pattern: Brick, Step: 1, Of: 2}},
		{"store, herringbone", store, Grid{Along: 400, Across: 198, Joint: 4, Kerf: 3, Pattern: Herringbone}},
	}
	step := gate.Of(23., 2.)
	for _, c := range cases {
		region := regionFor(t, c.floor)
		frame := region.turned(-c.grid.Angle)
		l := newLayer(frame, c.grid.bare(), frame.middle(c.grid.Angle, nil))
		p := region.Best(t.Context(), c.grid, Wish{})
		wide, few := p.Choices[1], p.Choices[2]
		if !wide.Proven || !few.Proven {
			t.Errorf("%s is not proven", c.name)
		}
		bestWide, bestFew := l.measure(geom.VectorOf(wide.Shift)).in(byWidth, l.grid), l.measure(geom.VectorOf(few.Shift)).in(byCuts, l.grid)
		u, v := l.grid.domain()
		for x := 0.; x < u; x += step {
			for y := 0.; y < v; y += step {
				m := l.measure(vec{X: x, Y: y})
				a, b := m.in(byWidth, l.grid), m.in(byCuts, l.grid)
				// Exact starts may stand in for one of the lattice with the same first three.
				if (score{a[0], a[1], a[2]}).less(score{bestWide[0], bestWide[1], bestWide[2]}) || (score{b[0], b[1], b[2]}).less(score{bestFew[0], bestFew[1], bestFew[2]}) {
					t.Fatalf("%s: at %v, %v there is %v, %v, better than %v, %v", c.name, x, y, a, b, bestWide, bestFew)
				}
			}
		}
	}
}
