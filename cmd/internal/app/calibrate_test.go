package app

import (
	"bytes"
	"fmt"
	"io"
	"iter"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trammel/cmd/internal/calibration"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/readback"
	"trammel/profiles"
	"trammel/profiles/job"
)

// press is a printer that is not true: x' = ux·x + vx·y + …, as its own feed and
// drum have it, the page turned and shifted on the paper as it happens.
type press struct{ ux, uy, vx, vy, dx, dy float64 }

// pressOf has the given scales and the angle between across and along 90° and skew.
func pressOf(random *rand.Rand, across, along, skew float64) press {
	turn := (random.Float64() - 0.5) / 100
	a, b := turn, turn+math.Pi/2+skew*math.Pi/180
	return press{across * math.Cos(a), across * math.Sin(a), along * math.Cos(b), along * math.Sin(b), random.Float64() * 3, random.Float64() * 3}
}

func (p press) print(q geom.Point) geom.Point {
	x, y := float64(q.X), float64(q.Y)
	return geom.Point{X: unit.Length(p.ux*x + p.vx*y + p.dx), Y: unit.Length(p.uy*x + p.vy*y + p.dy)}
}

// presses are the printers of the figures.
func presses(n int, seed uint64) []press {
	random := rand.New(rand.NewPCG(seed, 1))
	one := func() float64 { return 2*random.Float64() - 1 }
	var all []press
	for range n {
		all = append(all, pressOf(random, 1+0.015*one(), 1+0.015*one(), 0.3*one()))
	}
	return all
}

func written(t *testing.T, write func(io.Writer) error) []readback.Page {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return readback.Open(t, b.Bytes())
}

// crosses finds the four crosses of a sheet by their shape: two strokes of 10 mm
// with the same middle. They come as A, B, C, D.
func crosses(t *testing.T, p readback.Page) [4]geom.Point {
	t.Helper()
	var middles, found []geom.Point
	for _, s := range p.Paths {
		if len(s.Segments) != 1 || math.Abs(float64(s.Start.Distance(s.Segments[0].To))-10) > 0.4 {
			continue
		}
		m := s.Start.Plus(s.Segments[0].To).Times(0.5)
		for _, o := range middles {
			if o.Distance(m) < 0.001 {
				found = append(found, m)
			}
		}
		middles = append(middles, m)
	}
	if len(found) != 4 {
		t.Fatalf("%d crosses on the sheet: %v", len(found), found)
	}
	var c [4]geom.Point
	for _, m := range found {
		switch left, low := m.X < p.Width/2, m.Y < p.Height/2; {
		case left && low:
			c[0] = m
		case low:
			c[1] = m
		case left:
			c[3] = m
		default:
			c[2] = m
		}
	}
	return c
}

// ticks finds those of the length from a to b: short strokes that stand on it square
// near its end, from the end on.
func ticks(p readback.Page, a, b geom.Point) []geom.Point {
	var at []geom.Point
	long := a.Distance(b)
	along := b.Minus(a).Times(1 / float64(long))
	for _, s := range p.Paths {
		if len(s.Segments) != 1 {
			continue
		}
		if l := s.Start.Distance(s.Segments[0].To); l < 1.9 || l > 4 {
			continue
		}
		q := s.Start.Minus(a)
		x, y := float64(q.X*along.X+q.Y*along.Y), float64(q.Y*along.X-q.X*along.Y)
		if back := float64(long) - x; math.Abs(y) < 0.01 && back > 0 && back < 40 {
			at = append(at, s.Start)
		}
	}
	slices.SortFunc(at, func(p, q geom.Point) int { return int(math.Copysign(1, float64(b.Distance(p)-b.Distance(q)))) })
	return at
}

var lengthsOfSheet = [4][2]int{{0, 1}, {0, 3}, {0, 2}, {1, 3}}

// sheetOf is a finished sheet as a person with a rule looks at it.
type sheetOf struct {
	corners [4]geom.Point
	ticks   [4][]geom.Point
}

func lookAt(t *testing.T, p readback.Page) sheetOf {
	s := sheetOf{corners: crosses(t, p)}
	for i, l := range lengthsOfSheet {
		s.ticks[i] = ticks(p, s.corners[l[0]], s.corners[l[1]])
	}
	return s
}

// hand is who reads, and what with: off by so much at each of the four lengths, and by
// chance.
type hand struct {
	noise  float64 // one standard deviation
	rule   [4]float64
	random *rand.Rand
}

func (h hand) off(i int) float64 {
	if h.noise == 0 {
		return h.rule[i]
	}
	return h.rule[i] + h.noise*h.random.NormFloat64()
}

// read is what is found on the sheet from a press: quarters by eye, or where there
// are ticks the tenth of the tick that is nearest to a mark of the rule.
func (s sheetOf) read(t *testing.T, p press, h hand) string {
	t.Helper()
	var found [4]float64
	for i, l := range lengthsOfSheet {
		a := p.print(s.corners[l[0]])
		off := h.off(i)
		came := off + float64(a.Distance(p.print(s.corners[l[1]])))
		if len(s.ticks[i]) == 0 {
			found[i] = math.Round(came*4) / 4
			continue
		}
		if len(s.ticks[i]) != 10 {
			t.Fatalf("%d ticks", len(s.ticks[i]))
		}
		best, least := 0, 1.0
		for k, q := range s.ticks[i] {
			at := off + float64(a.Distance(p.print(q)))
			if off := math.Abs(at - math.Round(at)); off < least {
				best, least = k, off
			}
		}
		found[i] = math.Round(came-float64(best)/10) + float64(best)/10
	}
	return fmt.Sprintf("width=%.2f,height=%.2f,diagonal=%.2f,diagonal=%.2f", found[0], found[1], found[2], found[3])
}

func sheetFor(t *testing.T, paper string, known *profiles.Calibration, said profiles.RuleSaid) calibration.Step {
	t.Helper()
	set, err := profiles.Load()
	if err != nil {
		t.Fatal(err)
	}
	c, err := calibration.Open(set, calibration.Options{
		Printer: job.Setting{Text: "shed"}, Paper: job.Setting{Text: paper}, Again: known != nil, Known: known,
		Rule: job.Setting{Text: said.Rule, Where: "--rule"}, Reading: job.Setting{Text: said.Reading, Where: "--reading"},
	})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// sheetPDF is what is printed.
func sheetPDF(t *testing.T, c calibration.Step) func(io.Writer) error {
	t.Helper()
	pages, err := c.Pages(lettering.Go())
	if err != nil {
		t.Fatal(err)
	}
	return (&Document{pages: func() iter.Seq[draw.Page] { return slices.Values(pages) }}).pdf
}

func learn(t *testing.T, c calibration.Step, found string) profiles.Calibration {
	t.Helper()
	f, err := calibration.ParseFound(found)
	if err != nil {
		t.Fatal(err)
	}
	l, err := c.Learn(f, "2024-06-11")
	if err != nil {
		t.Fatalf("%s: %v", found, err)
	}
	// As it is kept and read again.
	k, err := profiles.ReadCalibration("shed.yaml", l.Text())
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// outline is the piece's on a page: the closed shape of the wide pen.
func outline(t *testing.T, p readback.Page) []geom.Point {
	t.Helper()
	for _, s := range p.Paths {
		if s.Closed && !s.Filled && s.Layer == "outline" && s.Width > 0.4 {
			if c := s.Corners(); len(c) >= 3 {
				return c[:3]
			}
		}
	}
	t.Fatal("no outline on the page")
	return nil
}

const brace = "pieces: [{name: Brace, measure: [AB=170, BC=160, CA=150]}]\n"

// printedError is how wrong the finished template is, by its own sides and by the
// worst direction there is, of the length. The template's PDF is read back, put
// through the press and compared with the triangle as measured.
func printedError(t *testing.T, p press, k *profiles.Calibration, paper string) (sides [3]float64, worst float64) {
	t.Helper()
	w := mustOpen(t, brace, Options{
		Printer: job.Setting{Text: "shed"}, Paper: job.Setting{Text: paper},
		Calibration: func(string) (*profiles.Calibration, error) { return k, nil },
	})
	tpl, err := w.template()
	if err != nil {
		t.Fatal(err)
	}
	pages := written(t, tpl.document().pdf)
	c := outline(t, pages[len(pages)-1]) // behind the index, where there is one
	var q [3]geom.Point
	for i := range q {
		q[i] = p.print(c[i])
	}
	true3 := w.Pieces[0].Triangle().Sides // BC, CA, AB as the corners come: any order, by size
	got := []float64{float64(q[0].Distance(q[1])), float64(q[1].Distance(q[2])), float64(q[2].Distance(q[0]))}
	want := []float64{float64(true3[0]), float64(true3[1]), float64(true3[2])}
	slices.Sort(got)
	slices.Sort(want)
	for i := range sides {
		sides[i] = got[i]/want[i] - 1
	}
	// The map from what was meant, which is what the report's matrix and the warp
	// say, to what came out.
	m := tpl.report()
	back, _ := geom.Affine(*m.Pages[0].Warp).Inverse()
	var o [3]geom.Point
	for i := range o {
		o[i] = back.Apply(c[i])
	}
	a, b := o[1].Minus(o[0]), o[2].Minus(o[0])
	x, y := q[1].Minus(q[0]), q[2].Minus(q[0])
	det := float64(a.X*b.Y - b.X*a.Y)
	for i := range 720 {
		s, c := math.Sincos(float64(i) * math.Pi / 720)
		u := (c*float64(b.Y) - s*float64(b.X)) / det
		v := (s*float64(a.X) - c*float64(a.Y)) / det
		l := math.Hypot(u*float64(x.X)+v*float64(y.X), u*float64(x.Y)+v*float64(y.Y))
		worst = math.Max(worst, math.Abs(l-1))
	}
	return sides, worst
}

// 200 printers are read by a hand that is good to 0.07 mm, which is said: 95 of 100
// corrected pages keep what was promised. Of 60 with a rule that is off by all that its class
// allows (Directive 2014/32/EU, annex X: ±(0.1 + 0.1 L) mm for class I, ±(0.3 + 0.2 L)
// for class II, L in metres rounded up) as many keep it, and would not without its share.
func TestPromiseIsKept(t *testing.T) {
	first := sheetFor(t, "A4", nil, profiles.RuleSaid{})
	seen := lookAt(t, written(t, sheetPDF(t, first))[0])
	for _, c := range []struct {
		name        string
		said        profiles.RuleSaid
		rule        [4]float64
		least, most float64 // per cent of printers that keep it
		alone       float64 // that keep the share of reading alone, at most
		printers    int
	}{
		{"a true rule", profiles.RuleSaid{Rule: "0", Reading: "0.07mm"}, [4]float64{}, 93, 97, 97, 200},
		{"class I, all long", profiles.RuleSaid{Rule: "I", Reading: "0.07mm"}, [4]float64{0.2, 0.2, 0.2, 0.2}, 95, 100, 90, 60},
		{"class I, off at the width", profiles.RuleSaid{Rule: "I", Reading: "0.07mm"}, [4]float64{-0.2, 0, 0, 0}, 95, 100, 90, 60},
		{"class II, off at the width", profiles.RuleSaid{Rule: "II", Reading: "0.07mm"}, [4]float64{0.5, 0, 0, 0}, 95, 100, 10, 60},
		{"class II, which nobody said", profiles.RuleSaid{}, [4]float64{0.5, 0, 0, 0}, 95, 100, 10, 60},
	} {
		h := hand{noise: 0.07, rule: c.rule, random: rand.New(rand.NewPCG(8, 8))}
		printers := c.printers / printersEach
		kept, alone := 0, 0
		first := sheetFor(t, "A4", nil, c.said)
		var k profiles.Calibration
		for _, p := range presses(printers, 43) {
			k = learn(t, first, seen.read(t, p, h))
			_, worst := printedError(t, p, &k, "A4")
			if worst <= k.Uncertainty {
				kept++
			}
			if worst <= k.Uncertainty-k.OfRule {
				alone++
			}
		}
		rate, without := 100*float64(kept)/float64(printers), 100*float64(alone)/float64(printers)
		t.Logf("%s: %.1f %% keep %.2f mm per metre, of which %.2f is the rule's; without that %.1f %% would", c.name, rate, 1000*k.Uncertainty, 1000*k.OfRule, without)
		if rate < c.least-chanceOfKept || rate > c.most+chanceOfKept || without > c.alone+chanceOfKept {
			t.Errorf("%s: %.1f %% keep the promise, want %v to %v; %.1f %% without the rule's share", c.name, rate, c.least, c.most, without)
		}
	}
}

// 200 printers that are up to 1.5 % out each way and 0.3° askew, read as the sheets
// ask for: a template printed afterwards, its PDF read back by PDFium and put
// through the printer, is within a quarter of a millimetre per metre in 95 of 100,
// on A4 after the corrected sheet, which is read in tenths; the prediction holds. (By a
// true rule, and with nothing but the step of reading.)
func TestTwoHundredPrinters(t *testing.T) {
	printers := manyPrinters
	for _, c := range []struct {
		paper  string
		sheets int
		least  float64 // per cent of sides within a quarter
		met    bool    // the figure of 95 is
	}{{"A4", 1, 55, false}, {"A4", 2, 95, true}} {
		exact := profiles.RuleSaid{Rule: "0", Reading: "0"}
		first := sheetFor(t, c.paper, nil, exact)
		seen := lookAt(t, written(t, sheetPDF(t, first))[0])
		sides, worsts, within := 0, 0, 0
		for _, p := range presses(printers, 42) {
			k := learn(t, first, seen.read(t, p, hand{}))
			for range c.sheets - 1 {
				again := sheetFor(t, c.paper, &k, exact)
				k = learn(t, again, lookAt(t, written(t, sheetPDF(t, again))[0]).read(t, p, hand{}))
			}
			each, worst := printedError(t, p, &k, c.paper)
			for _, e := range each {
				if math.Abs(e) <= 0.00025 {
					sides++
				}
			}
			if worst <= 0.00025 {
				worsts++
			}
			if worst <= k.Uncertainty {
				within++
			}
		}
		rate := 100 * float64(sides) / float64(3*printers)
		cover := 100 * float64(within) / float64(printers)
		t.Logf("%s, %d: %.1f %% of sides within 0.25 mm/m, %.1f %% of printers in every direction; the prediction covers %.1f %%", c.paper, c.sheets, rate, 100*float64(worsts)/float64(printers), cover)
		if rate < c.least || !c.met && rate >= 95 {
			t.Errorf("%s after %d: %.1f %% of sides are within a quarter of a millimetre per metre", c.paper, c.sheets, rate)
		}
		// 200 printers leave 1.5 % of chance on 95 %, 60 leave 2.8.
		if math.Abs(cover-95) > chanceOfCover {
			t.Errorf("%s after %d: the prediction covers %.1f %%, want 95 ± %v", c.paper, c.sheets, cover, chanceOfCover)
		}
	}
}

// The pages of a template of several pages keep, warped, within what the printer
// reaches, say which printer they are for, and have matrices that lead to the file.
func TestPagesForOnePrinter(t *testing.T) {
	for _, m := range []profiles.Misprint{{Across: -0.015, Along: -0.014, Skew: 0.3 * unit.Degree}, {Across: 0.02, Along: -0.03, Skew: -1 * unit.Degree}, {}} {
		k := profiles.Calibration{Printer: "Shed", Paper: "A4", Width: 210, Height: 297, Found: m, Edges: &profiles.Edges{Left: 5, Top: 4, Right: 6, Bottom: 12}}
		for _, o := range []Options{{}, {Landscape: true}, {Margin: job.Setting{Text: "15mm"}}} {
			o.Printer = job.Setting{Text: "shed"}
			o.Calibration = func(string) (*profiles.Calibration, error) { return &k, nil }
			w := mustOpen(t, "pieces: [{name: Gable, measure: [AB=700, BC=600, CA=650]}]\n", o)
			tpl, err := w.template()
			if err != nil {
				t.Fatal(err)
			}
			pages := written(t, tpl.document().pdf)
			r := tpl.report()
			if len(pages) < 4 || len(r.Pages) != len(pages) {
				t.Fatalf("%d pages, %d in the report", len(pages), len(r.Pages))
			}
			edge := geom.Rect{Min: geom.Point{X: 5, Y: 12}, Max: geom.Point{X: pages[0].Width - 6, Y: pages[0].Height - 4}}
			if o.Margin.Text != "" {
				edge = geom.Rect{Min: geom.Point{X: 15, Y: 15}, Max: geom.Point{X: pages[0].Width - 15, Y: pages[0].Height - 15}}
			}
			reached := 0
			for i, p := range pages {
				words := ""
				for _, x := range p.Words {
					words += x.Text + " "
				}
				if !strings.Contains(words, "for printer Shed: wrong on any other") {
					t.Errorf("page %d does not say which printer it is for: %s", i+1, words)
				}
				for _, s := range p.Paths {
					for _, q := range s.Corners() {
						if !edge.Grow(0.001).Has(q) {
							t.Fatalf("%+v, page %d: a mark at %v, outside %v", m, i+1, q, edge)
						}
						if !edge.Grow(-0.6).Has(q) {
							reached++
						}
					}
				}
				// Corners of the piece on this page, by the matrix, are ends of its marks.
				for _, pl := range r.Pages[i].Places {
					for _, at := range r.Pieces[0].Points {
						q := geom.Affine(pl.Matrix).Apply(geom.Point{X: unit.Length(at[0]), Y: unit.Length(at[1])})
						if !edge.Grow(-3).Has(q) {
							continue
						}
						near := unit.Length(math.Inf(1))
						for _, s := range p.Paths {
							if s.Layer == "outline" {
								for _, c := range s.Corners() {
									near = min(near, c.Distance(q))
								}
							}
						}
						if near > 0.005 {
							t.Errorf("page %d: by the matrix a corner is at %v, and no mark within %v", i+1, q, near)
						}
					}
				}
			}
			if reached == 0 {
				t.Errorf("%+v: no mark comes near the edge of what is printed on: paper is wasted", m)
			}
		}
	}
}

// A page that goes through on its side is corrected as the press turns it.
func TestOnItsSide(t *testing.T) {
	k := profiles.Calibration{Printer: "shed", Paper: "A4", Width: 210, Height: 297, Found: profiles.Misprint{Across: 0.01, Along: -0.005, Skew: 0.2 * unit.Degree}}
	w := mustOpen(t, "pieces: [{name: Brace, measure: [AB=200, BC=160, CA=150]}]\n", Options{
		Printer: job.Setting{Text: "shed"}, Landscape: true, Calibration: func(string) (*profiles.Calibration, error) { return &k, nil },
	})
	tpl, err := w.template()
	if err != nil {
		t.Fatal(err)
	}
	pages := written(t, tpl.document().pdf)
	c := outline(t, pages[len(pages)-1])
	p := pressOf(rand.New(rand.NewPCG(1, 1)), 1.01, 0.995, 0.2)
	for _, turned := range []func(geom.Point) geom.Point{
		func(q geom.Point) geom.Point { return geom.Point{X: -q.Y, Y: q.X} },
		func(q geom.Point) geom.Point { return geom.Point{X: q.Y, Y: -q.X} },
	} {
		var got []float64
		for i := range c {
			got = append(got, float64(p.print(turned(c[i])).Distance(p.print(turned(c[(i+1)%3])))))
		}
		slices.Sort(got)
		for i, want := range []float64{150, 160, 200} {
			if math.Abs(got[i]-want) > 0.002 {
				t.Errorf("a side of %v comes out as %v", want, got[i])
			}
		}
	}
}
