package construct

import (
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
)

// turned is the triangle with another corner as its apex, in that baseline's own frame.
// Apex 2 is the triangle as it is.
func turned(t triangle.Triangle, apex int) triangle.Triangle {
	if apex == 2 {
		return t
	}
	to := t
	for i := range 3 {
		k := (apex + 1 + i) % 3
		to.Names[i], to.Sides[i], to.Angles[i], to.Heights[i] = t.Names[k], t.Sides[k], t.Angles[k], t.Heights[k]
	}
	from, base := geom.VectorOf(t.Points[(apex+1)%3]), geom.VectorOf(t.Points[(apex+2)%3])
	way := base.Minus(from).Unit()
	to.Points = [3]geom.Point{{}, {X: to.Sides[2]}, geom.Vector{X: geom.VectorOf(t.Points[apex]).Minus(from).Dot(way), Y: to.Heights[2].MM()}.Point()}
	return to
}

// back leads from the frame of a baseline to where the triangle lies: its corners to where
// they are to the last digit.
func back(t triangle.Triangle, apex int) func(geom.Point) geom.Point {
	corners := turned(t, apex).Points
	from, base := geom.VectorOf(t.Points[(apex+1)%3]), geom.VectorOf(t.Points[(apex+2)%3])
	way := base.Minus(from).Unit()
	return func(p geom.Point) geom.Point {
		if i := slices.Index(corners[:], p); i >= 0 {
			return t.Points[(apex+1+i)%3]
		}
		v := geom.VectorOf(p)
		return from.Plus(way.Times(v.X)).Plus(way.Left().Times(v.Y)).Point()
	}
}

// moved is a step with every place in it led elsewhere.
func moved(step Step, at func(geom.Point) geom.Point) Step {
	line := func(l geom.Line) geom.Line { return geom.Line{From: at(l.From), To: at(l.To)} }
	switch s := step.(type) {
	case DrawBase:
		s.Line = line(s.Line)
		return s
	case Swing:
		s.About, s.Through = at(s.About), at(s.Through)
		if s.Twice {
			s.Other = at(s.Other)
		}
		return s
	case SetAngle:
		s.Arm, s.Ray = line(s.Arm), line(s.Ray)
		return s
	case MarkOff:
		s.Line = line(s.Line)
		return s
	case Erect:
		s.Foot, s.Top = at(s.Foot), at(s.Top)
		return s
	case Parallel:
		s.Line = line(s.Line)
		return s
	case HalfCircle:
		s.Middle, s.Through = at(s.Middle), at(s.Through)
		if s.Twice {
			s.Other = at(s.Other)
		}
		return s
	case Join:
		s.Line = line(s.Line)
		return s
	}
	return step
}
