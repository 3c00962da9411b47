package pegging

import (
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Taping is how the tape is used.
type Taping struct {
	Tools tape.Tools
	// Corrected: pulls, checks, marks and nails are told as the tape reads. Weighed: for
	// what the tape is and how it is used, otherwise for the fall of the ground alone.
	Corrected, Weighed bool
	Standard           tape.Standard
	Conditions         tape.Conditions
}

// tapingOf what was asked; it is an error where no tape can be used so.
func tapingOf(a Asked) (Taping, error) {
	t := Taping{Tools: a.Tools, Corrected: a.Conditions != nil || len(a.Levels) > 0, Weighed: a.Conditions != nil}
	t.Tools.Reading = t.Tools.Complete().Reading
	t.Tools.Feet = tape.FiguresOf(a.Style, a.Tools.Instrument).Inches()
	if a.Conditions == nil {
		return t, nil
	}
	t.Standard, t.Conditions = a.Standard, *a.Conditions
	_, _, err := t.Standard.Reading(Most, t.Conditions)
	return t, err
}

// Limit is what one pull is good for: the tape's error, and peg and reading.
func (t Taping) Limit(l unit.Length) unit.Length { return t.Tools.Tape.Error(l) + t.Tools.Reading }

// Reads is what the tape shows of a length over a fall, and by what corrections.
func (t Taping) Reads(l, fall unit.Length) (unit.Length, tape.Corrections) {
	if !t.Corrected {
		return l, tape.Corrections{}
	}
	c := t.Conditions
	c.Fall = fall
	return shown(t.Standard, l, c)
}

// leg is the same of a side of a square, square at any size: only the fall counts.
func leg(l, fall unit.Length) (unit.Length, tape.Corrections) {
	return shown(tape.Standard{}, l, tape.Conditions{Fall: fall})
}

// shown is the true length where the tape shows none: that is refused elsewhere.
func shown(s tape.Standard, l unit.Length, c tape.Conditions) (unit.Length, tape.Corrections) {
	if r, by, err := s.Reading(l, c); err == nil {
		return r, by
	}
	return l, tape.Corrections{}
}
