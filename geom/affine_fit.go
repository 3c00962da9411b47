package geom

import (
	"errors"
	"math"
	"slices"

	"trammel/geom/unit"
)

// Span is one length that was printed and then measured on the paper.
type Span struct {
	Over  Point       // from end to end as the file has it
	Found unit.Length // as measured
	Step  unit.Length // to which it was read: it is within half of this
	Noise unit.Length // of the hand and the eye besides, one standard deviation
}

// weighs is the square by whose inverse a span counts: twelve times the variance of
// its rounding and its noise.
func (s Span) weighs() float64 { return float64(s.Step*s.Step + 12*s.Noise*s.Noise) }

// Fit is the distortion that agrees best with measured spans.
type Fit struct {
	Distortion
	Left []unit.Length // of each span: what the fit says less what was measured
	gain [][3]float64  // of each span: by how much across, along and skew go for 1 mm
	of   []Span
}

var errUnfixed = errors.New("the lengths do not fix the scale across, the scale along and the skew")

// FitDistortion is the least-squares fit of a distortion to spans, each weighted
// by its step and its noise. They must lie in three directions at least. By Gauss and Newton
// from no distortion; for distortions of some per cent it has settled to 1e-15
// after five rounds.
func FitDistortion(spans []Span) (Fit, error) {
	f := Fit{of: spans}
	x := [3]float64{1, 1, 0} // scale across, scale along, skew
	for range 8 {
		rows, off := make([][3]float64, len(spans)), make([]float64, len(spans))
		for i, s := range spans {
			rows[i], off[i] = s.row(x)
			off[i] = float64(s.Found) - off[i]
		}
		var ok bool
		if f.gain, ok = solveNormal(rows, spans); !ok {
			return Fit{}, errUnfixed
		}
		for i := range spans {
			for k := range x {
				x[k] += f.gain[i][k] * off[i]
			}
		}
	}
	if !(x[0] > 0.1 && x[1] > 0.1 && math.Abs(x[2]) < 1) {
		return Fit{}, errUnfixed
	}
	f.Distortion = Distortion{x[0] - 1, x[1] - 1, unit.Angle(x[2])}
	for _, s := range spans {
		_, l := s.row(x)
		f.Left = append(f.Left, unit.Length(l)-s.Found)
	}
	return f, nil
}

// row is the span's printed length and how it changes with the three unknowns.
func (s Span) row(x [3]float64) (row [3]float64, length float64) {
	u, v := float64(s.Over.X), float64(s.Over.Y)
	sin, cos := math.Sincos(x[2])
	length = math.Sqrt(x[0]*x[0]*u*u + x[1]*x[1]*v*v - 2*x[0]*x[1]*u*v*sin)
	return [3]float64{
		(x[0]*u*u - x[1]*u*v*sin) / length,
		(x[1]*v*v - x[0]*u*v*sin) / length,
		-x[0] * x[1] * u * v * cos / length,
	}, length
}

// solveNormal is by how much each span's misfit moves the unknowns: (JᵀWJ)⁻¹JᵀW.
func solveNormal(rows [][3]float64, spans []Span) (gain [][3]float64, ok bool) {
	var n [3][3]float64
	for i, r := range rows {
		w := 1 / spans[i].weighs()
		for a := range 3 {
			for b := range 3 {
				n[a][b] += w * r[a] * r[b]
			}
		}
	}
	cofactor := func(a, b int) float64 {
		i, j, k, l := (a+1)%3, (a+2)%3, (b+1)%3, (b+2)%3
		return n[i][k]*n[j][l] - n[i][l]*n[j][k]
	}
	det := n[0][0]*cofactor(0, 0) + n[0][1]*cofactor(0, 1) + n[0][2]*cofactor(0, 2)
	// Of lengths in fewer than three directions nothing but rounding is left.
	if !(det > 1e-9*n[0][0]*n[1][1]*n[2][2]) {
		return nil, false
	}
	gain = make([][3]float64, len(rows))
	for i, r := range rows {
		w := 1 / spans[i].weighs()
		for a := range 3 {
			for b := range 3 {
				gain[i][a] += w * r[b] * cofactor(b, a) / det
			}
		}
	}
	return gain, true
}

// Uncertainty is what 95 of 100 such fits stay below: the most by which any length
// on the corrected page is wrong, of its length, when every span is off by
// anything within half its step and by its noise, which is normal. It is found by
// trying 20 000 sets of errors spread evenly (R. D. Richtmyer's sequence: multiples
// of square roots of primes, from memory), which holds it to 1 % of itself; the same
// spans give the same figure.
func (f Fit) Uncertainty() float64 {
	const tries = 20000
	primes := [...]float64{2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89}
	others := [...]float64{97, 101, 103, 107, 109, 113, 127, 131, 137, 139, 149, 151, 157, 163, 167, 173, 179, 181, 191, 193, 197, 199, 211, 223}
	spread := func(t, i int, of [24]float64) float64 {
		_, share := math.Modf(float64(t+1) * math.Sqrt(of[i%len(of)]+float64(i/len(of))*100))
		return 2*share - 1
	}
	worst := make([]float64, tries)
	for t := range worst {
		var e [3]float64
		for i, g := range f.gain {
			off := spread(t, i, primes) * float64(f.of[i].Step) / 2
			if noise := float64(f.of[i].Noise); noise > 0 {
				off += math.Sqrt2 * math.Erfinv(spread(t, i, others)) * noise
			}
			for k := range e {
				e[k] += g[k] * off
			}
		}
		worst[t] = Distortion{e[0], e[1], unit.Angle(e[2])}.Worst()
	}
	slices.Sort(worst)
	return worst[tries*95/100]
}

// Closing is by how much either diagonal of a parallelogram is too long for its
// sides, the other diagonal being as measured: the two diagonals' squares add up
// to those of the four sides. Whatever a printer does to a rectangle evenly leaves
// this at 0.
func Closing(width, height, first, second unit.Length) unit.Length {
	w, h, p, q := float64(width), float64(height), float64(first), float64(second)
	return unit.Length((p*p + q*q - 2*(w*w+h*h)) / (p + q))
}
