package geom_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

func pt(x, y float64) geom.Point { return geom.Point{X: unit.Length(x), Y: unit.Length(y)} }

func box(x0, y0, x1, y1 float64) geom.Rect { return geom.Rect{Min: pt(x0, y0), Max: pt(x1, y1)} }

const deg = unit.Degree

func TestClipLineKnown(t *testing.T) {
	r := box(0, 0, 100, 50)
	for _, c := range []struct {
		name     string
		in, want geom.Line
		ok       bool
	}{
		{"inside", geom.Line{From: pt(1, 2), To: pt(3, 4)}, geom.Line{From: pt(1, 2), To: pt(3, 4)}, true},
		{"across", geom.Line{From: pt(-10, 25), To: pt(110, 25)}, geom.Line{From: pt(0, 25), To: pt(100, 25)}, true},
		{"across, the other way", geom.Line{From: pt(110, 25), To: pt(-10, 25)}, geom.Line{From: pt(100, 25), To: pt(0, 25)}, true},
		{"diagonal", geom.Line{From: pt(-50, -25), To: pt(150, 75)}, geom.Line{From: pt(0, 0), To: pt(100, 50)}, true},
		{"one end", geom.Line{From: pt(50, 25), To: pt(50, 75)}, geom.Line{From: pt(50, 25), To: pt(50, 50)}, true},
		{"3-4-5", geom.Line{From: pt(-30, 10), To: pt(30, 90)}, geom.Line{}, false},
		{"along an edge", geom.Line{From: pt(-5, 0), To: pt(60, 0)}, geom.Line{From: pt(0, 0), To: pt(60, 0)}, true},
		{"touches a corner", geom.Line{From: pt(-10, 10), To: pt(10, -10)}, geom.Line{}, false},
		{"touches an edge with its end", geom.Line{From: pt(20, 60), To: pt(20, 50)}, geom.Line{}, false},
		{"outside, parallel", geom.Line{From: pt(-10, 51), To: pt(110, 51)}, geom.Line{}, false},
		{"outside, beyond the corner", geom.Line{From: pt(90, 70), To: pt(140, 30)}, geom.Line{}, false},
		{"a point", geom.Line{From: pt(5, 5), To: pt(5, 5)}, geom.Line{}, false},
		{"along an edge but for the last bits", geom.Line{From: pt(100+1e-13, -5), To: pt(100, 60)}, geom.Line{From: pt(100, 0), To: pt(100, 50)}, true},
		{"along an edge, all of it out by the last bits", geom.Line{From: pt(100+1e-13, 5), To: pt(100+2e-13, 60)}, geom.Line{From: pt(100+1e-13, 5), To: pt(100, 50)}, true},
		{"touches an edge with its end but for the last bits", geom.Line{From: pt(200, 20), To: pt(100+1e-13, 20)}, geom.Line{}, false},
		{"just outside, parallel", geom.Line{From: pt(-10, 50+1e-8), To: pt(110, 50+1e-8)}, geom.Line{}, false},
	} {
		got, ok := geom.ClipLine(c.in, r)
		if ok != c.ok || ok && got != c.want {
			t.Errorf("%s: got %v %t, want %v %t", c.name, got, ok, c.want, c.ok)
		}
	}
}

// Angles from the 3-4-5 triangle; the rest by looking at a sketch.
func TestClipArcKnown(t *testing.T) {
	a345 := unit.Angle(math.Atan2(4, 3)) // of a point (3, 4)
	circle := geom.Arc{Radius: 5, Sweep: unit.Turn}
	for _, c := range []struct {
		name string
		arc  geom.Arc
		r    geom.Rect
		want []geom.Arc
	}{
		{"circle inside", circle, box(-6, -6, 6, 6), []geom.Arc{circle}},
		{"circle that touches all four edges from inside", circle, box(-5, -5, 5, 5), []geom.Arc{circle}},
		{"circle outside", circle, box(6, -6, 16, 6), nil},
		{"circle round the window", circle, box(-3, -3, 3, 3), nil},
		{"circle beyond the window's corner", circle, box(3.6, 3.6, 9, 9), nil},
		{"circle that touches from outside", circle, box(5, -6, 16, 6), nil},
		{"cap to the right, over the seam", circle, box(3, -6, 6, 6), []geom.Arc{{Radius: 5, Start: -a345 + unit.Turn, Sweep: 2 * a345}}},
		{"cap to the left", circle, box(-6, -6, -3, 6), []geom.Arc{{Radius: 5, Start: unit.Turn/2 - a345, Sweep: 2 * a345}}},
		{"circle through the corners of a 6 by 8", circle, box(-3, -4, 3, 4), nil},
		{"band 6 wide", circle, box(-3, -6, 3, 6), []geom.Arc{
			{Radius: 5, Start: a345, Sweep: unit.Turn/2 - 2*a345},
			{Radius: 5, Start: unit.Turn/2 + a345, Sweep: unit.Turn/2 - 2*a345}}},
		{"four sides cut off", circle, box(-4, -4, 4, 4), []geom.Arc{
			{Radius: 5, Start: unit.Turn/4 - a345, Sweep: 2*a345 - unit.Turn/4},
			{Radius: 5, Start: unit.Turn/2 - a345, Sweep: 2*a345 - unit.Turn/4},
			{Radius: 5, Start: 3*unit.Turn/4 - a345, Sweep: 2*a345 - unit.Turn/4},
			{Radius: 5, Start: unit.Turn - a345, Sweep: 2*a345 - unit.Turn/4}}},
		{"quarter, clockwise", geom.Arc{Radius: 5, Start: unit.Turn / 4, Sweep: -unit.Turn / 4}, box(3, -1, 9, 9),
			[]geom.Arc{{Radius: 5, Start: a345, Sweep: -a345}}},
		{"half that starts inside", geom.Arc{Radius: 5, Sweep: unit.Turn / 2}, box(-9, 4, 9, 9),
			[]geom.Arc{{Radius: 5, Start: unit.Turn/4 - (unit.Turn/4 - unit.Angle(math.Asin(0.8))), Sweep: unit.Turn/2 - 2*unit.Angle(math.Asin(0.8))}}},
		{"60 degree compass arc, its chord on the edge", geom.Arc{Radius: 100, Start: 60 * deg, Sweep: 60 * deg},
			box(-200, 100*math.Sqrt(3)/2, 200, 200), []geom.Arc{{Radius: 100, Start: 60 * deg, Sweep: 60 * deg}}},
	} {
		got := geom.ClipArc(c.arc, c.r)
		if len(got) != len(c.want) {
			t.Errorf("%s: got %d parts %v, want %v", c.name, len(got), got, c.want)
			continue
		}
		for i, g := range got {
			w := c.want[i]
			turns := float64(g.Start-w.Start) / (2 * math.Pi)
			if g.Centre != w.Centre || g.Radius != w.Radius || math.Abs(turns-math.Round(turns)) > 1e-14 || math.Abs(float64(g.Sweep-w.Sweep)) > 1e-14 {
				t.Errorf("%s: part %d is %v, want %v", c.name, i, g, w)
			}
		}
	}
}

func TestClipPolylineKnown(t *testing.T) {
	tri := []geom.Point{pt(0, 0), pt(10, 0), pt(0, 10)}
	for _, c := range []struct {
		name   string
		points []geom.Point
		closed bool
		r      geom.Rect
		want   string
	}{
		{"closed, inside", tri, true, box(-1, -1, 11, 11), "[[{0 0} {10 0} {0 10} {0 0}]]"},
		{"open, inside", tri, false, box(-1, -1, 11, 11), "[[{0 0} {10 0} {0 10}]]"},
		{"closed, one corner out", tri, true, box(-1, -1, 8, 11), "[[{8 2} {0 10} {0 0} {8 0}]]"},
		{"closed, first corner out", tri, true, box(2, -1, 11, 11), "[[{2 0} {10 0} {2 8}]]"},
		{"closed, all corners out", tri, true, box(2, -1, 4, 11), "[[{2 0} {4 0}] [{4 6} {2 8}]]"},
		{"its edge on the window's", tri, true, box(0, -5, 10, 0), "[[{0 0} {10 0}]]"},
		{"its edge on the window's but for the last bits", tri, true, box(-5, 1e-13, 5, 20), "[[{5 5} {0 10} {0 0} {5 1e-13}]]"},
		{"outside", tri, true, box(6, 6, 9, 9), "[]"},
		{"round the window", tri, true, box(1, 1, 2, 2), "[]"},
		{"a corner touches from inside", tri, false, box(0, 0, 10, 10), "[[{0 0} {10 0} {0 10}]]"},
		{"repeated points", []geom.Point{pt(0, 0), pt(0, 0), pt(5, 5), pt(5, 5)}, false, box(0, 0, 9, 9), "[[{0 0} {5 5}]]"},
	} {
		if got := fmt.Sprint(geom.ClipPolyline(c.points, c.closed, c.r)); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
	}
}

// randomCase is an arc and a window of one size, from a gusset to a gable.
func randomCase(rnd *rand.Rand) (geom.Arc, geom.Rect) {
	size := math.Pow(10, 1+3.3*rnd.Float64())
	x, y := size*(rnd.Float64()-0.5), size*(rnd.Float64()-0.5)
	r := box(x, y, x+size*rnd.Float64(), y+size*rnd.Float64())
	a := geom.Arc{Centre: pt(size*(rnd.Float64()-0.5), size*(rnd.Float64()-0.5)), Radius: unit.Length(size * rnd.Float64()),
		Start: unit.Angle(20 * (rnd.Float64() - 0.5)), Sweep: unit.Angle(4 * math.Pi * (rnd.Float64() - 0.5))}
	switch rnd.IntN(6) {
	case 0:
		a.Sweep = unit.Turn
	case 1: // an edge is a tangent
		r.Max.X = max(a.Centre.X+a.Radius, r.Min.X+1)
	case 2: // it ends on an edge
		r.Min.Y = a.At(1).Y
		r.Max.Y = max(r.Max.Y, r.Min.Y+1)
	case 3: // it runs through a corner
		r.Max = a.At(rnd.Float64())
		r.Min = geom.Point{X: min(r.Min.X, r.Max.X-1), Y: min(r.Min.Y, r.Max.Y-1)}
	}
	return a, r
}

// Every place of the arc inside the window is on a part, and every place of a
// part is on the arc and inside the window, to 1e-8 mm.
func TestClipArcSampled(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	const tol = 1e-8
	inside := 0
	for n := range 20000 {
		a, r := randomCase(rnd)
		parts := geom.ClipArc(a, r)
		for k := range 41 {
			p := a.At(float64(k) / 40)
			if !r.Grow(-tol).Has(p) {
				continue
			}
			inside++
			on := false
			for _, c := range parts {
				d := unit.Angle(math.Atan2(float64(p.Y-a.Centre.Y), float64(p.X-a.Centre.X)))
				slack := unit.Angle(tol) / unit.Angle(a.Radius)
				on = on || c.Spans(d) || c.Spans(d+slack) || c.Spans(d-slack)
			}
			if !on {
				t.Fatalf("case %d: %v in %v lost %v; parts %v", n, a, r, p, parts)
			}
		}
		whole := a
		if a.Sweep < 0 {
			whole.Start, whole.Sweep = a.Start+a.Sweep, -a.Sweep
		}
		for _, c := range parts {
			if c.Centre != a.Centre || c.Radius != a.Radius || c.Sweep*a.Sweep <= 0 {
				t.Fatalf("case %d: %v became %v", n, a, c)
			}
			for k := range 11 {
				p := c.At(float64(k) / 10)
				d := c.Start + c.Sweep*unit.Angle(k)/10
				slack := unit.Angle(tol) / unit.Angle(a.Radius)
				if !r.Grow(tol).Has(p) || !(whole.Spans(d) || whole.Spans(d+slack) || whole.Spans(d-slack)) {
					t.Fatalf("case %d: %v in %v gave %v, whose %v is not of both", n, a, r, c, p)
				}
			}
		}
	}
	if inside < 50000 {
		t.Errorf("only %d samples fell inside: the cases test too little", inside)
	}
}

func lengthOf(arcs []geom.Arc) (sum float64) {
	for _, a := range arcs {
		sum += float64(a.Radius) * math.Abs(float64(a.Sweep))
	}
	return sum
}

// Over a grid of windows that share edges the parts add up to the whole.
func TestClipPreservesLength(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for n := range 2000 {
		a, _ := randomCase(rnd)
		if math.Abs(float64(a.Sweep)) > 2*math.Pi {
			a.Sweep = unit.Turn
		}
		var pts []geom.Point
		for range 5 {
			pts = append(pts, a.Centre.Plus(pt(float64(a.Radius)*rnd.NormFloat64(), float64(a.Radius)*rnd.NormFloat64())))
		}
		b := a.Bounds().Join(geom.RectOf(pts[0], pts...)).Grow(1)
		nx, ny := 1+rnd.IntN(9), 1+rnd.IntN(9)
		var arcs, lines float64
		for i := range nx {
			for j := range ny {
				at := func(s, t float64) geom.Point {
					return geom.Point{X: b.Min.X + b.Width()*unit.Length(s), Y: b.Min.Y + b.Height()*unit.Length(t)}
				}
				w := geom.Rect{Min: at(float64(i)/float64(nx), float64(j)/float64(ny)), Max: at(float64(i+1)/float64(nx), float64(j+1)/float64(ny))}
				arcs += lengthOf(geom.ClipArc(a, w))
				for _, run := range geom.ClipPolyline(pts, true, w) {
					for k := range len(run) - 1 {
						lines += float64(run[k].Distance(run[k+1]))
					}
				}
			}
		}
		var want float64
		for k := range pts {
			want += float64(pts[k].Distance(pts[(k+1)%len(pts)]))
		}
		if d := math.Abs(lines - want); d > 1e-12*want+1e-9 {
			t.Fatalf("case %d: lines of %g mm became %g mm", n, want, lines)
		}
		// A cut near a tangent may drop a piece of grazing length at each crossing.
		if w := lengthOf([]geom.Arc{a}); math.Abs(arcs-w) > 1e-7 {
			t.Fatalf("case %d: %v of %g mm became %g mm on %d by %d windows", n, a, w, arcs, nx, ny)
		}
	}
}

// The cut ends lie exactly on the window's edges, and on the line.
func TestClipLineSampled(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	cut := 0
	for n := range 20000 {
		_, r := randomCase(rnd)
		size := float64(r.Width() + r.Height())
		p := func() geom.Point {
			return r.Centre().Plus(pt(size*(rnd.Float64()-0.5), size*(rnd.Float64()-0.5)))
		}
		l := geom.Line{From: p(), To: p()}
		c, ok := geom.ClipLine(l, r)
		for k := range 21 {
			q := l.At(float64(k) / 20)
			s := float64(q.Distance(l.From))
			in := ok && s > float64(c.From.Distance(l.From))-1e-9 && s < float64(c.To.Distance(l.From))+1e-9
			if r.Grow(-1e-9).Has(q) != in && (r.Grow(-1e-9).Has(q) || !r.Grow(1e-9).Has(q)) {
				t.Fatalf("case %d: %v in %v gave %v %t; wrong about %v", n, l, r, c, ok, q)
			}
		}
		if !ok {
			continue
		}
		for _, e := range [2][2]geom.Point{{c.From, l.From}, {c.To, l.To}} {
			if e[0] == e[1] {
				continue
			}
			cut++
			if e[0].X != r.Min.X && e[0].X != r.Max.X && e[0].Y != r.Min.Y && e[0].Y != r.Max.Y {
				t.Fatalf("case %d: the cut end %v is on no edge of %v", n, e[0], r)
			}
			d := l.To.Minus(l.From)
			off := math.Abs(float64(d.X*(e[0].Y-l.From.Y)-d.Y*(e[0].X-l.From.X))) / float64(l.Length())
			big := max(math.Abs(float64(l.From.X)), math.Abs(float64(l.From.Y)), math.Abs(float64(l.To.X)), math.Abs(float64(l.To.Y)))
			if off > 4*0x1p-52*big {
				t.Fatalf("case %d: the cut end %v is %g mm off %v", n, e[0], off, l)
			}
		}
	}
	if cut < 5000 {
		t.Errorf("only %d ends were cut", cut)
	}
}

func BenchmarkClipArc(b *testing.B) {
	a := geom.Arc{Centre: pt(0, 0), Radius: 3000, Start: 0.1, Sweep: 1.2}
	in, out := box(2700, 1200, 2890, 1477), box(100, 100, 290, 377)
	for _, c := range []struct {
		name string
		r    geom.Rect
		n    int
	}{{"crosses the window", in, 1}, {"misses the window", out, 0}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if len(geom.ClipArc(a, c.r)) != c.n {
					b.Fatal("wrong number of parts")
				}
			}
		})
	}
}

func BenchmarkClipLine(b *testing.B) {
	l, r := geom.Line{From: pt(-3000, -1000), To: pt(3000, 1200)}, box(-100, -100, 90, 177)
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := geom.ClipLine(l, r); !ok {
			b.Fatal("missed")
		}
	}
}
