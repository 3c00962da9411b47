package setout

import (
	"fmt"
	"strings"

	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// why the way that is used, in a sentence; empty where there is no other.
func (s says) why() string {
	r, say := s.Ranking, words.In(s.Language).Pegs()
	used, other := r.Way(), r.Why.Other
	name := wayWords(other.Method) + " from " + edge(other.Base)
	hardly := fmt.Sprintf("%s is hardly surer (%.2f times); of those that are as good the ", upper(name), used.Times)
	switch r.Why.Code {
	case pegging.Surest:
		return say.Why(used, other, s.Inches()).Sentence()
	case pegging.AsAsked:
		return "As asked for. " + say.Why(other, used, s.Inches()).Sentence()
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
