package compare

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/unit"
)

// aside is what a fit leaves out: a peg whose place is free, or a reading.
type aside struct {
	peg     int
	reading int // −1: the peg
}

// loosely is the weight of a peg that is free: so little changes no figure that is
// ever printed, and keeps a peg that hardly anything was found of from running away.
const loosely = 1e-4

// stood is where the pegs stand by a fit.
type stood struct {
	l    *layout
	at   []geom.Vector
	rows []net.Row // of the readings, then two for each peg: x of peg i is unknown 2i
	off  []float64 // what is observed less what the places make it, in σ
	sum  float64   // of the squares of off, of all that takes part
	cov  *mat.SymDense
}

// fit finds the places for which the sum of squares is least, with some pegs free
// and some readings left out.
func (l *layout) fit(out []aside) (*stood, error) {
	n := len(l.Names)
	weight := make([]float64, len(l.Obs)+2*n)
	for i := range weight {
		weight[i] = 1
	}
	for _, o := range out {
		if o.reading >= 0 {
			weight[o.reading] = 0
			continue
		}
		weight[len(l.Obs)+2*o.peg], weight[len(l.Obs)+2*o.peg+1] = loosely, loosely
	}
	f := l.stand(l.wanted, weight)
	damp := 0.0
	size := 1.0
	for _, c := range l.wanted {
		size = max(size, math.Abs(c.X), math.Abs(c.Y))
	}
	var chol mat.Cholesky
	for range net.MostSteps {
		step, ok := f.step(&chol, damp)
		if ok {
			next := make([]geom.Vector, n)
			most := 0.0
			for i := range next {
				d := geom.Vector{X: step.AtVec(2 * i), Y: step.AtVec(2*i + 1)}
				next[i] = f.at[i].Plus(d)
				most = max(most, d.Size())
			}
			g := l.stand(next, weight)
			if most <= 1e-12*size {
				break
			}
			if better := g.sum <= f.sum*(1+net.Flat) && !math.IsNaN(g.sum); better {
				f = g
				if damp /= 8; damp < 1e-9 {
					damp = 0
				}
				continue
			}
		}
		damp = max(8*damp, 1e-6)
	}
	if !f.factor(&chol, 0) {
		return nil, &unit.Fault{What: "what was found does not go with what was wanted", Hint: "are the letters the same?"}
	}
	f.cov = new(mat.SymDense)
	_ = chol.InverseTo(f.cov) // an error is a warning of the condition
	return f, nil
}

// stand is the sum and its rows at these places.
func (l *layout) stand(at []geom.Vector, weight []float64) *stood {
	m, n := len(l.Obs), len(at)
	f := &stood{l: l, at: at, rows: make([]net.Row, m+2*n), off: make([]float64, m+2*n)}
	for i := range l.Obs {
		o := &l.Obs[i]
		v, by := o.Look(at)
		for k, q := range o.Points() {
			f.rows[i].Add(2*q, by[k].X*weight[i]/o.Sigma)
			f.rows[i].Add(2*q+1, by[k].Y*weight[i]/o.Sigma)
		}
		f.off[i] = (o.Value - v) * weight[i] / o.Sigma
	}
	for i, w := range l.white {
		d := l.wanted[i].Minus(at[i])
		for k := range 2 {
			r := m + 2*i + k
			f.rows[r].Add(2*i, w[k].X*weight[r])
			f.rows[r].Add(2*i+1, w[k].Y*weight[r])
			f.off[r] = w[k].Dot(d) * weight[r]
		}
	}
	for _, x := range f.off {
		f.sum += x * x
	}
	return f
}

func (f *stood) factor(chol *mat.Cholesky, damp float64) bool {
	n := 2 * len(f.at)
	data := make([]float64, n*n)
	for i := range f.rows {
		for _, a := range f.rows[i].Terms() {
			for _, b := range f.rows[i].Terms() {
				if a.I <= b.I {
					data[a.I*n+b.I] += a.V * b.V
				}
			}
		}
	}
	for i := range n {
		data[i*n+i] *= 1 + damp
	}
	return chol.Factorize(mat.NewSymDense(n, data))
}

func (f *stood) step(chol *mat.Cholesky, damp float64) (*mat.VecDense, bool) {
	if !f.factor(chol, damp) {
		return nil, false
	}
	g := mat.NewVecDense(2*len(f.at), nil)
	for i := range f.rows {
		for _, t := range f.rows[i].Terms() {
			g.SetVec(t.I, g.AtVec(t.I)+t.V*f.off[i])
		}
	}
	var x mat.VecDense
	if chol.SolveVecTo(&x, g) != nil && math.IsNaN(mat.Norm(&x, 1)) {
		return nil, false
	}
	return &x, true
}

// covariance of the place of a peg.
func (f *stood) covariance(i int) net.Covariance {
	return net.Covariance{XX: unit.Area(f.cov.At(2*i, 2*i)), YY: unit.Area(f.cov.At(2*i+1, 2*i+1)), XY: unit.Area(f.cov.At(2*i, 2*i+1))}
}

// through is row·covariance·row of two rows.
func (f *stood) through(a, b *net.Row) (v float64) {
	for _, s := range a.Terms() {
		for _, t := range b.Terms() {
			v += s.V * t.V * f.cov.At(s.I, t.I)
		}
	}
	return v
}

// of a thing that may be left out: its rows.
func (f *stood) rowsOf(x aside) []int {
	if x.reading >= 0 {
		return []int{x.reading}
	}
	m := len(f.l.Obs) + 2*x.peg
	return []int{m, m + 1}
}

// fixed says whether the readings alone fix the shape of the pegs they go to, and
// where they do not, which length between two of the pegs tells the most.
func (l *layout) fixed(f *stood) (bool, [2]geom.Name) {
	var seen []int
	place := make([]int, len(l.Names))
	for i := range l.Names {
		place[i] = -1
		if len(l.Of[i]) > 0 {
			place[i] = len(seen)
			seen = append(seen, i)
		}
	}
	if len(seen) < 2 {
		return true, [2]geom.Name{}
	}
	// The rank of the readings, by a Cholesky factor with pivots.
	n := 2 * len(seen)
	a := make([][]float64, n)
	for i := range a {
		a[i] = make([]float64, n)
	}
	for i := range l.Obs {
		for _, s := range f.rows[i].Terms() {
			for _, t := range f.rows[i].Terms() {
				a[2*place[s.I/2]+s.I%2][2*place[t.I/2]+t.I%2] += s.V * t.V
			}
		}
	}
	if rankOf(a) >= n-3 { // but for a shift and a turn
		return true, [2]geom.Name{}
	}
	// The length that is least known beside what it would be with nothing found.
	best, at := 0.0, [2]geom.Name{}
	for x, i := range seen {
		for _, j := range seen[:x] {
			if l.found(i, j) {
				continue
			}
			u := f.at[i].Minus(f.at[j]).Unit()
			var r net.Row
			r.Add(2*i, u.X)
			r.Add(2*i+1, u.Y)
			r.Add(2*j, -u.X)
			r.Add(2*j+1, -u.Y)
			before := 0.0
			for _, q := range []int{i, j} {
				s := l.spread[q]
				before += u.X*u.X*float64(s.XX) + 2*u.X*u.Y*float64(s.XY) + u.Y*u.Y*float64(s.YY)
			}
			if share := f.through(&r, &r) / before; share > best*(1+1e-6) {
				best, at = share, [2]geom.Name{l.Names[j], l.Names[i]}
			}
		}
	}
	return false, at
}

// found says whether the length between two pegs was.
func (l *layout) found(i, j int) bool {
	for _, k := range l.Of[i] {
		if o := &l.Obs[k]; o.N == 2 && o.Has(j) {
			return true
		}
	}
	return false
}

// rankOf a matrix that is not negative, by Cholesky's factor with the largest
// pivot first; it is destroyed.
func rankOf(a [][]float64) int {
	const nothing = 1e-9 // of the largest pivot
	n, first := len(a), 0.0
	for k := range n {
		p := k
		for i := k; i < n; i++ {
			if a[i][i] > a[p][p] {
				p = i
			}
		}
		if k == 0 {
			first = a[p][p]
		}
		if !(a[p][p] > nothing*first) {
			return k
		}
		a[k], a[p] = a[p], a[k]
		for i := range n {
			a[i][k], a[i][p] = a[i][p], a[i][k]
		}
		for i := k + 1; i < n; i++ {
			x := a[i][k] / a[k][k]
			for j := k + 1; j < n; j++ {
				a[i][j] -= x * a[k][j]
			}
		}
	}
	return n
}
