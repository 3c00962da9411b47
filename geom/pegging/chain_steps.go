package pegging

import (
	"math"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// swung is a peg by two arcs; none where they cross too flat.
func (c *chain) swung(i int, base [2]int) step {
	if c.crossing(i, base) < geom.TooFlat {
		return step{}
	}
	p, q, at := c.at[base[0]], c.at[base[1]], c.at[i]
	r, s := p.To(at), q.To(at)
	sr, ss, left := c.pull(r), c.pull(s), geom.IsLeft(p, q, at)
	return step{peg: i, base: base, method: TwoArcs, own: 2, place: func(p, q geom.Vector, e []float64) geom.Vector {
		return geom.Crossing(p, q, r+sr*e[0], s+ss*e[1], left)
	}}
}

// runOff is a peg on the line of two marks.
func (c *chain) runOff(i int, base [2]int) step {
	b := c.at[base[0]].To(c.at[base[1]])
	x := c.local(base, c.at[i]).X
	pull, beside := c.pull(x), c.line*c.far(x, b)
	return step{peg: i, base: base, method: RunOff, own: 2, place: func(p, q geom.Vector, e []float64) geom.Vector {
		return on(p, q, geom.Vector{X: x + pull*e[0], Y: beside * e[1]})
	}}
}

// on is a place in the axes of the line from p to q.
func on(p, q geom.Vector, v geom.Vector) geom.Vector {
	way := q.Minus(p).Unit()
	return p.Plus(way.Times(v.X)).Plus(way.Left().Times(v.Y))
}

// offset is a peg set off from the line of two marks by a square whose foot lies between
// them: at one of them where it is near, on a foot that stands already, or on its own. There
// is none where any of the lines that it takes may not be pulled.
func (c *chain) offset(i int, base [2]int) (step, bool) {
	b := c.at[base[0]].To(c.at[base[1]])
	at := c.local(base, c.at[i])
	x, ok := c.footFor(at, base, b)
	if !ok {
		return step{}, false
	}
	s := step{peg: i, base: base, method: OffsetSquare}
	if s.square, ok = c.squareFor(i, base, x); !ok {
		return s, false
	}
	s.square.Aside = unit.Length(at.X - x)
	if near(s.square.Aside, 0, SameMark) {
		s.square.Aside = 0
	}
	rest := c.squaredOff(at, b, s.square)
	s.own = rest.n
	s.place = func(p, q geom.Vector, e []float64) geom.Vector {
		if x != b {
			return on(p, q, rest.at(e))
		}
		pulled := e[0] // to the second mark, which stands already
		e[0] = 0
		v := rest.at(e)
		e[0] = pulled
		v.X += p.To(q) - b
		return on(p, q, v)
	}
	return s, true
}

// footFor is where along a line the foot for a peg stands.
func (c *chain) footFor(at geom.Vector, base [2]int, b float64) (x float64, ok bool) {
	for _, end := range []float64{0, b} {
		if math.Abs(at.X-end) < float64(apart) {
			return end, true
		}
	}
	if at.X < 0 || at.X > b {
		return 0, false
	}
	for _, f := range c.feet {
		if f.base == base && math.Abs(f.along-at.X) < float64(apart) {
			return f.along, true
		}
	}
	foot := c.placeOn(base, geom.Vector{X: at.X})
	for k, m := range c.at { // beside a corner on the same line: from there it is set off without a foot
		if k != base[0] && k != base[1] && math.Abs(c.local(base, m).Y) <= float64(SameMark) && m.To(foot) < float64(apart) {
			return 0, false
		}
	}
	for _, f := range c.feet {
		if c.placeOn(f.base, geom.Vector{X: f.along}).To(foot) < float64(apart) {
			return 0, false
		}
	}
	return at.X, true
}

// squareFor is the square at a foot: that which stands there, or the largest that fits.
func (c *chain) squareFor(i int, base [2]int, x float64) (Square, bool) {
	at := c.local(base, c.at[i])
	foot := c.placeOn(base, geom.Vector{X: x}).Point()
	turn := c.placeOn(base, geom.Vector{X: x, Y: at.Y}).Point() // where the offset turns aside, or the peg
	if !c.open.Free(foot, turn) || !c.open.Free(turn, c.at[i].Point()) {
		return Square{}, false
	}
	for _, f := range c.feet {
		if q := f.square[hand(at)]; f.base == base && near(unit.Length(f.along), unit.Length(x), SameMark) && q != (Square{}) {
			return q, true
		}
	}
	b := c.at[base[0]].To(c.at[base[1]])
	s := setting{b: b, all: squares(c.tools)}
	for _, m := range c.marks {
		s.standing = append(s.standing, c.local(base, m))
	}
	return s.fitting(x, max(b/4, math.Abs(at.Y)), at.Y > 0, func(leg, top geom.Vector) bool {
		l, t := c.placeOn(base, leg).Point(), c.placeOn(base, top).Point()
		return c.open.Free(foot, l) && c.open.Free(foot, t) && c.open.Free(l, t)
	})
}

// stillFits says whether the foot of an offset still stands where it was weighed: marks have
// come since.
func (c *chain) stillFits(s step) bool {
	at, b := c.local(s.base, c.at[s.peg]), c.at[s.base[0]].To(c.at[s.base[1]])
	x, ok := c.footFor(at, s.base, b)
	if !ok || !near(unit.Length(at.X-x), s.square.Aside, SameMark) {
		return false
	}
	q, ok := c.squareFor(s.peg, s.base, x)
	q.Aside = s.square.Aside
	return ok && q == s.square
}

// weighed is a step with how sure it is, and what it costs: how the peg moves with each
// error that moves the marks it is placed from, and with its own.
func (c *chain) weighed(s step) step {
	if s.own == 0 {
		return s
	}
	p, q := c.at[s.base[0]], c.at[s.base[1]]
	e := make([]float64, s.own)
	rate := func(dp, dq geom.Vector) geom.Vector {
		return s.place(p.Plus(dp), q.Plus(dq), e).Minus(s.place(p.Minus(dp), q.Minus(dq), e)).Times(1 / (2 * nudge))
	}
	px, py := rate(geom.Vector{X: nudge}, geom.Vector{}), rate(geom.Vector{Y: nudge}, geom.Vector{})
	qx, qy := rate(geom.Vector{}, geom.Vector{X: nudge}), rate(geom.Vector{}, geom.Vector{Y: nudge})
	s.moves = make([]geom.Vector, c.errors, c.errors+s.own)
	for i, m := range c.moves[s.base[0]] {
		s.moves[i] = px.Times(m.X).Plus(py.Times(m.Y))
	}
	for i, m := range c.moves[s.base[1]] {
		s.moves[i] = s.moves[i].Plus(qx.Times(m.X)).Plus(qy.Times(m.Y))
	}
	for i := range e {
		e[i] = nudge
		more := s.place(p, q, e)
		e[i] = -nudge
		s.moves = append(s.moves, more.Minus(s.place(p, q, e)).Times(1/(2*nudge)))
		e[i] = 0
	}
	s.cov = spread(s.moves)
	s.cost = s.cov.Figure95()
	if s.method == OffsetSquare {
		s.cost *= offsetCosts
		if x := c.local(s.base, c.at[s.peg]).X - float64(s.square.Aside); !atEnd(x, p.To(q)) {
			s.cost *= footCosts
		}
	}
	return s
}

// spread is the covariance of a place that moves so with each error.
func spread(moves []geom.Vector) (c adjust.Covariance) {
	for _, d := range moves {
		c.XX += unit.Area(d.X * d.X)
		c.YY += unit.Area(d.Y * d.Y)
		c.XY += unit.Area(d.X * d.Y)
	}
	return c
}

func (c *chain) crossing(i int, base [2]int) unit.Angle {
	u, v := c.at[i].Minus(c.at[base[0]]), c.at[i].Minus(c.at[base[1]])
	return unit.Angle(math.Atan2(math.Abs(u.Cross(v)), math.Abs(u.Dot(v))))
}

// local is a place in the axes of a line between two marks.
func (c *chain) local(base [2]int, at geom.Vector) geom.Vector {
	from := c.at[base[0]]
	way, v := c.at[base[1]].Minus(from).Unit(), at.Minus(from)
	return geom.Vector{X: way.Dot(v), Y: way.Cross(v)}
}

// placeOn is the other way: a place in the net's plane.
func (c *chain) placeOn(base [2]int, v geom.Vector) geom.Vector {
	from := c.at[base[0]]
	way := c.at[base[1]].Minus(from).Unit()
	return from.Plus(way.Times(v.X)).Plus(way.Left().Times(v.Y))
}

// hand is 1 on the left of a line, else 0.
func hand(p geom.Vector) int {
	if p.Y > 0 {
		return 1
	}
	return 0
}

func atEnd(x, b float64) bool { return x <= float64(SameMark) || x >= b-float64(SameMark) }
