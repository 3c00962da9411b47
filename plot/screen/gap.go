package screen

import (
	"math"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// gap is how what was measured fails to meet: arcs that do not reach, and the way between
// them. Zero: it meets, or nobody can tell.
type gap struct {
	size   unit.Length // in mm
	arcs   []geom.Arc
	across geom.Line

	nowhere geom.Name               // the corner that has no place
	sides   map[geom.Name]geom.Line // to it, from each of the others
}

func (g gap) lines() []geom.Line {
	if g.size == 0 {
		return nil
	}
	return []geom.Line{g.across}
}

func (g gap) write(w *writer) {
	if g.size == 0 {
		return
	}
	for _, a := range g.arcs {
		w.path("short", "", []geom.Segment{a}, false)
	}
	w.line("gap", "", g.across)
}

// on is the gap on the screen.
func (g gap) on(v view) gap {
	for i := range g.arcs {
		g.arcs[i] = v.arc(g.arcs[i])
	}
	g.across = v.line(g.across)
	for n, l := range g.sides {
		g.sides[n] = v.line(l)
	}
	return g
}

// things are those of a sketch, the sides to the corner that is nowhere as far as they
// reach, and no angle there.
func (g gap) things(all []thing) (left []thing) {
	for _, t := range all {
		if t.Kind == Angle && (!t.Given || t.from == string(g.nowhere)) || t.Kind == Height {
			t.arms, t.line = [2]geom.Point{}, geom.Line{}
			if !t.Given {
				continue
			}
			t.Row = true
		}
		for n, l := range g.sides {
			if t.Kind == Side && (t.from == string(n) && t.to == string(g.nowhere) || t.to == string(n) && t.from == string(g.nowhere)) {
				t.line, t.out = l, l.Direction()+unit.Turn/4
			}
		}
		left = append(left, t)
	}
	return left
}

// falling is the gap of three corners and where they are drawn: of three sides the
// longest level and the others short of each other, or a side that does not reach the arm
// of an angle.
func falling(ms []triangle.Measurement, corners [3]geom.Name) (g gap, at map[geom.Name]geom.Point) {
	length := map[int]unit.Length{} // opposite corner i
	angle := map[int]unit.Angle{}
	for _, m := range ms {
		q, err := triangle.QuantityOf(m, corners)
		if err != nil {
			continue
		}
		v, _ := m.Value.Value.Float64()
		switch q.Kind() {
		case triangle.Distance:
			length[q.Corner()] = unit.Length(v)
		case triangle.Angle:
			angle[q.Corner()] = unit.Angle(v) * unit.Degree
		}
	}
	for i := range 3 {
		j, k := (i+1)%3, (i+2)%3
		if len(length) == 3 && length[i] > length[j]+length[k] {
			return shortSides(corners, length, i)
		}
	}
	for i := range 3 { // the angle at i, one arm known, and the side across
		for _, far := range [2]int{(i + 1) % 3, (i + 2) % 3} {
			c, a := length[3-i-far], length[i]
			if angle[i] > 0 && c > 0 && a > 0 && (float64(a) < float64(c)*math.Sin(float64(angle[i])) || angle[i] >= unit.Turn/4 && a <= c) {
				return shortArc(corners, [2]int{i, far}, [2]unit.Length{c, a}, angle[i])
			}
		}
	}
	return gap{}, nil
}

// shortSides lays the longest side level, with the arcs of the others from its ends.
func shortSides(corners [3]geom.Name, length map[int]unit.Length, i int) (gap, map[geom.Name]geom.Point) {
	j, k := (i+1)%3, (i+2)%3
	from, to := geom.Point{}, geom.Point{X: length[i]}
	first, second := length[k], length[j] // side k ends at corner j: its arc about j
	a, b := geom.Point{X: first}, geom.Point{X: to.X - second}
	const half = 50 * unit.Degree
	slant := [2]geom.Line{{From: from, To: from.Toward(half/2, first)}, {From: to, To: to.Toward(unit.Turn/2-half/2, second)}}
	return gap{
		nowhere: corners[i], sides: map[geom.Name]geom.Line{corners[j]: slant[0], corners[k]: slant[1]},
		size:   length[i] - first - second,
		arcs:   []geom.Arc{{Centre: from, Radius: first, Start: -half / 5, Sweep: half * 6 / 5}, {Centre: to, Radius: second, Start: unit.Turn/2 - half, Sweep: half * 6 / 5}},
		across: geom.Line{From: a, To: b},
	}, map[geom.Name]geom.Point{corners[j]: from, corners[k]: to}
}

// shortArc lays the known arm level, from the corner of the angle, draws the other arm, and
// the arc about the far end that does not reach it.
func shortArc(corners [3]geom.Name, ends [2]int, lengths [2]unit.Length, angle unit.Angle) (gap, map[geom.Name]geom.Point) {
	c, a := lengths[0], lengths[1]
	from, to := geom.Point{}, geom.Point{X: c}
	foot := c * unit.Length(math.Cos(float64(angle)))
	if foot < 0 {
		foot = 0
	}
	ray := geom.Line{From: from, To: from.Toward(angle, max(foot*1.5, c*0.6))}
	on := from.Toward(angle, foot)
	way := geom.Line{From: to, To: on}.Direction()
	const half = 35 * unit.Degree
	third := corners[3-ends[0]-ends[1]]
	return gap{
		nowhere: third, sides: map[geom.Name]geom.Line{corners[ends[0]]: ray, corners[ends[1]]: {From: to, To: to.Toward(way-half/2, a)}},
		size:   to.Distance(on) - a,
		arcs:   []geom.Arc{{Centre: to, Radius: a, Start: way - half, Sweep: 2 * half}},
		across: geom.Line{From: to.Toward(way, a), To: on},
	}, map[geom.Name]geom.Point{corners[ends[0]]: from, corners[ends[1]]: to}
}

// reach is what is drawn of it, for the picture to have room.
func (g gap) reach() (all []geom.Point) {
	for _, a := range g.arcs {
		b := a.Bounds()
		all = append(all, b.Min, b.Max)
	}
	for _, l := range g.sides {
		all = append(all, l.To)
	}
	return all
}
