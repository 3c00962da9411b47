package net

import (
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
)

// unknowns of the net: all but the known points, or where there are none, but
// the first end a of the baseline and the direction to its second, b.
func (p *problem) unknowns(a, b int) adjust.Unknowns {
	return adjust.NewUnknowns(len(p.Names), func(i int) (x, y bool) {
		if len(p.control) == 0 {
			return i == a, i == a || i == b
		}
		_, given := p.control[i]
		return given, given
	})
}

// freedom is how many measurements there are beyond what is needed.
func (p *problem) freedom() int { return len(p.Obs) - p.unknowns(0, 1).N }

// fitted is a net after adjustment.
type fitted struct {
	*adjust.Fit
	base [2]int // held: the origin and the direction of x; 0, 0 with known points
}

// baseline is the two ends that Net.Base means.
func (p *problem) baseline(at []geom.Vector) (a, b int) {
	if p.asked.Base != ([2]geom.Name{}) {
		return p.Number[p.asked.Base[0]], p.Number[p.asked.Base[1]]
	}
	longest := -1.0
	try := func(i, j int) {
		// Equal but for rounding: the first keeps.
		if d := at[i].To(at[j]); d > longest*(1+1e-9) {
			longest, a, b = d, i, j
		}
	}
	if len(p.round) > 0 {
		for i := range p.round {
			try(p.corner(i), p.corner(i+1))
		}
		return a, b
	}
	for i := range p.Obs {
		if o := &p.Obs[i]; o.Kind == triangle.Distance {
			try(o.At[0], o.At[1])
		}
	}
	if longest < 0 {
		return 0, 1
	}
	return a, b
}

// laid turns and shifts the places so that a is the origin and b on the x axis.
func laid(at []geom.Vector, a, b int) []geom.Vector {
	way := at[b].Minus(at[a]).Unit()
	out := make([]geom.Vector, len(at))
	for i, c := range at {
		d := c.Minus(at[a])
		out[i] = geom.Vector{X: way.Dot(d), Y: way.Cross(d)}
	}
	out[a], out[b].Y = geom.Vector{}, 0
	return out
}

// overturned is the mirror image of the places.
func overturned(at []geom.Vector) []geom.Vector {
	out := make([]geom.Vector, len(at))
	for i, c := range at {
		out[i] = geom.Vector{X: c.X, Y: -c.Y}
	}
	return out
}

// fit adjusts the net from a start.
func (p *problem) fit(at []geom.Vector) (*fitted, error) {
	a, b := 0, 0
	if len(p.control) == 0 {
		a, b = p.baseline(at)
		at = laid(at, a, b)
	}
	obs := slices.Clone(p.Obs)
	for i := range obs {
		obs[i].Sigma = obs[i].SigmaAt(p.Tools, at)
	}
	f, err := p.settle(at, obs, p.unknowns(a, b))
	return &fitted{f, [2]int{a, b}}, err
}

// worst condition of the normal equations: beyond, a net counts as not fixed.
const worst = 1e14

// settle adjusts observations from these places, seen from which they are left or right.
func (p *problem) settle(at []geom.Vector, obs []adjust.Observation, free adjust.Unknowns) (*adjust.Fit, error) {
	adjust.Orient(obs, at)
	f, ok := adjust.Equations{Obs: obs, Free: free}.Solve(at)
	if !ok || f.Condition() > worst {
		return nil, p.hardlyHeld(f)
	}
	return f, nil
}

// hardlyHeld says which point a net that is not fixed leaves free.
func (p *problem) hardlyHeld(f *adjust.Fit) error {
	u := f.Loosest()
	s := p.blank()
	for i := range s.known {
		s.known[i] = i != u
	}
	return notFixed("measure "+s.another(u)+" as well", "%s is hardly held: it lies as good as in one line with the points that it is measured from", p.Names[u])
}
