// Package decimal is the one way in which a number gets into a file.
package decimal

import (
	"math"
	"strconv"
)

// Append appends v rounded to so many decimals, to the nearest: no exponent, no
// zeros or point at the end, and zero without a sign. v must be Finite.
func Append(b []byte, v float64, decimals int) []byte {
	start := len(b)
	b = strconv.AppendFloat(b, v, 'f', decimals, 64)
	if decimals > 0 {
		for b[len(b)-1] == '0' {
			b = b[:len(b)-1]
		}
		if b[len(b)-1] == '.' {
			b = b[:len(b)-1]
		}
	}
	if len(b) == start+2 && b[start] == '-' && b[start+1] == '0' {
		b = append(b[:start], '0')
	}
	return b
}

// Finite says whether v is a number.
func Finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
