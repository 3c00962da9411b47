package setout

import (
	"slices"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// written is a layout as its figures are written.
type written struct {
	pegging.Layout
	Language words.Language // nil: English at the bench
}

// Says what there is to say of the layout, in the language of the sheet.
func (s written) Says() words.SetOut { return words.In(s.Language).SetOut(s.Layout) }

func (s written) heads() words.Heads { return words.In(s.Language).Heads(s.Layout) }

// corrects says whether a pull has a correction to tell of.
func (s written) corrects(p pegging.Pull) bool {
	return p.Use != pegging.ForAngle && (p.Use != pegging.ForLeg || s.Falls)
}

// laid is a length as the tape reads it over a fall; laidAlong the same of a running
// distance, with a sign where it lies behind the zero end.
func (s written) laid(l, fall unit.Length) string {
	r, _ := s.Reads(l, fall)
	return s.Figure(r)
}

func (s written) laidAlong(l, fall unit.Length) string {
	return tape.Below(l, s.laid(max(l, -l), fall))
}

// inBold is a figure in a table, bold where it was measured.
func inBold(figure string, given bool) string {
	if given {
		return sheet.Strong(figure)
	}
	return figure
}

// missingNails says which nails in boards are left out, and why.
func missingNails(s written) string {
	missing := 2*len(s.Outline) - len(s.Nails)
	if s.Boards == 0 || missing == 0 || len(s.Nails) == 0 && s.Shut == 0 {
		return ""
	}
	return s.heads().TooFar(missing)
}

// sitePegs are the pegs and marks of the work on site: not those of the second way's square.
func (s written) sitePegs() (all []pegging.Mark) {
	for _, p := range s.Pegs {
		if !s.Lone() || s.Method == pegging.OffsetSquare || p.Role != pegging.SquareLeg && p.Role != pegging.SquareTop {
			all = append(all, p)
		}
	}
	return all
}

// siteChecks are those that the sheet for the site has, numbered anew: of a triangle
// neither the distance that was just pulled again nor the halves of its sides; of many no
// more than show each peg twice.
func (s written) siteChecks() (all []pegging.Check) {
	seen := map[geom.Name]int{}
	for _, c := range s.Checks {
		if s.Lone() && (c.Along == pegging.HalfOfSide || c.Along == pegging.AlongFoot && c.To == s.Baseline.From) {
			continue
		}
		if len(s.Checks) > manyChecks && seen[c.From] >= shown && seen[c.To] >= shown {
			continue
		}
		seen[c.From], seen[c.To] = seen[c.From]+1, seen[c.To]+1
		all = append(all, c)
	}
	shown := map[int]bool{}
	for _, c := range all {
		for _, i := range c.Shows {
			shown[i] = true
		}
	}
	for _, c := range s.Checks { // and what alone shows a slip
		if slices.ContainsFunc(c.Shows, func(i int) bool { return !shown[i] }) {
			for _, i := range c.Shows {
				shown[i] = true
			}
			all = append(all, c)
		}
	}
	for i := range all {
		all[i].Number = i + 1
	}
	return all
}

// shown is how often the checks show a peg, at least.
const shown = 2

// officeChecks are the others.
func (s written) officeChecks() (all []pegging.Check) {
	site := s.siteChecks()
	for _, c := range s.Checks {
		if !slices.ContainsFunc(site, func(x pegging.Check) bool { return x.From == c.From && x.To == c.To }) {
			c.Number = len(site) + len(all) + 1
			all = append(all, c)
		}
	}
	return all
}

// pegFigures are a peg's running distance and offset, bold where measured.
func (s written) pegFigures(p pegging.Mark) (along, offset string) {
	along = inBold(s.along(p), alongMeasured(s, p))
	offset = inBold(s.Figure(p.Offset), p.Role == pegging.Corner && s.offsetTold(p.Name))
	return along, offset
}

// along is a running distance as it is written.
func (s written) along(p pegging.Mark) string {
	return tape.Below(p.Along, s.Figure(max(p.Along, -p.Along)))
}

func alongMeasured(s written, p pegging.Mark) bool {
	switch {
	case max(p.Along, -p.Along) <= pegging.SameMark:
		return false
	case p.Name == s.Baseline.To:
		return s.Baseline.Measured
	}
	return p.Role == pegging.Corner && p.Side == pegging.OnLine && s.PullTo(p.Name).Measured
}

// offsetTold says whether a corner's offset was measured.
func (s written) offsetTold(n geom.Name) bool {
	for _, p := range s.Pulls {
		if p.Use == pegging.ForHeight && p.To == n {
			return p.Measured
		}
	}
	return false
}

func edge(e [2]geom.Name) string { return string(e[0] + e[1]) }
