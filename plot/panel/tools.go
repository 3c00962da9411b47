package panel

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// ruler lies along a line from a place, its figures away from the side named by below; it is
// read at length, or at nothing where that is 0.
type ruler struct {
	from, to geom.Vector
	length   float64 // mm, read there
	below    bool    // it lies to the right of the line
}

func (t ruler) draw(s *stage) {
	p, q := s.at(t.from), s.at(t.to)
	along := q.Minus(p).Unit()
	side := along.Left()
	if t.below {
		side = along.Right()
	}
	f := s.f()
	wide := 10.5 * f
	at := func(x, y float64) geom.Vector { return p.Plus(along.Times(x)).Plus(side.Times(y)) }
	long := q.Minus(p).Size()
	if t.length == 0 { // to draw along: its ends are broken
		from, to := -6*f, long+5*f
		s.poly(tool, true, at(from, 0), at(to, 0), at(to+1.2*f, wide/3), at(to-1*f, wide*2/3), at(to+0.6*f, wide), at(from+0.6*f, wide), at(from-1*f, wide*2/3), at(from+1.2*f, wide/3))
		return
	}
	end := 3.5 * f
	s.poly(tool, true, at(-end, 0), at(long+9*f, 0), at(long+9*f, wide), at(-end, wide))
	step := s.nice(t.length)
	turn := math.Atan2(along.Y, along.X)
	turn = readable(turn)
	for x := 0.0; x*s.scale <= long+6*f; x += step / 2 {
		h := 1.6 * f
		if math.Mod(x+1e-9, step) > 1e-6 && math.Mod(x+1e-9, step) < step-1e-6 {
			h = 1 * f
		} else if x > 0 && math.Abs(x-t.length)*s.scale > s.figure(t.length, 2.3)/2+s.figure(x, 1.8)/2+0.8*f {
			s.words(plain(x), at(x*s.scale, 5.2*f), lettered{height: 1.8, turn: turn})
		}
		s.line(at(x*s.scale, 0), at(x*s.scale, h), tick)
	}
	s.ringed("0", at(0, 5.2*f), lettered{height: 2.3, bold: true, turn: turn}, tool)
	s.line(at(long, 0), at(long, 2.6*f), tool)
	s.words(plain(t.length), at(long, 5.2*f), lettered{height: 2.3, bold: true, turn: turn})
}

// figure is how wide a rule's figure is, of a height at the size for hands.
func (s *stage) figure(x, height float64) float64 {
	return float64(s.r.Width(plain(x), unit.Length(height*s.f()), true))
}

// compasses stand with the needle in a place and the pencil in another, opened to a length.
type compasses struct {
	needle, pencil geom.Vector
	opening        string
	left           bool // the head is to the left of the way from needle to pencil
}

func (t compasses) draw(s *stage) {
	p, q := s.at(t.needle), s.at(t.pencil)
	f := s.f()
	open := q.Minus(p)
	r := open.Size()
	leg := math.Max(0.6*r, 24*f)
	side := open.Unit().Left()
	if !t.left {
		side = open.Unit().Right()
	}
	head := p.Plus(open.Times(0.5)).Plus(side.Times(math.Sqrt(leg*leg - r*r/4)))
	// Legs, each a slender outline that ends in a point.
	for i, foot := range []geom.Vector{p, q} {
		down := foot.Minus(head).Unit()
		w := down.Left().Times(0.9 * f)
		from, to := head.Plus(down.Times(2*f)), foot.Minus(down.Times(5*f))
		s.poly(tool, true, from.Plus(w), to.Plus(w), foot, to.Minus(w), from.Minus(w))
		if i == 1 { // the holder of the pencil
			mid := foot.Minus(down.Times(9 * f))
			a, b := down.Left().Times(1.5*f), down.Times(1.6*f)
			s.poly(tool, true, mid.Plus(a).Plus(b), mid.Minus(a).Plus(b), mid.Minus(a).Minus(b), mid.Plus(a).Minus(b))
		} else { // the needle is bare
			s.line(to, foot, draw.Pen{Width: 0.35})
		}
	}
	s.arc(head, 2*f, 0, 2*math.Pi, tool)
	s.arc(head, 0.6*f, 0, 2*math.Pi, tool)
	turn := math.Atan2(open.Y, open.X)
	turn = readable(turn)
	s.words(t.opening, p.Plus(open.Times(0.5)).Plus(side.Times(3.4*f)), lettered{height: 2.5, turn: turn})
}

// square is the set square with its corner at a place, one side along a line; up is where the
// other goes, to the left of along or, turned over, to the right.
type square struct {
	corner, along geom.Vector
	over          bool
	slides        float64 // mm of the piece that it has slid up from the line; 0: it has not
}

func (t square) draw(s *stage) {
	f := s.f()
	if t.slides > 0 {
		f *= 0.65
	}
	x := t.along.Unit()
	y := x.Left()
	if t.over {
		y = x.Right()
	}
	p := s.at(t.corner)
	at := func(u, v float64) geom.Vector { return p.Plus(x.Times(u * f)).Plus(y.Times(v * f)) }
	s.poly(tool, true, at(0, 0), at(14, 0), at(0, 22))
	s.poly(tool, true, at(3, 3), at(7.6, 3), at(3, 10.4))
	s.poly(tick, false, at(1.6, 0), at(1.6, 1.6), at(0, 1.6))
	if t.slides > 0 { // an arrow beside it says how it came here, and a rule that it slid along
		up := t.slides * s.scale / f
		s.poly(tool, true, at(-0.4, -up-4), at(-0.4, 24), at(-6.4, 24), at(-6.4, -up-4))
		s.line(at(-9, -up), at(-9, -1.5), tool)
		s.solid(at(-9, 0), at(-9.9, -2.6), at(-8.1, -2.6))
	}
}

// readable is a direction in which words stand upright, or are read from the right.
func readable(turn float64) float64 {
	if turn = math.Remainder(turn, 2*math.Pi); turn > math.Pi/2+1e-9 || turn <= -math.Pi/2+1e-9 {
		turn += math.Pi
	}
	return turn
}

// asked is a mark that says what is to be measured along a line.
func (s *stage) asked(text string, p, q geom.Vector, below bool) {
	a, b := s.at(p), s.at(q)
	along := b.Minus(a)
	turn := math.Atan2(along.Y, along.X)
	turn = readable(turn)
	side := along.Unit().Left()
	if below {
		side = along.Unit().Right()
	}
	s.words(text, a.Plus(along.Times(0.5)).Plus(side.Times(3.4*s.f())), lettered{height: 3.5, turn: turn})
}

// angled is the sign of an angle from an arm, turned by so much, with words in it.
func (s *stage) angled(text string, corner, arm geom.Vector, sweep float64, pen draw.Pen) {
	p := s.at(corner)
	start := math.Atan2(arm.Y, arm.X)
	radius := 9 * s.f()
	s.arc(p, radius, start, sweep, pen)
	mid := start + sweep/2
	wide := float64(s.r.Width(text, s.letters, false))
	reach := math.Max(radius+0.6*wide+1, wide/1.6/math.Max(0.3, math.Sin(math.Abs(sweep)/2)))
	s.words(text, p.Plus(geom.Vector{X: math.Cos(mid), Y: math.Sin(mid)}.Times(reach)), lettered{height: 3})
}
