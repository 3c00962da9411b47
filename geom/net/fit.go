package net

import (
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
)

// unknowns of the net: all but the known points, or where there are none, but
// the first end of the baseline and the direction to its second.
func (p *problem) unknowns(base [2]int) adjust.Unknowns {
	return adjust.NewUnknowns(len(p.Names), func(i int) (x, y bool) {
		if len(p.control) == 0 {
			return i == base[0], i == base[0] || i == base[1]
		}
		_, given := p.control[i]
		return given, given
	})
}

// freedom is how many measurements there are beyond what is needed.
func (p *problem) freedom() int { return len(p.Obs) - p.unknowns([2]int{0, 1}).N }

type fitted struct {
	*adjust.Fit
	base [2]int // held: the origin and the direction of x; 0, 0 with known points
}

// baseline is the two ends that Net.Base means.
func (p *problem) baseline(at []geom.Vector) [2]int {
	if p.asked.Base != ([2]geom.Name{}) {
		return [2]int{p.Number[p.asked.Base[0]], p.Number[p.asked.Base[1]]}
	}
	var lines [][2]int
	for i := range p.round {
		lines = append(lines, [2]int{p.corner(i), p.corner(i + 1)})
	}
	for _, o := range p.Obs {
		if len(p.round) == 0 && o.Kind == triangle.Distance {
			lines = append(lines, [2]int(o.At[:2]))
		}
	}
	if len(lines) == 0 {
		return [2]int{0, 1}
	}
	return adjust.LongestOf(at, lines)
}

// laid turns and shifts the places so that one point is the origin and another on the x axis.
func laid(at []geom.Vector, base [2]int) []geom.Vector {
	a, b := base[0], base[1]
	way := at[b].Minus(at[a]).Unit()
	out := make([]geom.Vector, len(at))
	for i, c := range at {
		d := c.Minus(at[a])
		out[i] = geom.Vector{X: way.Dot(d), Y: way.Cross(d)}
	}
	out[a], out[b].Y = geom.Vector{}, 0
	return out
}

func overturned(at []geom.Vector) []geom.Vector {
	out := make([]geom.Vector, len(at))
	for i, c := range at {
		out[i] = geom.Vector{X: c.X, Y: -c.Y}
	}
	return out
}

func (p *problem) fit(at []geom.Vector) (*fitted, error) {
	var base [2]int
	if len(p.control) == 0 {
		base = p.baseline(at)
		at = laid(at, base)
	}
	obs := slices.Clone(p.Obs)
	for i := range obs {
		obs[i].Sigma = obs[i].SigmaAt(p.Tools, at)
	}
	f, err := p.settle(at, obs, p.unknowns(base))
	return &fitted{f, base}, err
}

// worst condition of the normal equations: beyond, a net counts as not fixed.
const worst = 1e14

// settle adjusts observations from these places, seen from which they are left or right.
func (p *problem) settle(at []geom.Vector, obs []adjust.Observation, free adjust.Unknowns) (*adjust.Fit, error) {
	adjust.Orient(obs, at)
	f, ok := adjust.Equations{Obs: obs, Free: free}.Solve(at)
	if !ok || f.Condition() > worst {
		u := f.Loosest()
		return nil, notFixed("measure "+p.allBut([]int{u}).another(u)+" as well", "%s is hardly held: it lies as good as in one line with the points that it is measured from", p.Names[u])
	}
	return f, nil
}
