package adjust

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"trammel/geom"
	"trammel/geom/unit"
)

// Covariance of a place: how it scatters along x and along y, and together.
type Covariance struct{ XX, YY, XY unit.Area }

// Plus adds what is independent: a peg is off because its place was measured and because it was set out.
func (c Covariance) Plus(d Covariance) Covariance {
	return Covariance{c.XX + d.XX, c.YY + d.YY, c.XY + d.XY}
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

// Invert works out the covariance of the unknowns of a fit that Solve found.
func (f *Fit) Invert() {
	if f.Free.N > 0 {
		f.cov = new(mat.SymDense)
		_ = f.chol.InverseTo(f.cov) // its error is a warning of the condition, which the caller has judged
	}
}

// Cov is the covariance of the unknowns, mm², once it is worked out; nil where there are none.
func (f *Fit) Cov() *mat.SymDense { return f.cov }

// Through is row·covariance·row of two rows.
func (f *Fit) Through(a, b *Row) (v float64) {
	for _, s := range a.Terms() {
		for _, t := range b.Terms() {
			v += s.V * t.V * f.cov.At(s.I, t.I)
		}
	}
	return v
}

// Covariance of the place of a point.
func (f *Fit) Covariance(i int) Covariance {
	at := func(x, y int) unit.Area {
		if x < 0 || y < 0 {
			return 0
		}
		return unit.Area(f.cov.At(x, y))
	}
	x, y := f.Free.X[i], f.Free.Y[i]
	return Covariance{XX: at(x, x), YY: at(y, y), XY: at(x, y)}
}

// Sigma is the σ of a linear function of the unknowns, without the covariance of all.
func (f *Fit) Sigma(r Row) float64 {
	if f.Free.N == 0 {
		return 0
	}
	v := mat.NewVecDense(f.Free.N, nil)
	for _, t := range r.Terms() {
		v.SetVec(t.I, v.AtVec(t.I)+t.V)
	}
	var x mat.VecDense
	_ = f.chol.SolveVecTo(&x, v) // its error is a warning of the condition
	return math.Sqrt(max(0, mat.Dot(v, &x)))
}

// Loosest is the point that moves the most where the observations notice the least.
func (f *Fit) Loosest() (point int) {
	data, _ := f.normal(0)
	var e mat.EigenSym
	if !e.Factorize(mat.NewSymDense(f.Free.N, data), true) {
		return 0
	}
	var v mat.Dense
	e.VectorsTo(&v)
	least, far := mat.Col(nil, 0, &v), -1.0
	for i := range f.At {
		if s := f.Free.of(i, least).Size(); s > far {
			point, far = i, s
		}
	}
	return point
}

// Rank of the equations: how many unknowns they fix, told apart by a share of the largest pivot.
func (f *Fit) Rank(share float64) int {
	data, _ := f.normal(0)
	if len(data) == 0 {
		return 0
	}
	return Rank(mat.NewSymDense(f.Free.N, data), share)
}

// Rank of a symmetric matrix that is not negative: how many of its pivots are more than a share of the largest.
func Rank(m mat.Symmetric, share float64) int {
	var c mat.PivotedCholesky
	c.Factorize(m, share*mat.Max(m)) // the largest of such a matrix stands on its diagonal
	return c.Rank()
}
