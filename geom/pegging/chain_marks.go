package pegging

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// chained are the marks of a Mixed way: each peg is placed from two that stand already, a
// foot on the line between them.
func (s Set) chained(l letters) Set {
	ends, feet := s.base(), s.chainFeet(l)
	for _, n := range s.order {
		if n != ends[0] && n != ends[1] && !slices.Contains(s.Beside, n) {
			s.On = append(s.On, s.mark(n, Corner, s.spots[n]))
		}
	}
	for _, m := range feet {
		if m.Line == ([2]geom.Name{}) {
			s.On = append(s.On, m)
		}
	}
	slices.SortStableFunc(s.On, func(a, b Mark) int { return cmp.Compare(a.Along, b.Along) })
	s.add(s.mark(ends[0], Corner, s.spots[ends[0]]), s.mark(ends[1], Corner, s.spots[ends[1]]))
	s.add(s.On...)
	for _, n := range s.Beside {
		p := s.way.placed(n)
		x := Placing{Peg: n, Method: p.Method, Base: p.Base, Square: -1, Side: sideOf(s.from(p.Base, s.spots[n])), Foot: s.feet[n]}
		switch p.Method {
		case TwoArcs:
			x.Crossing = s.crossing(n, p.Base)
		case OffsetSquare:
			if i := slices.IndexFunc(feet, func(m Mark) bool { return m.Name == x.Foot }); i >= 0 {
				if _, stands := s.Peg(x.Foot); !stands {
					s.add(feet[i])
				}
			}
			s.turned(&x, p.Square.Aside)
			x.Square = s.chainSquare(x, p.Square, l)
		}
		s.Main = append(s.Main, x)
		s.add(s.mark(n, Corner, s.spots[n]))
	}
	return s
}

func sideOf(seen geom.Vector) Side {
	switch {
	case seen.Y > float64(SameMark):
		return Left
	case seen.Y < -float64(SameMark):
		return Right
	}
	return OnLine
}

// chainFeet are the feet that want a mark of their own; it notes the foot of each peg.
func (s *Set) chainFeet(l letters) (feet []Mark) {
	s.feet = map[geom.Name]geom.Name{}
	over := map[geom.Name]int{}
	for _, n := range s.Beside {
		p := s.way.placed(n)
		if p.Method != OffsetSquare {
			continue
		}
		x := s.from(p.Base, s.spots[n]).X - float64(p.Square.Aside)
		b := float64(s.spots[p.Base[0]].Distance(s.spots[p.Base[1]]))
		switch {
		case x <= float64(SameMark):
			s.feet[n] = p.Base[0]
			continue
		case x >= b-float64(SameMark):
			s.feet[n] = p.Base[1]
			continue
		}
		m := s.mark("", Foot, s.on(p.Base, geom.Vector{X: x}), n)
		if p.Base != s.base() {
			m.Line = p.Base
		}
		i := slices.IndexFunc(feet, func(f Mark) bool { return f.Line == m.Line && f.At.Distance(m.At) <= SameMark })
		if i < 0 {
			i, feet = len(feet), append(feet, m)
		}
		over[n] = i
	}
	for i := range feet {
		feet[i].Name = l.free("F", len(feet) == 1)
	}
	for n, i := range over {
		s.feet[n] = feet[i].Name
	}
	return feet
}

// chainSquare is the square by which a peg is set off: that which stands at its foot, or a
// new one with its marks.
func (s *Set) chainSquare(x Placing, k Square, l letters) int {
	for i, q := range s.Squares {
		if q.At == x.Foot && q.Base == x.Base && q.Side == x.Side {
			return i
		}
	}
	k.Aside = 0
	q := Squaring{At: x.Foot, Base: x.Base, Square: k, Side: x.Side, Toward: x.Base[1], Leg: l.free("Q", false), Top: l.free("R", false)}
	if q.Back {
		q.Toward = x.Base[0]
	}
	q.Loop = loopOf([3]unit.Length{q.Along, q.Up, q.Across})
	foot, _ := s.Peg(x.Foot)
	leg, top := k.marks(s.from(x.Base, foot.At).X, x.Side == Left)
	m := s.mark(q.Leg, SquareLeg, s.on(x.Base, leg))
	if x.Base != s.base() {
		m.Line = x.Base
	}
	s.add(m, s.mark(q.Top, SquareTop, s.on(x.Base, top)))
	s.Squares = append(s.Squares, q)
	return len(s.Squares) - 1
}
