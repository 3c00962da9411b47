package compare

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

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
	series, term, first := 0.0, 1.0, 2
	if rank%2 == 1 {
		series, term, first = erfcx(math.Sqrt(half)), 2*math.Sqrt(half/math.Pi), 3
	}
	for k := first; k <= rank; k += 2 { // Γ(k/2) goes up by k/2
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

// linear is what a fit tells without fitting anew: by how much the sum of squares falls
// where things are left out, as far as the net is linear.
type linear struct {
	off  []float64         // residuals, in σ, row by row of the things
	of   map[leftOut][]int // rows of a thing, into off and left
	left *mat.SymDense     // covariance of the residuals
}

func (f *pegFit) linear(things ...leftOut) linear {
	g := linear{of: map[leftOut][]int{}}
	var rows []int // of the fit
	for _, x := range things {
		for _, r := range f.rowsOf(x) {
			g.of[x] = append(g.of[x], len(rows))
			rows, g.off = append(rows, r), append(g.off, f.Off[r])
		}
	}
	g.left = mat.NewSymDense(len(rows), nil)
	for i, r := range rows {
		for j, s := range rows[:i+1] {
			v := -f.Through(&f.Rows[r], &f.Rows[s])
			if i == j {
				v++
			}
			g.left.SetSym(i, j, v)
		}
	}
	return g
}

// noticed is the share of a direction below which nothing tells of it.
const noticed = 1e-7

// drop is rᵀR⁻¹r of the residuals r of the things and the covariance R of those, and in
// how many directions anything tells of them.
func (g linear) drop(out []leftOut) (fall float64, rank int) {
	var at []int
	for _, x := range out {
		at = append(at, g.of[x]...)
	}
	r := mat.NewSymDense(len(at), nil)
	for i := range at {
		for j := range i + 1 {
			r.SetSym(i, j, g.left.At(at[i], at[j]))
		}
	}
	var c mat.PivotedCholesky
	if c.Factorize(r, noticed); mat.Max(r) > noticed { // the first pivot is taken whatever it is
		rank = c.Rank()
	}
	pivots, u := c.ColumnPivots(nil), c.RawU()
	var y [2 * mostThings]float64
	for k := range rank { // forward through the factor
		y[k] = g.off[at[pivots[k]]]
		for i := range k {
			y[k] -= u.At(i, k) * y[i]
		}
		y[k] /= u.At(k, k)
		fall += y[k] * y[k]
	}
	return fall, rank
}
