package words

import (
	"fmt"

	"trammel/geom/pegging"
)

// Step is a sentence of the work, and how many pulls it is for.
type Step struct {
	Pulls int
	Words string
}

// both arcs of a peg in one sentence. Arguments: the length and the mark of each, the side,
// the peg.
var both = map[bool]string{
	false: "Tapes %s from %s, %s from %s: where both meet, %s, peg %s.",
	true:  "Swing %s from %s and %s from %s: the cross, %s, is %s.",
}

func (o setOut) Short() (all []Step) {
	s := instructed(o)
	var first *pegging.Pull // the arc that waits for the other
	for i, p := range o.Pulls {
		next := i+1 < len(o.Pulls) && o.Pulls[i+1].Use == pegging.ForArc && o.Pulls[i+1].To == p.To && o.Pulls[i+1].Part == p.Part
		switch {
		case p.Part == pegging.SecondWay:
			continue
		case p.Use == pegging.ForArc && first == nil && next:
			first = &o.Pulls[i]
			continue
		case first != nil:
			s.both(*first, p)
			all, first = append(all, Step{Pulls: 2}), nil
		default:
			s.pull(p)
			all = append(all, Step{Pulls: 1})
		}
	}
	s.moreSteps()
	s.closed()
	for i, said := range s.all {
		if i == len(all) {
			all = append(all, Step{Pulls: 1})
		}
		all[i].Words = said
	}
	return all
}

// both tells of two arcs that cross.
func (s *instructions) both(p, q pegging.Pull) {
	x := s.placed(p)
	said := fmt.Sprintf(both[s.in.Voice == Floor], s.Figure(p.Reads), p.Hold, s.Figure(q.Reads), q.Hold, "on the "+s.on(x.Side, x.Base), p.To) + s.zeros()
	if !x.Crossing.Sound {
		said += fmt.Sprintf(s.says.flat, s.Style.Angle(x.Crossing.Angle))
	}
	s.add("%s", said)
}
