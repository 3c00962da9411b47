package check

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/plan"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

const (
	// Beyond so many readings only those that are outside are on the plan.
	mostDrawn = 45
	// Up to so many each has its deviation beside its line.
	mostTold = 10
)

// planned is the pegs where they should stand and the lengths found, with deviations.
func (s Sheet) planned() plan.Plan {
	p := plan.Plan{Edge: s.Outline}
	for _, s := range s.Comparison.Standings {
		p.Pegs = append(p.Pegs, plan.Peg{Name: s.Name, At: s.Wanted})
	}
	for _, r := range s.Comparison.Readings {
		m := r.Measurement
		if m.Kind != triangle.Distance || r.Inside && len(s.Comparison.Readings) > mostDrawn {
			continue
		}
		words := ""
		switch {
		case !r.Inside:
			words = s.Off(m, r.Off) + " outside"
		case len(s.Comparison.Readings) <= mostTold:
			words = s.Off(m, r.Off)
		}
		p.Sides = append(p.Sides, plan.Side{From: m.At[0], To: m.At[1], Words: words, Measured: !r.Inside})
	}
	for _, m := range s.shown() {
		way := m.Wanted.Minus(m.At)
		p.Moves = append(p.Moves, plan.Move{Name: m.Name, Way: unit.Angle(math.Atan2(float64(way.Y), float64(way.X))), Words: s.Says().OnPlan(m, len(s.Comparison.Wrong()) > 0, s.written().Style)})
	}
	return p
}

// shown are the pegs whose move the plan shows.
func (s Sheet) shown() (all []compare.Moved) {
	seen := map[geom.Name]bool{}
	for _, e := range s.Comparison.Explanations {
		if !e.Well && len(s.Comparison.Explanations) == 1 {
			continue // no move is told of it
		}
		for _, m := range e.Pegs {
			if !seen[m.Name] {
				seen[m.Name] = true
				all = append(all, m)
			}
		}
	}
	return all
}

// fewNames is a plan with the names of those pegs alone that stand wrong or that a reading
// goes to that is outside.
func (s Sheet) fewNames(p plan.Plan) plan.Plan {
	told := map[geom.Name]bool{}
	for _, m := range p.Moves {
		told[m.Name] = true
	}
	for _, r := range s.Comparison.Readings {
		for _, n := range r.Measurement.At {
			told[n] = told[n] || !r.Inside
		}
	}
	p.Pegs = slices.Clone(p.Pegs)
	for i := range p.Pegs {
		p.Pegs[i].Quiet = !told[p.Pegs[i].Name]
	}
	return p
}

// figure is a plan with what its signs mean, from the top left down, and how high it is.
type figure struct {
	marks draw.Drawing
	high  unit.Length
	small bool // the layout is too short on it to be read at arm's length
	fits  bool
}

// planFigure is the plan as large as it fits; where all names have no room, of those pegs
// alone that something is told of.
func (s Sheet) planFigure(width, height unit.Length, r draw.Ruler) figure {
	const below, more = 2*draw.NoteHeight + 7.5, draw.NoteHeight + 1.6
	what := s.planned()
	signs := words.Signs{OutsideAlone: len(s.Comparison.Readings) > mostTold, Moves: len(what.Moves) > 0}
	extent := what.Extent()
	p, ok := what.Fit(width, height-below, r)
	if !ok {
		signs.FewNames = true
		p, ok = s.fewNames(what).Fit(width, height-below-more, r)
	}
	at := geom.Point{X: (width-p.Bounds.Width())/2 - p.Bounds.Min.X, Y: -p.Bounds.Max.Y}
	picture, legend := &draw.Tag{Role: draw.AsFigure, Alt: words.In(s.Language).Aloud().Found()}, &draw.Tag{}
	d, h := draw.Tagged(sheet.Shift(p.Ops, at), picture), p.Bounds.Height()+3
	for _, say := range s.heads().Legend(signs) {
		for _, line := range sheet.Wrap(say, width, draw.NoteHeight, false, r) {
			h += draw.NoteHeight + 1.6
			note := sheet.Note(line, 0, -h+0.8, draw.Left)
			note.Of = legend
			d = append(d, note)
		}
	}
	return figure{d, h + 1, max(extent.Width(), extent.Height())/unit.Length(p.Scale) < largePlan, ok}
}
