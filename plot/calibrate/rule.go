package calibrate

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Promise is how far any length on a corrected page may be off, of its length.
type Promise struct {
	Reading float64 // what 95 of 100 pages keep if the rule is true
	Rule    float64 // the most that the rule itself adds
}

// All of it: a rule that is wrong is wrong for every page, so its share is added whole.
func (p Promise) All() float64 { return p.Reading + p.Rule }

// Promised is what the fit to those readings can promise. The rule's share is that of the
// worst rule within its limits: off by all that it may be at some of the marks of width,
// height and diagonals (which lie side by side), true at the others, and alike on every
// sheet; of several rules each may be at its worst.
func Promised(fit geom.Fit, all []Readings) Promise {
	p := Promise{Reading: fit.Uncertainty()}
	seen := map[string]bool{}
	for _, r := range all {
		if !seen[r.Rule.Name] {
			seen[r.Rule.Name] = true
			p.Rule += ruleShare(fit, all, r.Rule.Name)
		}
	}
	return p
}

// ruleShare is by how much the rule of that name can bend the fit.
func ruleShare(fit geom.Fit, all []Readings, name string) float64 {
	worst := 0.0
	for way := 1; way < 8; way++ { // at which of the three it is off
		var spans []geom.Span
		for _, r := range all {
			for i, s := range r.Spans() {
				if r.Rule.Name == name && way>>min(i, 2)&1 == 1 {
					s.Found += r.Rule.Wrong(s.Found)
				}
				spans = append(spans, s)
			}
		}
		bent, err := geom.FitDistortion(spans)
		if err != nil {
			continue // it was fixed before, and a tenth of a millimetre does not undo that
		}
		d := geom.Distortion{Across: bent.Across - fit.Across, Along: bent.Along - fit.Along, Skew: bent.Skew - fit.Skew}
		worst = max(worst, d.Worst())
	}
	return worst
}

// Larger are readings of a sheet so many times as wide and high that came out true,
// read as these were.
func (r Readings) Larger(times float64) Readings {
	r.Width, r.Height, r.Corrected = r.Width*unit.Length(times), r.Height*unit.Length(times), geom.Distortion{}
	d := unit.Length(math.Hypot(r.Width.MM(), r.Height.MM()))
	r.AB, r.AD, r.AC, r.BD = r.Width, r.Height, d, d
	return r
}
