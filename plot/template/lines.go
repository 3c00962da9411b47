package template

import (
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

const (
	toEachSide             = 15 * unit.Degree // of a crossing that an arc is drawn
	tick       unit.Length = 4                // to each side of a ray, where a length is marked off
	beyond     unit.Length = 3                // that a base line runs past the foot of a height
	square     unit.Length = 4                // side of the sign for a right angle
	prick      unit.Length = 1.5              // radius of the circle round a prick point
	arm        unit.Length = 2.5              // of the cross in it
)

// Marks are the lines that a step leaves on the work, in the piece's own
// coordinates; none where it only works out or measures.
func Marks(step construct.Step) []draw.Op {
	narrow := func(l geom.Line) draw.Op { return draw.Line{Line: l, Pen: draw.Thin, On: draw.Construction} }
	switch s := step.(type) {
	case construct.DrawBase:
		return []draw.Op{narrow(s.Line)}
	case construct.Swing:
		return []draw.Op{draw.Arc{Arc: swing(s), Pen: draw.Thin, On: draw.Construction}}
	case construct.SetAngle:
		return []draw.Op{narrow(s.Ray)}
	case construct.MarkOff:
		a := s.Line.Direction() + unit.Turn/4
		return []draw.Op{narrow(geom.Line{From: s.Line.To.Toward(a, -tick), To: s.Line.To.Toward(a, tick)})}
	case construct.Erect:
		return []draw.Op{narrow(geom.Line{From: s.Foot, To: s.Top})}
	case construct.HalfCircle:
		return []draw.Op{draw.Arc{Arc: swing(asSwing(s)), Pen: draw.Thin, On: draw.Construction}}
	case construct.Parallel:
		return []draw.Op{narrow(s.Line)}
	case construct.Join:
		return []draw.Op{narrow(s.Line)}
	}
	return nil
}

// swung is a step that swings an arc, as one.
func swung(step construct.Step) (construct.Swing, bool) {
	switch s := step.(type) {
	case construct.Swing:
		return s, true
	case construct.HalfCircle:
		return asSwing(s), true
	}
	return construct.Swing{}, false
}

// asSwing is the half circle as the arc that it is: only its crossing is drawn.
func asSwing(s construct.HalfCircle) construct.Swing {
	return construct.Swing{About: s.Middle, Radius: s.Radius, To: s.To, Through: s.Through}
}

// swing is the part of a swung arc that is drawn: to each side of the crossing.
func swing(s construct.Swing) geom.Arc {
	side := toEachSide
	if s.Beside > 0 {
		side = min(side, unit.Angle(s.Beside/s.Radius))
	}
	return geom.Arc{
		Centre: s.About, Radius: s.Radius,
		Start: geom.Line{From: s.About, To: s.Through}.Direction() - side, Sweep: 2 * side,
	}
}

// drawLines draws everything that is not words or goes with them: outline,
// height, construction, prick points.
func (f *face) drawLines() {
	f.drawOutline()
	f.drawHeight()
	var pricks []geom.Point
	prick := func(p geom.Point, on draw.Layer) {
		if nearest(pricks, p) > apartPricks {
			pricks = append(pricks, p)
			prickAt(f, p, on)
		}
	}
	for _, p := range f.outline {
		prick(p, draw.Marks)
	}
	for _, s := range f.innerPoints() {
		prick(s.At, draw.Marks)
	}
	if !f.style.Arcs {
		return
	}
	for _, step := range f.piece.Construction.Steps {
		s, swings := swung(step)
		if swings && !f.pricks(s.About) {
			continue // a radius that begins off the sheet measures nothing
		}
		for _, op := range sheet.Move(Marks(step), f.plan.Place) {
			l, ok := op.(draw.Line)
			if !ok {
				f.scene.Add(op)
				continue
			}
			for _, part := range f.beside(l.Line) {
				f.scene.Add(draw.Line{Line: part, Pen: l.Pen, On: l.On})
			}
		}
		if swings {
			prick(f.plan.Place.Apply(s.About), draw.Construction)
		}
	}
}

const apartPricks unit.Length = 0.01

// beside is what of a line does not lie along an edge of the outline, along its cut
// line or along the height, which are drawn already: a ray is drawn from where it runs
// on past its corner, so that a dash-dotted edge stays dash-dotted.
func (f *face) beside(l geom.Line) []geom.Line {
	var drawn []geom.Line
	for i := range f.outline {
		drawn = append(drawn, f.outline.Edge(i))
	}
	for _, s := range f.piece.Shape.Sides {
		if s.Allow != 0 && s.Cut.Length() > 0 {
			drawn = append(drawn, f.plan.Place.Line(s.Cut))
		}
	}
	return without(l, append(drawn, f.height))
}

// without is what others leave of a line that run along it.
func without(l geom.Line, others []geom.Line) []geom.Line {
	const same = 1e-6 // mm; far above rounding, far below what is seen
	left := []geom.Line{l}
	for _, m := range others {
		var next []geom.Line
		for _, part := range left {
			long := part.Length()
			if long < same {
				continue
			}
			way := part.To.Minus(part.From).Times(1 / float64(long))
			along := func(p geom.Point) (t, off unit.Length) {
				d := p.Minus(part.From)
				return d.X*way.X + d.Y*way.Y, max(d.X*way.Y-d.Y*way.X, d.Y*way.X-d.X*way.Y)
			}
			a, offA := along(m.From)
			b, offB := along(m.To)
			from, to := max(0, min(a, b)), min(long, max(a, b))
			if offA > same || offB > same || to-from <= same {
				next = append(next, part)
				continue
			}
			if from > same {
				next = append(next, geom.Line{From: part.From, To: part.At(float64(from / long))})
			}
			if long-to > same {
				next = append(next, geom.Line{From: part.At(float64(to / long)), To: part.To})
			}
		}
		left = next
	}
	return left
}

// prickAt is a cross in a small circle: where the point of the compasses stands, or what
// is pricked through. Along an edge that is dash-dotted its arm is left out.
func prickAt(f *face, p geom.Point, on draw.Layer) {
	f.scene.Add(draw.Arc{Arc: geom.Arc{Centre: p, Radius: prick, Sweep: unit.Turn}, Pen: draw.Thin, On: on})
	for _, way := range []geom.Point{{X: arm}, {Y: arm}} {
		l := geom.Line{From: p.Minus(way), To: p.Plus(way)}
		parts := []geom.Line{l}
		if f.piece.shaped() && f.piece.Shape.Spared() {
			parts = f.beside(l)
		}
		for _, part := range parts {
			f.scene.Add(draw.Line{Line: part, Pen: draw.Thin, On: on})
		}
	}
}

// drawHeight draws the height over the baseline as a centre line, with the base
// line carried on to its foot where that lies outside. A height that falls on a
// side is that side, and is not drawn again.
func (f *face) drawHeight() {
	if !f.style.Heights || f.piece.Triangle == (triangle.Triangle{}) {
		return
	}
	t, k := f.piece.Triangle, f.piece.Apex()
	apex, high := t.Points[k], t.Heights[k]
	base := geom.Line{From: t.Points[(k+1)%3], To: t.Points[(k+2)%3]}
	long := t.Sides[k]
	way := base.To.Minus(base.From).Times(1 / float64(long))
	at := func(along, up unit.Length) geom.Point { // of the baseline
		return geom.Point{X: base.From.X + along*way.X - up*way.Y, Y: base.From.Y + along*way.Y + up*way.X}
	}
	off := apex.Minus(base.From)
	along := off.X*way.X + off.Y*way.Y
	foot := at(along, 0)
	// So near to a side, two lines would be taken for one; the one measured is
	// drawn as long as it can be told apart at all.
	measured := f.piece.measured(triangle.Height, t.Names[k])
	least := max(3, 0.03*high)
	if measured {
		least = 1
	}
	if foot.Distance(base.From) < least || foot.Distance(base.To) < least {
		return
	}
	place := f.plan.Place
	if !f.shown(place.Apply(apex), 0) || !measured && !f.shown(place.Apply(foot), 0) {
		return // a line that runs off the paper measures nothing
	}
	f.height, f.heightFigure = place.Line(geom.Line{From: apex, To: foot}), f.style.length(high, measured)
	f.scene.Add(draw.Line{Line: f.height, Pen: draw.Centre, On: draw.Dimension})
	extend := func(from geom.Point, to unit.Length) {
		l := geom.Line{From: from, To: at(to, 0)}
		f.scene.Add(draw.Line{Line: place.Line(l), Pen: draw.Thin, On: draw.Construction})
	}
	inward := unit.Length(1) // along the base, from the foot
	if along > long {
		inward = -1
		extend(base.To, along+beyond)
	} else if along < 0 {
		extend(base.From, along-beyond)
	} else if along > long/2 {
		inward = -1
	}
	if q := square * 0.75; high > 3*q && long > 3*q {
		f.scene.Add(draw.Polyline{Points: place.Polygon(geom.Polygon{
			at(along+inward*q, 0), at(along+inward*q, q), at(along, q),
		}), Pen: draw.Narrow, On: draw.Dimension})
	}
}
