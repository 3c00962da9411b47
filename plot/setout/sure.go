package setout

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom/pegging"
	"trammel/geom/unit"
)

// why the way that is used, in a sentence; empty where there is no other.
func (s says) why() string {
	r := s.Ranking
	used, other := r.Way(), r.Why.Other
	name := wayWords(other.Method) + " from " + edge(other.Base)
	hardly := fmt.Sprintf("%s is hardly surer (%.2f times); of those that are as good the ", upper(name), used.Times)
	switch r.Why.Code {
	case pegging.Surest:
		return sentence(gain(used, other, s.Inches()))
	case pegging.AsAsked:
		return "As asked for. " + sentence(gain(other, used, s.Inches()))
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

// sureWords say what the figures of how sure it is mean.
func (s says) sureWords() string {
	words := fmt.Sprintf("Seen from %s, with the line to %s held: 95 of 100 times a peg lies within the figure below %q of its place. σ is two fifths of that or less, along %s%s and across it.",
		s.Baseline.From, s.Baseline.To, "both", s.Baseline.From, s.Baseline.To)
	if s.Permitted > 0 {
		words += fmt.Sprintf(" Permitted is ±%s√L mm, L in metres from the nearer end of the baseline, and ±%s mm below 5 m.", unit.Decimals(s.Permitted.MM(), 2), unit.Decimals(2*s.Permitted.MM(), 2))
	}
	return words
}

// sureInWords is what the two tables say, in less room.
func (s says) sureInWords() string {
	var both, measured, out, along, across []string
	for _, x := range s.Sure[1:] { // the zero end is where it is
		words := string(x.Peg) + " " + s.Small(x.Both)
		if s.Permitted > 0 {
			words += fmt.Sprintf(" (%s what is permitted, %s)", sureNote(x), s.Small(x.Permitted))
		}
		both, measured, out = append(both, words), append(measured, s.Small(x.Measured)), append(out, s.Small(x.SetOut))
		along, across = append(along, s.Small(x.Along)), append(across, s.Small(x.Across))
	}
	row := func(figures []string) string { return strings.Join(figures, ", ") }
	return fmt.Sprintf("How sure, 95 %% in %s, seen from %s along %s%s: %s; of it as measured %s, as set out %s; σ along %s, across %s. %s",
		s.SmallUnit(), s.Baseline.From, s.Baseline.From, s.Baseline.To, row(both), row(measured), row(out), row(along), row(across), s.waysInWords())
}

// waysInWords is the ranking in a paragraph.
func (s says) waysInWords() string {
	const told = 3 // of the ways
	var ways []string
	for i, x := range s.Ranking.Best {
		if i >= told && i != s.Ranking.Used {
			continue
		}
		words := fmt.Sprintf("%s from %s %s", wayWords(x.Method), edge(x.Base), s.Small(x.Figure))
		if i == s.Ranking.Used {
			words += " (used)"
		}
		ways = append(ways, words)
	}
	return fmt.Sprintf("Ways by their worst peg: %s. %s", strings.Join(ways, ", "), s.why())
}

func (s says) rankWords() string {
	return strings.TrimSpace(fmt.Sprintf("%d ways compared, by the peg that each places worst. %s", s.Ranking.Of, s.why()))
}

// gain says in a sentence what the best way gains over another of the ranking:
// "swinging from AC crosses at 27° at D: 3.1 times worse than an offset from AB".
// Distances are told in metres, or in whole feet.
func gain(best, other pegging.Way, feet bool) string {
	far := func(mm float64, digits int) string {
		if feet {
			return unit.Decimals(mm/unit.Foot.MM(), 0) + " ft"
		}
		return unit.Decimals(mm/1000, digits) + " m"
	}
	what := map[pegging.Method]string{pegging.TwoArcs: "swinging", pegging.OffsetSquare: "an offset", pegging.AngleDistance: "turning the angle"}
	name := func(w pegging.Way) string { return fmt.Sprintf("%s from %s%s", what[w.Method], w.Base[0], w.Base[1]) }
	p := other.Pegs[other.Worst]
	text := name(other)
	switch {
	case p.Crossing > 0:
		text += fmt.Sprintf(" crosses at %s° at %s", unit.Decimals(p.Crossing.Degrees(), 0), p.Name)
	case p.Square != pegging.Square{}:
		text += fmt.Sprintf(" carries %s %s off a square of %s", p.Name, far(math.Abs(p.At.Y.MM()), 1), far(p.Square.Across.MM(), 2))
	default:
		text += fmt.Sprintf(" carries %s %s", p.Name, far(math.Hypot(p.At.X.MM(), p.At.Y.MM()), 1))
	}
	times := float64(other.Figure / best.Figure)
	if times < 1.05 {
		return text + ": as good as " + name(best)
	}
	return text + fmt.Sprintf(": %s times worse than %s", unit.Decimals(times, 1), name(best))
}
