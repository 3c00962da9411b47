package app

import (
	"errors"
	"math"
	numbers "math/big"
	"slices"

	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/setout"
)

// highest is farther up or down than any site.
const highest = 1000 * unit.Metre

// levels are how high the pegs of a piece stand; none: all is level.
func (w Work) levels(p Piece) ([]pegging.Level, error) {
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
		levels, err := w.levels(p)
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
			return w.levelled(p, f)
		}
	}
	return nil
}

// level is the work as it were on level ground.
func (w Work) level() Work {
	w.Job.Pieces = slices.Clone(w.Job.Pieces)
	for i := range w.Job.Pieces {
		w.Job.Pieces[i].Levels = nil
	}
	return w
}

// levelled gives a fault of the levels the place where they were said.
func (w Work) levelled(p Piece, f *unit.Fault) error {
	return f.In(w.Job.Pieces[p.Index].LevelsAt)
}

// reduced is what was taped along the ground, as it would be level: by the tape's own
// corrections and the fall between its two pegs. Angles and what goes to no levelled
// peg stay as they are.
func (w Work) reduced(pegs []compare.Stake, by *setout.Sheet, levels []pegging.Level, ms []triangle.Measurement) ([]triangle.Measurement, error) {
	var stakes []pegging.Peg
	for _, p := range pegs {
		stakes = append(stakes, pegging.Peg{Name: p.Name, At: p.At})
	}
	ground, err := pegging.GroundOf(stakes, levels)
	if err != nil {
		return nil, err
	}
	fall := ground.Fall
	if by != nil {
		fall = by.Fall // of its feet and middles as well
	}
	out := make([]triangle.Measurement, len(ms))
	for i, m := range ms {
		out[i] = m
		if m.Kind == triangle.Angle {
			continue
		}
		tape, c := tape.Standard{}, tape.Conditions{}
		if w.Site.Conditions != nil {
			tape, c = w.Site.Standard, *w.Site.Conditions
		}
		c.Fall = fall(m.At[0], m.At[1])
		if m.Kind == triangle.Height { // to the foot, which lies on the straight line of its base
			c.Fall = heightFall(stakes, ground, m)
		}
		level, _, err := tape.Measured(m.Value.Length(), c)
		if err != nil {
			return nil, err
		}
		out[i].Value.Text = w.Figures.Length(level)
		out[i].Value.Value = new(numbers.Rat).SetFloat64(level.MM())
	}
	return out, nil
}

// heightFall is the fall from a corner to the foot of its height, the ground along the
// base taken as straight.
func heightFall(pegs []pegging.Peg, g pegging.Ground, m triangle.Measurement) unit.Length {
	var at [3]geom.Point
	for i, n := range m.At {
		k := slices.IndexFunc(pegs, func(p pegging.Peg) bool { return p.Name == n })
		if k < 0 {
			return 0 // refused elsewhere
		}
		at[i] = pegs[k].At
	}
	base, up := at[2].Minus(at[1]), at[0].Minus(at[1])
	share := (float64(base.X)*float64(up.X) + float64(base.Y)*float64(up.Y)) / (float64(base.X)*float64(base.X) + float64(base.Y)*float64(base.Y))
	from, to := g.At(m.At[1]), g.At(m.At[2])
	return unit.Length(math.Abs(float64(g.At(m.At[0]) - from - (to-from)*unit.Length(share))))
}
