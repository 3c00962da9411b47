package words

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/shape"
	"trammel/geom/unit"
)

// ByHand is a piece that is made by hand, and what is at hand.
type ByHand struct {
	Construction construct.Construction
	Shape        shape.Shape                // what is done to the outline; without sides: nothing
	Given        map[geom.Name]unit.Reading // angles as they were measured, of corners that have just these
	Heights      [3]bool                    // of a triangle: those that were measured, from its first corner on
	Figures      unit.Style
	Reach        unit.Length // longest radius of the compasses; 0: those that are held in one hand
	Protractor   unit.Angle  // the step of its marks; what lies between is set off by its chord. 0: any angle has a mark
	Saw          unit.Angle  // how far the mitre saw turns to each side of a square cut; 0: commonSaw
}

// handCompasses are the largest that are held in one hand: common practice, no source.
const handCompasses unit.Length = 300

func (h ByHand) length(l unit.Length, measured bool) string {
	return Computed(h.Figures.Length(l), measured)
}

// Computed is a figure as paper shows it: bare when it was measured, else in
// parentheses.
func Computed(figure string, measured bool) string {
	if measured {
		return figure
	}
	return "(" + figure + ")"
}

// work is the construction so far: what a step meets depends on those before it.
type work struct {
	ByHand
	voice Voice
	done  []construct.Step
	say   []string
	beam  bool // beam compasses were named
	chord bool // it was said how an angle is set off by a chord
}

// at is the angle at a corner, as it was given where it was.
func (w *work) at(n geom.Name, a unit.Angle) string {
	if given, ok := w.Given[n]; ok {
		return w.Figures.Given(given)
	}
	return w.Figures.Angle(a)
}

// meets is the last step before this one whose line corner n lies on.
func (w *work) meets(n geom.Name) (construct.Step, bool) {
	for i := len(w.done) - 1; i >= 0; i-- {
		switch s := w.done[i].(type) {
		case construct.Swing:
			if s.To == n {
				return s, true
			}
		case construct.SetAngle:
			if s.To == n {
				return s, true
			}
		case construct.Parallel:
			if s.To == n {
				return s, true
			}
		}
	}
	return nil, false
}

// what names the line that corner n lies on already.
func (w *work) what(n geom.Name) string {
	switch step, _ := w.meets(n); s := step.(type) {
	case construct.SetAngle:
		return fmt.Sprintf("the arm from %s", s.At)
	case construct.Parallel:
		return "the parallel"
	}
	return "the first"
}

// along names the line that a length is marked off on.
func (w *work) along(s construct.MarkOff) string {
	if _, ok := w.meets(s.To); ok {
		return "the arm"
	}
	return "the baseline"
}

// carried is a side as it is met by the perpendicular from the corner over it:
// carried on where the angle at one of its ends is obtuse.
func (w *work) carried(side [2]geom.Name) string {
	t := w.Construction.Outline
	for i, n := range t.Names {
		for k, end := range side {
			if n == end && t.Angles[i] > unit.Turn/4+1e-9 { // rounding of a right angle is 1e-16
				return fmt.Sprintf("%s carried on beyond %s", side[1-k]+end, end)
			}
		}
	}
	return string(side[0] + side[1])
}

// base is the length of the baseline.
func (w *work) base() unit.Length { return w.Construction.Outline.Sides[0] }

// fromEnd tells two crossings apart by how far they are from a corner.
func fromEnd(n geom.Name, p geom.Point, s construct.Swing) string {
	if s.Through.Distance(p) < s.Other.Distance(p) {
		return fmt.Sprintf("nearer to %s", n)
	}
	return fmt.Sprintf("farther from %s", n)
}
