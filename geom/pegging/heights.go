package pegging

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// Heights is how high the marks of a setting-out lie.
type Heights struct {
	Set
	Falls  bool   // the pulls follow the ground; otherwise all is level
	Ground Ground // under the points, where Falls

	level map[geom.Name]unit.Length // of every mark, where Falls
}

// heightsOf works out how high every mark lies: a corner as its level says, what is on
// the baseline on the straight lines between the corners that stand on it, the middle of
// a side in the middle, the top of a square on the line from its foot to the first
// corner that it is made for.
func heightsOf(s Set, falls bool, g Ground) Heights {
	h := Heights{Set: s, Falls: falls, Ground: g}
	if !falls {
		return h
	}
	h.level = map[geom.Name]unit.Length{}
	for n := range s.at {
		h.level[n] = g.At(n)
	}
	for _, p := range s.Pegs {
		switch _, known := h.level[p.Name]; {
		case known:
		case p.Side == OnLine:
			h.level[p.Name] = h.onBaseline(p.Along)
		case p.Role == Middle:
			h.level[p.Name] = (h.level[p.Of[0]] + h.level[p.Of[1]]) / 2
		}
	}
	for _, x := range slices.Concat(s.Main, s.Second) {
		if x.Square < 0 {
			continue
		}
		q := s.Squares[x.Square]
		_, offset, _ := s.Running(s.spots[x.Peg])
		if _, known := h.level[q.Top]; !known {
			foot := h.level[q.At]
			h.level[q.Top] = foot + (h.level[x.Peg]-foot)*(q.Up/offset)
		}
	}
	return h
}

// Level is how high a mark lies; 0 where all is level.
func (h Heights) Level(n geom.Name) unit.Length { return h.level[n] }

// Fall is the difference of level between two marks; 0 where all is level.
func (h Heights) Fall(a, b geom.Name) unit.Length {
	return unit.Length(math.Abs(float64(h.level[a] - h.level[b])))
}

// onBaseline is how high the line of the baseline lies at a running distance.
func (h Heights) onBaseline(along unit.Length) unit.Length {
	on := slices.DeleteFunc(slices.Clone(h.Pegs), func(p Mark) bool { return p.Role != Corner || p.Side != OnLine })
	slices.SortFunc(on, func(a, b Mark) int { return cmp.Compare(a.Along, b.Along) })
	i := 0
	for i < len(on)-2 && along > on[i+1].Along {
		i++
	}
	a, b := on[i], on[i+1]
	low, high := h.Ground.At(a.Name), h.Ground.At(b.Name)
	return low + (high-low)*((along-a.Along)/(b.Along-a.Along))
}

// EdgeFalls are the falls of a mark on an edge: from the edge's first corner to it, from
// the zero end to its foot, and from there to it.
func (h Heights) EdgeFalls(m EdgeMark) (edge, along, out unit.Length) {
	if !h.Falls {
		return 0, 0, 0
	}
	from, to := h.level[m.Edge[0]], h.level[m.Edge[1]]
	rise := (to - from) * (m.At / h.Between(m.Edge[0], m.Edge[1]))
	foot := h.onBaseline(m.Along)
	abs := func(l unit.Length) unit.Length { return max(l, -l) }
	return abs(rise), abs(foot - h.level[h.Baseline.From]), abs(from + rise - foot)
}
