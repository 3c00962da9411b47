package byhand

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
)

// bench is said to a joiner.
type bench struct{}

func (bench) length(h Piece, l unit.Length) string         { return h.Figures.Length(l) }
func (bench) draw() string                                 { return "knife" }
func (bench) tools() tools                                 { return tools{"compasses", "rule", "protractor", "try square", "computed"} }
func (bench) carriedOn(side string, past geom.Name) string { return runOn(side, past) }
func (bench) computed(figures []string) string             { return areComputed(figures) }

func (bench) base(f *figures, s construct.DrawBase) string {
	return fmt.Sprintf("Knife %s, %s, off the straight edge.", s.From+s.To, f.told(s.Length, s.Measured))
}

func (bench) swing(f *figures, s Swing) string {
	tool := "compasses"
	switch {
	case s.First:
		tool = "trammel, or a batten on a pin,"
	case s.Beam:
		tool = "trammel"
	}
	say := fmt.Sprintf("Set the %s to %s. From %s ", tool, f.told(s.Radius, s.Measured), centre(s))
	switch {
	case s.Meets == nil:
		return say + "scribe an arc" + f.above(s) + "."
	case s.Touches:
		return say + fmt.Sprintf("scribe to %s. It just kisses: find %s with a square from %s.", line(s.Meets), s.To, centre(s))
	case s.Twice:
		return say + fmt.Sprintf("cross %s. Two crossings: %s is the one %s. Prick %s.", line(s.Meets), s.To, f.which(s), s.To)
	}
	return say + fmt.Sprintf("cross %s. Prick %s.", line(s.Meets), s.To)
}

func (bench) halfCircle(f *figures, s HalfCircle) string {
	say := fmt.Sprintf("Halve %s. From the middle, the %s open to %s, scribe the half circle above %s.",
		s.over(), s.tool("compasses", "trammel, or a batten on a pin,", "trammel"), s.Over[0], s.over())
	switch {
	case s.Meets == nil:
		return say + fmt.Sprintf(" The square corner %s lies on it.", s.To)
	case s.Twice:
		return say + fmt.Sprintf(" It crosses %s twice: %s is the crossing %s. Prick %s.", line(s.Meets), s.To, s.which(), s.To)
	}
	return say + fmt.Sprintf(" It crosses %s at %s. Prick %s.", line(s.Meets), s.To, s.To)
}

func (bench) third(at, angle string, known [2]string) string {
	return fmt.Sprintf("Angle %s is %s: what %s and %s leave of 180°.", at, angle, known[0], known[1])
}

func (bench) angle(f *figures, s SetAngle) string {
	base, angle := string(s.At+s.Along), f.corner(s)
	say := ""
	switch s.By {
	case RightAngle:
		say = fmt.Sprintf("Try square on %s at %s: knife a line up.", base, s.At)
	case OnSquare:
		say = onSlope(f, s, angle, "Strike the line")
	case ByChord:
		say = byChord(f, s, angle, "Strike the line")
	default:
		tool := "Set the bevel to"
		if s.Turned {
			tool = "Turn the bevel over and set it to"
		}
		say = fmt.Sprintf("%s %s. Stock on %s, strike a line from %s.", tool, angle, base, s.At)
		if s.obtuse() {
			say += fmt.Sprintf(" It leans away from %s.", s.Along)
		}
		say += surer(f, s, base)
	}
	return say + meeting(s)
}

// meeting is where the line of an angle meets what was drawn before.
func meeting(s SetAngle) string {
	if s.Meets == nil {
		return ""
	}
	return fmt.Sprintf(" It meets %s at %s.", line(s.Meets), s.To)
}

// onSlope sets an angle off by so far along and so far up.
func onSlope(f *figures, s SetAngle, angle, strike string) string {
	base := string(s.At + s.Along)
	say, along := "", base
	if s.Beyond != "" {
		say, along = fmt.Sprintf("Run %s on past %s. ", base, s.Beyond), "it"
	}
	return say + fmt.Sprintf("For %s at %s measure %s from %s along %s. From there square up %s. %s from %s through that mark.",
		angle, s.At, f.fine(s.Run, true), s.At, along, f.fine(s.Rise, true), strike, s.At)
}

// byChord sets an angle off by two arcs.
func byChord(f *figures, s SetAngle, angle, strike string) string {
	base, of := string(s.At+s.Along), "by its chord"
	if s.Rest {
		base, of = string(s.Along+s.At), "by the chord of the rest of 180°"
	}
	say, along := fmt.Sprintf("Set off %s at %s %s.", angle, s.At, of), base
	if s.Beyond != "" {
		say, along = say+fmt.Sprintf(" Run %s on past %s.", base, s.Beyond), "it"
	}
	return say + fmt.Sprintf(" Swing %s from %s across %s. From that crossing swing %s across the arc on %s's side. %s from %s through where they cross.",
		f.fine(s.Radius, true), s.At, along, f.fine(s.Chord, false), s.To, strike, s.At)
}

func (bench) mark(f *figures, s MarkOff) string {
	return fmt.Sprintf("Mark %s from %s on the line: %s.", f.told(s.Length, s.Measured), s.From, s.To)
}

func (bench) erect(f *figures, s Erect) string {
	at, say := footOf(f, s, "Run %s on, %s past %s: that is the foot. ", "Run %s on past %s. Mark %s from %s on it: that is the foot. ", "Mark %s from %s on %s: that is the foot. ")
	return say + fmt.Sprintf("Try square on %s at %s: knife it up. Mark %s up: %s.", s.From+s.Toward, at, f.told(s.Height, s.Measured), s.To)
}

// footOf is where a perpendicular stands, in three ways: before the baseline, behind it, on it.
func footOf(f *figures, s Erect, before, behind, on string) (at, say string) {
	from, base, past := squared(s)
	switch {
	case s.Along == 0:
		return string(s.From), ""
	case s.Along < 0:
		return "the foot", fmt.Sprintf(before, base, f.told(-s.Along, false), past)
	case past != "":
		return "the foot", fmt.Sprintf(behind, base, past, f.told(s.Along, false), from)
	}
	return "the foot", fmt.Sprintf(on, f.told(s.Along, false), from, base)
}

func (bench) parallel(f *figures, s construct.Parallel) string {
	return fmt.Sprintf("Gauge a line %s from %s, above it. %s lies on it.", f.told(s.Distance, s.Measured), s.Base[0]+s.Base[1], s.To)
}

func (bench) join(s Join) string { return "Knife " + chain(s.Names) + "." }

func (bench) checkSide(f *figures, side string, l unit.Length) string {
	return fmt.Sprintf("Rule on %s: it should read %s.", side, f.plain(l))
}

func (bench) checkAngle(_ *figures, at, angle string) string {
	return fmt.Sprintf("Try the bevel at %s: %s.", at, angle)
}

func (bench) checkHeight(f *figures, from geom.Name, side string, l unit.Length) string {
	return fmt.Sprintf("Square from %s to %s: it should read %s.", from, side, f.plain(l))
}
