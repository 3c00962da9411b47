package trig

import (
	"bufio"
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"
)

// exact reads "mantissa p exponent".
func exact(t *testing.T, s string) *big.Float {
	t.Helper()
	m, e, _ := strings.Cut(s, "p")
	n, ok := new(big.Int).SetString(m, 10)
	exp, err := strconv.Atoi(e)
	if !ok || err != nil {
		t.Fatalf("bad argument %q", s)
	}
	x := new(big.Float).SetPrec(256).SetInt(n)
	return x.SetMantExp(x, exp)
}

// near says whether got is within 1 ulp of its own precision of want.
func near(got, want *big.Float) bool {
	d := new(big.Float).SetPrec(700).Sub(want, got)
	if d.Sign() == 0 {
		return true
	}
	return d.MantExp(nil) <= want.MantExp(nil)-int(got.Prec())
}

// Every value of testdata/table.txt, made by mpmath (testdata/table.py).
func TestAgainstMpmath(t *testing.T) {
	file, err := os.Open("testdata/table.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines := 0
	for in := bufio.NewScanner(file); in.Scan(); lines++ {
		f := strings.Fields(in.Text())
		if f[0] == "pi" {
			bits, _ := strconv.Atoi(f[1])
			want, _ := new(big.Int).SetString(f[2], 16)
			got := Pi(uint(bits) + 40) // 40 more, so that the cut digits are right
			got.SetMantExp(got, bits)
			if n, _ := got.Int(nil); n.Cmp(want) != 0 {
				t.Errorf("pi to %d bits: %x, want %x", bits, n, want)
			}
			continue
		}
		want, _, err := big.ParseFloat(f[len(f)-1], 10, 330, big.ToNearestEven)
		if err != nil {
			t.Fatal(err)
		}
		x := exact(t, f[1])
		var got *big.Float
		switch f[0] {
		case "sin":
			got, _ = SinCos(x)
		case "cos":
			_, got = SinCos(x)
		case "tan":
			got = Tan(x)
		case "atan":
			got = Atan(x)
		default:
			t.Fatalf("line %q", in.Text())
		}
		if got.Prec() != 256 || !near(got, want) {
			t.Errorf("%s: got %.80g", in.Text(), got)
		}
	}
	if lines < 250 {
		t.Fatalf("only %d lines in the table", lines)
	}
}

// Pi of any precision is that of 2000 bits, rounded; the table has its digits by mpmath.
func TestPiStoredAndComputed(t *testing.T) {
	long := Pi(2000)
	for _, prec := range []uint{1, 2, 53, 64, 256, 700, 992, 993} {
		if got, want := Pi(prec), work(prec).Set(long); got.Cmp(want) != 0 || got.Prec() != prec {
			t.Errorf("Pi(%d) = %v, want %v", prec, got, want)
		}
	}
	if got := Pi(0).Prec(); got != 256 {
		t.Errorf("Pi(0) has %d bits, want 256", got)
	}
}

// Arguments are left as they were, and the precision of the result is theirs.
func TestArgumentsUntouched(t *testing.T) {
	for _, p := range []uint{0, 24, 53, 113, 500} {
		x := new(big.Float).SetPrec(p)
		if p != 0 {
			x.SetFloat64(2.5)
		}
		before := new(big.Float).Copy(x)
		s, c := SinCos(x)
		for i, got := range []*big.Float{s, c, Tan(x), Atan(x), Sqrt(x)} {
			if want := max(p, Prec*b(p == 0)); got.Prec() != want {
				t.Errorf("function %d of %d bits gives %d bits", i, p, got.Prec())
			}
		}
		if x.Cmp(before) != 0 || x.Prec() != before.Prec() {
			t.Errorf("argument changed to %v", x)
		}
	}
}

func b(yes bool) uint {
	if yes {
		return 1
	}
	return 0
}

// √2 to 60 digits: OEIS A002193.
func TestSqrt(t *testing.T) {
	want, _, _ := big.ParseFloat("1.41421356237309504880168872420969807856967187537694807317668", 10, 300, big.ToNearestEven)
	if d := work(300).Sub(Sqrt(small(256, 2)), want); d.MantExp(nil) > -190 {
		t.Errorf("√2 is off by %v", d)
	}
}

func BenchmarkSinCos(b *testing.B) {
	x := work(256).SetFloat64(0.61)
	for b.Loop() {
		SinCos(x)
	}
}

func BenchmarkAtan(b *testing.B) {
	x := work(256).SetFloat64(0.61)
	for b.Loop() {
		Atan(x)
	}
}
