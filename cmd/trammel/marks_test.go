//go:build !race

package main

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"trammel/geom"
	"trammel/plot/readback"
)

// strokeSeen is the strokes of a page in the piece's own coordinates, as PDFium reads them.
type strokeSeen struct {
	points [][2]float64
	path   readback.Path
}

func seenOn(t *testing.T, dir, out string, args ...string) (pages [][]strokeSeen, points map[string][2]float64) {
	t.Helper()
	r := reportOf(t, dir, append([]string{"template"}, append(args, "-o", out)...)...)
	file, err := os.ReadFile(filepath.Join(dir, out))
	if err != nil {
		t.Fatal(err)
	}
	for i, page := range readback.Open(t, file) {
		var all []strokeSeen
		for _, place := range r.Pages[i].Places[:min(1, len(r.Pages[i].Places))] {
			if place.Piece != 0 {
				continue
			}
			back, ok := geom.Affine(place.Matrix).Inverse()
			if !ok {
				t.Fatal("a matrix without an inverse")
			}
			for _, p := range page.Paths {
				s := strokeSeen{path: p}
				for _, at := range p.Sample(32) {
					q := back.Apply(at)
					s.points = append(s.points, [2]float64{q.X.MM(), q.Y.MM()})
				}
				all = append(all, s)
			}
		}
		pages = append(pages, all)
	}
	return pages, r.Pieces[0].Points
}

// With the construction left out the corners, the centres of holes and the ends of the
// roundings are there to be pricked: each is where a stroke of the layer marks crosses
// or surrounds it. Places by the same figures as TestHeelPlatesReadBack.
func TestMarksStay(t *testing.T) {
	t.Parallel()
	job, _ := filepath.Abs("../../examples/boathouse-heel-plates.yaml")
	for _, without := range []string{"", "construction"} {
		args := []string{job, "--paper", "A2", "--apart"}
		if without != "" {
			args = append(args, "--without", without)
		}
		pages, points := seenOn(t, t.TempDir(), "out.pdf", args...)
		cut, finished := heelPlate(points, 3, -1.5, 3, 3), heelPlate(points, 0, 0, 0, 0)
		wanted := map[string][2]float64{
			"A": points["A"], "B": points["B"], "C": points["C"], "hole 1": {90, 40}, "hole 2": hole2,
			"tick": cut[1].from, "other tick": cut[1].to, "finished tick": finished[1].from, "other finished tick": finished[1].to,
		}
		for name, want := range wanted {
			best, construction := math.Inf(1), 0
			for _, page := range pages {
				for _, s := range page {
					if s.path.Layer == "construction" {
						construction++
					}
					if s.path.Layer != "marks" {
						continue
					}
					// The middle of a short line or of a small circle.
					var x, y float64
					n := float64(len(s.points) - 1)
					for _, p := range s.points[1:] {
						x, y = x+p[0]/n, y+p[1]/n
					}
					if s.path.Straight() {
						a, b := s.points[0], s.points[len(s.points)-1]
						x, y = (a[0]+b[0])/2, (a[1]+b[1])/2
					}
					best = math.Min(best, gap([2]float64{x, y}, want))
				}
			}
			if best > 0.005 {
				t.Errorf("without %q: the nearest mark is %.4f mm from %s", without, best, name)
			}
			if (construction > 0) == (without != "") {
				t.Errorf("without %q: %d strokes of the construction", without, construction)
			}
		}
	}
}

// The finished edge is dash-dotted wherever it is not cut itself: no unbroken stroke
// runs along it, though an arm of the construction does run over it.
func TestFinishedEdgeStaysDashDotted(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	job := "trade: joiner\npieces:\n  - measure: [AB=300, A=50deg, B=60deg]\n    edges: [AB allow 4, BC allow -5, CA allow 3]\n"
	if err := os.WriteFile(filepath.Join(dir, "job.yaml"), []byte(job), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, paper := range []string{"A2", "A4"} {
		pages, points := seenOn(t, dir, "out.pdf", "job.yaml", "--paper", paper)
		arms, dashed := 0, 0.0
		for _, page := range pages {
			for _, s := range page {
				for _, e := range [][2]string{{"A", "B"}, {"B", "C"}, {"C", "A"}} {
					a, b := points[e[0]], points[e[1]]
					edge, long := through(a, b), gap(a, b)
					on := 0.0 // how much of the stroke lies on the edge
					for i, p := range s.points[1:] {
						q := s.points[i]
						middle := [2]float64{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}
						along := (middle[0]-edge.x)*edge.dx + (middle[1]-edge.y)*edge.dy
						if gap(middle, edge.foot(middle)) < 0.05 && gap(p, edge.foot(p)) < 0.05 && along > 0 && along < long {
							on += gap(p, q)
						}
						if s.path.Layer == "construction" && along > long+1 && gap(middle, edge.foot(middle)) < 0.05 {
							arms++
						}
					}
					switch {
					case len(s.path.Dashes) > 0:
						dashed += on
					case on > 0.5:
						t.Errorf("%s: %.1f mm of an unbroken %s stroke on %s", paper, on, s.path.Layer, e[0]+e[1])
					}
				}
			}
		}
		around := gap(points["A"], points["B"]) + gap(points["B"], points["C"]) + gap(points["C"], points["A"])
		if arms == 0 || dashed < around-1 {
			t.Errorf("%s: %d bits of arms, %.1f mm dash-dotted of %.1f", paper, arms, dashed, around)
		}
	}
}

// A bracket of 437 and 388 at a right angle, cut 3 inside both legs and 8 inside the long
// side: 418.6, 559.7 and 371.6 from corner to corner of the wide line, as PDFium reads
// it, as its edges moved by hand cross, and as the page says.
func TestCutFiguresReadBack(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	job := "trade: joiner\npieces:\n  - measure: [AB=437, A=90deg, CA=388]\n    edges: [AB allow -3, CA allow -3, BC allow -8]\n"
	if err := os.WriteFile(filepath.Join(dir, "job.yaml"), []byte(job), 0o666); err != nil {
		t.Fatal(err)
	}
	pages, points := seenOn(t, dir, "out.pdf", "job.yaml", "--paper", "A1")
	a, b, c := points["A"], points["B"], points["C"]
	ab, bc, ca := through(a, b).moved(-3), through(b, c).moved(-8), through(c, a).moved(-3)
	corners := [][2]float64{meet(ca, ab), meet(ab, bc), meet(bc, ca)}
	for i, want := range []float64{418.6, 559.7, 371.6} {
		if got := gap(corners[i], corners[(i+1)%3]); math.Abs(got-want) > 0.05 {
			t.Errorf("by hand %v, want %v", got, want)
		}
	}
	found := 0
	for _, page := range pages {
		for _, s := range page {
			if s.path.Layer != "outline" || len(s.path.Dashes) > 0 {
				continue
			}
			for _, corner := range corners {
				for _, p := range s.points {
					if gap(p, corner) < 0.005 {
						found++
						break
					}
				}
			}
		}
	}
	if found != 3 {
		t.Errorf("%d corners of the cut line are drawn", found)
	}
	file, err := os.ReadFile(filepath.Join(dir, "out.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]bool{}
	for _, page := range readback.Open(t, file) {
		for _, w := range page.Words {
			said[w.Text] = true
		}
	}
	for _, want := range []string{"(418.6)", "(559.7)", "(371.6)", "finished 437, −3", "finished 388, −3", "finished (584.4), −8"} {
		if !said[want] {
			t.Errorf("no page says %q", want)
		}
	}
}
