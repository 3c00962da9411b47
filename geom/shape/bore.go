package shape

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/unit"
)

func (m *maker) bore(w Work) *unit.Fault {
	for _, h := range w.Holes {
		b, f := m.centre(h)
		if f == nil {
			f = m.clear(b)
		}
		if f != nil {
			return placed(f, h.Text, h.Where)
		}
		m.thin(b)
		m.shape.Bores = append(m.shape.Bores, b)
	}
	return nil
}

func (m *maker) centre(h Hole) (Bore, *unit.Fault) {
	b := Bore{Hole: h, Circle: geom.Arc{Radius: h.Diameter / 2, Sweep: unit.Turn}}
	var f *unit.Fault
	switch c := h.Centre.(type) {
	case FromEdge:
		b.Foot, b.Circle.Centre, f = m.fromEdge(c)
	case FromCorners:
		b.Circle.Centre, f = m.fromCorners(c)
	default:
		f = &unit.Fault{What: "a hole without a place"}
	}
	return b, f
}

func (m *maker) fromEdge(c FromEdge) (foot, centre geom.Point, _ *unit.Fault) {
	i, f := m.sideOf(c.Edge)
	if f != nil {
		return foot, centre, f
	}
	u := m.corners[i].v
	switch c.From {
	case m.Names[i]:
		foot = m.Points[i].Plus(u.Times(float64(c.Along)).Point())
	case m.Names[m.Next(i)]:
		foot = m.Points[m.Next(i)].Plus(u.Times(-float64(c.Along)).Point())
	default:
		return foot, centre, noEnd(c)
	}
	return foot, foot.Plus(u.Right().Times(-float64(c.Square)).Point()), nil
}

func (m *maker) fromCorners(c FromCorners) (geom.Point, *unit.Fault) {
	i, f := m.cornerOf(c.Corners[0])
	if f != nil {
		return geom.Point{}, f
	}
	j, f := m.cornerOf(c.Corners[1])
	if f != nil {
		return geom.Point{}, f
	}
	r, s := c.Arms[0], c.Arms[1]
	if m.Next(j) == i { // so that the inner side of an edge lies left of the way from i to j
		i, j, r, s = j, i, s, r
	}
	p, q := m.Points[i], m.Points[j]
	both := circlesCross(p, float64(r), q, float64(s))
	if both == nil {
		return geom.Point{}, m.words.apartArcs([2]geom.Name{m.Names[i], m.Names[j]}, p.Distance(q), r, s)
	}
	if m.Next(i) == j {
		return both[0], nil
	}
	left, right := m.shape.Finished.Has(both[0]), m.shape.Finished.Has(both[1])
	switch {
	case left && right:
		return geom.Point{}, &unit.Fault{What: fmt.Sprintf("the arcs from %s and %s cross twice inside the piece", m.Names[i], m.Names[j]),
			Hint: "name the two ends of an edge: the hole is then on its inner side"}
	case right:
		return both[1], nil
	}
	return both[0], nil
}

// apartArcs says by how much two arcs miss one another.
func (w words) apartArcs(about [2]geom.Name, d, r, s unit.Length) *unit.Fault {
	a, b := about[0], about[1]
	if r+s < d {
		return &unit.Fault{What: fmt.Sprintf("%s from %s and %s from %s together are %s short of the %s between %s and %s",
			w.length(r), a, w.length(s), b, w.small(d-r-s), w.length(d), a, b)}
	}
	if r < s {
		a, b, r, s = b, a, s, r
	}
	return &unit.Fault{What: fmt.Sprintf("%s from %s reaches %s beyond the whole arc of %s about %s, so that they do not cross",
		w.length(r), a, w.small(r-s-d), w.length(s), b)}
}

// clear says what a hole runs into.
func (m *maker) clear(b Bore) *unit.Fault {
	centre, radius := b.Circle.Centre, b.Circle.Radius
	at, d := m.shape.Finished.Nearest(centre)
	inside := m.shape.Finished.Has(centre)
	switch {
	case !inside && d >= radius:
		return &unit.Fault{What: fmt.Sprintf("the hole lies outside the piece: its centre is %s beyond %s", m.words.length(d), m.finishedParts[at].name()),
			Hint: "distances are square to the edge on its inner side, and along it from the end that is named"}
	case !inside:
		return m.words.across(m.finishedParts[at].name(), radius, -d)
	case d-radius < touching:
		return m.words.across(m.finishedParts[at].name(), radius, d)
	}
	at, d = m.shape.Cut.Nearest(centre)
	if !m.shape.Cut.Has(centre) {
		d = -d
	}
	if d-radius < touching {
		return m.words.across("the cut line of "+m.cutParts[at].name(), radius, d)
	}
	for _, o := range m.shape.Bores {
		if gap := centre.Distance(o.Circle.Centre) - radius - o.Circle.Radius; gap < touching {
			what := fmt.Sprintf("the hole overlaps the one before it (%s) by %s", o.Hole.Text, m.words.small(-gap))
			if gap > -touching {
				what = fmt.Sprintf("the hole touches the one before it (%s)", o.Hole.Text)
			}
			return &unit.Fault{What: what, Hint: fmt.Sprintf("their centres are %s apart; their radii together are %s",
				m.words.length(centre.Distance(o.Circle.Centre)), m.words.length(radius+o.Circle.Radius))}
		}
	}
	return nil
}

// across is a hole that reaches over a line; its centre is so far inside of it.
func (w words) across(line string, radius, inside unit.Length) *unit.Fault {
	hint := fmt.Sprintf("its centre is %s inside of it and its radius is %s", w.length(inside), w.length(radius))
	if inside < 0 {
		hint = fmt.Sprintf("its centre is %s outside of it and its radius is %s", w.length(-inside), w.length(radius))
	}
	if over := radius - inside; over > touching {
		return &unit.Fault{What: fmt.Sprintf("the hole reaches %s across %s", w.small(over), line), Hint: hint}
	}
	return &unit.Fault{What: "the hole touches " + line, Hint: hint}
}

// leastBetween is how much material is left between two holes without a word.
// Judgement, no published source; a warning says nothing of strength.
const leastBetween unit.Length = 3

// thin says where a hole leaves little: less than its own radius between its rim and
// the nearest edge, finished or cut (common practice, no source), or less than
// leastBetween between its rim and that of a hole before it.
func (m *maker) thin(b Bore) {
	centre, radius := b.Circle.Centre, b.Circle.Radius
	at, d := m.shape.Cut.Nearest(centre)
	near := Note{Code: ThinAtEdge, Hole: b.Hole.Text, Near: m.cutParts[at].Part, CutLine: true, Least: radius}
	if i, to := m.shape.Finished.Nearest(centre); to <= d+touching { // where both are one line, the plain name
		d, near.Near, near.CutLine = to, m.finishedParts[i].Part, false
	}
	if near.Left = d - radius; near.Left < radius-touching {
		m.shape.Notes = append(m.shape.Notes, near)
	}
	for _, o := range m.shape.Bores {
		if left := centre.Distance(o.Circle.Centre) - radius - o.Circle.Radius; left < leastBetween-touching {
			m.shape.Notes = append(m.shape.Notes, Note{Code: ThinBetween, Hole: b.Hole.Text, Other: o.Hole.Text, Left: left, Least: leastBetween})
		}
	}
}
