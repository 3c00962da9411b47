package net

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// What is written finer than this share of what the tool keeps was not read with that
// tool: 43°06'11" on a protractor that keeps 30'. A quarter of a degree, 35.25°, was.
const tooFine = 0.0099

// TooFine says of what is written far more finely than the tool that it is weighed by
// reads: with what it counts, and what to write where it was read so.
func (a Adjusted) TooFine(style unit.Style) (all []string) {
	t := a.net.Tools
	i := t.Complete().Instrument
	for k, r := range a.Results {
		m, o := r.Measurement, a.fit.Obs[k]
		if o.Stated {
			continue
		}
		half := o.Half
		o.Half = 0
		keeps := tape.Expansion * o.SigmaBefore(t)
		if !(half < tooFine*keeps) {
			continue
		}
		if m.Kind == triangle.Angle {
			all = append(all, fmt.Sprintf("%s=%s is written far more finely than a %s is read, and counts as ±%s: say what it was read with (--instrument theodolite, or under site: instrument: theodolite), or how far it is to be trusted, such as %s=%s+-0.01deg",
				m.Subject(), m.Value.Text, i.Name, angleWords(keeps), m.Subject(), m.Value.Text))
			continue
		}
		counts, such := fmt.Sprintf("%s mm", unit.Decimals(keeps, 1)), "0.1mm"
		if style.Unit >= unit.IN {
			counts, such = unit.Decimals(keeps/unit.Inch.MM(), 3)+" in", "1/64in"
		}
		all = append(all, fmt.Sprintf("%s=%s is written far more finely than a tape of class %s is read, and counts as ±%s: where it was read so, say how far it is to be trusted, such as %s=%s+-%s",
			m.Subject(), m.Value.Text, t.Tape.Class, counts, m.Subject(), m.Value.Text, such))
	}
	return all
}

// angleWords is a small angle in degrees, minutes or seconds, whichever is read easily.
func angleWords(a float64) string {
	d := a * 180 / math.Pi
	switch {
	case d < 1.0/60:
		return unit.Decimals(d*3600, 0) + "\u2033"
	case d < 1:
		return unit.Decimals(d*60, 0) + "\u2032"
	}
	return unit.Decimals(d, 1) + "°"
}

// Whoever says how large the scatter of readings is may be far off: enough of them show
// it, once in a thousand by chance.
const (
	enough    = 3 // measurements more than needed
	scattered = 0.001
	rougher   = 3 // times what they allow
)

// scatter says where the readings agree far better, or far worse, than what they are
// weighed by allows, and what that means; empty else.
func (a Adjusted) scatter() string {
	switch {
	case a.Freedom < enough:
	case len(a.Suspects) == 0 && distuv.ChiSquared{K: float64(a.Freedom)}.CDF(a.Sum) < scattered:
		return "they agree far better than what they are weighed by allows: if they were read so finely, say so (+- behind them, or the tape and the instrument); if some were worked out from others, those check nothing"
	case len(a.Suspects) == 0 && !a.Global.Passed && a.Global.Sigma0 >= rougher:
		return "so far apart no readings are by chance: they were read more roughly than they are weighed by (say so: +- behind them), or two or more hold a slip"
	}
	return ""
}
