package template

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"
	"unicode/utf8"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// wide is a ruler somewhat wider than the lettering really is.
type wide struct{}

func (wide) Width(words string, height unit.Length, bold bool) unit.Length {
	return 0.85 * height * unit.Length(utf8.RuneCountInString(words))
}
func (wide) Missing(string) rune { return 0 }

var (
	a4 = paging.Sheet{Name: "A4", Width: 210, Height: 297, Left: 10, Right: 10, Top: 10, Bottom: 10, Overlap: 10}
	a5 = paging.Sheet{Name: "A5", Width: 148, Height: 210, Left: 10, Right: 10, Top: 10, Bottom: 10, Overlap: 10}
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
				if err := near(fmt.Sprintf("%q", q.Words), 2-1e-6, func(p geom.Point) float64 { return fromLine(p, l) }); err != nil {
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
				err = near("a line", 0.8+float64(m.Pen.Width)/2-1e-6, func(p geom.Point) float64 { return fromLine(p, m.Line) })
			case draw.Arc:
				err = near("an arc", 0.8+float64(m.Pen.Width)/2-1e-6, func(p geom.Point) float64 { return fromArc(p, m.Arc) })
			case draw.Polyline:
				for k := range m.Points {
					if err == nil && (m.Closed || k < len(m.Points)-1) {
						err = near("an outline", 0.8+float64(m.Pen.Width)/2-1e-6, func(p geom.Point) float64 { return fromLine(p, geom.Polygon(m.Points).Edge(k)) })
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

func TestLabelsTouchNothing(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	n := 0
	for n < 400 {
		size := math.Exp(math.Log(60) + rnd.Float64()*math.Log(20))
		ab, bc, ca := size*(0.02+rnd.Float64()), size*(0.02+rnd.Float64()), size*(0.02+rnd.Float64())
		if n%5 == 0 { // needles
			bc = ab + ca*(1-0.1*rnd.Float64()*rnd.Float64())
		}
		if n%7 == 0 {
			bc = math.Hypot(ab, ca)
		}
		if max(ab, bc, ca) < 60 || 2*max(ab, bc, ca) >= (ab+bc+ca)*(1-1e-4) {
			continue
		}
		p := bySides(unit.Length(ab), unit.Length(bc), unit.Length(ca))
		sheet := []paging.Sheet{a4, a5}[n%2]
		n++
		plan, err := paging.Lay(p.Triangle().Polygon(), sheet, paging.Cover(n/2%2), nil)
		if err != nil {
			t.Fatal(err)
		}
		if n%3 != 0 {
			plan = Settle(plan)
		}
		d, missed, err := drawn(p, plan, wide{}, Full())
		if err != nil {
			t.Fatal(err)
		}
		if err := fault(d, plan.Windows(), wide{}); err != nil {
			t.Errorf("%.3f %.3f %.3f on %s (%d pages): %v", ab, bc, ca, sheet.Name, len(plan.Cells), err)
		}
		if missed > 0 {
			t.Errorf("%.3f %.3f %.3f on %s (%d pages): no room for %d labels", ab, bc, ca, sheet.Name, len(plan.Cells), missed)
		}
	}
}

func TestLargePieceIsFast(t *testing.T) {
	p := bySides(15000, 12000, 9000)
	plan, err := paging.Lay(p.Triangle().Polygon(), a5, paging.Full, nil)
	if err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	d, missed, err := drawn(p, plan, wide{}, Full())
	if err != nil || missed > 0 {
		t.Fatal(missed, err)
	}
	t.Log(len(plan.Cells), len(d), time.Since(start))
	if err := fault(d, plan.Windows(), wide{}); err != nil {
		t.Error(err)
	}
}
