package shape

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// The usual test pieces, corners counter-clockwise from A.
const (
	right  = "0,0 400,0 0,300" // 3-4-5
	equal  = "0,0 200,0 100,173.20508075688772"
	bar    = "0,0 100,0 100,40 0,40"
	square = "0,0 100,0 100,100 0,100"
	ell    = "0,0 200,0 200,80 80,80 80,200 0,200" // inward corner at D
	needle = "0,0 1000,0 1000,87.488663525924"     // 5° at A, by tan 5° (python3-mpmath)
)

func outlineOf(t *testing.T, text string) (geom.Polygon, []geom.Name) {
	t.Helper()
	p := points(t, text)
	var names []geom.Name
	for _, n := range "ABCDEFGHJK"[:len(p)] {
		names = append(names, geom.Name(n))
	}
	return p, names
}

func shaped(t *testing.T, outline, edges, corners, holes string) Shape {
	t.Helper()
	p, names := outlineOf(t, outline)
	s, err := Make(p, names, tokens(t, edges, corners, holes), unit.Style{})
	if err != nil {
		t.Fatalf("%s | %s | %s: %v", edges, corners, holes, err)
	}
	return s
}

func close(got, want float64) bool { return math.Abs(got-want) <= 1e-12*max(1, math.Abs(want)) }

// Areas and lengths by school formulas.
func TestPlainPieces(t *testing.T) {
	const pi = math.Pi
	tests := []struct {
		outline, edges, corners, holes   string
		finished, cut, around, cutAround float64
	}{
		// Nothing asked: all is the outline.
		{right, "", "", "", 60000, 60000, 1200, 1200},
		// A triangle moved outward by d all round is like itself, with the radius of
		// its inscribed circle (100 for 3-4-5 of 300) larger by d.
		{right, "AB allow 20;BC allow 20;CA allow 20", "", "", 60000, 60000 * 1.44, 1200, 1440},
		{right, "AB allow -50;BC allow -50;CA allow -50", "", "", 60000, 15000, 1200, 600},
		// One leg moved: the triangle is larger in the ratio 320 : 300.
		{right, "BA allow 20", "", "", 60000, 60000 * (32.0 / 30) * (32.0 / 30), 1200, 1280},
		// A rectangle with unlike allowances: (100+3+1)(40+2-4).
		{bar, "AB allow 2;BC allow 3;CD allow -4;DA allow 1", "", "", 4000, 104 * 38, 280, 284},
		// The right corner cut at 45° takes a half square of the set-back; its edge is moved by the larger
		// allowance, so that the cut corner takes (set-back + d(2 − √2))²/2.
		{square, "AB allow 5;BC allow 5;CD allow 5;DA allow 5", "A cut 30", "", 10000 - 450, 12100 - math.Pow(30+5*(2-math.Sqrt2), 2)/2, 400 - 60 + 30*math.Sqrt2, 440 - (2-math.Sqrt2)*(30+5*(2-math.Sqrt2))},
		// The cut's own allowance: 0, and the cut line crosses that of the edges 10 beyond.
		{square, "AB allow 5;DA allow 5", "A cut 30 allow 0", "", 10000 - 450, 105*105 - 800, 400 - 60 + 30*math.Sqrt2, 420 - 80 + 40*math.Sqrt2},
		// A cut whose moved edge falls beyond the corner of the cut lines: sharp.
		{square, "AB allow 1;DA allow 1", "A cut 2 allow 20", "", 9998, 101 * 101, 400 - 4 + 2*math.Sqrt2, 404},
		// A rounding takes r²(1 − π/4) at a right angle; like allowances make a parallel arc.
		{square, "AB allow 5;BC allow 5;CD allow 5;DA allow 5", "A round 20", "", 10000 - 400*(1-pi/4), 12100 - 625*(1-pi/4), 400 - 40 + 10*pi, 440 - 50 + 12.5*pi},
		// Unlike ones: the radius plus their mean.
		{square, "AB allow 5;DA allow 2", "A round 20", "", 10000 - 400*(1-pi/4), 102*105 - 23.5*23.5*(1-pi/4), 400 - 40 + 10*pi, 414 - 47 + 11.75*pi},
		// Moved inward by more than the radius: no arc is left.
		{square, "AB allow -5;BC allow -5;CD allow -5;DA allow -5", "A round 4", "", 10000 - 16*(1-pi/4), 8100, 400 - 8 + 2*pi, 360},
		// A bar with round ends, its short edges used up.
		{bar, "AB allow 3;BC allow 3;CD allow 3;DA allow 3", "A round 20;B round 20;C round 20;D round 20", "", 60*40 + 400*pi, 60*46 + 529*pi, 120 + 40*pi, 120 + 46*pi},
		// An inward corner rounded fills up what an outward one takes off; moved outward its arc is smaller.
		{ell, "", "D round 30", "", 25600 + 900*(1-pi/4), 25600 + 900*(1-pi/4), 800 - 60 + 15*pi, 800 - 60 + 15*pi},
		{ell, "AB allow 10;BC allow 10;CD allow 10;DE allow 10;EF allow 10;FA allow 10", "D round 30", "", 25600 + 900*(1-pi/4), 220*220 - 120*120 + 400*(1-pi/4), 800 - 60 + 15*pi, 880 - 40 + 10*pi},
		{ell, "", "D cut 30", "", 25600 + 450, 25600 + 450, 800 - 60 + 30*math.Sqrt2, 800 - 60 + 30*math.Sqrt2},
		// The cut lines cross 30√2 from A; blunted at 31 they lose a half square of the height h = 30√2 − 31,
		// its area h² and twice a leg of h√2 for a base of 2h.
		{square, "AB allow 30;DA allow 30", "A blunt 31", "", 10000, 130*130 - math.Pow(30*math.Sqrt2-31, 2), 400, 520 - 2*(math.Sqrt2-1)*(30*math.Sqrt2-31)},
		// Holes.
		{equal, "", "", "20 at AB 50 from A 100", 17320.508075688772, 17320.508075688772, 600, 600},
	}
	for _, c := range tests {
		s := shaped(t, c.outline, c.edges, c.corners, c.holes)
		a := s.Areas()
		if !close(float64(a.Finished), c.finished) || !close(float64(a.Cut), c.cut) {
			t.Errorf("%s | %s: areas %v, %v, want %v, %v", c.edges, c.corners, a.Finished, a.Cut, c.finished, c.cut)
		}
		if !close(float64(s.Finished.Length()), c.around) || !close(float64(s.Cut.Length()), c.cutAround) {
			t.Errorf("%s | %s: round %v, %v, want %v, %v", c.edges, c.corners, s.Finished.Length(), s.Cut.Length(), c.around, c.cutAround)
		}
		if spared := c.edges != ""; s.Spared() != spared {
			t.Errorf("%s | %s: spared %t", c.edges, c.corners, s.Spared())
		}
		if len(s.Notes) > 0 {
			t.Errorf("%s | %s: %+v", c.edges, c.corners, s.Notes)
		}
	}
}

func TestHoles(t *testing.T) {
	tests := []struct {
		outline, hole string
		centre, foot  geom.Point
	}{
		{right, "20 at AB 40 from A 60", geom.Point{X: 60, Y: 40}, geom.Point{X: 60}},
		{right, "20 at BA 40 from B 200", geom.Point{X: 200, Y: 40}, geom.Point{X: 200}},
		// 60 along the long edge from B, 50 square to it: (400, 0) + 60(−4, 3)/5 + 50(−3, −4)/5.
		{right, "20 at BC 50 from B 100", geom.Point{X: 400 - 80 - 30, Y: 60 - 40}, geom.Point{X: 320, Y: 60}},
		// Over a base of 6000 the arcs 5000 cross 4000 high (CHECKS: apex (3000, 4000)); here a fiftieth of it.
		{"0,0 120,0 60,200", "10 at A 100 B 100", geom.Point{X: 60, Y: 80}, geom.Point{}},
		{"0,0 120,0 60,200", "10 at B 100 A 100", geom.Point{X: 60, Y: 80}, geom.Point{}},
		// Corners that are no edge's: the crossing inside the piece.
		{ell, "10 at B 150 F 150", geom.Point{X: 100 - 25*math.Sqrt2, Y: 100 - 25*math.Sqrt2}, geom.Point{}},
		{ell, "10 at F 150 B 150", geom.Point{X: 100 - 25*math.Sqrt2, Y: 100 - 25*math.Sqrt2}, geom.Point{}},
	}
	for _, c := range tests {
		s := shaped(t, c.outline, "", "", c.hole)
		b := s.Bores[0]
		if b.Circle.Centre.Distance(c.centre) > 1e-12*400 || b.Foot.Distance(c.foot) > 1e-12*400 {
			t.Errorf("%s: centre %v, foot %v, want %v, %v", c.hole, b.Circle.Centre, b.Foot, c.centre, c.foot)
		}
		if a := s.Areas(); !close(float64(a.Holes), math.Pi*float64(b.Hole.Diameter*b.Hole.Diameter)/4) || a.Net != a.Finished-a.Holes {
			t.Errorf("%s: areas %+v", c.hole, a)
		}
	}
}

// A needle's mitre runs out a/sin(θ/2); blunted it ends where it is told to.
func TestNeedle(t *testing.T) {
	const edges = "AB allow 3;BC allow 3;CA allow 3"
	s := shaped(t, needle, edges, "", "")
	reach := s.Sides[0].Cut.From.Distance(geom.Point{})
	if want := 3 / math.Sin(2.5*math.Pi/180); math.Abs(float64(reach)-want) > 1e-9 {
		t.Errorf("reach %v, want %v", reach, want)
	}
	if len(s.Notes) != 1 || s.Notes[0] != (Note{Code: RunsOut, Corner: "A", Token: "A blunt 3mm", Left: s.Notes[0].Left}) || math.Abs(float64(s.Notes[0].Left-reach)) > 1e-9 {
		t.Errorf("notes %+v", s.Notes)
	}
	s = shaped(t, needle, edges, "A blunt 10", "")
	bisector := 2.5*unit.Degree + unit.Turn/2
	end := geom.Point{}.Toward(bisector, 10)
	l := s.Corners[0].Cut.(geom.Line)
	if d := s.Cut.Distance(end); d > 1e-12*10 || math.Abs(float64(l.At(0.5).Distance(end))) > 1e-9 || len(s.Notes) != 0 {
		t.Errorf("blunted at %v, want across %v (%v off); notes %+v", l, end, d, s.Notes)
	}
	if s.Corners[0].Finished != nil || s.Areas().Finished != shaped(t, needle, "", "", "").Areas().Finished {
		t.Error("blunting changes the finished corner")
	}
	if got := shaped(t, needle, edges, "A blunt 90", ""); got.Corners[0].Cut != nil {
		t.Errorf("blunted beyond its end: %v", got.Corners[0].Cut)
	}
}

// Edges that run on nearly straight: the cut line stays at its distance.
func TestNearlyStraight(t *testing.T) {
	for _, bow := range []string{"1e-3", "1e-6", "1e-9", "1e-12", "0"} {
		s := shaped(t, "0,0 500,-"+bow+" 1000,0 500,400", "AB allow 7;BC allow 7;CD allow 7;DA allow 7", "", "")
		p := s.Sides[1].Cut.From
		want := 7 / math.Cos(math.Atan(number(t, bow)/500)) // straight below B
		if math.Abs(float64(p.X-500)) > 1e-9 || !close(float64(-p.Y), want+number(t, bow)) {
			t.Errorf("bow %s: %v, want (500, −%v)", bow, p, want)
		}
	}
}

// What is said of Round: the distance from the finished arc goes from the one
// allowance to the other, never beyond either; and the radius plus the larger or
// the smaller would go beyond at corners under 90°.
func TestRoundingBetweenUnlike(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 14))
	sharper := 0
	for range 2000 {
		interior := 20 + 320*r.Float64()
		if math.Abs(interior-180) < 5 {
			continue
		}
		a, b, radius := -20+60*r.Float64(), -20+60*r.Float64(), 5+60*r.Float64()
		s, c := math.Sincos(-interior * math.Pi / 180)
		at := geom.Point{}
		k := cornerOf(geom.Point{X: -1000}, at, geom.Point{X: unit.Length(-1000 * c), Y: unit.Length(-1000 * s)})
		if math.Abs(k.interior().Degrees()-interior) > 1e-9 {
			t.Fatalf("interior %v, want %v", k.interior().Degrees(), interior)
		}
		done := k.run(treatment{do: Round, by: radius}, 0, 0)
		cut := k.run(treatment{do: Round, by: radius}, a, b)
		if cut.segment == nil {
			continue
		}
		finished, spared := done.segment.(geom.Arc), cut.segment.(geom.Arc)
		low, high := gaps(finished, spared, k.sign())
		if low < min(a, b)-1e-9 || high > max(a, b)+1e-9 {
			t.Fatalf("%v° between %v and %v, radius %v: from %v to %v is left", interior, a, b, radius, low, high)
		}
		if interior > 80 || math.Abs(a-b) < 1 || radius+min(a, b) < 1 {
			continue
		}
		sharper++
		for by, wrong := range map[float64]func(low, high float64) bool{
			max(a, b): func(low, _ float64) bool { return low < min(a, b)-1e-3 },
			min(a, b): func(_, high float64) bool { return high > max(a, b)+1e-3 },
		} {
			other := k.round(radius+by, a-radius-by, b-radius-by).segment.(geom.Arc)
			if low, high := gaps(finished, other, 1); !wrong(low, high) {
				t.Fatalf("%v° between %v and %v, radius %v + %v: from %v to %v is left", interior, a, b, radius, by, low, high)
			}
		}
	}
	if sharper < 100 {
		t.Errorf("only %d corners to tell the radii apart", sharper)
	}
}

// gaps are the least and the largest distance of the cut line from the finished
// arc, outward positive, between their tangents of the same direction.
func gaps(finished, cut geom.Arc, sign float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range 201 {
		n := geom.Point{}.Toward(finished.Start+finished.Sweep*unit.Angle(i)/200, 1)
		c := cut.Centre.Minus(finished.Centre)
		gap := sign * (float64(c.X*n.X+c.Y*n.Y) + float64(cut.Radius-finished.Radius))
		low, high = min(low, gap), max(high, gap)
	}
	return low, high
}

// Cover holds every place of both contours and no more than it says.
func TestCover(t *testing.T) {
	const sag = 0.3
	for _, c := range [][3]string{
		{equal, "AB allow 5;BC allow 5;CA allow 5", "A round 20;B cut 30"},
		{equal, "AB allow -5;BC allow -5", "A round 20;B cut 30"},
		{equal, "AB allow -5;BC allow 12", "A round 20;B cut 30;C round 40"},
		{ell, "AB allow 5;DE allow 3", "D round 30;E round 10"},
		{bar, "", "A round 20;B round 20;C round 20;D round 20"},
	} {
		s := shaped(t, c[0], c[1], c[2], "")
		cover := s.Cover(sag).Contour()
		mixed := strings.Contains(c[1], "-5;BC allow 12")
		for _, contour := range []geom.Contour{s.Finished, s.Cut} {
			for _, g := range contour {
				for i := range 50 {
					p := g.At(float64(i) / 50)
					if !cover.Has(p) && cover.Distance(p) > 1e-9 {
						t.Errorf("%v: %v lies %v outside", c, p, cover.Distance(p))
					}
				}
			}
		}
		for _, g := range cover {
			for i := range 20 {
				p := g.At(float64(i) / 20)
				d := min(s.Finished.Distance(p), s.Cut.Distance(p))
				if !mixed && d > sag+1e-9 {
					t.Errorf("%v: the cover lies %v outside at %v", c, d, p)
				}
			}
		}
		if cover.Area() <= 0 || mixed && cover.Area() > s.Cut.Area()*1.2 {
			t.Errorf("%v: area %v", c, cover.Area())
		}
	}
}

func BenchmarkMake(b *testing.B) {
	outline := geom.Polygon{{}, {X: 400}, {Y: 300}}
	names := []geom.Name{"A", "B", "C"}
	var w Work
	for _, s := range []string{"AB allow 3", "BC allow -1.5", "CA allow 2"} {
		a, err := ParseAllowance(s, unit.MM)
		if err != nil {
			b.Fatal(err)
		}
		w.Allowances = append(w.Allowances, a)
	}
	for _, s := range []string{"A cut 20", "B round 15", "C cut 30 allow 1"} {
		c, err := ParseCorner(s, unit.MM)
		if err != nil {
			b.Fatal(err)
		}
		w.Corners = append(w.Corners, c)
	}
	for _, s := range []string{"12 at AB 40 from A 60", "12 at A 80 B 350", "8 at CA 30 from A 120", "20 at AB 100 from A 100"} {
		h, err := ParseHole(s, unit.MM)
		if err != nil {
			b.Fatal(err)
		}
		w.Holes = append(w.Holes, h)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(outline, names, w, unit.Style{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParseHole(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ParseHole("12 at AB 40 from A 60", unit.MM); err != nil {
			b.Fatal(err)
		}
	}
}
