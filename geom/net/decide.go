package net

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
)

// Of two places the better one is what the other measurements mean where it fits
// them within fits σ (root mean square) and the other is so many times worse.
const (
	fits    = 10
	clearly = 4
)

// decide takes the one place that is meant, where something says so.
func (p *problem) decide(o *option, one, two *adjust.Observation, near []*adjust.Observation, s *state) {
	f := Placed{Point: p.Names[o.point], By: []int{one.Index, two.Index}}
	var base []int
	for _, x := range []*adjust.Observation{one, two} {
		_, from := x.Loci(o.point, s.at)
		for _, q := range from {
			if !slices.Contains(base, q) {
				base = append(base, q)
			}
		}
	}
	slices.Sort(base) // as they stand in the alphabet, so that a line has one name
	slices.Sort(f.By)
	for _, q := range base {
		f.From = append(f.From, p.Names[q])
	}
	if len(o.places) == 1 {
		f.Why = OnlyPlace
	}
	right := func(c geom.Vector) bool { return len(base) > 1 && !geom.IsLeft(s.at[base[0]], s.at[base[1]], c) }
	keep := func(why Reason, good func(geom.Vector) bool) {
		var kept []geom.Vector
		for _, c := range o.places {
			if good(c) {
				kept = append(kept, c)
			}
		}
		o.places, f.Why = kept, why
	}
	first := len(s.found) == 2 && len(p.control) == 0
	o.early = first
	sides := p.sidesOf(o.point, base, s)
	for _, x := range sides {
		keep(BySide, func(c geom.Vector) bool { return geom.IsLeft(s.at[x.a], s.at[x.b], c) != x.right })
	}
	if len(sides) > 0 && len(o.places) < 2 {
		// settled
	} else if i := p.better(o, one, two, near, s); i >= 0 {
		o.places, f.Why = o.places[i:i+1], ByMeasurement
	} else if len(o.places) > 1 {
		if wantRight, said := p.byOutline(o.point, base); said {
			keep(ByOutline, func(c geom.Vector) bool { return right(c) == wantRight })
		} else if first && len(p.round) == 0 {
			// No one can tell it from its mirror image.
			keep(ByAlphabet, func(c geom.Vector) bool { return right(c) == p.clockwise(base[0], base[1], o.point) })
		}
		if i := p.better(o, one, two, near, s); i >= 0 {
			o.places = o.places[i : i+1]
		}
	}
	o.open = len(o.places) > 1
	for _, c := range o.places {
		g := f
		g.Right = right(c)
		o.found = append(o.found, g)
	}
}

// better is the place that the other measurements mean, −1 where they do not tell.
func (p *problem) better(o *option, one, two *adjust.Observation, near []*adjust.Observation, s *state) int {
	if len(o.places) < 2 || len(near) < 3 {
		return -1
	}
	off := make([]float64, len(o.places))
	for i, c := range o.places {
		h := adjust.Intersection{Point: o.point, One: one, Two: two, At: c, Places: s.at}
		sum := 0.0
		for _, x := range near {
			if x != one && x != two {
				v := h.Off(x)
				sum += v * v
			}
		}
		off[i] = math.Sqrt(sum / float64(len(near)-2))
	}
	best := 0
	for i := range off {
		if off[i] < off[best] {
			best = i
		}
	}
	for i := range off {
		if i != best && off[i] < clearly*max(off[best], 1) {
			return -1
		}
	}
	if !(off[best] < fits) {
		return -1
	}
	return best
}

// sideLine is one line that a point must lie on one side of.
type sideLine struct {
	a, b  int
	right bool
}

// sidesOf is what Net.Sides says of the point, as far as the lines are known.
func (p *problem) sidesOf(u int, base []int, s *state) (all []sideLine) {
	for _, x := range p.asked.Sides {
		if p.Number[x.Point] != u {
			continue
		}
		if x.Of == ([2]geom.Name{}) {
			if len(base) > 1 {
				all = append(all, sideLine{base[0], base[1], x.Right})
			}
			continue
		}
		if a, b := p.Number[x.Of[0]], p.Number[x.Of[1]]; s.known[a] && s.known[b] {
			all = append(all, sideLine{a, b, x.Right})
		}
	}
	return all
}

// byOutline says on which side of its base a corner lies when the outline is
// walked counter-clockwise: left of QR where the walk meets Q, R and it in this
// order. It holds where the outline is not hollow; elsewhere measurements or
// Net.Sides must say. A point off the outline lies inside its edges.
func (p *problem) byOutline(u int, base []int) (right, said bool) {
	if len(base) < 2 {
		return false, false
	}
	n := len(p.round)
	q, atQ := p.place[base[0]]
	r, atR := p.place[base[1]]
	c, atC := p.place[u]
	switch {
	case !atQ || !atR:
		return false, false
	case atC:
		return (r-q+n)%n > (c-q+n)%n, true
	case (r-q+n)%n == 1:
		return false, true
	case (q-r+n)%n == 1:
		return true, true
	}
	return false, false
}

// clockwise says whether a, b, c run against the alphabet.
func (p *problem) clockwise(a, b, c int) bool {
	rising := 0
	for _, up := range [...]bool{a < b, b < c, c < a} {
		if up {
			rising++
		}
	}
	return rising == 1
}
