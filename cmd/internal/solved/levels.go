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
		if err != nil || len(levels) == 0 || p.Other {
			if err != nil {
				return err
			}
			continue
		}
		var pegs []pegging.Peg
		if p.Net != nil {
			for i, n := range p.Net.Names {
				pegs = append(pegs, pegging.Peg{Name: n, At: p.Net.Points[i]})
			}
		} else {
			t := p.Triangle()
			for i, n := range t.Names {
				pegs = append(pegs, pegging.Peg{Name: n, At: t.Points[i]})
			}
		}
		var f *unit.Fault
		if _, err := pegging.GroundOf(pegs, levels); errors.As(err, &f) {
			return w.Levelled(p, f)
		}
	}
	return nil
}

// Levelled gives a fault of the levels the place where they were said.
func (w Work) Levelled(p Piece, f *unit.Fault) error {
	return f.In(w.Job.Pieces[p.Index].LevelsAt)
}
