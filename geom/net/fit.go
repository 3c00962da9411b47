package net

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"trammel/geom"
	"trammel/geom/triangle"
)

// unknowns numbers the coordinates that are adjusted: x[i] and y[i] of point i,
// −1 where it is held.
type unknowns struct {
	x, y []int
	n    int
}

// unknowns of the net: all but the known points, or where there are none, but
// the first end a of the baseline and the direction to its second, b.
func (p *Problem) unknowns(a, b int) unknowns {
	u := unknowns{x: make([]int, len(p.Names)), y: make([]int, len(p.Names))}
	next := func(held bool) int {
		if held {
			return -1
		}
		u.n++
		return u.n - 1
	}
	for i := range p.Names {
		_, given := p.control[i]
		free := len(p.control) == 0
		u.x[i] = next(given || free && i == a)
		u.y[i] = next(given || free && (i == a || i == b))
	}
	return u
}

func (u unknowns) put(row []float64, q int, by geom.Vector) {
	if i := u.x[q]; i >= 0 {
		row[i] += by.X
	}
	if i := u.y[q]; i >= 0 {
		row[i] += by.Y
	}
}

// term is one coefficient of a row.
type term struct {
	I int
	V float64
}

// row of one observation in units of its σ: what it changes with each unknown.
// At most six unknowns take part.
type Row struct {
	term [6]term
	n    int
}

func (r *Row) Terms() []term { return r.term[:r.n] }

func (r *Row) Add(i int, v float64) {
	r.term[r.n] = term{i, v}
	r.n++
}

func (u unknowns) row(o *Observation, by [3]geom.Vector) (r Row) {
	put := func(i int, v float64) {
		if i >= 0 {
			r.term[r.n] = term{i, v / o.Sigma}
			r.n++
		}
	}
	for k, q := range o.Points() {
		put(u.x[q], by[k].X)
		put(u.y[q], by[k].Y)
	}
	return r
}

// fitted is a net after adjustment.
type fitted struct {
	at   []geom.Vector
	obs  []Observation // with their final σ and sign
	free unknowns
	rows []Row
	off  []float64 // measured less adjusted, in σ
	sum  float64   // of the squares of off
	chol mat.Cholesky
	base [2]int // held: the origin and the direction of x; 0, 0 with known points
}

// baseline is the two ends that Net.Base means.
func (p *Problem) baseline(at []geom.Vector) (a, b int) {
	if p.Base != ([2]geom.Name{}) {
		return p.Number[p.Base[0]], p.Number[p.Base[1]]
	}
	longest := -1.0
	try := func(i, j int) {
		// Equal but for rounding: the first keeps.
		if d := at[i].To(at[j]); d > longest*(1+1e-9) {
			longest, a, b = d, i, j
		}
	}
	if n := len(p.round); n > 2 {
		for i := range n {
			try(p.round[i], p.round[(i+1)%n])
		}
		return a, b
	}
	for i := range p.Obs {
		if o := &p.Obs[i]; o.Kind == triangle.Distance {
			try(o.At[0], o.At[1])
		}
	}
	if longest < 0 {
		return 0, 1
	}
	return a, b
}

// laid turns and shifts the places so that a is the origin and b on the x axis.
func laid(at []geom.Vector, a, b int) []geom.Vector {
	way := at[b].Minus(at[a]).Unit()
	out := make([]geom.Vector, len(at))
	for i, c := range at {
		d := c.Minus(at[a])
		out[i] = geom.Vector{X: way.Dot(d), Y: way.Cross(d)}
	}
	out[a], out[b].Y = geom.Vector{}, 0
	return out
}

// fit adjusts the net from a start.
func (p *Problem) fit(s *state) (*fitted, error) {
	at := s.at
	a, b := 0, 0
	if len(p.control) == 0 {
		a, b = p.baseline(at)
		at = laid(at, a, b)
	}
	obs := make([]Observation, len(p.Obs))
	for i := range p.Obs {
		obs[i] = p.Obs[i]
		obs[i].Sigma = obs[i].Fine(p.Tools, at)
	}
	f, err := p.settle(at, obs, p.unknowns(a, b))
	if err != nil {
		return nil, err
	}
	f.base = [2]int{a, b}
	return f, nil
}

// mostSteps of the adjustment: a sound net takes three to six.
const MostSteps = 100

const (
	// flat: where a step gains less than this share of the sum, the sum is rounding
	// and says nothing; there the steps themselves must shrink.
	Flat = 1e-9
	// still: a step of this share of the net's width is rounding.
	still = 1e-14
)

// settle moves the places to the least sum of squares, weights 1/σ², by
// Gauss–Newton steps, which are damped (Levenberg 1944, Marquardt 1963) where a
// whole one does not help.
func (p *Problem) settle(at []geom.Vector, obs []Observation, free unknowns) (*fitted, error) {
	f := &fitted{at: append([]geom.Vector(nil), at...), obs: obs, free: free}
	for i := range f.obs {
		f.obs[i].Orient(f.at)
	}
	f.linear()
	size := 1.0
	for _, c := range f.at {
		size = max(size, math.Abs(c.X), math.Abs(c.Y))
	}
	damp, last := 0.0, math.Inf(1)
	for range MostSteps {
		step, gain, ok := f.step(damp)
		if ok {
			next := f.moved(step)
			most := step.largest()
			if damp == 0 && gain <= Flat*(1+f.sum) {
				if most >= last {
					break
				}
				f, last = next, most
				if most <= still*size {
					break
				}
				continue
			}
			if next.sum <= f.sum {
				f = next
				if damp /= 8; damp < 1e-9 {
					damp = 0
				}
				continue
			}
			if most <= still*size {
				break
			}
		}
		damp = max(8*damp, 1e-6)
	}
	if !f.factor(0) || f.free.n > 0 && f.chol.Cond() > worst {
		return nil, p.loose(f)
	}
	return f, nil
}

type steps []float64

func (s steps) largest() (most float64) {
	for _, x := range s {
		most = max(most, math.Abs(x))
	}
	return most
}

// linear works out rows and misfits at the present places.
func (f *fitted) linear() {
	f.rows, f.off, f.sum = make([]Row, len(f.obs)), make([]float64, len(f.obs)), 0
	for i := range f.obs {
		o := &f.obs[i]
		v, by := o.Look(f.at)
		f.rows[i] = f.free.row(o, by)
		f.off[i] = (o.Value - v) / o.Sigma
		f.sum += f.off[i] * f.off[i]
	}
	if math.IsNaN(f.sum) {
		f.sum = math.Inf(1)
	}
}

// moved is the net after a step.
func (f *fitted) moved(step steps) *fitted {
	g := &fitted{at: append([]geom.Vector(nil), f.at...), obs: f.obs, free: f.free}
	for i := range g.at {
		if k := f.free.x[i]; k >= 0 {
			g.at[i].X += step[k]
		}
		if k := f.free.y[i]; k >= 0 {
			g.at[i].Y += step[k]
		}
	}
	g.linear()
	return g
}

// worst condition of the normal equations: beyond, a net counts as not fixed.
const worst = 1e14

// factor decomposes the normal equations AᵀA; damped, their diagonal is raised
// by that share.
func (f *fitted) factor(damp float64) bool {
	n := f.free.n
	data := make([]float64, n*n)
	for i := range f.rows {
		t := f.rows[i].Terms()
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
		if !(data[i*n+i] > 0) {
			return false
		}
	}
	if n == 0 {
		return true
	}
	return f.chol.Factorize(mat.NewSymDense(n, data))
}

// step is the change of the unknowns that a linear net would need, and what the
// sum would fall by.
func (f *fitted) step(damp float64) (step steps, gain float64, ok bool) {
	if f.free.n == 0 {
		return nil, 0, true
	}
	if !f.factor(damp) {
		return nil, 0, false
	}
	g := mat.NewVecDense(f.free.n, nil)
	for i := range f.rows {
		for _, t := range f.rows[i].Terms() {
			g.SetVec(t.I, g.AtVec(t.I)+t.V*f.off[i])
		}
	}
	var x mat.VecDense
	if f.chol.SolveVecTo(&x, g) != nil && math.IsNaN(mat.Norm(&x, 1)) { // an error may be a mere warning of a poor condition
		return nil, 0, false
	}
	return x.RawVector().Data, mat.Dot(&x, g), true
}

// loose says which point a net that is not fixed leaves free: the one that moves
// most where the measurements notice least.
func (p *Problem) loose(f *fitted) error {
	n := f.free.n
	a := mat.NewSymDense(n, nil)
	for i := range f.rows {
		for _, s := range f.rows[i].Terms() {
			for _, t := range f.rows[i].Terms() {
				if s.I <= t.I {
					a.SetSym(s.I, t.I, a.At(s.I, t.I)+s.V*t.V)
				}
			}
		}
	}
	var e mat.EigenSym
	u, far := 0, -1.0
	if e.Factorize(a, true) {
		var v mat.Dense
		e.VectorsTo(&v)
		for i := range p.Names {
			var way geom.Vector
			if k := f.free.x[i]; k >= 0 {
				way.X = v.At(k, 0)
			}
			if k := f.free.y[i]; k >= 0 {
				way.Y = v.At(k, 0)
			}
			if s := way.Size(); s > far {
				u, far = i, s
			}
		}
	}
	s := p.blank()
	for i := range s.known {
		s.known[i] = i != u
	}
	return no("measure "+p.another(u, s)+" as well", "%s is hardly held: it lies as good as in one line with the points that it is measured from", p.Names[u])
}
