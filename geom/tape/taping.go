package tape

import "trammel/geom/unit"

// Taping is how the tape is used.
type Taping struct {
	Tools Tools
	// Corrected: pulls, checks, marks and nails are told as the tape reads. Weighed: for
	// what the tape is and how it is used, otherwise for the fall of the ground alone.
	Corrected, Weighed bool
	Standard           Standard
	Conditions         Conditions
}

// Limit is what one pull is good for: the tape's error, and peg and reading.
func (t Taping) Limit(l unit.Length) unit.Length { return t.Tools.Tape.Error(l) + t.Tools.Reading }

// Reads is what the tape shows of a length over a fall, and by what corrections.
func (t Taping) Reads(l, fall unit.Length) (unit.Length, Corrections) {
	if !t.Corrected {
		return l, Corrections{}
	}
	c := t.Conditions
	c.Fall = fall
	return shown(t.Standard, l, c)
}

// Leg is what a tape shows of a side of a square, square at any size: only the fall counts.
func Leg(l, fall unit.Length) (unit.Length, Corrections) {
	return shown(Standard{}, l, Conditions{Fall: fall})
}

// shown is the true length where the tape shows none: that is refused elsewhere.
func shown(s Standard, l unit.Length, c Conditions) (unit.Length, Corrections) {
	if r, by, err := s.Reading(l, c); err == nil {
		return r, by
	}
	return l, Corrections{}
}
