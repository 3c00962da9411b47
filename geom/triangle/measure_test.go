package triangle

import (
	"math/big"
	"strings"
	"testing"

	"trammel/geom"
)

// measure reads "AB=640 C-AB=358.5+-1 A=52deg" in millimetres and degrees,
// exactly, and no more than the tests here need: the solver is tested apart
// from the reader.
func measure(t testing.TB, text string) []Measurement {
	t.Helper()
	var ms []Measurement
	for _, token := range strings.Fields(text) {
		what, value, ok := strings.Cut(token, "=")
		if !ok {
			t.Fatalf("%q has no =", token)
		}
		m := Measurement{Text: token}
		value, tolerance, stated := strings.Cut(value, "+-")
		m.Value.Text, m.Value.Stated = value, stated
		number, angle := strings.CutSuffix(value, "deg")
		m.Value.Bare = !angle
		m.Value.Value, ok = new(big.Rat).SetString(number)
		if !ok {
			t.Fatalf("%q is not a number", number)
		}
		if stated {
			m.Value.Tolerance, ok = new(big.Rat).SetString(strings.TrimSuffix(tolerance, "deg"))
		} else {
			_, decimals, _ := strings.Cut(number, ".")
			m.Value.Tolerance = big.NewRat(1, 2)
			for range decimals {
				m.Value.Tolerance.Mul(m.Value.Tolerance, big.NewRat(1, 10))
			}
		}
		if !ok {
			t.Fatalf("%q is not a tolerance", tolerance)
		}
		from, base, height := strings.Cut(what, "-")
		names := points(from + base)
		switch {
		case height:
			m.Kind = Height
			copy(m.At[:], names)
		case angle && len(names) == 1:
			m.Kind = Angle
			m.At[1] = names[0]
		case angle:
			m.Kind = Angle
			copy(m.At[:], names)
		default:
			copy(m.At[:], names)
		}
		ms = append(ms, m)
	}
	return ms
}

// points splits "ABK2" into A, B, K2.
func points(s string) (names []geom.Name) {
	for i, r := range s {
		if r >= '0' && r <= '9' && i > 0 {
			names[len(names)-1] += geom.Name(r)
		} else {
			names = append(names, geom.Name(r))
		}
	}
	return names
}

func solved(t testing.TB, text string, base ...geom.Name) Solution {
	t.Helper()
	var b [2]geom.Name
	copy(b[:], base)
	s, err := Solve(measure(t, text), b)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return s
}

// get finds a figure of a triangle by what it is called: "AB", "A", "C-AB".
func get(t testing.TB, tri Triangle, what string) float64 {
	t.Helper()
	from, base, height := strings.Cut(what, "-")
	n := points(from + base)
	for i, name := range tri.Names {
		switch {
		case height && name == n[0]:
			return tri.Heights[i].MM()
		case len(n) == 1 && name == n[0]:
			return tri.Angles[i].Degrees()
		case len(n) == 2 && name != n[0] && name != n[1]:
			return tri.Sides[i].MM()
		}
	}
	t.Fatalf("no %s in %v", what, tri.Names)
	return 0
}
