package adjust

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"trammel/geom"
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

// Between is the covariance of two points' coordinates among each other.
func (f *Fit) Between(i, j int) (c [2][2]float64) {
	u := [2]int{f.Free.X[i], f.Free.Y[i]}
	v := [2]int{f.Free.X[j], f.Free.Y[j]}
	for r := range 2 {
		for s := range 2 {
			if u[r] >= 0 && v[s] >= 0 {
				c[r][s] = f.cov.At(u[r], v[s])
			}
		}
	}
	return c
}

// Covariance of the place of a point.
func (f *Fit) Covariance(i int) Covariance {
	c := f.Between(i, i)
	return Covariance{XX: unit.Area(c[0][0]), YY: unit.Area(c[1][1]), XY: unit.Area(c[0][1])}
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
	far := -1.0
	for i := range f.At {
		var way geom.Vector
		if k := f.Free.X[i]; k >= 0 {
			way.X = v.At(k, 0)
		}
		if k := f.Free.Y[i]; k >= 0 {
			way.Y = v.At(k, 0)
		}
		if s := way.Size(); s > far {
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
	most := 0.0
	for i := range m.SymmetricDim() {
		most = max(most, m.At(i, i))
	}
	if most == 0 {
		return 0
	}
	var c mat.PivotedCholesky
	c.Factorize(m, share*most)
	return c.Rank()
}
