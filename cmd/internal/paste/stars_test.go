//go:build othersoftware

package paste

import (
	"math"
	"math/cmplx"
	"slices"
)

// side of a page.
type side int

const (
	left side = iota
	right
	top
	bottom
)

func (s side) opposite() side { return [4]side{right, left, bottom, top}[s] }

// stars finds the match marks on a picture and puts them to the sides of the page
// that they join, each in order along the join.
func (p picture) stars() (at [4][]complex128) {
	var found []complex128
	far := func(z complex128) bool {
		return !slices.ContainsFunc(found, func(o complex128) bool { return cmplx.Abs(z-o) < 1 })
	}
	rays := newRays(p.w)
	room := int(math.Ceil(rayFar / mm))
	for j := room; j < p.h-room; j++ {
		for i := room; i < p.w-room; i++ {
			if k := j*p.w + i; p.dark[k] < 128 || !rays.star(p.dark, k) {
				continue
			}
			if z := complex((float64(i)+0.5)*mm, (float64(j)+0.5)*mm); far(z) {
				if z = p.centre(z); far(z) {
					found = append(found, z)
				}
			}
		}
	}
	for _, z := range found {
		s := p.sideOf(z)
		at[s] = append(at[s], z)
	}
	for s := range at {
		slices.SortFunc(at[s], func(a, b complex128) int {
			if side(s) == left || side(s) == right {
				a, b = complex(imag(a), 0), complex(imag(b), 0)
			}
			return int(math.Copysign(1, real(a)-real(b)))
		})
	}
	return at
}

const rayFar = 3.2 // mm; arms reach 4 mm across and a little less on the slant

// rays are steps from a pixel to others: along the slanting arms, between the
// arms, and along the two that may be the arm across.
type rays struct{ slant, between, level, upright []int }

func newRays(width int) (r rays) {
	step := func(reach, degrees float64) int {
		z := cmplx.Rect(reach/mm, degrees*math.Pi/180)
		return int(math.Round(imag(z)))*width + int(math.Round(real(z)))
	}
	for _, reach := range []float64{1, 1.6, 2.4, rayFar} {
		for q := 0.0; q < 360; q += 90 {
			r.slant = append(r.slant, step(reach, q+45))
			if reach > 1.5 {
				r.between = append(r.between, step(reach, q+22.5), step(reach, q+67.5))
			}
		}
		r.level = append(r.level, step(reach, 0), step(reach, 180))
		r.upright = append(r.upright, step(reach, 90), step(reach, 270))
	}
	return r
}

func (r rays) star(dark []uint8, k int) bool {
	all := func(steps []int, is bool) bool {
		for _, s := range steps {
			if (dark[k+s] > 100) != is {
				return false
			}
		}
		return true
	}
	return all(r.slant, true) && all(r.between, false) && (all(r.level, true) || all(r.upright, true))
}

// centre of a star: where its two slanting arms cross. The arm across would do as
// well on paper, but renderers push level and upright lines to whole pixels.
func (p picture) centre(z complex128) complex128 {
	for range 4 {
		for _, arm := range []complex128{cmplx.Rect(1, math.Pi/4), cmplx.Rect(1, 3*math.Pi/4)} {
			n := arm * 1i
			sum, count := 0.0, 0.0
			for reach := 1.1; reach <= 3.4; reach += 0.04 {
				for _, s := range []float64{-reach, reach} {
					off, _, _ := p.across(z+complex(s, 0)*arm, n, 0.45)
					sum, count = sum+off, count+1
				}
			}
			z += complex(sum/count, 0) * n
		}
	}
	return z
}

// sideOf tells by the line that the star stands on, which runs on beyond the star as the arm across
// does not, whether the join stands or lies, and by the place which of the two.
func (p picture) sideOf(z complex128) side {
	line := func(arm complex128) (dark float64) {
		for s := 4.4; s < 7; s += 0.05 { // so far that a line across it counts for little
			_, a, _ := p.across(z+complex(s, 0)*arm, arm*1i, 0.3)
			_, b, _ := p.across(z-complex(s, 0)*arm, arm*1i, 0.3)
			dark += a + b
		}
		return dark
	}
	if line(1i) > line(1) {
		if real(z) < float64(p.w)*mm/2 {
			return left
		}
		return right
	}
	if imag(z) < float64(p.h)*mm/2 {
		return top
	}
	return bottom
}
