package setout

import (
	"slices"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/unit"
)

// written is a layout as its figures are written.
type written struct{ pegging.Layout }

func (s written) signedLevel(n geom.Name) string {
	if l := s.Level(n); l < 0 && s.Figure(-l) != s.Figure(0) {
		return "−" + s.Figure(-l)
	}
	return s.Figure(max(0, s.Level(n)))
}

// corrects says whether a pull has a correction to tell of.
func (s written) corrects(p pegging.Pull) bool {
	return p.Use != pegging.ForAngle && (p.Use != pegging.ForLeg || s.Falls)
}

// signed is a correction with its sign.
func (s written) signed(l unit.Length) string {
	switch text := s.Fine().Length(max(l, -l)); {
	case text == s.Fine().Length(0):
		return text
	case l < 0:
		return "−" + text
	default:
		return "+" + text
	}
}

// markFigures are the figures of a mark on an edge, as the tape reads.
func (s written) markFigures(m pegging.EdgeMark) []string {
	edge, along, out := s.EdgeFalls(m)
	return []string{string(m.Edge[0] + m.Edge[1]), s.laid(m.At, edge), s.laidAlong(m.Along, along), s.laid(m.Offset, out), m.Side.String()}
}

// laid is a length as the tape reads it over a fall; laidAlong the same of a running
// distance, with a sign where it lies behind the zero end.
func (s written) laid(l, fall unit.Length) string {
	r, _ := s.Reads(l, fall)
	return s.Figure(r)
}

func (s written) laidAlong(l, fall unit.Length) string {
	if l < 0 && s.Figure(-l) != s.Figure(0) {
		return "−" + s.laid(-l, fall)
	}
	return s.laid(max(l, 0), fall)
}

// pegNote says what a peg is.
func (s written) pegNote(p pegging.Mark) string {
	switch p.Role {
	case pegging.Foot:
		switch {
		case p.Also:
			return "foot, middle of " + string(s.Baseline.From+s.Baseline.To)
		case s.Lone():
			return "foot of the height"
		}
		return "foot of " + string(p.Of[0])
	case pegging.Middle:
		return "middle of " + edge(p.Of)
	case pegging.SquareLeg, pegging.SquareTop:
		return "for the square"
	}
	switch {
	case p.Name == s.Baseline.From:
		return "tape's zero"
	case p.Name == s.Baseline.To:
		return "baseline's end"
	case !slices.Contains(s.Beside, p.Name):
		return "on the baseline"
	case s.Lone():
		return "apex"
	case !slices.Contains(s.Outline, p.Name):
		return "point"
	}
	return "corner"
}

// useWords says in a word or two what a pull does.
func (s written) useWords(p pegging.Pull) string {
	switch p.Use {
	case pegging.ForRunning:
		if p.Behind {
			return "behind"
		}
	case pegging.ForHeight:
		if !s.Lone() {
			return "offset"
		}
	case pegging.ForAngle:
		return "angle " + p.Side.String()
	}
	return string(p.Use)
}

func (s written) toldAngle(p pegging.Pull) string {
	if !p.Measured {
		return "(" + s.Turned(p.Angle) + ")"
	}
	return s.Turned(p.Angle)
}

// pegFigures are a peg's running distance and offset, as the plan and the table have
// them: bare where they were measured or chosen.
func (s written) pegFigures(p pegging.Mark) (along, offset string) {
	chosen := p.Role == pegging.SquareLeg || p.Role == pegging.SquareTop
	along = bracketed(s.Figure(max(p.Along, -p.Along)), s.alongMeasured(p))
	if p.Along < 0 && s.Figure(-p.Along) != s.Figure(0) {
		along = "−" + along
	}
	offset = bracketed(s.Figure(p.Offset), p.Side == pegging.OnLine || chosen || p.Role == pegging.Corner && s.offsetTold(p.Name))
	return along, offset
}

func (s written) alongMeasured(p pegging.Mark) bool {
	switch {
	case max(p.Along, -p.Along) <= pegging.SameMark:
		return true
	case p.Name == s.Baseline.To:
		return s.Baseline.Measured
	}
	return p.Role == pegging.Corner && p.Side == pegging.OnLine && s.PullTo(p.Name).Measured
}

// offsetTold says whether a corner's offset was measured.
func (s written) offsetTold(n geom.Name) bool {
	for _, p := range s.Pulls {
		if p.Use == pegging.ForHeight && p.To == n {
			return p.Measured
		}
	}
	return false
}

// bothSides says whether pegs stand on either side of the baseline; oneSide is the
// one on which all stand.
func (s written) bothSides() bool {
	seen := map[pegging.Side]bool{}
	for _, p := range s.Pegs {
		seen[p.Side] = true
	}
	return seen[pegging.Left] && seen[pegging.Right]
}

func (s written) oneSide() pegging.Side {
	for _, p := range s.Pegs {
		if p.Side != pegging.OnLine {
			return p.Side
		}
	}
	return pegging.Left
}
