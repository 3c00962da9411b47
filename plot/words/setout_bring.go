package words

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

func (s setOut) Bring() []string {
	pegs := 0
	for i, p := range s.Pegs {
		if !slices.ContainsFunc(s.Pegs[:i], func(q pegging.Mark) bool { return q.At.Distance(p.At) < tape.OnePeg }) {
			pegs++
		}
	}
	all := []string{
		fmt.Sprintf("a tape of class %s, %s or longer", s.Tools.Tape.Class, reach(s.wanted(), s.Inches())),
		fmt.Sprintf("%d pegs with a nail each", pegs),
		"string, hammer, plumb bob, thick pencil",
	}
	if s.Method == pegging.AngleDistance {
		all = append(all, "a "+s.Instrument.Name)
	}
	if s.Weighed {
		all = append(all, "a spring balance and a thermometer for the tape")
	}
	if n := len(s.Nails); n > 0 {
		all = append(all, fmt.Sprintf("%d boards on stakes, a level", n))
	}
	return all
}

// wanted is the longest length that the tape has to reach: a pull, a check, a mark or
// a string from nail to nail.
func (s setOut) wanted() unit.Length {
	l := s.Longest()
	for _, c := range s.Checks {
		l = max(l, c.Value)
	}
	for _, s := range s.Strings {
		l = max(l, s.Length)
	}
	return l
}

// sameStep keeps a length that is a whole number of metres but for rounding from
// counting as one more.
const sameStep = 1e-9

// reach is the length of tape that a pull wants, in whole metres or feet.
func reach(l unit.Length, feet bool) string {
	if feet {
		return fmt.Sprintf("%.0f ft", math.Ceil(float64(l/unit.Foot)*(1-sameStep)))
	}
	return fmt.Sprintf("%.0f m", math.Ceil(float64(l/unit.Metre)*(1-sameStep)))
}
