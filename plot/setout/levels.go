package setout

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// levelMarks works out how high every mark lies: a corner as its level says, what is on
// the baseline on the straight lines between the corners that stand on it, the middle of
// a side in the middle, the top of a square on the line from its foot to the first
// corner that it is made for.
func (w *work) levelMarks() {
	if !w.Falls {
		return
	}
	w.level = map[geom.Name]unit.Length{}
	for n := range w.at {
		w.level[n] = w.Ground.At(n)
	}
	for _, p := range w.Pegs {
		switch _, known := w.level[p.Name]; {
		case known:
		case p.Side == OnLine:
			w.level[p.Name] = w.onBaseline(p.Along)
		case p.Role == Middle:
			w.level[p.Name] = (w.level[p.Of[0]] + w.level[p.Of[1]]) / 2
		}
	}
	for _, x := range slices.Concat(w.Main, w.Second) {
		if x.Square < 0 {
			continue
		}
		q := w.Squares[x.Square]
		_, offset, _ := w.running(w.sides[x.Peg])
		if _, known := w.level[q.Top]; !known {
			foot := w.level[q.At]
			w.level[q.Top] = foot + (w.level[x.Peg]-foot)*(q.Up/offset)
		}
	}
	for i, q := range w.Squares {
		legs := w.legsOf(q)
		w.Squares[i].Loop = [3]unit.Length{legs[0], legs[0] + legs[2], legs[0] + legs[2] + legs[1]}
	}
}

// onBaseline is how high the line of the baseline lies at a running distance.
func (s Sheet) onBaseline(along unit.Length) unit.Length {
	type mark struct{ x, z unit.Length }
	var on []mark
	for _, p := range s.Pegs {
		if p.Role == Corner && p.Side == OnLine {
			on = append(on, mark{p.Along, s.Ground.At(p.Name)})
		}
	}
	slices.SortFunc(on, func(a, b mark) int { return cmp.Compare(a.x, b.x) })
	i := 0
	for i < len(on)-2 && along > on[i+1].x {
		i++
	}
	a, b := on[i], on[i+1]
	return a.z + (b.z-a.z)*((along-a.x)/(b.x-a.x))
}

// Fall is the difference of level between two marks of the sheet; 0 where all is level.
func (s Sheet) Fall(a, b geom.Name) unit.Length { return s.fall(a, b) }

// fall is the difference of level between two marks; 0 where all is level.
func (s Sheet) fall(a, b geom.Name) unit.Length {
	return unit.Length(math.Abs(float64(s.level[a] - s.level[b])))
}

// markFalls are the falls of a mark on an edge: from the edge's first corner to it, from
// the zero end to its foot, and from there to it.
func (s Sheet) markFalls(m EdgeMark) (edge, along, out unit.Length) {
	if !s.Falls {
		return 0, 0, 0
	}
	from, to := s.level[m.Edge[0]], s.level[m.Edge[1]]
	rise := (to - from) * (m.At / s.between(m.Edge[0], m.Edge[1]))
	foot := s.onBaseline(m.Along)
	abs := func(l unit.Length) unit.Length { return max(l, -l) }
	return abs(rise), abs(foot - s.level[s.Baseline.From]), abs(from + rise - foot)
}

// levelWords say what the falls are reckoned from.
func (s Sheet) levelWords() string {
	if !s.Falls {
		return ""
	}
	var said []string
	for _, p := range s.Pegs {
		if p.Role == Corner && !slices.Contains(s.Ground.Assumed, p.Name) {
			said = append(said, string(p.Name)+" "+s.signedLevel(p.Name))
		}
	}
	words := "Levels in " + s.Style.Name() + ": " + strings.Join(said, ", ") + "."
	if all := s.assumed(); all != "" {
		words += " " + all
	}
	return words + " Between marks the ground is taken as straight: along the baseline from peg to peg and on beyond its ends, from a foot to its peg, along an edge from corner to corner. Over a fall the tape reads √(level² + fall²). What was measured is taken as level; boards, their nails and strings are set level."
}

// assumed says of which pegs the level is not known and what it is taken for.
func (s Sheet) assumed() string {
	var all []string
	for _, p := range s.Pegs {
		if slices.Contains(s.Ground.Assumed, p.Name) {
			all = append(all, string(p.Name)+" "+s.signedLevel(p.Name))
		}
	}
	if len(all) == 0 {
		return ""
	}
	return fmt.Sprintf("Not levelled, and assumed: %s, %s.", strings.Join(all, ", "), s.Ground.Plane)
}

func (s Sheet) signedLevel(n geom.Name) string {
	if l := s.level[n]; l < 0 && s.Figure(-l) != s.Figure(0) {
		return "−" + s.Figure(-l)
	}
	return s.Figure(max(0, s.level[n]))
}
