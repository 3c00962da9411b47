package words

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/triangle"
)

// undecided tells of explanations that nothing tells apart.
func (c compared) undecided() []string {
	all := []string{"Move nothing yet: what was measured does not tell which of these it is."}
	seen := map[int]bool{}
	var again []string
	tape := ""
	for k, e := range c.Explanations {
		lead := "Or "
		if k == 0 {
			lead = "Either "
		}
		all = append(all, lead+c.perhaps(e)+c.besides(e))
		if e.Cause.OfTape() {
			tape = "Hold the tape against another one that is known to be right, over a short length and a long one."
		}
		for _, i := range e.Reading {
			if !seen[i] {
				seen[i] = true
				again = append(again, c.Readings[i].Measurement.Subject())
			}
		}
	}
	if !slices.ContainsFunc(c.Explanations, func(e compare.Explanation) bool { return len(e.Outside) == 0 }) {
		all = append(all, "Or more is wrong than one of these alone.")
	}
	if len(c.Held) == 0 && slices.ContainsFunc(c.Explanations, func(e compare.Explanation) bool { return len(e.Pegs) > 1 && e.Cause == compare.Alone }) {
		all = append(all, "If some of the pegs are known to stand fast, say that they are fixed, and check anew.")
	}
	if tape != "" {
		all = append(all, tape)
	}
	if first := c.firstAgain(); first != "" {
		all = slices.Insert(all, 1, first)
	}
	if len(again) > 0 {
		all = append(all, "Measure "+few(again)+" again.")
	}
	if t := c.Tell; t != nil {
		w := figures{c.style, triangle.Distance, 2}
		var says []string
		for _, g := range t.Alike {
			var which []string
			for _, i := range g {
				which = append(which, c.briefly(c.Explanations[i]))
			}
			says = append(says, fmt.Sprintf("near %s, %s", w.of(c.Reads(t.Reads[g[0]]).MM()), or(which)))
		}
		all = append(all, fmt.Sprintf("Measure %s as well: %s.", geom.Joined([]geom.Name{t.From, t.To}), strings.Join(says, "; ")))
	} else if len(again) == 0 && tape == "" {
		all = append(all, "Measure from one more peg, or set one out on purpose, to tell them apart.")
	}
	return all
}

// besides says which readings an explanation leaves outside, or brings there.
func (c compared) besides(e compare.Explanation) string {
	if len(e.Outside) == 0 {
		return ""
	}
	return " " + c.subjects(e.Outside) + " would lie outside even then."
}

// perhaps is an explanation with its moves, without the word it begins with.
func (c compared) perhaps(e compare.Explanation) string {
	switch {
	case e.Cause.OfTape():
		return small(c.tapeReads(e)) + "."
	case e.Cause != compare.Alone:
		return small(c.together(e)) + "."
	}
	var parts []string
	for _, m := range e.Pegs {
		parts = append(parts, strings.TrimSuffix(c.moved(m).stands(), "."))
	}
	if len(e.Reading) > 0 {
		parts = append(parts, c.misreads(e))
	}
	text := strings.Join(parts, ", and ") + "."
	for _, m := range e.Pegs {
		text += " " + c.moved(m).move("That would be mended by "+string(m.Name)+" going", "it")
	}
	return text
}

func (c compared) misreads(e compare.Explanation) string {
	return c.subjects(e.Reading) + of(len(e.Reading), " is", " are") + " misread"
}

// briefly is an explanation in a few words.
func (c compared) briefly(e compare.Explanation) string {
	switch e.Cause {
	case compare.TapeZero:
		return "the tape, or its hook, is wrong by the same everywhere"
	case compare.TapeScale:
		return "the tape is wrong in proportion"
	case compare.Racked:
		return "the frame is racked"
	case compare.Shifted, compare.Turned, compare.ShiftedAndTurned, compare.ShiftedOrTurned:
		return "the whole is " + e.Cause.String()
	}
	var parts []string
	if pegs := wrong(e); len(pegs) > 0 {
		parts = append(parts, geom.Listed(pegs)+of(len(pegs), " stands", " stand")+" wrong")
	}
	if len(e.Reading) > 0 {
		parts = append(parts, c.misreads(e))
	}
	return strings.Join(parts, " and ")
}
