package triangle

import (
	"math/big"

	"trammel/geom/internal/trig"
)

// precision of what is irrational. It leaves 25 digits in the height of a
// triangle as flat as sameBits lets pass.
const precision uint = 256

// sameBits: two numbers of which one is irrational count as equal when they
// agree to 2^-166, about 50 digits. Rounding leaves 75 digits and nobody writes
// a measurement of 25 digits, so that numbers which differ as written differ
// here, and numbers which are equal by a theorem (b·sin A = a where
// A = atan 3/4) are found equal.
const sameBits = 166

// exactBits is where a rational grown by arithmetic becomes a float: only text
// of hundreds of digits gets there.
const exactBits = 1 << 14

// number is exact while it can be: a rational, else a float of 256 bits. One of
// the two is set. Numbers never change.
type number struct {
	rat *big.Rat
	flt *big.Float
}

func exact(r *big.Rat) number {
	if r.Num().BitLen() > exactBits || r.Denom().BitLen() > exactBits {
		return number{flt: blank().SetRat(r)}
	}
	return number{rat: r}
}

func whole(n int64) number { return number{rat: new(big.Rat).SetInt64(n)} }

func fromFloat(f float64) number { return number{rat: new(big.Rat).SetFloat64(f)} }

func blank() *big.Float { return new(big.Float).SetPrec(precision) }

// float is x at 256 bits, not to be written to.
func (x number) float() *big.Float {
	if x.rat != nil {
		return blank().SetRat(x.rat)
	}
	return x.flt
}

// float64 rounds, once.
func (x number) float64() float64 {
	if x.rat != nil {
		f, _ := x.rat.Float64()
		return f
	}
	f, _ := x.flt.Float64()
	return f
}

func (x number) sign() int {
	if x.rat != nil {
		return x.rat.Sign()
	}
	return x.flt.Sign()
}

func (x number) neg() number {
	if x.rat != nil {
		return number{rat: new(big.Rat).Neg(x.rat)}
	}
	return number{flt: blank().Neg(x.flt)}
}

// joined is exact where both are rational.
func joined(x, y number, rat func(z, x, y *big.Rat) *big.Rat, flt func(z, x, y *big.Float) *big.Float) number {
	if x.rat != nil && y.rat != nil {
		return exact(rat(new(big.Rat), x.rat, y.rat))
	}
	return number{flt: flt(blank(), x.float(), y.float())}
}

func (x number) plus(y number) number  { return joined(x, y, (*big.Rat).Add, (*big.Float).Add) }
func (x number) minus(y number) number { return joined(x, y, (*big.Rat).Sub, (*big.Float).Sub) }

func (x number) times(y number) number {
	if x.sign() == 0 || y.sign() == 0 {
		return whole(0)
	}
	return joined(x, y, (*big.Rat).Mul, (*big.Float).Mul)
}

// over is x/y; y is not zero.
func (x number) over(y number) number { return joined(x, y, (*big.Rat).Quo, (*big.Float).Quo) }

func (x number) half() number   { return x.over(whole(2)) }
func (x number) double() number { return x.times(whole(2)) }
func (x number) square() number { return x.times(x) }

// root is the square root, exact where x is the square of a rational. Of a
// negative it is 0: what is below zero by rounding alone.
func (x number) root() number {
	if x.sign() <= 0 {
		return whole(0)
	}
	if x.rat != nil {
		n, d := new(big.Int).Sqrt(x.rat.Num()), new(big.Int).Sqrt(x.rat.Denom())
		if r := new(big.Rat).SetFrac(n, d); new(big.Rat).Mul(r, r).Cmp(x.rat) == 0 {
			return number{rat: r}
		}
	}
	return number{flt: trig.Sqrt(x.float())}
}

// cmp compares: exactly where both are rational, else to 2^-166.
func (x number) cmp(y number) int {
	if x.rat != nil && y.rat != nil {
		return x.rat.Cmp(y.rat)
	}
	a, b := x.float(), y.float()
	d := blank().Sub(a, b)
	if d.Sign() == 0 {
		return 0
	}
	if size := max(exponent(a), exponent(b)); d.MantExp(nil) <= size-sameBits {
		return 0
	}
	return d.Sign()
}

// exponent of a float, very small for 0.
func exponent(f *big.Float) int {
	if f.Sign() == 0 {
		return big.MinExp
	}
	return f.MantExp(nil)
}

// corner is an angle strictly between 0° and 180° as the formulas need it.
type corner struct {
	degrees  *big.Rat // where known exactly
	sin, cos number
}

var (
	straight   = big.NewRat(180, 1)
	rightAngle = big.NewRat(90, 1)
)

// cornerOf degrees between 0 and 180. By Niven's theorem the sine or cosine of
// a rational number of degrees in this range is rational only at the multiples
// of 30° that are picked out here (I. Niven, Irrational Numbers, 1956, cor. 3.12).
func cornerOf(degrees *big.Rat) corner {
	c := corner{degrees: degrees}
	acute := degrees
	obtuse := degrees.Cmp(rightAngle) > 0
	if obtuse {
		acute = new(big.Rat).Sub(straight, degrees)
	}
	s, k := trig.SinCos(radians(acute))
	c.sin, c.cos = number{flt: s}, number{flt: k}
	if acute.IsInt() && acute.Num().IsInt64() {
		switch acute.Num().Int64() {
		case 30:
			c.sin = exact(big.NewRat(1, 2))
		case 60:
			c.cos = exact(big.NewRat(1, 2))
		case 90:
			c.sin, c.cos = whole(1), whole(0)
		}
	}
	if obtuse {
		c.cos = c.cos.neg()
	}
	return c
}

// radians of exact degrees.
func radians(degrees *big.Rat) *big.Float {
	r := trig.Pi(precision)
	r.Mul(r, blank().SetRat(degrees))
	return r.Quo(r, blank().SetInt64(180))
}

// fromSine is the acute (or right) angle with the sine s, 0 < s ≤ 1, or the obtuse one.
func fromSine(s number, obtuse bool) corner {
	one := whole(1)
	k := one.minus(s).times(one.plus(s)).root()
	if obtuse {
		k = k.neg()
	}
	return corner{sin: s, cos: k}
}

// third is 180° less the two, false where they make 180° or more.
func third(a, b corner) (corner, bool) {
	if a.degrees != nil && b.degrees != nil {
		d := new(big.Rat).Add(a.degrees, b.degrees)
		if d.Cmp(straight) >= 0 {
			return corner{}, false
		}
		return cornerOf(d.Sub(straight, d)), true
	}
	x, y := a.sin.times(b.cos), a.cos.times(b.sin)
	if x.cmp(y.neg()) <= 0 { // sin(a+b) ≤ 0
		return corner{}, false
	}
	return corner{sin: x.plus(y), cos: a.sin.times(b.sin).minus(a.cos.times(b.cos))}, true
}

// lessCos is 1 − cos = 2 sin²(½), without cancelling.
func (c corner) lessCos() number {
	if c.cos.rat == nil && c.cos.sign() > 0 {
		return c.sin.square().over(whole(1).plus(c.cos))
	}
	return whole(1).minus(c.cos)
}

// moreCos is 1 + cos, without cancelling.
func (c corner) moreCos() number {
	if c.cos.rat == nil && c.cos.sign() < 0 {
		return c.sin.square().over(whole(1).minus(c.cos))
	}
	return whole(1).plus(c.cos)
}
