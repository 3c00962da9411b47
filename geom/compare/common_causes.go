package compare

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// common is a cause that all of the layout has in common: a few figures from which
// follows what the readings would have been, or where the pegs would stand.
type common struct {
	cause Cause
	about int    // of Turned: a peg
	round [4]int // of Racked: the pegs, once round; the first two are held
	steps []float64
	as    func(by []float64) *layout // the layout if it is by so much
}

// fewForTape is how many lengths there must be before all of them can be wrong alike.
const fewForTape = 3

// mostAbout is how many fixed pegs the whole is turned about.
const mostAbout = 8

func (l *trial) commons() (all []common) {
	lengths := 0
	for i := range l.Obs {
		if l.Obs[i].Kind != triangle.Angle {
			lengths++
		}
	}
	if lengths >= fewForTape {
		all = append(all,
			common{cause: TapeZero, steps: []float64{1}, as: func(by []float64) *layout { return l.reread(func(v float64) float64 { return v - by[0] }) }},
			common{cause: TapeScale, steps: []float64{1e-4}, as: func(by []float64) *layout { return l.reread(func(v float64) float64 { return v / (1 + by[0]) }) }})
	}
	var fast []int
	for i := range l.Names {
		if l.fast[i] && len(l.Of[i]) > 0 {
			fast = append(fast, i)
		}
	}
	if pegs, _ := l.things(); len(fast) > 0 && len(pegs) > 1 {
		middle := geom.Vector{}
		for _, i := range fast {
			middle = middle.Plus(l.wanted[i].Times(1 / float64(len(fast))))
		}
		turn := 1 / l.width() // 1 mm at the far end
		for _, i := range fast[:min(len(fast), mostAbout)] {
			all = append(all, common{cause: Turned, about: i, steps: []float64{turn}, as: func(by []float64) *layout { return l.carried(l.wanted[i], by[0], geom.Vector{}) }})
		}
		all = append(all,
			common{cause: Shifted, steps: []float64{1, 1}, as: func(by []float64) *layout { return l.carried(middle, 0, geom.Vector{X: by[0], Y: by[1]}) }},
			common{cause: ShiftedAndTurned, steps: []float64{turn, 1, 1}, as: func(by []float64) *layout { return l.carried(middle, by[0], geom.Vector{X: by[1], Y: by[2]}) }})
	}
	if round, ok := l.frame(); ok {
		all = append(all, common{cause: Racked, round: round, steps: []float64{1 / l.width()}, as: func(by []float64) *layout { return l.racked(round, by[0]) }})
	}
	return all
}

func (l *layout) copied() *layout {
	c := *l
	c.wanted, c.Obs = slices.Clone(l.wanted), slices.Clone(l.Obs)
	return &c
}

// reread is the layout if every length was read otherwise.
func (l *layout) reread(truth func(float64) float64) *layout {
	c := l.copied()
	for i := range c.Obs {
		if c.Obs[i].Kind != triangle.Angle {
			c.Obs[i].Value = truth(c.Obs[i].Value)
		}
	}
	return c
}

// carried is the layout if all pegs that are not fixed are turned about a centre and shifted.
func (l *layout) carried(centre geom.Vector, turn float64, shift geom.Vector) *layout {
	c := l.copied()
	for i, p := range l.wanted {
		if !l.fast[i] {
			c.wanted[i] = p.Minus(centre).Turned(unit.Angle(turn)).Plus(centre).Plus(shift)
		}
	}
	return c
}

// frame is the four pegs of one, once round, a side that is fixed first where there is one.
func (l *trial) frame() (round [4]int, ok bool) {
	var at []int
	for _, n := range l.asked.Outline {
		if i, known := l.Number[n]; known {
			at = append(at, i)
		}
	}
	if len(l.asked.Outline) == 0 && len(l.Names) == 4 { // by their directions from the middle
		middle := geom.Vector{}
		for i, p := range l.wanted {
			at, middle = append(at, i), middle.Plus(p.Times(0.25))
		}
		turn := func(i int) float64 { p := l.wanted[i].Minus(middle); return math.Atan2(p.Y, p.X) }
		slices.SortFunc(at, func(i, j int) int { return descending(turn(j), turn(i)) })
		k := slices.Index(at, 0)
		at = append(at[k:], at[:k]...)
	}
	if len(at) != 4 {
		return round, false
	}
	for k := range at {
		if l.fast[at[k]] && l.fast[at[(k+1)%4]] {
			at = append(at[k:], at[:k]...)
			break
		}
	}
	copy(round[:], at)
	if l.fast[at[2]] || l.fast[at[3]] {
		return round, false
	}
	for k := range at { // one that is nearly flat does not rack
		p, q, r := l.wanted[at[k]], l.wanted[at[(k+1)%4]], l.wanted[at[(k+2)%4]]
		if math.Abs(geom.Side(p, q, r)) < 0.1*p.To(q)*q.To(r) {
			return round, false
		}
	}
	return round, true
}

// racked is the layout if the frame gives at its corners while its sides keep their
// lengths: the first two pegs stay, the side from the first to the last turns.
func (l *layout) racked(round [4]int, turn float64) *layout {
	c := l.copied()
	a, b, p, q := l.wanted[round[0]], l.wanted[round[1]], l.wanted[round[2]], l.wanted[round[3]]
	d := q.Minus(a).Turned(unit.Angle(turn)).Plus(a)
	// The third is where the arcs about b and d cross, on the side it was on.
	c.wanted[round[3]], c.wanted[round[2]] = d, geom.Crossing(b, d, b.To(p), q.To(p), geom.IsLeft(b, q, p))
	return c
}

// commonly is how a common cause fits.
type commonly struct {
	common
	by  []float64
	cov mat.SymDense // of by
	as  *layout
	fit *adjust.Fit
}

// fitted finds by how much a common cause is the one, by Gauss and Newton; ok is false where nothing tells of it.
func (l *trial) fitted(c common, f *adjust.Fit) (out commonly, ok bool) {
	n := len(c.steps)
	by := make([]float64, n)
	at := l.layout
	const rounds = 8
	for range rounds {
		g := make([][]float64, n)
		for k := range g {
			more := slices.Clone(by)
			more[k] += c.steps[k]
			g[k] = at.change(c.as(more), c.steps[k])
		}
		m, b := normal(f, g)
		var chol mat.Cholesky
		if !tells(m) || !chol.Factorize(m) {
			return out, false
		}
		var step mat.VecDense
		if chol.SolveVecTo(&step, b) != nil {
			return out, false
		}
		out.cov = mat.SymDense{}
		_ = chol.InverseTo(&out.cov) // tells has seen to it
		small := true
		for k := range by {
			by[k] += step.AtVec(k)
			small = small && math.Abs(step.AtVec(k)) < 1e-6*math.Sqrt(out.cov.At(k, k))
		}
		at = c.as(by)
		var err error
		if f, err = at.fit(nil); err != nil {
			return out, false
		}
		if small {
			break
		}
	}
	out.common, out.by, out.as, out.fit = c, by, at, f
	return out, true
}

// change is by how much what is observed changes, in σ, from one layout to another, by
// each of so many that the step has.
func (l *layout) change(to *layout, step float64) (by []float64) {
	for i, o := range l.Obs {
		by = append(by, (to.Obs[i].Value-o.Value)/o.Sigma/step)
	}
	for i, w := range l.white {
		d := to.wanted[i].Minus(l.wanted[i])
		by = append(by, w[0].Dot(d)/step, w[1].Dot(d)/step)
	}
	return by
}

// normal equations of figures that change what is observed by g, the places fitted to
// each: GᵀRG and −Gᵀr, r the residuals and R their covariance.
func normal(f *adjust.Fit, g [][]float64) (*mat.SymDense, *mat.VecDense) {
	n := len(g)
	m, b := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	through := make([]*mat.VecDense, n) // Aᵀg
	for k := range g {
		through[k] = mat.NewVecDense(2*len(f.At), nil)
		sum := 0.0
		for i := range f.Rows {
			sum -= g[k][i] * f.Off[i]
			for _, t := range f.Rows[i].Terms() {
				through[k].SetVec(t.I, through[k].AtVec(t.I)+t.V*g[k][i])
			}
		}
		b.SetVec(k, sum)
	}
	for k := range g {
		for j := range k + 1 {
			sum := 0.0
			for i := range g[k] {
				sum += g[k][i] * g[j][i]
			}
			left := sum - mat.Inner(through[j], f.Cov(), through[k])
			if j == k && left < noticed*sum {
				left = 0
			}
			m.SetSym(j, k, left)
		}
	}
	return m, b
}

// tells says whether what was found tells of all figures of the matrix.
func tells(m *mat.SymDense) bool {
	n := m.SymmetricDim()
	a := mat.NewSymDense(n, nil)
	for i := range n {
		if !(m.At(i, i) > 0) {
			return false
		}
		for j := range i + 1 {
			a.SetSym(j, i, m.At(j, i)/math.Sqrt(m.At(i, i)*m.At(j, j)))
		}
	}
	const nothing = 1e-9
	return adjust.Rank(a, nothing) == n
}
