package adjust

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Observation is one measurement as the adjustment sees it.
type Observation struct {
	Kind   triangle.Kind
	At     [3]int  // distance: its ends; angle: arm, corner, arm; height: corner, base
	N      int     // points in at: 2 or 3
	Index  int     // of the measurement it was made of
	Value  float64 // mm or rad
	Sigma  float64 // the same unit
	Stated bool    // sigma is from a stated tolerance
	Half   float64 // else half of the last digit, mm or rad
	sign   float64 // of an angle or a height: +1 where it turns or lies to the left
}

// Points are those that it is of.
func (o *Observation) Points() []int { return o.At[:o.N] }

// Has says whether the observation has to do with the point.
func (o *Observation) Has(p int) bool { return slices.Contains(o.Points(), p) }

// Orient settles whether an angle or a height counts as left or right, once and
// from the start, so that a point may pass through its own line on the way.
func (o *Observation) Orient(at []geom.Vector) {
	o.sign = 1
	a, b, c := at[o.At[0]], at[o.At[1]], at[o.At[2]]
	switch o.Kind {
	case triangle.Angle:
		if a.Minus(b).Cross(c.Minus(b)) < 0 {
			o.sign = -1
		}
	case triangle.Height:
		if geom.Side(b, c, a) < 0 {
			o.sign = -1
		}
	}
}

// Computed is what the observation would be at these places, and how it changes with each of its points.
func (o *Observation) Computed(at []geom.Vector) (value float64, by [3]geom.Vector) {
	switch o.Kind {
	case triangle.Distance:
		way := at[o.At[1]].Minus(at[o.At[0]])
		d := way.Size()
		u := way.Times(1 / d)
		return d, [3]geom.Vector{u.Times(-1), u}
	case triangle.Angle:
		u, v := at[o.At[0]].Minus(at[o.At[1]]), at[o.At[2]].Minus(at[o.At[1]])
		a := o.sign * math.Atan2(u.Cross(v), u.Dot(v))
		if a < -math.Pi/2 { // a straight angle that went over
			a += 2 * math.Pi
		}
		du := u.Left().Times(-o.sign / u.Dot(u))
		dv := v.Left().Times(o.sign / v.Dot(v))
		return a, [3]geom.Vector{du, du.Plus(dv).Times(-1), dv}
	}
	p, q, r := at[o.At[0]], at[o.At[1]], at[o.At[2]]
	b := r.Minus(q)
	l := b.Size()
	n := b.Left().Times(o.sign / l)
	h := n.Dot(p.Minus(q))
	t := p.Minus(q).Dot(b) / (l * l) // where the foot lies, as a share of the base
	return h, [3]geom.Vector{n, n.Times(t - 1), n.Times(-t)}
}

// Unsigned is the unsigned value, as a person measures it.
func (o *Observation) Unsigned(at []geom.Vector) float64 {
	t := *o
	t.Orient(at)
	v, _ := t.Computed(at)
	return v
}

// SigmaBefore is the σ while places are not known yet.
func (o *Observation) SigmaBefore(t tape.Tools) float64 {
	switch {
	case o.Stated:
		return o.Sigma
	case o.Kind == triangle.Angle:
		return math.Hypot(t.Instrument.Angle.Radians()/tape.Expansion, tape.Bound(o.Half))
	}
	return math.Hypot(float64(t.Pull(unit.Length(o.Value))), tape.Bound(o.Half))
}

// SigmaAt is the σ with what centring costs at these places.
func (o *Observation) SigmaAt(t tape.Tools, at []geom.Vector) float64 {
	if o.Stated || o.Kind != triangle.Angle {
		return o.SigmaBefore(t)
	}
	b, a, c := at[o.At[0]], at[o.At[1]], at[o.At[2]]
	return math.Hypot(float64(t.Turned(unit.Length(a.To(b)), unit.Length(a.To(c)), unit.Length(b.To(c)))), tape.Bound(o.Half))
}

// Among says whether all points of the observation are in.
func (o *Observation) Among(in []bool) bool {
	return !slices.ContainsFunc(o.Points(), func(q int) bool { return !in[q] })
}

// Gradient is how the observation changes with its point u, in σ.
func (o *Observation) Gradient(u int, at []geom.Vector) geom.Vector {
	t := *o
	t.Orient(at)
	_, by := t.Computed(at)
	if k := slices.Index(t.Points(), u); k >= 0 {
		return by[k].Times(1 / t.Sigma)
	}
	return geom.Vector{}
}

// Reach is as far as a place found by the observation may be off where it is known
// worst, near a line with the points that it was found from.
func (o *Observation) Reach(at []geom.Vector) float64 {
	if o.Kind == triangle.Angle {
		const most = 0.5 // rad
		return most
	}
	long := o.Value
	if o.N == 3 {
		long = max(long, at[o.At[1]].To(at[o.At[2]]))
	}
	return 4 * math.Sqrt(2*o.Sigma*long)
}

// Figure is the length of a distance or a height, or an angle; the other is 0.
type Figure struct {
	Length unit.Length
	Angle  unit.Angle
}

// AsFigure is the figure of a bare number: millimetres, or radians of an angle.
func AsFigure(k triangle.Kind, x float64) Figure {
	if k == triangle.Angle {
		return Figure{Angle: unit.Angle(x)}
	}
	return Figure{Length: unit.Length(x)}
}

// ReadingOf is what a measurement reads, as a bare number.
func ReadingOf(m triangle.Measurement) float64 {
	if m.Kind == triangle.Angle {
		return float64(m.Value.Angle())
	}
	return float64(m.Value.Length())
}

// Bare is the one of the two that is meant, in millimetres or radians.
func (f Figure) Bare(k triangle.Kind) float64 {
	if k == triangle.Angle {
		return float64(f.Angle)
	}
	return float64(f.Length)
}
