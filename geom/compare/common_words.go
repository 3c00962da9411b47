package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// ofTape tells of a tape that reads all lengths wrong alike.
func (c Comparison) ofTape(e Explanation, style unit.Style) []string {
	return []string{
		c.tapeReads(e, style) + ".",
		"Move no peg. Hold the tape against another one that is known to be right, over " + c.lengthToTry(e) + ", and measure all again.",
		"If this tape is right, the pegs were set out with one that is not: then set them out anew.",
	}
}

// tapeReads says what a tape does, as a sentence without its end.
func (c Comparison) tapeReads(e Explanation, style unit.Style) string {
	long := "long"
	if e.By < 0 {
		long = "short"
	}
	what, alike := "every length reads", true
	for i, r := range c.Readings {
		if r.Measurement.Kind != triangle.Angle {
			alike = alike && float64(r.Off.Length)*e.By > 0 && !slices.Contains(e.Outside, i)
		}
	}
	if !alike {
		what = "on the whole the lengths read"
	}
	if e.Cause == TapeZero {
		return fmt.Sprintf("The tape, or its hook: %s about %s too %s, the short ones as much as the long ones", what, moveBy(unit.Length(e.By), style), long)
	}
	run, over := 10*unit.Metre, "10 m"
	if style.Unit >= unit.IN {
		run, over = 10*unit.Foot, "10 ft"
	}
	return fmt.Sprintf("The tape: %s too %s in proportion, about %s in %s", what, long, moveBy(run*unit.Length(e.By), style), over)
}

// lengthToTry says over what the tape is to be held against another one.
func (c Comparison) lengthToTry(e Explanation) string {
	if e.Cause == TapeScale {
		return "a long length"
	}
	return "a short length and a long one"
}

// ofAll tells of a whole that is shifted or turned, and of a frame that is racked.
func (c Comparison) ofAll(e Explanation, style unit.Style) []string {
	all := []string{c.together(e, style) + "."}
	if e.Cause == Racked {
		all[0] = strings.TrimSuffix(all[0], ".") + fmt.Sprintf(". Hold %s and %s.", e.Held[0], e.Held[1])
	}
	for _, m := range e.Pegs {
		all = append(all, m.MoveNamed(style))
	}
	var say []string
	for i, r := range c.Readings {
		if !r.Inside && !slices.Contains(e.Outside, i) {
			say = append(say, r.Measurement.Subject()+" "+r.figure(r.Wanted, style))
		}
	}
	if len(say) == 0 {
		return append(all, "Then measure all again.")
	}
	return append(all, fmt.Sprintf("Then measure all again: of what is outside now, %s should be read.", geom.Listed(say)))
}

// together says what the pegs do as a whole, as a sentence without its end.
func (c Comparison) together(e Explanation, style unit.Style) string {
	if e.Cause == Racked {
		var say []string
		for i, r := range c.Readings {
			if m := r.Measurement; m.Kind == triangle.Distance && !e.edge(m.At[0], m.At[1]) && !slices.Contains(e.Outside, i) && !nothing(r.Off.Length, style) {
				long := "long"
				if r.Off.Length < 0 {
					long = "short"
				}
				say = append(say, fmt.Sprintf("%s is %s too %s", m.Subject(), moveBy(r.Off.Length, style), long))
			}
		}
		if len(say) == 0 {
			return "The frame is racked: its sides are right, its corners are not"
		}
		return "The frame is racked: its sides are right, but " + geom.Listed(say)
	}
	right := geom.List(c.Held)
	others := "all pegs but " + right + " stand right to one another"
	far := e.farthest()
	switch e.Cause {
	case Shifted:
		return fmt.Sprintf("The whole is shifted: %s, and %s off as %s %s", others, far.by(style), right, stand(c.Held))
	case Turned:
		return fmt.Sprintf("The whole is turned about %s: %s, and %s, which is off most, is %s off", e.About, others, far.Name, far.by(style))
	case ShiftedOrTurned:
		return fmt.Sprintf("The whole is shifted, or turned, or both: %s, and %s, which is off most, is %s off", others, far.Name, far.by(style))
	}
	return fmt.Sprintf("The whole is shifted and turned: %s, and %s, which is off most, is %s off", others, far.Name, far.by(style))
}

func stand(names []geom.Name) string {
	if len(names) == 1 {
		return "stands"
	}
	return "stand"
}

// edge says whether two pegs of a racked frame are a side of it.
func (e Explanation) edge(p, q geom.Name) bool {
	round := []geom.Name{e.Held[0], e.Held[1], e.Pegs[0].Name, e.Pegs[1].Name}
	i, j := slices.Index(round, p), slices.Index(round, q)
	return i < 0 || j < 0 || (i+1)%4 == j || (j+1)%4 == i
}

// farthest is the peg that is off most.
func (e Explanation) farthest() (far Moved) {
	for _, m := range e.Pegs {
		if m.Off > far.Off*(1+1e-9) {
			far = m
		}
	}
	return far
}

// by is how far a peg is off, with its 95 % figure.
func (m Moved) by(style unit.Style) string {
	if style.Unit >= unit.IN {
		return moveBy(m.Off, style) + " ± " + moveBy(m.Figure95, style)
	}
	return strings.TrimSuffix(moveBy(m.Off, style), " mm") + " ± " + moveBy(m.Figure95, style)
}

// MoveNamed is Move with the name of the peg; one that is as good as right stays.
func (m Moved) MoveNamed(style unit.Style) string {
	if nothing(unit.Length(math.Hypot(float64(m.Toward), float64(m.Left))), style) {
		return string(m.Name) + " stays."
	}
	return strings.Replace(strings.Replace(m.Move(style), "Move it", "Move "+string(m.Name), 1), "Set it", "Set "+string(m.Name), 1)
}
