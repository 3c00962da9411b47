package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
)

// layout is a plan of corners as a net would fill it: the outline from the first
// n points, the baseline from the first to the second, lengths as given.
func layout(outline int, points []geom.Point, pairs ...[2]int) Plan {
	p := Plan{ZeroFirst: true, Details: true, Enlarged: Roundly}
	name := func(i int) geom.Name {
		if i < 26 {
			return geom.Name(rune('A' + i))
		}
		return geom.Name(fmt.Sprintf("%c%d", 'A'+i%26, 1+i/26))
	}
	for i, at := range points {
		far := 1 + at.Distance(geom.Point{})/10000
		p.Pegs = append(p.Pegs, Peg{
			Name: name(i), At: at, Role: Corner, Along: at.X,
			Ellipse: adjust.Ellipse{Major: 4 * far, Minor: 2.5 * far, Turn: unit.Angle(i) * 25 * unit.Degree},
		})
		if at.Y == 0 {
			p.Pegs[i].Running = fmt.Sprintf("(%.0f)", float64(at.X))
		}
		if i < outline {
			p.Edge = append(p.Edge, name(i))
			if i > 0 {
				pairs = append(pairs, [2]int{i, (i + 1) % outline})
			}
		}
	}
	p.Base = [2]geom.Name{name(0), name(1)}
	for _, pair := range pairs {
		a, b := points[pair[0]], points[pair[1]]
		p.Sides = append(p.Sides, Side{From: name(pair[0]), To: name(pair[1]), Words: fmt.Sprintf("%.0f", float64(a.Distance(b))), Measured: true})
	}
	return p
}

// corners of a net, in metres.
func metresOf(xy ...float64) []geom.Point {
	var p []geom.Point
	for i := 0; i < len(xy); i += 2 {
		p = append(p, geom.Point{X: unit.Length(xy[i]) * unit.Metre, Y: unit.Length(xy[i+1]) * unit.Metre})
	}
	return p
}

// clustered is a net of n points, in clumps or evenly, above and below a baseline
// and beyond its ends, tied together by distances.
func clustered(r *rand.Rand, n int) Plan {
	size := math.Exp(r.Float64()*3) * 4 // 4 to 80 m
	points := metresOf(0, 0, size, 0)
	clumps := 1 + r.IntN(6)
	type clump struct{ x, y, spread float64 }
	var cs []clump
	for range clumps {
		cs = append(cs, clump{r.Float64() * size, (r.Float64()*1.2 - 0.4) * size, size * math.Exp(-1-4*r.Float64())})
	}
	for len(points) < n {
		c := cs[r.IntN(clumps)]
		p := metresOf(c.x+r.NormFloat64()*c.spread, c.y+r.NormFloat64()*c.spread)[0]
		if !slices.ContainsFunc(points, func(q geom.Point) bool { return q.Distance(p) < 100 }) {
			points = append(points, p)
		}
	}
	var pairs [][2]int
	for i := 2; i < n; i++ {
		for range 2 {
			pairs = append(pairs, [2]int{i, r.IntN(i)})
		}
	}
	p := layout(0, points, pairs...)
	if r.IntN(2) == 0 {
		for i := range p.Pegs[2:] {
			peg := &p.Pegs[2+i]
			peg.Running = fmt.Sprintf("(%.1f)", float64(peg.Along))
			p.Strokes = append(p.Strokes, Stroke{OffsetTo, geom.Point{X: peg.At.X}, peg.At})
		}
		if n > 12 {
			p.Sides = nil
		}
	}
	return p
}

// fitting is the plan as large as a page lets it be.
func fitting(t testing.TB, p Plan) Drawn {
	t.Helper()
	out, ok := p.Fit(190, 230, lettering.Go())
	if !ok {
		t.Fatalf("no scale fits %v", p.Extent())
	}
	return out
}

// survey200 is a net of 200 points spread over 100 × 70 m and 1000 distances
// between neighbours.
func survey200() Plan {
	r := rand.New(rand.NewPCG(7, 8))
	points := metresOf(0, 0, 100, 0)
	for len(points) < 200 {
		i := len(points)
		points = append(points, metresOf(6*float64(i%17)+r.Float64()*4, 6*float64(i/17)+r.Float64()*4)[0])
	}
	var pairs [][2]int
	for d := unit.Length(6000); len(pairs) < 1000; d += 100 {
		pairs = nil
		for i, p := range points {
			for j := range i {
				if p.Distance(points[j]) < d {
					pairs = append(pairs, [2]int{i, j})
				}
			}
		}
	}
	return layout(0, points, pairs[:1000]...)
}

// inkOf is what a drawing has for words and for lines, by this test's own reading
// of its operations: a number and the circle round it belong to the name before.
type inkOf struct {
	words []string
	boxes [][]geom.Point
	lines []geom.Line
}

func read(d draw.Drawing, r draw.Ruler) (k inkOf) {
	for i, op := range d {
		switch o := op.(type) {
		case draw.Text:
			if i+1 < len(d) && i > 0 {
				if ring, ok := d[i+1].(draw.Arc); ok && numbers(ring) && o.At.Distance(ring.Centre) < ring.Radius {
					k.boxes[len(k.boxes)-1] = append(k.boxes[len(k.boxes)-1], octagon(ring)...)
					continue
				}
			}
			b := o.Box(r)
			k.words, k.boxes = append(k.words, o.Words), append(k.boxes, b[:])
		case draw.Line:
			k.lines = append(k.lines, o.Line)
		case draw.Polyline:
			for j := range o.Points[1:] {
				k.lines = append(k.lines, geom.Line{From: o.Points[j], To: o.Points[j+1]})
			}
			if o.Closed {
				k.lines = append(k.lines, geom.Line{From: o.Points[len(o.Points)-1], To: o.Points[0]})
			}
		case draw.Arc:
			if !numbers(o) {
				for j := range 90 {
					k.lines = append(k.lines, geom.Line{From: o.Arc.At(float64(j) / 90), To: o.Arc.At(float64(j+1) / 90)})
				}
			}
		}
	}
	return k
}

// numbers says whether an arc is the circle round a number.
func numbers(a draw.Arc) bool {
	return a.On == draw.Dimension && a.Radius >= 2.1 && math.Abs(float64(a.Sweep-unit.Turn)) < 1e-9
}

func octagon(a draw.Arc) []geom.Point {
	var p []geom.Point
	for i := range 8 {
		p = append(p, a.Centre.Toward(unit.Turn*unit.Angle(i)/8, a.Radius))
	}
	return p
}

// gapOf two sets of points is the widest strip between them in any of 180
// directions: never more than the distance of their hulls and hardly less, and
// negative where they meet.
func gapOf(p, q []geom.Point) float64 {
	best := math.Inf(-1)
	for i := range 180 {
		sin, cos := math.Sincos(float64(i) * 2 * math.Pi / 180)
		most, least := math.Inf(-1), math.Inf(1)
		for _, a := range p {
			most = max(most, float64(a.X)*cos+float64(a.Y)*sin)
		}
		for _, b := range q {
			least = min(least, float64(b.X)*cos+float64(b.Y)*sin)
		}
		best = max(best, least-most)
	}
	return best
}

// apartFrom holds that no words of a drawing come near others: 2 mm, and in a row
// of running figures 1 mm from box to box.
func apartFrom(t *testing.T, what string, k inkOf) {
	t.Helper()
	for i := range k.boxes {
		r := geom.RectOf(k.boxes[i][0], k.boxes[i]...).Grow(2)
		for j := range i {
			if !r.Meets(geom.RectOf(k.boxes[j][0], k.boxes[j]...)) {
				continue
			}
			least := 1.9
			if strings.Contains(k.words[i], "  ") && strings.Contains(k.words[j], "  ") {
				least = 1
			}
			if gap := gapOf(k.boxes[i], k.boxes[j]); gap < least {
				t.Errorf("%s: %q and %q are %.2f mm apart", what, k.words[i], k.words[j], gap)
			}
		}
	}
}

// crossings are the words that a line runs through.
func crossings(k inkOf) (n int) {
	for _, b := range k.boxes {
		r := geom.RectOf(b[0], b...)
		for _, l := range k.lines {
			if r.Meets(geom.RectOf(l.From, l.To)) && gapOf(b, []geom.Point{l.From, l.To}) < 0 {
				n++
				break
			}
		}
	}
	return n
}
