package app

import (
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

// level is the work as it were on level ground.
func (w Work) level() Work {
	w.Job.Pieces = slices.Clone(w.Job.Pieces)
	for i := range w.Job.Pieces {
		w.Job.Pieces[i].Levels = nil
	}
	return w
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
