package words

import (
	"fmt"
	"regexp"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/plot/words/byhand"
)

// ByHand is a piece that is made by hand, and what is at hand.
type ByHand = byhand.Piece

// Computed is a figure as a drawing or a table shows it: bare when measured, else in parentheses.
func Computed(figure string, measured bool) string { return byhand.Computed(figure, measured) }

// Steps tell how a piece is constructed by hand, and how its corners are sawn.
type Steps interface {
	// Act is a sentence about one move of the hand, or a few, without a number. Lengths are
	// in the style's unit, which is named elsewhere but in a class.
	Act(h ByHand, a byhand.Act) string
	// Why a triangle is constructed on its baseline, and by its way; empty where nothing
	// needs to be said.
	Why(h ByHand) string
	// Shaping is what is done to the outline when it is drawn: corners, holes, and last the
	// offsets to the line that is cut.
	Shaping(h ByHand) []string
	// AsFor says that so many first steps are those of another piece.
	AsFor(steps int, piece string) string
	// Radius is the label of an arc: how far, and where it is swung from.
	Radius(h ByHand, s construct.Swing) string
	// OtherHeights are those that were measured over other sides than the baseline: no
	// line of the drawing shows them. Empty where there are none.
	OtherHeights(h ByHand) Remark
	// Settings of saw and square as a table: a row of heads, a row a corner, one more
	// for the edge that a cut corner makes.
	Settings(h ByHand) [][]string
	// AboutSettings is how that table is used: what all rows need, and what those need
	// that are not set at the fence.
	AboutSettings(h ByHand) []string
}

// InWords is every move of a piece in words.
func InWords(s Steps, h ByHand) (all []string) {
	for _, a := range h.Acts() {
		say := s.Act(h, a)
		if _, begins := a.(construct.DrawBase); begins {
			say = strings.TrimSpace(say + " " + s.Why(h))
		}
		all = append(all, say)
	}
	return append(all, s.Shaping(h)...)
}

// inParts is a figure in two parts, which stay on a line: a fraction and its whole, a length and its unit.
var inParts = regexp.MustCompile(`(\d['"]?) (\d+/\d+|mm\b|cm\b|m\b)`)

// Set is those words as they are set on paper: the name of a corner keeps to the word before
// it, so that no line starts with a lone letter, and no figure is torn apart.
func Set(s Steps, h ByHand, names []geom.Name) []string {
	all := InWords(s, h)
	for i, step := range all {
		for _, n := range names {
			for _, end := range []string{".", ",", ";", ":", " "} {
				step = strings.ReplaceAll(step, " "+string(n)+end, "\u00a0"+string(n)+end)
			}
		}
		all[i] = inParts.ReplaceAllString(step, "$1\u00a0$2")
	}
	return all
}

// steps in English; the voice says Act and Shaping.
type steps struct{ byhand.Voice }

// stepsOf is the steps in a voice.
func stepsOf(v Voice) steps {
	return steps{map[Voice]byhand.Voice{Class: byhand.Class, Bench: byhand.Bench, Floor: byhand.Floor, Ground: byhand.Ground}[v]}
}

func (steps) Settings(h ByHand) [][]string    { return byhand.Settings(h) }
func (steps) AboutSettings(h ByHand) []string { return byhand.AboutSettings(h) }

func (steps) AsFor(steps int, piece string) string {
	if steps == 2 {
		return "Steps 1 and 2 as for " + piece + "."
	}
	return fmt.Sprintf("Steps 1 to %d as for %s.", steps, piece)
}

func (steps) Radius(h ByHand, s construct.Swing) string {
	say := "R " + h.Length(s.Radius, s.Measured)
	if s.Centre != "" {
		say += " from " + string(s.Centre)
	}
	return say
}

func (steps) OtherHeights(h ByHand) Remark {
	var say []string
	t := h.Construction.Triangle
	if t == (triangle.Triangle{}) {
		return "" // a net, or a page that several pieces share
	}
	for i, n := range t.Names {
		if h.Heights[i] && i != h.Construction.Apex() {
			say = append(say, fmt.Sprintf("height from %s %s", n, h.Figures.Length(t.Heights[i])))
		}
	}
	if say == nil {
		return ""
	}
	return Remark("measured too: " + strings.Join(say, ", "))
}
