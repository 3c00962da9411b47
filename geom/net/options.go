package net

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
)

// option is the places where the next point may lie: one where something decides, else all that are open.
type option struct {
	point    int
	one, two *adjust.Observation // that it is found by; nil where it has no place
	places   []geom.Vector
	found    []Placed // of each place
	trace    float64  // of the covariance that the two measurements give it
	seen     int      // observations to known points when this was worked out
	open     bool
	closes   int  // how many points must be hung on until a measurement tells which place is meant; 0 unless open
	doubt    bool // there are three measurements or more, and no third agrees with any two
	early    bool // worked out while nothing told left from right
}

// before: what is decided by what was measured comes first, then what the
// outline decides, then what is open; among equals the surest.
func (o *option) before(q *option) bool {
	rank := func(o *option) int {
		switch {
		case o.open:
			return 2
		case o.found[0].Why >= ByOutline:
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(rank(o), rank(q)), cmp.Compare(o.closes, q.closes), cmp.Compare(o.trace, q.trace)) < 0
}

// mostTried bounds the observations of one point that are tried with each other.
const mostTried = 8

// Of two places the better one is what the other measurements mean where it fits
// them within fits σ (root mean square) and the other is so many times worse.
const (
	fits    = 10
	clearly = 4
)

// remembered is the option of a point, worked out anew only where more is known, or where
// the sides that are said of the point may say more.
func (s *state) remembered(u int, near []*adjust.Observation, sided bool, workOut func(int, []*adjust.Observation, *state) *option) *option {
	o := s.options[u]
	if o == nil || o.seen != len(near) || o.early || sided && s.sided[u] {
		o = workOut(u, near, s)
		s.options[u] = o
	}
	return o
}

// decided works out where u may lie, and takes the one place that is meant where something says so. Where two
// measurements do not quite meet, a third says that the place is between them.
func decided(u int, near []*adjust.Observation, s *state) *option {
	return s.decided(u, near, len(near) > 2)
}

func (s *state) decided(u int, near []*adjust.Observation, between bool) *option {
	o := &option{point: u, seen: len(near), trace: math.Inf(1)}
	agreed := -1
	missed := adjust.Meetings(u, near[:min(len(near), mostTried)], s.at, func(a, b *adjust.Observation, places []geom.Vector) {
		for _, c := range places {
			h := adjust.Intersection{Point: u, One: b, Two: a, At: c, Places: s.at}
			n, trace := len(h.Agreeing(near)), h.Trace()
			if n > agreed || n == agreed && trace < o.trace || o.one == nil {
				agreed, o.trace, o.places, o.one, o.two = n, trace, places, b, a
			}
		}
	})
	if o.one == nil {
		if missed.One == nil || !between {
			return o
		}
		o.places, o.one, o.two = []geom.Vector{missed.At}, missed.Two, missed.One
	}
	o.doubt = len(near) > 2 && agreed < 1
	o.decide(near, s)
	o.polish(near, s)
	return o
}

func (o *option) polish(near []*adjust.Observation, s *state) {
	for i, c := range o.places {
		o.places[i] = adjust.Intersection{Point: o.point, One: o.one, Two: o.two, At: c, Places: s.at}.Polished(near)
	}
}

// keep leaves the places that are good.
func (o *option) keep(good func(geom.Vector) bool) {
	o.places = slices.DeleteFunc(slices.Clone(o.places), func(c geom.Vector) bool { return !good(c) })
}

// describe says of each place how it was found.
func (o *option) describe(why Reason, base []int, s *state) {
	f := Placed{Point: s.Names[o.point], By: []int{min(o.one.Index, o.two.Index), max(o.one.Index, o.two.Index)}, Why: why}
	for _, q := range base {
		f.From = append(f.From, s.Names[q])
	}
	for _, c := range o.places {
		f.Right = rightOf(base, c, s)
		o.found = append(o.found, f)
	}
}

// rightOf says whether a place lies right of its base.
func rightOf(base []int, c geom.Vector, s *state) bool {
	return len(base) > 1 && !geom.IsLeft(s.at[base[0]], s.at[base[1]], c)
}

// decide takes the one place that is meant, where something says so.
func (o *option) decide(near []*adjust.Observation, s *state) {
	base, why := s.baseOf(o.point, o.one, o.two), OnlyPlace
	o.early = len(s.found) == 2 && len(s.control) == 0
	sides := s.sidesOf(o.point, base)
	for _, x := range sides {
		why = BySide
		o.keep(func(c geom.Vector) bool { return !x.wrong(c, s.at) })
	}
	if len(sides) > 0 && len(o.places) < 2 {
		// settled
	} else if i := o.better(near, s); i >= 0 {
		o.places, why = o.places[i:i+1], ByMeasurement
	} else if len(o.places) > 1 {
		wantRight, said := s.handOf(o.point, base)
		if said {
			why = ByOutline
		} else if o.early && len(s.round) == 0 { // no one can tell it from its mirror image
			wantRight, said, why = clockwise(base[0], base[1], o.point), true, ByAlphabet
		}
		if said {
			o.keep(func(c geom.Vector) bool { return rightOf(base, c, s) == wantRight })
		}
		if i := o.better(near, s); i >= 0 {
			o.places = o.places[i : i+1]
		}
	}
	o.open = len(o.places) > 1
	o.describe(why, base, s)
}

// better is the place that the other measurements mean, −1 where they do not tell.
func (o *option) better(near []*adjust.Observation, s *state) int {
	if len(o.places) < 2 || len(near) < 3 {
		return -1
	}
	off := make([]float64, len(o.places))
	for i, c := range o.places {
		h := adjust.Intersection{Point: o.point, One: o.one, Two: o.two, At: c, Places: s.at}
		sum := 0.0
		for _, x := range near {
			if x != o.one && x != o.two {
				v := h.Off(x)
				sum += v * v
			}
		}
		off[i] = math.Sqrt(sum / float64(len(near)-2))
	}
	order := slices.Clone(off)
	slices.Sort(order)
	if !(order[0] < fits) || order[1] < clearly*max(order[0], 1) {
		return -1
	}
	return slices.Index(off, order[0])
}

// clockwise says whether a, b, c run against the alphabet.
func clockwise(a, b, c int) bool { return (a < b) != (b < c) != (c < a) }
