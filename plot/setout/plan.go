package setout

import (
	"math"
	"sort"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// scales a plan is drawn at, after ISO 5455 (from memory), the largest first.
// 1:1000 is for small paper, where 100 m at 1:500 do not fit.
var scales = []int{5, 10, 20, 50, 100, 200, 500, 1000}

// Sizes on paper.
const (
	cornerPeg  unit.Length = 1.3 // radius of the circle round a corner
	markPeg    unit.Length = 0.9 // and of other pegs
	tick       unit.Length = 1.6 // half of a tick across a side at its middle
	arcReach   unit.Length = 9   // of an arc to each side of the crossing
	runLine    unit.Length = 9   // running dimension line, below the baseline
	runFigures unit.Length = 13.5
	runPitch   unit.Length = 6.8 // least distance of the figures: 3.5 high, a third of that below, 2 apart
)

// plan is the plan at a scale, on paper in mm, with corner 0 at the origin.
type plan struct {
	scale  int
	ops    draw.Drawing
	bounds geom.Rect
}

// drawPlan draws the plan 1:scale.
func (s Sheet) drawPlan(scale int, r draw.Ruler) plan {
	k := 1 / float64(scale)
	c := &scene{r: r}
	on := func(p geom.Point) geom.Point { return p.Times(k) }
	var p [3]geom.Point
	for i := range p {
		p[i] = on(s.Triangle.Points[i])
	}
	s.planStrokes(c, p, k)
	s.planRunning(c, p, k)
	s.planLabels(c, p, k)
	s.planNorth(c)
	out := plan{scale: scale, ops: c.ops, bounds: c.ops[0].Bounds(r)}
	for _, op := range c.ops {
		out.bounds = out.bounds.Join(op.Bounds(r))
	}
	return out
}

func (s Sheet) planStrokes(c *scene, p [3]geom.Point, k float64) {
	foot := geom.Point{X: p[2].X}
	if s.Square.Past > 0 {
		end := p[1]
		past := foot.X + 4
		if foot.X < 0 {
			end, past = p[0], foot.X-4
		}
		c.line(end, geom.Point{X: past}, draw.Narrow, draw.Construction)
	}
	c.polygon(p[:], draw.Wide, draw.Outline)
	onEnd := s.Square.At == s.Triangle.Names[0] || s.Square.At == s.Triangle.Names[1]
	if !onEnd {
		c.line(foot, p[2], draw.Centre, draw.Construction)
	}
	for _, peg := range s.Pegs {
		at := peg.At.Times(k)
		switch peg.Role {
		case Corner:
			c.circle(at, cornerPeg, draw.Narrow, draw.Construction)
		case Middle:
			across := unit.Turn / 4
			if peg.Offset > 0 {
				end := p[0]
				if peg.Of[0] == s.Triangle.Names[1] {
					end = p[1]
				}
				across += geom.Line{From: end, To: p[2]}.Direction()
			}
			c.line(at.Toward(across, tick), at.Toward(across, -tick), draw.Narrow, draw.Construction)
		default:
			c.circle(at, markPeg, draw.Narrow, draw.Construction)
		}
		if peg.Also {
			c.line(geom.Point{X: at.X, Y: tick}, geom.Point{X: at.X, Y: -tick}, draw.Narrow, draw.Construction)
		}
	}
	// The sign of a right angle, where there is room, away from the 3-4-5; inside
	// where the right angle is the triangle's own.
	if p[2].Y > 8 {
		away := unit.Length(2.2)
		if (s.Square.Toward == s.Triangle.Names[1]) != onEnd {
			away = -away
		}
		at := geom.Point{X: foot.X + away, Y: 2.2}
		c.line(geom.Point{X: at.X}, at, draw.Narrow, draw.Construction)
		c.line(at, geom.Point{X: foot.X, Y: at.Y}, draw.Narrow, draw.Construction)
	}
	leg, _ := s.Peg(s.Square.Leg)
	top, _ := s.Peg(s.Square.Top)
	c.line(leg.At.Times(k), top.At.Times(k), draw.Narrow, draw.Construction)
	for i, end := range []geom.Point{p[0], p[1]} {
		radius := s.Triangle.Sides[1-i] * unit.Length(k)
		half := min(15*unit.Degree, unit.Angle(arcReach/radius))
		c.arc(geom.Arc{Centre: end, Radius: radius, Start: geom.Line{From: end, To: p[2]}.Direction() - half, Sweep: 2 * half}, draw.Narrow, draw.Construction)
	}
}

// planRunning draws the running dimensions below the baseline: one line from
// zero, a tick and a figure for every mark, the figures spread where they crowd.
func (s Sheet) planRunning(c *scene, p [3]geom.Point, k float64) {
	type mark struct {
		x     unit.Length
		words string
	}
	var marks []mark
	for _, peg := range s.Pegs {
		if peg.Offset != 0 || peg.At.Y != 0 {
			continue
		}
		words := string(peg.Name) + "  " + s.told(peg.Along, peg.Along == 0 || peg.Role == Corner && s.Baseline.Measured)
		marks = append(marks, mark{x: peg.At.X * unit.Length(k), words: words})
	}
	sort.SliceStable(marks, func(i, j int) bool { return marks[i].x < marks[j].x })
	at := make([]unit.Length, len(marks))
	for i := range marks {
		at[i] = marks[i].x
	}
	spread(at, runPitch)
	first, last := marks[0].x, marks[len(marks)-1].x
	c.line(geom.Point{X: first, Y: -runLine}, geom.Point{X: last, Y: -runLine}, draw.Narrow, draw.Dimension)
	zero := p[s.Baseline.Zero].X
	for i, m := range marks {
		top := -cornerPeg - 1
		c.line(geom.Point{X: m.x, Y: top}, geom.Point{X: m.x, Y: -runLine - 1}, draw.Narrow, draw.Dimension)
		if m.x == zero {
			c.circle(geom.Point{X: m.x, Y: -runLine}, 0.8, draw.Narrow, draw.Dimension)
		} else {
			// The oblique stroke of ISO 129.
			c.line(geom.Point{X: m.x - 1, Y: -runLine - 1}, geom.Point{X: m.x + 1, Y: -runLine + 1}, draw.Narrow, draw.Dimension)
		}
		c.line(geom.Point{X: m.x, Y: -runLine - 1}, geom.Point{X: at[i], Y: -runFigures + 1}, draw.Narrow, draw.Dimension)
		c.text(draw.Text{At: geom.Point{X: at[i] + draw.FigureHeight/2, Y: -runFigures}, Height: draw.FigureHeight, Turn: unit.Turn / 4, Align: draw.Right, Words: m.words, On: draw.Dimension})
	}
}

// spread moves sorted places apart until no two are nearer than pitch, each as
// little as can be: groups that touch share their shift (pool adjacent violators).
func spread(at []unit.Length, pitch unit.Length) {
	type group struct {
		sum   unit.Length // of the places, each less its rank times pitch
		first int
		n     int
	}
	var gs []group
	mean := func(g group) unit.Length { return g.sum / unit.Length(g.n) }
	for i, x := range at {
		gs = append(gs, group{x - unit.Length(i)*pitch, i, 1})
		for len(gs) > 1 && mean(gs[len(gs)-2]) > mean(gs[len(gs)-1]) {
			a, b := gs[len(gs)-2], gs[len(gs)-1]
			gs = append(gs[:len(gs)-2], group{a.sum + b.sum, a.first, a.n + b.n})
		}
	}
	for _, g := range gs {
		for i := g.first; i < g.first+g.n; i++ {
			if g.n > 1 {
				at[i] = mean(g) + unit.Length(i)*pitch
			}
		}
	}
}

func (s Sheet) planLabels(c *scene, p [3]geom.Point, k float64) {
	const h = draw.FigureHeight
	// Corner letters outside, on the bisector.
	for i, name := range s.Triangle.Names {
		a, b := p[(i+1)%3], p[(i+2)%3]
		ua := geom.Line{From: a, To: p[i]}.Direction()
		ub := geom.Line{From: b, To: p[i]}.Direction()
		out := middle(ua, ub)
		// Rather 1 mm further out than 7° off the bisector.
		var places []spot
		for cost := 6.0; cost < 34; cost++ {
			for turn := 0.0; turn <= 119; turn += 7 {
				if d := unit.Length(cost - turn/7); d >= 6 && d <= 13 {
					places = append(places, spot{p[i].Toward(out+unit.Angle(turn)*unit.Degree, d), 0}, spot{p[i].Toward(out-unit.Angle(turn)*unit.Degree, d), 0})
				}
			}
		}
		c.label(label{words: string(name), height: draw.CornerHeight, bold: true, on: draw.Dimension, anchor: p[i]}, places)
	}
	s.planMarks(c, k, false)
	// Sides to the apex, outside, along them.
	for i := range 2 {
		end := geom.Line{From: p[0], To: p[2]}
		length, other := s.Triangle.Sides[1], s.Triangle.Names[0]
		if i == 1 {
			end = geom.Line{From: p[2], To: p[1]}
			length, other = s.Triangle.Sides[0], s.Triangle.Names[1]
		}
		c.label(label{words: s.told(length, s.fromSite(ForArc, other)), height: h, on: draw.Dimension, anchor: end.At(0.5)}, beside(end, h, unit.Turn/4))
	}
	// The baseline's own length is the last of the running figures: between two of
	// their marks it would read as the distance between those.
	if foot := s.Square.At; foot == s.Triangle.Names[0] || foot == s.Triangle.Names[1] {
		s.planMarks(c, k, true)
		return // the height is a side
	}
	height := geom.Line{From: geom.Point{X: p[2].X}, To: p[2]}
	c.label(label{words: s.told(s.Triangle.Heights[2], s.fromSite(ForHeight, s.Square.At)), height: h, on: draw.Dimension, anchor: height.At(0.5)},
		append(beside(height, h, unit.Turn/4), beside(height, h, -unit.Turn/4)...))
	s.planMarks(c, k, true)
}

// planMarks letters the marks on the baseline, or all others.
func (s Sheet) planMarks(c *scene, k float64, onBaseline bool) {
	for _, peg := range s.Pegs {
		if peg.Role == Corner || onBaseline != (peg.At.Y == 0) {
			continue
		}
		at := peg.At.Times(k)
		// Inward of a side, which leaves its length the room outside; else to the
		// right and a little down, away from lines that stand upright.
		first := -45 * unit.Degree
		if peg.Role == Middle && !onBaseline {
			first = geom.Line{From: peg.At, To: geom.Line{From: s.Triangle.Points[0], To: s.Triangle.Points[1]}.At(0.5)}.Direction()
		}
		var places []spot
		for _, d := range []unit.Length{4, 5, 6} {
			for _, deg := range []unit.Angle{0, 30, -30, 60, -60, 90, -90, 120, -120, 150, -150, 180} {
				places = append(places, spot{at.Toward(first+deg*unit.Degree, d), 0})
			}
		}
		// The running figures name the marks on the baseline as well.
		c.label(label{words: string(peg.Name), height: draw.FigureHeight, bold: true, on: draw.Dimension, anchor: at, optional: onBaseline}, places)
	}
}

// beside are places along a line, on its left (out = 90°) or right (−90°), the
// middle first; the words read from below or from the right.
func beside(l geom.Line, h unit.Length, out unit.Angle) []spot {
	dir := l.Direction()
	turn := dir
	// Readable from below or from the right: between −90° (not read) and +90°.
	for turn > unit.Turn/4+1e-9 {
		turn -= unit.Turn / 2
	}
	for turn <= -unit.Turn/4+1e-9 {
		turn += unit.Turn / 2
	}
	var places []spot
	for _, t := range []float64{0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88} {
		for _, off := range []unit.Length{2.2, 3.8} {
			places = append(places, spot{l.At(t).Toward(dir+out, off+h/2), turn})
		}
	}
	return places
}

// middle of two directions.
func middle(a, b unit.Angle) unit.Angle {
	return unit.Angle(math.Atan2(math.Sin(float64(a))+math.Sin(float64(b)), math.Cos(float64(a))+math.Cos(float64(b))))
}

// planNorth draws the reference arrow at the right of all that is drawn so far,
// or at its left.
func (s Sheet) planNorth(c *scene) {
	if s.North.Name == "" {
		return
	}
	b := c.ops[0].Bounds(c.r)
	for _, op := range c.ops {
		b = b.Join(op.Bounds(c.r))
	}
	const half = 8
	for _, centre := range []geom.Point{{X: b.Max.X - half, Y: b.Max.Y - half}, {X: b.Min.X + half, Y: b.Max.Y - half}, {X: b.Max.X + half + 4, Y: b.Max.Y - half}} {
		tail, tip := centre.Toward(s.North.Turn, -half), centre.Toward(s.North.Turn, half)
		sin, cos := math.Sincos(float64(s.North.Turn))
		reach := 2 + draw.FigureHeight/2*unit.Length(1+math.Abs(sin)) + c.r.Width(s.North.Name, draw.FigureHeight, false)/2*unit.Length(math.Abs(cos))
		name := label{words: s.North.Name, height: draw.FigureHeight, on: draw.Notes}.at(spot{at: tip.Toward(s.North.Turn, reach)})
		d := s.North.Turn
		wedge := []geom.Point{tip, tip.Toward(d, -5).Toward(d+unit.Turn/4, 1.5), tip.Toward(d, -5).Toward(d-unit.Turn/4, 1.5)}
		if strokes, labels := c.crossed(geom.Line{From: tail, To: tip}); strokes+labels > 0 || !c.free(name) {
			continue
		}
		c.line(tail, tip.Toward(d, -4), draw.Narrow, draw.Notes)
		c.ops = append(c.ops, draw.Polyline{Points: wedge, Closed: true, Solid: true, On: draw.Notes})
		for i := range wedge {
			c.strokes = append(c.strokes, geom.Polygon(wedge).Edge(i))
		}
		c.text(name)
		return
	}
}
