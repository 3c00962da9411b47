package net

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// DoubtKind is what is doubtful in a net itself.
type DoubtKind uint8

const (
	EdgesCross  DoubtKind = iota // Edges of the outline do
	MirrorImage                  // the outline runs clockwise: its corners are named the wrong way round, or the piece is turned over
	AngleSum                     // Angles of one triangle do not make 180°
	Unchecked                    // a slip in Lines would not show
	AsNear                       // no placement agrees with all that was measured, and Others[0] comes as near
)

// Doubt is one, with what it is about.
type Doubt struct {
	Kind         DoubtKind
	Edges        [2][2]geom.Name
	Angles       []int // into Results
	Sum, Allowed unit.Angle
	Lines        []string // what was measured, as Subject has it, in the order of the alphabet
}

// warn looks for what is doubtful in the net itself.
func (a *Adjusted) warn() {
	p := a.net
	if i, j, crossed := p.polygon(a.fit.At).Crossing(); len(a.Suspects) > 0 {
		// What a slip bends is not the outline's fault.
	} else if crossed {
		edge := func(i int) [2]geom.Name { return [2]geom.Name{p.Names[p.corner(i)], p.Names[p.corner(i+1)]} }
		a.Doubts = append(a.Doubts, Doubt{Kind: EdgesCross, Edges: [2][2]geom.Name{edge(i), edge(j)}})
	} else if len(p.asked.Sides) == 0 && p.area(a.fit.At) < 0 {
		a.Doubts = append(a.Doubts, Doubt{Kind: MirrorImage})
	}
	a.Doubts = append(a.Doubts, p.angleSums()...)
	var alone []string
	for i, r := range a.Results {
		if a.Freedom > 0 && r.Redundancy < Checked && !a.held(i) {
			alone = append(alone, r.Measurement.Subject())
		}
	}
	if len(alone) > 0 {
		slices.Sort(alone)
		a.Doubts = append(a.Doubts, Doubt{Kind: Unchecked, Lines: slices.Compact(alone)})
	}
}

// angleSums finds triangles whose three measured angles do not make 180° within the sum of what they allow.
func (p *problem) angleSums() (all []Doubt) {
	order, in := byThree(p.Obs, func(o *adjust.Observation) bool { return o.Kind == triangle.Angle })
	for _, key := range order {
		at := map[int]int{}
		for _, i := range slices.Backward(in[key]) { // of what was measured twice the first
			at[p.Obs[i].At[1]] = i
		}
		if len(at) < 3 {
			continue
		}
		sum, allow := 0.0, 0.0
		var of []int
		for _, q := range key {
			o := &p.Obs[at[q]]
			sum, allow = sum+o.Value, allow+tape.Expansion*o.Sigma
			of = append(of, o.Index)
		}
		if off := sum - math.Pi; math.Abs(off) > allow*(1+1e-9) {
			all = append(all, Doubt{Kind: AngleSum, Angles: of, Sum: unit.Angle(sum), Allowed: unit.Angle(allow)})
		}
	}
	return all
}

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
