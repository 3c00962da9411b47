package shape

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// Setting is how saw and square are set to cut one edge of a corner with the other
// held: against the fence of the saw, or under the stock of a square. For a corner of
// θ the line of the cut makes θ with the edge held; over 90°, where it leans away
// from that edge, 180° − θ with the edge carried on. The saw is turned by 90° less
// that from a square cut. At a corner that points inward the angle is that of the
// waste, 360° − θ.
//
// Where the job says that parts meet (Mitre), the line is that of the joint, and each
// part is cut with its edge of the outline held.
type Setting struct {
	Corner   geom.Name
	Do       Treatment  // Cut: it is of the edge that the cut makes; Mitre: of the joint; else of the corner itself
	Interior unit.Angle // of the piece
	Edge     string     // that is held: the longer one, AB; of a Mitre of equal parts empty: either
	Line     unit.Angle // between the edge held, or that edge carried on, and the line of the cut: at most 90°
	Saw      unit.Angle // from a square cut: 90° less Line
	Out      bool       // the line leans away from the edge held, not back over it
	Inward   bool       // the corner points inward: no saw that runs through cuts it
}

// How a saw of a range comes to a setting.
type How uint8

const (
	AtFence How = iota // the edge held lies against the fence
	AtBlock            // the edge held stands square to the fence, against a block: the scale reads Line
	ToLine             // neither: cut to the line by hand or with a bandsaw
)

// How a saw that turns so far to each side of a square cut is set, and what its scale
// reads where 0 is a square cut. (FHB: "90-degree jig"; WW45.)
func (s Setting) How(most unit.Angle) (how How, scale unit.Angle) {
	const rounding = 1e-9
	switch {
	case s.Inward:
		return ToLine, 0
	case s.Saw <= most+rounding:
		return AtFence, s.Saw
	case s.Line <= most+rounding:
		return AtBlock, s.Line
	}
	return ToLine, 0
}

// Square is the same line on a square: so far along the edge held, so far up from it,
// the longer of both being the run. (POCKET: 12 on one arm, 12·tan θ on the other, arms
// changed over 45°.)
func (s Setting) Square(run unit.Length) (along, up unit.Length) {
	if s.Line <= 45*unit.Degree {
		return run, run * unit.Length(math.Tan(float64(s.Line)))
	}
	return run * unit.Length(math.Tan(float64(unit.Turn/4-s.Line))), run
}

// SettingOf a corner of an interior angle of more than 0 and less than 360°.
func SettingOf(interior unit.Angle) Setting {
	s := lined(min(interior, unit.Turn-interior))
	s.Interior, s.Inward = interior, interior > unit.Turn/2
	return s
}

// lined is the setting of a line that leaves the edge held at an angle of up to 180°.
func lined(at unit.Angle) Setting {
	line := min(at, unit.Turn/2-at)
	return Setting{Line: line, Saw: unit.Turn/4 - line, Out: at > unit.Turn/4+1e-12}
}

// MitreOf is the angles that the joint of two parts makes with their outer edges, which
// meet at the interior angle, and how long it is; the parts are so wide. The joint
// runs from the outer corner to where the inner edges cross:
// tan a = w1·sin θ/(w2 + w1·cos θ), a + b = θ. For equal parts both are θ/2.
func MitreOf(interior unit.Angle, w1, w2 unit.Length) (a, b unit.Angle, long unit.Length) {
	sin, cos := math.Sincos(float64(interior))
	a = unit.Angle(math.Atan2(float64(w1)*sin, float64(w2)+float64(w1)*cos))
	return a, interior - a, w1 / unit.Length(math.Sin(float64(a)))
}

// Chord of an angle about a point, R from it: 2R·sin(θ/2). (TPUB 14276 p. 2-37.)
func Chord(radius unit.Length, a unit.Angle) unit.Length {
	return 2 * radius * unit.Length(math.Sin(float64(a)/2))
}

// Settings of all corners of an outline by their names, and of what is done to them,
// which is in the outline's order or nothing.
func Settings(o geom.Outline, corners []Vertex) (all []Setting) {
	for i, n := range o.Names {
		before, after := o.Side(o.Before(i)), o.Side(i)
		held := after
		if o.Sides[o.Before(i)] > o.Sides[i]*(1+1e-12) {
			held = before
		}
		one := func(s Setting, do Treatment, edge string) {
			s.Corner, s.Do, s.Edge = n, do, edge
			all = append(all, s)
		}
		v := Vertex{}
		if corners != nil {
			v = corners[i]
		}
		if v.Do != Mitre {
			one(SettingOf(o.Angles[i]), Sharp, held)
		}
		switch {
		case v.Do == Cut: // with each edge 90° + θ/2
			one(SettingOf(unit.Turn/4+o.Angles[i]/2), Cut, held)
		case v.Do == Mitre && v.Widths != [2]unit.Length{}:
			a, b, _ := MitreOf(o.Angles[i], v.Widths[0], v.Widths[1])
			for k, at := range []unit.Angle{a, b} {
				s := lined(at)
				s.Interior = o.Angles[i]
				one(s, Mitre, []string{before, after}[k])
			}
		case v.Do == Mitre:
			s := lined(o.Angles[i] / 2)
			s.Interior = o.Angles[i]
			one(s, Mitre, "")
		}
	}
	slices.SortStableFunc(all, func(a, b Setting) int { return cmp.Compare(a.Corner, b.Corner) })
	return all
}
