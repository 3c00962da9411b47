//go:build !race

package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trammel/cmd/internal/report"
	"trammel/geom/gate"
	"trammel/plot/readback"
)

// The outlines of nets in the finished file, as PDFium reads them: hollow ones, one
// of 20 m, turned, off a roll and on their edges' pages alone. Every stroke lies on an
// edge and every edge is there from end to end, within 0.005 mm by the matrix of the report.
func TestNetsOnPaper(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	hollow := "AB=640 BC=241 CD=236 DE=175 EF=422 FA=418 AC=697 AD=491 AE=594 BD=337 BF=774 DF=462 --outline A,B,C,D,E,F"
	for _, c := range []struct {
		args  string
		pages int
	}{
		{hollow, 2},
		{hollow + " --turn 33 --paper A5", 2},
		{hollow + " --pages outline --base DE", 2},
		{hollow + " --paper 610xany", 1},
		{netSides + " --outline ABCD --pages outline --paper A3", gate.Of(15, 100)},
		{"AB=160 BC=90 CD=150 DA=100 AC=190 AE=90 BE=95 --outline ABCD --side E_left_of_AB", 1},
	} {
		words := strings.Fields(c.args)
		for i := range words { // a blank within a word
			words[i] = strings.ReplaceAll(words[i], "_", " ")
		}
		r := reportOf(t, dir, append([]string{"template", "-o", "out.pdf"}, words...)...)
		file, err := os.ReadFile(filepath.Join(dir, "out.pdf"))
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Pages) < c.pages {
			t.Errorf("%s: %d pages", c.args, len(r.Pages))
		}
		example{name: c.args}.matches(t, r, readback.Open(t, file))
	}
}

// published is a net from the literature with its printed result; distances are told
// in tenths, since a length goes up to 1 km. Points that are given there are held here by
// what lies between them, to a thousandth of a millimetre.
type published struct {
	source, tokens string
	points         map[string][2]float64 // m
	sigma          map[string][2]float64
	residuals      map[string]float64
	digits         float64 // half of the last one printed, m
}

var literature = []published{
	{
		source: "G. Strang, K. Borre, Linear Algebra, Geodesy, and GPS, 1997, example 12.4",
		tokens: "BC=141420+-0.001 AB=184776.300+-0.001 AC=184780.127+-0.001 AP=100010+-20 BP=100020+-20 CP=100030+-20 --outline ABC --base BC",
		points: map[string][2]float64{"P": {170.7029 - 100, 170.7234 - 100}},
		sigma:  map[string][2]float64{"P": {0.03303, 0.02335}},
		digits: 0.00005,
	},
	{
		// C and D lie below AB there: the corners run clockwise, so that y counts down.
		source: "W. Benning, Statistik in Geodäsie, Geoinformation und Bauwesen, 2011, example 8-2, in tenths",
		tokens: "AB=100000+-0.0001 AC=100002+-2 AD=141420+-2 BC=141424+-2 BD=99998+-2 CD=100000+-2 --outline ABDC --base AB",
		points: map[string][2]float64{"C": {-0.00096, 100 + 0.00226}, "D": {99.99930, 100 - 0.00174}},
		digits: 0.000005,
		residuals: map[string]float64{
			"AC=100002+-2": 0.26, "BD=99998+-2": 0.26, "CD=100000+-2": 0.26, "AD=141420+-2": -0.37, "BC=141424+-2": -0.37,
		},
	},
}

// Published adjustments, through the whole program, to the last digit printed.
func TestNetsOfTheLiterature(t *testing.T) {
	t.Parallel()
	// The known points of the first are not told by distances, but by coordinates.
	known := [3][2]float64{{170.71, 270.71}, {100, 100}, {241.42, 100}}
	between := func(i, j int) string {
		return fmt.Sprintf("%.4f", 1000*math.Hypot(known[i][0]-known[j][0], known[i][1]-known[j][1]))
	}
	literature[0].tokens = strings.NewReplacer("141420+-0.001", between(1, 2)+"+-0.001", "184776.300", between(0, 1), "184780.127", between(0, 2)).Replace(literature[0].tokens)
	for _, l := range literature {
		r := reportOf(t, t.TempDir(), append([]string{"solve"}, strings.Fields(l.tokens)...)...)
		p := r.Pieces[0]
		for n, want := range l.points {
			for k := range 2 {
				if got := p.Points[n][k] / 1000; math.Abs(got-want[k]) > l.digits*1.02 {
					t.Errorf("%s: %s is %v, printed %v", l.source, n, p.Points[n], want)
				}
			}
		}
		for n, want := range l.sigma {
			// Those printed are scaled by what the residuals say.
			x, y := p.Net.Points[n].SigmaX*p.Net.Sigma0/1000, p.Net.Points[n].SigmaY*p.Net.Sigma0/1000
			if math.Abs(x-want[0]) > 0.000005*1.1 || math.Abs(y-want[1]) > 0.000005*1.1 {
				t.Errorf("%s: σ of %s is %v, %v, printed %v", l.source, n, x, y, want)
			}
		}
		for _, m := range p.Measured {
			if want, ok := l.residuals[m.Token]; ok && math.Abs(m.Residual-want) > 0.0051 {
				t.Errorf("%s: residual of %s is %v, printed %v", l.source, m.Token, m.Residual, want)
			}
		}
	}
}

// Equal diagonals do not make a rectangle: in an isosceles trapezium of sides 4, 3
// and a base of 4.2 m both are √(3² + 4·4.2) m (Ptolemy's theorem).
func TestTrapeziumIsNotSquare(t *testing.T) {
	t.Parallel()
	d := fmt.Sprintf("%.1f", 1000*math.Sqrt(9+4*4.2))
	status, out, _ := trammel(t, t.TempDir(), "", "solve", "AB=4200", "BC=3000", "CD=4000", "DA=3000", "AC="+d, "BD="+d, "--outline", "ABCD")
	if status != statusDone || !strings.Contains(out, "ABCD is not square: AB and CD differ by 200, though its diagonals are alike\n") {
		t.Errorf("%d: %s", status, out)
	}
	status, out, _ = trammel(t, t.TempDir(), "", "solve", "AB=4000", "BC=3000", "CD=4000", "DA=3000", "AC=5000", "BD=5000", "--outline", "ABCD")
	if status != statusDone || !strings.Contains(out, "ABCD is square:") {
		t.Errorf("%d: %s", status, out)
	}
}

// One slip of each kind in the floor of the examples is named with what explains it.
func TestSlipsAreNamed(t *testing.T) {
	t.Parallel()
	const good = "AB=5210 BC=2484 CD=1670 DE=1385 EF=3582 FA=3942 AC=5873 AD=4431 AE=5331 BD=2953 BF=6487 DF=3870"
	for _, c := range []struct{ line, slip, why string }{
		{"BD", "3053", "the tape held at its 100 mark"},
		{"AD", "4341", "two digits swapped: 4431"},
		{"DF", "3770", "misread by 100"},
		{"BF", "6537", "misread by 50"},
		{"BF", "7487", "misread by 1000"},
		{"BF", "6497", "misread by 10"},
	} {
		args := []string{"solve", "--outline", "ABCDEF"}
		for _, token := range strings.Fields(good) {
			if strings.HasPrefix(token, c.line+"=") {
				token = c.line + "=" + c.slip
			}
			args = append(args, token)
		}
		r := reportOf(t, t.TempDir(), args...)
		s := r.Pieces[0].Net.Suspects
		if len(s) == 0 || s[0].Token != c.line+"="+c.slip || !strings.Contains(s[0].Say, c.why) {
			t.Errorf("%s=%s: %+v", c.line, c.slip, s)
		}
	}
}

// What a net has on paper beyond its outline: the other hand lies as its mirror image,
// whose distances are the same and whose corners run the other way.
func TestNetsOtherHand(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	job := "pieces:\n  - measure: [AB=640, BC=241, CD=236, DE=175, EF=422, FA=418, AC=697, AD=491, AE=594, BD=337, BF=774, DF=462]\n" +
		"    outline: [A, B, C, D, E, F]\n    handed: pair\n    corners: [D round 12]\n    holes: [16 at CD 30 from D 50]\n"
	if err := os.WriteFile(filepath.Join(dir, "job.yaml"), []byte(job), 0o600); err != nil {
		t.Fatal(err)
	}
	r := reportOf(t, dir, "template", "job.yaml", "-o", "out.pdf")
	if len(r.Pieces) != 2 {
		t.Fatalf("%d pieces", len(r.Pieces))
	}
	one, other := r.Pieces[0], r.Pieces[1]
	for a := range one.Points {
		for b := range one.Points {
			if d := distance(one, a, b) - distance(other, a, b); math.Abs(d) > 1e-9 {
				t.Errorf("%s%s differ by %v", a, b, d)
			}
		}
	}
	if x, y := turn(one), turn(other); x <= 0 || math.Abs(x+y) > 1e-6 {
		t.Errorf("twice the area of ABC is %v, of the other hand %v", x, y)
	}
	if a, b := one.Shape.Areas.Cut, other.Shape.Areas.Cut; math.Abs(a-b) > 1e-6 {
		t.Errorf("areas %v and %v", a, b)
	}
}

func distance(p report.PieceReport, a, b string) float64 {
	return math.Hypot(p.Points[a][0]-p.Points[b][0], p.Points[a][1]-p.Points[b][1])
}

// turn is twice the area of the triangle ABC, counter-clockwise positive.
func turn(p report.PieceReport) float64 {
	a, b, c := p.Points["A"], p.Points["B"], p.Points["C"]
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}
