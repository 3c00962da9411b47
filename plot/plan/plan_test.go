package plan

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/pdf"
	"trammel/plot/readback"
)

// Over 200 nets, clustered and even: labels keep apart on the plan and in its
// details; every peg has its name on the plan or in a detail that the plan points
// at; nothing is lettered too small; the bounds hold all; details are at least
// twice as large; lines hardly ever run through words.
func TestPlanOfNets(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	ruler := lettering.Go()
	labels, crossed, details, named := 0, 0, 0, 0
	for i := range gate.Of(40, 200) {
		p := clustered(r, 4+r.IntN(37))
		out := fitting(t, p)
		seen := map[geom.Name]bool{}
		look := func(what string, d draw.Drawing, bounds geom.Rect) inkOf {
			for _, op := range d {
				if b := op.Bounds(ruler); !bounds.Grow(1e-9).Has(b.Min) || !bounds.Grow(1e-9).Has(b.Max) {
					t.Errorf("%s: %+v lies outside of the bounds", what, op)
				}
				if o, ok := op.(draw.Text); ok && o.Height < draw.NoteHeight {
					t.Errorf("%s: %q is %.2f high", what, o.Words, o.Height)
				}
			}
			k := read(d, ruler)
			apartFrom(t, what, k)
			labels += len(k.words)
			crossed += crossings(k)
			for _, w := range k.words {
				seen[geom.Name(w)] = true
			}
			return k
		}
		what := fmt.Sprintf("net %d of %d pegs", i, len(p.Pegs))
		k := look(what, out.Ops, out.Bounds)
		for _, d := range p.DetailsOf(out, ruler, 190) {
			details++
			where := what + ", detail " + d.name
			e := look(where, d.ops, d.bounds)
			if float64(2*d.scale) > out.Scale || d.bounds.Width() > 190 {
				t.Errorf("%s: 1:%d of 1:%.1f, %.0f mm wide", where, d.scale, out.Scale, d.bounds.Width())
			}
			if !slices.Contains(k.words, "detail "+d.name) || !slices.Contains(e.words, "Detail "+d.name) {
				t.Errorf("%s is not named on the plan and above itself", where)
			}
		}
		for _, peg := range p.Pegs {
			if !seen[peg.Name] {
				t.Errorf("%s: %s has no name", what, peg.Name)
			}
			named++
		}
	}
	t.Logf("%d pegs named, %d details, a line runs through %d of %d labels", named, details, crossed, labels)
	if details == 0 || crossed*200 > labels {
		t.Errorf("%d details; a line runs through %d of %d labels", details, crossed, labels)
	}
}

// insideOf says whether a place lies in a polygon, by the count of edges that a ray
// to the right crosses.
func insideOf(p geom.Polygon, at geom.Point) bool {
	in := false
	for i := range p {
		a, b := p[i], p[(i+1)%len(p)]
		if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(at.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// Corner letters and the lengths of edges stand outside, at hollow corners too, and
// whichever way round the outline goes.
func TestLettersStandOutside(t *testing.T) {
	hollow := metresOf(0, 0, 9, 0, 9, 4, 5, 4, 5, 7, 0, 7)
	star := metresOf(0, 0, 12, 0, 8, 3, 12, 9, 5, 5, 0, 9)
	for _, points := range [][]geom.Point{hollow, star, metresOf(0, 0, 12, 0, 12, 8, 0, 8), metresOf(0, 0, 12, 0, 10, -7, 1, -5)} {
		p := layout(len(points), points)
		out := fitting(t, p)
		var on geom.Polygon
		for _, q := range points {
			on = append(on, q.Times(1/float64(out.Scale)))
		}
		n := 0
		for _, op := range out.Ops {
			o, ok := op.(draw.Text)
			if !ok || !slices.ContainsFunc(p.Pegs, func(peg Peg) bool { return string(peg.Name) == o.Words }) &&
				!slices.ContainsFunc(p.Sides, func(s Side) bool { return s.Words == o.Words }) {
				continue
			}
			n++
			b := o.Box(lettering.Go())
			if at := (geom.Line{From: b[0], To: b[2]}).At(0.5); insideOf(on, at) {
				t.Errorf("%q stands inside of %v", o.Words, points)
			}
		}
		if n != len(p.Pegs)+len(p.Sides) {
			t.Errorf("%d labels of %d pegs and %d sides", n, len(p.Pegs), len(p.Sides))
		}
	}
}

// The running dimensions lie below everything near them, below pegs that lie under
// the baseline too, and their marks are where the distances say, from either end.
func TestRunningDimensions(t *testing.T) {
	for _, zeroFirst := range []bool{true, false} {
		for _, low := range []float64{2, -3} {
			p := layout(0, metresOf(0, 0, 10, 0, 4, low, -2, 1))
			p.ZeroFirst = zeroFirst
			for i := range p.Pegs {
				if p.Pegs[i].Along = p.Pegs[i].At.X; !zeroFirst {
					p.Pegs[i].Along = 10000 - p.Pegs[i].At.X
				}
				p.Pegs[i].Running = fmt.Sprint(p.Pegs[i].Along)
			}
			out := p.Draw(100, lettering.Go())
			top, strokes := math.Inf(-1), 0
			for _, op := range out.Ops {
				switch o := op.(type) {
				case draw.Text:
					if strings.Contains(o.Words, "  ") {
						top = max(top, float64(o.Bounds(lettering.Go()).Max.Y))
					}
				case draw.Line:
					if o.On == draw.Dimension && math.Abs(float64(o.From.X-o.To.X)) < 1e-9 && slices.ContainsFunc(p.Pegs, func(q Peg) bool { return math.Abs(float64(q.At.X/100-o.From.X)) < 1e-9 }) {
						strokes++
					}
				}
			}
			if want := min(0, low*10) - 5; top > want || strokes < len(p.Pegs) {
				t.Errorf("zero first %v, low %v: figures up to %.1f, wanted below %.1f; %d marks", zeroFirst, low, top, want, strokes)
			}
		}
	}
}

// Ellipses in the finished PDF, read back by PDFium: their half axes are the factor
// that the sheet states times the given ones over the scale, turned as given.
func TestEllipsesInPDF(t *testing.T) {
	for _, enlarged := range []float64{Roundly, 40} {
		p := layout(4, metresOf(0, 0, 12, 0, 12, 8, 0, 8))
		p.Enlarged = enlarged
		out := p.Draw(100, lettering.Go())
		var moved draw.Drawing
		at := geom.Point{X: 30 - out.Bounds.Min.X, Y: 100 - out.Bounds.Min.Y}
		for _, op := range out.Ops {
			switch o := op.(type) {
			case draw.Polyline:
				o.Points = slices.Clone(o.Points)
				for i := range o.Points {
					o.Points[i] = o.Points[i].Plus(at)
				}
				moved = append(moved, o)
			case draw.Text:
				o.At = o.At.Plus(at)
				moved = append(moved, o)
			}
		}
		var file bytes.Buffer
		page := draw.Page{Kind: draw.Setout, Width: 297, Height: 297, Ops: moved}
		if err := pdf.Write(&file, draw.Document{Title: "ellipses", Language: "en", Pages: slices.Values([]draw.Page{page})}); err != nil {
			t.Fatal(err)
		}
		back := readback.Open(t, file.Bytes())[0]
		words := ""
		for _, w := range back.Words {
			words += w.Text + " "
		}
		var factor float64
		if _, err := fmt.Sscanf(words[strings.Index(words, "Ellipses"):], "Ellipses %f times enlarged: 95 %% of pegs fall inside.", &factor); err != nil {
			t.Fatalf("%v in %q", err, words)
		}
		if enlarged > 0 && factor != enlarged {
			t.Errorf("the sheet states %v, wanted %v", factor, enlarged)
		}
		for _, peg := range p.Pegs {
			centre := peg.At.Times(0.01).Plus(at)
			found := 0
			for _, path := range back.Paths {
				c := path.Corners()
				if len(c) < 50 || geom.RectOf(c[0], c...).Centre().Distance(centre) > 0.02 {
					continue
				}
				found++
				long, short, turn := 0.0, math.Inf(1), 0.0
				for _, q := range c {
					d := float64(q.Distance(centre))
					if d > long {
						long, turn = d, math.Atan2(float64(q.Y-centre.Y), float64(q.X-centre.X))
					}
					short = min(short, d)
				}
				wantLong, wantShort := factor*peg.Ellipse.Major.MM()/100, factor*peg.Ellipse.Minor.MM()/100
				if math.Abs(long-wantLong) > 0.005 || math.Abs(short-wantShort) > 0.005 {
					t.Errorf("%s at %v times: half axes %.4f and %.4f, want %.4f and %.4f", peg.Name, factor, long, short, wantLong, wantShort)
				}
				if off := math.Abs(math.Sin(turn - float64(peg.Ellipse.Turn))); off > 0.01 {
					t.Errorf("%s: turned by %.3f, want %.3f", peg.Name, turn, float64(peg.Ellipse.Turn))
				}
			}
			if found != 1 {
				t.Errorf("%s has %d ellipses", peg.Name, found)
			}
		}
	}
}

// 1, 2, 5 times powers of ten, the largest that keeps the longest half axis short
// enough; worked out by hand.
func TestEnlarge(t *testing.T) {
	for _, c := range []struct {
		longest unit.Length
		want    float64
	}{
		{0, 0}, {0.01, 500}, {0.012, 500}, {0.0121, 200}, {0.05, 100}, {0.06, 100}, {0.061, 50}, {0.3, 20}, {0.301, 10}, {2.9, 2}, {5, 1}, {40, 1},
	} {
		if got := enlarge(c.longest, 6); got != c.want {
			t.Errorf("half axis %v: %v times, want %v", c.longest, got, c.want)
		}
	}
}

// What a detail shows of a line is what lies in its circle.
func TestDiscClips(t *testing.T) {
	d := disc{geom.Point{X: 3, Y: 4}, 5}
	r := rand.New(rand.NewPCG(13, 14))
	for range 2000 {
		at := func() geom.Point {
			return geom.Point{X: unit.Length(r.NormFloat64()*6 + 3), Y: unit.Length(r.NormFloat64()*6 + 4)}
		}
		l := geom.Line{From: at(), To: at()}
		got, ok := d.clip(l)
		for i := range 101 {
			q := l.At(float64(i) / 100)
			from := float64(q.Distance(d.centre)) - 5
			on := ok && got.Distance(q) < 1e-9
			if from < -1e-6 && !on || from > 1e-6 && on {
				t.Fatalf("%v in %v: %v, %v; wrong at %v", l, d, got, ok, q)
			}
		}
	}
}

// Pegs in one place, none at all, a baseline that is missing: nothing panics and
// every name is there.
func TestPlanOfOddNets(t *testing.T) {
	ruler := lettering.Go()
	one := layout(0, metresOf(0, 0, 8, 0, 5, 5, 5, 5, 5.02, 5))
	if out := one.Draw(100, ruler); len(out.Ops) == 0 {
		t.Error("no plan")
	} else {
		k := read(out.Ops, ruler)
		for _, d := range one.DetailsOf(out, ruler, 190) {
			k.words = append(k.words, read(d.ops, ruler).words...)
		}
		for _, n := range []string{"A", "B", "C", "D", "E"} {
			if !slices.Contains(k.words, n) {
				t.Errorf("no %s among %v", n, k.words)
			}
		}
	}
	if out := (Plan{Enlarged: Roundly, Details: true}).Draw(100, ruler); len(out.Ops) != 0 || out.Bounds != (geom.Rect{}) {
		t.Errorf("a plan of nothing has %v", out.Ops)
	}
	bare := one
	bare.Base = [2]geom.Name{}
	bare.Pegs = bare.Pegs[2:3]
	if out := bare.Draw(100, ruler); !slices.Contains(read(out.Ops, ruler).words, "C") {
		t.Error("no C")
	}
}

// A tangle is left to the tables, and the plan says so.
func TestTooManyLines(t *testing.T) {
	p := survey200()
	out := p.Draw(1000, lettering.Go())
	k := read(out.Ops, lettering.Go())
	if want := "1000 lines between pegs are left out: they are in the tables."; !slices.Contains(k.words, want) {
		t.Errorf("no %q", want)
	}
}

func BenchmarkPlan(b *testing.B) {
	r := rand.New(rand.NewPCG(7, 8))
	for _, c := range []struct {
		name string
		Plan
	}{{"40 clustered", clustered(r, 40)}, {"200 clustered", clustered(r, 200)}, {"200 and 1000 distances", survey200()}} {
		b.Run(c.name, func(b *testing.B) {
			ruler := lettering.Go()
			for b.Loop() {
				out := c.Draw(500, ruler)
				b.ReportMetric(float64(len(c.DetailsOf(out, ruler, 190))), "details")
			}
		})
	}
}
