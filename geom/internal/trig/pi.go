package trig

import "math/big"

// piBits holds floor(π·2^1022): 1024 bits, more than any work here needs.
// Made by: python3 -c "from mpmath import *; mp.prec=1200; print(hex(int(floor(pi*mpf(2)**1022))))"
// The test computes it again by Machin's formula.
const piBits = "" +
	"\xc9\x0f\xda\xa2\x21\x68\xc2\x34\xc4\xc6\x62\x8b\x80\xdc\x1c\xd1" +
	"\x29\x02\x4e\x08\x8a\x67\xcc\x74\x02\x0b\xbe\xa6\x3b\x13\x9b\x22" +
	"\x51\x4a\x08\x79\x8e\x34\x04\xdd\xef\x95\x19\xb3\xcd\x3a\x43\x1b" +
	"\x30\x2b\x0a\x6d\xf2\x5f\x14\x37\x4f\xe1\x35\x6d\x6d\x51\xc2\x45" +
	"\xe4\x85\xb5\x76\x62\x5e\x7e\xc6\xf4\x4c\x42\xe9\xa6\x37\xed\x6b" +
	"\x0b\xff\x5c\xb6\xf4\x06\xb7\xed\xee\x38\x6b\xfb\x5a\x89\x9f\xa5" +
	"\xae\x9f\x24\x11\x7c\x4b\x1f\xe6\x49\x28\x66\x51\xec\xe4\x5b\x3d" +
	"\xc2\x00\x7c\xb8\xa1\x63\xbf\x05\x98\xda\x48\x36\x1c\x55\xd3\x9a"

// Pi is π rounded to prec bits (256 where that is 0).
func Pi(prec uint) *big.Float {
	if prec == 0 {
		prec = Prec
	}
	const stored = 1024
	n := new(big.Int)
	if prec+32 <= stored {
		n.SetBytes([]byte(piBits))
	} else {
		n = machin(prec + 32)
	}
	return work(prec).SetMantExp(work(prec).SetInt(n), 2-n.BitLen())
}

// machin is about π·2^(bits−2), by π = 16 atan(1/5) − 4 atan(1/239) (John Machin, 1706),
// each of whose terms is cut off by less than 1: good to bits − 16 for any size used.
func machin(bits uint) *big.Int {
	one := new(big.Int).Lsh(big.NewInt(1), bits-2)
	a, b := atanInverse(one, 5), atanInverse(one, 239)
	a.Lsh(a, 4)
	return a.Sub(a, b.Lsh(b, 2))
}

// atanInverse is one·atan(1/n).
func atanInverse(one *big.Int, n int64) *big.Int {
	power := new(big.Int).Div(one, big.NewInt(n))
	square := big.NewInt(n * n)
	sum, term := new(big.Int), new(big.Int)
	for k, sign := int64(1), 1; power.Sign() != 0; k, sign = k+2, -sign {
		term.Div(power, big.NewInt(k))
		if sign > 0 {
			sum.Add(sum, term)
		} else {
			sum.Sub(sum, term)
		}
		power.Div(power, square)
	}
	return sum
}
