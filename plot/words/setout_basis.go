package words

import (
	"fmt"

	"trammel/geom/pegging"
	"trammel/geom/unit"
)

func (s setOut) Basis() []string {
	t, source := onePull(s.Tools)
	say := []string{
		fmt.Sprintf("Accept ranges: one pull is good within t = %s, L in metres rounded up (%s, common practice); "+
			"a check within the root of the sum of squares of its own t and of what each pull before it brings along, moved outward to %s.", t, source, grainWords(s.Figures)),
	}
	if s.Method == pegging.AngleDistance {
		i := s.Instrument
		say = append(say, fmt.Sprintf("Angles: the %s keeps %s, and %s mm over a nail (common practice).", i.Name, keeps(i.Angle), unit.Decimals(i.Centring.MM(), 2)))
	}
	const felt = unit.Length(0.5) // less is lost on a nail
	if s.Lone() {
		main, second := s.Main[0], s.Second[0]
		if max(main.Rounding, second.Rounding) >= felt {
			say = append(say, fmt.Sprintf("Rounding the printed figures moves %s %s %s, %s %s.",
				main.Peg, s.Tight(main.Rounding), by(main.Method), s.Tight(second.Rounding), by(second.Method)))
		}
		return say
	}
	worst := -1
	for i, p := range s.Main {
		if p.Rounding >= felt && (worst < 0 || p.Rounding > s.Main[worst].Rounding) {
			worst = i
		}
	}
	if worst >= 0 {
		say = append(say, fmt.Sprintf("Rounding the printed figures moves %s %s, no other peg more.", s.Main[worst].Peg, s.Tight(s.Main[worst].Rounding)))
	}
	return say
}

func by(m pegging.Method) string {
	return [...]string{"by the arcs", "by the square", "by the angle"}[m]
}

// keeps is what an instrument keeps, in minutes or seconds.
func keeps(a unit.Angle) string {
	if a < unit.Degree/60 {
		return unit.Decimals(a.Degrees()*3600, 2) + "″"
	}
	return unit.Decimals(a.Degrees()*60, 2) + "′"
}
