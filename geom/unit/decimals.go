package unit

import (
	"strconv"
	"strings"
)

// Decimals writes x with at most n decimals.
func Decimals(x float64, n int) string {
	text := strconv.FormatFloat(x, 'f', n, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}
