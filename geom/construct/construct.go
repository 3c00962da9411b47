// Package construct makes the steps by which a triangle, or a net of triangles, is drawn by
// hand: with rule, compasses, protractor and square.
//
// Files, from the top floor to the ground: construct_net.go, construct_plan.go, construct.go.
package construct

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
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
	From geom.Name // the centre of the arc, the corner of the angle; empty of a parallel
}

// GuideKind tells arcs, arms and parallels apart.
type GuideKind uint8

const (
	OnArc GuideKind = iota
	OnArm
	OnParallel
)

// Meetings are the crossings that the steps themselves make, in their order. What is
// marked off along a line crosses it squarely and is left out.
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
			all = append(all, Meeting{to, unit.Angle(math.Atan2(math.Abs(cross), math.Abs(dot))), [2]Guide{a.Guide, b.Guide}})
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
		case Parallel:
			add(s.To, line{Guide{OnParallel, ""}, s.Line.To.Minus(s.Line.From)})
		}
	}
	return all
}

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

// Method is a way to construct a triangle by hand on its baseline.
type Method uint8

const (
	AsMeasured Method = iota // what the measurements themselves suggest
	ByArcs                   // two arcs swung from the ends of the baseline
	ByAngle                  // protractor
	BySquare                 // offset from the baseline by a perpendicular
)

// Construction is the ordered work of a person with rule, compasses, protractor
// and square. The drawn construction lines and the printed steps both come from
// it. Its points are those of the Outline, or of the Inner points.
type Construction struct {
	Outline  geom.Outline
	Inner    []Spot            // points of a net that are no corners of its outline
	Triangle triangle.Triangle // zero where the outline is no triangle that measurements fix by themselves
	Steps    []Step
}

// Spot is a point with its name.
type Spot struct {
	Name geom.Name
	At   geom.Point
}

// Step is one move of the hand; see StepTypes for the whole list.
type Step interface{ step() }

// DrawBase draws the baseline.
type DrawBase struct {
	From, To geom.Name
	Line     geom.Line
	Length   unit.Length
	Measured bool // false: the length is computed, not one of the measurements
}

// Swing swings an arc about a corner (or about the foot of a height), through
// the place where corner To is to be.
type Swing struct {
	Centre   geom.Name
	About    geom.Point
	Radius   unit.Length
	To       geom.Name
	Through  geom.Point
	Twice    bool       // it meets what was drawn before at a second place as well
	Other    geom.Point // that place, where Twice: another triangle, or the same on the wrong side
	Tell     geom.Name  // of a net, where Twice: the point that says which place is meant, by its distance; empty: above or below the baseline do
	TellAt   geom.Point
	Below    bool        // it lies below the baseline
	Beside   unit.Length // it is drawn so far beside the crossing at most; 0: as a triangle's
	Measured bool
}

// ThirdAngle works out the third angle: 180° less the two that were measured.
type ThirdAngle struct {
	At     geom.Name
	Angle  unit.Angle
	Others [2]geom.Name
	Known  [2]unit.Angle // at Others
}

// SetAngle sets an angle at a corner with the protractor, from the arm towards
// Along, and draws the ray far enough.
type SetAngle struct {
	At, Along geom.Name
	Angle     unit.Angle
	Arm, Ray  geom.Line // both start at the corner; the ray ends a little past what it is to meet
	To        geom.Name // the corner that will lie on the ray
	Measured  bool
}

// MarkOff marks a corner on a ray or on the baseline's line, at a distance from its start.
type MarkOff struct {
	From, To geom.Name
	Line     geom.Line
	Length   unit.Length
	Measured bool
}

// Erect raises a perpendicular on the line of the baseline at a foot, Along from
// its first corner (negative: beyond it), and goes Height up to corner To.
type Erect struct {
	From, Toward geom.Name // the baseline's two ends; Along counts from From
	Foot, Top    geom.Point
	Along        unit.Length
	Height       unit.Length
	To           geom.Name
	Measured     bool // the height is a measurement
}

// Parallel draws a line parallel to a side at a distance, on which corner To lies.
type Parallel struct {
	Base     [2]geom.Name
	Line     geom.Line
	Distance unit.Length
	To       geom.Name
	Measured bool
}

// Join joins two corners.
type Join struct {
	From, To geom.Name
	Line     geom.Line
}

// CheckSide asks to measure a side that was not used.
type CheckSide struct {
	From, To geom.Name
	Length   unit.Length
}

// CheckAngle asks to measure an angle that was not used.
type CheckAngle struct {
	At      geom.Name
	Between [2]geom.Name // its arms, where more than two lines meet there; empty: those of the outline
	Angle   unit.Angle
}

// CheckHeight asks to measure a height that was not used.
type CheckHeight struct {
	From   geom.Name
	Base   [2]geom.Name
	Height unit.Length
}

func (DrawBase) step()    {}
func (Swing) step()       {}
func (ThirdAngle) step()  {}
func (SetAngle) step()    {}
func (MarkOff) step()     {}
func (Erect) step()       {}
func (Parallel) step()    {}
func (Join) step()        {}
func (CheckSide) step()   {}
func (CheckAngle) step()  {}
func (CheckHeight) step() {}

// StepTypes has one of each kind of step; tests range over it.
func StepTypes() []Step {
	return []Step{DrawBase{}, Swing{}, ThirdAngle{}, SetAngle{}, MarkOff{}, Erect{}, Parallel{}, Join{}, CheckSide{}, CheckAngle{}, CheckHeight{}}
}

// Names of all points of the work.
func (c Construction) Names() []geom.Name {
	all := slices.Clone(c.Outline.Names)
	for _, s := range c.Inner {
		all = append(all, s.Name)
	}
	return all
}
