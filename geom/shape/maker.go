package shape

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/unit"
)

type maker struct {
	geom.Outline // its names and points
	words        words
	corners      []corner

	allowances []*Allowance // of each side, nil where none is asked for
	treated    []*Corner    // of each corner, likewise

	finishedParts, cutParts []part // of each segment of the contours
	shape                   Shape
}

type part struct {
	Part
	side int
	of   *Corner // nil for a side
}

// name of a part in messages.
func (p Part) name() string {
	switch p.Do {
	case Sharp:
		return "edge " + p.Of
	case Round:
		return "the rounding at " + p.Of
	}
	return "the cut at " + p.Of
}

func (v Vertex) treatment() treatment { return treatment{v.Do, float64(v.By), float64(v.Allow)} }

func (m *maker) sideOf(edge [2]geom.Name) (int, *unit.Fault) {
	for i := range m.Names {
		a, b := m.Names[i], m.Names[m.Next(i)]
		if edge == [2]geom.Name{a, b} || edge == [2]geom.Name{b, a} {
			return i, nil
		}
	}
	for _, n := range edge {
		if _, f := m.cornerOf(n); f != nil {
			return 0, f
		}
	}
	var edges []string
	for i := range m.Names {
		edges = append(edges, m.Side(i))
	}
	return 0, &unit.Fault{What: fmt.Sprintf("%s%s is no edge of the piece", edge[0], edge[1]), Hint: "its edges are " + geom.Listed(edges)}
}

func (m *maker) cornerOf(name geom.Name) (int, *unit.Fault) {
	all := make([]string, len(m.Names))
	for i, n := range m.Names {
		if n == name {
			return i, nil
		}
		all[i] = string(n)
	}
	return 0, &unit.Fault{What: fmt.Sprintf("the piece has no corner %s", name), Hint: "its corners are " + geom.Listed(all)}
}
