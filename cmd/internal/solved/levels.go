package solved

import (
	"errors"

	"trammel/geom/pegging"
	"trammel/geom/unit"
)

// highest is farther up or down than any site.
const highest = 1000 * unit.Metre

// Levels are how high the pegs of a piece stand; none: all is level.
func (w Work) Levels(p Piece) ([]pegging.Level, error) {
	var all []pegging.Level
	for _, l := range w.Job.Pieces[p.Index].Levels {
		at, err := unit.ParseSetting(l.Text, w.Bare, -highest, highest)
		if err != nil {
			var f *unit.Fault
			if errors.As(err, &f) {
				return nil, &unit.Fault{Where: l.Where, Subject: unit.Levels, What: string(l.Name) + ": " + f.What, Hint: f.Hint}
			}
			return nil, err
		}
		all = append(all, pegging.Level{Name: l.Name, At: at})
	}
	return all, nil
}

// grounded refuses levels that cannot be meant, also where nothing is set out.
func (w Work) grounded() error {
	for _, p := range w.Pieces {
		levels, err := w.Levels(p)
		if err == nil && len(levels) > 0 && !p.Other {
			_, err = pegging.GroundOf(p.Pegs(), levels)
		}
		if err != nil {
			return w.InPiece(p, err)
		}
	}
	return nil
}
