package pdf

import (
	"math"
	"strconv"
	"unicode/utf16"
)

// places is how many decimals of a millimetre a coordinate has: 0.00005 mm off at
// most. number is the one way a number gets into a file.
const places = 4

// number appends v rounded to so many decimals: no exponent (ISO 32000-1, 7.3.3),
// no zeros or point at the end, and zero without a sign. v is finite.
func number(b []byte, v float64, decimals int) []byte {
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

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// text is a text string: plain where it is ASCII, else UTF-16 (ISO 32000-1, 7.9.2.2).
func text(s string) string {
	plain := []byte{'('}
	for _, r := range s {
		switch {
		case r == '(' || r == ')' || r == '\\':
			plain = append(plain, '\\', byte(r))
		case ' ' <= r && r <= '~':
			plain = append(plain, byte(r))
		default:
			return wide(s)
		}
	}
	return string(append(plain, ')'))
}

func wide(s string) string {
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = hex16(b, u)
	}
	return string(append(b, '>'))
}

func hex16(b []byte, u uint16) []byte {
	const digits = "0123456789ABCDEF"
	return append(b, digits[u>>12], digits[u>>8&15], digits[u>>4&15], digits[u&15])
}
