package tiling

import (
	"context"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Aim is what a layout is chosen for.
type Aim string

const (
	Balanced Aim = "balanced" // a joint or a tile's middle on the middle lines
	Widest   Aim = "widest"   // the narrowest cut as wide as can be
	Fewest   Aim = "fewest"   // as few cuts as can be
)

// Aims in the order in which they are shown.
var Aims = []Aim{Balanced, Widest, Fewest}

// Choice is the layout of an aim, and what the search has shown of it.
type Choice struct {
	Aim Aim
	Layout
	Proven bool // no shift of the lattice and no exact start is better
	Boxes  int  // of shifts that the search opened
	// Where it is not proven: what no start betters, slivers and cuts at least.
	SliversAtLeast, CutsAtLeast int
}

// Plan is a region and a grid with the layouts that were chosen.
type Plan struct {
	Region  Region
	Grid    Grid
	Middle  geom.Point // in the frame of the grid: where it should look even
	Choices []Choice
	Tiles   int // within the bounds of the region
	Spent   int // of the effort, in cuts
}

// Effort that a floor is searched with unless something else is said, in cuts of a
// tile: some 0.7 µs each.
const Effort = 24_000_000

// MostTiles is how many places of a grid are taken on.
const MostTiles = 20_000

// Wish is what is asked of a plan.
type Wish struct {
	Centre *geom.Line // the wall that must look even; nil: the middle of the region
	Aims   []Aim      // none: all
	Effort int        // 0: Effort; it is shared by the searches
}

// Tiles is about how many tiles of a grid a region takes.
func (r Region) Tiles(g Grid) int {
	b := r.turned(-g.Angle).bounds()
	t := g.bare()
	return int(b.area() / (t.p1 * t.p2))
}

// Lay is a grid laid at a shift of its frame.
func (r Region) Lay(g Grid, shift geom.Point) Layout {
	l := newLayer(r.turned(-g.Angle), g.bare(), middle{math.NaN(), math.NaN()})
	return l.report(geom.VectorOf(shift))
}

// Best finds the layouts that are wished. When ctx is done it ends with what it has.
func (r Region) Best(ctx context.Context, g Grid, w Wish) Plan {
	frame := r.turned(-g.Angle)
	m := frame.middle(g.Angle, w.Centre)
	l := newLayer(frame, g.bare(), m)
	p := Plan{Region: r, Grid: g, Middle: vec{X: m.x, Y: m.y}.Point(), Tiles: r.Tiles(g)}
	aims := w.Aims
	if len(aims) == 0 {
		aims = Aims
	}
	effort := w.Effort
	if effort == 0 {
		effort = Effort
	}
	first := starts(frame, l.grid, m)
	for i, a := range aims {
		limit := (effort - l.effort()) / (len(aims) - i)
		var f found
		switch a {
		case Balanced:
			f = l.balanced()
		case Widest:
			f = l.exact(l.search(ctx, byWidth, first, limit), byWidth, frame)
		default:
			f = l.exact(l.search(ctx, byCuts, first, limit), byCuts, frame)
		}
		first = append(first, f.shift)
		p.Choices = append(p.Choices, l.choice(a, f))
	}
	p.Spent = l.effort()
	return p
}

// middle of a region turned back by an angle: of its bounds; where a wall is named,
// the place square off the wall's middle that is level with that.
func (r Region) middle(by unit.Angle, wall *geom.Line) middle {
	b := r.bounds()
	at := b.min.Plus(b.max).Times(0.5)
	if wall != nil {
		from, to := turnedExactly(geom.VectorOf(wall.From), -by), turnedExactly(geom.VectorOf(wall.To), -by)
		mid, in := from.Plus(to).Times(0.5), to.Minus(from).Unit().Left()
		at = mid.Plus(in.Times(at.Minus(mid).Dot(in)))
	}
	return middle{at.X, at.Y}
}

// balanced is the best of the four starts with a joint or a tile's middle on the
// middle lines.
func (l *layer) balanced() found {
	f := found{proven: true}
	us, vs := balanced(l.grid, l.middle)
	for _, u := range us {
		for _, v := range vs {
			s := l.grid.normal(vec{X: u, Y: v})
			m := l.measure(s)
			if c := m.in(byWidth, l.grid); !f.ok || c.less(f.score) {
				f.shift, f.measures, f.score, f.ok = s, m, c, true
			}
			f.boxes++
		}
	}
	return f
}

// exact moves a start of the lattice onto a wall or a middle line that it missed by
// no more than the slack that makes tiles whole, where slivers, widths and cuts stay.
func (l *layer) exact(f found, o order, r Region) found {
	us, vs := flush(r, l.grid)
	bu, bv := balanced(l.grid, l.middle)
	u, v := f.shift.X, f.shift.Y
	du, dv := l.grid.domain()
	if l.grid.pattern == Herringbone {
		du, dv = math.Inf(1), math.Inf(1)
	}
	near := func(all []float64, at, pitch float64) float64 {
		for _, a := range all {
			d := a - at
			if !math.IsInf(pitch, 1) {
				d = math.Remainder(d, pitch)
			}
			if math.Abs(d) <= 2*Slack {
				return at + d
			}
		}
		return at
	}
	eu, ev := near(append(us, bu...), u, du), near(append(vs, bv...), v, dv)
	for _, s := range []vec{{X: eu, Y: ev}, {X: eu, Y: v}, {X: u, Y: ev}} {
		if s == f.shift {
			return f
		}
		m := l.measure(s)
		c := m.in(o, l.grid)
		if c[0] <= f.score[0] && c[1] <= f.score[1] && c[2] <= f.score[2] {
			f.shift, f.measures, f.score = s, m, c
			return f
		}
	}
	return f
}

// choice is the report of what was found.
func (l *layer) choice(a Aim, f found) Choice {
	c := Choice{Aim: a, Layout: l.report(f.shift), Proven: f.proven, Boxes: f.boxes}
	if !f.proven {
		c.SliversAtLeast = f.bound[0]
		if a == Fewest && f.bound[0] == f.score[0] {
			c.CutsAtLeast = f.bound[1]
		}
	}
	return c
}

// Advised is the number of the choice to be taken unless something speaks against it,
// and whether it is because the balanced one has pieces under a quarter: balanced where it
// has none, else the widest.
func (p Plan) Advised() (i int, slivers bool) {
	for k, c := range p.Choices {
		switch {
		case c.Aim == Balanced && c.Measures.Slivers == 0:
			return k, false
		case c.Aim == Balanced:
			slivers = true
		case c.Aim == Widest:
			return k, slivers
		}
	}
	return 0, slivers
}

// Better says whether a plan comes out better than another of the same floor, by the widest
// layout, or by the first where that was not asked for.
func (p Plan) Better(than Plan) bool {
	of := func(p Plan) score {
		for _, c := range p.Choices {
			if c.Aim == Widest {
				return c.Measures.in(byWidth, p.Grid.bare())
			}
		}
		return p.Choices[0].Measures.in(byWidth, p.Grid.bare())
	}
	a, b := of(p), of(than)
	a[5], b[5] = 0, 0 // each has a middle of its own
	return a.less(b)
}

// SmallerThan says whether a region is smaller than one tile of a grid both ways.
func (r Region) SmallerThan(g Grid) bool {
	b, t := r.turned(-g.Angle).bounds(), g.bare()
	return b.width() < t.t1 && b.height() < t.t2 || b.width() < t.t2 && b.height() < t.t1
}
