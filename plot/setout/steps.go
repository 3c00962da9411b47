package setout

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// steps is the work in order, for one person with one helper.
func (w *work) steps() []Step {
	l := &lines{}
	from, to := w.Baseline.From, w.Baseline.To
	l.add("Drive peg %s. Hold 0 on its nail; the helper pulls %s along the line you want and drives peg %s, so that the piece comes to lie %s. Stretch a string from %s to %s.",
		from, w.Figure(w.Pulls[0].Reads), to, w.lies(), from, to)
	w.extend(l)
	if len(w.marksOn) > 0 {
		l.add("Leave 0 on %s and mark along the string: %s.", from, w.marksAlong())
	}
	if w.lone() {
		w.loneSteps(l)
	} else {
		w.netSteps(l)
	}
	l.add("Pull every check and write it down. Where one lies outside its range do not shift a peg to mend it: pull again from step 1. No length shows a shape turned over: from %s look to %s, and see that %s.", from, to, w.seen())
	w.moreSteps(l)
	return l.all
}

// lies says on which side of the baseline the piece lies.
func (w *work) lies() string {
	if w.bothSides() {
		return fmt.Sprintf("on both sides of the line from %s to %s", w.Baseline.From, w.Baseline.To)
	}
	return fmt.Sprintf("on the %s as you look from %s to %s", w.oneSide(), w.Baseline.From, w.Baseline.To)
}

// seen says which corners lie on which side, as one sees it from the zero end.
func (w *work) seen() string {
	var says []string
	for _, side := range []Side{Left, Right} {
		var names []string
		for _, p := range w.Pegs {
			if p.Role == Corner && p.Side == side {
				names = append(names, string(p.Name))
			}
		}
		if len(names) > 0 {
			lie := "lie"
			if len(names) == 1 {
				lie = "lies"
			}
			says = append(says, fmt.Sprintf("%s %s on the %s", geom.Listed(names), lie, side))
		}
	}
	return strings.Join(says, ", ")
}

type lines struct{ all []Step }

func (l *lines) add(format string, args ...any) {
	l.all = append(l.all, Step{len(l.all) + 1, fmt.Sprintf(format, args...)})
}

// extend says where the line of the baseline is wanted beyond its ends.
func (w *work) extend(l *lines) {
	from, to := w.Baseline.From, w.Baseline.To
	behind, beyond := w.marksBeyond()
	for _, x := range []struct {
		end, other geom.Name
		marks      []Peg
	}{{to, from, beyond}, {from, to, behind}} {
		if len(x.marks) == 0 {
			continue
		}
		var parts []string
		for _, p := range x.marks {
			past := p.Along - w.Baseline.Length
			if x.end == from {
				past = -p.Along
			}
			reads, _ := w.reads(past, w.fall(x.end, p.Name))
			parts = append(parts, fmt.Sprintf("%s lies %s beyond %s", p.Name, w.Figure(reads), x.end))
		}
		last := x.marks[len(x.marks)-1].Name
		l.add("%s. Extend the line: stretch the string from %s over %s and past it, or sight from %s until %s and %s stand one behind the other.",
			strings.Join(parts, "; "), x.other, x.end, x.other, x.end, last)
	}
}

// marksBeyond are the marks before the zero end of the baseline and past the other.
func (w *work) marksBeyond() (behind, beyond []Peg) {
	for _, p := range w.marksOn {
		switch {
		case p.Along < -sameMark:
			behind = append(behind, p)
		case p.Along > w.Baseline.Length+sameMark:
			beyond = append(beyond, p)
		}
	}
	return behind, beyond
}

// loneSteps place the only corner, and once more by the second way.
func (w *work) loneSteps(l *lines) {
	main, second := w.Main[0], w.Second[0]
	apex := main.Peg
	standing := fmt.Sprintf("%s, on the %s:", apex, main.Side)
	switch main.Method {
	case pegging.TwoArcs:
		first, next := w.Pulls[main.Pulls[0]], w.Pulls[main.Pulls[1]]
		l.add("%s hold 0 on %s, pull %s, scratch an arc.", standing, first.Hold, w.Figure(first.Reads))
		l.add("Hold 0 on %s, pull %s, scratch an arc across the first. They cross at %s: %s. Drive peg %s at the crossing.",
			next.Hold, w.Figure(next.Reads), w.Style.Angle(main.Crossing.Angle), main.Crossing.words(), apex)
	case pegging.OffsetSquare:
		w.squareStep(l, main, standing+" make ")
		l.add("Stretch a string from %s over %s. Hold 0 on %s, pull %s along it and drive peg %s.",
			main.Foot, w.Squares[main.Square].Top, main.Foot, w.Figure(w.Pulls[main.Pulls[3]].Reads), apex)
	default:
		w.setUp(l)
		l.add("%s %s", standing, w.turnStep(main))
	}
	a, b := w.pullTo(w.mids[0].Name), w.pullTo(w.mids[1].Name)
	l.add("Mark the middles for the checks: %s %s from %s, %s %s from %s, towards %s.",
		a.To, w.Figure(a.Reads), a.Hold, b.To, w.Figure(b.Reads), b.Hold, apex)
	if second.Method == pegging.OffsetSquare {
		w.squareStep(l, second, "The second way, as a check: ")
		l.add("Stretch a string from %s over %s. Hold 0 on %s: at %s along it stands peg %s.",
			second.Foot, w.Squares[second.Square].Top, second.Foot, w.Figure(w.Pulls[second.Pulls[3]].Reads), apex)
		return
	}
	first, next := w.Pulls[second.Pulls[0]], w.Pulls[second.Pulls[1]]
	how := "Both must pass its nail as near as the checks allow."
	if !second.Crossing.Sound {
		how = fmt.Sprintf("These arcs cross at %s, too flat to place %s by, but both must pass its nail as near as the checks allow.", w.Style.Angle(second.Crossing.Angle), apex)
	}
	l.add("The second way, as a check: swing %s from %s and %s from %s. %s",
		w.Figure(first.Reads), first.Hold, w.Figure(next.Reads), next.Hold, how)
}

// words say whether arcs that cross so are to be trusted.
func (c Crossing) words() string {
	if c.Sound {
		return "sound"
	}
	return "flat, so go slowly"
}

// pullTo is the pull that makes a mark.
func (w *work) pullTo(n geom.Name) Pull {
	for _, p := range w.Pulls {
		if p.To == n {
			return p
		}
	}
	return Pull{}
}

// netSteps place corner after corner.
func (w *work) netSteps(l *lines) {
	if len(w.Main) == 0 {
		return
	}
	from, to := w.Baseline.From, w.Baseline.To
	if w.Method == pegging.AngleDistance {
		w.setUp(l)
	}
	squared := map[int]bool{}
	for i, p := range w.Main {
		looking := ""
		if i == 0 {
			looking = fmt.Sprintf(" as you look from %s to %s", from, to)
		}
		switch p.Method {
		case pegging.TwoArcs:
			first, next := w.Pulls[p.Pulls[0]], w.Pulls[p.Pulls[1]]
			l.add("Peg %s. Hold 0 on %s, pull %s, scratch an arc; hold 0 on %s, pull %s, scratch across it. They cross at %s: %s. Of the two crossings take the one on the %s%s. Drive peg %s there.",
				p.Peg, first.Hold, w.Figure(first.Reads), next.Hold, w.Figure(next.Reads), w.Style.Angle(p.Crossing.Angle), p.Crossing.words(), p.Side, looking, p.Peg)
		case pegging.OffsetSquare:
			q := w.Squares[p.Square]
			if !squared[p.Square] {
				squared[p.Square] = true
				w.squareStep(l, p, fmt.Sprintf("On the %s%s, make ", p.Side, looking))
			}
			l.add("Peg %s, on the %s. Stretch a string from %s over %s. Hold 0 on %s, pull %s along it and drive peg %s.",
				p.Peg, p.Side, q.At, q.Top, q.At, w.Figure(w.Pulls[p.Pulls[3]].Reads), p.Peg)
		default:
			l.add("Peg %s, on the %s%s. %s", p.Peg, p.Side, looking, w.turnStep(p))
		}
	}
}

// setUp places the instrument.
func (w *work) setUp(l *lines) {
	from, to := w.Baseline.From, w.Baseline.To
	if w.Instrument.Name == tape.Theodolite.Name {
		l.add("Set up the theodolite over the nail of %s, level it, sight the nail of %s and set the circle to 0.", from, to)
		return
	}
	l.add("Lay the %s with its centre on the nail of %s and its 0 along the string to %s.", w.Instrument.Name, from, to)
}

// turnStep turns the angle and pulls along the sight.
func (w *work) turnStep(p Placing) string {
	turn, ray := w.Pulls[p.Pulls[0]], w.Pulls[p.Pulls[1]]
	if w.Instrument.Name != tape.Theodolite.Name {
		return fmt.Sprintf("Mark %s to the %s of %s and stretch a string from %s over the mark. Hold 0 on %s, pull %s along it and drive peg %s.",
			w.Turned(turn.Angle), turn.Side, w.Baseline.To, turn.Hold, ray.Hold, w.Figure(ray.Reads), p.Peg)
	}
	circle := "" // reads clockwise
	if turn.Side == Left {
		circle = fmt.Sprintf(" (on a circle that counts clockwise: %s)", w.Turned(unit.Turn-w.RoundedAngle(turn.Angle)))
	}
	return fmt.Sprintf("Turn %s to the %s of %s%s. Hold 0 on %s, pull %s along the sight and drive peg %s.",
		w.Turned(turn.Angle), turn.Side, w.Baseline.To, circle, ray.Hold, w.Figure(ray.Reads), p.Peg)
}

// moreSteps are the marks along the edges and the profile boards.
func (w *work) moreSteps(l *lines) {
	if len(w.Marks) > 0 {
		l.add("Marks along the edges, every %s: stretch a string from corner to corner, hold 0 on the first and mark as the table says. Where no line can be stretched, set each mark off from the baseline: along, then square out.",
			w.Style.LengthUnit(w.Every))
	}
	if len(w.Nails) == 0 {
		return
	}
	l.add("Profile boards: beyond each corner set a board square across the line of each edge, its near face at the distance in the table, its top level with the others and firmly staked.")
	l.add("Stretch each string over the two nails of its edge to the boards, shift it until a plumb bob on it hangs over both pegs, and drive a nail into each board under it. Strings cross over the corners: after digging stretch them again and plumb down.")
}

// marksAlong lists running distances: "F at 3600 (foot); M at 4000 (middle)".
func (w *work) marksAlong() string {
	var parts []string
	for _, p := range w.marksOn {
		what := "middle"
		switch p.Role {
		case Foot:
			what = "foot"
			if !w.lone() {
				what = p.Note
			}
			if p.Also {
				what += ", middle"
			}
		case Corner:
			what = "a peg"
		}
		pull := w.pullTo(p.Name)
		at := w.Figure(pull.Reads)
		if pull.Behind {
			at += " behind " + string(w.Baseline.From)
		}
		text := fmt.Sprintf("%s at %s (%s)", p.Name, at, what)
		for _, q := range w.Pegs {
			if q.Name == p.Name {
				break // each pair once
			}
			if q.At.Distance(p.At) < onePeg {
				text += fmt.Sprintf(", on one peg with %s", q.Name)
			}
		}
		for _, q := range w.Pegs {
			if q.Number > p.Number && q.Role == Corner && q.At.Distance(p.At) < onePeg {
				text += fmt.Sprintf(", on one peg with %s", q.Name)
			}
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// squareStep tells the 3-4-5 triangle, with two pulls and, where the tape is long
// enough for the rest of the work, as one loop.
func (w *work) squareStep(l *lines, p Placing, opening string) {
	q, f := w.Squares[p.Square], w.Figure
	loop := ""
	if q.Loop[2] <= w.longest() { // else it wants a longer tape than anything else
		loop = fmt.Sprintf(" (Or in one loop: hold 0 and %s together on %s and %s on %s, draw the tape tight at %s: %s.)",
			f(q.Loop[2]), q.At, f(q.Loop[0]), q.Leg, f(q.Loop[1]), q.Top)
	}
	legs := w.legsOf(q)
	l.add("%sa square at %s by 3-4-5, on the side of %s. Hold 0 on %s and mark %s on the string, %s towards %s. Hold 0 on %s, pull %s and scratch an arc; hold 0 on %s, pull %s and scratch across it: %s.%s",
		opening, q.At, p.Peg, q.At, q.Leg, f(legs[0]), q.Toward, q.At, f(legs[1]), q.Leg, f(legs[2]), q.Top, loop)
}

// legsOf are the sides of a square as the tape reads them: along, up and across.
func (w *work) legsOf(q Square) (legs [3]unit.Length) {
	legs[0], _ = w.leg(q.Along, w.fall(q.At, q.Leg))
	legs[1], _ = w.leg(q.Up, w.fall(q.At, q.Top))
	legs[2], _ = w.leg(q.Across, w.fall(q.Leg, q.Top))
	return legs
}

// bring is what to take along.
func (w *work) bring() []string {
	pegs := 0
	for i, p := range w.Pegs {
		if !slices.ContainsFunc(w.Pegs[:i], func(q Peg) bool { return q.At.Distance(p.At) < onePeg }) {
			pegs++
		}
	}
	all := []string{
		fmt.Sprintf("a tape of class %s, %s or longer", w.Tools.Tape.Class, w.reach(w.wanted())),
		fmt.Sprintf("%d pegs with a nail each", pegs),
		"string, hammer, plumb bob, thick pencil",
	}
	if w.Method == pegging.AngleDistance {
		all = append(all, "a "+w.Instrument.Name)
	}
	if w.Weighed {
		all = append(all, "a spring balance and a thermometer for the tape")
	}
	if n := len(w.Nails); n > 0 {
		all = append(all, fmt.Sprintf("%d boards on stakes, a level", n))
	}
	return all
}

// wanted is the longest length that the tape has to reach: a pull, a check, a mark or
// a string from nail to nail.
func (w *work) wanted() unit.Length {
	l := w.longest()
	for _, c := range w.Checks {
		l = max(l, c.Value)
	}
	for _, s := range w.Strings {
		l = max(l, s.Length)
	}
	return l
}

// crossingWords say how the arcs cross and what that does, where there is one corner.
func (s Sheet) crossingWords() string {
	if len(s.Second) == 0 || s.Method != pegging.TwoArcs && s.Second[0].Method != pegging.TwoArcs {
		return "" // none are swung
	}
	c := s.Main[0].Crossing
	words := fmt.Sprintf("The arcs cross at %s: ", s.Style.Angle(c.Angle))
	switch {
	case c.Sound:
		words += "sound"
	case s.Method == pegging.OffsetSquare:
		words += fmt.Sprintf("not sound, so the offset places %s", c.At)
	default:
		words += "not sound"
	}
	return words + fmt.Sprintf(" (%s to %s, common practice). An error in each pull grows %.1f times at %s.",
		s.Style.Angle(Flattest), s.Style.Angle(Bluntest), c.Spread, c.At)
}

// sameStep keeps a length that is a whole number of metres but for rounding from
// counting as one more.
const sameStep = 1e-9

// reach is the length of tape that a pull wants, in whole metres or feet.
func (s Sheet) reach(l unit.Length) string {
	if s.Inches() {
		return fmt.Sprintf("%.0f ft", math.Ceil(float64(l/unit.Foot)*(1-sameStep)))
	}
	return fmt.Sprintf("%.0f m", math.Ceil(float64(l/unit.Metre)*(1-sameStep)))
}
