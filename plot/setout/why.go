package setout

import (
	"fmt"

	"trammel/geom/pegging"
)

// why the way that is used, in a sentence; empty where there is no other.
func (s Sheet) why() string {
	r := s.Ranking
	used, other := r.Way(), r.Why.Other
	name := wayWords(other.Method) + " from " + edge(other.Base)
	hardly := fmt.Sprintf("%s is hardly surer (%.2f times); of those that are as good the ", upper(name), used.Times)
	switch r.Why.Code {
	case pegging.Surest:
		return sentence(pegging.Why(used, other, s.Inches()))
	case pegging.AsAsked:
		return "As asked for. " + sentence(pegging.Why(other, used, s.Inches()))
	case pegging.AskedAlike:
		return fmt.Sprintf("As asked for; the surest, %s, is hardly better (%.2f times).", name, used.Times)
	case pegging.Extends:
		return fmt.Sprintf("%s is %.2f times surer, but the line has to be extended to the foot of %s.", upper(name), used.Times, r.Why.Foot)
	case pegging.Longest:
		return hardly + "longest baseline is used."
	case pegging.Simplest:
		return hardly + "simplest is used."
	}
	return ""
}
