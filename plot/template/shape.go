package template

import (
	"strings"

	"trammel/geom"
	"trammel/geom/shape"
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
	var say []string
	if p.shaped() && p.Shape.Spared() {
		say = append(say, "cut the wide line; figures are of the dash-dotted, finished edge")
	}
	if p.treated() {
		say = append(say, "lengths run to the whole corners")
	}
	return strings.Join(say, "; ")
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
	for _, b := range s.Bores {
		f.drawBore(b)
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
		f.scene.add(draw.Line{Line: geom.Line{From: c.Centre.Toward(a, -r), To: c.Centre.Toward(a, r)}, Pen: draw.Narrow, On: draw.Construction})
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
		return []way{
			{line: rim(b.Foot), say: figure(c.Square) + " from " + string(c.Edge[0]+c.Edge[1])},
			{line: m.Line(geom.Line{From: f.corner(c.From), To: b.Foot}), along: true, say: figure(c.Along) + " from " + string(c.From)},
		}
	case shape.FromCorners:
		return []way{
			{line: rim(f.corner(c.Corners[0])), say: figure(c.Arms[0]) + " from " + string(c.Corners[0])},
			{line: rim(f.corner(c.Corners[1])), say: figure(c.Arms[1]) + " from " + string(c.Corners[1])},
		}
	}
	return nil
}

// corner is where a corner lies in the piece's own coordinates.
func (f *face) corner(n geom.Name) geom.Point {
	if i, ok := f.corners.Corner(n); ok {
		return f.corners.Points[i]
	}
	return geom.Point{}
}
