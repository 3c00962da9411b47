package setout

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom/unit"
)

// steps is the work in order, for one person with one helper.
func (w *work) steps() []Step {
	var out []Step
	add := func(format string, args ...any) {
		out = append(out, Step{len(out) + 1, fmt.Sprintf(format, args...)})
	}
	from, to, apex := w.Baseline.From, w.Baseline.To, w.apex
	f := w.Figure
	add("Drive peg %s. Hold 0 on its nail; the helper pulls %s along the line you want and drives peg %s. Stretch a string from %s to %s.",
		from, f(w.Baseline.Length), to, from, to)
	if w.Square.Past > 0 {
		add("%s lies %s beyond %s. Extend the line: stretch the string from %s over %s and past it, or sight from %s until %s and %s stand one behind the other.",
			w.foot, f(w.Square.Past), w.Square.End, from, w.Square.End, from, w.Square.End, w.foot)
	}
	if along := w.running(); len(along) > 0 {
		add("Leave 0 on %s and mark along the string: %s.", from, w.marksAlong(along))
	}
	side := "left"
	if w.Baseline.Zero == 1 {
		side = "right"
	}
	standing := fmt.Sprintf("%s lies on the %s as you look from %s to %s.", apex, side, from, to)

	arcs, offset := w.Ways[0], w.Ways[1]
	if arcs.Method == SwingArcs {
		first, second := arcs.Pulls[0], arcs.Pulls[1]
		add("%s Hold 0 on %s, pull %s, scratch an arc.", standing, first.Hold, f(first.Length))
		add("Hold 0 on %s, pull %s, scratch an arc across the first. They cross at %s: sound. Drive peg %s at the crossing.",
			second.Hold, f(second.Length), w.Style.Angle(w.Crossing.Angle), apex)
		w.middleStep(add)
		w.squareStep(add, "The second way, as a check: ")
		add("Stretch a string from %s over %s. Hold 0 on %s: at %s along it stands peg %s.",
			w.foot, w.Square.Top, w.foot, f(offset.Pulls[3].Length), apex)
	} else {
		offset, arcs = arcs, offset
		w.squareStep(add, standing+" Make ")
		add("Stretch a string from %s over %s. Hold 0 on %s, pull %s along it and drive peg %s.",
			w.foot, w.Square.Top, w.foot, f(offset.Pulls[3].Length), apex)
		w.middleStep(add)
		first, second := arcs.Pulls[0], arcs.Pulls[1]
		add("The second way, as a check: swing %s from %s and %s from %s. These arcs cross at %s, too flat to place %s by, but both must pass over its nail.",
			f(first.Length), first.Hold, f(second.Length), second.Hold, w.Style.Angle(w.Crossing.Angle), apex)
	}
	add("Pull every check and write it in its box. Where one lies outside its range do not shift a peg to mend it: pull again from step 1.")
	return out
}

// marksAlong lists running distances: "F at 3600 (foot); M at 4000 (middle)".
func (w *work) marksAlong(pegs []Peg) string {
	var parts []string
	for _, p := range pegs {
		what := "middle"
		if p.Role == Foot {
			what = "foot"
			if p.Also {
				what += ", middle"
			}
		}
		text := fmt.Sprintf("%s at %s (%s)", p.Name, w.Figure(p.Along), what)
		for _, q := range w.Pegs {
			if q.Name == p.Name {
				break // each pair once
			}
			if q.At.Distance(p.At) < onePeg {
				text += fmt.Sprintf(", on one peg with %s", q.Name)
			}
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

func (w *work) middleStep(add func(string, ...any)) {
	a, b := w.Middles[0], w.Middles[1]
	add("Mark the middles for the checks: %s %s from %s, %s %s from %s, towards %s.",
		a.To, w.Figure(a.Length), a.Hold, b.To, w.Figure(b.Length), b.Hold, w.apex)
}

// squareStep tells the 3-4-5 triangle, with two pulls and, where the tape is long
// enough for the rest of the work, as one loop.
func (w *work) squareStep(add func(string, ...any), opening string) {
	q, f := w.Square, w.Figure
	loop := ""
	if q.Loop[2] <= w.longest() { // else it wants a longer tape than anything else
		loop = fmt.Sprintf(" (Or in one loop: hold 0 and %s together on %s and %s on %s, draw the tape tight at %s: %s.)",
			f(q.Loop[2]), q.At, f(q.Loop[0]), q.Leg, f(q.Loop[1]), q.Top)
	}
	add("%sa square at %s by 3-4-5. Hold 0 on %s and mark %s on the string, %s towards %s. Hold 0 on %s, pull %s and scratch an arc; hold 0 on %s, pull %s and scratch across it: %s.%s",
		opening, q.At, q.At, q.Leg, f(q.Along), q.Toward, q.At, f(q.Up), q.Leg, f(q.Across), q.Top, loop)
}

// bring is what to take along.
func (w *work) bring() []string {
	return []string{
		fmt.Sprintf("a tape of class %s, %s or longer", w.Tape.Class, w.reach(w.longest())),
		fmt.Sprintf("%d pegs with a nail each", len(w.Pegs)),
		"string, hammer, plumb bob, thick pencil",
	}
}

// longest of all pulls.
func (s Sheet) longest() (l unit.Length) {
	for _, p := range s.allPulls() {
		l = max(l, p.Length)
	}
	return l
}

// allPulls in the order of their numbers.
func (s Sheet) allPulls() []Pull {
	var out []Pull
	out = append(out, s.Pulls...)
	out = append(out, s.Ways[0].Pulls...)
	out = append(out, s.Middles...)
	return append(out, s.Ways[1].Pulls...)
}

// crossingWords say how the arcs cross and what that does.
func (s Sheet) crossingWords() string {
	c := s.Crossing
	words := fmt.Sprintf("The arcs cross at %s: ", s.Style.Angle(c.Angle))
	if c.Sound {
		words += "sound"
	} else {
		words += fmt.Sprintf("not sound, so the offset places %s", c.At)
	}
	words += fmt.Sprintf(" (%s to %s, common practice). An error in each pull grows %.1f times at %s.",
		s.Style.Angle(Flattest), s.Style.Angle(Bluntest), c.Spread, c.At)
	if c.Sound {
		return words
	}
	// From the longest side they cross at the largest angle.
	t, widest := s.Triangle, 2
	for i := range 2 {
		if t.Angles[i] > t.Angles[widest] {
			widest = i
		}
	}
	if a := t.Angles[widest]; widest != 2 && a <= Bluntest {
		words += fmt.Sprintf(" From %s%s, the longest side, they would cross at %s.", t.Names[(widest+1)%3], t.Names[(widest+2)%3], s.Style.Angle(a))
	}
	return words
}

// cautions are the same on every sheet.
func cautions() []string {
	return []string{
		"Buried services: have them located before pegging.",
		"Overhead lines: no metal tape or staff near them.",
		"Traffic: cones, bright clothing, a lookout.",
		"Excavations: keep pegs and feet back from edges.",
		"Boundary lines belong to a licensed surveyor.",
		"All figures are level: plumb down on a slope.",
		"Geometry, not strength: ask a qualified person.",
		"Local codes and the site's rules prevail.",
	}
}

// reach is the length of tape that a pull wants, in whole metres or feet.
func (s Sheet) reach(l unit.Length) string {
	if inches(s.Style) {
		return fmt.Sprintf("%.0f ft", math.Ceil(float64(l/unit.Foot)*(1-sameMetre)))
	}
	return fmt.Sprintf("%.0f m", math.Ceil(float64(l/unit.Metre)*(1-sameMetre)))
}
