package adjust

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"trammel/geom/unit"
)

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

// Rank of the equations: how many unknowns they fix, told apart by a share of the
// largest pivot.
func (f *Fit) Rank(share float64) int {
	data, _ := f.normal(0)
	if len(data) == 0 {
		return 0
	}
	return Rank(mat.NewSymDense(f.Free.N, data), share)
}

// Rank of a symmetric matrix that is not negative: how many of its pivots are more
// than a share of the largest.
func Rank(m mat.Symmetric, share float64) int {
	var c mat.PivotedCholesky
	c.Factorize(m, share*mat.Max(m)) // the largest of such a matrix stands on its diagonal
	return c.Rank()
}
