package words

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/words/checked"
	"trammel/plot/words/phrase"
)

func (s setOut) Why() string {
	r := s.Ranking
	used, other := r.Way(), r.Why.Other
	name := s.Way(other.Method) + " from " + edge(other.Base)
	hardly := fmt.Sprintf("%s is hardly surer (%.2f times); of those that are as good the ", phrase.Capital(name), used.Times)
	switch r.Why.Code {
	case pegging.Surest:
		return worse(used, other, s.Inches())
	case pegging.AsAsked:
		return "As asked for. " + worse(other, used, s.Inches())
	case pegging.AskedAlike:
		return fmt.Sprintf("As asked for; the surest, %s, is hardly better (%.2f times).", name, used.Times)
	case pegging.Extends:
		return fmt.Sprintf("%s is %.2f times surer, but the line has to be extended to the foot of %s.", phrase.Capital(name), used.Times, r.Why.Foot)
	case pegging.Longest:
		return hardly + "longest baseline is used."
	case pegging.Simplest:
		return hardly + "simplest is used."
	}
	return ""
}

// worse says why one way of setting out is less sure than the best: "swinging from AB
// crosses at 12° at C: 3.4 times worse than an offset from BC".
func worse(best, other pegging.Way, feet bool) string {
	far := func(mm float64, digits int) string {
		if feet {
			return unit.Decimals(mm/unit.Foot.MM(), 0) + " ft"
		}
		return unit.Decimals(mm/1000, digits) + " m"
	}
	what := map[pegging.Method]string{pegging.TwoArcs: "swinging", pegging.OffsetSquare: "an offset", pegging.AngleDistance: "turning the angle", pegging.Mixed: "going from peg to peg"}
	name := func(w pegging.Way) string { return fmt.Sprintf("%s from %s%s", what[w.Method], w.Base[0], w.Base[1]) }
	p := other.Pegs[other.Worst]
	text := name(other)
	switch {
	case other.Method == pegging.Mixed:
		text += fmt.Sprintf(" is least sure of %s", p.Name)
	case p.Crossing > 0:
		text += fmt.Sprintf(" crosses at %s° at %s", unit.Decimals(p.Crossing.Degrees(), 0), p.Name)
	case p.Square != (pegging.Square{}):
		text += fmt.Sprintf(" carries %s %s off a square of %s", p.Name, far(math.Abs(p.At.Y.MM()), 1), far(p.Square.Across.MM(), 2))
	default:
		text += fmt.Sprintf(" carries %s %s", p.Name, far(math.Hypot(p.At.X.MM(), p.At.Y.MM()), 1))
	}
	times := float64(other.Figure / best.Figure)
	if times < 1.05 {
		return Remark(text + ": as good as " + name(best)).Sentence()
	}
	return phrase.Remarked("%s: %s times worse than %s", text, unit.Decimals(times, 1), name(best)).Sentence()
}

func (s setOut) HowSure() string {
	said := fmt.Sprintf("Seen from %s, with the line to %s held: 95 of 100 times a peg lies within the figure below %q of its place. The figures along %s%s and across it are two fifths of that or less, and hold two times in three.",
		s.Baseline.From, s.Baseline.To, "both", s.Baseline.From, s.Baseline.To)
	if s.Permitted > 0 {
		said += fmt.Sprintf(" Permitted is ±%s√L mm, L in metres from the nearer end of the baseline, and ±%s mm below 5 m.", unit.Decimals(s.Permitted.MM(), 2), unit.Decimals(2*s.Permitted.MM(), 2))
	}
	return said
}

func (s setOut) Within() string {
	worst, outside := unit.Length(0), false
	for _, x := range s.Sure {
		worst = max(worst, x.SetOut)
		outside = outside || s.Permitted > 0 && !x.Inside
	}
	_, worst = s.Outward(0, worst)
	what := map[bool]string{false: "pegs stand", true: "marks lie"}[s.in.Voice == Floor]
	good := map[bool]string{true: "", false: "with all checks good, "}[len(s.Checks) == 0]
	widest := unit.Length(0)
	for _, c := range s.Checks {
		widest = max(widest, c.Greatest-c.Reads, c.Reads-c.Least)
	}
	why := "."
	if len(s.Checks) > 0 && worst > widest {
		why = ", more than one range: steps add up."
	}
	said := fmt.Sprintf("How sure: %s%s within %s of these figures, 95 of 100%s", good, what, s.Style.LengthUnit(worst), why)
	if outside {
		said += " Some are not as sure as is permitted: ask the office."
	}
	return said
}

func (s setOut) Outside() string {
	if len(s.Checks) == 0 {
		return ""
	}
	pull, peg := "pull", "peg"
	if s.in.Voice == Floor {
		pull, peg = "measure", "mark"
	}
	said := fmt.Sprintf("Out of range: read it again. Still out: set anew its \"to\" point, then its \"0 on\" point, first one where several meet, and all set from it. "+
		"No help: from step 1. Shift no %s to mend it.", peg)
	if steps := stepsThatSet(s); len(steps) <= mostListed {
		said += " Steps: " + strings.Join(steps, ", ") + "."
	}
	if blind := unseenIn(s); len(blind) > 0 {
		said += fmt.Sprintf(" No check shows a slip of %s at %s: %s twice.", s.Style.LengthUnit(pegging.Slip), geom.Listed(blind), pull)
	}
	return said
}

// unseenIn are the points at which no check shows a slip.
func unseenIn(s setOut) (all []string) {
	for _, i := range s.Unseen() {
		if to := string(s.Pulls[i].To); !slices.Contains(all, to) {
			all = append(all, to)
		}
	}
	return all
}

// mostListed is up to how many points are told with the steps that set them; the table of
// pulls tells it of more.
const mostListed = 12

// stepsThatSet are the points that checks are pulled between, each with the steps that set it:
// "C 3–4".
func stepsThatSet(s setOut) (all []string) {
	pulls := s.Pulled()
	for _, m := range s.Pegs {
		if !slices.ContainsFunc(s.Checks, func(c pegging.Check) bool { return c.From == m.Name || c.To == m.Name }) {
			continue
		}
		first, last := 1, 1 // the zero end
		for i, n := range slices.Backward(pulls) {
			if n > 0 && s.Pulls[n-1].To == m.Name {
				if first = i + 1; last <= first {
					last = first
				}
			}
		}
		if first == last {
			all = append(all, fmt.Sprintf("%s %d", m.Name, first))
		} else {
			all = append(all, fmt.Sprintf("%s %d–%d", m.Name, first, last))
		}
	}
	return all
}

// asRead says which figures are the tape's and which true, where it is corrected.
func asRead(s setOut) string {
	if !s.Corrected {
		return ""
	}
	said := "Pulls, steps, checks and marks are as the tape reads; the plan and the places of the pegs are true."
	if s.Falls {
		said += " Levels in " + s.Style.Name() + ": " + levelsOf(s, false) + "."
	}
	return said
}

func (s setOut) Rank() string {
	return strings.TrimSpace(fmt.Sprintf("%d ways compared, by the peg that each places worst. %s", s.Ranking.Of, s.Why()))
}

func (s setOut) Basis() []string {
	t, source := checked.OnePull(s.Tools)
	say := []string{
		fmt.Sprintf("Accept ranges: one pull is good within t = %s, L in metres rounded up (%s, common practice); "+
			"a check within the root of the sum of squares of its own t and of what each pull before it brings along, moved outward to %s.", t, source, checked.GrainWords(s.Figures)),
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
	return [...]string{"by the arcs", "by the square", "by the angle", "", "along the line"}[m]
}

// keeps is what an instrument keeps, in minutes or seconds.
func keeps(a unit.Angle) string {
	if a < unit.Degree/60 {
		return unit.Decimals(a.Degrees()*3600, 2) + "″"
	}
	return unit.Decimals(a.Degrees()*60, 2) + "′"
}
