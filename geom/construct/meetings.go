package construct

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Meeting is how the two lines cross on which a construction puts a corner: two arcs,
// two arms of angles, an arc and an arm, or a parallel and either.
type Meeting struct {
	At    geom.Name
	Angle unit.Angle // 0° to 90°
	By    [2]Guide
}

// Guide is a line on which a construction puts a corner.
type Guide struct {
	Kind GuideKind
	From geom.Name // the centre of the arc, the corner of the angle; empty of a parallel and a half circle
}

// GuideKind tells arcs, arms and parallels apart.
type GuideKind uint8

const (
	OnArc GuideKind = iota
	OnArm
	OnParallel
	OnHalfCircle
)

// Meetings are the crossings that the steps themselves make, in their order. What is
// marked off along a line crosses it squarely and is left out, and so is an arc that just
// touches an arm: a square from its centre finds the place.
func (c Construction) Meetings() (all []Meeting) {
	type line struct {
		Guide
		way geom.Point
	}
	lines := map[geom.Name][]line{}
	add := func(to geom.Name, l line) {
		if lines[to] = append(lines[to], l); len(lines[to]) == 2 {
			a, b := lines[to][0], lines[to][1]
			p, q := a.way, b.way
			cross, dot := float64(p.X)*float64(q.Y)-float64(p.Y)*float64(q.X), float64(p.X)*float64(q.X)+float64(p.Y)*float64(q.Y)
			angle := unit.Angle(math.Atan2(math.Abs(cross), math.Abs(dot)))
			if touch := angle < touching && a.Kind == OnArm && b.Kind == OnArc; !touch {
				all = append(all, Meeting{to, angle, [2]Guide{a.Guide, b.Guide}})
			}
		}
	}
	for i, s := range c.Steps {
		switch s := s.(type) {
		case Swing:
			d := s.Through.Minus(s.About)
			add(s.To, line{Guide{OnArc, s.Centre}, geom.Point{X: -d.Y, Y: d.X}})
		case SetAngle:
			if i+1 < len(c.Steps) { // its arm may only carry a length
				if m, ok := c.Steps[i+1].(MarkOff); ok && m.To == s.To {
					continue
				}
			}
			add(s.To, line{Guide{OnArm, s.At}, s.Ray.To.Minus(s.Ray.From)})
		case HalfCircle:
			d := s.Through.Minus(s.Middle)
			add(s.To, line{Guide{OnHalfCircle, ""}, geom.Point{X: -d.Y, Y: d.X}})
		case Parallel:
			add(s.To, line{Guide{OnParallel, ""}, s.Line.To.Minus(s.Line.From)})
		}
	}
	return all
}

// touching is rounding in the angle of an arc and a line that touch: a chance crossing as
// flat as that is none that a hand could tell.
const touching unit.Angle = 1e-7

// Flattest is the meeting that crosses most sharply, false where none does under Flat.
func (c Construction) Flattest() (least Meeting, flat bool) {
	least.Angle = geom.Flat
	for _, m := range c.Meetings() {
		if m.Angle < least.Angle {
			least, flat = m, true
		}
	}
	return least, flat
}
