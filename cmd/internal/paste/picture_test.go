//go:build othersoftware

package paste

import (
	"image"
	"image/draw"
	"image/png"
	"math"
	"math/cmplx"
	"os"
	"testing"
)

// A place on a picture or in the pasted plane is a complex number: millimetres to
// the right and, as pictures have it, down. To turn it is to multiply it.

// dpi of the pictures: a narrow line is three pixels wide.
const (
	dpi = 300
	mm  = 25.4 / dpi // a pixel
)

// picture is a page as it came off the printer: what is dark, 0 to 255.
type picture struct {
	w, h int
	dark []uint8
}

func readPicture(t *testing.T, file string) picture {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	b := in.Bounds()
	g := image.NewGray(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(g, g.Rect, in, b.Min, draw.Src)
	p := picture{w: b.Dx(), h: b.Dy(), dark: g.Pix}
	for i := range p.dark {
		p.dark[i] = 255 - p.dark[i]
	}
	return p
}

// at is the darkness at a place, 0 to 1, linear between the middles of pixels;
// beside the paper there is none.
func (p picture) at(z complex128) float64 {
	x, y := real(z)/mm-0.5, imag(z)/mm-0.5
	i, j := int(math.Floor(x)), int(math.Floor(y))
	if i < 0 || j < 0 || i+1 >= p.w || j+1 >= p.h {
		return 0
	}
	u, v := x-float64(i), y-float64(j)
	k := j*p.w + i
	a, b := float64(p.dark[k]), float64(p.dark[k+1])
	c, d := float64(p.dark[k+p.w]), float64(p.dark[k+p.w+1])
	return ((a+(b-a)*u)*(1-v) + (c+(d-c)*u)*v) / 255
}

// across looks along n to both sides of z: the centroid of what is dark, how
// wide it is, and the darkest at the two ends, where there should be none.
func (p picture) across(z, n complex128, half float64) (off, wide, rim float64) {
	const step, ends = 0.02, 0.1
	for s := -half; s <= half; s += step {
		d := p.at(z + complex(s, 0)*n)
		off += s * d * step
		wide += d * step
		if math.Abs(s) > half-ends {
			rim = max(rim, d)
		}
	}
	if wide > 0 {
		off /= wide
	}
	return off, wide, rim
}

// laid is the picture as an unsteady hand lays it: turned about its middle and
// shifted, on a ground that is white.
func (p picture) laid(turn float64, shift complex128) picture {
	out := picture{w: p.w, h: p.h, dark: make([]uint8, len(p.dark))}
	middle := complex(float64(p.w)*mm/2, float64(p.h)*mm/2)
	back := cmplx.Rect(1, -turn)
	for j := range p.h {
		z := (complex(mm/2, (float64(j)+0.5)*mm)-middle-shift)*back + middle
		for i := range p.w {
			if d := p.at(z); d > 0 {
				out.dark[j*p.w+i] = uint8(math.Round(d * 255))
			}
			z += mm * back
		}
	}
	return out
}
