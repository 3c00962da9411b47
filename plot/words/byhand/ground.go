package byhand

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
)

// ground is said on a site. No protractor is there: angles are set off by their chords.
type ground struct{}

func (ground) length(h Piece, l unit.Length) string         { return h.Figures.Length(l) }
func (ground) draw() string                                 { return "draw" }
func (ground) tools() tools                                 { return tools{"compasses", "tape", "instrument", "square", "computed"} }
func (ground) carriedOn(side string, past geom.Name) string { return runOn(side, past) }
func (ground) computed(figures []string) string             { return areComputed(figures) }

func (ground) base(f *figures, s construct.DrawBase) string {
	return fmt.Sprintf("Peg %s. Pull %s and peg %s. String %s.", s.From, f.told(s.Length, s.Measured), s.To, s.From+s.To)
}

func (ground) swing(f *figures, s Swing) string {
	radius := f.told(s.Radius, s.Measured)
	_, arc := s.Meets.(construct.Swing)
	switch {
	case s.Meets == nil:
		return fmt.Sprintf("Tape on %s at %s: scratch an arc on %s's side.", centre(s), radius, s.To)
	case s.Touches:
		return fmt.Sprintf("Tape on %s at %s: it barely meets %s. Set %s where the tape stands square on that line.", centre(s), radius, line(s.Meets), s.To)
	case s.Twice:
		return fmt.Sprintf("Tape on %s at %s: swing it across %s. Two places fit: %s is the one %s. Peg %s.", centre(s), radius, line(s.Meets), s.To, f.whichSide(s), s.To)
	case arc:
		return fmt.Sprintf("Second tape on %s at %s: where both meet taut, peg %s.", centre(s), radius, s.To)
	}
	return fmt.Sprintf("Tape on %s at %s: where it meets %s, peg %s.", centre(s), radius, line(s.Meets), s.To)
}

func (ground) halfCircle(f *figures, s HalfCircle) string {
	say := fmt.Sprintf("Halve %s and set a pin. Tape on the pin, held at %s: scratch the half circle on %s's side.", s.over(), s.Over[0], s.To)
	switch {
	case s.Meets == nil:
		return say + fmt.Sprintf(" The square corner %s lies on it.", s.To)
	case s.Twice:
		return say + fmt.Sprintf(" It crosses %s twice: peg %s at the crossing %s.", line(s.Meets), s.To, s.which())
	}
	return say + fmt.Sprintf(" Where it crosses %s, peg %s.", line(s.Meets), s.To)
}

func (ground) third(at, angle string, known [2]string) string { return bench{}.third(at, angle, known) }

func (ground) angle(f *figures, s SetAngle) string {
	if s.By == RightAngle {
		return fmt.Sprintf("Square off %s at %s by 3-4-5, on %s's side, and run a string.", s.At+s.Along, s.At, s.To) + stringsMeet(s)
	}
	angle := f.corner(s)
	if s.By == OnSquare {
		return onSlope(f, s, angle, "Run a string") + stringsMeet(s)
	}
	if s.By == OnProtractor {
		pulled := f.Piece
		pulled.Reach = 0 // by tape
		s = pulled.chorded(s)
	}
	base, of := string(s.At+s.Along), "by its chord"
	if s.Rest {
		base, of = string(s.Along+s.At), "by the chord of the rest of 180°"
	}
	say, along := fmt.Sprintf("Lay off %s at %s %s.", angle, s.At, of), base
	if s.Beyond != "" {
		say, along = say+fmt.Sprintf(" String %s on beyond %s.", base, s.Beyond), "it"
	}
	radius := f.fine(s.Radius, true)
	return say + fmt.Sprintf(" Pull %s from %s along %s and set a mark. Tapes on %s at %s and on the mark at %s: where both meet taut on %s's side, set a pin. Run a string from %s through the pin.",
		radius, s.At, along, s.At, radius, f.fine(s.Chord, false), s.To, s.At) + stringsMeet(s)
}

func stringsMeet(s SetAngle) string {
	if s.Meets == nil {
		return ""
	}
	return fmt.Sprintf(" It crosses %s at %s: peg %s.", line(s.Meets), s.To, s.To)
}

func (ground) mark(f *figures, s MarkOff) string {
	return fmt.Sprintf("Pull %s from %s on the line. Peg %s.", f.told(s.Length, s.Measured), s.From, s.To)
}

func (ground) erect(f *figures, s Erect) string {
	at, say := footOf(f, s, "String %s on, %s beyond %s, and mark the foot. ", "String %s on beyond %s. Pull %s from %s on it and mark the foot. ", "Pull %s from %s on %s and mark the foot. ")
	return say + fmt.Sprintf("Square off at %s by 3-4-5, on %s's side. Pull %s along that line. Peg %s.", at, s.To, f.told(s.Height, s.Measured), s.To)
}

func (ground) parallel(f *figures, s construct.Parallel) string {
	d := f.told(s.Distance, s.Measured)
	return fmt.Sprintf("Square off %s twice, %s each time, on %s's side. String the two marks. %s lies on that line.", s.Base[0]+s.Base[1], d, s.To, s.To)
}

func (ground) join(s Join) string { return "String " + chain(s.Names) + "." }

func (ground) checkSide(f *figures, side string, l unit.Length) string {
	return fmt.Sprintf("Tape on %s: it should pull %s.", side, f.plain(l))
}

func (ground) checkAngle(_ *figures, at, angle string) string {
	return fmt.Sprintf("Instrument at %s: the angle should read %s. A tape alone does not show it.", at, angle)
}

func (ground) checkHeight(f *figures, from geom.Name, side string, l unit.Length) string {
	return fmt.Sprintf("Offset of %s from %s: it should pull %s.", from, side, f.plain(l))
}
