package compare

import (
	"bufio"
	"compress/gzip"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/gate"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// 1,000 layouts with one peg that stands wrong by 5 σ to 50 σ of setting out and
// 600 that are sound, set out and measured back by testdata/found.py, which also
// fits them by SciPy. The tag othersoftware runs it for others.
func TestFoundAgainstSciPy(t *testing.T) {
	file, err := os.Open("testdata/found.txt.gz")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	in, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	foundAgainstSciPy(t, in, gate.Of(3, 1), 1000, 600)
}

// rate counts what was right of how many.
type rate struct{ right, of int }

func (r *rate) add(right bool) {
	r.of++
	if right {
		r.right++
	}
}

func (r rate) percent() float64 { return 100 * float64(r.right) / float64(r.of) }

// foundAgainstSciPy compares one in so many layouts of a table.
func foundAgainstSciPy(t *testing.T, table io.Reader, every, moved, clean int) {
	var over8, under8, elsewhere, inEllipse, inFigure, toward, left, nothing, passed rate
	worst := 0.0
	in := bufio.NewScanner(table)
	number := 0
	for ; in.Scan(); number++ {
		if number%every != 0 {
			continue
		}
		part := strings.Split(in.Text(), "|")
		a := Asked{Found: measure(t, part[3])}
		var sigma float64
		fmt.Sscan(part[1], &sigma)
		for r := strings.NewReader(part[0]); ; {
			var x, y float64
			if _, err := fmt.Fscan(r, &x, &y); err != nil {
				break
			}
			v := unit.Area(sigma * sigma)
			a.Pegs = append(a.Pegs, Stake{letter(len(a.Pegs)), geom.Point{X: unit.Length(x), Y: unit.Length(y)}, adjust.Covariance{XX: v, YY: v, XY: 0}})
		}
		var who string
		var by float64
		var off, scipy geom.Vector
		var vx, vy, vxy, whole, rest float64
		fmt.Sscan(part[2], &who, &by, &off.X, &off.Y)
		fmt.Sscan(part[4], &scipy.X, &scipy.Y, &vx, &vy, &vxy, &whole, &rest)
		c, err := Compare(a)
		if err != nil {
			t.Fatalf("%s: %v", in.Text(), err)
		}
		if !c.Fixed {
			t.Errorf("all lengths are there, and do not hold the shape? %s", in.Text())
		}
		if who == "-" {
			nothing.add(len(c.Explanations) == 0)
			passed.add(c.Passed)
			continue
		}
		named := len(c.Wrong()) == 1 && string(c.Wrong()[0].Name) == who
		if by > 8 {
			over8.add(named)
		} else {
			under8.add(named)
		}
		if len(c.Wrong()) > 0 {
			elsewhere.add(!named)
		}
		if !named {
			continue
		}
		m, e := c.Wrong()[0], c.Explanations[0]
		at := geom.VectorOf(m.At).Minus(geom.VectorOf(m.Wanted))
		// Of leastSpread, which SciPy does not know, there is some 1e-3 of a variance.
		worst = max(worst, at.To(scipy))
		for _, f := range [][2]float64{{vx, float64(m.Covariance.XX)}, {vy, float64(m.Covariance.YY)}, {e.Left, rest}, {c.Sum, whole}} {
			if math.Abs(f[0]-f[1]) > 0.02*(0.1+f[0]) {
				t.Errorf("%g, SciPy %g: %s", f[1], f[0], in.Text())
			}
		}
		d := at.Minus(off)
		v := m.Covariance
		det := float64(v.XX*v.YY - v.XY*v.XY)
		far := (d.X*d.X*float64(v.YY) - 2*d.X*d.Y*float64(v.XY) + d.Y*d.Y*float64(v.XX)) / det
		inEllipse.add(far <= adjust.Ninetyfive*adjust.Ninetyfive)
		inFigure.add(d.Size() <= m.Figure95.MM())
		// The move as it is told: towards a peg and square to that.
		j := standing(c, m.From)
		u := geom.VectorOf(j.Wanted).Minus(geom.VectorOf(m.At)).Unit()
		toward.add(math.Abs(d.Dot(u)) <= tape.Expansion*m.TowardSigma.MM())
		left.add(math.Abs(d.Dot(u.Left())) <= tape.Expansion*m.LeftSigma.MM())
	}
	if got := over8.of + under8.of; number != moved+clean || got < moved/every || nothing.of < clean/every {
		t.Fatalf("%d layouts, %d and %d compared, want %d and %d", number, got, nothing.of, moved, clean)
	}
	t.Logf("named right: %.1f %% of %d above 8 σ, %.1f %% of %d from 5 σ to 8 σ; another named in %d; of %d sound ones nothing named in %.1f %%, passed %.1f %%",
		over8.percent(), over8.of, under8.percent(), under8.of, elsewhere.right, nothing.of, nothing.percent(), passed.percent())
	t.Logf("the place of the peg: within its 95 %% ellipse %.1f %%, its 95 %% figure %.1f %%; the move within ±2 σ along %.1f %%, across %.1f %%; from SciPy's at most %.2g mm",
		inEllipse.percent(), inFigure.percent(), toward.percent(), left.percent(), worst)
	if over8.percent() < 95 {
		t.Errorf("named right: %.1f %% of those above 8 σ", over8.percent())
	}
	if nothing.percent() < 95 {
		t.Errorf("something is named in %.1f %% of the sound ones", 100-nothing.percent())
	}
	for name, r := range map[string]rate{"ellipse": inEllipse, "along": toward, "across": left} {
		// A move is told only where it is beyond doubt, and those lie a little nearer.
		if p := r.percent(); p < 93 || p > 98 {
			t.Errorf("%s: %.1f %% within 95 %%", name, p)
		}
	}
	if p := inFigure.percent(); p < 95 {
		t.Errorf("figure: %.1f %% within 95 %%", p)
	}
	if worst > 0.02 {
		t.Errorf("a place is %.3g mm from SciPy's", worst)
	}
}
