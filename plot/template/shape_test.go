package template

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// plate is a piece with work done to it, each list of tokens parted by semicolons.
func plate(t testing.TB, tokens, edges, corners, holes string) (Piece, error) {
	t.Helper()
	p := piece(t, tokens)
	var w shape.Work
	each := func(list string, do func(string) error) {
		for _, token := range strings.Split(list, ";") {
			if token == "" {
				continue
			}
			if err := do(token); err != nil {
				t.Fatal(err)
			}
		}
	}
	each(edges, func(s string) error {
		a, err := shape.ParseAllowance(s, unit.MM)
		w.Allowances = append(w.Allowances, a)
		return err
	})
	each(corners, func(s string) error {
		c, err := shape.ParseCorner(s, unit.MM)
		w.Corners = append(w.Corners, c)
		return err
	})
	each(holes, func(s string) error {
		h, err := shape.ParseHole(s, unit.MM)
		w.Holes = append(w.Holes, h)
		return err
	})
	tri := p.Triangle
	made, err := shape.Make(tri.Polygon(), tri.Names[:], w, unit.Style{})
	p.Shape, p.Grain, p.Face = made, [2]geom.Name{"A", "B"}, "face up"
	return p, err
}

var plates = [][4]string{
	{"AB=180 BC=140 CA=120", "AB allow 3;BC allow 3;CA allow 3", "A cut 15;B round 12;C blunt 4", "10 at AB 25 from A 60;10 at AB 25 from B 60"},
	{"AB=600 BC=450 CA=450", "AB allow 3;BC allow -1.5", "A cut 20;B round 15", "12 at AB 40 from A 100;12 at A 200 B 450"},
	{"AB=320 BC=260 CA=210", "AB allow 3;BC allow -1.5;CA allow 3", "A cut 30;B round 25", "12 at AB 40 from A 90;12 at A 150 C 110"},
	{"AB=150 BC=150 CA=150", "", "A round 10;B round 10;C round 10", "60 at AB 43.3 from A 75"},
	{"AB=400 BC=390 CA=60", "AB allow 20", "", "8 at CA 15 from A 25"},
	{"AB=500 A=30deg B=100deg", "CA allow -12", "B cut 60 allow 5", ""},
}

func coverOf(t testing.TB, p Piece, on paging.Sheet) paging.Plan {
	t.Helper()
	plan, err := paging.Lay(p.Shape.Cover(0.5), on, paging.Full, nil, paging.Effort{})
	if err != nil {
		t.Fatal(err)
	}
	return Settle(plan)
}

// apartOps is a drawing with its paths taken apart, as the measuring of labels
// knows lines and arcs.
func apartOps(d draw.Drawing) draw.Drawing {
	var all draw.Drawing
	for _, op := range d {
		if o, ok := op.(draw.Path); ok {
			all = append(all, o.Parts()...)
		} else {
			all = append(all, op)
		}
	}
	return all
}

// Words of shaped pieces keep their distance from lines and from each other.
func TestLabelsOfShapesTouchNothing(t *testing.T) {
	for _, c := range plates {
		p, err := plate(t, c[0], c[1], c[2], c[3])
		if err != nil {
			t.Fatal(err)
		}
		for _, on := range []paging.Sheet{a4, a5} {
			plan := coverOf(t, p, on)
			for _, hand := range []string{"", "opposite hand"} {
				p.Hand = hand
				d, missed, err := drawn(p, plan, font, full())
				if err != nil {
					t.Fatal(err)
				}
				if len(missed) > 0 {
					t.Errorf("%s on %s: no room for %q", c[0], on.Name, missed)
				}
				if err := fault(apartOps(d), plan.Windows(), font); err != nil {
					t.Errorf("%s on %s: %v", c[0], on.Name, err)
				}
			}
		}
	}
}

// What the drawing says: each allowance with its sign, each corner, each hole with
// its two distances, the grain's arrow parallel to its edge and inside.
func TestShapeIsSaid(t *testing.T) {
	p, err := plate(t, plates[1][0], plates[1][1], plates[1][2], plates[1][3])
	if err != nil {
		t.Fatal(err)
	}
	plan := coverOf(t, p, a4)
	d, err := Draw(p, plan, font, full())
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]int{}
	wide, behind := 0, 0
	var grain []draw.Line
	for i, op := range d {
		switch o := op.(type) {
		case draw.Text:
			said[o.Words]++
			if o.Words == "grain" {
				grain = append(grain, d[i-3].(draw.Line))
			}
		case draw.Path:
			if o.Pen == draw.Wide {
				wide++
			} else if o.Pen == draw.Behind {
				behind++
			}
			if o.On != draw.Outline {
				t.Errorf("a path on the layer %s", o.On)
			}
		}
	}
	for _, w := range []string{"finished 600", "finished 450, −1.5", "cut 20, +3", "R 15", "40 from AB", "450 from B", "mark 2, face up", "grain", "cut line", "finished edge", p.Name} {
		if said[w] != 1 {
			t.Errorf("%q is said %d times", w, said[w])
		}
	}
	for _, w := range []string{"100 from A", "200 from A", "saw allowance 3"} { // of a hole, of a tick, on more than one sheet
		if said[w] < 1 {
			t.Errorf("%q is not said", w)
		}
	}
	if said["Ø 12"] != 2 || wide != 1 || behind != 1 {
		t.Errorf("Ø %d, wide %d, behind %d", said["Ø 12"], wide, behind)
	}
	ab := plan.Place.Line(geom.Line{From: p.Triangle.Points[0], To: p.Triangle.Points[1]})
	for _, g := range grain {
		if off := math.Remainder(float64(g.Line.Direction()-ab.Direction()), math.Pi); math.Abs(off) > 1e-9 {
			t.Errorf("the grain is %v off AB", off)
		}
		if c := plan.Place.Contour(p.Shape.Finished); !c.Has(g.From) || !c.Has(g.To) {
			t.Error("the grain's arrow leaves the piece")
		}
	}
	if m := full().says().Templates().Measures(p.Shape); !strings.Contains(m, "finished") {
		t.Errorf("the title says %q", m)
	}
	pages, err := Index(p, plan, font, full(), Front{})
	if err != nil {
		t.Fatal(err)
	}
	all := ""
	for _, page := range pages {
		all += words1(page) + "\n"
	}
	for _, w := range []string{"Saw and square", "saw from a", "square cut", "along the", "grain along AB"} {
		if !strings.Contains(all, w) {
			t.Errorf("the index page does not say %q", w)
		}
	}
}

// Nothing that can be made cannot be drawn.
func TestAnyShapeIsDrawn(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	made := 0
	for n := 0; made < anyShapes; n++ {
		if n > 5000 {
			t.Fatal("too few shapes can be made")
		}
		size := 30 * math.Pow(20, rnd.Float64())
		ab, bc, ca := size*(0.2+rnd.Float64()), size*(0.2+rnd.Float64()), size*(0.2+rnd.Float64())
		if 1.05*max(ab, bc, ca)*2 > ab+bc+ca {
			continue
		}
		p, err := plate(t, fmt.Sprintf("AB=%.1f BC=%.1f CA=%.1f", ab, bc, ca),
			fmt.Sprintf("AB allow %.1f;BC allow %.1f", size/10*(rnd.Float64()-0.5), size/10*(rnd.Float64()-0.3)),
			fmt.Sprintf("A cut %.1f;B round %.1f", 0.5+size/5*rnd.Float64(), 0.5+size/8*rnd.Float64()),
			fmt.Sprintf("%.1f at AB %.1f from A %.1f", 0.5+size/20*rnd.Float64(), size/5*rnd.Float64(), ab*rnd.Float64()))
		if err != nil {
			continue
		}
		made++
		if _, _, err := drawn(p, coverOf(t, p, a4), font, full()); err != nil {
			t.Error(err)
		}
	}
}
