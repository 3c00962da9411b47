package setout

import (
	"math"

	"trammel/geom/unit"
)

// Class is the accuracy class of a tape after Directive 2014/32/EU, annex X
// (MI-008), the same as OIML R 35.
type Class uint8

const (
	ClassII Class = iota // the usual one
	ClassI
	ClassIII
)

func (c Class) String() string { return [...]string{"II", "I", "III"}[c] }

// Tape is what the lengths are pulled with.
type Tape struct {
	Class Class
	Hook  bool // the zero is a hook or the end of a case, which may be off as well
}

// classes are a, b and the hook's share, in mm, as annex X gives them.
var classes = [...]struct{ a, b, hook unit.Length }{
	ClassII:  {0.3, 0.2, 0.2},
	ClassI:   {0.1, 0.1, 0.1},
	ClassIII: {0.6, 0.4, 0.3},
}

// sameMetre keeps a length that is a whole number of metres but for rounding
// from counting as one metre more.
const sameMetre = 1e-9

// Error is the maximum permissible error of the tape over a length:
// a + b·L, L in metres rounded up.
func (t Tape) Error(l unit.Length) unit.Length {
	c := classes[t.Class]
	e := c.a + c.b*unit.Length(math.Ceil(l.MM()/1000*(1-sameMetre)))
	if t.Hook {
		e += c.hook
	}
	return e
}

// reading is what a nail in a peg and an eye over a tape add to one pull: common
// practice, no source.
const reading unit.Length = 1

// Limit is what one pull of the length is good for: the tape's error and 1 mm
// for peg and reading.
func (t Tape) Limit(l unit.Length) unit.Length { return t.Error(l) + reading }
