package solved

import (
	"errors"

	"trammel/geom"
	"trammel/geom/passage"
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

// Bars are what keeps lines of a piece from being pulled.
func Bars(w Work, p Piece) passage.Bars {
	of := w.Job.Pieces[p.Index]
	return passage.Bars{Walls: of.Walls.Names, Around: of.Walls.Around, Blocked: of.Blocked.Names}
}

// OpenLines is which lines between the points of a piece may be pulled.
func OpenLines(w Work, p Piece) (passage.Passage, error) {
	points := passage.Points{At: map[geom.Name]geom.Point{}}
	for _, peg := range p.Pegs() {
		points.Names, points.At[peg.Name] = append(points.Names, peg.Name), peg.At
	}
	if points.Outline = points.Names; p.Net != nil {
		points.Outline = p.Net.Outline
	} else if t := p.Triangle().Points; !geom.IsLeft(geom.VectorOf(t[0]), geom.VectorOf(t[1]), geom.VectorOf(t[2])) {
		points.Outline = []geom.Name{points.Names[0], points.Names[2], points.Names[1]}
	}
	return passage.Of(Bars(w, p), points)
}

// grounded refuses levels and walls that cannot be meant, also where nothing is set out.
func (w Work) grounded() error {
	for _, p := range w.Pieces {
		levels, err := w.Levels(p)
		if err == nil && len(levels) > 0 && !p.Other {
			_, err = pegging.GroundOf(p.Pegs(), levels)
		}
		if err == nil && !p.Other {
			_, err = OpenLines(w, p)
		}
		if err != nil {
			return w.InPiece(p, err)
		}
	}
	return nil
}
