package paging

import (
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom"
)

func someTriangle(r *rand.Rand, k int) []geom.Vector {
	size := math.Exp(math.Log(60) + r.Float64()*math.Log(100))
	p := []geom.Vector{{X: r.Float64() * size, Y: r.Float64() * size}, {X: r.Float64() * size, Y: r.Float64() * size}, {X: r.Float64() * size, Y: r.Float64() * size}}
	if k%3 == 0 { // a needle
		f := r.Float64()
		p[2] = geom.Vector{X: p[0].X + (p[1].X-p[0].X)*f + r.Float64()*30, Y: p[0].Y + (p[1].Y-p[0].Y)*f}
	}
	c := middle(p)
	for i := range p {
		p[i].X -= c.X
		p[i].Y -= c.Y
	}
	return p
}

var boundSheets = []Sheet{a4, {Name: "low", Width: 300, Height: 110, Left: 5, Right: 5, Top: 5, Bottom: 5, Overlap: 4}, {Name: "A3", Width: 297, Height: 420, Left: 5, Right: 5, Top: 5, Bottom: 15, Overlap: 30}}

// No place in a box takes fewer pages than the bound at its centre. This fails if
// windows are grown without moving the shape along (tried).
func TestBoundHoldsInTheBox(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	tight := 0
	for k := range boxesOfPlaces {
		g, err := newGrid(boundSheets[k%3])
		if err != nil {
			t.Fatal(err)
		}
		c := Cover(k / 3 % 2)
		s := newSearch(someTriangle(r, k/6), g, c, 0)
		d := math.Pow(10, r.Float64()*3.3-2) // 0.01 to 20 mm
		b := box{pose{r.Float64() * math.Pi, r.Float64() * g.p, r.Float64() * g.q}, d / s.radius * r.Float64(), d * r.Float64(), d * r.Float64()}
		if k%5 == 0 { // an edge parallel
			b.turn = -math.Atan2(s.base[1].Y-s.base[0].Y, s.base[1].X-s.base[0].X)
		}
		rotate(s.turned, s.base, b.turn)
		dx, dy := b.reach(s.turned)
		rows := boundTriangle([3]geom.Vector{s.turned[0], s.turned[1], s.turned[2]}, geom.Vector{X: b.x, Y: b.y}, dx, dy, g, c)
		spots := s.w.bound(s.moved(s.turned, b.x, b.y), dx, dy, far)
		for range 4 {
			in := func(h float64) float64 { return h * (2*r.Float64() - 1) }
			if r.IntN(2) == 0 { // the corners of the box are where it is tight
				in = func(h float64) float64 { return h * float64(2*r.IntN(2)-1) }
			}
			at := pose{b.turn + in(b.ht), b.x + in(b.hx), b.y + in(b.hy)}
			rotate(s.turned, s.base, at.turn)
			n := len(s.w.lay(s.moved(s.turned, at.x, at.y), 0))
			if rows > n || spots > n {
				t.Fatalf("%v at %+v takes %d pages; by rows %d, by spots %d in %+v\n%v", c, at, n, rows, spots, b, s.base)
			}
			if max(rows, spots) == n {
				tight++
			}
		}
	}
	if tight < boxesOfPlaces {
		t.Errorf("the bound is met in only %d of %d", tight, 4*boxesOfPlaces)
	}
}

// Two ways to count that have nothing in common: by rows, and along the outline.
func TestRowsAndSpotsAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	var differ [2]int
	for k := range placesCounted {
		g, _ := newGrid(boundSheets[k%3])
		c := Cover(k / 3 % 2)
		s := newSearch(someTriangle(r, k/6), g, c, 0)
		at := pose{r.Float64() * math.Pi, r.Float64() * g.p, r.Float64() * g.q}
		rotate(s.turned, s.base, at.turn)
		rows := boundTriangle([3]geom.Vector{s.turned[0], s.turned[1], s.turned[2]}, geom.Vector{X: at.x, Y: at.y}, 0, 0, g, c)
		p := s.moved(s.turned, at.x, at.y)
		n := len(s.w.lay(p, 0))
		if rows > n {
			t.Fatalf("%v at %+v: by rows %d, but %d pages serve\n%v", c, at, rows, n, s.base)
		}
		if rows < n {
			differ[c]++
		}
	}
	if differ[Full] > 0 || differ[OutlineOnly] > placesCounted/1000 {
		t.Errorf("of %d, half on each cover, by rows is less for %d (full), %d (outline)", placesCounted, differ[Full], differ[OutlineOnly])
	}
}
