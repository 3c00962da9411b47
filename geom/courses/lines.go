package courses

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
)

// Floor is the walls that lines are measured from, and what no pull goes through, in the
// piece's own coordinates.
type Floor struct {
	Walls    geom.Polygon
	Openings []geom.Polygon
	Inches   bool // whole inches are set off, else whole 100 mm
}

// Start is how the first tile is found on the floor.
type Start struct {
	Tile        tiling.Spot // whose near left corner the lines cross at
	Rows, Cross Line
	Square      Square
}

// Line is one to snap, along edges of tiles. Places are in the piece's own coordinates.
type Line struct {
	At    unit.Length // across the grid's frame
	Run   geom.Line   // from wall to wall
	Marks [2]Mark
	Slant unit.Length // by how much the two distances differ
}

// Mark is one distance of a line from a place of a wall, square off that wall: what a hand can
// set off before the line is there.
type Mark struct {
	Wall  int         // of the floor
	From  int         // the corner that Along counts from
	Along unit.Length // the place on the wall
	Off   unit.Length
	Pull  geom.Line // from the wall to the line
}

// Square is the triangle of 3, 4 and 5 by which the second line is squared off the first.
type Square struct {
	OnRows, OnCross, Between unit.Length
	At                       [3]geom.Point // the crossing, on the first line, on the second
	Towards                  [2]int        // the walls that the legs along the two lines run to
	Right, Away              bool          // which way they run in the frame of the grid
	Fourth                   *geom.Point   // the fourth corner of the rectangle, where there is room: both diagonals are Between
}

// Find is where to snap: at the whole tile nearest to the middle from which both lines can be
// measured and squared. ok is false where no such tile is found.
func Find(f Floor, g tiling.Grid, l *tiling.Layout, middle geom.Point) (s Start, ok bool) {
	turn := geom.Placement{Turn: -g.Angle}
	v := view{walls: turn.Polygon(f.Walls), back: geom.Placement{Turn: g.Angle}, unit: 100}
	if f.Inches {
		v.unit = 4 * 25.4
	}
	for _, o := range f.Openings {
		v.openings = append(v.openings, turn.Polygon(o))
	}
	spots := slices.DeleteFunc(slices.Clone(l.Whole), func(s tiling.Spot) bool { return s.Standing })
	far := func(s tiling.Spot) unit.Length { return g.Tile(s, l.Shift).Min.Distance(middle) }
	slices.SortStableFunc(spots, func(a, b tiling.Spot) int { return cmp.Compare(far(a), far(b)) })
	const most = 60
	best := unit.Length(0)
	for _, spot := range spots[:min(most, len(spots))] {
		o := g.Tile(spot, l.Shift).Min
		rows, ok1 := v.line(o, false)
		cross, ok2 := v.line(o, true)
		square, ok3 := v.square(o)
		if ok1 && ok2 && ok3 && square.Between > best*1.2 {
			s, ok, best = Start{spot, rows, cross, square}, true, square.Between
		}
		if best >= 5*v.unit*3 {
			break
		}
	}
	return s, ok
}

// view is a floor in the frame of its grid.
type view struct {
	walls    geom.Polygon
	openings []geom.Polygon
	back     geom.Placement
	unit     unit.Length // a fifth of the shortest triangle's long side
}

// free says whether a pull from one place of the floor to another crosses no wall and no
// opening; both may lie on a wall.
func (v view) free(from, to geom.Point) bool {
	l := geom.Line{From: from, To: to}
	if !v.walls.Has(l.At(0.5)) {
		return false
	}
	for _, ring := range append([]geom.Polygon{v.walls}, v.openings...) {
		for i := range ring {
			if properly(l, ring.Edge(i)) {
				return false
			}
		}
	}
	for _, o := range v.openings {
		if o.Has(l.At(0.5)) || o.Has(to) || o.Has(from) {
			return false
		}
	}
	return true
}

// properly says whether two lines cross within both, by more than a touch.
func properly(l, m geom.Line) bool {
	a, b, c, d := geom.VectorOf(l.From), geom.VectorOf(l.To), geom.VectorOf(m.From), geom.VectorOf(m.To)
	side := func(p, q, r geom.Vector) float64 { return geom.Side(p, q, r) / max(p.To(q), 1e-9) }
	const touch = 0.01
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 &&
		min(math.Abs(side(c, d, a)), math.Abs(side(c, d, b))) > touch && min(math.Abs(side(a, b, c)), math.Abs(side(a, b, d))) > touch
}

// run is a line through a place, level or upright, from wall to wall.
func (v view) run(o geom.Point, upright bool) geom.Line {
	way := geom.Point{X: 1}
	if upright {
		way = geom.Point{Y: 1}
	}
	reach := func(sign float64) geom.Point {
		least := math.Inf(1)
		for _, ring := range append([]geom.Polygon{v.walls}, v.openings...) {
			for i := range ring {
				e := ring.Edge(i)
				d, w := geom.VectorOf(e.To.Minus(e.From)), geom.VectorOf(way.Times(sign))
				cross := w.Cross(d)
				if math.Abs(cross) < 1e-9 {
					continue
				}
				from := geom.VectorOf(e.From.Minus(o))
				t, s := from.Cross(d)/cross, from.Cross(w)/cross
				if t > 1e-6 && s >= -1e-9 && s <= 1+1e-9 {
					least = min(least, t)
				}
			}
		}
		if math.IsInf(least, 1) {
			return o
		}
		return o.Plus(way.Times(sign * least))
	}
	return geom.Line{From: reach(-1), To: reach(1)}
}

// Limits of where a line is measured from.
const (
	closest  unit.Length = 60               // a tape wants some length
	steepest             = 30 * unit.Degree // of the wall to the line
	leaning              = 5 * unit.Degree  // from here on it leans
)

// line is a line through a place with its two distances: from the wall that gives them
// furthest apart.
func (v view) line(o geom.Point, upright bool) (l Line, ok bool) {
	run := v.run(o, upright)
	l = Line{At: o.Y, Run: v.back.Line(run)}
	if upright {
		l.At = o.X
	}
	apart := unit.Length(0)
	for w := range v.walls {
		wall := v.walls.Edge(w)
		lean := math.Abs(math.Remainder(float64(wall.Direction()-run.Direction()), math.Pi))
		if unit.Angle(lean) > steepest {
			continue
		}
		first, ok1 := v.mark(w, run, false)
		second, ok2 := v.mark(w, run, true)
		if !ok1 || !ok2 {
			continue
		}
		d := first.Pull.From.Distance(second.Pull.From)
		if unit.Angle(lean) > leaning { // the further it leans, the less a place along it is sure
			d /= 3
		}
		if d > apart*1.05 {
			apart, ok = d, true
			l.Marks = [2]Mark{first, second}
		}
	}
	if !ok {
		return l, false
	}
	a, b := l.Marks[0], l.Marks[1]
	l.Slant = b.Off - a.Off
	return l, true
}

// mark is the place nearest to one end of a wall from which the line is reached square off
// the wall, at a round distance from that end; told from the wall's first corner.
func (v view) mark(w int, run geom.Line, last bool) (Mark, bool) {
	wall := v.walls.Edge(w)
	long := wall.Length()
	step := v.unit / 2
	way := geom.VectorOf(run.To.Minus(run.From))
	if way.Size() == 0 {
		return Mark{}, false
	}
	way = way.Unit()
	in := geom.VectorOf(wall.To.Minus(wall.From)).Unit().Left() // walls run counter-clockwise
	sink := in.Dot(way.Left())
	const clear, more = 4, 40 // steps clear of the corner, where there is room
	for i := range more {
		k := (i+clear-1)%more + 1
		along := unit.Length(k) * step
		if along >= long*0.45 {
			continue
		}
		if last {
			along = unit.Length(math.Floor(float64((long-along)/step))) * step
		}
		at := wall.At(float64(along / long))
		off := -geom.VectorOf(at.Minus(run.From)).Dot(way.Left()) / sink
		foot := at.Plus(in.Times(off).Point())
		onRun := geom.VectorOf(foot.Minus(run.From)).Dot(way)
		if off < 0 || onRun < 0 || onRun > float64(run.Length()) || at.Distance(foot) < closest || !v.free(at, foot) {
			continue
		}
		return Mark{Wall: w, From: w, Along: along, Off: at.Distance(foot), Pull: v.back.Line(geom.Line{From: at, To: foot})}, true
	}
	return Mark{}, false
}

// square is the largest triangle of 3, 4 and 5 at a place with its legs along the grid
// that lies free, with its rectangle rather than without.
func (v view) square(o geom.Point) (s Square, ok bool) {
	const most = 10
	for k := most; k >= 2; k-- {
		var plain *Square
		for _, legs := range [2][2]float64{{4, 3}, {3, 4}} {
			for quarter := range 4 {
				x := legs[0] * float64(k) * float64(v.unit) * float64(1-quarter%2*2)
				y := legs[1] * float64(k) * float64(v.unit) * float64(1-quarter/2*2)
				a, b, c := o.Plus(geom.Point{X: unit.Length(x)}), o.Plus(geom.Point{Y: unit.Length(y)}), o.Plus(geom.Point{X: unit.Length(x), Y: unit.Length(y)})
				if !v.free(o, a) || !v.free(o, b) || !v.free(a, b) {
					continue
				}
				one := Square{OnRows: unit.Length(math.Abs(x)), OnCross: unit.Length(math.Abs(y)), Between: 5 * unit.Length(k) * v.unit,
					Towards: [2]int{v.ahead(o, a), v.ahead(o, b)}, Right: x > 0, Away: y > 0,
					At: [3]geom.Point{v.back.Apply(o), v.back.Apply(a), v.back.Apply(b)}}
				if v.free(a, c) && v.free(b, c) && v.free(o, c) {
					fourth := v.back.Apply(c)
					one.Fourth = &fourth
					return one, true
				}
				if plain == nil {
					plain = &one
				}
			}
		}
		if plain != nil {
			return *plain, true
		}
	}
	return s, false
}

// ahead is the first wall that is met on the way from one place to another and on.
func (v view) ahead(from, to geom.Point) (wall int) {
	way, least := geom.VectorOf(to.Minus(from)), math.Inf(1)
	for i := range v.walls {
		e := v.walls.Edge(i)
		d, at := geom.VectorOf(e.To.Minus(e.From)), geom.VectorOf(e.From.Minus(from))
		cross := way.Cross(d)
		if math.Abs(cross) < 1e-9 {
			continue
		}
		if t, s := at.Cross(d)/cross, at.Cross(way)/cross; t > 0 && t < least && s >= -1e-9 && s <= 1+1e-9 {
			wall, least = i, t
		}
	}
	return wall
}
