package net

import (
	"gonum.org/v1/gonum/stat/distuv"

	"trammel/geom/adjust"
	"trammel/geom/tape"
)

// What is written finer than this share of what the tool keeps was not read with that
// tool: 43°06'11" on a protractor that keeps 30'. A quarter of a degree, 35.25°, was.
const tooFine = 0.0099

// Fine is what is written far more finely than the tool that it is weighed by reads.
type Fine struct {
	Index int           // into Results
	Keeps adjust.Figure // what the tool keeps, and so what it counts as, to each side
}

// TooFine is what is written so.
func (a Adjusted) TooFine() (all []Fine) {
	for k, r := range a.Results {
		o := a.fit.Obs[k]
		if o.Stated {
			continue
		}
		half := o.Half
		o.Half = 0
		if keeps := tape.Expansion * o.SigmaBefore(a.net.Tools); half < tooFine*keeps {
			all = append(all, Fine{k, adjust.AsFigure(r.Measurement.Kind, keeps)})
		}
	}
	return all
}

// Tools that what has no tolerance of its own is weighed by.
func (a Adjusted) Tools() tape.Tools { return a.net.Tools.Complete() }

// Whoever says how large the scatter of readings is may be far off: enough of them show
// it, once in a thousand by chance.
const (
	enough    = 3 // measurements more than needed
	scattered = 0.001
	rougher   = 3 // times what they allow
)

// Scatter is how the readings agree with what they are weighed by.
type Scatter uint8

const (
	AsWeighed Scatter = iota // about as well, or too few to tell
	Closer                   // far better: read more finely, or some worked out from others
	Wider                    // far worse than chance: read more roughly, or two or more slips
)

// Scatter of the readings.
func (a Adjusted) Scatter() Scatter {
	switch {
	case a.Freedom < enough:
	case len(a.Suspects) == 0 && distuv.ChiSquared{K: float64(a.Freedom)}.CDF(a.Sum) < scattered:
		return Closer
	case len(a.Suspects) == 0 && !a.Global.Passed && a.Global.Sigma0 >= rougher:
		return Wider
	}
	return AsWeighed
}
