package net

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Say tells of a suspect in one sentence: "DB reads 4524; the others say 4509 ±
// 6: read it again, perhaps it is 15 shorter". ± is the 95 % figure.
func (a Adjusted) Say(s Suspect, style unit.Style) string {
	m := a.Results[s.Index].Measurement
	w := Writer{style, m.Kind, tape.Expansion * s.Sigma.Bare(m.Kind)}
	reads, others := s.Reads.Bare(m.Kind), s.Others.Bare(m.Kind)
	off := reads - others
	than := "shorter"
	switch {
	case m.Kind == triangle.Angle && off > 0:
		than = "less"
	case m.Kind == triangle.Angle:
		than = "more"
	case off < 0:
		than = "longer"
	}
	written := m.Value.Text
	if written == "" {
		written = w.Figure(reads)
	}
	text := fmt.Sprintf("%s reads %s; the others say %s ± %s: read it again, perhaps it is %s %s",
		m.Subject(), written, w.Figure(others), w.Figure(w.Spread), w.Figure(math.Abs(off)), than)
	var why []string
	for _, x := range s.Slips {
		why = append(why, w.slip(x))
	}
	if len(why) > 0 {
		text += " (" + strings.Join(why, ", or ") + ")"
	}
	return text
}

// fitsAll is the √(Sum/Freedom) below which no figure shows a residual.
const fitsAll = 0.005

// Findings tells of the adjustment as a whole in plain sentences: whether the
// measurements agree, which one may hold a slip, what else is doubtful.
func (a Adjusted) Findings(style unit.Style) []string {
	var all []string
	switch {
	case a.Freedom == 0:
		all = append(all, "nothing is measured more than once: no slip can show")
	case len(a.Suspects) == 0 && a.Global.Sigma0 < fitsAll:
		all = append(all, fmt.Sprintf("the measurements agree: %d more than needed, and all of them fit", a.Freedom))
	case len(a.Suspects) == 0 && a.Global.Passed:
		all = append(all, fmt.Sprintf("the measurements agree: %d more than needed, and together they are off by %s times what they allow", a.Freedom, unit.Decimals(a.Global.Sigma0, 2)))
	case len(a.Suspects) == 0:
		all = append(all, fmt.Sprintf("the measurements disagree by %s times what they allow, and no single one explains it", unit.Decimals(a.Global.Sigma0, 1)))
	default:
		all = append(all, a.suspicion(style)...)
	}
	if words := a.scatter(); words != "" {
		all = append(all, words)
	}
	return append(all, a.Warnings...)
}

func (a Adjusted) suspicion(style unit.Style) (all []string) {
	first := a.Suspects[0]
	all = append(all, a.Say(first, style))
	if first.Alike {
		var others []string
		for _, s := range a.Suspects[1:] {
			if s.Alike {
				others = append(others, a.Results[s.Index].Measurement.Subject())
			}
		}
		all = append(all, fmt.Sprintf("a slip in %s would show in the same way: read %s again too", Or(others), Them(len(others))))
	}
	if !first.Agree {
		all = append(all, fmt.Sprintf("without %s the others still disagree: there may be a second slip, or the tolerances are too fine", a.Results[first.Index].Measurement.Subject()))
	}
	return all
}

func Them(n int) string {
	if n == 1 {
		return "it"
	}
	return "them"
}

func Or(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " or " + all[len(all)-1]
}

// writer writes figures that are known to ± spread: no digit that says nothing.
type Writer struct {
	Style  unit.Style
	Kind   triangle.Kind
	Spread float64 // mm or rad
}

func (w Writer) Figure(x float64) string {
	if w.Kind == triangle.Angle {
		d := w.Spread * 180 / math.Pi
		switch {
		case w.Style.Minutes && d >= 1.0/60:
			return w.Style.Angle(unit.Angle(x))
		case w.Style.Minutes || d < 1.0/60:
			return Seconds(unit.Angle(x))
		case d >= 0.1:
			return unit.Decimals(x*180/math.Pi, 1) + "°"
		}
		return unit.Decimals(x*180/math.Pi, 3) + "°"
	}
	if w.Spread >= 2 && w.Style.Unit == unit.MM {
		x = math.Round(x)
	}
	return w.Style.Length(unit.Length(x))
}

// Seconds is an angle in degrees, minutes and seconds: what is known to less than a
// minute is written so. Half a second rounds away from zero.
func Seconds(a unit.Angle) string {
	n := int(math.Round(math.Abs(a.Degrees()) * 3600))
	sign := ""
	if a < 0 && n > 0 {
		sign = "\u2212"
	}
	return fmt.Sprintf("%s%d°%02d\u2032%02d\u2033", sign, n/3600, n/60%60, n%60)
}

// SecondsBelow is the uncertainty below which an angle is written to the second.
const SecondsBelow = unit.Degree / 60

func (w Writer) slip(s Slip) string {
	switch s.Kind {
	case Hooked:
		return "the tape held at its " + w.exact(s.By) + " mark"
	case Swapped:
		return "two digits swapped: " + s.Text
	case OtherScale:
		return "read on the other scale of the protractor"
	}
	return "misread by " + w.exact(s.By)
}

// exact is the size of a slip, which is round.
func (w Writer) exact(f adjust.Figure) string {
	if w.Kind == triangle.Angle {
		return unit.Decimals(math.Abs(f.Angle.Degrees()), 1) + "°"
	}
	return w.Style.Length(unit.Length(math.Abs(f.Length.MM())))
}

// SayFound tells how a point was found: "D from AC by AD=3000 and CD=4000, left of AC
// (the order of the outline)".
func (a Adjusted) SayFound(f Found) string {
	switch {
	case len(f.From) == 0 && len(f.By) == 0 && a.Base == ([2]geom.Name{}):
		return fmt.Sprintf("%s is known", f.Point)
	case len(f.From) == 0:
		return fmt.Sprintf("%s is where it begins", f.Point)
	case len(f.From) == 1 && len(f.By) == 1:
		return fmt.Sprintf("%s from %s by %s: the first line", f.Point, f.From[0], a.net.words(f.By))
	case len(f.By) == 0:
		return fmt.Sprintf("%s from %s", f.Point, f.From[0])
	}
	text := fmt.Sprintf("%s from %s by %s", f.Point, geom.Joined(f.From), a.net.words(f.By))
	if len(f.From) < 2 {
		return text
	}
	hand := "left"
	if f.Right {
		hand = "right"
	}
	why := [...]string{"the only place", "as said", "as the other measurements say", "the order of the outline", "nothing else fits", "one of several ways that fit", "the order of the alphabet"}
	return fmt.Sprintf("%s, %s of %s (%s)", text, hand, geom.Joined(f.From[:2]), why[min(f.Why, ByAlphabet)])
}
