//go:build !race

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trammel/plot/readback"
)

// Every part of every side is on some page of the finished file: windows that only
// touch, and edges alone on paper on its side.
func TestPinned(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	for _, args := range []string{
		"AB=407.2852 BC=1034.6612 CA=1262.2711 --paper 12x18in --margin 20 --overlap 0 --base CA",
		"AB=2800 BC=2100 CA=3500 --paper Letter --landscape --margin 20 --overlap 22.2 --base CA --pages outline",
	} {
		r := reportOf(t, dir, append([]string{"template", "-o", "out.pdf"}, strings.Fields(args)...)...)
		file, err := os.ReadFile(filepath.Join(dir, "out.pdf"))
		if err != nil {
			t.Fatal(err)
		}
		example{name: args}.matches(t, r, readback.Open(t, file))
	}
}
