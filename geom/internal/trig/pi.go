package trig

import (
	"math/big"
	"sync"
)

// stored is enough of π for any work here, reckoned once.
var stored = sync.OnceValue(func() *big.Int { return machin(1024) })

// Pi is π rounded to prec bits (256 where that is 0).
func Pi(prec uint) *big.Float {
	if prec == 0 {
		prec = Prec
	}
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
