package compare

import "math"

// weigh is −2 ln of the chance that a sum of that many squares falls by so much:
// of χ², whose survival is told apart down to nothing.
//
// Abramowitz and Stegun, Handbook of Mathematical Functions, 26.4.4 and 26.4.5 (from
// memory).
func weigh(drop float64, rank int) float64 {
	half := max(0, drop) / 2
	if rank == 0 {
		return 0
	}
	series, term, first := 0.0, 1.0, 1
	if rank%2 == 1 {
		series, term = erfcx(math.Sqrt(half)), 2*math.Sqrt(half/math.Pi)
		first = 3
	}
	for k := first; k <= rank; k += 2 { // of k/2: Γ(k/2) goes up by that
		if rank%2 == 0 {
			series += term
			term *= half / (float64(k+1) / 2)
			continue
		}
		series += term
		term *= half / (float64(k) / 2)
	}
	return 2*half - 2*math.Log(series)
}

// erfcx is e^{x²}·erfc(x), within 1e-3.
func erfcx(x float64) float64 {
	if x < 5 {
		return math.Exp(x*x) * math.Erfc(x)
	}
	return (1 - 1/(2*x*x)) / (x * math.Sqrt(math.Pi))
}

// glance looks at a fit without fitting anew: by how much the sum of squares falls
// where things are left out, as far as the net is linear.
type glance struct {
	f    *pegFit
	of   map[leftOut][]int // rows of a thing, into share
	row  []int             // of the fit
	left [][]float64       // covariance of the residuals of these rows, in σ
}

func (f *pegFit) glance(things []leftOut) *glance {
	g := &glance{f: f, of: map[leftOut][]int{}}
	for _, x := range things {
		for _, r := range f.rowsOf(x) {
			g.of[x] = append(g.of[x], len(g.row))
			g.row = append(g.row, r)
		}
	}
	g.left = make([][]float64, len(g.row))
	for i := range g.row {
		g.left[i] = make([]float64, len(g.row))
		for j := range i + 1 {
			v := -f.Through(&f.Rows[g.row[i]], &f.Rows[g.row[j]])
			if i == j {
				v++
			}
			g.left[i][j], g.left[j][i] = v, v
		}
	}
	return g
}

// told is the share of a direction below which nothing tells of it.
const noticed = 1e-7

// drop is rᵀR⁻¹r of the residuals r of the things and the covariance R of those, and in
// how many directions anything tells of them: by a Cholesky factor with pivots.
func (g *glance) drop(out ...leftOut) (fall float64, rank int) {
	var at [2 * mostThings]int
	n := 0
	for _, x := range out {
		n += copy(at[n:], g.of[x])
	}
	var a [2 * mostThings][2 * mostThings]float64
	var r [2 * mostThings]float64
	for i := range n {
		for j := range n {
			a[i][j] = g.left[at[i]][at[j]]
		}
		r[i] = g.f.Off[g.row[at[i]]]
	}
	for k := range n {
		p := k
		for i := k; i < n; i++ {
			if a[i][i] > a[p][p] {
				p = i
			}
		}
		if !(a[p][p] > noticed) {
			break
		}
		a[k], a[p] = a[p], a[k]
		r[k], r[p] = r[p], r[k]
		for i := range n {
			a[i][k], a[i][p] = a[i][p], a[i][k]
		}
		fall += r[k] * r[k] / a[k][k]
		rank++
		for i := k + 1; i < n; i++ {
			x := a[i][k] / a[k][k]
			for j := k + 1; j < n; j++ {
				a[i][j] -= x * a[k][j]
			}
			r[i] -= x * r[k]
		}
	}
	return fall, rank
}
