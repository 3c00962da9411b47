//go:build othersoftware

// Package paste puts a finished template together as a person would: it has
// nothing but pictures of the pages and the labels on them, brings the match marks
// of neighbours together, and measures what it then has.
package paste

import (
	"encoding/json"
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
	run := func(name string, args ...string) []byte {
		t.Helper()
		out, err := exec.Command(name, args...).Output()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		return out
	}
	program, file := filepath.Join(dir, "trammel"), filepath.Join(dir, "template.pdf")
	run("go", "build", "-o", program, "trammel/cmd/trammel")
	report := run(program, "template", "--json", fmt.Sprintf("AB=%v", measured[0]), fmt.Sprintf("BC=%v", measured[1]), fmt.Sprintf("CA=%v", measured[2]),
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
	var said seen
	if err := json.Unmarshal(report, &said); err != nil {
		t.Fatal(err)
	}
	var sheets []sheet
	for i, l := range labels {
		if l.name != "" {
			s := sheet{label: l, picture: readPicture(t, pictures[i])}
			for _, c := range said.Pages[i].Kept {
				s.kept = append(s.kept, complex(c[0], said.Pages[i].Height-c[1]))
			}
			sheets = append(sheets, s)
		}
	}
	printed := 0
	for _, p := range said.Pages {
		if p.Kind == "template" {
			printed++
		}
	}
	if len(sheets) < 12 || len(sheets) != printed {
		t.Fatalf("%d of %d sheets to paste: want at least 12", len(sheets), printed)
	}
	t.Run("as printed", func(t *testing.T) { assemble(t, sheets) })
	t.Run("by hand", func(t *testing.T) {
		r := rand.New(rand.NewPCG(3, 14))
		for i := range sheets {
			const turn, shift = 0.3 * math.Pi / 180, 3
			s := &sheets[i]
			s.kept, s.picture = s.askew((2*r.Float64()-1)*turn, complex((2*r.Float64()-1)*shift, (2*r.Float64()-1)*shift))
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

// askew is the sheet as an unsteady hand lays it: what is kept of it, and its picture.
func (s sheet) askew(turn float64, shift complex128) (kept []complex128, p picture) {
	middle := complex(float64(s.w)*mm/2, float64(s.h)*mm/2)
	for _, z := range s.kept {
		kept = append(kept, (z-middle)*cmplx.Rect(1, turn)+middle+shift)
	}
	return kept, s.laid(turn, shift)
}

// keeps says whether a place of the picture is on what is left of the sheet.
func (s sheet) keeps(z complex128) bool {
	for i, a := range s.kept {
		b := s.kept[(i+1)%len(s.kept)]
		if imag(cmplx.Conj(b-a)*(z-a)) > 0 { // y runs down
			return false
		}
	}
	return true
}

// writePasted writes all sheets as they came to lie, cut and opaque, each over those
// before it. Every edge of paper throws a little shadow.
func writePasted(t *testing.T, file string, sheets []sheet) {
	t.Helper()
	const width, edge = 1100, 6.0 // pixels, mm
	low, high := complex(math.Inf(1), math.Inf(1)), complex(math.Inf(-1), math.Inf(-1))
	for _, s := range sheets {
		for _, c := range s.kept {
			z := s.put(c)
			low = complex(min(real(low), real(z)), min(imag(low), imag(z)))
			high = complex(max(real(high), real(z)), max(imag(high), imag(z)))
		}
	}
	low, high = low-complex(edge, edge), high+complex(edge, edge)
	px := real(high-low) / width // mm
	height := int(math.Ceil(imag(high-low) / px))
	on := make([]int, width*height) // which sheet one sees, from 1
	for k := range on {
		z := low + complex((float64(k%width)+0.5)*px, (float64(k/width)+0.5)*px)
		for i, s := range sheets {
			if s.keeps(s.back(z)) {
				on[k] = i + 1
			}
		}
	}
	const paper, shadow, ink = 0.98, 0.8, 1.7 // ink is darkened: reduced lines are pale
	dark := make([]float64, len(on))
	for n, s := range sheets {
		for j := range s.h {
			for i := range s.w {
				if d := s.dark[j*s.w+i]; d > 0 {
					z := (s.put(complex((float64(i)+0.5)*mm, (float64(j)+0.5)*mm)) - low) / complex(px, 0)
					k := int(imag(z))*width + int(real(z))
					if real(z) >= 0 && imag(z) >= 0 && real(z) < width && k < len(on) && on[k] == n+1 {
						dark[k] += float64(d) / 255 * mm * mm / (px * px)
					}
				}
			}
		}
	}
	light := make([]float64, len(on))
	for k := range light {
		light[k] = 1 - min(1, ink*dark[k])
		if on[k] > 0 {
			light[k] *= paper
		}
		if k > width && (on[k] != on[k-1] || on[k] != on[k-width]) {
			light[k] *= shadow
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
