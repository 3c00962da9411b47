package net

import (
	"bufio"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// 200 random nets of 3 to 10 points, distances, angles and heights, against
// SciPy's least_squares (testdata/nets.py). The tag othersoftware runs the script
// for 1,000 others.
func TestNetsAgainstSciPy(t *testing.T) {
	file, err := os.Open("testdata/nets.txt.gz")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	in, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	againstSciPy(t, in, 200)
}

// threeDecimals are lengths of the table, which are refused bare: 705.031 may be 705 031.
var threeDecimals = regexp.MustCompile(`(=\d+\.\d{3})(\+-)`)

func againstSciPy(t *testing.T, table io.Reader, total int) {
	number, at, sigma := 0, 0.0, 0.0
	in := bufio.NewScanner(table)
	in.Buffer(nil, 1<<20)
	for ; in.Scan(); number++ {
		part := strings.Split(in.Text(), "|")
		n := Net{Outline: names(part[0]), Measured: measure(t, threeDecimals.ReplaceAllString(part[1], "${1}mm${2}")), Base: [2]geom.Name{"A", "B"}}
		var want [][4]float64
		for figures := strings.NewReader(part[2]); ; {
			var f [4]float64
			if _, err := fmt.Fscan(figures, &f[0], &f[1], &f[2], &f[3]); err != nil {
				break
			}
			want = append(want, f)
		}
		// A point off the outline is told apart from its mirror image by being said
		// to lie left or right of each line of two others.
		for c := len(n.Outline); c < len(want); c++ {
			for a := range want {
				for b := range a {
					p, q, r := geom.Vector{X: want[a][0], Y: want[a][1]}, geom.Vector{X: want[b][0], Y: want[b][1]}, geom.Vector{X: want[c][0], Y: want[c][1]}
					if x := geom.Side(p, q, r); a != c && b != c && math.Abs(x) > 0.01*p.To(q)*p.To(r) {
						n.Sides = append(n.Sides, Side{letter(c), [2]geom.Name{letter(a), letter(b)}, x < 0})
					}
				}
			}
		}
		a, err := Adjust(n)
		var several *Several
		if errors.As(err, &several) { // and SciPy began near one of them
			for _, b := range several.Answers {
				if near(b, want) {
					n.Sides = append(n.Sides, b.Mine.Sides...)
				}
			}
			a, err = Adjust(n)
		}
		if err != nil {
			t.Errorf("net %d: %v\n%s", number+1, err, in.Text())
			continue
		}
		if len(want) != len(a.Names) {
			t.Fatalf("net %d: %d points, want %d", number+1, len(a.Names), len(want))
		}
		for i, name := range a.Names {
			p, c := a.Points[i], a.Covariance(name)
			off := math.Hypot(p.X.MM()-want[i][0], p.Y.MM()-want[i][1])
			relative := max(apartBy(c.X().MM(), want[i][2]), apartBy(c.Y().MM(), want[i][3]))
			if !(off <= 1e-5) || !(relative <= 1e-6) {
				t.Errorf("net %d: %s is %.3g mm off, σ %.3g of itself\n%s", number+1, name, off, relative, in.Text())
			}
			at, sigma = max(at, off), max(sigma, relative)
		}
	}
	if number != total {
		t.Fatalf("%d nets, want %d", number, total)
	}
	t.Logf("%d nets: worst %.2g mm, σ %.2g of itself", number, at, sigma)
}

func near(a Adjusted, want [][4]float64) bool {
	for i, p := range a.Points {
		if math.Hypot(p.X.MM()-want[i][0], p.Y.MM()-want[i][1]) > 1 {
			return false
		}
	}
	return true
}

func apartBy(got, want float64) float64 {
	if want == 0 {
		return math.Abs(got)
	}
	return math.Abs(got/want - 1)
}

func letter(i int) geom.Name { return geom.Name(rune('A' + i)) }

// distance between two adjusted points and its σ.
func distance(a Adjusted, m, n geom.Name) (d, sigma unit.Length) {
	i, j := a.net.Number[m], a.net.Number[n]
	way := a.fit.At[j].Minus(a.fit.At[i])
	u := way.Unit()
	return unit.Length(way.Size()), unit.Length(a.fit.Sigma(a.fit.Free.Row([]int{i, j}, u.Times(-1), u)))
}
