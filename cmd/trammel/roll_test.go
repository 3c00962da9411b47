//go:build !race

package main

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"trammel/plot/readback"
)

// Off a roll a page is as long as the piece needs, in whole millimetres and never
// longer than a PDF may be; what is longer is joined; all of it true to scale and
// with its check bars.
func TestRoll(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	for _, c := range []struct {
		name        string
		args        []string
		pages       int     // template pages
		least, most float64 // of their height
	}{
		// An equilateral side of 60 is 52 high; bars of 100 mm and the margins want 130.
		{"small", []string{"AB=60", "BC=60", "CA=60", "--paper", "914xany"}, 1, 120, 150},
		{"across", []string{"AB=850", "BC=500", "CA=500", "--paper", "914xany"}, 1, 284, 340},
		// 789 high: it lies along the roll.
		{"along", []string{"AB=4m", "BC=2.15m", "CA=2.15m", "--paper", "36inxany"}, 1, 3950, 4100},
		{"columns", []string{"AB=2400", "BC=2300", "CA=2000", "--paper", "914xany"}, 2, 1820, 2500},
		{"joined", []string{"AB=9m", "BC=5m", "CA=5m", "--paper", "2mxany"}, 0, 4500, 5080},
	} {
		r := reportOf(t, dir, append([]string{"template", "-o", "out.pdf"}, c.args...)...)
		file, err := os.ReadFile(filepath.Join(dir, "out.pdf"))
		if err != nil {
			t.Fatal(err)
		}
		pages := readback.Open(t, file)
		if len(pages) != len(r.Pages) {
			t.Fatalf("%s: %d pages, the report has %d", c.name, len(pages), len(r.Pages))
		}
		example{name: c.name}.matches(t, r, pages)
		n := 0
		for i, p := range r.Pages {
			if p.Height != math.Trunc(p.Height) || p.Height > 5080 {
				t.Errorf("%s: page %d is %v mm long", c.name, i+1, p.Height)
			}
			if p.Kind != "template" {
				continue
			}
			n++
			if p.Height < c.least || p.Height > c.most {
				t.Errorf("%s: page %d is %v mm long, not from %v to %v", c.name, i+1, p.Height, c.least, c.most)
			}
			if strokes, bars, toPrint := layersOf(pages[i]); bars < 2 || !toPrint {
				t.Errorf("%s: page %d has %d check bars, %v", c.name, i+1, bars, strokes)
			}
		}
		if c.pages > 0 && n != c.pages || c.pages == 0 && n < 2 {
			t.Errorf("%s: %d pages", c.name, n)
		}
	}
}
