package template

import (
	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// drawOutline draws what is cut and, where that is another line, what is left of it
// when it is finished.
func (f *face) drawOutline() {
	if !f.piece.shaped() {
		f.scene.Add(draw.Polyline{Points: f.outline, Closed: true, Pen: draw.Wide, On: draw.Outline})
		return
	}
	s, m := f.piece.Shape, f.plan.Place
	f.scene.Add(draw.Path{Segments: m.Contour(s.Cut), Closed: true, Pen: draw.Wide, On: draw.Outline})
	for _, run := range apart(s.Finished, s.Cut) {
		f.scene.Add(draw.Path{Segments: m.Contour(run), Closed: len(run) == len(s.Finished), Pen: draw.Behind, On: draw.Outline})
	}
	for _, v := range s.Corners {
		if v.Finished == nil {
			continue
		}
		for _, end := range []geom.Point{v.Finished.At(0), v.Finished.At(1)} {
			f.scene.Add(draw.Line{Line: m.Line(geom.Line{From: end, To: v.At}), Pen: draw.Thin, On: draw.Construction})
		}
	}
	f.scene.Add(f.ticks()...)
	for _, b := range s.Bores {
		f.scene.Add(f.bore(b)...)
	}
}

// toTick is half of a tick across the outline.
const toTick unit.Length = 1.5

// ticks mark where arcs touch the edges, which nobody sees otherwise.
func (f onSheets) ticks() (ops []draw.Op) {
	var ticks []geom.Point
	for _, v := range f.piece.Shape.Corners {
		for _, s := range []geom.Segment{v.Cut, v.Finished} {
			arc, ok := s.(geom.Arc)
			if !ok {
				continue
			}
			for _, t := range []float64{0, 1} {
				at := arc.At(t)
				if nearest(ticks, at) < apartPricks {
					continue
				}
				ticks = append(ticks, at)
				out := geom.Line{From: arc.Centre, To: at}.Direction()
				l := geom.Line{From: at.Toward(out, -toTick), To: at.Toward(out, toTick)}
				ops = append(ops, draw.Line{Line: f.plan.Place.Line(l), Pen: draw.Thin, On: draw.Marks})
			}
		}
	}
	return ops
}

// apart is the runs of one contour that do not lie on another.
func apart(c, from geom.Contour) (runs [][]geom.Segment) {
	const same = 1e-6 // mm; far above rounding, far below what is seen
	on := func(s geom.Segment) bool {
		for _, t := range []float64{0, 0.25, 0.5, 0.75, 1} {
			if from.Distance(s.At(t)) > same {
				return false
			}
		}
		return true
	}
	// From after a segment that lies on it, so that no run is broken at the seam.
	first := 0
	for i, s := range c {
		if on(s) {
			first = i + 1
		}
	}
	open := false
	for i := range c {
		s := c[(first+i)%len(c)]
		switch {
		case on(s):
			open = false
		case open:
			runs[len(runs)-1] = append(runs[len(runs)-1], s)
		default:
			runs, open = append(runs, []geom.Segment{s}), true
		}
	}
	return runs
}

// boreCross is how far the centre lines of a hole run past its rim.
const boreCross unit.Length = 3

// bore is a hole with the centre lines and the lines of its two distances.
func (f onSheets) bore(b shape.Bore) []draw.Op {
	c := f.plan.Place.Arc(b.Circle)
	c.Start = 0 // its seam is nothing to see; a level start is steadier to cut
	ops := []draw.Op{draw.Arc{Arc: c, Pen: draw.Wide, On: draw.Outline}}
	for k := range 2 {
		a := unit.Turn / 4 * unit.Angle(k)
		r := c.Radius + boreCross
		ops = append(ops, draw.Line{Line: geom.Line{From: c.Centre.Toward(a, -r), To: c.Centre.Toward(a, r)}, Pen: draw.Narrow, On: draw.Marks})
	}
	for _, w := range f.ways(b) {
		if w.line.Length() > 0 && !w.along {
			ops = append(ops, draw.Line{Line: w.line, Pen: draw.Thin, On: draw.Dimension})
		}
	}
	return ops
}

// way is one of the two distances of a hole, and what is said of it.
type way struct {
	line  geom.Line // in the plane of the sheets, up to the rim
	along bool      // it runs along an edge, which is drawn already
	say   string
}

func (f onSheets) ways(b shape.Bore) []way {
	m, at := f.plan.Place, b.Circle.Centre
	rim := func(from geom.Point) geom.Line {
		l := geom.Line{From: from, To: at}
		d := l.Length()
		if d <= b.Circle.Radius {
			return geom.Line{From: m.Apply(from), To: m.Apply(from)}
		}
		return m.Line(geom.Line{From: from, To: l.At(float64((d - b.Circle.Radius) / d))})
	}
	figure := f.style.Figures.Length
	switch c := b.Hole.Centre.(type) {
	case shape.FromEdge:
		from := f.start(c.From, b.Foot)
		return []way{
			{line: rim(b.Foot), say: figure(c.Square) + " from " + string(c.Edge[0]+c.Edge[1])},
			{line: m.Line(geom.Line{From: from.at, To: b.Foot}), along: true, say: f.from(from, b.Foot, c.Along)},
		}
	case shape.FromCorners:
		var both []way
		for i, n := range c.Corners {
			from := f.start(n, at)
			both = append(both, way{line: rim(from.at), say: f.from(from, at, c.Arms[i])})
		}
		return both
	}
	return nil
}

// start is where a distance to a hole begins: the corner it was given from or, where
// that is cut off and lies off the sheet, the nearer end of what is done to it.
func (f onSheets) start(n geom.Name, to geom.Point) mark {
	corner := mark{f.corner(n), string(n)}
	i, _ := f.corners.Corner(n)
	done := f.piece.Shape.Corners[i].Finished
	if done == nil || f.pricks(corner.at) {
		return corner
	}
	what := "the set-back"
	if _, arc := done.(geom.Arc); arc {
		what = "the tick"
	}
	ends := []mark{
		{done.At(0), what + " of " + string(n) + " on " + f.corners.Side(f.corners.Before(i))},
		{done.At(1), what + " of " + string(n) + " on " + f.corners.Side(i)},
	}
	if ends[1].at.Distance(to) < ends[0].at.Distance(to) {
		return ends[1]
	}
	return ends[0]
}

// from says a distance as it was given, or computed from another mark.
func (f onSheets) from(m mark, to geom.Point, given unit.Length) string {
	if d := m.at.Distance(to); !same(d, given) {
		return f.style.length(d, false) + " from " + m.name
	}
	return f.style.length(given, true) + " from " + m.name
}
