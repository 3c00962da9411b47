package panel

import (
	"math"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/words"
	"trammel/plot/words/byhand"
)

// both are the moves of two triangles in one figure: arm, one arc, C₁ and C₂.
func both(h words.ByHand, l words.Language) (all []move) {
	m := newMover(h, l)
	one, two := geom.Vector{}, geom.Vector{}
	var from, to geom.Name
	for _, a := range h.Acts() {
		switch s := a.(type) {
		case byhand.Swing:
			v := m.swing(s)
			from, to = s.Centre, s.Meets.(construct.SetAngle).At
			one, two = geom.VectorOf(s.Through), geom.VectorOf(s.Other)
			v.say = m.says.Models().CutsTwice(string(s.Centre), m.length(s.Radius), string(to))
			v.points = []spot{{name: "C₁", at: one, out: geom.Vector{X: 0.2, Y: 1}}, {name: "C₂", at: two, out: geom.Vector{X: -0.6, Y: 1}}}
			all = append(all, v)
		case construct.DrawBase, byhand.SetAngle, construct.ThirdAngle:
			v := m.move(a)
			v.say = m.says.Steps().Act(h, a)
			all = append(all, v)
		}
	}
	p := m.at[from]
	figure := []geom.Segment{line(m.at[to], p), line(m.at[to], one), line(p, one), line(p, two)}
	all = append(all, move{say: m.says.Models().JoinBoth(string(from)), lines: []geom.Segment{line(p, one), line(p, two)}, outline: figure,
		tool: ruler{from: p, to: two, below: true}.draw})
	q := m.at[to]
	return append(all, move{say: m.says.Models().CheckBoth(string(to)), outline: figure, measures: true, tool: func(st *stage) {
		st.asked("? mm", q, two, false)
		st.asked("? mm", two, one, false)
	}})
}

// none are the moves of an arc that falls short of the arm: steps are those of the triangle
// whose C is the foot on the arm of what is missing, radius the one given.
func none(h words.ByHand, l words.Language, radius float64) (all []move) {
	m := newMover(h, l)
	for _, a := range h.Acts() {
		switch s := a.(type) {
		case construct.DrawBase, byhand.SetAngle:
			v := m.move(a)
			v.say, v.points = m.says.Steps().Act(h, a), onlyEnds(v.points)
			all = append(all, v)
		case byhand.MarkOff:
			from := m.base.From
			if from == s.From {
				from = m.base.To
			}
			return append(all, m.falls(from, m.at[s.To], radius))
		}
	}
	return all
}

// falls is the arc about a point that falls short of a foot.
func (m *mover) falls(from geom.Name, foot geom.Vector, radius float64) move {
	c := m.at[from]
	way := foot.Minus(c).Unit()
	near, start := c.Plus(way.Times(radius)), math.Atan2(way.Y, way.X)
	gap := unit.Length(math.Round(foot.Minus(near).Size()))
	v := move{say: m.says.Models().FallsShort(string(from), m.length(unit.Length(radius)), m.length(gap)),
		lines: []geom.Segment{geom.Arc{Centre: c.Point(), Radius: unit.Length(radius), Start: unit.Angle(start - 0.5), Sweep: 1}}}
	pencil := c.Plus(geom.Vector{X: math.Cos(start - 0.5), Y: math.Sin(start - 0.5)}.Times(radius))
	hand := compasses{c, pencil, m.length(unit.Length(radius)), false}
	v.tool = func(st *stage) { hand.draw(st); st.gap(near, foot) }
	v.gap = &geom.Line{From: near.Point(), To: foot.Point()}
	return v
}

// gap is what is missing between two places.
func (s *stage) gap(from, to geom.Vector) {
	p, q := s.at(from), s.at(to)
	side := q.Minus(p).Unit().Left().Times(1.6 * s.f())
	s.line(p, q, fresh)
	s.line(p.Plus(side), p.Minus(side), fresh)
	s.line(q.Plus(side), q.Minus(side), fresh)
	s.words("?", p.Plus(q).Times(0.5).Plus(side.Times(2.2)), lettered{height: 3.5, bold: true})
}

// onlyEnds leaves out the corner that is not reached.
func onlyEnds(points []spot) (all []spot) {
	for _, p := range points {
		if p.name != "C" {
			all = append(all, p)
		}
	}
	return all
}

// NoneOfThree are the moves of three sides of which two are together shorter than the third:
// both arcs, and the gap between them.
func noneOfThree(c, a, b float64, l words.Language) []move {
	p, q := geom.Vector{}, geom.Vector{X: c}
	h := piece(construct.Construction{Steps: []construct.Step{construct.DrawBase{From: "A", To: "B", Line: line(p, q), Length: unit.Length(c), Measured: true}}}, nil)
	m := newMover(h, l)
	m.at["A"], m.at["B"] = p, q
	says := m.says.Models()
	length := func(x float64) string { return m.length(unit.Length(x)) }
	first := m.move(h.Acts()[0])
	first.say = m.says.Steps().Act(h, h.Acts()[0])
	first.points[0].out, first.points[1].out = geom.Vector{X: -1, Y: -0.4}, geom.Vector{X: 1, Y: -0.4}
	arc := func(at geom.Vector, r, start float64) geom.Arc {
		return geom.Arc{Centre: at.Point(), Radius: unit.Length(r), Start: unit.Angle(start), Sweep: 1.1}
	}
	turned := func(r, turn float64) geom.Vector {
		return geom.Vector{X: r * math.Cos(turn), Y: r * math.Sin(turn)}
	}
	second := move{say: says.FirstArc("A", length(b)), lines: []geom.Segment{arc(p, b, -0.2)}, tool: compasses{p, turned(b, 0.9), length(b), true}.draw}
	hand := compasses{q, q.Plus(turned(a, math.Pi-0.9)), length(a), false}
	third := move{say: says.NoCrossing("B", length(a), length(c-a-b)), why: says.TooShort(plain(b), plain(a), plain(c)),
		lines: []geom.Segment{arc(q, a, math.Pi-0.9)}, tool: func(st *stage) { hand.draw(st); st.gap(geom.Vector{X: b}, geom.Vector{X: c - a}) }}
	return []move{first, second, third}
}
