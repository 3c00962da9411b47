package adjust

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Covariance of a place: how it scatters along x and along y, and together.
type Covariance struct{ XX, YY, XY unit.Area }

// Plus adds what is independent: a peg is off because its place was measured and
// because it was set out.
func (c Covariance) Plus(d Covariance) Covariance {
	return Covariance{c.XX + d.XX, c.YY + d.YY, c.XY + d.XY}
}

// Times scales the variances: by Sigma0², where the σ are to be taken from the
// residuals instead of from what was stated.
func (c Covariance) Times(k float64) Covariance {
	a := unit.Area(k)
	return Covariance{c.XX * a, c.YY * a, c.XY * a}
}

// Turned is the same scatter in a plane that is turned counter-clockwise by a.
func (c Covariance) Turned(a unit.Angle) Covariance {
	s64, c64 := math.Sincos(float64(a))
	s, k := unit.Area(s64), unit.Area(c64)
	return Covariance{
		XX: k*k*c.XX - 2*s*k*c.XY + s*s*c.YY,
		YY: s*s*c.XX + 2*s*k*c.XY + k*k*c.YY,
		XY: s*k*(c.XX-c.YY) + (k*k-s*s)*c.XY,
	}
}

// Through is the variance of what changes by so much along x and along y.
func (c Covariance) Through(v geom.Vector) float64 {
	return v.X*v.X*float64(c.XX) + 2*v.X*v.Y*float64(c.XY) + v.Y*v.Y*float64(c.YY)
}

// X is the σ along x, Y across it.
func (c Covariance) X() unit.Length { return root(c.XX) }
func (c Covariance) Y() unit.Length { return root(c.YY) }

// Along is the σ in a direction.
func (c Covariance) Along(a unit.Angle) unit.Length { return root(c.Turned(-a).XX) }

func root(a unit.Area) unit.Length { return unit.Length(math.Sqrt(math.Max(0, float64(a)))) }

// Ellipse is the standard ellipse of a place: 39.3 of 100 fall inside one.
type Ellipse struct {
	Major, Minor unit.Length // half axes
	Turn         unit.Angle  // of the major one from x, in (−90°, 90°]
}

// Ellipse of the covariance: a², b² = ½(σx²+σy²) ± √[¼(σx²−σy²)² + σxy²].
func (c Covariance) Ellipse() Ellipse {
	xx, yy, cov := float64(c.XX), float64(c.YY), float64(c.XY)
	mean, off := (xx+yy)/2, math.Hypot((xx-yy)/2, cov)
	major := mean + off
	minor := 0.0
	if major > 0 { // mean − off would lose the digits of a thin one
		minor = max(0, (xx*yy-cov*cov)/major)
	}
	return Ellipse{unit.Length(math.Sqrt(max(0, major))), unit.Length(math.Sqrt(minor)), unit.Angle(math.Atan2(2*cov, xx-yy) / 2)}
}

// Ninetyfive is the factor from the standard ellipse to the one that holds 95 of
// 100 where σ is known: √χ²(2, 95 %) = √(−2 ln 0.05) = 2.4477.
const Ninetyfive = 2.4477468306808166

// Within95 is the ellipse that holds 95 of 100.
func (e Ellipse) Within95() Ellipse {
	return Ellipse{e.Major * Ninetyfive, e.Minor * Ninetyfive, e.Turn}
}

// Figure95 is the 95 % figure of a place: the longer half axis of the ellipse
// that holds 95 of 100, so that at least as many lie within it.
func (c Covariance) Figure95() unit.Length { return c.Ellipse().Major * Ninetyfive }
