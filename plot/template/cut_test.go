package template

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/paging"
)

// A bracket of 437 and 388 at a right angle, cut 3 inside both legs and 8 inside the long
// side of √(437² + 388²) = 584.4. Along the leg AB the cut takes 3 at A and at B
// (8 + 3·cos B)/sin B, so that 437 − 3 − (8 + 3·0.7478)/0.6639 = 418.6 is left, and of CA
// 388 − 3 − (8 + 3·0.6639)/0.7478 = 371.6; the hypotenuse of both is 559.7.
func TestTheCutStandsFirst(t *testing.T) {
	p, err := plate(t, "AB=437 A=90deg CA=388", "AB allow -3;CA allow -3;BC allow -8", "", "")
	if err != nil {
		t.Fatal(err)
	}
	d, err := Draw(p, coverOf(t, p, a4), font, full())
	if err != nil {
		t.Fatal(err)
	}
	drawn := words1(draw.Page{Ops: d})
	for _, say := range []string{"AB (418.6)", "CA (371.6)", "BC (559.7)", "finished 437, −3", "finished 388, −3", "finished (584.4), −8"} {
		if !strings.Contains(drawn, say) {
			t.Errorf("the drawing does not say %q", say)
		}
	}
	for i, want := range []float64{418.6, 559.7, 371.6} {
		c := p.checked()[i]
		if math.Abs(float64(c.length)-want) > 0.05 || c.measured {
			t.Errorf("%s: %v, want %v", c.what, c.length, want)
		}
	}
	steps := Steps(p, full())
	const want = "Offsets: knife the line that is cut, parallel to the finished edges: 3 inside AB, 8 inside BC, 3 inside CA. Measure that line from corner to corner, or to where it stops being straight: it should read AB 418.6, BC 559.7, CA 371.6."
	if got := steps[len(steps)-1]; got != want {
		t.Errorf("By hand ends with %q", got)
	}
	pages, err := Index(p, coverOf(t, p, a4), font, full(), Front{})
	if err != nil {
		t.Fatal(err)
	}
	if all := words1(pages[0]); strings.Index(all, "(418.6)") > strings.Index(all, "437") || !strings.Contains(all, "(418.6)") {
		t.Error("the finished length stands before that of the cut")
	}
}

// By hand, all that is done to an outline; radii and set-backs by hand: 25·cot 20.42° =
// 67.2, and the arc of the cut 25 + (3 − 1.5)/2 = 25.75.
func TestStepsOfAShape(t *testing.T) {
	p, err := plate(t, plates[2][0], plates[2][1], plates[2][2], plates[2][3])
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(Steps(p, full()), "\n")
	for _, want := range []string{
		"Corner A: measure 30 from A along both edges. Knife from mark to mark.",
		"Corner B: round it with radius 25. The arc touches both edges 67.2 from B. 67.2 is computed.",
		"Hole Ø 12: measure 90 from A along AB. From there go 40 square into the piece to its centre.",
		"Hole Ø 12: swing 150 from A and 110 from C. Its centre is where the arcs cross.",
		"3 outside AB, 1.5 inside BC, 3 outside CA, 3 outside the cut at A, at B an arc of radius 25.8 that touches its neighbours",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in\n%s", want, all)
		}
	}
}

// What is to be measured begins and ends on a mark that a page shows: a corner of the
// cut line, or the end of what is done to it; and so do the lines of holes.
func TestMeasuresLieOnThePaper(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 12))
	all := append([][4]string{}, plates...)
	for range measuredPieces {
		size := 60 * math.Pow(12, rnd.Float64())
		ab, bc, ca := size, size*(0.6+0.35*rnd.Float64()), size*(0.6+0.35*rnd.Float64())
		all = append(all, [4]string{
			fmt.Sprintf("AB=%.1f BC=%.1f CA=%.1f", ab, bc, ca),
			fmt.Sprintf("AB allow %.1f;BC allow %.1f", size/40*(rnd.Float64()-0.5), size/40*(rnd.Float64()-0.5)),
			fmt.Sprintf("A cut %.1f;B round %.1f", 1+size/6*rnd.Float64(), 1+size/10*rnd.Float64()),
			fmt.Sprintf("%.1f at AB %.1f from A %.1f;%.1f at A %.1f B %.1f", size/30, size/8, ab*0.4, size/30, ab*0.55, ab*0.7),
		})
	}
	made := 0
	for n, c := range all {
		p, err := plate(t, c[0], c[1], c[2], c[3])
		if err != nil {
			continue
		}
		made++
		plan := coverOf(t, p, a4)
		f := face{onSheets: onSheets{piece: p, plan: plan, style: full(), corners: p.Outline, outline: plan.Place.Polygon(p.Outline.Points)}, scene: legible.NewScene(plan.Windows(), plan.Trimmed(), font)}
		shown := func(what string, at geom.Point) {
			if !f.shown(plan.Place.Apply(at), 0) {
				t.Errorf("%v: %s begins off the paper", c, what)
			}
		}
		for _, d := range p.checked() {
			for _, end := range []geom.Point{d.From, d.To} {
				shown(d.what, end)
				if !strings.Contains(d.what, "hole") && !marked(p, end) {
					t.Errorf("%v: %s ends at no mark", c, d.what)
				}
			}
		}
		if n < len(plates) {
			d, err := Draw(p, plan, font, full())
			if err != nil {
				t.Fatal(err)
			}
			for _, op := range d {
				if a, ok := op.(draw.Arc); ok && a.On == draw.Construction && !f.shown(a.Centre, 0) {
					t.Errorf("%v: an arc about a place off the paper, R %v", c, a.Radius)
				}
			}
		}
		for _, b := range p.Shape.Bores {
			for _, w := range f.ways(b) {
				if !f.shown(w.line.From, 0) {
					t.Errorf("%v: %q begins off the paper", c, w.say)
				}
			}
		}
	}
	if made < measuredPieces*2/3 {
		t.Errorf("only %d pieces", made)
	}
}

// marked says whether a segment of the cut line ends at a place.
func marked(p Piece, at geom.Point) bool {
	for _, s := range p.Shape.Cut {
		if s.At(0).Distance(at) < 1e-9 {
			return true
		}
	}
	return false
}

// No stroke of the construction runs along an edge: a dash-dotted one would come out
// unbroken.
func TestNothingRunsAlongAnEdge(t *testing.T) {
	for _, tokens := range []string{"AB=437 A=90deg CA=388", "AB=320 A=50deg CA=210", "AB=320 A=50deg B=60deg", "AB=320 A=50deg BC=260", "AB=320 C-AB=150 CA=210", "AB=320 C-AB=150 A=50deg"} {
		for _, by := range []construct.Method{construct.AsMeasured, construct.ByAngle, construct.BySquare, construct.ByArcs} {
			p := pieces(t, by, tokens)[0]
			shaped, err := plate(t, tokens, "AB allow 4;BC allow -3;CA allow 2", "C round 5", "")
			if err != nil {
				t.Fatal(err)
			}
			p.Shape = shaped.Shape
			plan := coverOf(t, p, paging.Sheet{Name: "A2", Width: 420, Height: 594, Left: 10, Right: 10, Top: 10, Bottom: 10})
			d, err := Draw(p, plan, font, full())
			if err != nil {
				t.Fatal(err)
			}
			var edges []geom.Line
			for _, s := range p.Shape.Sides {
				edges = append(edges, plan.Place.Line(s.Finished), plan.Place.Line(s.Cut))
			}
			lines := 0
			for _, op := range d {
				l, ok := op.(draw.Line)
				if !ok || l.On == draw.Outline {
					continue
				}
				lines++
				for _, e := range edges {
					along := 0
					for i := range 101 {
						if e.Distance(l.At(float64(i)/100)) < 1e-3 {
							along++
						}
					}
					if along > 2 {
						t.Errorf("%s by %d: %v runs along an edge", tokens, by, l)
					}
				}
			}
			if lines == 0 {
				t.Errorf("%s by %d: no lines", tokens, by)
			}
		}
	}
}

// What a ray and an edge leave of each other, on a line of whole numbers.
func TestWithout(t *testing.T) {
	at := func(x unit.Length) geom.Point { return geom.Point{X: x} }
	long := geom.Line{From: at(0), To: at(10)}
	for _, c := range []struct {
		others []geom.Line
		want   []geom.Line
	}{
		{nil, []geom.Line{long}},
		{[]geom.Line{{From: at(8), To: at(-1)}}, []geom.Line{{From: at(8), To: at(10)}}},
		{[]geom.Line{{From: at(3), To: at(4)}}, []geom.Line{{From: at(0), To: at(3)}, {From: at(4), To: at(10)}}},
		{[]geom.Line{{From: at(3), To: at(4)}, {From: at(4), To: at(12)}}, []geom.Line{{From: at(0), To: at(3)}}},
		{[]geom.Line{{From: at(-5), To: at(15)}}, nil},
		{[]geom.Line{{From: at(11), To: at(15)}}, []geom.Line{long}},
		{[]geom.Line{{From: geom.Point{X: 3, Y: -1}, To: geom.Point{X: 3, Y: 1}}}, []geom.Line{long}},
	} {
		got := without(long, c.others)
		if len(got) != len(c.want) {
			t.Errorf("%v: %v", c.others, got)
			continue
		}
		for i, w := range c.want {
			if got[i].From.Distance(w.From) > 1e-12 || got[i].To.Distance(w.To) > 1e-12 {
				t.Errorf("%v: %v, want %v", c.others, got, c.want)
			}
		}
	}
}
