package survey

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// Say tells of a suspect in one sentence: "DB reads 4524; the others say 4509 ±
// 6: read it again, perhaps it is 15 shorter". ± is the 95 % figure.
func (a Adjusted) Say(s Suspect, style unit.Style) string {
	m := a.Results[s.Index].Measurement
	w := writer{style, m.Kind, Expansion * s.Sigma.bare(m.Kind)}
	reads, others := s.Reads.bare(m.Kind), s.Others.bare(m.Kind)
	off := reads - others
	than := "shorter"
	switch {
	case m.Kind == geom.Angle && off > 0:
		than = "less"
	case m.Kind == geom.Angle:
		than = "more"
	case off < 0:
		than = "longer"
	}
	written := m.Value.Text
	if written == "" {
		written = w.figure(reads)
	}
	text := fmt.Sprintf("%s reads %s; the others say %s ± %s: read it again, perhaps it is %s %s",
		m.Subject(), written, w.figure(others), w.figure(w.spread), w.figure(math.Abs(off)), than)
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
		all = append(all, fmt.Sprintf("the measurements agree: %d more than needed, and together they are off by %s times what they allow", a.Freedom, decimals(a.Global.Sigma0, 2)))
	case len(a.Suspects) == 0:
		all = append(all, fmt.Sprintf("the measurements disagree by %s times what they allow, and no single one explains it", decimals(a.Global.Sigma0, 1)))
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
		all = append(all, fmt.Sprintf("a slip in %s would show in the same way: read %s again too", or(others), them(len(others))))
	}
	if !first.Agree {
		all = append(all, fmt.Sprintf("without %s the others still disagree: there may be a second slip, or the tolerances are too fine", a.Results[first.Index].Measurement.Subject()))
	}
	return all
}

func them(n int) string {
	if n == 1 {
		return "it"
	}
	return "them"
}

func or(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " or " + all[len(all)-1]
}

// writer writes figures that are known to ± spread: no digit that says nothing.
type writer struct {
	style  unit.Style
	kind   geom.Kind
	spread float64 // mm or rad
}

func (w writer) figure(x float64) string {
	if w.kind == geom.Angle {
		d := w.spread * 180 / math.Pi
		switch {
		case w.style.Minutes && d >= 1.0/60:
			return w.style.Angle(unit.Angle(x))
		case w.style.Minutes || d < 1.0/60:
			return Seconds(unit.Angle(x))
		case d >= 0.1:
			return decimals(x*180/math.Pi, 1) + "°"
		}
		return decimals(x*180/math.Pi, 3) + "°"
	}
	if w.spread >= 2 && w.style.Unit == unit.MM {
		x = math.Round(x)
	}
	return w.style.Length(length(x))
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

func (w writer) slip(s Slip) string {
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
func (w writer) exact(f Figure) string {
	if w.kind == geom.Angle {
		return decimals(math.Abs(f.Angle.Degrees()), 1) + "°"
	}
	return w.style.Length(length(math.Abs(f.Length.MM())))
}

// decimals writes x with at most n decimals.
func decimals(x float64, n int) string {
	text := strconv.FormatFloat(x, 'f', n, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
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
	text := fmt.Sprintf("%s from %s by %s", f.Point, joined(f.From), a.net.words(f.By))
	if len(f.From) < 2 {
		return text
	}
	hand := "left"
	if f.Right {
		hand = "right"
	}
	why := [...]string{"the only place", "as said", "as the other measurements say", "the order of the outline", "nothing else fits", "one of several ways that fit", "the order of the alphabet"}
	return fmt.Sprintf("%s, %s of %s (%s)", text, hand, joined(f.From[:2]), why[min(f.Why, ByAlphabet)])
}

// amount is a length with so many figures, in mm, or in inches where every length was
// measured in feet or inches.
func (p *problem) amount(mm float64, figures int) string {
	for _, m := range p.Measured {
		if m.Kind != geom.Angle && m.Value.Unit < unit.IN {
			return fmt.Sprintf("%.*g mm", figures, mm)
		}
	}
	return fmt.Sprintf("%.*g in", figures, mm/unit.Inch.MM())
}
