package adjust

import (
	"testing"

	"gonum.org/v1/gonum/mat"

	"trammel/geom"
	"trammel/geom/triangle"
)

// Three lengths to one point from three that are held, the third of them 3 mm too
// long: the least sum of squares is where its gradient is 0, and nothing near is less.
// The method of least squares, no source.
func TestSolveIsLeast(t *testing.T) {
	at := []geom.Vector{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 4000, Y: 3000}, {X: 100, Y: 2900}}
	obs := []Observation{
		{Kind: triangle.Distance, At: [3]int{0, 3}, N: 2, Value: 3000, Sigma: 1},
		{Kind: triangle.Distance, At: [3]int{1, 3}, N: 2, Value: 5000, Sigma: 1},
		{Kind: triangle.Distance, At: [3]int{2, 3}, N: 2, Value: 4003, Sigma: 2},
	}
	e := Equations{Obs: obs, Free: NewUnknowns(4, func(i int) (x, y bool) { return i < 3, i < 3 })}
	f, ok := e.Solve(at)
	if !ok {
		t.Fatal("not fixed")
	}
	for _, by := range []geom.Vector{{X: 0.01}, {X: -0.01}, {Y: 0.01}, {Y: -0.01}} {
		near := append([]geom.Vector(nil), f.At...)
		near[3] = near[3].Plus(by)
		if g := e.Linear(near); !(g.Sum > f.Sum) {
			t.Errorf("%v further the sum is %v, less than %v", by, g.Sum, f.Sum)
		}
	}
	if n := f.Rank(1e-9); n != 2 {
		t.Errorf("rank %d, want 2", n)
	}
}

// [[2 2][2 2]] has rank 1, the unit matrix its order, nothing none.
func TestRank(t *testing.T) {
	for want, m := range [][]float64{{0, 0, 0, 0}, {2, 2, 2, 2}, {1, 0, 0, 1}} {
		if got := Rank(mat.NewSymDense(2, m), 1e-9); got != want {
			t.Errorf("%v has rank %d, want %d", m, got, want)
		}
	}
}
