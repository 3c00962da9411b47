package compare

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Outside are the readings that lie outside their ranges, into Readings.
func (c Comparison) Outside() (out []int) {
	for i, r := range c.Readings {
		if !r.Inside {
			out = append(out, i)
		}
	}
	return out
}

// Reads is what the tape shows over a length.
func (c Comparison) Reads(l unit.Length) unit.Length { return c.tape.reads(l) }

// Together says whether pegs that stand wrong were measured between, and stand right to
// one another: so they would if all the others were shifted or turned as a whole.
func (c Comparison) Together(e Explanation) bool {
	right := 0
	for i, r := range c.Readings {
		m := r.Measurement
		in := func(n geom.Name) bool { return slices.ContainsFunc(e.Pegs, func(p Moved) bool { return p.Name == n }) }
		if m.Kind == triangle.Distance && in(m.At[0]) && in(m.At[1]) && r.Inside && !slices.Contains(e.Reading, i) {
			right++
		}
	}
	return right == len(e.Pegs)*(len(e.Pegs)-1)/2
}

// Alike says whether every length reads too long, or every one too short, as the tape
// that explains it would have it.
func (c Comparison) Alike(e Explanation) bool {
	for i, r := range c.Readings {
		if r.Measurement.Kind != triangle.Angle && (float64(r.Off.Length)*e.By <= 0 || slices.Contains(e.Outside, i)) {
			return false
		}
	}
	return true
}

// Side says whether two pegs of a racked frame are a side of it.
func (e Explanation) Side(p, q geom.Name) bool {
	round := []geom.Name{e.Held[0], e.Held[1], e.Pegs[0].Name, e.Pegs[1].Name}
	i, j := slices.Index(round, p), slices.Index(round, q)
	return i < 0 || j < 0 || (i+1)%4 == j || (j+1)%4 == i
}

// Farthest is the peg that is off most.
func (e Explanation) Farthest() (far Moved) {
	for _, m := range e.Pegs {
		if m.Off > far.Off*(1+1e-9) {
			far = m
		}
	}
	return far
}

// AlongAlone says whether the move may be told without what it is to the left or
// right: that is little, and no more than is known of it.
func (m Moved) AlongAlone() bool { return m.Known == 1 || slight(m.Left, m.Toward, m.LeftSigma) }

// AcrossAlone says the same of what it is towards the peg or away from it.
func (m Moved) AcrossAlone() bool { return slight(m.Toward, m.Left, m.TowardSigma) }

func slight(part, other, sigma unit.Length) bool {
	size := math.Abs(float64(part))
	return size < inLine*math.Abs(float64(other)) && size < tape.Expansion*float64(sigma)
}
