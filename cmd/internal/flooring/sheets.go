package flooring

import (
	"trammel/cmd/internal/solved"
	"trammel/plot/floor"
)

// Sheet is what is printed of the floor.
func (f Floor) Sheet(w solved.Work) floor.Sheet {
	s := floor.Sheet{Language: w.OnSite, Figures: w.Figures, Outline: f.Outline, Openings: f.Openings, Gaps: f.Gaps, Plan: f.Plan, Box: f.Words.Box, Given: f.Given, Single: f.Single}
	s.Job, s.Piece, s.Date = w.Title, f.Piece.Title(), w.Job.Date
	if f.Wall >= 0 {
		s.Along = f.Outline.Side(f.Wall)
	}
	for _, t := range f.Tried {
		s.Tried = append(s.Tried, floor.Tried{Wall: t.Wall, Across: t.Across, Plan: t.Plan})
	}
	if a, ok := f.Piece.Checked(); ok { // how sure its corners are
		for _, n := range f.Outline.Names {
			s.Uneven = max(s.Uneven, a.Covariance(n).Figure95())
		}
	}
	return s
}
