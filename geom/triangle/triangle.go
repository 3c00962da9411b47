package triangle

import (
	"math/big"
	"slices"

	"trammel/geom"
	"trammel/geom/internal/trig"
	"trammel/geom/unit"
)

// Triangle is a solved triangle. Index 0 and 1 are the ends of its baseline:
// corner 0 lies at the origin, corner 1 on the positive x axis and corner 2
// above it, so the corners run counter-clockwise.
//
// Each figure is rounded once from at least 25 digits (see Solve for the accuracy).
type Triangle struct {
	Names     [3]geom.Name
	Points    [3]geom.Point
	Sides     [3]unit.Length // Sides[i] is opposite corner i
	Angles    [3]unit.Angle
	Heights   [3]unit.Length // from corner i to the line of the opposite side
	Area      unit.Area
	Perimeter unit.Length
}

// sides of a triangle, each opposite the corner of its index.
type sides [3]number

// reach says by how much the two shorter sides together reach beyond the longest
// (negative: fall short of it): 0 is a flat triangle.
func (s sides) reach() (longest int, over number) {
	l := 0
	for i := range s {
		if s[i].cmp(s[l]) > 0 {
			l = i
		}
	}
	x, y := s[(l+1)%3], s[(l+2)%3]
	sum := x.plus(y)
	if sum.cmp(s[l]) == 0 {
		return l, whole(0)
	}
	return l, sum.minus(s[l])
}

// twiceArea is twice the area, by Kahan's ordered form of Heron's formula: it is
// ½√[(a+(b+c))(c−(a−b))(c+(a−b))(a+(b−c))] for a ≥ b ≥ c. Where the sides are
// rational every factor is exact.
//
// W. Kahan, Miscalculating Area and Angles of a Needle-like Triangle.
func (s sides) twiceArea() number {
	slices.SortFunc(s[:], number.cmp) // a copy
	a, b, c := s[2], s[1], s[0]
	p := a.plus(b.plus(c)).times(c.minus(a.minus(b)))
	q := c.plus(a.minus(b)).times(a.plus(b.minus(c)))
	return p.times(q).root().half()
}

// angle at corner i in radians at 256 bits, by Kahan's formula
// C = 2 atan √{((a−b)+c)μ / [(a+(b+c))((a−c)+b)]}, a ≥ b,
// μ = c−(a−b) if b ≥ c, else b−(a−c).
func (s sides) angle(i int) *big.Float {
	a, b, c := s[(i+1)%3], s[(i+2)%3], s[i]
	if a.cmp(b) < 0 {
		a, b = b, a
	}
	mu := b.minus(a.minus(c))
	if b.cmp(c) >= 0 {
		mu = c.minus(a.minus(b))
	}
	n := a.minus(b).plus(c).times(mu)
	d := a.plus(b.plus(c)).times(a.minus(c).plus(b))
	half := trig.Atan(n.over(d).root().float())
	return half.SetMantExp(half, 1)
}

// figures of a triangle, none rounded yet. Heights and angles are those of the
// corners.
type figures struct {
	sides     sides
	twiceArea number
	angles    [3]*big.Float // radians
	heights   [3]number
}

func figuresOf(s sides) figures {
	f := figures{sides: s, twiceArea: s.twiceArea()}
	for i := range s {
		f.angles[i] = s.angle(i)
		f.heights[i] = f.twiceArea.over(s[i])
	}
	return f
}

// less is the figure less what was measured of it: millimetres, or radians of an angle.
func (f figures) less(q Quantity, measured *big.Rat) number {
	i := q.Corner()
	switch q.Kind() {
	case Distance:
		return f.sides[i].minus(exact(measured))
	case Height:
		return f.heights[i].minus(exact(measured))
	}
	return number{flt: blank().Sub(f.angles[i], radians(measured))}
}

// triangle rounds the figures, the side opposite corner apex being the baseline.
func (f figures) triangle(names [3]geom.Name, apex int) Triangle {
	var t Triangle
	order := [3]int{(apex + 1) % 3, (apex + 2) % 3, apex}
	for i, k := range order {
		t.Names[i] = names[k]
		t.Sides[i] = unit.Length(f.sides[k].float64())
		a, _ := f.angles[k].Float64()
		t.Angles[i] = unit.Angle(a)
		t.Heights[i] = unit.Length(f.heights[k].float64())
	}
	t.Area = unit.Area(f.twiceArea.half().float64())
	t.Perimeter = unit.Length(f.sides[0].plus(f.sides[1]).plus(f.sides[2]).float64())
	t.Points[1].X = t.Sides[2]
	t.Points[2] = geom.Point{X: unit.Length(f.sides.foot(apex).float64()), Y: t.Heights[2]}
	return t
}

// foot of the height from the apex along the baseline, counted from the corner
// after the apex: ((b−a)(b+a)/c + c)/2, a being opposite that corner.
func (s sides) foot(apex int) number {
	a, b, c := s[(apex+1)%3], s[(apex+2)%3], s[apex]
	return b.minus(a).times(b.plus(a)).over(c).plus(c).half()
}

// Outline of the triangle, its figures as they are.
func (t Triangle) Outline() geom.Outline {
	return geom.Outline{
		Names: slices.Clone(t.Names[:]), Points: t.Polygon(),
		Sides: []unit.Length{t.Sides[2], t.Sides[0], t.Sides[1]}, Angles: slices.Clone(t.Angles[:]),
	}
}

// Polygon of the triangle, counter-clockwise.
func (t Triangle) Polygon() geom.Polygon { return geom.Polygon{t.Points[0], t.Points[1], t.Points[2]} }
