package app

import (
	"fmt"
	"math"

	"trammel/cmd/internal/lines"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// summary says in a few lines what the pages are, how the pieces lie on them, and what
// would take fewer.
func (t *layout) summary() []string {
	lines := t.told()
	if say := instead(t); say != "" {
		lines = append(lines, say)
	}
	return lines
}

// told is that without what would take fewer.
func (t *layout) told() []string {
	front := len(t.shared.front)
	for _, l := range t.laid {
		front += len(l.front)
	}
	first := lines.Plural(t.count, "page") + " of " + t.work.Sheet.Name
	if len(t.laid) > 1 {
		first += " for " + lines.Plural(len(t.laid), "piece")
	}
	if front > 0 {
		first += fmt.Sprintf(", %d of them instructions", front)
	}
	if n := t.shared.pages; n > 0 {
		first += fmt.Sprintf(", %d of them shared", n)
	}
	if t.work.roll {
		length := unit.Length(0) // of all pages one after the other
		for _, p := range t.seen {
			length += unit.Length(p.Height)
		}
		first += fmt.Sprintf(", %s of it", t.work.Figures.LengthUnit(length))
	}
	first += "; print at 100 %, actual size"
	if p := t.work.printer(); p != "" {
		first += ", on " + p + " only"
	}
	lines := []string{first}
	for _, l := range t.laid {
		if len(l.plan.Cells) > 1 && len(lines) < maxSummary {
			line := l.summary(t.work.Copies)
			if t.work.Cover == paging.OutlineOnly && l.plan.Cover == paging.Full {
				line += "; all of them, since those of the edges alone would miss a hole or a line"
			}
			lines = append(lines, line)
		}
	}
	return lines
}

const maxSummary = 6

// summary says how a piece lies on its pages, and what that saves.
func (l laid) summary(copies int) string {
	p, n := l.plan, len(l.plan.Cells)
	s := fmt.Sprintf("%s: %d pages to join", l.piece.Title(), n)
	if copies > 1 {
		s += fmt.Sprintf(", %d times", copies)
	}
	switch {
	case p.Kept && p.Least < n:
		s += fmt.Sprintf("; another turn takes %d", p.Least)
	case p.Settled || p.Proven && p.Least == n:
		s += "; no placement needs fewer"
	case p.Proven && p.Least < n:
		s += fmt.Sprintf("; another turn needs %d", p.Least)
	default:
		s += "; whether fewer would do is not known: the search was given up"
	}
	if p.Plain > n {
		s += fmt.Sprintf("; plain rows and columns take %d", p.Plain)
	}
	if d := math.Abs(math.Remainder(p.Place.Turn.Degrees(), 360)); d >= 0.05 {
		s += fmt.Sprintf("; turned %.1f° on the paper", d)
	}
	return s
}
