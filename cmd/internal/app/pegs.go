package app

import (
	"fmt"
	"io"

	"trammel/plot/setout"
)

// A file of pegs is of one sheet: each has a baseline of its own, and letters that the
// others have too.

// grid says how the pegs' coordinates lie.
func (s *setoutSheets) grid() string {
	base := s.all[0].Baseline
	return fmt.Sprintf("%s is the origin, and the baseline %s%s has the bearing", base.From, base.From, base.To)
}

// pegs writes the places of the pegs as point,x,y in the site's grid.
func (s *setoutSheets) pegs(out io.Writer) error {
	site := s.work.Site
	return s.all[0].PegsCSV(out, setout.Grid{Origin: site.Origin, Bearing: site.Bearing})
}
