package byhand

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
)

// class is said to a pupil: the instrument, then where, how far with its unit, then what
// it is called. Construction lines stay, and the outline is gone over.
type class struct{}

func (class) length(h Piece, l unit.Length) string { return h.Figures.LengthUnit(l) }
func (class) carriedOn(side string, past geom.Name) string {
	return fmt.Sprintf("%s produced beyond %s", side, past)
}

func (class) draw() string { return "draw" }
func (class) tools() tools {
	return tools{"compasses", "ruler", "protractor", "set square", "worked out"}
}

func (class) computed(figures []string) string {
	if len(figures) == 1 {
		return figures[0] + " is worked out, not given."
	}
	return geom.Listed(figures) + " are worked out, not given."
}

func (class) base(f *figures, s construct.DrawBase) string {
	return fmt.Sprintf("Draw %s %s long. Mark both ends with a short stroke.", s.From+s.To, f.told(s.Length, s.Measured))
}

func (class) swing(f *figures, s Swing) string {
	tool := "compasses"
	switch {
	case s.First:
		tool = "beam compasses or a batten on a pin"
	case s.Beam:
		tool = "beam compasses"
	}
	say := fmt.Sprintf("With %s, centre %s, radius %s, ", tool, centre(s), f.told(s.Radius, s.Measured))
	switch {
	case s.Meets == nil:
		return say + "draw an arc" + f.above(s) + "."
	case s.Touches:
		return say + fmt.Sprintf("draw an arc to %s. It only just touches: one triangle, with a square corner at %s. Label the point %s.", line(s.Meets), s.To, s.To)
	case s.Twice:
		return say + fmt.Sprintf("cut %s. It cuts twice: label the crossing %s with %s.", line(s.Meets), f.which(s), s.To)
	}
	return say + fmt.Sprintf("cut %s. Label the crossing %s.", line(s.Meets), s.To)
}

func (class) halfCircle(f *figures, s HalfCircle) string {
	say := fmt.Sprintf("Halve %s and mark the middle. With %s, centre the middle, opened to %s, draw the half circle above %s.",
		s.over(), s.tool("compasses", "beam compasses or a batten on a pin", "beam compasses"), s.Over[0], s.over())
	switch {
	case s.Meets == nil:
		return say + fmt.Sprintf(" The square corner %s lies on it.", s.To)
	case s.Twice:
		return say + fmt.Sprintf(" It cuts %s twice: label the crossing %s with %s.", line(s.Meets), s.which(), s.To)
	}
	return say + fmt.Sprintf(" It crosses %s: label the crossing %s.", line(s.Meets), s.To)
}

func (class) third(at, angle string, known [2]string) string {
	return fmt.Sprintf("Work out angle %s: 180° − %s − %s = %s.", at, known[0], known[1], angle)
}

func (class) angle(f *figures, s SetAngle) string {
	base, at, angle, say := string(s.At+s.Along), s.At, f.corner(s), ""
	switch s.By {
	case RightAngle:
		say = fmt.Sprintf("Hold the set square on %s with its corner at %s and draw upwards.", base, at)
	case OnSquare:
		along := base
		if s.Beyond != "" {
			say, along = fmt.Sprintf("Produce %s beyond %s. ", base, s.Beyond), "this line"
		}
		say += fmt.Sprintf("For %s at %s measure %s from %s along %s. With the set square go %s up from there. Draw the arm from %s through that point.",
			angle, at, f.fine(s.Run, true), at, along, f.fine(s.Rise, true), at)
	case ByChord:
		say = "The protractor has no mark for " + angle + ": use the chord."
		if s.Rest {
			base = string(s.Along + s.At)
			say = fmt.Sprintf("The protractor has no mark for %s: use the chord of the rest of 180°.", angle)
		}
		if s.Beyond != "" {
			say += fmt.Sprintf(" Produce %s beyond %s.", base, s.Beyond)
		}
		radius := f.fine(s.Radius, true)
		say += fmt.Sprintf(" With compasses, centre %s, radius %s, draw an arc that crosses this line. With the crossing as centre, radius %s, cut that arc on the side of %s. Draw the arm from %s through there.",
			at, radius, f.fine(s.Chord, false), s.To, at)
		if s.Beyond == "" {
			say = strings.Replace(say, "crosses this line", "crosses "+base, 1)
		}
	default:
		scale := "On the scale whose 0 lies on " + base + " mark "
		if s.Turned {
			scale = "Now it is the other scale, whose 0 lies on " + base + ": mark "
		}
		say = fmt.Sprintf("Put the protractor's centre on %s, its 0 line on %s. %s%s. Draw the arm through the mark.", at, base, scale, angle)
		if s.obtuse() {
			say += " Check: it opens more than a square corner."
		}
		say += surer(f, s, base)
	}
	if s.Meets != nil {
		say += fmt.Sprintf(" It crosses %s: label the crossing %s.", line(s.Meets), s.To)
	}
	return say
}

// surer is the chord of what a protractor is too rough for, over a long arm.
func surer(f *figures, s SetAngle, base string) string {
	if s.Chord == 0 {
		return ""
	}
	radius, chord := f.told(s.Radius, true), f.told(s.Chord, false)
	if s.Again {
		return fmt.Sprintf(" Surer, as before: swing %s from %s, then %s from %s.", radius, s.At, chord, base)
	}
	return fmt.Sprintf(" Surer over this length: swing %s from %s. Where that arc crosses %s, swing %s across it on %s's side. Draw the line through the crossing.", radius, s.At, base, chord, s.To)
}

func (class) mark(f *figures, s MarkOff) string {
	along := "the baseline"
	if s.Arm {
		along = "the arm"
	}
	return fmt.Sprintf("With the ruler mark %s = %s along %s. Label the mark %s.", s.From+s.To, f.told(s.Length, s.Measured), along, s.To)
}

func (class) erect(f *figures, s Erect) string {
	from, base, past := squared(s)
	at, say := string(s.From), ""
	switch {
	case s.Along == 0:
	case s.Along < 0:
		at, say = "the foot", fmt.Sprintf("Produce %s %s beyond %s: that is the foot. ", base, f.told(-s.Along, false), past)
	case past != "":
		at, say = "the foot", fmt.Sprintf("Produce %s beyond %s. From %s measure %s along it: that is the foot. ", base, past, from, f.told(s.Along, false))
	default:
		at, say = "the foot", fmt.Sprintf("From %s measure %s along %s: that is the foot. ", from, f.told(s.Along, false), base)
	}
	return say + fmt.Sprintf("Hold the set square on %s with its corner at %s and draw upwards. Mark %s up. Label the mark %s.", base, at, f.told(s.Height, s.Measured), s.To)
}

func (class) parallel(f *figures, s construct.Parallel) string {
	return fmt.Sprintf("Slide the set square up the ruler and draw a line %s above %s. %s lies on it.", f.told(s.Distance, s.Measured), s.Base[0]+s.Base[1], s.To)
}

func (class) join(s Join) string {
	say := "Join " + chain(s.Names) + "."
	if s.Last {
		say += " Go over the outline firmly. Leave every arc and line."
	}
	return say
}

// toWrite is a line to write on, which no line of the page ends before.
const toWrite = "\u00a0=\u00a0____"

// blank is where a pupil writes what is found.
func blank(f *figures, what string) (nearest, write string) {
	switch u := f.Figures.Unit; {
	case u >= unit.IN: // the marks stand on the figures
		return "", what + toWrite
	case u == unit.M:
		return "", what + toWrite + "\u00a0m"
	default:
		return " to the nearest millimetre", what + toWrite + "\u00a0" + u.String()
	}
}

// comesTo is what a check should come to, where a pupil does not see that on the drawing.
func comesTo(f *figures, figure string) string {
	if f.Drawn {
		return "."
	}
	return ". It should come to " + figure + "."
}

func (class) checkSide(f *figures, side string, l unit.Length) string {
	nearest, write := blank(f, side)
	return fmt.Sprintf("Measure %s%s: %s%s", side, nearest, write, comesTo(f, f.plain(l)))
}

func (class) checkAngle(f *figures, at, angle string) string {
	return fmt.Sprintf("Measure angle %s to the nearest degree: %s%s\u00a0°%s", at, at, toWrite, comesTo(f, angle))
}

func (class) checkHeight(f *figures, from geom.Name, side string, l unit.Length) string {
	nearest, write := blank(f, "h")
	if nearest != "" {
		nearest = "," + nearest
	}
	return fmt.Sprintf("With the set square measure from %s square to %s%s: %s%s", from, side, nearest, write, comesTo(f, f.plain(l)))
}
