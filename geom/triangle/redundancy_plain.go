package triangle

import (
	"math"
	"slices"
)

const degreesOfRadian = 180 / math.Pi

// plain is a triangle by its sides in float64 millimetres, for the adjustment,
// where only steps are taken from it. Accuracy: rounding times the sharpness
// (longest side over height).
type plain [3]float64

func (s sides) plain() plain { return plain{s[0].float64(), s[1].float64(), s[2].float64()} }

func (s plain) exact() sides { return sides{fromFloat(s[0]), fromFloat(s[1]), fromFloat(s[2])} }

// valid says whether it is a triangle, and not flat.
func (s plain) valid() bool {
	for _, x := range s {
		if !(x > 0) || math.IsInf(x, 0) {
			return false
		}
	}
	return s.twiceArea() > 0
}

// near says whether the two are the same but for the convergence of the adjustment.
func (s plain) near(t plain) bool { return s.change(t) < 1e-6 }

// change is the largest difference of a side as a share of the longest.
func (s plain) change(t plain) float64 {
	size := max(s[0], s[1], s[2])
	return max(math.Abs(s[0]-t[0]), math.Abs(s[1]-t[1]), math.Abs(s[2]-t[2])) / size
}

// ordered is a ≥ b ≥ c.
func (s plain) ordered() (a, b, c float64) {
	slices.Sort(s[:]) // a copy
	return s[2], s[1], s[0]
}

// twiceArea by Kahan's formula; NaN where the sides do not reach.
func (s plain) twiceArea() float64 {
	a, b, c := s.ordered()
	return math.Sqrt((a+(b+c))*(c-(a-b))*(c+(a-b))*(a+(b-c))) / 2
}

// measure is the value of a quantity, in mm or degrees.
func (s plain) measure(q Quantity) float64 {
	i := q.Corner()
	switch q.Kind() {
	case Distance:
		return s[i]
	case Height:
		return s.twiceArea() / s[i]
	}
	a, b, c := s[(i+1)%3], s[(i+2)%3], s[i]
	if a < b {
		a, b = b, a
	}
	mu := b - (a - c)
	if b >= c {
		mu = c - (a - b)
	}
	return 2 * degreesOfRadian * math.Atan(math.Sqrt(((a-b)+c)*mu/((a+(b+c))*((a-c)+b))))
}

// gradient is how a quantity changes with each side, in mm or degrees per mm.
// With T twice the area: dA = a(da − cos C db − cos B dc)/T, and
// dT = Σ 2R cos A da, R the radius of the circle through the corners.
func (s plain) gradient(q Quantity) (g [3]float64) {
	i := q.Corner()
	if q.Kind() == Distance {
		g[i] = 1
		return g
	}
	twice := s.twiceArea()
	cos := func(k int) float64 {
		a, b, c := s[k], s[(k+1)%3], s[(k+2)%3]
		return ((b-a)*(b+a) + c*c) / (2 * b * c)
	}
	for n := range g {
		switch {
		case q.Kind() == Height:
			g[n] = s[0] * s[1] * s[2] / twice * cos(n) / s[i]
			if n == i {
				g[n] -= twice / (s[i] * s[i])
			}
		case n == i:
			g[n] = degreesOfRadian * s[i] / twice
		default:
			g[n] = -degreesOfRadian * s[i] / twice * cos(rest(i, n))
		}
	}
	return g
}

// leastSquares is the step x with the least |rows·x − off|² + damp·|D·x|², D
// being the size of the columns, by orthogonal columns (modified Gram–Schmidt),
// which is good to the condition of the rows and not of its square.
func leastSquares(rows [][3]float64, off []float64, damp float64) (x [3]float64, ok bool) {
	n := len(rows)
	var column [3][]float64
	right := append(append(make([]float64, 0, n+3), off...), 0, 0, 0)
	var size [3]float64
	for k := range column {
		column[k] = make([]float64, n+3)
		for i := range rows {
			column[k][i] = rows[i][k]
		}
		if size[k] = math.Sqrt(squares(column[k])); size[k] == 0 || math.IsNaN(size[k]) || math.IsInf(size[k], 0) {
			return x, false
		}
		column[k][n+k] = math.Sqrt(damp) * size[k]
	}
	var r [3][3]float64
	var y [3]float64
	for k := range column {
		for range 2 { // a second time: the first leaves what rounding brought in
			for j := range k {
				d := dot(column[j], column[k])
				r[j][k] += d
				for i := range column[k] {
					column[k][i] -= d * column[j][i]
				}
			}
		}
		r[k][k] = math.Sqrt(squares(column[k]))
		if r[k][k] <= 1e-14*size[k] {
			return x, false
		}
		for i := range column[k] {
			column[k][i] /= r[k][k]
		}
		y[k] = dot(column[k], right)
		for i := range right {
			right[i] -= y[k] * column[k][i]
		}
	}
	for k := 2; k >= 0; k-- {
		x[k] = y[k]
		for j := k + 1; j < 3; j++ {
			x[k] -= r[k][j] * x[j]
		}
		x[k] /= r[k][k]
	}
	return x, true
}

func dot(a, b []float64) (sum float64) {
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
