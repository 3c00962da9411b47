package net

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
)

// crossed says whether an edge at u crosses another so far that no adjustment undoes it.
func (e *placing) crossed(u int, s *state) bool {
	k, on := e.place[u]
	if !on || len(e.round) < 4 {
		return false
	}
	e.work -= 10 * float64(len(e.round))
	for _, i := range []int{k - 1, k} {
		a, b := e.corner(i), e.corner(i+1)
		if !s.known[a] || !s.known[b] {
			continue
		}
		for j := range e.round {
			c, d := e.corner(j), e.corner(j+1)
			if c == a || c == b || d == a || d == b || !s.known[c] || !s.known[d] {
				continue
			}
			if astride(s.at[a], s.at[b], s.at[c], s.at[d]) && astride(s.at[c], s.at[d], s.at[a], s.at[b]) {
				return true
			}
		}
	}
	return false
}

// astride says whether c and d lie well on both sides of the line ab.
func astride(a, b, c, d geom.Vector) bool {
	l := a.To(b)
	x, y := geom.Side(a, b, c)/l, geom.Side(a, b, d)/l
	return min(x, y) < -max(margin, 0.002*l) && max(x, y) > max(margin, 0.002*l)
}

// part is some of the points placed, and what was measured between them.
type part struct {
	in     []bool
	obs    []adjust.Observation
	end    []geom.Vector // adjusted by itself
	strays bool          // it began far from there
}

// contradicted says whether the measurements round u, adjusted by themselves, are
// more off than chance has it. First those of its neighbours, then wider and wider.
func (e *placing) contradicted(u int, near []*adjust.Observation, s *state) (end part, against bool) {
	const plain = 3 // σ, and nothing needs a closer look
	bad, strays := false, false
	for _, x := range near {
		off := math.Abs(x.Unsigned(s.at) - x.Value)
		bad = bad || !(off < plain*x.Sigma)
		strays = strays || !(off < x.Reach(s.at))
	}
	if !bad && len(near) < 3 {
		return part{}, false
	}
	in := make([]bool, len(e.Names))
	in[u] = true
	const wide = 40 // points; beyond, what does not show near by is left for the whole
	for count := 1; ; {
		before, next := count, slices.Clone(in)
		for i := range e.Obs {
			o := &e.Obs[i]
			if !slices.ContainsFunc(o.Points(), func(q int) bool { return in[q] }) || !o.Among(s.known) {
				continue
			}
			for _, q := range o.Points() {
				if !next[q] {
					next[q] = true
					count++
				}
			}
		}
		if in = next; count == before || count > wide {
			return end, false
		}
		q, all := e.core(u, len(near), in)
		if q.obs == nil {
			continue
		}
		q.strays = strays
		if end = q; e.apart(u, &end, s) {
			return end, true
		}
		if all {
			return end, false
		}
	}
}

// core leaves out what nothing checks: points of two measurements or fewer, again
// and again. all says that every measurement to u, so many, is among what is left.
func (e *placing) core(u, near int, in []bool) (left part, all bool) {
	in = slices.Clone(in)
	for {
		var obs []adjust.Observation
		degree := make([]int, len(in))
		for i := range e.Obs {
			if o := &e.Obs[i]; o.Among(in) {
				obs = append(obs, *o)
				for _, q := range o.Points() {
					degree[q]++
				}
			}
		}
		gone := false
		for v := range in {
			_, held := e.control[v]
			if in[v] && degree[v] < 3 && !held && (v != u || near > 2) {
				in[v], gone = false, true
			}
		}
		if gone {
			continue
		}
		if !in[u] || len(obs) == 0 {
			return part{}, false
		}
		return part{in: in, obs: obs}, degree[u] == near
	}
}

// alike says whether two adjusted parts of the same points are one, turned over or not.
func (q part) alike(r part) bool {
	if !slices.Equal(q.in, r.in) || len(r.end) == 0 {
		return false
	}
	const same = 3 * float64(adjust.Shortest)
	for i := range q.in {
		for j := range i {
			if q.in[i] && q.in[j] && !(math.Abs(q.end[i].To(q.end[j])-r.end[i].To(r.end[j])) < same) {
				return false
			}
		}
	}
	return true
}

// apart says whether a part of the net cannot be what was measured: by itself, or
// with the measurements to u where without them it can.
func (e *placing) apart(u int, q *part, s *state) bool {
	spare := len(q.obs) + 3
	for v, in := range q.in {
		if _, held := e.control[v]; in && !held {
			spare -= 2
		}
	}
	others := slices.DeleteFunc(slices.Clone(q.obs), func(o adjust.Observation) bool { return o.Has(u) })
	most := func(freedom int) float64 { return e.slack * limit(max(1, min(freedom, e.freedom)), chanceOfPart) }
	more := most(len(q.obs) - len(others) - 2)
	sum, end := e.least(q.obs, q.in, s.at, more)
	if q.end = end; sum > most(spare) {
		return true
	}
	if sum <= more {
		return false
	}
	less, _ := e.least(others, q.in, s.at, 0)
	return sum > more+less
}

// least is the sum of squares of some points adjusted by themselves, from where they lie, or one that is no
// more than enough. The points need not be held: the steps are damped.
func (e *placing) least(obs []adjust.Observation, in []bool, at []geom.Vector, enough float64) (float64, []geom.Vector) {
	free := make([]bool, len(at))
	for i := range obs {
		for _, q := range obs[i].Points() {
			_, held := e.control[q]
			free[q] = in[q] && !held
		}
	}
	obs = slices.Clone(obs)
	adjust.Orient(obs, at)
	f := adjust.Equations{Obs: obs, Free: adjust.NewUnknowns(len(at), func(i int) (x, y bool) { return !free[i], !free[i] })}.
		Least(at, enough, func(cost float64) { e.work -= cost })
	return f.Sum, f.At
}
