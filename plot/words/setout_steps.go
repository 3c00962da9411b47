package words

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

func (o setOut) Steps() []string {
	s := &instructions{setOut: o}
	from, to := s.Baseline.From, s.Baseline.To
	s.add("Drive peg %s. Hold 0 on its nail; the helper pulls %s along the line you want and drives peg %s, so that the piece comes to lie %s. Stretch a string from %s to %s.",
		from, s.Figure(s.Pulls[0].Reads), to, s.lies(), from, to)
	s.extend()
	if len(s.On) > 0 {
		s.add("Leave 0 on %s and mark along the string: %s.", from, s.marksAlong())
	}
	if s.Lone() {
		s.loneSteps()
	} else {
		s.netSteps()
	}
	s.add("Pull every check and write it down. Where one lies outside its range do not shift a peg to mend it: pull again from step 1. No length shows a shape turned over: from %s look to %s, and see that %s.", from, to, s.seen())
	s.moreSteps()
	return s.all
}

// lies says on which side of the baseline the piece lies.
func (s *instructions) lies() string {
	if s.BothSides() {
		return fmt.Sprintf("on both sides of the line from %s to %s", s.Baseline.From, s.Baseline.To)
	}
	return fmt.Sprintf("on the %s as you look from %s to %s", s.OneSide(), s.Baseline.From, s.Baseline.To)
}

// seen says which corners lie on which side, as one sees it from the zero end.
func (s *instructions) seen() string {
	var says []string
	for _, side := range []pegging.Side{pegging.Left, pegging.Right} {
		var names []string
		for _, p := range s.Pegs {
			if p.Role == pegging.Corner && p.Side == side {
				names = append(names, string(p.Name))
			}
		}
		if len(names) > 0 {
			says = append(says, fmt.Sprintf("%s %s on the %s", geom.Listed(names), of(len(names), "lies", "lie"), side))
		}
	}
	return strings.Join(says, ", ")
}

// instructions are the steps while they are told.
type instructions struct {
	setOut
	all []string
}

func (s *instructions) add(format string, args ...any) {
	s.all = append(s.all, fmt.Sprintf(format, args...))
}

// extend says where the line of the baseline is wanted beyond its ends.
func (s *instructions) extend() {
	ends := [2]geom.Name{s.Baseline.From, s.Baseline.To}
	for i, end := range []geom.Name{ends[1], ends[0]} {
		other, last := ends[i], geom.Name("")
		var parts []string
		for _, p := range s.On {
			past := p.Along - s.Baseline.Length
			if i == 1 {
				past = -p.Along
			}
			if past > pegging.SameMark {
				reads, _ := s.Reads(past, s.Fall(end, p.Name))
				parts, last = append(parts, fmt.Sprintf("%s lies %s beyond %s", p.Name, s.Figure(reads), end)), p.Name
			}
		}
		if len(parts) > 0 {
			s.add("%s. Extend the line: stretch the string from %s over %s and past it, or sight from %s until %s and %s stand one behind the other.",
				strings.Join(parts, "; "), other, end, other, end, last)
		}
	}
}

// loneSteps place the only corner, and once more by the second way.
func (s *instructions) loneSteps() {
	main, second := s.Main[0], s.Second[0]
	apex := main.Peg
	standing := fmt.Sprintf("%s, on the %s:", apex, main.Side)
	switch main.Method {
	case pegging.TwoArcs:
		first, next := s.Pulls[main.Pulls[0]], s.Pulls[main.Pulls[1]]
		s.add("%s hold 0 on %s, pull %s, scratch an arc.", standing, first.Hold, s.Figure(first.Reads))
		s.add("Hold 0 on %s, pull %s, scratch an arc across the first. They cross at %s: %s. Drive peg %s at the crossing.",
			next.Hold, s.Figure(next.Reads), s.Style.Angle(main.Crossing.Angle), crossingNote(main.Crossing), apex)
	case pegging.OffsetSquare:
		s.squareStep(main, standing+" make ")
		s.add("Stretch a string from %s over %s. Hold 0 on %s, pull %s along it and drive peg %s.",
			main.Foot, s.Squares[main.Square].Top, main.Foot, s.Figure(s.Pulls[main.Pulls[3]].Reads), apex)
	default:
		s.setUp()
		s.add("%s %s", standing, s.turnStep(main))
	}
	a, b := s.PullTo(s.Middles[0].Name), s.PullTo(s.Middles[1].Name)
	s.add("Mark the middles for the checks: %s %s from %s, %s %s from %s, towards %s.",
		a.To, s.Figure(a.Reads), a.Hold, b.To, s.Figure(b.Reads), b.Hold, apex)
	if second.Method == pegging.OffsetSquare {
		s.squareStep(second, "The second way, as a check: ")
		s.add("Stretch a string from %s over %s. Hold 0 on %s: at %s along it stands peg %s.",
			second.Foot, s.Squares[second.Square].Top, second.Foot, s.Figure(s.Pulls[second.Pulls[3]].Reads), apex)
		return
	}
	first, next := s.Pulls[second.Pulls[0]], s.Pulls[second.Pulls[1]]
	how := "Both must pass its nail as near as the checks allow."
	if !second.Crossing.Sound {
		how = fmt.Sprintf("These arcs cross at %s, too flat to place %s by, but both must pass its nail as near as the checks allow.", s.Style.Angle(second.Crossing.Angle), apex)
	}
	s.add("The second way, as a check: swing %s from %s and %s from %s. %s",
		s.Figure(first.Reads), first.Hold, s.Figure(next.Reads), next.Hold, how)
}

// netSteps place corner after corner.
func (s *instructions) netSteps() {
	if len(s.Main) == 0 {
		return
	}
	from, to := s.Baseline.From, s.Baseline.To
	if s.Method == pegging.AngleDistance {
		s.setUp()
	}
	squared := map[int]bool{}
	for i, p := range s.Main {
		looking := ""
		if i == 0 {
			looking = fmt.Sprintf(" as you look from %s to %s", from, to)
		}
		switch p.Method {
		case pegging.TwoArcs:
			first, next := s.Pulls[p.Pulls[0]], s.Pulls[p.Pulls[1]]
			s.add("Peg %s. Hold 0 on %s, pull %s, scratch an arc; hold 0 on %s, pull %s, scratch across it. They cross at %s: %s. Of the two crossings take the one on the %s%s. Drive peg %s there.",
				p.Peg, first.Hold, s.Figure(first.Reads), next.Hold, s.Figure(next.Reads), s.Style.Angle(p.Crossing.Angle), crossingNote(p.Crossing), p.Side, looking, p.Peg)
		case pegging.OffsetSquare:
			q := s.Squares[p.Square]
			if !squared[p.Square] {
				squared[p.Square] = true
				s.squareStep(p, fmt.Sprintf("On the %s%s, make ", p.Side, looking))
			}
			s.add("Peg %s, on the %s. Stretch a string from %s over %s. Hold 0 on %s, pull %s along it and drive peg %s.",
				p.Peg, p.Side, q.At, q.Top, q.At, s.Figure(s.Pulls[p.Pulls[3]].Reads), p.Peg)
		default:
			s.add("Peg %s, on the %s%s. %s", p.Peg, p.Side, looking, s.turnStep(p))
		}
	}
}

// setUp places the instrument.
func (s *instructions) setUp() {
	from, to := s.Baseline.From, s.Baseline.To
	if s.Instrument.Name == tape.Theodolite.Name {
		s.add("Set up the theodolite over the nail of %s, level it, sight the nail of %s and set the circle to 0.", from, to)
		return
	}
	s.add("Lay the %s with its centre on the nail of %s and its 0 along the string to %s.", s.Instrument.Name, from, to)
}

// turnStep turns the angle and pulls along the sight.
func (s *instructions) turnStep(p pegging.Placing) string {
	turn, ray := s.Pulls[p.Pulls[0]], s.Pulls[p.Pulls[1]]
	if s.Instrument.Name != tape.Theodolite.Name {
		return fmt.Sprintf("Mark %s to the %s of %s and stretch a string from %s over the mark. Hold 0 on %s, pull %s along it and drive peg %s.",
			s.Turned(turn.Angle), turn.Side, s.Baseline.To, turn.Hold, ray.Hold, s.Figure(ray.Reads), p.Peg)
	}
	circle := "" // reads clockwise
	if turn.Side == pegging.Left {
		circle = fmt.Sprintf(" (on a circle that counts clockwise: %s)", s.Turned(unit.Turn-s.RoundedAngle(turn.Angle)))
	}
	return fmt.Sprintf("Turn %s to the %s of %s%s. Hold 0 on %s, pull %s along the sight and drive peg %s.",
		s.Turned(turn.Angle), turn.Side, s.Baseline.To, circle, ray.Hold, s.Figure(ray.Reads), p.Peg)
}

// moreSteps are the marks along the edges and the profile boards.
func (s *instructions) moreSteps() {
	if len(s.Marks) > 0 {
		s.add("Marks along the edges, every %s: stretch a string from corner to corner, hold 0 on the first and mark as the table says. Where no line can be stretched, set each mark off from the baseline: along, then square out.",
			s.Style.LengthUnit(s.Every))
	}
	if len(s.Nails) == 0 {
		return
	}
	s.add("Profile boards: beyond each corner set a board square across the line of each edge, its near face at the distance in the table, its top level with the others and firmly staked.")
	s.add("Stretch each string over the two nails of its edge to the boards, shift it until a plumb bob on it hangs over both pegs, and drive a nail into each board under it. Strings cross over the corners: after digging stretch them again and plumb down.")
}

// marksAlong lists running distances: "F at 3600 (foot); M at 4000 (middle)".
func (s *instructions) marksAlong() string {
	var parts []string
	for _, p := range s.On {
		what := "middle"
		switch p.Role {
		case pegging.Foot:
			what = "foot"
			if !s.Lone() {
				what = s.Peg(p)
			}
			if p.Also {
				what += ", middle"
			}
		case pegging.Corner:
			what = "a peg"
		}
		pull := s.PullTo(p.Name)
		at := s.Figure(pull.Reads)
		if pull.Behind {
			at += " behind " + string(s.Baseline.From)
		}
		text := fmt.Sprintf("%s at %s (%s)", p.Name, at, what)
		own, _ := s.Layout.Peg(p.Name)
		for _, q := range s.Pegs { // each pair once
			if q.At.Distance(p.At) < tape.OnePeg && (q.Number < own.Number || q.Role == pegging.Corner && q.Side != pegging.OnLine) {
				text += fmt.Sprintf(", on one peg with %s", q.Name)
			}
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// squareStep tells the 3-4-5 triangle, with two pulls and, where the tape is long
// enough for the rest of the work, as one loop.
func (s *instructions) squareStep(p pegging.Placing, opening string) {
	q, f := s.Squares[p.Square], s.Figure
	loop := ""
	if q.Loop[2] <= s.Longest() { // else it wants a longer tape than anything else
		loop = fmt.Sprintf(" (Or in one loop: hold 0 and %s together on %s and %s on %s, draw the tape tight at %s: %s.)",
			f(q.Loop[2]), q.At, f(q.Loop[0]), q.Leg, f(q.Loop[1]), q.Top)
	}
	legs := s.LegsOf(q)
	s.add("%sa square at %s by 3-4-5, on the side of %s. Hold 0 on %s and mark %s on the string, %s towards %s. Hold 0 on %s, pull %s and scratch an arc; hold 0 on %s, pull %s and scratch across it: %s.%s",
		opening, q.At, p.Peg, q.At, q.Leg, f(legs[0]), q.Toward, q.At, f(legs[1]), q.Leg, f(legs[2]), q.Top, loop)
}
