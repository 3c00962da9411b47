//go:build othersoftware

package paste

import (
	"math"
	"math/cmplx"
	"slices"
	"testing"
)

// line through the pasted plane, found in the pictures.
type line struct {
	at, along complex128
	from, to  float64 // from its first to its last point, along it
	rms       float64 // of the points across it
	points    int
}

// wide is every place where the ink is too broad for a narrow line: the outline,
// and some letters.
func (s sheet) wide() (at []complex128) {
	const box = 5 // pixels: 0.42 mm, wider than the lines to cut along
	for j := 0; j+box <= s.h; j += 2 {
		for i := 0; i+box <= s.w; i++ {
			if s.dark[j*s.w+i] < 200 {
				continue
			}
			sum := 0
			for v := range box {
				for u := range box {
					sum += int(s.dark[(j+v)*s.w+i+u])
				}
			}
			if sum >= box*box*230 {
				at = append(at, s.put(complex(float64(i)+box/2, float64(j)+box/2)*mm))
			}
		}
	}
	return at
}

// sides of the triangle: the three longest straight lines of wide ink, found by
// votes on direction and distance, then measured.
func sides(t *testing.T, sheets []sheet) (found []line) {
	t.Helper()
	var ink []complex128
	for _, s := range sheets {
		ink = append(ink, s.wide()...)
	}
	const turns, bin, reach = 360, 2.0, 4000.0
	for range 3 {
		votes := make([]int32, turns*int(2*reach/bin))
		for i := 0; i < len(ink); i += 5 {
			for k := range turns {
				sin, cos := math.Sincos(float64(k) * math.Pi / turns)
				d := real(ink[i])*cos + imag(ink[i])*sin
				votes[k*int(2*reach/bin)+int((d+reach)/bin)]++
			}
		}
		best := 0
		for i, v := range votes {
			if v > votes[best] {
				best = i
			}
		}
		k, d := best/int(2*reach/bin), float64(best%int(2*reach/bin))*bin-reach+bin/2
		n := cmplx.Rect(1, float64(k)*math.Pi/turns)
		l := line{at: complex(d, 0) * n, along: n * 1i}
		for _, near := range []float64{8, 4, 2, 1, 0.5, 0.4} {
			l = fit(l.nearer(ink, near))
		}
		ink = slices.DeleteFunc(ink, func(z complex128) bool { return math.Abs(l.off(z)) < 1 })
		found = append(found, measure(sheets, l))
	}
	return found
}

func (l line) off(z complex128) float64 { return imag((z - l.at) * cmplx.Conj(l.along)) }

func (l line) nearer(all []complex128, than float64) (some []complex128) {
	for _, z := range all {
		if math.Abs(l.off(z)) < than {
			some = append(some, z)
		}
	}
	return some
}

// fit is the line with the least squares of distances from it.
func fit(points []complex128) (l line) {
	for _, z := range points {
		l.at += z
	}
	l.points = len(points)
	l.at /= complex(float64(l.points), 0)
	var square complex128
	for _, z := range points {
		square += (z - l.at) * (z - l.at)
	}
	l.along = cmplx.Sqrt(square)
	l.along /= complex(cmplx.Abs(l.along), 0)
	for _, z := range points {
		u := (z - l.at) * cmplx.Conj(l.along)
		l.from, l.to = min(l.from, real(u)), max(l.to, real(u))
		l.rms += imag(u) * imag(u)
	}
	l.rms = math.Sqrt(l.rms / float64(l.points))
	return l
}

// measure looks across the line twice in a millimetre on every page, takes the
// middle of the ink where it is one wide line alone, and fits all of them.
func measure(sheets []sheet, l line) line {
	const half = 0.7
	for range 3 {
		var points []complex128
		for _, s := range sheets {
			for u := l.from - 5; u <= l.to+5; u += 0.5 {
				z := l.at + complex(u, 0)*l.along
				off, wide, rim := s.across(s.back(z), l.along*1i*cmplx.Conj(s.turn), half)
				if wide > 0.42 && wide < 0.58 && rim < 0.02 {
					points = append(points, z+complex(off, 0)*l.along*1i)
				}
			}
		}
		l = fit(points)
		l = fit(l.nearer(points, max(3*l.rms, 0.02)))
	}
	return l
}

// meet is where two lines cross.
func meet(a, b line) complex128 {
	cross := func(u, v complex128) float64 { return imag(cmplx.Conj(u) * v) }
	return a.at + complex(cross(b.at-a.at, b.along)/cross(a.along, b.along), 0)*a.along
}
