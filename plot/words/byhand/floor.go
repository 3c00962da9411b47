package byhand

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
)

// floor is said to a tiler.
type floor struct{}

func (floor) length(h Piece, l unit.Length) string         { return h.Figures.Length(l) }
func (floor) draw() string                                 { return "pencil" }
func (floor) tools() tools                                 { return tools{"compasses", "tape", "angle finder", "square", "computed"} }
func (floor) carriedOn(side string, past geom.Name) string { return runOn(side, past) }
func (floor) computed(figures []string) string             { return areComputed(figures) }

func (floor) base(f *figures, s construct.DrawBase) string {
	return fmt.Sprintf("Snap %s, %s, along the straight course.", s.From+s.To, f.told(s.Length, s.Measured))
}

func (floor) swing(f *figures, s Swing) string {
	tool := "Compasses"
	if s.Beam {
		tool = "Pin and batten"
	}
	say := fmt.Sprintf("%s: swing %s from %s ", tool, f.told(s.Radius, s.Measured), centre(s))
	switch {
	case s.Meets == nil:
		return say + "and pencil the arc" + f.above(s) + "."
	case s.Touches:
		return say + fmt.Sprintf("to %s. It just kisses: square from %s finds %s.", line(s.Meets), centre(s), s.To)
	case s.Twice:
		return say + fmt.Sprintf("across %s. Two crossings: %s is the one %s.", line(s.Meets), s.To, f.which(s))
	}
	return say + fmt.Sprintf("across %s. The cross is %s.", line(s.Meets), s.To)
}

func (floor) halfCircle(f *figures, s HalfCircle) string {
	say := fmt.Sprintf("Halve %s. %s on the middle, open to %s: pencil the half circle above %s.",
		s.over(), s.tool("Compasses", "Pin and batten", "Pin and batten"), s.Over[0], s.over())
	switch {
	case s.Meets == nil:
		return say + fmt.Sprintf(" The square corner %s lies on it.", s.To)
	case s.Twice:
		return say + fmt.Sprintf(" It crosses %s twice: %s is the crossing %s.", line(s.Meets), s.To, s.which())
	}
	return say + fmt.Sprintf(" Where it crosses %s is %s.", line(s.Meets), s.To)
}

func (floor) third(at, angle string, known [2]string) string { return bench{}.third(at, angle, known) }

func (floor) angle(f *figures, s SetAngle) string {
	base, angle := string(s.At+s.Along), f.corner(s)
	say := ""
	switch s.By {
	case RightAngle:
		say = fmt.Sprintf("Square up from %s on %s and check 3-4-5.", s.At, base)
	case OnSquare:
		say = onSlope(f, s, angle, "Draw the line")
	case ByChord:
		say = byChord(f, s, angle, "Draw the line")
	default:
		tool := "Set the angle finder to"
		if s.Turned {
			tool = "Turn the angle finder over and set it to"
		}
		say = fmt.Sprintf("%s %s on %s. Draw from %s.", tool, angle, base, s.At)
		if s.obtuse() {
			say += " It opens past square."
		}
		say += surer(f, s, base)
	}
	return say + meeting(s)
}

func (floor) mark(f *figures, s MarkOff) string {
	return fmt.Sprintf("Measure %s from %s on the line: %s.", f.told(s.Length, s.Measured), s.From, s.To)
}

func (floor) erect(f *figures, s Erect) string {
	at, say := footOf(f, s, "Carry the chalk line %s on, %s past %s: that is the foot. ", "Carry the chalk line %s on past %s. Measure %s from %s on it: that is the foot. ", "Measure %s from %s on %s: that is the foot. ")
	return say + fmt.Sprintf("Square up from %s and check 3-4-5. Measure %s up: %s.", at, f.told(s.Height, s.Measured), s.To)
}

func (floor) parallel(f *figures, s construct.Parallel) string {
	return fmt.Sprintf("Snap a line %s off %s, above it. %s lies on it.", f.told(s.Distance, s.Measured), s.Base[0]+s.Base[1], s.To)
}

func (floor) join(s Join) string { return "Snap " + chain(s.Names) + "." }

func (floor) checkSide(f *figures, side string, l unit.Length) string {
	return fmt.Sprintf("Tape on %s: it should come to %s.", side, f.plain(l))
}

func (floor) checkAngle(_ *figures, at, angle string) string {
	return fmt.Sprintf("Angle finder at %s: %s.", at, angle)
}

func (floor) checkHeight(f *figures, from geom.Name, side string, l unit.Length) string {
	return fmt.Sprintf("Square off %s to %s: it should come to %s.", side, from, f.plain(l))
}
