package compare

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// leftOut is what a fit leaves out: a peg whose place is free, or a reading.
type leftOut struct {
	peg     int
	reading int // −1: the peg
}

// freed is the weight of a peg that is free: so little changes no figure that is
// ever printed, and keeps a peg that hardly anything was found of from running away.
const freed = 1e-4

// fit finds the places for which the sum of squares is least, of the readings and of each wanted place as two
// observations more, with some pegs free and some readings left out.
func (l *layout) fit(out []leftOut) (*adjust.Fit, error) {
	e := adjust.Equations{Obs: slices.Clone(l.Obs)}
	e.Free = adjust.NewUnknowns(len(l.Names), func(int) (x, y bool) { return false, false })
	for i, w := range l.white {
		e.Priors = append(e.Priors, adjust.Prior{Point: i, At: l.wanted[i], White: w})
	}
	for _, o := range out {
		if o.reading >= 0 {
			e.Obs[o.reading].Sigma = math.Inf(1)
			continue
		}
		w := &e.Priors[o.peg].White
		w[0], w[1] = w[0].Times(freed), w[1].Times(freed)
	}
	f, ok := e.Solve(l.wanted)
	if !ok {
		return nil, &unit.Fault{What: "what was found does not go with what was wanted", Hint: "are the letters the same?"}
	}
	f.Invert()
	return f, nil
}

// rowsOf a thing that may be left out.
func rowsOf(f *adjust.Fit, x leftOut) []int {
	if x.reading >= 0 {
		return []int{x.reading}
	}
	m := len(f.Obs) + 2*x.peg
	return []int{m, m + 1}
}

// fixed says whether the readings alone fix the shape of the pegs they go to, and
// where they do not, which length between two of the pegs tells the most.
func (l *layout) fixed(f *adjust.Fit) (bool, [2]geom.Name) {
	var seen []int
	for i := range l.Names {
		if len(l.Of[i]) > 0 {
			seen = append(seen, i)
		}
	}
	if len(seen) < 2 {
		return true, [2]geom.Name{}
	}
	const nothing = 1e-9 // of the largest pivot
	alone := adjust.Equations{Obs: l.Obs, Free: f.Free}.Linear(f.At)
	if alone.Rank(nothing) >= 2*len(seen)-3 { // but for a shift and a turn
		return true, [2]geom.Name{}
	}
	// The length that is least known beside what it would be with nothing found.
	best, at := 0.0, [2]geom.Name{}
	for x, i := range seen {
		for _, j := range seen[:x] {
			if l.Taped(i, j) || !l.open(i, j) {
				continue
			}
			u := f.At[i].Minus(f.At[j]).Unit()
			r := f.Free.Row([]int{i, j}, u, u.Times(-1))
			before := 0.0
			for _, q := range []int{i, j} {
				before += l.spread[q].Through(u)
			}
			if share := f.Through(&r, &r) / before; share > best*(1+1e-6) {
				best, at = share, [2]geom.Name{l.Names[j], l.Names[i]}
			}
		}
	}
	return false, at
}

// open says whether a line may be measured.
func (l *layout) open(i, j int) bool {
	return l.asked.Open.Free(l.wanted[i].Plus(l.Origin).Point(), l.wanted[j].Plus(l.Origin).Point())
}

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

func linearly(f *adjust.Fit, things ...leftOut) linear {
	g := linear{of: map[leftOut][]int{}}
	var rows []int // of the fit
	for _, x := range things {
		for _, r := range rowsOf(f, x) {
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
