package words

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/slip"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words/phrase"
)

// Nets tells of a net that was adjusted.
type Nets interface {
	// Findings are of the adjustment as a whole: whether the measurements agree, which
	// one may hold a slip.
	Findings(a net.Adjusted, style unit.Style) []Remark
	// Doubts are what is doubtful in the net itself.
	Doubts(a net.Adjusted) []Remark
	// Suspect tells of one that may hold a slip: "DB reads 4524; the others say 4509 ±
	// 6: read it again, perhaps it is 15 shorter". ± is the 95 % figure.
	Suspect(a net.Adjusted, s net.Suspect, style unit.Style) Remark
	// TooFine is of what is written far more finely than its tool reads: what it
	// counts as, and what to write where it was read so.
	TooFine(a net.Adjusted, style unit.Style) []Remark
	// Found is how a point was found: "D from AC by AD=3000 and CD=4000, left of AC
	// (the order of the outline)".
	Found(a net.Adjusted, f net.Placed) Remark
	// Placement is where points lie: "C left of BD and E right of AB".
	Placement(p net.Placement) string
	// Which of several placements this is; empty where only one fits.
	Which(a net.Adjusted) string
	// Rectangle is what was found of four corners.
	Rectangle(s net.Squareness, style unit.Style) Remark
}

// nets in English.
type nets struct{ English }

func (w nets) Suspect(a net.Adjusted, s net.Suspect, style unit.Style) Remark {
	m := a.Results[s.Index].Measurement
	f := phrase.Figures{Style: style, Kind: m.Kind, Spread: tape.Expansion * s.Sigma.Bare(m.Kind)}
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
		written = f.Of(reads)
	}
	text := fmt.Sprintf("%s reads %s; the others say %s ± %s: read it again, perhaps it is %s %s",
		m.Subject(), written, f.Of(others), f.Of(f.Spread), f.Of(math.Abs(off)), than)
	var why []string
	for _, x := range s.Slips {
		why = append(why, ofSlip(f, x))
	}
	if len(why) > 0 {
		text += " (" + strings.Join(why, ", or ") + ")"
	}
	return Remark(text)
}

func ofSlip(f phrase.Figures, s slip.Slip) string {
	switch s.Kind {
	case slip.Hooked:
		return "the tape held at its " + f.Exact(s.By) + " mark"
	case slip.Swapped:
		return "two digits swapped: " + s.Text
	case slip.OtherScale:
		return "read on the other scale of the protractor"
	}
	return "misread by " + f.Exact(s.By)
}

// fitsAll is the √(Sum/Freedom) below which no figure shows a residual.
const fitsAll = 0.005

func (w nets) Findings(a net.Adjusted, style unit.Style) (all []Remark) {
	say := func(form string, with ...any) { all = append(all, phrase.Remarked(form, with...)) }
	switch {
	case a.Freedom == 0:
		say("nothing is measured more than once: no slip can show")
	case len(a.Suspects) == 0 && a.Global.Sigma0 < fitsAll:
		say("the measurements agree: %d more than needed, and all of them fit", a.Freedom)
	case len(a.Suspects) == 0 && a.Global.Passed:
		say("the measurements agree: %d more than needed, and together they are off by %s times what they allow", a.Freedom, unit.Decimals(a.Global.Sigma0, 2))
	case len(a.Suspects) == 0:
		say("the measurements disagree by %s times what they allow, and no single one explains it", unit.Decimals(a.Global.Sigma0, 1))
	default:
		all = w.suspicion(a, style)
	}
	switch a.Scatter() {
	case net.Closer:
		say("they agree far better than what they are weighed by allows: if they were read so finely, say so (+- behind them, or the tape and the instrument); if some were worked out from others, those check nothing")
	case net.Wider:
		say("so far apart no readings are by chance: they were read more roughly than they are weighed by (say so: +- behind them), or two or more hold a slip")
	}
	return all
}

func (w nets) suspicion(a net.Adjusted, style unit.Style) (all []Remark) {
	first := a.Suspects[0]
	all = append(all, w.Suspect(a, first, style))
	if first.Alike {
		var others []string
		for _, s := range a.Suspects[1:] {
			if s.Alike {
				others = append(others, a.Results[s.Index].Measurement.Subject())
			}
		}
		all = append(all, phrase.Remarked("a slip in %s would show in the same way: read %s again too", phrase.Or(others), phrase.Of(len(others), "it", "them")))
	}
	if !first.Agree {
		all = append(all, phrase.Remarked("without %s the others still disagree: there may be a second slip, or the tolerances are too fine", a.Results[first.Index].Measurement.Subject()))
	}
	return all
}

func (w nets) Doubts(a net.Adjusted) (all []Remark) {
	for _, d := range a.Doubts {
		all = append(all, Remark(w.doubt(a, d)))
	}
	return all
}

func (w nets) doubt(a net.Adjusted, d net.Doubt) string {
	switch d.Kind {
	case net.EdgesCross:
		return fmt.Sprintf("the edges %s and %s of the outline cross: say on which side the points lie", d.Edges[0][0]+d.Edges[0][1], d.Edges[1][0]+d.Edges[1][1])
	case net.MirrorImage:
		return "the outline runs clockwise: name its corners the other way round, or the piece is its mirror image"
	case net.AngleSum:
		return fmt.Sprintf("%s must make 180° together: they make %s°, and allow %s°", tokens(a, d.Angles), unit.Decimals(d.Sum.Degrees(), 3), unit.Decimals(d.Allowed.Degrees(), 3))
	case net.AsNear:
		return fmt.Sprintf("no placement of the points agrees with all that was measured, and another comes about as near: with %s; this one has %s", w.Placement(a.Others[0]), w.Placement(a.Mine))
	}
	lines := d.Lines
	if n := len(lines); n > 12 {
		lines = append(lines[:12:12], fmt.Sprintf("%d more", n-12))
	}
	return fmt.Sprintf("nothing checks %s: a slip there would not show", geom.Listed(lines))
}

// tokens are measurements as they were written.
func tokens(a net.Adjusted, of []int) string {
	var all []string
	for _, i := range of {
		m := a.Results[i].Measurement
		text := m.Text
		if text == "" {
			text = m.Subject() + "=" + m.Value.Text
		}
		all = append(all, text)
	}
	return geom.Listed(all)
}

func (w nets) TooFine(a net.Adjusted, style unit.Style) (all []Remark) {
	tools := a.Tools()
	for _, f := range a.TooFine() {
		m := a.Results[f.Index].Measurement
		if m.Kind == triangle.Angle {
			all = append(all, Remark(fmt.Sprintf("%s=%s is written far more finely than a %s is read, and counts as ±%s: say what it was read with (%s), or how far it is to be trusted, such as %s=%s+-0.01deg",
				m.Subject(), m.Value.Text, tools.Instrument.Name, phrase.SmallAngle(f.Keeps.Angle), cmp.Or(w.Instrument, "under site: instrument: theodolite"), m.Subject(), m.Value.Text)))
			continue
		}
		counts, such := fmt.Sprintf("%s mm", unit.Decimals(f.Keeps.Length.MM(), 1)), "0.1mm"
		if style.Unit >= unit.IN {
			counts, such = unit.Decimals(f.Keeps.Length.MM()/unit.Inch.MM(), 3)+" in", "1/64in"
		}
		all = append(all, Remark(fmt.Sprintf("%s=%s is written far more finely than a tape of class %s is read, and counts as ±%s: where it was read so, say how far it is to be trusted, such as %s=%s+-%s",
			m.Subject(), m.Value.Text, tools.Tape.Class, counts, m.Subject(), m.Value.Text, such)))
	}
	return all
}

func (w nets) Found(a net.Adjusted, f net.Placed) Remark {
	switch {
	case len(f.From) == 0 && len(f.By) == 0 && a.Base == ([2]geom.Name{}):
		return phrase.Remarked("%s is known", f.Point)
	case len(f.From) == 0:
		return phrase.Remarked("%s is where it begins", f.Point)
	case len(f.From) == 1 && len(f.By) == 1:
		return phrase.Remarked("%s from %s by %s: the first line", f.Point, f.From[0], tokens(a, f.By))
	case len(f.By) == 0:
		return phrase.Remarked("%s from %s", f.Point, f.From[0])
	}
	text := fmt.Sprintf("%s from %s by %s", f.Point, geom.Joined(f.From), tokens(a, f.By))
	if len(f.From) < 2 {
		return Remark(text)
	}
	why := [...]string{"the only place", "as said", "as the other measurements say", "the order of the outline", "nothing else fits", "one of several ways that fit", "the order of the alphabet"}
	return phrase.Remarked("%s, %s of %s (%s)", text, hand(f.Right), geom.Joined(f.From[:2]), why[min(f.Why, net.ByAlphabet)])
}

func hand(right bool) string {
	if right {
		return "right"
	}
	return "left"
}

func (w nets) Placement(p net.Placement) string {
	var all []string
	for _, s := range p.Sides {
		text := fmt.Sprintf("%s %s", s.Point, hand(s.Right))
		if s.Of != ([2]geom.Name{}) {
			text += fmt.Sprintf(" of %s", s.Of[0]+s.Of[1])
		}
		all = append(all, text)
	}
	return geom.Listed(all)
}

func (w nets) Which(a net.Adjusted) string {
	if len(a.Others) == 0 || a.Disputed || len(a.Mine.Sides) == 0 {
		return ""
	}
	var others []string
	for _, o := range a.Others {
		others = append(others, w.Placement(o))
	}
	if len(others) == 1 {
		return fmt.Sprintf("Two placements of the points fit what was measured. This is the one with %s; the other has %s.", w.Placement(a.Mine), others[0])
	}
	return fmt.Sprintf("Several placements of the points fit what was measured. This is the one with %s; others have %s.", w.Placement(a.Mine), strings.Join(others, "; or "))
}

func (w nets) Rectangle(s net.Squareness, style unit.Style) Remark {
	c := s.Corners
	all := geom.Joined(c[:])
	if !s.Measured {
		return phrase.Remarked("whether %s is square cannot be said: measure its four sides and both diagonals", all)
	}
	if s.Square {
		return phrase.Remarked("%s is square: its opposite sides are alike and its diagonals are alike", all)
	}
	var off []string
	differ := func(p net.Pair, i, j, k, l int) {
		if !p.Alike {
			off = append(off, fmt.Sprintf("%s and %s differ by %s", c[i]+c[j], c[k]+c[l], style.Length(unit.Length(math.Abs(p.Differ.MM())))))
		}
	}
	differ(s.Sides[0], 0, 1, 2, 3)
	differ(s.Sides[1], 1, 2, 3, 0)
	sidesOff := len(off) > 0
	differ(s.Diagonals, 0, 2, 1, 3)
	text := fmt.Sprintf("%s is not square: %s", all, geom.Listed(off))
	if sidesOff && s.Diagonals.Alike {
		text += ", though its diagonals are alike"
	}
	return Remark(text)
}
