//go:build othersoftware

// Package paste puts a finished template together as a person would: it has
// nothing but pictures of the pages and the labels on them, brings the match marks
// of neighbours together, and measures what it then has.
package paste

import (
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
)

var pasted = flag.String("picture", "", "PNG `file` for the pasted template")

// What was measured, longest first, in mm.
var measured = []float64{1200, 950, 850}

// A template of about fourteen pages, rendered by poppler and pasted together by
// its marks alone, has the sides that were measured, to 0.1 mm; also when every
// page was first laid askew.
func TestPaste(t *testing.T) {
	dir := t.TempDir()
	run := func(name string, args ...string) {
		t.Helper()
		if out, err := exec.Command(name, args...).CombinedOutput(); err != nil {
			t.Fatalf("%s: %v\n%s", name, err, out)
		}
	}
	program, file := filepath.Join(dir, "trammel"), filepath.Join(dir, "template.pdf")
	run("go", "build", "-o", program, "trammel/cmd/trammel")
	run(program, "template", fmt.Sprintf("AB=%v", measured[0]), fmt.Sprintf("BC=%v", measured[1]), fmt.Sprintf("CA=%v", measured[2]),
		"--paper", "A4", "-o", file)
	run("pdftoppm", "-r", fmt.Sprint(dpi), "-gray", "-png", file, filepath.Join(dir, "page"))
	pictures, err := filepath.Glob(filepath.Join(dir, "page-*.png"))
	if err != nil {
		t.Fatal(err)
	}
	labels := readLabels(t, file)
	if len(pictures) != len(labels) {
		t.Fatalf("%d pictures of %d pages", len(pictures), len(labels))
	}
	var sheets []sheet
	for i, l := range labels {
		if l.name != "" {
			sheets = append(sheets, sheet{label: l, picture: readPicture(t, pictures[i])})
		}
	}
	if len(labels) < 12 || len(sheets) != len(labels)-1 {
		t.Fatalf("%d pages, of which %d to paste: want at least 12, all but the index", len(labels), len(sheets))
	}
	t.Run("as printed", func(t *testing.T) { assemble(t, sheets) })
	t.Run("by hand", func(t *testing.T) {
		r := rand.New(rand.NewPCG(3, 14))
		for i := range sheets {
			const turn, shift = 0.3 * math.Pi / 180, 3
			sheets[i].picture = sheets[i].laid((2*r.Float64()-1)*turn, complex((2*r.Float64()-1)*shift, (2*r.Float64()-1)*shift))
		}
		assemble(t, sheets)
	})
	if *pasted != "" && !t.Failed() {
		writePasted(t, *pasted, sheets)
	}
}

func assemble(t *testing.T, sheets []sheet) {
	// The renderer puts ink to a quarter of a pixel, 0.021 mm, which is what a mark's
	// centre may be off; near a corner there is no stretch of one wide line alone.
	const gapMost, sideMost, cornerMost = 0.02, 0.1, 20 // mm
	for i := range sheets {
		sheets[i].marks = sheets[i].stars()
	}
	all := joins(t, sheets)
	if len(all) < len(sheets)-1 {
		t.Fatalf("%d joins hold %d pages", len(all), len(sheets))
	}
	paste(t, sheets, all)
	for _, j := range all {
		rms, most := j.gaps(sheets)
		t.Logf("%s: %d marks, rms %.4f, at most %.4f mm", j.name, len(j.pair), rms, most)
		if most > gapMost {
			t.Errorf("%s: marks %.3f mm apart", j.name, most)
		}
	}
	lines := sides(t, sheets)
	corners := [3]complex128{meet(lines[0], lines[1]), meet(lines[1], lines[2]), meet(lines[2], lines[0])}
	var lengths []float64
	for i, l := range lines {
		// Line i runs from the corner before it to the one after it.
		length := cmplx.Abs(corners[i] - corners[(i+2)%3])
		t.Logf("side %.4f mm: %d points from end to end of %.1f mm, rms %.4f mm", length, l.points, l.to-l.from, l.rms)
		if math.Abs(l.to-l.from-length) > cornerMost {
			t.Errorf("a side of %.1f mm is seen for %.1f mm", length, l.to-l.from)
		}
		lengths = append(lengths, length)
	}
	slices.Sort(lengths)
	slices.Reverse(lengths)
	for i, want := range measured {
		if math.Abs(lengths[i]-want) > sideMost {
			t.Errorf("a side of %.3f mm, want %v", lengths[i], want)
		}
	}
}

// writePasted writes all pages as they came to lie, one seen through the other.
// Paper is a little grey, so that one sees where two lie on each other.
func writePasted(t *testing.T, file string, sheets []sheet) {
	t.Helper()
	const width, edge = 1100, 6.0 // pixels, mm
	low, high := complex(math.Inf(1), math.Inf(1)), complex(math.Inf(-1), math.Inf(-1))
	for _, s := range sheets {
		for _, c := range []complex128{0, complex(float64(s.w)*mm, 0), complex(0, float64(s.h)*mm), complex(float64(s.w)*mm, float64(s.h)*mm)} {
			z := s.put(c)
			low = complex(min(real(low), real(z)), min(imag(low), imag(z)))
			high = complex(max(real(high), real(z)), max(imag(high), imag(z)))
		}
	}
	low, high = low-complex(edge, edge), high+complex(edge, edge)
	px := real(high-low) / width // mm
	height := int(math.Ceil(imag(high-low) / px))
	light := make([]float64, width*height)
	for i := range light {
		light[i] = 1
	}
	const paper, ink = 0.94, 1.7 // ink is darkened: reduced lines are pale
	for _, s := range sheets {
		dark := make([]float64, len(light))
		for j := range s.h {
			for i := range s.w {
				if d := s.dark[j*s.w+i]; d > 0 {
					z := (s.put(complex((float64(i)+0.5)*mm, (float64(j)+0.5)*mm)) - low) / complex(px, 0)
					dark[int(imag(z))*width+int(real(z))] += float64(d) / 255 * mm * mm / (px * px)
				}
			}
		}
		for k := range light {
			z := s.back(low + complex((float64(k%width)+0.5)*px, (float64(k/width)+0.5)*px))
			if real(z) >= 0 && imag(z) >= 0 && real(z) < float64(s.w)*mm && imag(z) < float64(s.h)*mm {
				light[k] *= paper * (1 - min(1, ink*dark[k]))
			}
		}
	}
	out := image.NewGray(image.Rect(0, 0, width, height))
	for k, l := range light {
		out.SetGray(k%width, k/width, color.Gray{Y: uint8(math.Round(255 * l))})
	}
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(f, out); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}
