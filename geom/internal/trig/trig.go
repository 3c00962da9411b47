// Package trig has the circular functions of big.Float, which the standard
// library lacks: angles as somebody wrote them (35°, 1 in 12) are carried in
// it until the geometry has decided what depends on exactness.
//
// Every function takes its precision from its argument (256 bits where that is
// 0), works with at least 64 bits more, and is within 1 ulp of that precision,
// relative, also close to the zeros of sine, cosine and tangent. Arguments are
// radians of ordinary size (below 2^1000; time grows with the exponent); an
// infinity gives 0. The tests compare with mpmath.
package trig

import (
	"cmp"
	"math"
	"math/big"
	"sync"
)

// Prec is the precision taken where an argument states none.
const Prec uint = 256

// guard is the extra precision of the work: each function rounds fewer than
// 2^8 times and multiplies its error by fewer than 2^8.
const guard uint = 64

func precOf(x *big.Float) uint { return cmp.Or(x.Prec(), Prec) }

func work(prec uint) *big.Float { return new(big.Float).SetPrec(prec) }

func small(prec uint, n int64) *big.Float { return work(prec).SetInt64(n) }

// Tan is the tangent of x radians. (x is never exactly a quarter turn: that is
// irrational.)
func Tan(x *big.Float) *big.Float {
	p := precOf(x)
	s, c := sincos(x, p+guard)
	return work(p).Quo(s, c)
}

// SinCos is the sine and the cosine of x radians.
func SinCos(x *big.Float) (sin, cos *big.Float) {
	p := precOf(x)
	sin, cos = sincos(x, p+guard)
	return sin.SetPrec(p), cos.SetPrec(p)
}

// sincos works at precision w and returns both with relative errors of a few
// units of 2^-w times 2^8.
func sincos(x *big.Float, w uint) (sin, cos *big.Float) {
	if x.Sign() == 0 || x.IsInf() {
		return work(w), small(w, 1)
	}
	r, quadrant := reduce(x, w)
	sin, cos = core(r, w)
	switch quadrant {
	case 1:
		sin, cos = cos, sin.Neg(sin)
	case 2:
		sin, cos = sin.Neg(sin), cos.Neg(cos)
	case 3:
		sin, cos = cos.Neg(cos), sin
	}
	return sin, cos
}

// reduce takes whole quarter turns out of x: x = r + n·π/2 with |r| ≤ π/4 (and
// a hair), r with w good bits however close x is to a multiple.
func reduce(x *big.Float, w uint) (r *big.Float, quadrant int) {
	more := uint(max(0, x.MantExp(nil)))
	for {
		p := w + more + 8
		half := Pi(p)
		half.SetMantExp(half, -1)
		q := work(p).Quo(x, half)
		n, _ := q.Add(q, work(p).SetFloat64(float64(q.Sign())/2)).Int(nil)
		quadrant = int(new(big.Int).And(n, big.NewInt(3)).Int64())
		r = work(p).SetInt(n)
		r.Sub(work(max(p, x.Prec())).Set(x), r.Mul(r, half))
		lost := x.MantExp(nil) - r.MantExp(nil)
		if n.Sign() == 0 || r.Sign() != 0 && lost <= int(more) {
			return r.SetPrec(w), quadrant
		}
		if r.Sign() == 0 {
			lost = int(2 * p)
		}
		more = uint(lost) + 8
	}
}

// core is the sine and cosine of |r| < 1 by the series of v = 1 − cos at
// r/2^halvings and v → 2v(2−v) for each doubling, which never cancels.
func core(r *big.Float, w uint) (sin, cos *big.Float) {
	const halvings = 8
	if r.Sign() == 0 {
		return work(w), small(w, 1)
	}
	x := work(w).SetMantExp(r, -halvings)
	x.Mul(x, x) // (r/2^8)²
	term := work(w).SetMantExp(x, -1)
	v := work(w).Set(term)
	for k := int64(3); term.Sign() != 0 && term.MantExp(nil) > v.MantExp(nil)-int(w)-2; k += 2 {
		term.Mul(term, x)
		term.Quo(term, small(w, -k*(k+1)))
		v.Add(v, term)
	}
	two, rest := small(w, 2), work(w)
	for range halvings {
		rest.Sub(two, v)
		v.Mul(v, rest)
		v.SetMantExp(v, 1)
	}
	sin = work(w).Mul(v, rest.Sub(two, v))
	sin.Sqrt(sin)
	if r.Sign() < 0 {
		sin.Neg(sin)
	}
	return sin, work(w).Sub(small(w, 1), v)
}

// Sqrt is the square root of x, rounded to x's precision; x is not negative.
func Sqrt(x *big.Float) *big.Float { return work(precOf(x)).Sqrt(x) }

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

// stored is enough of π for any work here, reckoned once.
var stored = sync.OnceValue(func() *big.Int { return machin(1024) })

// Pi is π rounded to prec bits (256 where that is 0).
func Pi(prec uint) *big.Float {
	prec = cmp.Or(prec, Prec)
	n := stored()
	if prec+32 > 1024 {
		n = machin(prec + 32)
	}
	return work(prec).SetMantExp(work(prec).SetInt(n), 2-n.BitLen())
}

// machin is about π·2^(bits−2), by π = 16 atan(1/5) − 4 atan(1/239) (John Machin, 1706),
// each of whose terms is cut off by less than 1: good to bits − 16 for any size used.
func machin(bits uint) *big.Int {
	one := new(big.Int).Lsh(big.NewInt(1), bits-2)
	n, less := atanInverse(one, 5), atanInverse(one, 239)
	return n.Sub(n.Lsh(n, 4), less.Lsh(less, 2))
}

// atanInverse is one·atan(1/n).
func atanInverse(one *big.Int, n int64) *big.Int {
	power := new(big.Int).Quo(one, big.NewInt(n))
	square := big.NewInt(-n * n)
	sum, term := new(big.Int), new(big.Int)
	for k := int64(1); power.Sign() != 0; k += 2 {
		sum.Add(sum, term.Quo(power, big.NewInt(k)))
		power.Quo(power, square)
	}
	return sum
}
