package template

import (
	"strings"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// shaped says whether anything is done to the piece beyond its outline.
func (p Piece) shaped() bool { return len(p.Shape.Sides) > 0 }

// treated says whether a corner is cut or rounded.
func (p Piece) treated() bool {
	for _, v := range p.Shape.Corners {
		if v.Finished != nil {
			return true
		}
	}
	return false
}

// corners of the piece in the plane of the sheets, where its finished edges cross:
// what the plan holds may be more than that.
func (p Piece) corners(plan paging.Plan) geom.Polygon {
	if !p.shaped() {
		return plan.Outline
	}
	return plan.Place.Polygon(p.Outline().Points)
}

// Measures says in a few words what the figures of a shaped piece measure and which
// line is which; nothing where there is but one line.
func (p Piece) Measures() string {
	switch spared, treated := p.shaped() && p.Shape.Spared(), p.treated(); {
	case spared && treated:
		return "cut the wide line: plain figures, to ticks and set-backs; finished: dash-dotted, to whole corners"
	case spared:
		return "cut the wide line: plain figures; finished: the dash-dotted edge"
	case treated:
		return "plain figures: to corners, ticks and set-backs; whole: to the whole corners"
	}
	return ""
}

// otherFigure is what the length of an edge is called beside that of the line that is
// cut: finished where the cut line lies elsewhere, whole where only corners are taken
// off; nothing where both are the same.
func (p Piece) otherFigure() string {
	switch {
	case !p.shaped():
		return ""
	case p.Shape.Spared():
		return "finished"
	case p.treated():
		return "whole"
	}
	return ""
}

// upTo says how far a side of the line that is cut goes.
func (p Piece) upTo() string {
	if p.treated() {
		return ", up to its corners, set-backs and ticks"
	}
	return ""
}

// edgeFigure is the length of side i on the line that is cut, as the paper shows it.
func (p Piece) edgeFigure(i int, s Style) string {
	d := p.side(i)
	if d.length <= 0 { // nothing straight is left
		d.length, d.measured = d.whole, true
	}
	return s.length(d.length, d.measured)
}

// besideFigure is what is said of side i besides: the length of its finished edge, where
// that is another, and its allowance.
func (p Piece) besideFigure(i int, s Style) string {
	var say []string
	o, d, side := p.Outline(), p.side(i), p.Shape.Sides[i]
	if max(d.length-d.whole, d.whole-d.length) > sameLength {
		say = append(say, p.otherFigure()+" "+s.length(d.whole, p.measured(triangle.Distance, o.Names[i], o.Names[o.Next(i)])))
	}
	if side.Allow != 0 {
		say = append(say, s.signed(side.Allow))
	}
	return strings.Join(say, ", ")
}

// marked is what is said of the piece as a whole: face, grain, hand.
func (p Piece) marked() string {
	var say []string
	for _, w := range []string{p.Hand, p.Face} {
		if w != "" {
			say = append(say, w)
		}
	}
	if p.Grain != ([2]geom.Name{}) {
		say = append(say, "grain along "+string(p.Grain[0]+p.Grain[1]))
	}
	return strings.Join(say, ", ")
}

// drawOutline draws what is cut and, where that is another line, what is left of it
// when it is finished.
func (f *face) drawOutline() {
	if !f.piece.shaped() {
		f.scene.add(draw.Polyline{Points: f.outline, Closed: true, Pen: draw.Wide, On: draw.Outline})
		return
	}
	s, m := f.piece.Shape, f.plan.Place
	f.scene.add(draw.Path{Segments: m.Contour(s.Cut), Closed: true, Pen: draw.Wide, On: draw.Outline})
	for _, run := range apart(s.Finished, s.Cut) {
		f.scene.add(draw.Path{Segments: m.Contour(run), Closed: len(run) == len(s.Finished), Pen: draw.Behind, On: draw.Outline})
	}
	for _, v := range s.Corners {
		if v.Finished == nil {
			continue
		}
		for _, end := range []geom.Point{v.Finished.At(0), v.Finished.At(1)} {
			f.scene.add(draw.Line{Line: m.Line(geom.Line{From: end, To: v.At}), Pen: draw.Fine, On: draw.Construction})
		}
	}
	f.drawTicks()
	for _, b := range s.Bores {
		f.drawBore(b)
	}
}

// toTick is half of a tick across the outline.
const toTick unit.Length = 1.5

// drawTicks marks where arcs touch the edges, which nobody sees otherwise.
func (f *face) drawTicks() {
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
				f.scene.add(draw.Line{Line: f.plan.Place.Line(l), Pen: draw.Fine, On: draw.Marks})
			}
		}
	}
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

// lost is how far from corner i the piece begins along its edges.
func (f *face) lost(i int) unit.Length {
	if !f.piece.shaped() || f.piece.Shape.Corners[i].Finished == nil {
		return 0
	}
	v := f.piece.Shape.Corners[i]
	return v.At.Distance(v.Finished.At(0))
}

// drawBore draws a hole with the centre lines and the lines of its two distances.
func (f *face) drawBore(b shape.Bore) {
	c := f.plan.Place.Arc(b.Circle)
	c.Start = 0 // its seam is nothing to see; a level start is steadier to cut
	f.scene.add(draw.Arc{Arc: c, Pen: draw.Wide, On: draw.Outline})
	for k := range 2 {
		a := unit.Turn / 4 * unit.Angle(k)
		r := c.Radius + boreCross
		f.scene.add(draw.Line{Line: geom.Line{From: c.Centre.Toward(a, -r), To: c.Centre.Toward(a, r)}, Pen: draw.Narrow, On: draw.Marks})
	}
	for _, w := range f.ways(b) {
		if w.line.Length() > 0 && !w.along {
			f.scene.add(draw.Line{Line: w.line, Pen: draw.Fine, On: draw.Dimension})
		}
	}
}

// way is one of the two distances of a hole, and what is said of it.
type way struct {
	line  geom.Line // in the plane of the sheets, up to the rim
	along bool      // it runs along an edge, which is drawn already
	say   string
}

func (f *face) ways(b shape.Bore) []way {
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
func (f *face) start(n geom.Name, to geom.Point) mark {
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
func (f *face) from(m mark, to geom.Point, given unit.Length) string {
	if d := m.at.Distance(to); max(d-given, given-d) > sameLength {
		return f.style.length(d, false) + " from " + m.name
	}
	return f.style.length(given, true) + " from " + m.name
}

// pricks says whether a page shows the mark at a place of the piece whole.
func (f *face) pricks(p geom.Point) bool {
	at := f.plan.Place.Apply(p)
	for _, w := range f.plan.Windows() {
		if w.Grow(-prick).Has(at) {
			return true
		}
	}
	return false
}

// corner is where a corner lies in the piece's own coordinates.
func (f *face) corner(n geom.Name) geom.Point {
	if i, ok := f.corners.Corner(n); ok {
		return f.corners.Points[i]
	}
	return geom.Point{}
}
