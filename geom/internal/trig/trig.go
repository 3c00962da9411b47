// Package trig has the circular functions of big.Float, which the standard
// library lacks: angles as somebody wrote them (35°, 1 in 12) are carried in
// it until the geometry has decided what depends on exactness.
//
// Every function takes its precision from its argument (256 bits where that is
// 0), works with at least 64 bits more, and is within 1 ulp of that precision,
// relative, also close to the zeros of sine, cosine and tangent. Arguments are
// radians of ordinary size (below 2^1000; time grows with the exponent); an
// infinity gives 0. The tests compare with mpmath.
//
// Files, from the top floor to the ground: atan.go, trig.go, pi.go.
package trig

import "math/big"

// Prec is the precision taken where an argument states none.
const Prec uint = 256

// guard is the extra precision of the work: each function rounds fewer than
// 2^8 times and multiplies its error by fewer than 2^8.
const guard uint = 64

func precOf(x *big.Float) uint {
	if p := x.Prec(); p != 0 {
		return p
	}
	return Prec
}

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
		n, _ := q.Add(q, signed(p, q.Sign())).Int(nil)
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

// signed is ½ with the sign.
func signed(p uint, sign int) *big.Float {
	h := small(p, int64(sign))
	return h.SetMantExp(h, -1)
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
