package geom

import (
	"math"

	"trammel/geom/unit"
)

// Vector is a place or a way in the plane as bare numbers, in mm, for reckoning: where
// lengths are multiplied they are lengths no more.
type Vector struct{ X, Y float64 }

// VectorOf is the way from the origin to p.
func VectorOf(p Point) Vector { return Vector{float64(p.X), float64(p.Y)} }

// Point is the place at the end of the way from the origin.
func (p Vector) Point() Point { return Point{X: unit.Length(p.X), Y: unit.Length(p.Y)} }

func (p Vector) Plus(q Vector) Vector   { return Vector{p.X + q.X, p.Y + q.Y} }
func (p Vector) Minus(q Vector) Vector  { return Vector{p.X - q.X, p.Y - q.Y} }
func (p Vector) Times(k float64) Vector { return Vector{p.X * k, p.Y * k} }
func (p Vector) Dot(q Vector) float64   { return p.X*q.X + p.Y*q.Y }

// Cross is positive where q lies to the left of p.
func (p Vector) Cross(q Vector) float64 { return p.X*q.Y - p.Y*q.X }

// FineCross is Cross within 1.5 ulp, also where both products are nearly equal
// (W. Kahan's way with a fused multiply and add): at a needle's corner it is all that
// is known of the angle.
func (p Vector) FineCross(q Vector) float64 {
	w := p.Y * q.X
	return math.FMA(p.X, q.Y, -w) + math.FMA(-p.Y, q.X, w)
}

// Size is the length of the way, without overflow.
func (p Vector) Size() float64 { return math.Hypot(p.X, p.Y) }

// Left is the way turned by a quarter to the left, exactly.
func (p Vector) Left() Vector { return Vector{-p.Y, p.X} }

// Right is the way turned by a quarter to the right, exactly: outward of a side, where
// the outline runs counter-clockwise.
func (p Vector) Right() Vector { return Vector{p.Y, -p.X} }

// Turned is the way turned to the left by a.
func (p Vector) Turned(a unit.Angle) Vector {
	s, c := math.Sincos(float64(a))
	return Vector{c*p.X - s*p.Y, s*p.X + c*p.Y}
}

// Unit is the way of size 1 in the same direction; p is not zero.
func (p Vector) Unit() Vector { return p.Times(1 / p.Size()) }

// To is the distance from p to q.
func (p Vector) To(q Vector) float64 { return q.Minus(p).Size() }

// Side is twice the area of the triangle a, b, p: positive where p lies to the left of
// the way from a to b.
func Side(a, b, p Vector) float64 { return b.Minus(a).Cross(p.Minus(a)) }

// IsLeft says whether p lies to the left of the way from a to b.
func IsLeft(a, b, p Vector) bool { return Side(a, b, p) > 0 }
