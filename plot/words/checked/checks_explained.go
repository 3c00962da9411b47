package checked

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words/phrase"
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
		all = append(all, "Measure "+phrase.Few(again)+" again.")
	}
	if t := c.Tell; t != nil {
		w := phrase.Figures{Style: c.style, Kind: triangle.Distance, Spread: 2}
		var says []string
		for _, g := range t.Alike {
			var which []string
			for _, i := range g {
				which = append(which, c.briefly(c.Explanations[i]))
			}
			says = append(says, fmt.Sprintf("near %s, %s", w.Of(c.Reads(t.Reads[g[0]]).MM()), phrase.Or(which)))
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
		return phrase.Small(c.tapeReads(e)) + "."
	case e.Cause != compare.Alone:
		return phrase.Small(c.together(e)) + "."
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
	return c.subjects(e.Reading) + phrase.Of(len(e.Reading), " is", " are") + " misread"
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
		parts = append(parts, geom.Listed(pegs)+phrase.Of(len(pegs), " stands", " stand")+" wrong")
	}
	if len(e.Reading) > 0 {
		parts = append(parts, c.misreads(e))
	}
	return strings.Join(parts, " and ")
}

// ofTape tells of a tape that reads all lengths wrong alike.
func (c compared) ofTape(e compare.Explanation) []string {
	return []string{
		c.tapeReads(e) + ".",
		"Move no peg. Hold the tape against another one that is known to be right, over " + lengthToTry(e) + ", and measure all again.",
		"If this tape is right, the pegs were set out with one that is not: then set them out anew.",
	}
}

// tapeReads says what a tape does, as a sentence without its end.
func (c compared) tapeReads(e compare.Explanation) string {
	long := "long"
	if e.By < 0 {
		long = "short"
	}
	what := "every length reads"
	if !c.Alike(e) {
		what = "on the whole the lengths read"
	}
	if e.Cause == compare.TapeZero {
		return fmt.Sprintf("The tape, or its hook: %s about %s too %s, the short ones as much as the long ones", what, moveBy(unit.Length(e.By), c.style), long)
	}
	run, over := 10*unit.Metre, "10 m"
	if c.style.Unit >= unit.IN {
		run, over = 10*unit.Foot, "10 ft"
	}
	return fmt.Sprintf("The tape: %s too %s in proportion, about %s in %s", what, long, moveBy(run*unit.Length(e.By), c.style), over)
}

// lengthToTry says over what the tape is to be held against another one.
func lengthToTry(e compare.Explanation) string {
	if e.Cause == compare.TapeScale {
		return "a long length"
	}
	return "a short length and a long one"
}

// ofAll tells of a whole that is shifted or turned, and of a frame that is racked.
func (c compared) ofAll(e compare.Explanation) []string {
	all := []string{c.together(e) + "."}
	if e.Cause == compare.Racked {
		all[0] += fmt.Sprintf(" Hold %s and %s.", e.Held[0], e.Held[1])
	}
	for _, m := range e.Pegs {
		all = append(all, c.moved(m).named())
	}
	var say []string
	for i, r := range c.Readings {
		if !r.Inside && !slices.Contains(e.Outside, i) {
			say = append(say, r.Measurement.Subject()+" "+c.figure(r, r.Wanted))
		}
	}
	if len(say) == 0 {
		return append(all, "Then measure all again.")
	}
	return append(all, fmt.Sprintf("Then measure all again: of what is outside now, %s should be read.", geom.Listed(say)))
}

// together says what the pegs do as a whole, as a sentence without its end.
func (c compared) together(e compare.Explanation) string {
	if e.Cause == compare.Racked {
		var say []string
		for i, r := range c.Readings {
			if m := r.Measurement; m.Kind == triangle.Distance && !e.Side(m.At[0], m.At[1]) && !slices.Contains(e.Outside, i) && !nothing(r.Off.Length, c.style) {
				long := "long"
				if r.Off.Length < 0 {
					long = "short"
				}
				say = append(say, fmt.Sprintf("%s is %s too %s", m.Subject(), moveBy(r.Off.Length, c.style), long))
			}
		}
		if len(say) == 0 {
			return "The frame is racked: its sides are right, its corners are not"
		}
		return "The frame is racked: its sides are right, but " + geom.Listed(say)
	}
	right := geom.List(c.Held)
	others := "all pegs but " + right + " stand right to one another"
	far := e.Farthest()
	switch e.Cause {
	case compare.Shifted:
		return fmt.Sprintf("The whole is shifted: %s, and %s off as %s %s", others, c.moved(far).by(), right, phrase.Of(len(c.Held), "stands", "stand"))
	case compare.Turned:
		return fmt.Sprintf("The whole is turned about %s: %s, and %s, which is off most, is %s off", e.About, others, far.Name, c.moved(far).by())
	}
	how := "shifted and turned"
	if e.Cause == compare.ShiftedOrTurned {
		how = "shifted, or turned, or both"
	}
	return fmt.Sprintf("The whole is %s: %s, and %s, which is off most, is %s off", how, others, far.Name, c.moved(far).by())
}
