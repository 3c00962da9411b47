package words

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
)

// Templates is what a template says of itself, but for how the piece is made by hand.
type Templates interface {
	// Heading of a section of the page that goes before the others.
	Heading(s Section) string
	// Facts stand below the name there, each a few words.
	Facts(h ByHand, o Ordered) []string
	// Continued heads the pages that go on with it.
	Continued(name string) string
	// Bar is how the print is checked.
	Bar() string
	// SideHeads are those of the table of sides: side, length, from, to, found and, where
	// the finished line is another than the one that is cut, its length.
	SideHeads(s shape.Shape) []string
	// Sides is what is done with that table once the pages are together; known: the
	// pages are made for a printer that was calibrated.
	Sides(s shape.Shape, pages int, known bool) string
	// InParentheses is what parentheses about a figure mean.
	InParentheses() string
	// Measures says in a few words what the figures of a shaped piece measure and which
	// line is which; empty where there is but one line.
	Measures(s shape.Shape) string

	// Join is how the pages are joined, a step an item.
	Join(j Joining) []string
	// SpanHeads are the heads of the table of lengths between joins: which, between which
	// joins, length, from, to.
	SpanHeads() []string
	// Span names such a length and the joins that it lies between.
	Span(s Span) (which, joins string)
	// Spans says how long the rows are that the table leaves out, by so much a page.
	Spans(page unit.Length, s unit.Style) string
	// Expected is how true the template will be and why.
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

// Ordered is how often a piece is made, and which way up.
type Ordered struct {
	Quantity   int
	Pages      int // of the template
	Paper      string
	Hand, Face string
	Grain      [2]geom.Name // the edge that it runs along
	Which      string       // a sentence: which of several placements of its points this is
}

// templates in English.
type templates struct{ voice Voice }

func (templates) Heading(s Section) string {
	return [...]string{"Before cutting", "Put together", "By hand", "Saw and square", "Cautions"}[s]
}

func (w templates) Facts(h ByHand, o Ordered) []string {
	off, each, pages := "", "", "1 page on "+o.Paper
	if o.Quantity > 1 {
		off, each = fmt.Sprintf("%d off", o.Quantity), " for each"
	}
	if o.Pages > 1 {
		pages = fmt.Sprintf("%d pages on %s%s", o.Pages, o.Paper, each)
	}
	marks := []string{o.Hand, o.Face}
	if o.Grain != ([2]geom.Name{}) {
		marks = append(marks, "grain along "+string(o.Grain[0]+o.Grain[1]))
	}
	return said([]string{
		off, h.Figures.Name() + ", computed figures in parentheses", string(stepsOf(w.voice).OtherHeights(h)), w.Measures(h.Shape),
		strings.Join(said(marks), ", "), strings.TrimSuffix(o.Which, "."), pages,
	})
}

// said is what is not empty.
func said(all []string) []string {
	return slices.DeleteFunc(all, func(s string) bool { return s == "" })
}

func (templates) Continued(name string) string { return name + ", continued" }

func (templates) Bar() string {
	return "Measure this bar, and both bars on every page, with a steel rule. Not true: print again at 100 %, actual size."
}

func (templates) SideHeads(s shape.Shape) []string {
	heads := []string{"side", "length", "from", "to", "found"}
	if other := otherLine(s); other != "" {
		heads = append(heads, other)
	}
	return heads
}

func (templates) Sides(s shape.Shape, pages int, known bool) string {
	side := "each side"
	if otherLine(s) != "" {
		side += " of the wide line"
	}
	if treated(s) {
		side += ", up to its corners, set-backs and ticks"
	}
	if pages == 1 {
		return "Measure " + side + "."
	}
	say := "When the pages are together, measure " + side + ". Out of its range: take them apart and join again."
	if !known {
		say += " All out alike: calibrate the printer."
	}
	return say
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
