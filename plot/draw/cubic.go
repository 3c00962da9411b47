package draw

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// CurveTolerance is how far a cubic Bézier curve may leave the circle that it
// stands for: a tenth of what a finished file may be off. The rest is for the
// rounding of coordinates, ours and the reader's (many count in 32-bit floats:
// 0.0003 mm at 5 m).
const CurveTolerance unit.Length = 0.0005

// Pieces is into how many equal parts an arc is cut, so that a cubic Bézier
// curve of the usual control length 4/3·tan(θ/4) keeps within CurveTolerance of
// each part of θ.
//
// That curve meets the circle at both ends and in the middle and bulges outward
// between, most near t = ½ ± √3/6, where it is 2/27·r·sin⁶(θ/4)/cos²(θ/4) off (worked
// out here; at 30 digits it agrees within 0.02 % up to a quarter turn). With x = θ/4,
// sin⁶x/cos²x is x⁶(1 + O(x⁴)), hence θ = 4·(13.5·tolerance/r)^(1/6). SVG arcs are cut
// alike, since many programs that read them turn each into such a curve.
func Pieces(a geom.Arc) int {
	widest := math.Pi / 2 // more gains nothing and is unusual
	if r := a.Radius.MM(); r > 0 {
		widest = min(widest, 4*math.Pow(13.5*CurveTolerance.MM()/r, 1.0/6))
	}
	sweep := min(math.Abs(a.Sweep.Radians()), 2*math.Pi)
	// A sweep that is a whole number of parts but for its last bit takes no part more.
	return max(1, int(math.Ceil(sweep/widest*(1-1e-12))))
}

// Whole says whether the arc is a whole circle (or more).
func Whole(a geom.Arc) bool { return math.Abs(a.Sweep.Radians()) >= 2*math.Pi*(1-1e-12) }

// Cubic is one curve, from where the one before ended.
type Cubic struct{ Control1, Control2, To geom.Point }

// Cubics draws the arc from a.At(0) as cubic Bézier curves, each within
// CurveTolerance of it. A whole circle ends in the very point where it began.
func Cubics(a geom.Arc) []Cubic {
	n := Pieces(a)
	if Whole(a) {
		a.Sweep = unit.Angle(math.Copysign(2*math.Pi, a.Sweep.Radians()))
	}
	k := unit.Length(4. / 3 * math.Tan(a.Sweep.Radians()/float64(n)/4))
	curves := make([]Cubic, n)
	from := a.At(0)
	first := from
	for i := range curves {
		to := a.At(float64(i+1) / float64(n))
		if i == n-1 && Whole(a) {
			to = first
		}
		// The tangent at a point is its spoke turned a quarter.
		u, v := from.Minus(a.Centre), to.Minus(a.Centre)
		curves[i] = Cubic{
			geom.Point{X: from.X - k*u.Y, Y: from.Y + k*u.X},
			geom.Point{X: to.X + k*v.Y, Y: to.Y - k*v.X},
			to,
		}
		from = to
	}
	return curves
}
