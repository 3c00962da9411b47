//go:build !race

package main

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
)

var cutPath = regexp.MustCompile(`<g id="cut"[^>]*>\n<path d="M([-0-9.]+) ([-0-9.]+)L([-0-9.]+) ([-0-9.]+)L([-0-9.]+) ([-0-9.]+)Z" stroke-width="0.01"/>\n</g>\n</svg>`)

// Each piece is a file; what is cut in it is one triangle, where the report has its
// corners, with at least 10 mm of margin.
func TestWhole(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	job, err := filepath.Abs("../../examples/class-sheet.yaml")
	if err != nil {
		t.Fatal(err)
	}
	r := reportOf(t, dir, "template", job, "--whole", "-o", "pieces")
	files, err := filepath.Glob(filepath.Join(dir, "pieces", "*.svg"))
	if err != nil || len(files) != 5 || len(r.Pages) != 5 {
		t.Fatalf("%q, %d pages, %v", files, len(r.Pages), err)
	}
	for i, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		m := cutPath.FindSubmatch(data)
		if m == nil {
			t.Fatalf("%s: no single cut", path)
		}
		var v [6]float64
		for k := range v {
			if v[k], err = strconv.ParseFloat(string(m[k+1]), 64); err != nil {
				t.Fatal(err)
			}
		}
		page := r.Pages[i]
		if len(page.Places) != 1 || page.Places[0].Piece != i {
			t.Fatalf("page %d: %+v", i+1, page.Places)
		}
		a, p := page.Places[0].Matrix, r.Pieces[i].Points
		if len(p) != 3 {
			t.Fatalf("piece %d has %d corners", i, len(p))
		}
		for name, q := range p {
			x, y := a[0]*q[0]+a[2]*q[1]+a[4], page.Height-(a[1]*q[0]+a[3]*q[1]+a[5])
			off := math.Inf(1)
			for k := 0; k < 6; k += 2 {
				off = min(off, math.Hypot(v[k]-x, v[k+1]-y))
			}
			if off > near {
				t.Errorf("%s: corner %s is %v mm from the nearest of the cut", path, name, off)
			}
			if x < 10 || y < 10 || x > page.Width-10 || y > page.Height-10 {
				t.Errorf("%s: corner %s at %v, %v on %v x %v", path, name, x, y, page.Width, page.Height)
			}
		}
	}
}
