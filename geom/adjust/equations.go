package adjust

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"

	"trammel/geom"
)

// Unknowns numbers the coordinates that are adjusted: X[i] and Y[i] of point i, −1 where it is held.
type Unknowns struct {
	X, Y []int
	N    int
}

// NewUnknowns numbers the coordinates of so many points, but for those that are held.
func NewUnknowns(points int, held func(i int) (x, y bool)) Unknowns {
	u := Unknowns{X: make([]int, points), Y: make([]int, points)}
	next := func(held bool) int {
		if held {
			return -1
		}
		u.N++
		return u.N - 1
	}
	for i := range points {
		x, y := held(i)
		u.X[i], u.Y[i] = next(x), next(y)
	}
	return u
}

// of a point: its two unknowns, 0 where it is held.
func (u Unknowns) of(i int, x []float64) (v geom.Vector) {
	if k := u.X[i]; k >= 0 {
		v.X = x[k]
	}
	if k := u.Y[i]; k >= 0 {
		v.Y = x[k]
	}
	return v
}

// Term is one coefficient of a row: of unknown I.
type Term struct {
	I int
	V float64
}

// Row is what something changes by with each unknown. At most six take part.
type Row struct {
	term [6]Term
	n    int
}

// Terms of the row.
func (r *Row) Terms() []Term { return r.term[:r.n] }

func (r *Row) add(i int, v float64) {
	if i >= 0 {
		r.term[r.n] = Term{i, v}
		r.n++
	}
}

// Row of what changes by so much with each of some points.
func (u Unknowns) Row(points []int, by ...geom.Vector) (r Row) {
	for k, q := range points {
		r.add(u.X[q], by[k].X)
		r.add(u.Y[q], by[k].Y)
	}
	return r
}

// Prior is the place of a point as it was wanted, which counts as an observation too.
type Prior struct {
	Point int
	At    geom.Vector
	White [2]geom.Vector // what makes its scatter the unit circle, row by row
}

// Equations are what is to be adjusted.
type Equations struct {
	Obs    []Observation // each with its σ, ∞ where it is left out, and oriented
	Free   Unknowns
	Priors []Prior
}

// Orient orients all observations at these places.
func Orient(obs []Observation, at []geom.Vector) {
	for i := range obs {
		obs[i].Orient(at)
	}
}

// Fit is the equations made linear at some places.
type Fit struct {
	Equations
	At   []geom.Vector
	Rows []Row     // in σ: of the observations, then two of each prior
	Off  []float64 // observed less computed, in σ
	Sum  float64   // of the squares of Off
	chol mat.Cholesky
	cov  *mat.SymDense
}

// Linear works out rows and misfits at these places.
func (e Equations) Linear(at []geom.Vector) *Fit {
	n := len(e.Obs) + 2*len(e.Priors)
	f := &Fit{Equations: e, At: at, Rows: make([]Row, n), Off: make([]float64, n)}
	for i := range e.Obs {
		o := &e.Obs[i]
		v, by := o.Computed(at)
		for k := range by {
			by[k] = geom.Vector{X: by[k].X / o.Sigma, Y: by[k].Y / o.Sigma}
		}
		f.Rows[i] = e.Free.Row(o.Points(), by[:]...)
		f.Off[i] = (o.Value - v) / o.Sigma
	}
	for i, p := range e.Priors {
		d := p.At.Minus(at[p.Point])
		for k, white := range p.White {
			r := len(e.Obs) + 2*i + k
			f.Rows[r] = e.Free.Row([]int{p.Point}, white)
			f.Off[r] = white.Dot(d)
		}
	}
	for _, x := range f.Off {
		f.Sum += x * x
	}
	if math.IsNaN(f.Sum) {
		f.Sum = math.Inf(1)
	}
	return f
}

func (f *Fit) moved(step []float64) *Fit {
	at := slices.Clone(f.At)
	for i := range at {
		at[i] = at[i].Plus(f.Free.of(i, step))
	}
	return f.Linear(at)
}

// normal equations AᵀA, the upper triangle row by row; damped, their diagonal is
// raised by that share. ok is false where an unknown is in no row.
func (f *Fit) normal(damp float64) (data []float64, ok bool) {
	n := f.Free.N
	data, ok = make([]float64, n*n), true
	for i := range f.Rows {
		t := f.Rows[i].Terms()
		for _, a := range t {
			for _, b := range t {
				if a.I <= b.I {
					data[a.I*n+b.I] += a.V * b.V
				}
			}
		}
	}
	for i := range n {
		data[i*n+i] *= 1 + damp
		ok = ok && data[i*n+i] > 0
	}
	return data, ok
}

// step is the change of the unknowns that is next, and what the sum would fall by if the
// equations were linear; ok is false where nothing fixes it.
func (f *Fit) step(damp float64) (step []float64, gain float64, ok bool) {
	n := f.Free.N
	if n == 0 {
		return nil, 0, true
	}
	data, ok := f.normal(damp)
	if !ok {
		return nil, 0, false
	}
	g := make([]float64, n)
	for i := range f.Rows {
		for _, t := range f.Rows[i].Terms() {
			g[t.I] += t.V * f.Off[i]
		}
	}
	x := slices.Clone(g)
	// Without the estimate of the condition that mat.Cholesky makes each time.
	factor, ok := lapack64.Potrf(blas64.Symmetric{Uplo: blas.Upper, N: n, Stride: n, Data: data})
	if !ok {
		return nil, 0, false
	}
	lapack64.Potrs(factor, blas64.General{Rows: n, Cols: 1, Stride: 1, Data: x})
	for i := range x {
		gain += x[i] * g[i]
	}
	return x, gain, !math.IsNaN(gain)
}

// factor decomposes the normal equations, for what follows from the fit; ok is false
// where they do not fix the unknowns.
func (f *Fit) factor() (ok bool) {
	data, ok := f.normal(0)
	return ok && (f.Free.N == 0 || f.chol.Factorize(mat.NewSymDense(f.Free.N, data)))
}

// Condition of the normal equations, once they are decomposed.
func (f *Fit) Condition() float64 {
	if f.Free.N == 0 {
		return 1
	}
	return f.chol.Cond()
}
