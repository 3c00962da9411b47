package pegging

import (
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Arcs of 5000 over a base of 6000, each with a standard deviation of 2: the apex
// is at (3000, 4000) with 2.35702 and 1.76777 (computed by variance propagation).
func TestCrossingSpreadsErrors(t *testing.T) {
	s := laidOut(t, "AB=6000 CA=5000 BC=5000", base("A", "B"))
	w := errorsOf(t, s, func(p Pull) float64 {
		if p.Use == ForArc {
			return 2
		}
		return 0
	})
	isNear(t, "σx", w.far(1e9, 4000), 2.35702, 1e-4)
	isNear(t, "σy", w.far(3000, 1e9), 1.76777, 1e-4)
}

// followed is a layout whose pulls have errors of a test's own.
type followed struct {
	n    trace
	apex geom.Name
}

func errorsOf(t *testing.T, s Layout, limit func(Pull) float64) followed {
	t.Helper()
	n := s.traceOf(s.Main)
	for i, p := range s.Pulls {
		n.limit[i] = limit(p)
	}
	return followed{n, s.Main[0].Peg}
}

// far is how far the apex is off in the direction of a place far away.
func (f followed) far(x, y unit.Length) unit.Length {
	f.n.mark("Z", nil, nil, func([]float64, places) geom.Point { return geom.Point{X: x, Y: y} })
	return f.n.carried("Z", f.apex)
}

// Directive 2014/32/EU, annex X (OIML R 35): a + b·L, L in metres rounded up; and 1 mm
// for nail and reading (common practice, no source) unless the tools say otherwise.
func TestLimitOfOnePull(t *testing.T) {
	for _, c := range []struct {
		tools tape.Tools
		l     unit.Length
		want  float64
	}{
		{tape.Tools{}, 5000, 2.3}, {tape.Tools{}, 10000, 3.3}, {tape.Tools{Reading: 2}, 10000, 4.3},
		{tape.Tools{Tape: tape.Tape{Class: tape.ClassIII, Hook: true}}, 10000, 5.9}, {tape.Tools{Tape: tape.Tape{Class: tape.ClassI}}, 1000, 1.2},
	} {
		s := laidOut(t, "AB=30000 CA=25000 BC=25000", func(in *Asked) { in.Tools = c.tools })
		isNear(t, "limit", s.Limit(c.l), c.want, 1e-12)
	}
}

// A 3-4-5 in metres with 1 mm a tape turns its right angle by 121.5″; twice as
// large, by half of that (computed).
func TestSquareTurns(t *testing.T) {
	square := OffsetSquare
	for u, want := range map[unit.Length]float64{1000: 121.5, 2000: 60.8} {
		s := laidOut(t, "AB=30000 CA=25000 BC=25000", func(in *Asked) { in.Method = &square; in.Base = [2]geom.Name{"A", "B"} })
		for i := range s.Pulls {
			if p := &s.Pulls[i]; p.Use == ForLeg {
				p.Length = []unit.Length{4, 3, 5}[i-s.Main[0].Pulls[0]] * u
			}
		}
		f := errorsOf(t, s, func(p Pull) float64 {
			if p.Use == ForLeg {
				return 1
			}
			return 0
		})
		c, _ := s.Peg("C")
		h := c.Offset
		if got := math.Atan(float64(f.far(1e9, h)/h)) * 180 / math.Pi * 3600; math.Abs(got-want) > 0.06 {
			t.Errorf("unit %v: %.2f″, want %v″", u, got, want)
		}
	}
}

// laidOut sets out the triangle of tokens.
func laidOut(t testing.TB, tokens string, change func(*Asked)) Layout {
	t.Helper()
	var n net.Net
	for _, token := range strings.Fields(tokens) {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		n.Measured = append(n.Measured, m)
	}
	a, err := net.Adjust(n)
	if err != nil {
		t.Fatal(err)
	}
	in := Asked{Net: a}
	change(&in)
	l, err := SetOut(in)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func base(a, b geom.Name) func(*Asked) {
	return func(in *Asked) { in.Base = [2]geom.Name{a, b} }
}

func isNear(t *testing.T, what string, got unit.Length, want, within float64) {
	t.Helper()
	if !(math.Abs(got.MM()-want) <= within) {
		t.Errorf("%s is %.5f, want %.5f ± %g", what, got.MM(), want, within)
	}
}
