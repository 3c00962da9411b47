package app

import (
	"fmt"
	"io"

	"trammel/geom/unit"
	"trammel/plot/setout"
)

// OneSheet refuses a file of pegs for more than one sheet: each has a baseline of its
// own, and letters that the others have too.
func (s *Setout) OneSheet() error {
	if n := len(s.all); n > 1 {
		return &unit.Fault{What: fmt.Sprintf("a file of pegs is of one sheet, and this job has %d", n), Hint: "make a job of the piece"}
	}
	return nil
}

// Grid says how the pegs' coordinates lie.
func (s *Setout) Grid() string {
	ends := s.all[0].Grid
	return fmt.Sprintf("%s is the origin, and the baseline %s%s has the bearing", ends[0], ends[0], ends[1])
}

// Pegs writes the places of the pegs as point,x,y in the site's grid.
func (s *Setout) Pegs(out io.Writer) error {
	site := s.work.Site
	return s.all[0].PegsCSV(out, setout.Grid{Origin: site.Origin, Bearing: site.Bearing})
}
