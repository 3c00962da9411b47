package checked

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/compare"
	"trammel/geom/unit"
	"trammel/plot/words/phrase"
)

// compared is a comparison while it is told.
type compared struct {
	compare.Comparison
	style unit.Style
}

func (c compared) moved(m compare.Moved) moved { return moved{m, c.style} }

// outside names the readings that lie outside their ranges.
func (c compared) outside() []string { return c.names(c.Outside()) }

// firstAgain asks for readings before anything is moved, where most lie outside.
func (c compared) firstAgain() string {
	out := c.outside()
	if 2*len(out) <= len(c.Readings) || len(c.Readings) < 2 {
		return ""
	}
	return fmt.Sprintf("Most of what was read lies outside: first read %s again. What follows holds if %s the same.", phrase.Many(out), phrase.Of(len(out), "it reads", "they read"))
}

// names of readings.
func (c compared) names(at []int) (all []string) {
	for _, i := range at {
		all = append(all, c.Readings[i].Measurement.Subject())
	}
	return all
}

func (c compared) subjects(at []int) string { return geom.Listed(c.names(at)) }

// figure of a reading, as it is printed.
func (c compared) figure(r compare.Compared, f adjust.Figure) string {
	return phrase.Figures{Style: c.style, Kind: r.Measurement.Kind, Spread: 0}.Of(f.Bare(r.Measurement.Kind))
}

// moved is a peg that stands wrong, while it is told.
type moved struct {
	compare.Moved
	style unit.Style
}

// stands says how far off the peg stands: "C stands 14 ± 5 mm off its place.", with the
// 95 % figure, or in the one direction that is known "too near to A".
func (m moved) stands() string {
	off := "off its place"
	switch {
	case m.Known == 1 && m.From != "" && m.Toward > 0:
		off = "too far from " + string(m.From)
	case m.Known == 1 && m.From != "":
		off = "too near to " + string(m.From)
	}
	return fmt.Sprintf("%s stands %s %s.", m.Name, m.by(), off)
}

// by is how far it is off, with its 95 % figure.
func (m moved) by() string {
	off := moveBy(m.Off, m.style)
	if m.style.Unit < unit.IN {
		off = strings.TrimSuffix(off, " mm")
	}
	return off + " ± " + moveBy(m.Figure95, m.style)
}

func (m moved) moveIt() string { return m.move("Move it", "it") }

// named is the same with the name of the peg; one that is as good as right stays.
func (m moved) named() string {
	if nothing(unit.Length(math.Hypot(float64(m.Toward), float64(m.Left))), m.style) {
		return string(m.Name) + " stays."
	}
	return m.move("Move "+string(m.Name), string(m.Name))
}

// move says how the peg is mended, after a lead: "Move it 12 mm towards A and 7 mm to
// the left, seen from A."
func (m moved) move(lead, it string) string {
	if m.From == "" {
		return "Set " + it + " out anew."
	}
	toward, left := "towards", "left"
	if m.Toward < 0 {
		toward = "away from"
	}
	if m.Left < 0 {
		left = "right"
	}
	along := fmt.Sprintf("%s %s %s", moveBy(m.Toward, m.style), toward, m.From)
	across := fmt.Sprintf("%s to the %s", moveBy(m.Left, m.style), left)
	switch {
	case m.AlongAlone() || nothing(m.Left, m.style):
		return lead + " " + along + "."
	case m.AcrossAlone() || nothing(m.Toward, m.style):
		return fmt.Sprintf("%s %s, seen from %s.", lead, across, m.From)
	}
	return fmt.Sprintf("%s %s and %s, seen from %s.", lead, along, across, m.From)
}

// moveBy is the size of a move as a hammer does it: whole mm, or the style's fraction.
func moveBy(l unit.Length, style unit.Style) string {
	l = unit.Length(math.Abs(float64(l)))
	if style.Unit >= unit.IN {
		return style.LengthUnit(l)
	}
	return unit.Style{Decimals: -1}.LengthUnit(l)
}

// nothing says whether a move would be told as 0.
func nothing(l unit.Length, style unit.Style) bool { return moveBy(l, style) == moveBy(0, style) }
