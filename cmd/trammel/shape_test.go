//go:build !race

package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trammel/cmd/internal/report"
	"trammel/geom"
	"trammel/plot/readback"
)

// The heel plates, worked out here again from their figures: every line moved by its
// allowance, the cut corner by that of its own edge, the arc of 25 mm to 25 mm and
// the mean of 3 and −1.5. Nothing of this is what the program computes with.

// ray is a line through a point.
type ray struct{ x, y, dx, dy float64 }

func through(a, b [2]float64) ray {
	l := math.Hypot(b[0]-a[0], b[1]-a[1])
	return ray{a[0], a[1], (b[0] - a[0]) / l, (b[1] - a[1]) / l}
}

// moved to the right hand by d.
func (r ray) moved(d float64) ray { return ray{r.x + d*r.dy, r.y - d*r.dx, r.dx, r.dy} }

func (r ray) foot(p [2]float64) [2]float64 {
	t := (p[0]-r.x)*r.dx + (p[1]-r.y)*r.dy
	return [2]float64{r.x + t*r.dx, r.y + t*r.dy}
}

func meet(r, s ray) [2]float64 {
	d := r.dx*s.dy - r.dy*s.dx
	t := ((s.x-r.x)*s.dy - (s.y-r.y)*s.dx) / d
	return [2]float64{r.x + t*r.dx, r.y + t*r.dy}
}

// bit is a line, or an arc about a centre.
type bit struct {
	from, to, centre [2]float64
	radius           float64
}

func gap(a, b [2]float64) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }

// off is how far a point is from the bit.
func (b bit) off(p [2]float64) float64 {
	if b.radius > 0 {
		// The chord parts the arc (less than half a turn) from the rest of its circle.
		c := through(b.from, b.to)
		side := func(q [2]float64) float64 { return (q[0]-c.x)*c.dy - (q[1]-c.y)*c.dx }
		if side(p)*side(b.centre) > 1e-3 {
			return math.Min(gap(p, b.from), gap(p, b.to))
		}
		return math.Abs(gap(p, b.centre) - b.radius)
	}
	l := through(b.from, b.to)
	t := (p[0]-l.x)*l.dx + (p[1]-l.y)*l.dy
	if t < 0 || t > gap(b.from, b.to) {
		return math.Min(gap(p, b.from), gap(p, b.to))
	}
	return gap(p, l.foot(p))
}

func (b bit) length() float64 {
	if b.radius > 0 {
		return 2 * b.radius * math.Asin(gap(b.from, b.to)/2/b.radius)
	}
	return gap(b.from, b.to)
}

// heelPlate is once round with allowances for AB, BC, CA and the cut at A.
func heelPlate(points map[string][2]float64, ab, bc, ca, cut float64) []bit {
	a, b, c := points["A"], points["B"], points["C"]
	hand := 1.0
	if (b[0]-a[0])*(c[1]-a[1])-(b[1]-a[1])*(c[0]-a[0]) < 0 {
		hand = -1 // outside lies left of AB
	}
	lab, lbc, lca := through(a, b), through(b, c), through(c, a)
	on := func(l ray, from [2]float64, d float64) [2]float64 {
		return [2]float64{from[0] + d*l.dx, from[1] + d*l.dy}
	}
	chord := through(on(lca, a, -30), on(lab, a, 30)).moved(hand * cut)
	lab, lbc, lca = lab.moved(hand*ab), lbc.moved(hand*bc), lca.moved(hand*ca)
	r := 25 + (ab+bc)/2
	centre := meet(lab.moved(-hand*r), lbc.moved(-hand*r))
	in, out, start, end := lab.foot(centre), lbc.foot(centre), meet(chord, lab), meet(lca, chord)
	tip := meet(lbc, lca)
	return []bit{{from: start, to: in}, {from: in, to: out, centre: centre, radius: r}, {from: out, to: tip}, {from: tip, to: end}, {from: end, to: start}}
}

// The lines of the finished PDF, as PDFium reads them, against those figures.
func TestHeelPlatesReadBack(t *testing.T) {
	t.Parallel()
	job, err := filepath.Abs("../../examples/boathouse-heel-plates.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, paper := range []string{"A2", "A4", "A5"} {
		dir := t.TempDir()
		report := reportOf(t, dir, "template", job, "--paper", paper, "-o", "out.pdf")
		file, err := os.ReadFile(filepath.Join(dir, "out.pdf"))
		if err != nil {
			t.Fatal(err)
		}
		if len(report.Pieces) != 2 || report.Pieces[0].Shape == nil || report.Pieces[1].Shape.Hand != "other" {
			t.Fatalf("%+v", report.Pieces)
		}
		var wide, behind, circles, want [2]float64
		pages := readback.Open(t, file)
		for i, p := range report.Pages {
			for _, place := range p.Places {
				piece := report.Pieces[place.Piece]
				cut, finished := heelPlate(piece.Points, 3, -1.5, 3, 3), heelPlate(piece.Points, 0, 0, 0, 0)
				m := geom.Affine(place.Matrix)
				back, ok := m.Inverse()
				if !ok {
					t.Fatal("a matrix without an inverse")
				}
				for _, path := range pages[i].Paths {
					if path.Layer != "outline" {
						continue
					}
					on, sum := cut, &wide[place.Piece]
					if len(path.Dashes) > 0 {
						on, sum = finished, &behind[place.Piece]
					}
					samples := path.Sample(16)
					points := make([][2]float64, len(samples))
					for k, s := range samples {
						q := back.Apply(s)
						points[k] = [2]float64{q.X.MM(), q.Y.MM()}
					}
					if hole, off := holeOf(points, piece); hole {
						if off > 0.005 {
							t.Errorf("%s, page %d: a hole is %.4f mm off", paper, i+1, off)
						}
						circles[place.Piece]++
						continue
					}
					if len(p.Places) > 1 && nearest(on, points[0]) > 1 {
						continue // of the other piece on the page
					}
					for k, q := range points {
						if off := nearest(on, q); off > 0.005 {
							t.Errorf("%s, page %d, %s: a line is %.4f mm off at %v", paper, i+1, piece.Name, off, q)
							break
						}
						if k > 0 {
							*sum += gap(q, points[k-1])
						}
					}
				}
			}
		}
		for i, piece := range report.Pieces {
			for k, allow := range [][4]float64{{3, -1.5, 3, 3}, {}} {
				for _, b := range heelPlate(piece.Points, allow[0], allow[1], allow[2], allow[3]) {
					want[k] += b.length()
				}
				// On one page all of it stands once; on several nothing is missing.
				got := []float64{wide[i], behind[i]}[k]
				if got < want[k]-0.01 || paper == "A2" && got > want[k]+0.01 {
					t.Errorf("%s, %s: %v mm drawn, want %v", paper, piece.Name, got, want[k])
				}
				want[k] = 0
			}
			if circles[i] < 2 || paper == "A2" && circles[i] != 2 {
				t.Errorf("%s, %s: %v holes", paper, piece.Name, circles[i])
			}
		}
	}
}

func nearest(bits []bit, p [2]float64) float64 {
	d := math.Inf(1)
	for _, b := range bits {
		d = math.Min(d, b.off(p))
	}
	return d
}

// hole2 is 150 from A and 110 from C, inside; heelSettings are the interior angles, that
// of the cut at A the supplement of half of 180° less A's; with the edge that is held,
// the longer one: computed with mpmath at 30 digits.
var (
	hole2        = [2]float64{137.0918400639568, 60.87550729052281}
	heelSettings = []struct {
		corner, of, edge string
		interior         float64
		leans, how       string
	}{
		{"A", "corner", "AB", 54.051801713868, "in", "fence"},
		{"A", "cut", "AB", 117.025900856934, "out", "fence"},
		{"B", "corner", "AB", 40.83370188568, "in", "block"},
		{"C", "corner", "BC", 85.114496400453, "in", "fence"},
	}
)

// holeOf says whether a path is about one of the holes, and how far it is off.
func holeOf(points [][2]float64, piece report.PieceReport) (bool, float64) {
	for _, c := range [][2]float64{{90, 40}, hole2} {
		if piece.Points["A"][0] > piece.Points["B"][0] { // the other hand
			c[0] = 320 - c[0]
		}
		if gap(points[0], c) < 8 {
			off := 0.0
			for _, p := range points {
				off = math.Max(off, math.Abs(gap(p, c)-6))
			}
			return true, off
		}
	}
	return false, 0
}

// The report's own words of the shape, against the same figures and against areas
// by the shoelace formula.
func TestHeelPlatesReport(t *testing.T) {
	t.Parallel()
	job, _ := filepath.Abs("../../examples/boathouse-heel-plates.yaml")
	r := reportOf(t, t.TempDir(), "solve", job)
	for _, piece := range r.Pieces {
		s := piece.Shape
		for k, want := range [][]bit{heelPlate(piece.Points, 0, 0, 0, 0), heelPlate(piece.Points, 3, -1.5, 3, 3)} {
			got, area := s.Finished, s.Areas.Finished
			if k == 1 {
				got, area = s.Cut, s.Areas.Cut
			}
			if len(got) != len(want) {
				t.Fatalf("%s: %d segments, want %d", piece.Name, len(got), len(want))
			}
			for _, g := range got {
				if nearest(want, g.From) > 1e-9 || nearest(want, g.To) > 1e-9 {
					t.Errorf("%s: %+v is not of %v", piece.Name, g, want)
				}
			}
			if a := areaOf(want); math.Abs(a-area) > 1e-6 {
				t.Errorf("%s: area %v, want %v", piece.Name, area, a)
			}
		}
		if a := s.Areas; math.Abs(a.Holes-2*math.Pi*36) > 1e-9 || math.Abs(a.Net-(a.Finished-a.Holes)) > 1e-9 {
			t.Errorf("areas %+v", a)
		}
		if len(s.Settings) != len(heelSettings) {
			t.Fatalf("settings %+v", s.Settings)
		}
		for i, want := range heelSettings {
			c := s.Settings[i]
			line := math.Min(want.interior, 180-want.interior)
			scale := map[string]float64{"fence": 90 - line, "block": line}[want.how]
			named := c.Edge == want.edge || c.Edge == want.edge[1:]+want.edge[:1] // of the other hand
			if c.Corner != want.corner || c.Of != want.of || !named || c.Leans != want.leans || c.How != want.how ||
				math.Abs(c.Interior-want.interior) > 1e-9 || math.Abs(c.Line-line) > 1e-9 || math.Abs(c.Saw-(90-line)) > 1e-9 || math.Abs(c.Scale-scale) > 1e-9 ||
				math.Abs(c.Up/c.Along-math.Tan(line*math.Pi/180)) > 1e-9 || math.Max(c.Up, c.Along) != 100 {
				t.Errorf("%+v, want %+v", c, want)
			}
		}
		for i, side := range []string{"AB", "BC", "CA"} { // the straight bits of the cut line, in that order
			b := heelPlate(piece.Points, 3, -1.5, 3, 3)[[]int{0, 2, 3}[i]]
			got := s.CutSides[side] + s.CutSides[side[1:]+side[:1]]
			if math.Abs(got-b.length()) > 1e-9 {
				t.Errorf("%s, %s: %v long, want %v", piece.Name, side, got, b.length())
			}
		}
		if s.Face != "up" || s.Grain != "AB" || s.Allowances["AB"]+s.Allowances["BA"] != 3 || s.Corners["A"] != (report.CornerReport{Do: "cut", By: 30}) {
			t.Errorf("%+v", s)
		}
	}
}

// areaOf the bits: the polygon of their ends and the arc's segment outside its chord.
func areaOf(bits []bit) float64 {
	twice := 0.0
	for _, b := range bits {
		twice += b.from[0]*b.to[1] - b.from[1]*b.to[0]
	}
	area := math.Abs(twice) / 2
	for _, b := range bits {
		if b.radius > 0 {
			w := 2 * math.Asin(gap(b.from, b.to)/2/b.radius)
			area += b.radius * b.radius / 2 * (w - math.Sin(w))
		}
	}
	return area
}

// Both hands are on the paper, named on every page, and alike but for the hand; the
// same job gives the same bytes.
func TestOtherHandOnEveryPage(t *testing.T) {
	t.Parallel()
	job, _ := filepath.Abs("../../examples/boathouse-heel-plates.yaml")
	dir := t.TempDir()
	var files [2][]byte
	var r report.Report
	for i, out := range []string{"a.pdf", "b.pdf"} {
		r = reportOf(t, dir, "template", job, "--paper", "A5", "-o", out)
		files[i], _ = os.ReadFile(filepath.Join(dir, out))
	}
	if len(files[0]) == 0 || string(files[0]) != string(files[1]) {
		t.Error("two runs differ")
	}
	for i, page := range readback.Open(t, files[0]) {
		says := false
		for _, w := range page.Words {
			says = says || strings.Contains(w.Text, "opposite hand")
		}
		other := false
		for _, p := range r.Pages[i].Places {
			other = other || r.Pieces[p.Piece].Shape.Hand == "other"
		}
		if r.Pages[i].Kind == "template" && other != says {
			t.Errorf("page %d: other hand %t, and it says so: %t", i+1, other, says)
		}
	}
	var j map[string]any
	if _, out, _ := trammel(t, dir, "", "solve", job, "--json"); json.Unmarshal([]byte(out), &j) != nil {
		t.Error("the report is no JSON")
	}
}

// A hole in the middle is on no page of the edges: then all pages are printed.
func TestHoleOnPagesOfTheEdges(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	for name, more := range map[string]string{"plain": "", "edge": "    edges: [AB allow 3]\n", "hole": "    holes: [60 at AB 600 from A 1000]\n"} {
		job := "pieces:\n  - measure: [AB=2m, BC=2m, CA=2m]\n" + more
		if err := os.WriteFile(filepath.Join(dir, name+".yaml"), []byte(job), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	count := func(name, pages string) int {
		return len(reportOf(t, dir, "template", name+".yaml", "--pages", pages, "-o", name+".pdf").Pages)
	}
	if full, edges := count("hole", "full"), count("hole", "outline"); edges != full {
		t.Errorf("%d pages of the edges of a piece with a hole, all are %d", edges, full)
	}
	for _, name := range []string{"plain", "edge"} {
		if full, edges := count(name, "full"), count(name, "outline"); edges >= full {
			t.Errorf("%s: %d pages of the edges, all are %d", name, edges, full)
		}
	}
}

// One cut path a contour: two holes and the outline of each hand.
func TestHeelPlatesWhole(t *testing.T) {
	t.Parallel()
	job, _ := filepath.Abs("../../examples/boathouse-heel-plates.yaml")
	dir := t.TempDir()
	status, _, errs := trammel(t, dir, "", "template", job, "--whole", "-o", "whole")
	if status != statusDone {
		t.Fatal(errs)
	}
	files, _ := filepath.Glob(filepath.Join(dir, "whole", "*.svg"))
	if len(files) != 2 {
		t.Fatalf("%v", files)
	}
	for _, f := range files {
		data, _ := os.ReadFile(f)
		if n := cutPaths(string(data)); n != 3 {
			t.Errorf("%s: %d paths to cut, want 3", filepath.Base(f), n)
		}
	}
}

// cutPaths counts the paths of the group cut.
func cutPaths(svg string) int {
	_, group, _ := strings.Cut(svg, `<g id="cut"`)
	group, _, _ = strings.Cut(group, "</g>")
	return strings.Count(group, "<path")
}
