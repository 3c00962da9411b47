package trig

import (
	"math"
	"math/big"
)

// Atan is the angle in (−π/2, π/2) whose tangent is x; an infinity gives 0.
func Atan(x *big.Float) *big.Float {
	if x.IsInf() {
		return work(precOf(x))
	}
	return atan(x, precOf(x)+guard).SetPrec(precOf(x))
}

// atan starts from the float64 arc tangent y₀, whose sine and cosine are s and
// c; what is left, atan((x·c − s)/(c + x·s)), is below 2^-50 and takes a few
// terms of the series.
func atan(x *big.Float, w uint) *big.Float {
	if x.Sign() == 0 {
		return work(w)
	}
	if x.MantExp(nil) > 1 { // from ±2 on: a quarter turn less the arc tangent of the inverse
		a := Pi(w)
		a.SetMantExp(a, -1)
		if x.Sign() < 0 {
			a.Neg(a)
		}
		return a.Sub(a, atan(work(w).Quo(small(w, 1), x), w))
	}
	if x.MantExp(nil) < -50 {
		return atanSeries(work(w).Set(x), w)
	}
	w += guard // x·c − s cancels up to 54 bits
	f, _ := x.Float64()
	y := work(w).SetFloat64(math.Atan(f))
	s, c := sincos(y, w)
	t := work(w).Mul(x, c)
	t.Sub(t, s)
	t.Quo(t, c.Add(c, s.Mul(s, work(w).Set(x))))
	return y.Add(y, atanSeries(t, w))
}

// atanSeries is x − x³/3 + x⁵/5 − … for small x.
func atanSeries(x *big.Float, w uint) *big.Float {
	sum := work(w).Set(x)
	square := work(w).Mul(x, x)
	power, term := work(w).Set(x), work(w)
	for k := int64(3); power.Sign() != 0 && power.MantExp(nil) > sum.MantExp(nil)-int(w)-2; k += 2 {
		power.Mul(power, square)
		power.Neg(power)
		sum.Add(sum, term.Quo(power, small(w, k)))
	}
	return sum
}
