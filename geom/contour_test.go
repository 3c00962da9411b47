package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom/unit"
)

// A bar of 60 between the centres of its round ends, 40 wide, a half disc of 10
// taken out of its upper edge.
func link() Contour {
	quarter := unit.Turn / 4
	return Contour{
		Line{Point{-30, -20}, Point{30, -20}},
		Arc{Point{30, 0}, 20, -quarter, 2 * quarter},
		Line{Point{30, 20}, Point{10, 20}},
		Arc{Point{0, 20}, 10, 0, -2 * quarter},
		Line{Point{-10, 20}, Point{-30, 20}},
		Arc{Point{-30, 0}, 20, quarter, 2 * quarter},
	}
}

// School formulas: a rectangle, a disc, half a disc.
func TestContourFigures(t *testing.T) {
	c := link()
	if got, want := float64(c.Area()), 60*40+math.Pi*(400-50); math.Abs(got-want) > 1e-9 {
		t.Errorf("area %v, want %v", got, want)
	}
	if got, want := float64(c.Length()), 60+40+math.Pi*(40+10); math.Abs(got-want) > 1e-9 {
		t.Errorf("length %v, want %v", got, want)
	}
	if b := c.Bounds(); b.Min.Distance(Point{-50, -20}) > 1e-12 || b.Max.Distance(Point{50, 20}) > 1e-12 {
		t.Errorf("bounds %v", b)
	}
	if got := float64((Contour{Arc{Point{3, 4}, 5, 1, unit.Turn}}).Area()); math.Abs(got-25*math.Pi) > 1e-12 {
		t.Errorf("a circle of 5 has the area %v", got)
	}
	far := Placement{Turn: 1, Shift: Point{2e5, -3e5}}.Contour(c)
	if math.Abs(float64(far.Area()-c.Area())) > 1e-7 || math.Abs(float64(far.Length()-c.Length())) > 1e-9 {
		t.Errorf("moved: %v, %v", far.Area(), far.Length())
	}
	if got := (Polygon{{0, 0}, {4, 0}, {0, 3}}).Contour(); got.Area() != 6 || got.Length() != 12 || len(got) != 3 {
		t.Errorf("3-4-5: %v", got)
	}
	if got := (Contour{}).Area(); got != 0 {
		t.Errorf("nothing has the area %v", got)
	}
}

// Inside and outside, and the way to the contour, by the plain description of
// the link.
func TestContourPlaces(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, m := range []Placement{{}, {Turn: 0.7, Shift: Point{100, -40}}} {
		c := m.Contour(link())
		inside := 0
		for range 20000 {
			p := Point{unit.Length(120*r.Float64() - 60), unit.Length(60*r.Float64() - 30)}
			x, y := float64(p.X), float64(p.Y)
			// Out of a bar with round ends, negative inside; and out of the half disc.
			bar := math.Hypot(max(math.Abs(x)-30, 0), y) - 20
			bite := 10 - math.Hypot(x, y-20)
			in := bar < 0 && bite < 0
			if in {
				inside++
			}
			if math.Abs(bar) > 1e-9 && math.Abs(bite) > 1e-9 && c.Has(m.Apply(p)) != in {
				t.Fatalf("%v: inside %t", p, !in)
			}
			want := math.Abs(bar)
			if in {
				want = min(-bar, -bite)
			}
			if mouth := math.Abs(x) < 10 && y > 0; !mouth { // where the missing piece of the edge is nearest
				if in && y > 0 {
					// the corners of the mouth end the edge
					want = min(math.Abs(bite), 20-math.Abs(y), math.Abs(bar))
				}
				if got := float64(c.Distance(m.Apply(p))); math.Abs(got-want) > 1e-9 {
					t.Fatalf("%v: distance %v, want %v", p, got, want)
				}
			}
		}
		if inside < 5000 {
			t.Errorf("%d of 20000 inside", inside)
		}
	}
	if i, d := link().Nearest(Point{0, 5}); i != 3 || math.Abs(float64(d-5)) > 1e-12 {
		t.Errorf("nearest to (0, 5): %d, %v", i, d)
	}
	if i, d := link().Nearest(Point{30, -25}); i != 0 || d != 5 {
		t.Errorf("nearest to (30, −25): %d, %v", i, d)
	}
}

func TestMirror(t *testing.T) {
	for _, base := range []Line{{Point{0, 0}, Point{10, 0}}, {Point{3, 4}, Point{-9, 9}}, {Point{1, 5}, Point{1, -5}}} {
		m := Mirror{base}
		if m.Apply(base.From).Distance(base.To) > 1e-14*10 || m.Apply(base.To).Distance(base.From) > 1e-14*10 {
			t.Errorf("%v: the ends do not change places", base)
		}
		p, q := Point{7, 11}, Point{-2, 30}
		over := m.Apply(p)
		if math.Abs(float64(over.Distance(m.Apply(q))-p.Distance(q))) > 1e-12 || m.Apply(over).Distance(p) > 1e-12 {
			t.Errorf("%v: %v is turned over to %v", base, p, over)
		}
		// The way from a point to its image runs along the base.
		if p != over {
			d, u := over.Minus(p), base.To.Minus(base.From)
			if math.Abs(float64(d.X*u.Y-d.Y*u.X)) > 1e-10 {
				t.Errorf("%v: %v moves to %v", base, p, over)
			}
		}
	}
}

func TestAround(t *testing.T) {
	contours := []Contour{link(), {Arc{Point{3, 4}, 500, 1, unit.Turn}}, (Polygon{{0, 0}, {4, 0}, {0, 3}}).Contour()}
	for _, c := range contours {
		for _, sag := range []unit.Length{0.01, 0.5, 5, 1000} {
			p := c.Around(sag).Contour()
			for _, s := range c {
				for k := range 100 {
					q := s.At(float64(k) / 100)
					if !p.Has(q) && p.Distance(q) > 1e-9 {
						t.Fatalf("sag %v: %v lies %v outside", sag, q, p.Distance(q))
					}
				}
			}
			for _, s := range p {
				for k := range 100 {
					q := s.At(float64(k) / 100)
					if d := c.Distance(q); d > sag+1e-9 {
						t.Fatalf("sag %v: %v lies %v off", sag, q, d)
					}
				}
			}
			if sag < 1 && math.Abs(float64(p.Area()/c.Area()-1)) > float64(sag*c.Length())/float64(c.Area()) {
				t.Errorf("sag %v: area %v of %v", sag, p.Area(), c.Area())
			}
		}
	}
	if n := len(contours[2].Around(0.1)); n != 3 {
		t.Errorf("a triangle has %d corners", n)
	}
	if n := len(contours[1].Around(0.1)); n > 160 { // 2π / 2 acos(500/500.1) = 157.1
		t.Errorf("a circle of 500 takes %d corners for 0.1", n)
	}
}
