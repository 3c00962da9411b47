package adjust

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"trammel/geom"
)

const (
	// mostSteps of an adjustment: sound equations take three to six.
	mostSteps = 100
	// flat: where a step gains less than this share of the sum, the sum is rounding
	// and says nothing; there the steps themselves must shrink.
	flat = 1e-9
	// still: a step of this share of the width is rounding.
	still = 1e-14
)

// Solve moves the places to the least sum of squares, weights 1/σ², by Gauss–Newton
// steps, which are damped (Levenberg 1944, Marquardt 1963) where a whole one does not
// help. ok is false where the equations do not fix the unknowns.
//
// Accuracy: the places are those of the least sum within 1e-8 m (tests of geom/net
// and geom/compare against SciPy).
func (e Equations) Solve(at []geom.Vector) (f *Fit, ok bool) {
	f = e.Linear(slices.Clone(at))
	size := 1.0
	for _, c := range f.At {
		size = max(size, math.Abs(c.X), math.Abs(c.Y))
	}
	damp, last := 0.0, math.Inf(1)
	for range mostSteps {
		step, gain, ok := f.step(damp)
		if ok {
			next := f.moved(step)
			most := floats.Norm(step, math.Inf(1))
			if damp == 0 && gain <= flat*(1+f.Sum) {
				if most >= last {
					break
				}
				f, last = next, most
				if most <= still*size {
					break
				}
				continue
			}
			if next.Sum <= f.Sum {
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
	return f, f.factor()
}

// Nearby takes at most so many plain steps, as long as each helps: near enough for what is adjusted again.
func (e Equations) Nearby(at []geom.Vector, most int) *Fit {
	f := e.Linear(at)
	for range most {
		step, _, ok := f.step(0)
		if !ok {
			break
		}
		next := f.moved(step)
		if !(next.Sum < f.Sum) {
			break
		}
		f = next
	}
	return f
}

// Least is about the least sum of squares, or one that is no more than enough: what decides between guesses. Points
// need not be held, as every step is damped. It says what each step costs, in about a nanosecond or two each.
func (e Equations) Least(at []geom.Vector, enough float64, cost func(float64)) *Fit {
	const steps, slow = 60, 1e-7
	// So far off and gaining so little, a step never gets there.
	const hopelessly, little = 30, 0.1
	f := e.Linear(at)
	damp := 1e-3
	for range steps {
		n := float64(e.Free.N)
		cost(n*n*n/3 + 200*float64(len(e.Obs)))
		if step, _, ok := f.step(damp); ok {
			if next := f.moved(step); next.Sum <= f.Sum {
				gain := f.Sum - next.Sum
				f, damp = next, max(damp/10, 1e-9)
				if gain <= slow*(f.Sum+enough) || enough > 0 && f.Sum > hopelessly*enough && gain < little*f.Sum {
					break
				}
				continue
			}
		}
		if damp *= 10; damp > 1e9 {
			break
		}
	}
	return f
}
