package panel

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Letters of points stand where nothing is drawn, as near as may be to where they belong.

// free is the middle for letters about a place: outward of the piece where that is free, else
// turned from there, else farther.
func (s *stage) free(at, out geom.Vector, name string) geom.Vector {
	if s.rough {
		return at.Plus(out.Unit().Times(4.2 * s.f()))
	}
	best, least := at, math.Inf(1)
	for _, far := range []float64{3.6, 4.6, 6} {
		for turn := range 12 {
			a := float64((turn+1)/2) * math.Pi / 6
			if turn%2 == 1 {
				a = -a
			}
			v, w := math.Sincos(a)
			u := out.Unit()
			c := at.Plus(geom.Vector{X: u.X*w - u.Y*v, Y: u.X*v + u.Y*w}.Times(far * s.f()))
			cost := float64(turn)*0.3 + far - 3.6
			half := math.Max(1.9*s.f(), float64(s.r.Width(name, s.letters, true))/2+0.3*s.f())
			mine := s.lettered(name, c, lettered{height: 3.5, bold: true}).Bounds(s.r).Grow(unit.Length(0.2 * s.f()))
			for _, op := range s.ops {
				switch other, words := op.(draw.Text); {
				case words && mine.Meets(other.Bounds(s.r)):
					cost += 12
				case !words && apart(c, op) < half:
					cost += 4
				}
			}
			if cost < least {
				best, least = c, cost
			}
		}
	}
	return best
}

// apart is how far a place is from the line of an operation.
func apart(p geom.Vector, op draw.Op) float64 {
	path, ok := draw.Stroked(op)
	if !ok {
		return math.Inf(1)
	}
	least := math.Inf(1)
	for _, g := range path.Segments {
		switch g := g.(type) {
		case geom.Line:
			a, b := geom.VectorOf(g.From), geom.VectorOf(g.To)
			along := b.Minus(a)
			k := 0.0
			if d := along.Dot(along); d > 0 {
				k = math.Min(1, math.Max(0, p.Minus(a).Dot(along)/d))
			}
			least = math.Min(least, p.To(a.Plus(along.Times(k))))
		case geom.Arc:
			n := int(math.Ceil(math.Abs(float64(g.Sweep))*float64(g.Radius))) + 1 // a place every mm
			for i := range n + 1 {
				least = math.Min(least, p.To(geom.VectorOf(g.At(float64(i)/float64(n)))))
			}
		}
	}
	return least
}
