package checked

import (
	"fmt"
	"slices"

	"trammel/geom/compare"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Ranges are what readings were held to.
type Ranges struct {
	Tools     tape.Tools
	Permitted unit.Length // the K of ±K√L; 0: none
	Pulled    bool        // lines that the setting-out sheet pulls are held to that
	Printed   bool        // ranges that the setting-out sheet has are as printed there
	Corrected bool        // the tape was used as it does not read true
}

func (Checks) Reading(r compare.Compared) string {
	switch {
	case !r.Inside:
		return "outside"
	case r.Rough:
		return "too rough"
	}
	return "good"
}

func (Checks) Held(r Ranges) string {
	say := fmt.Sprintf("Good is what a careful hand with a tape of class %s keeps; one sound reading in a hundred lies outside all the same.", r.Tools.Tape.Class)
	if r.Permitted > 0 {
		say = "Good is what the job permits."
	}
	if r.Corrected {
		say += " Lengths are as the tape reads them on this site: add nothing to them."
	}
	return say
}

func (Checks) Basis(r Ranges, f tape.Figures, c compare.Comparison) string {
	say := r.say(f)
	if r.Pulled && r.Permitted == 0 {
		say += " A line that the setting-out sheet pulls is held to that pull and the reading: ±√(t² + t²)."
	}
	stated := func(r compare.Compared) bool { return r.Measurement.Value.Stated && !r.Rough }
	if r.Permitted == 0 && slices.ContainsFunc(c.Readings, stated) {
		say += " A tolerance that is written behind a reading narrows its range."
	}
	if r.Printed {
		say += " Lengths that are Checks on the setting-out sheet have the ranges printed there."
	}
	if r.Corrected {
		say += " Lengths are as the tape reads them when used as the job says of the site: what is wanted is corrected for that, and nothing else is to be added."
	}
	return say
}

func (r Ranges) say(f tape.Figures) string {
	if k := r.Permitted; k > 0 {
		return fmt.Sprintf("Accept ranges: ±K√L with K = %s mm, L in metres; ±2K below 5 m (K is the user's). Angles: what the tools and their setting-out keep.", unit.Decimals(k.MM(), 2))
	}
	t, source := OnePull(r.Tools)
	return fmt.Sprintf("Accept ranges: ±√(t² + s²), where t = %s is one pull, L in metres rounded up (%s), and s is what both ends keep 99 times in 100, set out by two pulls each; moved outward to %s. One sound reading in a hundred lies outside by chance.",
		t, source, GrainWords(f))
}

// OnePull is what a pull is good for, and where that is from.
func OnePull(of tape.Tools) (t, source string) {
	a, b, off := of.Tape.Terms()
	hook := ""
	if off > 0 {
		hook = fmt.Sprintf(" + %.1f for the hook", off.MM())
	}
	nail := unit.Decimals(of.Complete().Reading.MM(), 2)
	return fmt.Sprintf("%.1f + %.1f L%s + %s mm", a.MM(), b.MM(), hook, nail),
		fmt.Sprintf("tape of class %s, Directive 2014/32/EU annex X, OIML R 35; %s mm for nail and reading", of.Tape.Class, nail)
}

// GrainWords name the step that accept ranges are given to.
func GrainWords(f tape.Figures) string {
	if f.Inches() {
		return fmt.Sprintf("1/%d in", f.Fraction())
	}
	return "the whole millimetre"
}
