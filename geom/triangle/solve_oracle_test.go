package triangle

import (
	"bufio"
	"compress/gzip"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"trammel/geom"
)

// 10,000 triangles of every kind and all determining triples against mpmath at
// 60 digits (testdata/oracle.py). The relative error of every side, angle,
// height and area stays below 1e-12.
func TestAgainstMpmath(t *testing.T) {
	const most = 1e-12
	names := []string{"BC", "CA", "AB", "A", "B", "C", "A-BC", "B-CA", "C-AB"}
	var worst float64
	var where string
	cases := map[string]int{}
	n := 0
	lines := oracle(t, func(kind, tokens string, want []float64) {
		if n++; n%oracleEvery != 0 {
			return
		}
		s, err := Solve(measure(t, tokens), [2]geom.Name{})
		if err != nil {
			t.Errorf("%s %s: %v", kind, tokens, err)
			return
		}
		cases[s.Case]++
		best := math.Inf(1)
		for _, a := range s.Answers {
			off := relative(float64(a.Triangle.Area), want[9])
			for i, name := range names {
				off = max(off, relative(get(t, a.Triangle, name), want[i]))
			}
			for i := range 3 { // corners, as a share of the size
				d := a.Triangle.Points[(i+1)%3].Distance(a.Triangle.Points[(i+2)%3]) - a.Triangle.Sides[i]
				off = max(off, math.Abs(float64(d/a.Triangle.Perimeter)))
			}
			best = min(best, off)
		}
		if best > most {
			t.Errorf("%s %s: off by %.3g", kind, tokens, best)
		}
		if best > worst {
			worst, where = best, kind+" "+tokens
		}
	})
	if lines != 10000 || len(cases) != 11 {
		t.Fatalf("%d lines, cases %v: want 10000 of all 11 cases", lines, cases)
	}
	t.Logf("%d triangles, worst relative error %.2g (%s), cases %v", lines/oracleEvery, worst, where, cases)
}

func relative(got, want float64) float64 { return math.Abs(got-want) / math.Abs(want) }

// oracle reads testdata/oracle.txt.gz.
func oracle(t *testing.T, each func(kind, tokens string, want []float64)) (lines int) {
	t.Helper()
	file, err := os.Open("testdata/oracle.txt.gz")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	unpacked, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	in := bufio.NewScanner(unpacked)
	for ; in.Scan(); lines++ {
		given, figures, _ := strings.Cut(in.Text(), " | ")
		kind, tokens, _ := strings.Cut(given, " ")
		var want []float64
		for _, f := range strings.Fields(figures) {
			v, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatal(err)
			}
			want = append(want, v)
		}
		each(kind, tokens, want)
	}
	if err := in.Err(); err != nil {
		t.Fatal(err)
	}
	return lines
}
