// Package construct makes the steps by which a triangle, or a net of triangles, is drawn by
// hand: with rule, compasses, protractor and square.
//
// Files, from the top floor to the ground: construct_net.go, choose.go, construct_plan.go,
// turned.go, meetings.go, construct.go.
package construct

import (
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

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
	Why      Why // of a triangle: why it is constructed so
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

// HalfCircle draws the half circle over the baseline, on which the corner of the right
// angle lies; its radius is half of the baseline, which is halved and not measured.
type HalfCircle struct {
	Over    [2]geom.Name
	Middle  geom.Point
	Radius  unit.Length
	To      geom.Name
	Through geom.Point
	Twice   bool       // it meets what was drawn before at a second place as well
	Other   geom.Point // that place, where Twice
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
func (HalfCircle) step()  {}
func (Join) step()        {}
func (CheckSide) step()   {}
func (CheckAngle) step()  {}
func (CheckHeight) step() {}

// StepTypes has one of each kind of step; tests range over it.
func StepTypes() []Step {
	return []Step{DrawBase{}, Swing{}, ThirdAngle{}, SetAngle{}, MarkOff{}, Erect{}, Parallel{}, HalfCircle{}, Join{}, CheckSide{}, CheckAngle{}, CheckHeight{}}
}

// Base is the line that the work begins with; false of steps without one.
func (c Construction) Base() (DrawBase, bool) {
	i := slices.IndexFunc(c.Steps, func(s Step) bool { _, ok := s.(DrawBase); return ok })
	if i < 0 {
		return DrawBase{}, false
	}
	return c.Steps[i].(DrawBase), true
}

// Apex is the corner of a triangle, by its number, that lies over its baseline.
func (c Construction) Apex() int {
	b, ok := c.Base()
	return max(0, slices.IndexFunc(c.Outline.Names, func(n geom.Name) bool { return ok && n != b.From && n != b.To }))
}

// Names of all points of the work.
func (c Construction) Names() []geom.Name {
	all := slices.Clone(c.Outline.Names)
	for _, s := range c.Inner {
		all = append(all, s.Name)
	}
	return all
}
