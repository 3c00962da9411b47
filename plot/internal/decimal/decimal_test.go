package decimal

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

func TestAppend(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{0, 4, "0"},
		{math.Copysign(0, -1), 4, "0"},
		{-0.00004, 4, "0"},
		{-0.00006, 4, "-0.0001"},
		{99.9999996, 4, "100"}, // the carry that another writer of numbers loses
		{999.99996, 4, "1000"},
		{0.5, 4, "0.5"},
		{100, 4, "100"},
		{100, 0, "100"},
		{-10, 0, "-10"},
		{-0.4, 0, "0"},
		{5080.12345, 4, "5080.1235"},
		{1e21, 4, "1000000000000000000000"}, // ISO 32000-1, 7.3.3: no exponents
		{1e-9, 4, "0"},
		{1e-9, 10, "0.000000001"},
	} {
		if got := string(Append([]byte("x"), c.v, c.decimals)); got != "x"+c.want {
			t.Errorf("%v to %d places: %s, want x%s", c.v, c.decimals, got, c.want)
		}
	}
}

// FuzzAppend: whatever the number, it is written in digits alone and reads back
// within half of its last place.
func FuzzAppend(f *testing.F) {
	for _, v := range []float64{0, 1, -1, 99.99995, 0.00005, 1e300, 5e-324, 123456.789} {
		f.Add(v)
	}
	f.Fuzz(func(t *testing.T, v float64) {
		if !Finite(v) {
			return
		}
		s := string(Append(nil, v, 4))
		back, err := strconv.ParseFloat(s, 64)
		if err != nil || math.Abs(back-v) > 0.00005+math.Abs(v)*1e-15 {
			t.Errorf("%v is written %q", v, s)
		}
		if strings.Trim(s, "-0123456789.") != "" || s == "-0" || strings.HasSuffix(s, ".") ||
			strings.Contains(s, ".") && strings.HasSuffix(s, "0") {
			t.Errorf("%v is written %q", v, s)
		}
	})
}

func TestFinite(t *testing.T) {
	for v, want := range map[float64]bool{0: true, -1e300: true, math.Inf(1): false, math.Inf(-1): false, math.NaN(): false} {
		if Finite(v) != want {
			t.Errorf("Finite(%v) is %t", v, !want)
		}
	}
}
