package words

import (
	"fmt"
	"strings"

	"trammel/geom/slip"
	"trammel/geom/unit"
	"trammel/plot/words/phrase"
)

// Verdicts are said on a screen while somebody measures, and while somebody pegs.
type Verdicts interface {
	// Fits says that nothing is doubtful; checked, that more was measured than needed.
	Fits(checked bool) string
	// Doubt says that it fits and what to look at, perhaps nothing by name.
	Doubt(of []string) string
	// Several says how many shapes fit; more: and perhaps others.
	Several(n int, more bool) string
	// Missing and None are said above what the fault tells.
	Missing() string
	None() string
	// Reading judges what was read of a line that is pegged.
	Reading(Read) string
	// Went says that something broke that is nobody's fault but the program's.
	Went() string
}

// Read is what was read of a line or an angle.
type Read struct {
	Good  bool
	Off   string // by how much it lies outside what is accepted, with its unit
	Short bool   // less was read than wanted
	Angle bool
	Far   bool        // by so much that no pull of the tape explains it
	Slips []slip.Slip // that would explain it, the nearest first
	Style unit.Style
	To    string // the peg at the end
}

type verdicts struct{ voice Voice }

func (v verdicts) Fits(checked bool) string {
	if checked {
		return "It fits, and the measures check each other."
	}
	if v.voice == Class {
		return "It fits. Nothing checks it yet: measure one more side or angle."
	}
	return "It fits. Nothing checks it yet: one more measure would."
}

func (verdicts) Doubt(names []string) string {
	switch len(names) {
	case 0:
		return "It fits, but something is doubtful: read on."
	case 1:
		return fmt.Sprintf("Look again at %s: the others do not agree with it.", names[0])
	}
	return fmt.Sprintf("Look again at %s: one of them does not agree with the others.", phrase.Or(names[:min(len(names), 4)]))
}

func (verdicts) Several(n int, more bool) string {
	count := map[int]string{2: "Two", 3: "Three", 4: "Four", 5: "Five", 6: "Six"}[n]
	if count == "" {
		count = fmt.Sprint(n)
	}
	if more {
		count += " or more"
	}
	return count + " shapes have these measures. Tap the one that is yours."
}

func (verdicts) Missing() string { return "More has to be measured." }

func (verdicts) None() string { return "No shape has these measures." }

func (v verdicts) Reading(r Read) string {
	if r.Good {
		return "Good."
	}
	way := "long"
	switch {
	case r.Angle && r.Short:
		way = "little"
	case r.Angle:
		way = "much"
	case r.Short:
		way = "short"
	}
	s := fmt.Sprintf("%s too %s.", r.Off, way)
	if !r.Far {
		return s + " " + v.again(r.Angle)
	}
	for _, x := range r.Slips {
		by := r.Style.LengthUnit(max(x.By.Length, -x.By.Length))
		switch {
		case x.Kind == slip.Hooked:
			return s + fmt.Sprintf(" Was the tape held at its %s mark?", by)
		case x.Kind == slip.Swapped:
			return s + fmt.Sprintf(" Were two digits written the other way round: %s?", strings.TrimSpace(x.Text))
		case x.Kind == slip.OtherScale:
			return s + " Was it read on the other scale?"
		case !r.Angle:
			return s + fmt.Sprintf(" Read it again: it may be just %s off.", by)
		}
	}
	if r.Angle {
		return s + " Is it the right line?"
	}
	return s + " " + v.where(r.To)
}

func (v verdicts) again(angle bool) string {
	switch {
	case angle:
		return "Turn it again."
	case v.voice == Ground || v.voice == Floor:
		return "Pull again."
	}
	return "Measure again."
}

func (v verdicts) where(to string) string {
	switch v.voice {
	case Ground:
		return fmt.Sprintf("Is it the right peg, %s, and the right tape?", to)
	case Floor:
		return fmt.Sprintf("Is it the right pin, %s, and the right tape?", to)
	}
	return fmt.Sprintf("Is it the right point, %s?", to)
}

func (verdicts) Went() string {
	return "Something in the program itself went wrong. What was typed is kept."
}
