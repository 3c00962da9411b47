package shape

import (
	"bufio"
	"compress/gzip"
	"io"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// Random pieces against shapely (testdata/oracle.py): areas, lengths, the cut
// lines' ends and the holes' centres to 1e-9, and the same pieces refused.
func TestAgainstShapely(t *testing.T) {
	file, err := os.Open("testdata/oracle.txt.gz")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	in, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	againstShapely(t, in, 2000)
}

// what a refusal says, by the oracle's verdict.
var verdicts = map[string][]string{
	"meet":    {"of edge"},
	"eaten":   {"eat edge"},
	"crossed": {"cross"},
	"spike":   {"cross", "do not meet"},
	"hole":    {"the hole"},
}

func againstShapely(t *testing.T, in io.Reader, want int) {
	t.Helper()
	lines := bufio.NewScanner(in)
	lines.Buffer(nil, 1<<20)
	made := map[string]int{}
	var worst float64
	n := 0
	for ; lines.Scan(); n++ {
		o := parseOracle(t, lines.Text())
		made[o.verdict]++
		s, err := Make(o.outline, o.names, o.work, unit.Style{})
		if o.verdict != "ok" {
			if err == nil || !contains(err.Error(), verdicts[o.verdict]) {
				t.Errorf("%s: %v", lines.Text(), err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", lines.Text(), err)
			continue
		}
		off := o.compare(s)
		worst = max(worst, off)
		if !(off <= 1e-9) {
			t.Errorf("%s: off by %.3g", lines.Text(), off)
		}
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	if n != want {
		t.Errorf("%d pieces, want %d", n, want)
	}
	for v := range verdicts {
		if made[v] == 0 {
			t.Errorf("no piece is refused for %q", v)
		}
	}
	t.Logf("%d pieces %v, worst relative difference %.2g", n, made, worst)
}

func contains(s string, parts []string) bool {
	for _, p := range parts {
		if strings.Contains(s, p) {
			return true
		}
	}
	return false
}

// oracle is one line of the table.
type oracle struct {
	verdict string
	outline geom.Polygon
	names   []geom.Name
	work    Work
	figures []float64    // areas of the finished and the cut contour, lengths of both, area of the holes
	ends    []geom.Point // of the cut lines beside each edge
	centres []geom.Point
}

func parseOracle(t *testing.T, line string) (o oracle) {
	t.Helper()
	f := strings.Split(line, " | ")
	if len(f) != 5 && len(f) != 8 {
		t.Fatalf("%d fields: %s", len(f), line)
	}
	o.verdict, o.outline = f[0], points(t, f[1])
	for _, n := range "ABCDEFGHJK"[:len(o.outline)] {
		o.names = append(o.names, geom.Name(n))
	}
	o.work = tokens(t, f[2], f[3], f[4])
	if len(f) == 8 {
		for _, x := range strings.Fields(f[5]) {
			o.figures = append(o.figures, number(t, x))
		}
		o.ends, o.centres = points(t, strings.ReplaceAll(f[6], ",", " ")), points(t, f[7])
	}
	return o
}

// compare gives the largest relative difference: of areas and lengths, and of
// places and distances as a share of the piece's size.
func (o oracle) compare(s Shape) (worst float64) {
	a := s.Areas()
	for i, got := range []float64{float64(a.Finished), float64(a.Cut), float64(s.Finished.Length()), float64(s.Cut.Length()), float64(a.Holes)} {
		if got != o.figures[i] {
			worst = max(worst, math.Abs(got/o.figures[i]-1))
		}
	}
	b := o.outline.Bounds()
	size := max(b.Width(), b.Height())
	near := func(d unit.Length) { worst = max(worst, math.Abs(float64(d/size))) }
	for i, e := range s.Sides {
		near(e.Cut.From.Distance(o.ends[2*i]))
		near(e.Cut.To.Distance(o.ends[2*i+1]))
		// The distance that was asked for, from the plain equation of the line.
		for _, p := range [2]geom.Point{e.Cut.From, e.Cut.To} {
			w := e.Whole.To.Minus(e.Whole.From)
			q := p.Minus(e.Whole.From)
			near((q.X*w.Y-q.Y*w.X)/e.Whole.Length() - e.Allow)
		}
	}
	for i, h := range s.Bores {
		near(h.Circle.Centre.Distance(o.centres[i]))
	}
	return worst
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// points reads x,y pairs, or x y x y.
func points(t *testing.T, text string) (p []geom.Point) {
	t.Helper()
	f := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' })
	for i := 0; i+1 < len(f); i += 2 {
		p = append(p, geom.Point{X: unit.Length(number(t, f[i])), Y: unit.Length(number(t, f[i+1]))})
	}
	return p
}

// tokens reads tokens parted by semicolons.
func tokens(t *testing.T, edges, corners, holes string) (w Work) {
	t.Helper()
	each := func(list string, read func(string) error) {
		for _, s := range strings.FieldsFunc(list, func(r rune) bool { return r == ';' }) {
			if err := read(s); err != nil {
				t.Fatal(err)
			}
		}
	}
	each(edges, func(s string) error {
		a, err := ParseAllowance(s, unit.MM)
		w.Allowances = append(w.Allowances, a)
		return err
	})
	each(corners, func(s string) error {
		c, err := ParseCorner(s, unit.MM)
		w.Corners = append(w.Corners, c)
		return err
	})
	each(holes, func(s string) error {
		h, err := ParseHole(s, unit.MM)
		w.Holes = append(w.Holes, h)
		return err
	})
	return w
}
