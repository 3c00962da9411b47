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

// grazing is how far outside a rectangle a place may lie and still count as on
// its edge, and the length below which a piece of arc is nothing: a circle that
// touches an edge from inside is then not split by the last bits of its radius,
// and a line along an edge is not lost by those of a turn. Coordinates up to 1 km in mm have bits of 1.2e-10.
const grazing unit.Length = 1e-9

// ClipLine is the part of a line that lies within the closed rectangle, running
// the same way; false where less than a point's neighbourhood is left: a line
// that only touches a corner has no part inside. A line wholly inside comes back
// unchanged, bit for bit. An end that is cut lies exactly on the edge that cuts
// it and within 4 ulp of the line's largest coordinate from the line itself. An
// end within 1e-9 mm outside an edge counts as on it and is not cut.
// (Y.-D. Liang, B. A. Barsky, A New Concept and Method for Line Clipping, 1984.)
func ClipLine(l Line, r Rect) (Line, bool) {
	from, to := r.grazed(l.From), r.grazed(l.To)
	dx, dy := float64(to.X-from.X), float64(to.Y-from.Y)
	share, cut := [2]float64{0, 1}, [2]int{uncut, uncut}
	for e, keep := range [4][2]float64{ // the shares t with p·t ≤ q
		{-dx, float64(from.X - r.Min.X)}, {dx, float64(r.Max.X - from.X)}, {-dy, float64(from.Y - r.Min.Y)}, {dy, float64(r.Max.Y - from.Y)},
	} {
		p, q := keep[0], keep[1]
		switch t := q / p; {
		case p == 0 && q < 0:
			return Line{}, false
		case p < 0 && t > share[0]:
			share[0], cut[0] = t, e
		case p > 0 && t < share[1]:
			share[1], cut[1] = t, e
		}
		if share[0] > share[1] {
			return Line{}, false
		}
	}
	out := Line{r.onEdge(l, share[0], cut[0], l.From), r.onEdge(l, share[1], cut[1], l.To)}
	if cut == [2]int{uncut, uncut} {
		return out, out.From != out.To
	}
	return out, math.Abs(float64(out.To.X-out.From.X)) > float64(grazing) || math.Abs(float64(out.To.Y-out.From.Y)) > float64(grazing)
}

// grazed is the place, put on the line of an edge that it lies just outside of.
func (r Rect) grazed(p Point) Point {
	near := func(v, low, high unit.Length) unit.Length {
		switch {
		case v < low && low-v <= grazing:
			return low
		case v > high && v-high <= grazing:
			return high
		}
		return v
	}
	return Point{near(p.X, r.Min.X, r.Max.X), near(p.Y, r.Min.Y, r.Max.Y)}
}

// uncut is for an end that none of the four edges cuts: left, right, lower, upper.
const uncut = -1

// onEdge is the place at share t of a line, put exactly on the edge that cut it.
func (r Rect) onEdge(l Line, t float64, edge int, end Point) Point {
	if edge == uncut {
		return end
	}
	p := l.At(t)
	p.X, p.Y = min(max(p.X, r.Min.X), r.Max.X), min(max(p.Y, r.Min.Y), r.Max.Y)
	if edge < 2 {
		p.X = [2]unit.Length{r.Min.X, r.Max.X}[edge]
	} else {
		p.Y = [2]unit.Length{r.Min.Y, r.Max.Y}[edge-2]
	}
	return p
}

// ClipArc is the parts of an arc that lie within the closed rectangle, in the
// arc's own order and direction, none where it stays outside. An arc wholly
// inside comes back unchanged, bit for bit. A whole circle that is cut comes back
// without a seam at its start. The parts have the arc's centre and radius, and
// their ends lie within 1e-9 mm of the edge that cuts them for radii to 100 m (a
// few ulp of the angle times the radius). A circle that touches an edge from
// inside stays whole; one that touches from outside leaves nothing.
func ClipArc(a Arc, r Rect) []Arc {
	c, rad := a.Centre, a.Radius
	if c.X-rad >= r.Min.X && c.X+rad <= r.Max.X && c.Y-rad >= r.Min.Y && c.Y+rad <= r.Max.Y {
		return []Arc{a}
	}
	if !ringMeets(c, rad, r) {
		return nil
	}
	g := newCuts(a)
	g.cross(r)
	kept := g.within(r)
	if len(kept) == 0 {
		return nil
	}
	short := float64(grazing / rad)
	if last := len(kept) - 1; kept[0][0] <= short && kept[last][1] >= g.way-short {
		if last == 0 {
			return []Arc{a}
		}
		if g.whole { // the seam of a circle is no place to cut it
			kept[last][1] = g.way + kept[0][1]
			kept = kept[1:]
		}
	}
	out := make([]Arc, len(kept))
	for i, k := range kept {
		out[i] = Arc{c, rad, a.Start + unit.Angle(g.sign*k[0]), unit.Angle(g.sign * (k[1] - k[0]))}
	}
	return out
}

// cuts are where an arc may leave or enter a rectangle, told by the way gone along
// it, in radians: its two ends, and at most two crossings with each edge's line.
type cuts struct {
	arc   Arc
	sign  float64 // of its sweep
	way   float64 // to its end
	whole bool    // it is a circle
	at    [10]float64
	n     int
	runs  [9][2]float64
}

func newCuts(a Arc) cuts {
	way := math.Abs(float64(a.Sweep))
	g := cuts{arc: a, sign: 1, way: min(way, 2*math.Pi), whole: way >= 2*math.Pi, n: 2}
	if a.Sweep < 0 {
		g.sign = -1
	}
	g.at[1] = g.way
	return g
}

// add puts the place in order that lies dx, dy from the centre, where the arc gets there.
func (g *cuts) add(dx, dy float64) {
	w := g.sign * (math.Atan2(dy, dx) - float64(g.arc.Start))
	if w -= 2 * math.Pi * math.Floor(w/(2*math.Pi)); w < g.way {
		i := g.n
		for ; g.at[i-1] > w; i-- { // the first is 0, so this ends
			g.at[i] = g.at[i-1]
		}
		g.at[i] = w
		g.n++
	}
}

// cross adds the crossings with the four edges' lines, a hair more than the edges: one
// too many does no harm, one missed at a corner would.
func (g *cuts) cross(r Rect) {
	rad := g.arc.Radius
	lo, hi := r.Min.Minus(g.arc.Centre), r.Max.Minus(g.arc.Centre)
	const hair = 1e-6
	for axis, d := range [4]unit.Length{lo.X, hi.X, lo.Y, hi.Y} {
		least, most := lo.Y-hair, hi.Y+hair
		if axis >= 2 {
			least, most = lo.X-hair, hi.X+hair
		}
		h := halfChord(rad, d)
		for _, off := range [2]unit.Length{h, -h} {
			switch {
			case h < 0 || off <= least || off >= most:
			case axis < 2:
				g.add(float64(d), float64(off))
			default:
				g.add(float64(off), float64(d))
			}
		}
	}
}

// within are the runs between cuts that lie in the rectangle, those that follow each
// other joined.
func (g *cuts) within(r Rect) [][2]float64 {
	near := r.Grow(grazing)
	short := float64(grazing / g.arc.Radius)
	m := 0
	open := false // the last run ends at the cut where we are
	for i := 0; i+1 < g.n; i++ {
		from, to := g.at[i], g.at[i+1]
		switch {
		case to-from <= short:
			if open {
				g.runs[m-1][1] = to
			}
		case !near.Has(g.arc.Centre.Toward(g.arc.Start+unit.Angle(g.sign*(from+to)/2), g.arc.Radius)):
			open = false
		case open:
			g.runs[m-1][1] = to
		default:
			g.runs[m], m, open = [2]float64{from, to}, m+1, true
		}
	}
	return g.runs[:m]
}

// ringMeets says whether a circle's line meets the closed rectangle: the
// nearest place of the rectangle is not outside it and the farthest not inside.
func ringMeets(c Point, rad unit.Length, r Rect) bool {
	nx, ny := max(r.Min.X-c.X, 0, c.X-r.Max.X), max(r.Min.Y-c.Y, 0, c.Y-r.Max.Y)
	fx, fy := max(c.X-r.Min.X, r.Max.X-c.X), max(c.Y-r.Min.Y, r.Max.Y-c.Y)
	return nx*nx+ny*ny <= rad*rad && fx*fx+fy*fy >= rad*rad
}

// halfChord is half the chord at distance d from the centre; negative where the
// circle does not reach so far.
func halfChord(rad, d unit.Length) unit.Length {
	if d < -rad || d > rad {
		return -1
	}
	return unit.Length(math.Sqrt(float64((rad - d) * (rad + d))))
}
