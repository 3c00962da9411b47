package words

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/words/phrase"
)

// Templates is what a template says of itself, but for how the piece is made by hand.
type Templates interface {
	// Heading of a section of the page that goes before the others.
	Heading(s Section) string
	// Mark is how many pieces are marked from the template; empty of one.
	Mark(m Marked) string
	// Facts stand below the name there, each a few words.
	Facts(h ByHand, o Ordered) []string
	// Sheets are how it is marked and what it is printed on, each a few words.
	Sheets(o Ordered) []string
	// Continued heads the pages that go on with it.
	Continued(name string) string
	// InThisOrder stands by the map of the sheets: which lies on which, with what the saw takes.
	// Both: there is a second map below, of the opposite hand.
	InThisOrder(j Joining, both bool, h ByHand) string

	// Bar is how the print is checked; here: by a bar on the page itself as well.
	Bar(sheets int, here bool) string
	// PrintAgain is what is done where it does not come true.
	PrintAgain() string
	// CheckHeads are those of the table of bar and sides: which, length, from, to, found
	// and, where the finished line is another than the one that is cut, its length.
	CheckHeads(s shape.Shape) []string
	// BarRow names the bar in that table.
	BarRow() string
	// Sides is what is done with its sides.
	Sides(s shape.Shape, sheets int) string
	// Outside is what is done when one is outside its range, or all are; known: the pages
	// are made for a printer that was calibrated.
	Outside(sheets int, known bool) []string
	// InParentheses is what parentheses about a figure mean.
	InParentheses() string
	// Measures says in a few words what the figures of a shaped piece measure and which
	// line is which; empty where there is but one line.
	Measures(s shape.Shape) string

	// Join is how the pages are joined, a step an item.
	Join(j Joining) []string
	// SpanHeads are the heads of the table of lengths between joins: which, from which join
	// to which, length, from, to.
	SpanHeads() []string
	// Span names such a length and the joins that it lies between.
	Span(s Span) (which, from, to string)
	// Spans says how long the rows are that the table leaves out, by so much a page.
	Spans(page unit.Length, s unit.Style) string
	// Expected is how true the template will be.
	Expected(e Expected) string

	// Corner is what is done at a corner; empty where nothing is.
	Corner(v shape.Vertex, s unit.Style) string
	// Besides is what stands beside a side besides its figure: the length of its finished
	// edge, where that is another (else 0), and its allowance.
	Besides(h ByHand, other unit.Length, measured bool, allow unit.Length) string
	// Allowance is what is left beside a finished edge for the saw.
	Allowance(length string) string
	// CutLine and FinishedEdge name the two lines of an edge with an allowance.
	CutLine() string
	FinishedEdge() string
	// Running is how far a tick along an edge lies from its corner.
	Running(figure, corner string) string
}

// Section of the page that goes before the others of a template.
type Section uint8

const (
	BeforeCutting Section = iota
	PutTogether
	MadeByHand
	SawAndSquare
	TakeCare
)

// Marked is how many pieces are marked from one template.
type Marked struct {
	Each int  // of a hand
	Pair bool // of both hands: it is turned over
}

// Ordered is on how much paper a template is, and which way up the piece lies.
type Ordered struct {
	Pages      int  // of the template
	Both       bool // hands, each on as many
	Paper      string
	Hand, Face string
	Grain      [2]geom.Name // the edge that it runs along
	Which      string       // a sentence: which of several placements of its points this is
}

// templates in English.
type templates struct{ voice Voice }

func (templates) Heading(s Section) string {
	return [...]string{"Before cutting", "Put together", "Without the paper", "Saw and square", "Cautions"}[s]
}

func (templates) Mark(m Marked) string {
	switch {
	case m.Pair:
		return fmt.Sprintf("mark %d, turn over, mark %[1]d: the opposite hand", m.Each)
	case m.Each > 1:
		return fmt.Sprintf("mark %d", m.Each)
	}
	return ""
}

func (w templates) Facts(h ByHand, o Ordered) []string {
	return said([]string{
		h.Figures.Name() + ", computed figures in parentheses", string(stepsOf(w.voice).OtherHeights(h)), w.Measures(h.Shape), strings.TrimSuffix(o.Which, "."),
	})
}

func (templates) Sheets(o Ordered) []string {
	marks := []string{o.Hand, o.Face}
	if o.Grain != ([2]geom.Name{}) {
		marks = append(marks, "grain along "+string(o.Grain[0]+o.Grain[1]))
	}
	sheets := fmt.Sprintf("%d %s on %s", o.Pages, phrase.Of(o.Pages, "sheet", "sheets"), o.Paper)
	if o.Both {
		sheets += " for each hand"
	}
	return append(said(marks), sheets)
}

// said is what is not empty.
func said(all []string) []string {
	return slices.DeleteFunc(all, func(s string) bool { return s == "" })
}

func (templates) Continued(name string) string { return name + ", continued" }

func (templates) InThisOrder(j Joining, both bool, h ByHand) string {
	var say []string
	if both {
		say = append(say, "Below: the opposite hand, in all a mirror image.")
	}
	switch {
	case j.loose():
		say = append(say, j.order())
	case j.Sheets > 1:
		say = append(say, "Lay the sheets in this order.")
	}
	var takes []unit.Length
	at := map[unit.Length][]string{}
	for _, s := range h.Shape.Sides {
		if s.Allow == 0 {
			continue
		}
		if at[s.Allow] == nil {
			takes = append(takes, s.Allow)
		}
		at[s.Allow] = append(at[s.Allow], s.Name)
	}
	for _, by := range takes {
		what := "Saw allowance " + h.Figures.Length(by)
		if by < 0 {
			what = "Short by " + h.Figures.Length(-by)
		}
		say = append(say, what+" on "+geom.Listed(at[by])+".")
	}
	return strings.Join(say, " ")
}

func (templates) Bar(sheets int, here bool) string {
	bars := phrase.Of(sheets, "the bars on the sheet.", "the bars on every sheet.")
	if here {
		return "Measure this bar and " + bars
	}
	return "Measure " + bars
}

func (templates) PrintAgain() string { return "If not, print again at 100 %, actual size." }

func (templates) CheckHeads(s shape.Shape) []string {
	heads := []string{"", "length", "from", "to", "found"}
	if other := otherLine(s); other != "" {
		heads = append(heads, other)
	}
	return heads
}

func (templates) BarRow() string { return "bar" }

func (templates) Sides(s shape.Shape, sheets int) string {
	then := phrase.Of(sheets, "Then measure ", "When the sheets are joined, measure ")
	switch {
	case s.Spared() && treated(s):
		return then + "along the cut line, up to its corners, set-backs and ticks."
	case s.Spared():
		return then + "along the cut line, from corner to corner."
	case treated(s):
		return then + "from prick point to prick point, or up to set-back and tick."
	}
	return then + "from prick point to prick point."
}

func (templates) Outside(sheets int, known bool) []string {
	alike := "All out alike: calibrate the printer."
	if known {
		alike = "All out alike: the printer or the paper has changed; calibrate again."
	}
	if sheets == 1 {
		return []string{"One out: read it once more. " + alike}
	}
	return []string{"One out: read it once more, then take it apart and join again. " + alike}
}

func (templates) InParentheses() string { return "Figures in parentheses are computed." }

func (templates) Measures(s shape.Shape) string {
	switch spared := s.Spared(); {
	case spared && treated(s):
		return "plain figures: the line to cut, to ticks and set-backs; finished: the dash-dotted edge, from sharp corner to sharp corner"
	case spared:
		return "plain figures: the line to cut; finished: the dash-dotted edge"
	case treated(s):
		return "plain figures: to corners, ticks and set-backs; whole: from sharp corner to sharp corner"
	}
	return ""
}

// treated says whether a corner is cut or rounded.
func treated(s shape.Shape) bool {
	return slices.ContainsFunc(s.Corners, func(v shape.Vertex) bool { return v.Finished != nil })
}

// otherLine is what the length of an edge is called beside that of the line that is
// cut: finished where the cut line lies elsewhere, whole where only corners are taken
// off; nothing where both are the same.
func otherLine(s shape.Shape) string {
	switch {
	case s.Spared():
		return "finished"
	case treated(s):
		return "whole"
	}
	return ""
}

func (templates) Corner(v shape.Vertex, s unit.Style) string {
	by := s.Length(v.By)
	switch v.Do {
	case shape.Cut:
		if v.Allow != 0 {
			return "cut " + by + ", " + s.Signed(v.Allow)
		}
		return "cut " + by
	case shape.Round:
		return "R " + by
	case shape.Blunt:
		return "blunt " + by
	case shape.Mitre:
		return "mitre"
	}
	return ""
}

func (templates) Allowance(length string) string { return "saw allowance " + length }

func (templates) CutLine() string { return "cut line" }

func (templates) FinishedEdge() string { return "finished edge" }

func (templates) Running(figure, corner string) string { return figure + " from " + corner }

func (templates) Besides(h ByHand, other unit.Length, measured bool, allow unit.Length) string {
	var say []string
	if other != 0 {
		say = append(say, otherLine(h.Shape)+" "+h.Length(other, measured))
	}
	if allow != 0 {
		say = append(say, h.Figures.Signed(allow))
	}
	return strings.Join(say, ", ")
}
