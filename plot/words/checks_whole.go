package words

import (
	"fmt"
	"slices"

	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

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
		return fmt.Sprintf("The whole is shifted: %s, and %s off as %s %s", others, c.moved(far).by(), right, of(len(c.Held), "stands", "stand"))
	case compare.Turned:
		return fmt.Sprintf("The whole is turned about %s: %s, and %s, which is off most, is %s off", e.About, others, far.Name, c.moved(far).by())
	}
	how := "shifted and turned"
	if e.Cause == compare.ShiftedOrTurned {
		how = "shifted, or turned, or both"
	}
	return fmt.Sprintf("The whole is %s: %s, and %s, which is off most, is %s off", how, others, far.Name, c.moved(far).by())
}
