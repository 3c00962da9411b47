//go:build !race

package main

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trammel/cmd/internal/report"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/readback"
)

// What a page shows of each layer, the check bars on it and the words how to print.
func layersOf(p readback.Page) (strokes map[string]int, bars int, toPrint bool) {
	strokes = map[string]int{}
	for _, q := range p.Paths {
		strokes[q.Layer]++
		for _, length := range []unit.Length{100, 50} {
			if c := q.Corners(); q.Layer == "" && q.Closed && !q.Filled && len(c) >= 4 {
				b := geom.RectOf(c[0], c...)
				if long, thick := max(b.Width(), b.Height()), min(b.Width(), b.Height()); math.Abs(float64(long+q.Width-length)) < near && thick < 3 {
					bars++
				}
			}
		}
	}
	var words strings.Builder
	for _, w := range p.Words {
		strokes[w.Layer]++
		words.WriteString(w.Text + " ")
	}
	return strokes, bars, strings.Contains(words.String(), "print at 100 %, actual size")
}

// Every layer can be switched off or left out but the outline; the check bars, the
// page's name and how to print belong to no layer and are never lost.
func TestWithout(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	job, err := filepath.Abs("../../examples/gusset-plate.yaml")
	if err != nil {
		t.Fatal(err)
	}
	pagesOf := func(args ...string) (pages []readback.Page, made report.Report) {
		made = reportOf(t, dir, append([]string{"template", job, "-o", "out.pdf"}, args...)...)
		file, err := os.ReadFile(filepath.Join(dir, "out.pdf"))
		if err != nil {
			t.Fatal(err)
		}
		return readback.Open(t, file), made
	}
	optional := []string{"construction", "marks", "dimensions", "joins", "notes"}
	for _, hidden := range [][]string{nil, {"notes"}, {"construction", "joins"}, optional} {
		var args []string
		if hidden != nil {
			args = []string{"--without", strings.Join(hidden, ",")}
		}
		seen := map[string]int{}
		pages, made := pagesOf(args...)
		for i, p := range pages {
			strokes, bars, toPrint := layersOf(p)
			for l, n := range strokes {
				seen[l] += n
			}
			if made.Pages[i].Kind == "index" { // on no layer
				if len(strokes) != 1 || strokes[""] < 50 {
					t.Errorf("without %v: index page %d has %v", hidden, i+1, strokes)
				}
				continue
			}
			if bars < 2 || !toPrint || strokes["outline"] == 0 {
				t.Errorf("without %v: page %d has %d check bars, how to print %t, %v", hidden, i+1, bars, toPrint, strokes)
			}
		}
		for _, l := range optional {
			if left := strings.Contains(strings.Join(hidden, " "), l); left == (seen[l] > 0) {
				t.Errorf("without %v there are %d marks of %s", hidden, seen[l], l)
			}
		}
	}
}
