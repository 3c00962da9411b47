package geom

import (
	"math"

	"trammel/geom/unit"
)

// Affine is a map [a b c d e f] of the plane: x' = a·x + c·y + e, y' = b·x + d·y + f;
// a to d are plain numbers, e and f mm.
type Affine [6]float64

// Apply maps a point, within 2 ulp of its largest term.
func (m Affine) Apply(p Point) Point {
	x, y := float64(p.X), float64(p.Y)
	return Point{unit.Length(m[0]*x + m[2]*y + m[4]), unit.Length(m[1]*x + m[3]*y + m[5])}
}

// After is m after n: first n, then m.
func (m Affine) After(n Affine) Affine {
	return Affine{
		m[0]*n[0] + m[2]*n[1], m[1]*n[0] + m[3]*n[1],
		m[0]*n[2] + m[2]*n[3], m[1]*n[2] + m[3]*n[3],
		m[0]*n[4] + m[2]*n[5] + m[4], m[1]*n[4] + m[3]*n[5] + m[5],
	}
}

// Inverse undoes m; ok is false where m flattens the plane.
func (m Affine) Inverse() (inverse Affine, ok bool) {
	det := m[0]*m[3] - m[1]*m[2]
	if !(math.Abs(det) > 1e-12) { // of a map without unit: flat to a millionth of its scale
		return Affine{}, false
	}
	a, b, c, d := m[3]/det, -m[1]/det, -m[2]/det, m[0]/det
	return Affine{a, b, c, d, -(a*m[4] + c*m[5]), -(b*m[4] + d*m[5])}, true
}

// About is the same map with its origin moved to p: p goes to itself.
func (m Affine) About(p Point) Affine {
	m[4], m[5] = 0, 0
	q := m.Apply(p)
	m[4], m[5] = float64(p.X-q.X), float64(p.Y-q.Y)
	return m
}

// Distortion is what a printer makes of a page: how long a line across it and a
// line along it come out, and how far the angle between them is from a right one.
// Which way the whole page is turned cannot be read on it, and does not matter.
// The zero value is no distortion.
type Distortion struct {
	Across, Along float64    // how much too long for its length; −0.005 is 5 mm short in a metre
	Skew          unit.Angle // the angle at the lower left corner is a right one and this more
}

// Affine is the distortion as a symmetric map about the origin: it moves no point
// further than it must.
func (d Distortion) Affine() Affine {
	// The lengths of the two unit vectors and their product give the square of the
	// map; its root is (G + √det·I) / √(trace + 2√det), for any symmetric 2 × 2 matrix.
	x, y := 1+d.Across, 1+d.Along
	g, h, k := x*x, y*y, -x*y*math.Sin(float64(d.Skew))
	s := math.Sqrt(g*h - k*k)
	t := math.Sqrt(g + h + 2*s)
	return Affine{(g + s) / t, k / t, k / t, (h + s) / t}
}

// Turned is the distortion seen from a page that lies on its side. Whether it was
// turned to the left or to the right makes no difference.
func (d Distortion) Turned() Distortion { return Distortion{d.Along, d.Across, -d.Skew} }

// Worst is the most by which any length on the page comes out wrong, of its length.
func (d Distortion) Worst() float64 {
	m := d.Affine()
	mid, half := (m[0]+m[3])/2, math.Hypot((m[0]-m[3])/2, m[1])
	return max(math.Abs(mid+half-1), math.Abs(mid-half-1))
}
