package calibrate

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Rule is what the lengths were read with: between any two of its marks it may be
// wrong by Fixed, and by PerMetre for each metre between them, begun ones counted
// whole. The zero value is a rule without any error.
type Rule struct {
	Name            string // "class II"; readings of one name are by one rule
	Fixed, PerMetre unit.Length
}

// Wrong is how far off the rule may be over a length.
func (r Rule) Wrong(l unit.Length) unit.Length {
	const same = 1e-9 // a whole number of metres but for rounding
	return r.Fixed + r.PerMetre*unit.Length(math.Ceil(math.Abs(l.MM())/1000*(1-same)))
}

// Promise is how far any length on a corrected page may be off, of its length.
type Promise struct {
	Reading float64 // what 95 of 100 pages keep if the rule is true
	Rule    float64 // the most that the rule itself adds
}

// All of it: a rule that is wrong is wrong for every page, so its share is added whole.
func (p Promise) All() float64 { return p.Reading + p.Rule }

// Promised is what the fit to those readings can promise. The rule's share is that of
// the worst rule that is still within its limits, between the mark that is held on the
// first cross and those of width, height and diagonals, and between these as well: so
// the worst is off by all that it may be at some of them and true at the others. The
// diagonals' marks lie side by side. On every sheet that it was read with it is off
// alike; of several rules each may be at its worst.
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

// swapped says that the width stands for the height and the other way round: so the
// readings are a printer's, and as they stand they are not.
func (r Readings) swapped() error {
	near := func(found, meant unit.Length) bool { return math.Abs(float64(found/meant)-1) <= mostStretch }
	if near(r.AB, r.Width) && near(r.AD, r.Height) || !near(r.AB, r.Height) || !near(r.AD, r.Width) {
		return nil
	}
	return &unit.Fault{
		What: fmt.Sprintf("width and height are swapped: %s was typed for A to B, which is to be %s mm, and %s for A to D, which is to be %s", number(r.AB), number(r.Width), number(r.AD), number(r.Height)),
		Hint: fmt.Sprintf("look at the letters on the sheet; if that is so, type width=%s,height=%s", number(r.AD), number(r.AB)),
	}
}
