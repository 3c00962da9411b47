package shape

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// touching is the gap below which two things meet: float64 coordinates of some
// metres are uncertain by a thousandth of a thousandth of it, and no paper shows it.
const touching unit.Length = 1e-6

// straight is the turn below which two edges run on straight: 0.2 mm over 200 m.
const straight = 1e-6

// A cut line that runs far out to a sharp corner's end is paper and material that
// nobody needs: at 5° an allowance of 3 mm runs out 3/sin 2.5° = 69 mm. From
// noteTimes the allowance on (a corner under 23°) there is a note; beyond the larger
// of farthest and farTimes the allowance it is refused. Both offer Blunt.
// Judgement, no published source.
const farthest unit.Length = 300 // about the long side of a common page

const (
	farTimes  = 20
	noteTimes = 5
)

// Make does the work to an outline, whose corners have the names. Figures in
// messages are written in the style. Errors are *unit.Fault with the place and
// the words of the token that is wrong, where one is.
//
// Points are within a few ulp of the outline's size of where exact geometry puts
// them, times the reach of a mitre over its allowance.
func Make(outline geom.Polygon, names []geom.Name, w Work, figures unit.Style) (Shape, error) {
	m := maker{Outline: geom.Outline{Names: names, Points: outline}, words: words{figures}}
	for _, step := range []func(Work) *unit.Fault{m.check, m.allow, m.treat, m.finish, m.cut, m.bore} {
		if f := step(w); f != nil {
			return Shape{}, f
		}
	}
	return m.shape, nil
}

func (m *maker) check(Work) *unit.Fault {
	n := len(m.Points)
	if n < 3 || len(m.Names) != n {
		return &unit.Fault{What: fmt.Sprintf("an outline of %d corners with %d names", n, len(m.Names))}
	}
	for i, p := range m.Points {
		if q := m.Points[m.Next(i)]; p.Distance(q) <= touching {
			return &unit.Fault{What: fmt.Sprintf("corners %s and %s are the same place", m.Names[i], m.Names[m.Next(i)])}
		}
	}
	m.allowances, m.treated = make([]*Allowance, n), make([]*Corner, n)
	for i, at := range m.Points {
		k := cornerOf(m.Points[m.Before(i)], at, m.Points[m.Next(i)])
		if k.c < 0 && k.s == 0 {
			return &unit.Fault{What: fmt.Sprintf("the outline runs back on itself at %s", m.Names[i])}
		}
		m.corners = append(m.corners, k)
		m.shape.Corners = append(m.shape.Corners, Vertex{Name: m.Names[i], At: at})
		m.shape.Sides = append(m.shape.Sides, Side{Name: m.Side(i), Whole: m.Points.Edge(i)})
	}
	if m.Points.Contour().Area() <= 0 {
		return &unit.Fault{What: "the outline does not run counter-clockwise"}
	}
	return nil
}

func (m *maker) allow(w Work) *unit.Fault {
	for i := range w.Allowances {
		a := &w.Allowances[i]
		side, f := m.sideOf(a.Edge)
		if f == nil && m.allowances[side] != nil {
			f = &unit.Fault{What: fmt.Sprintf("edge %s has an allowance already (%s)", m.Side(side), m.allowances[side].Text), Hint: "keep one of both"}
		}
		if f != nil {
			return placed(f, a.Text, a.Where)
		}
		m.allowances[side] = a
		m.shape.Sides[side].Allow = a.By
	}
	return nil
}

func (m *maker) treat(w Work) *unit.Fault {
	for i := range w.Corners {
		c := &w.Corners[i]
		at, f := m.cornerOf(c.At)
		if f == nil {
			f = m.treatable(c, at)
		}
		if f != nil {
			return placed(f, c.Text, c.Where)
		}
		m.treated[at] = c
		v := &m.shape.Corners[at]
		v.Do, v.By = c.Do, c.By
		if c.Do == Mitre && c.Parts != [2]Member{} {
			if v.Widths, f = m.widths(*c, at); f != nil {
				return placed(f, c.Text, c.Where)
			}
		}
		if c.Do == Cut {
			v.Allow = max(m.shape.Sides[m.Before(at)].Allow, m.shape.Sides[at].Allow)
			if c.Stated {
				v.Allow = c.Allow
			}
		}
	}
	return nil
}

// widths of the parts that meet at corner at, that of the edge before it first.
func (m *maker) widths(c Corner, at int) (w [2]unit.Length, _ *unit.Fault) {
	for _, p := range c.Parts {
		side, f := m.sideOf(p.Edge)
		switch {
		case f != nil:
			return w, f
		case side == m.Before(at):
			w[0] = p.Wide
		case side == at:
			w[1] = p.Wide
		}
	}
	if w[0] == 0 || w[1] == 0 {
		return w, &unit.Fault{What: fmt.Sprintf("the edges that meet at %s are %s and %s", c.At, m.Side(m.Before(at)), m.Side(at)), Hint: "give the width of the part along each"}
	}
	if m.corners[at].s < 0 {
		return w, &unit.Fault{What: fmt.Sprintf("corner %s points inward: a joint of parts of two widths is not worked out there", c.At), Hint: "leave the widths out for parts alike"}
	}
	return w, nil
}

// treatable says what speaks against a treatment of corner at by itself.
func (m *maker) treatable(c *Corner, at int) *unit.Fault {
	k := m.corners[at]
	if old := m.treated[at]; old != nil {
		return &unit.Fault{What: fmt.Sprintf("something is done to corner %s already (%s)", c.At, old.Text), Hint: "keep one of both"}
	}
	if math.Abs(k.turn()) < straight {
		return &unit.Fault{What: fmt.Sprintf("the edges run on straight at %s: there is no corner", c.At), Hint: "leave it out"}
	}
	if c.Do != Blunt {
		return nil
	}
	a, b := m.shape.Sides[m.Before(at)], m.shape.Sides[at]
	switch spare := max(a.Allow, b.Allow); {
	case k.s < 0:
		return &unit.Fault{What: fmt.Sprintf("corner %s points inward: no cut line runs out beyond it", c.At), Hint: "round it: " + string(c.At) + " round 5"}
	case spare <= 0:
		return &unit.Fault{What: fmt.Sprintf("edges %s and %s have no allowance outside, so that nothing is to be cut off beyond %s", a.Name, b.Name, c.At), Hint: "leave it out"}
	case c.By < spare:
		return &unit.Fault{What: fmt.Sprintf("%s beyond %s is less than the allowance of %s beside it", m.words.length(c.By), c.At, m.words.length(spare)),
			Hint: "at least " + m.words.length(spare)}
	}
	return nil
}

func (m *maker) finish(Work) *unit.Fault {
	n := len(m.Points)
	taken := make([]unit.Length, n) // by each corner, of both its edges
	runs := make([]run, n)
	for i, k := range m.corners {
		t := m.shape.Corners[i].treatment()
		t.allow = 0
		switch t.do {
		case Cut:
			taken[i] = m.shape.Corners[i].By
		case Round:
			taken[i] = unit.Length(k.setBack(t.by))
		case Blunt:
			t.do = Sharp
		}
		runs[i] = k.run(t, 0, 0)
		m.shape.Corners[i].Finished = runs[i].segment
	}
	for i := range m.shape.Sides {
		e, j := &m.shape.Sides[i], m.Next(i)
		e.Finished = geom.Line{From: runs[i].out, To: runs[j].in}
		left := e.Whole.Length() - taken[i] - taken[j]
		if !m.leaves(i, left) && taken[i]+taken[j] > 0 {
			return m.tooMuch(i, taken)
		}
	}
	m.shape.Finished, m.finishedParts = m.contour(func(e Side) geom.Line { return e.Finished }, func(v Vertex) geom.Segment { return v.Finished })
	if a, b, found := crossing(m.corners, m.shape.Finished, m.finishedParts); found {
		return m.blamePart(&unit.Fault{What: "the finished contour crosses itself: " + a.name() + " and " + b.name(), Hint: "cut or round less at the corners near by"}, a, b)
	}
	return nil
}

// leaves says whether so much of side i is enough: two roundings may meet and
// leave nothing of it, as at the round end of a bar.
func (m *maker) leaves(i int, left unit.Length) bool {
	if m.shape.Corners[i].Do == Round && m.shape.Corners[m.Next(i)].Do == Round {
		return left >= -touching
	}
	return left > touching
}

// contour joins sides and what stands between them.
func (m *maker) contour(line func(Side) geom.Line, segment func(Vertex) geom.Segment) (c geom.Contour, parts []part) {
	for i, e := range m.shape.Sides {
		if l := line(e); l.Length() > touching {
			c, parts = append(c, l), append(parts, part{Part: Part{Of: e.Name}, side: i})
		}
		v := m.shape.Corners[m.Next(i)]
		if s := segment(v); s != nil {
			c, parts = append(c, s), append(parts, part{Part{v.Do, string(v.Name)}, i, m.treated[m.Next(i)]})
		}
	}
	return c, parts
}

func (m *maker) cut(Work) *unit.Fault {
	runs := make([]run, len(m.Points))
	for i, k := range m.corners {
		a, b := m.shape.Sides[m.Before(i)].Allow, m.shape.Sides[i].Allow
		runs[i] = k.run(m.shape.Corners[i].treatment(), float64(a), float64(b))
		m.shape.Corners[i].Cut = runs[i].segment
		if runs[i].segment == nil {
			if f := m.spike(i, a, b); f != nil {
				return f
			}
		}
	}
	for i := range m.shape.Sides {
		e, j := &m.shape.Sides[i], m.Next(i)
		e.Cut = geom.Line{From: runs[i].out, To: runs[j].in}
		way := geom.VectorOf(e.Cut.To.Minus(e.Cut.From))
		// v of its first corner is the side's direction: a side that runs the other
		// way has been eaten.
		if left := unit.Length(way.Dot(m.corners[i].v)); !m.leaves(i, left) {
			return m.eaten(i, left)
		}
	}
	m.shape.Cut, m.cutParts = m.contour(func(e Side) geom.Line { return e.Cut }, func(v Vertex) geom.Segment { return v.Cut })
	if a, b, found := crossing(m.corners, m.shape.Cut, m.cutParts); found {
		return m.blamePart(&unit.Fault{What: "the cut lines of " + a.name() + " and " + b.name() + " cross", Hint: "bring the cut line nearer to the finished edges there"}, a, b)
	}
	return nil
}

// spike looks how far the cut lines of a sharp corner run out.
func (m *maker) spike(i int, a, b unit.Length) *unit.Fault {
	k, name := m.corners[i], m.Names[i]
	larger := max(a, -a, b, -b)
	if larger == 0 || k.c < 0 && k.sign()*float64(a+b) < 0 {
		return nil // cut lines that draw back from a sharp corner run into no waste
	}
	if math.Abs(k.turn()) < straight && a != b {
		return m.blame(m.Before(i), &unit.Fault{
			What: fmt.Sprintf("edges %s and %s run on straight at %s, so that cut lines at %s and %s do not meet", m.Side(m.Before(i)), m.Side(i), name, m.words.length(a), m.words.length(b)),
			Hint: "give both the same allowance"})
	}
	reach := unit.Length(k.mitre(float64(a), float64(b)).Size())
	token, hint := string(name)+" blunt "+m.words.token(larger), "give both edges more nearly the same allowance, or round the corner"
	if k.s < 0 || max(a, b) <= 0 {
		token = ""
	} else {
		hint = "cut off what runs out: corners: [" + token + "]"
	}
	switch {
	case reach > max(farthest, farTimes*larger):
		return m.blame(m.Before(i), &unit.Fault{
			What: fmt.Sprintf("at %s (%s) the cut lines of %s and %s cross %s from the corner", name, m.words.angle(k.interior()), m.Side(m.Before(i)), m.Side(i), m.words.length(reach)),
			Hint: hint})
	case reach > noteTimes*larger:
		m.shape.Notes = append(m.shape.Notes, Note{Code: RunsOut, Corner: name, Token: token, Left: reach})
	}
	return nil
}

// crossing finds two segments that cross. An outline without a corner that points
// inward has none: its contours turn one way only.
func crossing(corners []corner, c geom.Contour, parts []part) (a, b part, found bool) {
	if !slices.ContainsFunc(corners, func(k corner) bool { return k.s < 0 }) {
		return a, b, false
	}
	i, j, found := crossed(c)
	if found {
		a, b = parts[i], parts[j]
	}
	return a, b, found
}
