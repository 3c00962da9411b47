package plan

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// picture is what of a plan is in a drawing of it: the plan whole, or a detail.
type picture struct {
	Plan
	k     float64 // paper over ground
	at    map[geom.Name]geom.Point
	shown []Peg              // the pegs in it
	inRun map[geom.Name]bool // names that the running dimensions have
}

// mostLines is how many lines between pegs may be on a plan: more are a tangle.
const mostLines = 120

// outline of the piece on paper, counter-clockwise.
func (pic picture) outline() geom.Polygon {
	var out geom.Polygon
	for _, n := range pic.Edge {
		if p, ok := pic.at[n]; ok {
			out = append(out, p)
		}
	}
	return out
}

// drawnSides are the sides that the plan shows: of too many the edges alone.
func (pic picture) drawnSides() []Side {
	if len(pic.Sides) <= mostLines {
		return pic.Sides
	}
	return slices.DeleteFunc(slices.Clone(pic.Sides), func(s Side) bool { return pic.edgeHand(s) == 0 })
}

// outside is the hand on which the outside of the edges lies: −1 the right, +1 the left.
func (pic picture) outside() unit.Angle {
	out, area := pic.outline(), 0.0
	for i := range out {
		area += side(out.Edge(i), geom.Point{})
	}
	if area < 0 {
		return 1
	}
	return -1
}

// edgeHand is the hand of a side on which the outside lies; 0 where it is no edge.
func (pic picture) edgeHand(s Side) unit.Angle {
	for i, n := range pic.Edge {
		next := pic.Edge[(i+1)%len(pic.Edge)]
		switch {
		case n == s.From && next == s.To:
			return pic.outside()
		case n == s.To && next == s.From:
			return -pic.outside()
		}
	}
	return 0
}

// corners is how many pegs of the piece there are in all: a detail is lettered as its plan.
func (p Plan) corners() int {
	n := 0
	for _, peg := range p.Pegs {
		if peg.Role == Corner {
			n++
		}
	}
	return n
}

// byRunning says whether a mark has its name in the running figures below it.
func (pic picture) byRunning(peg Peg) bool {
	return peg.Role != Corner && pic.inRun[peg.Name] && math.Abs(float64(peg.At.Y)) < onLine
}

// usualGap is the middle one of the distances from each peg to the one next to it.
func (pic picture) usualGap() unit.Length {
	var gaps []unit.Length
	for i, p := range pic.shown {
		least := unit.Length(math.Inf(1))
		for j, q := range pic.shown {
			if i != j {
				least = min(least, p.At.Distance(q.At))
			}
		}
		gaps = append(gaps, least)
	}
	slices.Sort(gaps)
	return gaps[len(gaps)/2]
}
