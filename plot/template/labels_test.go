package template

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/gate"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// The distances here are measured on the finished drawing by other means than the
// code that placed the words: from points along the edges of a box, 0.1 mm apart,
// to the exact line or arc.
func around(b [4]geom.Point) []geom.Point {
	var all []geom.Point
	for i := range b {
		l := geom.Line{From: b[i], To: b[(i+1)%4]}
		n := int(l.Length()/0.1) + 1
		for k := range n {
			all = append(all, l.At(float64(k)/float64(n)))
		}
	}
	return all
}

func fromLine(p geom.Point, l geom.Line) float64 {
	ux, uy := float64(l.To.X-l.From.X), float64(l.To.Y-l.From.Y)
	wx, wy := float64(p.X-l.From.X), float64(p.Y-l.From.Y)
	t := (ux*wx + uy*wy) / (ux*ux + uy*uy)
	t = math.Max(0, math.Min(1, t))
	return math.Hypot(wx-t*ux, wy-t*uy)
}

func fromArc(p geom.Point, a geom.Arc) float64 {
	if a.Spans(unit.Angle(math.Atan2(float64(p.Y-a.Centre.Y), float64(p.X-a.Centre.X)))) {
		return math.Abs(float64(p.Distance(a.Centre) - a.Radius))
	}
	return math.Min(float64(p.Distance(a.At(0))), float64(p.Distance(a.At(1))))
}

// fault is the first label that touches something or lies on no page.
func fault(d draw.Drawing, windows []geom.Rect, r draw.Ruler) error {
	return touching(d, windows, r, 0.8, 2)
}

func touching(d draw.Drawing, windows []geom.Rect, r draw.Ruler, toLine, toWords float64) error {
	var texts []draw.Text
	for _, op := range d {
		if o, ok := op.(draw.Text); ok {
			texts = append(texts, o)
		}
	}
	for i, o := range texts {
		if o.Height < draw.NoteHeight {
			return fmt.Errorf("%q is %v high", o.Words, o.Height)
		}
		b := o.Bounds(r)
		housed := false
		for _, w := range windows {
			g := w.Grow(-1 + 1e-9)
			housed = housed || g.Has(b.Min) && g.Has(b.Max)
		}
		if !housed {
			return fmt.Errorf("%q at %v lies on no page", o.Words, o.At)
		}
		points := around(o.Box(r))
		near := func(what string, least float64, from func(geom.Point) float64) error {
			for _, p := range points {
				if g := from(p); g < least {
					return fmt.Errorf("%q at %.1f is %.2f from %s", o.Words, o.At, g, what)
				}
			}
			return nil
		}
		for j, q := range texts {
			if j == i || !q.Bounds(r).Grow(3).Meets(b) {
				continue
			}
			c := q.Box(r)
			for k := range c {
				l := geom.Line{From: c[k], To: c[(k+1)%4]}
				if err := near(fmt.Sprintf("%q", q.Words), toWords-1e-6, func(p geom.Point) float64 { return fromLine(p, l) }); err != nil {
					return err
				}
			}
		}
		for _, op := range d {
			if !op.Bounds(r).Grow(2).Meets(b) {
				continue
			}
			var err error
			switch m := op.(type) {
			case draw.Line:
				err = near("a line", toLine+float64(m.Pen.Width)/2-1e-6, func(p geom.Point) float64 { return fromLine(p, m.Line) })
			case draw.Arc:
				err = near("an arc", toLine+float64(m.Pen.Width)/2-1e-6, func(p geom.Point) float64 { return fromArc(p, m.Arc) })
			case draw.Polyline:
				for k := range m.Points {
					if err == nil && (m.Closed || k < len(m.Points)-1) {
						err = near("an outline", toLine+float64(m.Pen.Width)/2-1e-6, func(p geom.Point) float64 { return fromLine(p, geom.Polygon(m.Points).Edge(k)) })
					}
				}
			}
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// oneTriangle is three sides of 60 mm to about 1.2 m, each ninth down to 10 mm: needles,
// right ones and any.
func oneTriangle(rnd *rand.Rand, n int) (ab, bc, ca float64) {
	for {
		size, least := 60*math.Pow(20, rnd.Float64()), 60.0
		if n%9 == 4 {
			size, least = size/6, 10
		}
		ab, bc, ca = size*(0.02+rnd.Float64()), size*(0.02+rnd.Float64()), size*(0.02+rnd.Float64())
		switch {
		case n%5 == 0:
			bc = ab + ca*(1-0.1*rnd.Float64()*rnd.Float64())
		case n%7 == 0:
			bc = math.Hypot(ab, ca)
		}
		ab, bc, ca = math.Round(ab*10)/10, math.Round(bc*10)/10, math.Round(ca*10)/10
		if long := max(ab, bc, ca); long >= least && min(ab, bc, ca) >= 1 && 2*long < (ab+bc+ca)*(1-1e-4) {
			return ab, bc, ca
		}
	}
}

func TestLabelsTouchNothing(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	methods := []construct.Method{construct.ByArcs, construct.ByAngle, construct.BySquare}
	for n := range trianglesLabels {
		ab, bc, ca := oneTriangle(rnd, n)
		on, cover := []paging.Sheet{a4, a5}[n%2], paging.Cover(n/2%2)
		p := pieces(t, methods[n/4%3], fmt.Sprintf("AB=%.1f BC=%.1f CA=%.1f", ab, bc, ca))[0]
		plan, err := paging.Lay(p.Triangle.Polygon(), on, cover, nil, paging.Effort{})
		if err != nil {
			t.Fatal(err)
		}
		if n%3 != 0 { // a third lies hard against the edges of its pages
			plan = Settle(plan)
		}
		d, missed, err := drawn(p, plan, font, full())
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("%.1f %.1f %.1f on %s (%d pages)", ab, bc, ca, on.Name, len(plan.Cells))
		if err := fault(d, plan.Windows(), font); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if missed != nil {
			t.Errorf("%s: no room for %q", name, missed)
		}
		for _, err := range []error{crossed(d, p.Construction), pastArms(d, plan.Outline), adrift(d)} {
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

// Sizes that a job may have, each way of saying lengths, on the small paper.
func TestLabelsInEveryUnit(t *testing.T) {
	few := []string{"AB=60 BC=60 CA=60", "AB=2400 BC=1237.4 CA=1237.4", "AB=60 BC=58 CA=3"}
	all := append(few, "AB=15000 BC=12000 CA=9000", "AB=7200 BC=3712.3 CA=3712.3")
	for _, figures := range []unit.Style{{}, {Unit: unit.CM}, {Unit: unit.M}, {Unit: unit.IN}, {Unit: unit.FT, Denominator: 64}, {Minutes: true}} {
		for _, tokens := range gate.Of(few, all) {
			p := piece(t, tokens)
			for _, cover := range []paging.Cover{paging.Full, paging.OutlineOnly} {
				turn := 10 * unit.Degree
				plan, err := paging.Lay(p.Triangle.Polygon(), a5, cover, &turn, paging.Effort{})
				if err != nil {
					t.Fatal(err)
				}
				s := full()
				s.Figures = figures
				d, missed, err := drawn(p, plan, font, s)
				if err != nil || missed != nil {
					t.Fatalf("%s, %+v: %q without room, %v", tokens, figures, missed, err)
				}
				if err := fault(d, plan.Windows(), font); err != nil {
					t.Errorf("%s, %+v: %v", tokens, figures, err)
				}
			}
		}
	}
}

// crossed is the first line that runs over the outline, where only arcs may and
// the rays and parallels that the construction needs.
func crossed(d draw.Drawing, c construct.Construction) error {
	var outline geom.Polygon
	for _, op := range d {
		if o, ok := op.(draw.Polyline); ok && o.On == draw.Outline {
			outline = o.Points
		}
	}
	for _, op := range d {
		o, ok := op.(draw.Line)
		if !ok || o.On != draw.Dimension || o.Pen == draw.Thin && o.Length() < 0.3 {
			continue
		}
		in, out := 0, 0
		for i := range 101 {
			p := o.At(float64(i) / 100)
			near := math.Inf(1)
			for k := range outline {
				near = math.Min(near, fromLine(p, outline.Edge(k)))
			}
			if near < 0.3 {
				continue
			}
			if outline.Has(p) {
				in++
			} else {
				out++
			}
		}
		if in > 0 && out > 0 {
			return fmt.Errorf("a line from %.1f to %.1f runs over the outline", o.From, o.To)
		}
	}
	return nil
}

// pastArms is the first arc of an angle that ends off the sides of its corner.
func pastArms(d draw.Drawing, outline geom.Polygon) error {
	for _, op := range d {
		o, ok := op.(draw.Arc)
		if !ok || o.On != draw.Dimension {
			continue
		}
		for _, t := range []float64{0, 1} {
			off := math.Inf(1)
			for i := range outline {
				off = math.Min(off, fromLine(o.At(t), outline.Edge(i)))
			}
			if off > 1e-6 {
				return fmt.Errorf("the arc of %v about %.1f ends %.2f off the sides", o.Sweep, o.Centre, off)
			}
		}
	}
	return nil
}

// adrift is the first radius that stands neither on an arc nor at a leader, and does not
// say of itself that it is an arc's.
func adrift(d draw.Drawing) error {
	for k, op := range d {
		o, ok := op.(draw.Text)
		if !ok || !strings.HasPrefix(o.Words, "R ") {
			continue
		}
		if l, ok := d[k-1].(draw.Line); ok && l.On == draw.Dimension && l.Pen == draw.Thin {
			continue
		}
		near := math.Inf(1)
		for _, p := range around(o.Box(font)) {
			for _, op := range d {
				if a, ok := op.(draw.Arc); ok && a.On == draw.Construction && a.Radius != prick {
					near = math.Min(near, fromArc(p, a.Arc))
				}
			}
		}
		if near > 1.5 {
			return fmt.Errorf("%q stands %.1f from the nearest arc", o.Words, near)
		}
	}
	return nil
}

// What was found on paper: the angle at M of the second answer stood above its letter,
// the angle at a needle's tip at an arc past its arm, the radius at another line's end.
// Each has a leader of its own now.
func TestFaultsFoundOnPaper(t *testing.T) {
	for _, c := range []struct{ tokens, say string }{
		{"KL=80 K=35deg LM=60", "(130.1°)"},
		{"AB=200 BC=195 CA=12", "(3.2°)"},
		{"AB=150 A=9deg B=20deg", "9°"},
		{"AB=14 BC=12 CA=9", "(39.6°)"},
	} {
		all := pieces(t, construct.ByArcs, c.tokens)
		p := all[len(all)-1]
		d, err := Draw(p, laid(t, p, a4, paging.Full), font, full())
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(d, func(op draw.Op) bool { o, ok := op.(draw.Text); return ok && o.Words == c.say })
		if i < 1 {
			t.Errorf("%s: no %q", c.tokens, c.say)
		} else if l, ok := d[i-1].(draw.Line); !ok || l.Pen != draw.Thin || l.On != draw.Dimension {
			t.Errorf("%s: %q has no leader but %v", c.tokens, c.say, d[i-1])
		}
	}
}

// A letter is known by the corner that it is nearest to, unless a leader says so.
func TestLettersStandByTheirCorners(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for n := range lettersOf {
		ab, bc, ca := oneTriangle(rnd, n)
		p := piece(t, fmt.Sprintf("AB=%.1f BC=%.1f CA=%.1f", ab, bc, ca))
		plan := laid(t, p, a4, paging.Full)
		d, err := Draw(p, plan, font, full())
		if err != nil {
			t.Fatal(err)
		}
		for i, name := range p.Triangle.Names {
			for k, op := range d {
				o, ok := op.(draw.Text)
				if !ok || o.Words != string(name) || !o.Bold {
					continue
				}
				if l, ok := d[k-1].(draw.Line); ok && l.Pen == draw.Thin && l.On == draw.Dimension && l.From.Distance(plan.Outline[i]) < prick+0.01 {
					continue
				}
				at := o.Bounds(font).Centre()
				for j, q := range plan.Outline {
					if j != i && at.Distance(q) <= at.Distance(plan.Outline[i]) {
						t.Errorf("%.1f %.1f %.1f: %s stands nearer to %s", ab, bc, ca, name, p.Triangle.Names[j])
					}
				}
			}
		}
	}
}

func BenchmarkDraw15mOnA5(b *testing.B) {
	p := piece(b, "AB=15000 BC=12000 CA=9000")
	plan := laid(b, p, a5, paging.Full)
	b.ReportMetric(float64(len(plan.Cells)), "pages")
	for b.Loop() {
		if _, err := Draw(p, plan, font, full()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDrawSmall(b *testing.B) {
	p := piece(b, "AB=180 BC=240 CA=300")
	plan := laid(b, p, a4, paging.Full)
	for b.Loop() {
		if _, err := Draw(p, plan, font, full()); err != nil {
			b.Fatal(err)
		}
	}
}
