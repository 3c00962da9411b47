package words

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/words/phrase"
)

func (o setOut) Steps() []string { return told(o).all }

func (o setOut) Pulled() []int { return told(o).pulls }

func told(o setOut) *instructions {
	s := instructed(o)
	for _, p := range o.Pulls {
		if p.Part != pegging.SecondWay {
			s.now = p.Number
			s.pull(p)
		}
	}
	s.now = 0
	s.moreSteps()
	s.closed()
	return s
}

func (o setOut) SecondWay() []string {
	s := instructed(o)
	for _, p := range o.Pulls {
		if p.Part == pegging.SecondWay {
			s.pull(p)
		}
	}
	return s.all
}

// pulled is what the hand does with a pull, each in the words of its place. Arguments: the
// mark that holds the zero, the length, the mark that is made.
type pulled struct {
	base     string // and where the piece comes to lie, and the line
	run      string
	carry    string // before run: the mark, how far beyond, the end, the other end
	behind   string
	arc      string // and the side
	cross    string
	leg      string // the foot, the length, the mark, the corner, the end towards which
	up       string
	top      string
	line     string // a mark on the line of two, and that line
	past     string // the same beyond the second, and that one
	snap     string // before leg: the line that it stands on
	offset   string // and the top
	aside    string // the same, how far it then turns aside, from which end towards which
	sight    string // along a sight
	middle   string // and the line
	flat     string // the angle of a flat crossing
	strings  string // two lines
	standing string // what a second way finds, instead of a peg
	checks   string // the ends of the baseline, and what is to be seen
	boards   string // profile boards, or what a floor has
	nails    string // and what runs from one to the other
	twice    string // where there is no check
	edges    string // distance between marks
}

// handsOn is what setting out says by its place: a floor has no pegs.
var handsOn = map[bool]pulled{
	false: {
		base:     "Peg %[1]s. Tape's 0 on %[1]s: pull %[2]s along the line you want and peg %[3]s; the piece comes to lie %[4]s. String %[5]s.",
		run:      "Tape still on %s: at %s mark %s on the string.",
		carry:    "%s lies %s beyond %s: stretch the string from %s over %[3]s and on, or sight until the pegs stand one behind the other. ",
		behind:   "Tape on %s, away from the piece: at %s mark %s on the string.",
		arc:      "Tape on %s at %s: pull it out on %s's side: %s.",
		cross:    "Second tape on %s at %s: where both meet, peg %s.",
		leg:      "Square off at %[1]s by 3-4-5, on %[4]s's side: %[6]s. Tape on %[1]s at %[2]s: mark %[3]s on the string, towards %[5]s.",
		up:       "Tape on %s at %s: pull it out to where %s is to stand.",
		top:      "Second tape on %s at %s: where both meet, peg %s.",
		line:     "String %[4]s. Tape on %[1]s: at %[2]s mark %[3]s on the string.",
		past:     "Stretch a string from %[1]s over %[5]s and on, or sight until the pegs stand one behind the other. Tape on %[1]s: at %[2]s mark %[3]s on the string.",
		snap:     "String %s. ",
		offset:   "String from %[1]s over %[4]s. Tape on %[1]s: pull %[2]s along it and peg %[3]s.",
		aside:    "String from %[1]s over %[4]s. Tape on %[1]s: pull %[2]s along it, there turn square, and %[5]s on, the way from %[6]s to %[7]s, peg %[3]s.",
		sight:    "Tape on %s: pull %s along the sight and peg %s.",
		middle:   "Tape on %s, along %[4]s: at %[2]s mark %[3]s.",
		flat:     " The tapes cross flat, at %s: go slowly, the checks decide.",
		strings:  " String %s and %s.",
		standing: "there stands",
		checks:   "Pull every check and write down what you read. Stand at %s and look to %s: %s.",
		boards:   "Profile boards: beyond each corner set a board square across the line of each edge, its near face at the distance in the table, its top level with the others and firmly staked.",
		nails:    "Stretch each string over the two nails of its edge to the boards, shift it until a plumb bob on it hangs over both pegs, and drive a nail into each board under it. Strings cross over the corners: after digging stretch them again and plumb down.",
		twice:    "No line is left to check by: pull every length a second time, zero and reading changed over.",
		edges:    "Marks along the edges, every %s: string from corner to corner, tape on the first, mark as the table says. Where no string can run, set each mark off from the baseline: along, then square out.",
	},
	true: {
		base:     "Mark %[1]s on the floor. Tape's 0 on %[1]s: measure %[2]s along the line you want and mark %[3]s; the piece comes to lie %[4]s. Snap %[5]s.",
		run:      "Tape still on %s: at %s mark %s on the line.",
		carry:    "%s lies %s beyond %s: carry the chalk line from %s over %[3]s and on. ",
		behind:   "Tape on %s, away from the piece: at %s mark %s on the line.",
		arc:      "From %s swing %s with tape and pencil, on %s's side: %s.",
		cross:    "From %s swing %s across it: the cross is %s.",
		leg:      "Square up at %[1]s by 3-4-5, on %[4]s's side: %[6]s. Tape on %[1]s at %[2]s: mark %[3]s on the line, towards %[5]s.",
		up:       "From %s swing %s where %s is to stand.",
		top:      "From %s swing %s across it: the cross is %s.",
		line:     "Snap %[4]s. Tape on %[1]s: at %[2]s mark %[3]s on the line.",
		past:     "Carry a chalk line from %[1]s over %[5]s and on. Tape on %[1]s: at %[2]s mark %[3]s on the line.",
		snap:     "Snap %s. ",
		offset:   "Snap a line from %[1]s over %[4]s. Tape on %[1]s: measure %[2]s along it and mark %[3]s.",
		aside:    "Snap a line from %[1]s over %[4]s. Tape on %[1]s: measure %[2]s along it, there turn square, and %[5]s on, the way from %[6]s to %[7]s, mark %[3]s.",
		sight:    "Tape on %s: measure %s along the sight and mark %s.",
		middle:   "Tape on %s, along %[4]s: at %[2]s mark %[3]s.",
		flat:     " The arcs cross flat, at %s: go slowly, the checks decide.",
		strings:  " Snap %s and %s.",
		standing: "there lies",
		checks:   "Measure every check and write down what you read. Stand at %s and look to %s: %s.",
		boards:   "Marks beyond the corners: carry the chalk line of each edge on over both its corners, and pencil a cross on it at the distance in the table.",
		nails:    "Once a corner is covered, snap each edge again from cross to cross: the lines cross in the corners.",
		twice:    "No line is left to check by: measure every length a second time, zero and reading changed over.",
		edges:    "Marks along the edges, every %s: tape from corner to corner, 0 on the first, mark as the table says. Where something stands in the way, set each mark off from the baseline: along, then square out.",
	},
}

// instructions are the steps while they are told.
type instructions struct {
	setOut
	says pulled
	side bool // it was said from where left and right count
	two  bool // it was said who keeps the zeros of two tapes
	all  []string

	now   int   // number of the pull that is told
	pulls []int // of each of all; 0: none
}

func instructed(s setOut) *instructions {
	return &instructions{setOut: s, says: handsOn[s.in.Voice == Floor]}
}

func (s *instructions) add(format string, args ...any) {
	s.all, s.pulls = append(s.all, fmt.Sprintf(format, args...)), append(s.pulls, s.now)
}

// pull is a step: one pull of the tape, or one angle.
func (s *instructions) pull(p pegging.Pull) {
	reads := s.Figure(p.Reads)
	switch p.Use {
	case pegging.ForBaseline:
		s.add(s.says.base, p.Hold, reads, p.To, s.lies(), edge([2]geom.Name{p.Hold, p.To}))
	case pegging.ForRunning:
		s.running(p)
	case pegging.ForArc:
		s.swung(p)
	case pegging.ForLeg:
		s.leg(p)
	case pegging.ForLine:
		how := s.says.line
		if mark, _ := s.Layout.Peg(p.To); mark.At.Distance(s.Spot(p.Line[0])) > s.Between(p.Line[0], p.Line[1]) {
			how = s.says.past
		}
		s.add(s.made(p.To, how), p.Hold, reads, p.To, edge(p.Line), p.Line[1])
	case pegging.ForHeight:
		q := s.squareOf(p.To)
		if p.Aside == 0 {
			s.add(s.placing(p, s.says.offset), p.Hold, reads, p.To, q.Top)
			return
		}
		from := q.Base[0]
		if from == p.Toward {
			from = q.Base[1]
		}
		s.add(s.says.aside, p.Hold, reads, p.To, q.Top, s.Figure(p.Aside), from, p.Toward)
	case pegging.ForAngle:
		s.turned(p)
	case pegging.ForRay:
		s.add(s.placing(p, s.says.sight), p.Hold, reads, p.To)
	case pegging.ForMiddle:
		s.add(s.made(p.To, s.says.middle), p.Hold, reads, p.To, edge([2]geom.Name{p.Hold, s.Beside[0]}))
	}
}

// placing is a sentence that makes a peg; a second way finds that it stands there.
func (s *instructions) placing(p pegging.Pull, format string) string {
	if p.Part != pegging.SecondWay {
		return format
	}
	for _, verb := range []string{"peg %", "mark %", "the cross is %"} {
		if i := strings.LastIndex(format, verb); i >= 0 {
			return format[:i] + s.says.standing + " %" + format[i+len(verb):]
		}
	}
	return format
}

// made is a sentence that marks a point on a string, or pegs it there.
func (s *instructions) made(n geom.Name, format string) string {
	if pegged(s.setOut, n) {
		return strings.Replace(format, "mark %", "peg %", 1)
	}
	return format
}

// zeros says once who keeps both zeros of two tapes: they lie on two pegs.
func (s *instructions) zeros() string {
	if s.two || s.in.Voice == Floor {
		return ""
	}
	s.two = true
	return " Pull both taut; the helper keeps both 0 on their nails."
}

// running is a mark on the line, which is carried on where it lies beyond an end.
func (s *instructions) running(p pegging.Pull) {
	from, to := s.Baseline.From, s.Baseline.To
	mark, _ := s.Layout.Peg(p.To)
	carry := ""
	for _, x := range []struct {
		past       unit.Length
		end, other geom.Name
	}{{mark.Along - s.Baseline.Length, to, from}, {-mark.Along, from, to}} {
		if x.past > pegging.SameMark {
			reads, _ := s.Reads(x.past, s.Fall(x.end, p.To))
			carry = fmt.Sprintf(s.says.carry, p.To, s.Figure(reads), x.end, x.other)
		}
	}
	how := s.says.run
	if p.Behind {
		how = s.says.behind
	}
	shared := ""
	for _, q := range s.Pegs { // each pair once
		if q.Name != p.To && q.At.Distance(mark.At) < tape.OnePeg && (q.Number < mark.Number || q.Role == pegging.Corner && q.Side != pegging.OnLine) {
			shared += fmt.Sprintf(", on one peg with %s", q.Name)
		}
	}
	if shared == "" {
		how = s.made(p.To, how)
	}
	s.add("%s", carry+strings.TrimSuffix(fmt.Sprintf(how, p.Hold, s.Figure(p.Reads), p.To), ".")+shared+".")
}

// placed is how a corner is placed, in the way that a pull belongs to.
func (s *instructions) placed(p pegging.Pull) pegging.Placing {
	way := s.Main
	if p.Part == pegging.SecondWay {
		way = s.Second
	}
	for _, x := range way {
		if x.Peg == p.To {
			return x
		}
	}
	return pegging.Placing{}
}

func (s *instructions) swung(p pegging.Pull) {
	x := s.placed(p)
	if p.Hold == x.Base[0] {
		s.add(s.says.arc, p.Hold, s.Figure(p.Reads), p.To, s.on(x.Side, x.Base))
		return
	}
	said := fmt.Sprintf(s.placing(p, s.says.cross), p.Hold, s.Figure(p.Reads), p.To) + s.zeros()
	if !x.Crossing.Sound {
		said += fmt.Sprintf(s.says.flat, s.Style.Angle(x.Crossing.Angle))
	}
	if s.Lone() && p.Part != pegging.SecondWay {
		said += fmt.Sprintf(s.says.strings, edge([2]geom.Name{s.Baseline.From, p.To}), edge([2]geom.Name{s.Baseline.To, p.To}))
	}
	s.add("%s", said)
}

// on says on which side of a line, and of the baseline once from where it counts.
func (s *instructions) on(side pegging.Side, line [2]geom.Name) string {
	if line == [2]geom.Name{s.Baseline.From, s.Baseline.To} {
		if s.side {
			return side.String()
		}
		s.side = true
	}
	return fmt.Sprintf("%s, as you look from %s to %s", side, line[0], line[1])
}

// squareOf is the square that a corner is set off by.
func (s *instructions) squareOf(n geom.Name) pegging.Squaring {
	for _, x := range append(append([]pegging.Placing{}, s.Main...), s.Second...) {
		if x.Peg == n && x.Square >= 0 {
			return s.Squares[x.Square]
		}
	}
	return pegging.Squaring{}
}

// leg is one of the three sides of a square.
func (s *instructions) leg(p pegging.Pull) {
	for i, q := range s.Squares {
		switch {
		case p.Hold == q.At && p.To == q.Leg:
			said := fmt.Sprintf(s.says.leg, p.Hold, s.Figure(p.Reads), p.To, s.over(i), q.Toward, s.on(q.Side, q.Base))
			if q.Base != [2]geom.Name{s.Baseline.From, s.Baseline.To} && (p.Hold == q.Base[0] || p.Hold == q.Base[1]) {
				said = fmt.Sprintf(s.says.snap, edge(q.Base)) + said
			}
			s.add("%s", said)
		case p.Hold == q.At && p.To == q.Top:
			s.add(s.says.up, p.Hold, s.Figure(p.Reads), p.To)
		case p.Hold == q.Leg && p.To == q.Top:
			s.add(s.says.top, p.Hold, s.Figure(p.Reads), p.To)
		}
	}
}

// over is the corner that a square was made for, the first of them.
func (s *instructions) over(square int) geom.Name {
	for _, x := range append(append([]pegging.Placing{}, s.Main...), s.Second...) {
		if x.Square == square {
			return x.Peg
		}
	}
	return ""
}

// turned turns an angle, by an instrument that is set up before the first one.
func (s *instructions) turned(p pegging.Pull) {
	from, to := s.Baseline.From, s.Baseline.To
	first := true
	for _, q := range s.Pulls[:p.Number-1] {
		first = first && q.Use != pegging.ForAngle
	}
	theodolite, said := s.Instrument.Name == tape.Theodolite.Name, ""
	switch {
	case first && theodolite:
		said = fmt.Sprintf("Set up the theodolite over %s, level it, sight %s and set the circle to 0. ", from, to)
	case first:
		said = fmt.Sprintf("Lay the %s with its centre on %s and its 0 along the line to %s. ", s.Instrument.Name, from, to)
	}
	angle := s.Turned(p.Angle)
	switch {
	case !theodolite:
		said += fmt.Sprintf("Mark %s to the %s of %s for %s and sight over the mark.", angle, p.Side, to, p.To)
	case p.Side == pegging.Left: // the circle reads clockwise
		said += fmt.Sprintf("Turn %s to the left of %s for %s; a circle that counts clockwise reads %s.", angle, to, p.To, s.Turned(unit.Turn-s.RoundedAngle(p.Angle)))
	default:
		said += fmt.Sprintf("Turn %s to the right of %s for %s.", angle, to, p.To)
	}
	s.add("%s", said)
}

// lies says on which side of the baseline the piece lies.
func (s *instructions) lies() string {
	from, to := s.Baseline.From, s.Baseline.To
	if s.BothSides() {
		return fmt.Sprintf("on both sides of the line from %s to %s", from, to)
	}
	s.side = true
	return fmt.Sprintf("on the %s as you look from %s to %s", s.OneSide(), from, to)
}

// seen says which corners lie on which side, as one sees it from the zero end.
func seen(s setOut) string {
	var says []string
	for _, side := range []pegging.Side{pegging.Left, pegging.Right} {
		var names []string
		for _, p := range s.Pegs {
			if p.Role == pegging.Corner && p.Side == side {
				names = append(names, string(p.Name))
			}
		}
		if len(names) > 0 {
			says = append(says, fmt.Sprintf("%s %s on your %s", geom.Listed(names), phrase.Of(len(names), "is", "are"), side))
		}
	}
	return strings.Join(says, ", ")
}

func (s setOut) Stand() string {
	return fmt.Sprintf("Stand at %s and look to %s: %s.", s.Baseline.From, s.Baseline.To, seen(s))
}

// closed is the last step: the checks.
func (s *instructions) closed() {
	if len(s.Checks) == 0 {
		s.add("%s", s.says.twice)
		return
	}
	s.add(s.says.checks, s.Baseline.From, s.Baseline.To, seen(s.setOut))
}

// moreSteps are the marks along the edges and the profile boards.
func (s *instructions) moreSteps() {
	if len(s.Marks) > 0 {
		s.add(s.says.edges, s.Style.LengthUnit(s.Every))
	}
	if len(s.Nails) == 0 {
		return
	}
	s.add("%s", s.says.boards)
	s.add("%s", s.says.nails)
}
