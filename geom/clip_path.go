package geom

import (
	"math"

	"trammel/geom/unit"
)

// ClipPath is the runs of a path of lines and arcs that lie within the closed
// rectangle, in its own order and direction, each still connected. A closed path
// that is cut has open runs, and none is broken where the path begins. Ends are as
// exact as those of ClipLine and ClipArc; a segment wholly inside is unchanged.
func ClipPath(path []Segment, closed bool, r Rect) [][]Segment {
	var runs [][]Segment
	var run []Segment
	finish := func() {
		if len(run) > 0 {
			runs = append(runs, run)
		}
		run = nil
	}
	fromStart, toEnd := false, false // the first run has the path's start, the last its end
	for i, s := range path {
		toEnd = false
		for _, p := range clipSegment(s, r) {
			if !p.whole[0] {
				finish()
			} else if i == 0 {
				fromStart = true
			}
			run = append(run, p.Segment)
			if toEnd = p.whole[1]; !toEnd {
				finish()
			}
		}
		if !toEnd {
			finish()
		}
	}
	finish()
	if k := len(runs); closed && k > 1 && fromStart && toEnd {
		runs[k-1] = append(runs[k-1], runs[0]...)
		runs = runs[1:]
	}
	return runs
}

// ClipPolyline is ClipPath of a polyline. A closed one wholly inside comes back as a single
// run that ends where it starts.
func ClipPolyline(points []Point, closed bool, r Rect) (runs [][]Point) {
	path := make([]Segment, 0, len(points))
	for i, p := range points {
		if next := points[(i+1)%len(points)]; next != p && (closed || i+1 < len(points)) {
			path = append(path, Line{p, next})
		}
	}
	for _, run := range ClipPath(path, closed, r) {
		line := []Point{run[0].(Line).From}
		for _, s := range run {
			line = append(line, s.(Line).To)
		}
		runs = append(runs, line)
	}
	return runs
}

// clipped is a part of a segment, and whether it has the start and the end of it.
type clipped struct {
	Segment
	whole [2]bool
}

func clipSegment(s Segment, r Rect) []clipped {
	switch s := s.(type) {
	case Line:
		if l, ok := ClipLine(s, r); ok {
			return []clipped{{l, [2]bool{l.From == s.From, l.To == s.To}}}
		}
	case Arc:
		var parts []clipped
		same := func(a, b unit.Angle) bool { return s.Radius*unit.Length(math.Abs(float64(a-b))) <= grazing }
		for _, a := range ClipArc(s, r) {
			parts = append(parts, clipped{a, [2]bool{same(a.Start, s.Start), same(a.Start+a.Sweep, s.Start+s.Sweep)}})
		}
		return parts
	}
	return nil
}
