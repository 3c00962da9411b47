package app

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/readback"
	"trammel/profiles"
	"trammel/profiles/job"
)

// A 3-4-5 triangle, its right angle at A, so that what follows can be said by hand:
// from A, AB runs along x and CA along y.
const corbel = `pieces:
- name: Corbel
  measure: [A=90deg, AB=%g, CA=%g]
  edges: [AB allow 3, BC allow 2, CA allow -1.5]
  corners: [A round 25]
  holes: [12 at AB 40 from A 30, 20 at CA 60 from A 55]
`

// lines and circles of a corbel: its finished edges, the lines to cut, its rounding
// and its holes, in coordinates in which A is 0, AB runs along x and CA along y.
type corbelled struct {
	ab, ca float64
}

// edges are points and directions: cut lines lie 3 and 2 outside, 1.5 inside.
func (c corbelled) edges() map[string][4]float64 {
	l := math.Hypot(c.ab, c.ca)
	bx, by := -c.ab/l, c.ca/l
	return map[string][4]float64{
		"finished AB": {0, 0, 1, 0}, "finished CA": {0, 0, 0, 1}, "finished BC": {c.ab, 0, bx, by},
		"cut AB": {0, -3, 1, 0}, "cut CA": {1.5, 0, 0, 1}, "cut BC": {c.ab + 2*by, -2 * bx, bx, by},
	}
}

func (c corbelled) circles() map[string][3]float64 {
	return map[string][3]float64{"rounding": {25, 25, 25}, "hole 12": {30, 40, 6}, "hole 20": {60, 55, 10}}
}

// mark says what a stroke is, "" where it is nothing of the piece. What the cut line
// makes of the rounding is for the tests of the shape to say: here it is near A.
func (c corbelled) mark(at []geom.Point, near float64) string {
	all := func(off func(x, y float64) float64) bool {
		for _, q := range at {
			if !(math.Abs(off(q.X.MM(), q.Y.MM())) < near) {
				return false
			}
		}
		return true
	}
	for name, e := range c.edges() {
		if all(func(x, y float64) float64 { return (x-e[0])*e[3] - (y-e[1])*e[2] }) {
			return name
		}
	}
	for name, k := range c.circles() {
		if all(func(x, y float64) float64 { return math.Hypot(x-k[0], y-k[1]) - k[2] }) {
			return name
		}
	}
	if all(func(x, y float64) float64 { return max(0, math.Hypot(x, y)-30) }) {
		return "cut at A"
	}
	return ""
}

// What a calibrated printer makes of a shape is the shape: its finished file is read
// back by PDFium and put through the press that the calibration is of; then edges,
// rounding and holes are where the job has them, on one page and over several, on
// upright paper and on paper that goes through on its side. (How the press turns and
// shifts a page on the paper is its own affair: A and the way to B are taken from it.)
func TestShapesForOnePrinter(t *testing.T) {
	const near = 0.005
	random := rand.New(rand.NewPCG(7, 7))
	for _, m := range []profiles.Misprint{
		{Across: 0.012, Along: -0.009, Skew: 0.25 * unit.Degree},
		{Across: -0.015, Along: -0.015, Skew: -0.3 * unit.Degree},
	} {
		k := profiles.Calibration{Printer: "shed", Paper: "A4", Width: 210, Height: 297, Found: m}
		press := pressOf(random, 1+m.Across, 1+m.Along, m.Skew.Degrees())
		for _, c := range []struct {
			name      string
			is        corbelled
			pages     int // at least
			landscape bool
		}{{"one page", corbelled{160, 120}, 1, false}, {"several", corbelled{640, 480}, 5, false}, {"on its side", corbelled{200, 150}, 1, true}} {
			w := mustOpen(t, fmt.Sprintf(corbel, c.is.ab, c.is.ca), Options{
				Printer: job.Setting{Text: "shed"}, Landscape: c.landscape, Paper: job.Setting{Text: "A4"},
				Calibration: func(string) (*profiles.Calibration, error) { return &k, nil },
			})
			tpl, err := w.template()
			if err != nil {
				t.Fatal(err)
			}
			pages, found := written(t, tpl.document().pdf), map[string]int{}
			report := tpl.report()
			if len(pages) < c.pages {
				t.Fatalf("%s: %d pages", c.name, len(pages))
			}
			for i, page := range pages {
				if report.Pages[i].Kind != "template" {
					continue
				}
				print := func(q geom.Point) geom.Point {
					if c.landscape {
						q = geom.Point{X: -q.Y, Y: q.X}
					}
					return press.print(q)
				}
				lies := geom.Affine(report.Pages[i].Places[0].Matrix)
				corner := func(name string) geom.Point {
					at := report.Pieces[0].Points[name]
					return print(lies.Apply(geom.Point{X: unit.Length(at[0]), Y: unit.Length(at[1])}))
				}
				a, b := corner("A"), corner("B")
				s, k := math.Sincos(math.Atan2(float64(b.Y-a.Y), float64(b.X-a.X)))
				piece := func(q geom.Point) geom.Point {
					v := print(q).Minus(a)
					return geom.Point{X: v.X*unit.Length(k) + v.Y*unit.Length(s), Y: v.Y*unit.Length(k) - v.X*unit.Length(s)}
				}
				for _, stroke := range strokes(page) {
					for n := range stroke {
						stroke[n] = piece(stroke[n])
					}
					name := c.is.mark(stroke, near)
					if name == "" {
						t.Errorf("%s, page %d: a stroke of the outline comes out from %v to %v, which is nothing of the piece", c.name, i+1, stroke[0], stroke[len(stroke)-1])
					}
					found[name]++
				}
			}
			for _, want := range []string{"finished AB", "finished CA", "finished BC", "cut AB", "cut CA", "cut BC", "rounding", "hole 12", "hole 20"} {
				if found[want] == 0 {
					t.Errorf("%s: no mark of %s: %v", c.name, want, found)
				}
			}
		}
	}
}

// strokes are the segments of the outline on a page, each as points along it.
func strokes(p readback.Page) (all [][]geom.Point) {
	for _, path := range p.Paths {
		if path.Layer != "outline" {
			continue
		}
		const each = 6
		points := path.Sample(each)
		from := points[0]
		for i := range path.Segments {
			all = append(all, append([]geom.Point{from}, points[1+i*each:1+(i+1)*each]...))
			from = points[(i+1)*each]
		}
		if path.Closed && from.Distance(path.Start) > 1e-6 {
			all = append(all, []geom.Point{from, path.Start})
		}
	}
	return all
}
