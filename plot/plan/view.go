package plan

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// Scales a plan is drawn at, after ISO 5455 (from memory), the largest first.
// 1:1000 is for small paper, where 100 m at 1:500 do not fit.
var Scales = []int{5, 10, 20, 50, 100, 200, 500, 1000}

// Sizes on paper.
const (
	cornerPeg unit.Length = 1.3 // radius of the circle round a corner
	markPeg   unit.Length = 0.9 // and of other pegs
	tick      unit.Length = 1.6 // half of a tick across a side at its middle
	arcReach  unit.Length = 9   // of an arc to each side of the crossing
	pastFoot  unit.Length = 4   // of an extended baseline beyond the last foot
	signed    unit.Length = 8   // a line this long has room for the sign of a right angle
	signSize  unit.Length = 2.2
	boardHalf unit.Length = 0.5 // half of a profile board's thickness as drawn
	stakeHalf unit.Length = 0.7 // and of its stakes
)

// Drawn is a plan at a scale, on paper in mm, with the baseline's left end at
// the origin.
type Drawn struct {
	Scale    int
	Ops      draw.Drawing
	Bounds   geom.Rect
	enlarged float64            // of the ellipses over the scale; 0: none drawn
	crowds   []cluster          // where names stand in details; see Plan.Details
	inRun    map[geom.Name]bool // names that the running figures give
	untold   []string           // lengths that found no place: they stand in the tables alone
}

// Draw draws the plan 1:scale. Labels never lie on each other, and every name is
// on the plan or left to a detail.
func (p Plan) Draw(scale int, r draw.Ruler) Drawn {
	v := p.view(scale, r)
	v.settleRunning()
	if p.Details {
		v.crowds = v.crowded()
	}
	// A name that finds no place makes a detail of where it is, or a larger one.
	for round := 0; ; round++ {
		v.lastResort = !p.Details || round == 7
		v.all()
		if v.lastResort || len(v.unnamed) == 0 {
			break
		}
		v.gather()
	}
	return Drawn{Scale: scale, Ops: v.ops, Bounds: v.bounds, enlarged: v.enlarged, crowds: v.crowds, inRun: v.inRun, untold: append(v.untold, v.leftOut...)}
}

// Crowded says whether pegs crowd: details then follow, see DetailsOf.
func (d Drawn) Crowded() bool { return len(d.crowds) > 0 }

// view is a Plan being drawn on paper: the plan, or a detail of it.
type view struct {
	Plan
	*scene
	k          float64 // paper over ground
	at         map[geom.Name]geom.Point
	shown      []Peg              // the pegs in it
	in         *disc              // what is seen of a detail; nil: the plan
	crowds     []cluster          // their members' names stand in details
	member     map[geom.Name]bool // of any of them
	forced     map[geom.Name]bool // named by all means
	lines      []drawnLine        // what runs from peg to peg, and the baseline
	drawn      map[[4]int]bool    // the ends of these
	enlarged   float64
	dims       []runMark // the running dimensions that there is room for
	runSize    runSize
	inRun      map[geom.Name]bool // the names that these have
	leftOut    []string           // the figures that have no room
	lastResort bool               // names may be led over letters
	onlyWhole  bool               // no more is lettered once a name has no place
	unnamed    []geom.Name
	untold     []string
}

// drawnLine is a line between two marks and the operation that draws it; −1 where
// others are drawn with it.
type drawnLine struct {
	geom.Line
	op, number int
}

func (p Plan) view(scale int, r draw.Ruler) *view {
	v := &view{Plan: p, scene: newScene(r), k: 1 / float64(scale), at: map[geom.Name]geom.Point{}, forced: map[geom.Name]bool{}}
	v.begin()
	v.shown = slices.Clone(p.Pegs)
	for i, peg := range v.shown {
		v.shown[i].At = peg.At.Times(v.k)
		if peg.Name != "" {
			v.at[peg.Name] = v.shown[i].At
		}
	}
	return v
}

// begin is an empty drawing.
func (v *view) begin() {
	v.scene = newScene(v.r)
	v.lines, v.unnamed, v.untold = nil, nil, nil
	v.member, v.drawn = map[geom.Name]bool{}, map[[4]int]bool{}
	for _, c := range v.crowds {
		for _, n := range c.names {
			v.member[n] = true
		}
	}
}

// all draws everything, anew.
func (v *view) all() {
	v.begin()
	v.work()
	v.ellipses()
	v.ringCrowds()
	v.moves()
	v.running()
	v.nameCrowds()
	v.labels()
	v.north()
	v.notes()
}

// mostLines is how many lines between pegs may be on a plan: more are a tangle in
// which nothing can be found.
const mostLines = 120

// drawnSides are the sides that the plan shows: the edges alone where there are
// too many others.
func (v *view) drawnSides() []Side {
	if len(v.Sides) <= mostLines {
		return v.Sides
	}
	return slices.DeleteFunc(slices.Clone(v.Sides), func(s Side) bool { return v.edgeHand(s) == 0 })
}

// outline of the piece on paper, counter-clockwise.
func (v *view) outline() geom.Polygon {
	var out geom.Polygon
	for _, n := range v.Edge {
		if p, ok := v.at[n]; ok {
			out = append(out, p)
		}
	}
	return out
}

// work draws the lines and the pegs.
func (v *view) work() {
	v.baseline()
	if out := v.outline(); len(out) > 2 {
		v.closed(out, draw.Wide, draw.Outline)
		for i := range out {
			v.remember(out.Edge(i), -1, place.NoLine)
		}
	}
	for _, s := range v.Strokes {
		if s.Kind == OffsetTo {
			v.between(s.From.Times(v.k), s.To.Times(v.k), draw.Centre)
		}
	}
	for _, peg := range v.shown {
		v.mark(peg)
	}
	for _, s := range v.Strokes {
		v.stroke(s.Kind, s.From.Times(v.k), s.To.Times(v.k))
	}
	for _, s := range v.drawnSides() {
		from, ok := v.at[s.From]
		to, also := v.at[s.To]
		if ok && also {
			v.between(from, to, draw.Narrow)
		}
	}
}

// baseline draws it where it is no edge, and as far beyond its ends as there are
// feet.
func (v *view) baseline() {
	left, ok := v.at[v.Base[0]]
	right, also := v.at[v.Base[1]]
	if !ok || !also {
		return
	}
	edge := false
	for i, n := range v.Edge {
		next := v.Edge[(i+1)%len(v.Edge)]
		edge = edge || n == v.Base[0] && next == v.Base[1] || n == v.Base[1] && next == v.Base[0]
	}
	if !edge {
		v.between(left, right, draw.Centre)
	}
	first, last := left.X, right.X
	reach := func(p geom.Point) {
		if math.Abs(float64(p.Y)) < onLine {
			first, last = min(first, p.X), max(last, p.X)
		}
	}
	for _, peg := range v.shown {
		reach(peg.At)
	}
	for _, s := range v.Strokes {
		if s.Kind == OffsetTo {
			reach(s.From.Times(v.k))
		}
	}
	if first < left.X {
		v.seen(left, geom.Point{X: first - pastFoot}, draw.Narrow)
	}
	if last > right.X {
		v.seen(right, geom.Point{X: last + pastFoot}, draw.Narrow)
	}
}

// onLine is how near a mark is drawn to a line that it lies on, on paper.
const onLine = 0.01

// between draws a line between two marks unless there is one.
func (v *view) between(a, b geom.Point, pen draw.Pen) {
	if !v.drawn[ends(a, b)] {
		v.seen(a, b, pen)
		v.remember(geom.Line{From: a, To: b}, len(v.ops)-1, v.last)
	}
}

func (v *view) remember(l geom.Line, op, number int) {
	v.lines = append(v.lines, drawnLine{l, op, number})
	v.drawn[ends(l.From, l.To)], v.drawn[ends(l.To, l.From)] = true, true
}

// ends of a line, to tell two lines apart.
func ends(a, b geom.Point) [4]int {
	at := func(l unit.Length) int { return int(math.Round(float64(l) / onLine)) }
	return [4]int{at(a.X), at(a.Y), at(b.X), at(b.Y)}
}

// mark draws a peg.
func (v *view) mark(peg Peg) {
	at := peg.At
	switch {
	case v.in != nil && !v.in.has(at):
		return
	case peg.Role == Midpoint:
		across := v.lineAt(at) + unit.Turn/4
		v.seen(at.Toward(across, tick), at.Toward(across, -tick), draw.Narrow)
	case peg.Role == Corner:
		v.circle(at, cornerPeg, draw.Narrow, draw.Construction)
	default:
		v.circle(at, markPeg, draw.Narrow, draw.Construction)
	}
	if peg.Also {
		v.seen(geom.Point{X: at.X, Y: tick}, geom.Point{X: at.X, Y: -tick}, draw.Narrow)
	}
}

// lineAt is the direction of the line that a mark lies on: of the baseline where
// it lies on none.
func (v *view) lineAt(at geom.Point) unit.Angle {
	for _, l := range v.lines {
		if l.Line.Distance(at) < onLine {
			return l.Direction()
		}
	}
	return 0
}

func (v *view) stroke(kind Kind, from, to geom.Point) {
	l := geom.Line{From: from, To: to}
	dir, length := l.Direction(), l.Length()
	switch kind {
	case ArcTo:
		if length > 0 {
			half := min(15*unit.Degree, unit.Angle(arcReach/length))
			v.swing(geom.Arc{Centre: from, Radius: length, Start: dir - half, Sweep: 2 * half})
		}
	case SightTo, SquareLeg:
		v.between(from, to, draw.Narrow)
	case StringLine:
		v.seen(from, to, draw.Behind)
	case Board:
		across := dir + unit.Turn/4
		for _, d := range []unit.Length{boardHalf, -boardHalf} {
			v.seen(from.Toward(across, d), to.Toward(across, d), draw.Narrow)
		}
		for _, end := range []geom.Point{from, to} {
			if v.in == nil || v.in.has(end) {
				v.solid(geom.Polygon{
					end.Toward(dir, -stakeHalf).Toward(across, -stakeHalf), end.Toward(dir, stakeHalf).Toward(across, -stakeHalf),
					end.Toward(dir, stakeHalf).Toward(across, stakeHalf), end.Toward(dir, -stakeHalf).Toward(across, stakeHalf),
				}, draw.Construction)
			}
		}
	case RightAngle:
		x, y := signSize, signSize
		if to.X < from.X {
			x = -x
		}
		if to.Y < from.Y {
			y = -y
		}
		if math.Abs(float64(to.Y-from.Y)) > float64(signed) {
			at := geom.Point{X: from.X + x, Y: from.Y + y}
			v.seen(geom.Point{X: at.X, Y: from.Y}, at, draw.Narrow)
			v.seen(at, geom.Point{X: from.X, Y: at.Y}, draw.Narrow)
		}
	}
}
