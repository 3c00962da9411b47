package place

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

func somewhere(r *rand.Rand, size float64) geom.Point {
	return geom.Point{X: unit.Length((r.Float64() - 0.5) * size), Y: unit.Length((r.Float64() - 0.5) * size)}
}

// turned is a box about a place.
func turned(r *rand.Rand, at geom.Point) geom.Polygon {
	m := geom.Placement{Turn: unit.Angle(r.Float64()) * unit.Turn, Shift: at}
	w, h := unit.Length(1+9*r.Float64()), unit.Length(1+3*r.Float64())
	c := geom.Rect{Min: geom.Point{X: -w, Y: -h}, Max: geom.Point{X: w, Y: h}}.Corners()
	return m.Polygon(c[:])
}

// samples are points all over a convex box, along its edges too.
func samples(b geom.Polygon, n int) []geom.Point {
	var all []geom.Point
	for i := range n + 1 {
		t := float64(i) / float64(n)
		row := geom.Line{From: geom.Line{From: b[0], To: b[3]}.At(t), To: geom.Line{From: b[1], To: b[2]}.At(t)}
		for k := range n + 1 {
			all = append(all, row.At(float64(k)/float64(n)))
		}
	}
	return all
}

// Whether a box is free is what points set closely over boxes and along strokes say, by
// their distances alone; where those are within the grid of the points nothing is asked.
func TestFreeAgainstPoints(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	asked := [2]int{}
	for range gate.Of(15, 40) {
		s := NewScene(unit.Length(3 + 20*r.Float64()))
		var ink, words []geom.Point
		for of := range 3 {
			for _, k := range Strokes(draw.Line{Line: geom.Line{From: somewhere(r, 80), To: somewhere(r, 80)}, Pen: draw.Wide}, 6) {
				k.Of = of
				s.Draw(k)
				for i := range 17 {
					if of > 0 {
						ink = append(ink, k.At(float64(i)/16))
					}
				}
			}
			box := turned(r, somewhere(r, 80))
			s.Block(box)
			words = append(words, samples(box, 12)...)
		}
		for range 30 {
			g := Gaps{Ink: 0.8, Words: 2}
			box := turned(r, somewhere(r, 80))
			own := samples(box, 12)
			far := func(others []geom.Point) float64 {
				d := math.Inf(1)
				for _, p := range own {
					for _, q := range others {
						d = min(d, math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)))
					}
				}
				return d
			}
			const grid = 1.3
			i, w := far(ink)-float64(g.Ink+draw.Wide.Width/2), far(words)-float64(g.Words)
			free := s.Free(box, g, 0)
			switch {
			case i > grid && w > grid:
				asked[0]++
				if !free {
					t.Fatalf("%v is %.2f and %.2f mm clear and not free", box, i, w)
				}
			case i < 0 || w < 0:
				asked[1]++
				if free {
					t.Fatalf("%v lacks %.2f or %.2f mm and is free", box, i, w)
				}
			}
		}
	}
	if asked[0] < 100 || asked[1] < 100 {
		t.Errorf("%d free and %d taken boxes asked for", asked[0], asked[1])
	}
}

// The index gives what meets a rectangle, each at least once, as asking all does.
func TestIndexAgainstAll(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	rect := func() geom.Rect { return geom.RectOf(somewhere(r, 200), somewhere(r, 200)) }
	for range 50 {
		f := NewIndex[int](unit.Length(2 + 30*r.Float64()))
		var all []geom.Rect
		for i := range 40 {
			all = append(all, rect())
			f.Put(all[i], i)
		}
		near := rect()
		got := map[int]bool{}
		f.Every(near, func(i int) bool { got[i] = true; return true })
		for i, b := range all {
			if b.Meets(near) && !got[i] {
				t.Fatalf("%v near %v was not asked", b, near)
			}
		}
	}
}

// Strokes lie on what they are cut from, end to end, none too long; the chords of an arc
// within their half width of it.
func TestStrokesLieOnTheirLines(t *testing.T) {
	l := geom.Line{From: geom.Point{X: 3, Y: 4}, To: geom.Point{X: 103, Y: -20}}
	a := geom.Arc{Centre: geom.Point{X: 10, Y: 10}, Radius: 700, Start: 1, Sweep: -2}
	for _, c := range []struct {
		op       draw.Op
		from, to geom.Point
		off      func(geom.Point) float64
	}{
		{draw.Line{Line: l, Pen: draw.Wide}, l.From, l.To, func(p geom.Point) float64 { return float64(l.Distance(p)) }},
		{draw.Arc{Arc: a, Pen: draw.Wide}, a.At(0), a.At(1), func(p geom.Point) float64 { return math.Abs(float64(p.Distance(a.Centre) - a.Radius)) }},
	} {
		all := Strokes(c.op, 40)
		if d := all[0].From.Distance(c.from) + all[len(all)-1].To.Distance(c.to); d > 1e-9 {
			t.Errorf("%T: strokes end %v off", c.op, d)
		}
		for i, k := range all {
			if k.Length() > 40+1e-9 || i > 0 && k.From.Distance(all[i-1].To) > 1e-9 {
				t.Errorf("%T: stroke %d is %v", c.op, i, k.Line)
			}
			for j := range 11 {
				if off := c.off(k.At(float64(j) / 10)); off > float64(k.Half-draw.Wide.Width/2)+1e-9 {
					t.Errorf("%T: %v off", c.op, off)
				}
			}
		}
	}
}

// Things are tried in the order in which sorting all their costs, the later ones too, has
// them, until one is taken or they cost too much.
func TestCheapestAgainstSorting(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		type way struct {
			cost  float64
			at, n int
		}
		n := 1 + r.IntN(20)
		first := make([]float64, n)
		var want []way
		for i := range first {
			first[i] = float64(r.IntN(10))
			for k := range 3 {
				want = append(want, way{first[i] + 4*float64(k), i, k})
			}
		}
		slices.SortStableFunc(want, func(a, b way) int { return int(a.cost - b.cost) })
		most, take := float64(5+r.IntN(20)), r.IntN(2*len(want))
		tries := make([]int, n)
		var got []way
		taken := Cheapest(n, most, func(i int) float64 { return first[i] }, func(i int) (bool, float64) {
			got = append(got, way{first[i] + 4*float64(tries[i]), i, tries[i]})
			if tries[i]++; tries[i] == 3 {
				return len(got) > take, Never
			}
			return len(got) > take, first[i] + 4*float64(tries[i])
		})
		if i := slices.IndexFunc(want, func(w way) bool { return w.cost > most }); i >= 0 {
			want = want[:i]
		}
		if taken != (take < len(want)) {
			t.Fatalf("taken %v: %d of %d", taken, take, len(want))
		}
		if want = want[:min(take+1, len(want))]; !slices.Equal(got, want) {
			t.Fatalf("tried %v, want %v", got, want)
		}
	}
}

// A spot on the ground is free by the distances of the shapes alone, and where none is
// found none of the places one square apart is.
func TestSpotAgainstDistances(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	found, none := 0, 0
	for range gate.Of(100, 200) {
		area := geom.Rect{Max: geom.Point{X: 90, Y: 60}}
		var g FreeGrid
		g.Level(area, 1.5)
		var all []geom.Polygon
		for range 4 + r.IntN(30) {
			b := turned(r, somewhere(r, 80).Plus(area.Centre()))
			if !area.Holds(b.Bounds()) {
				continue // what lies off the ground does not count
			}
			all = append(all, b)
			g.Take(b, 1)
			if len(all)%5 == 0 {
				g.Count() // what is taken later is added
			}
		}
		g.Count()
		w, h := unit.Length(5+40*r.Float64()), unit.Length(5+20*r.Float64())
		b := Block{Rects: []geom.Rect{{Max: geom.Point{X: w, Y: h}}}, Right: r.IntN(2) == 0, Top: r.IntN(2) == 0}
		gap := func(p geom.Point) unit.Length {
			c := b.Rects[0].Shift(p).Corners()
			d := unit.Length(math.Inf(1))
			for _, o := range all {
				d = min(d, o.Apart(c[:]))
			}
			return d
		}
		p, ok := g.Spot(b, 2, area, nil)
		if ok {
			found++
			if !area.Holds(b.Rects[0].Shift(p)) || gap(p) < 3-1e-9 || !g.Fits(b, p, 2, area) {
				t.Fatalf("%.1f × %.1f at %v: %.2f mm clear", w, h, p, gap(p))
			}
			continue
		}
		none++
		for x := unit.Length(0); x <= 90-w; x++ {
			for y := unit.Length(0); y <= 60-h; y++ {
				if at := (geom.Point{X: x, Y: y}); gap(at) > 3+2*1.5*math.Sqrt2+0.01 {
					t.Fatalf("%.1f × %.1f: no spot, but at %v %.2f mm are clear", w, h, at, gap(at))
				}
			}
		}
	}
	if found < 20 || none < 20 {
		t.Errorf("%d spots, %d times none", found, none)
	}
}

// From the top a spot is the first in rows from there, each from the left, by asking every
// square: of places that lie on the squares themselves.
func TestSpotAgainstSquares(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 100 {
		area := geom.Rect{Max: geom.Point{X: 40, Y: 30}}
		var g FreeGrid
		g.Level(area, 2)
		taken := map[[2]int]bool{}
		for range r.IntN(8) {
			i, j := r.IntN(20), r.IntN(15)
			taken[[2]int{i, j}] = true
			at := geom.Point{X: unit.Length(2*i) + 1, Y: unit.Length(2*j) + 1}
			g.Mark(geom.Rect{Min: at, Max: at}, func(q geom.Rect) bool { return q.Centre() == at })
		}
		g.Count()
		w, h, more := 1+r.IntN(8), 1+r.IntN(6), r.IntN(3)
		var want geom.Point
		ok := false
		for j := 15 - h; j >= 0 && !ok; j-- {
			for i := 0; i+w <= 20 && !ok; i++ {
				ok = true
				for x := i - more; x < i+w+more; x++ {
					for y := j - more; y < j+h+more; y++ {
						ok = ok && !taken[[2]int{x, y}]
					}
				}
				want = geom.Point{X: unit.Length(2 * i), Y: unit.Length(2 * j)}
			}
		}
		const hair = 1e-7
		b := Block{Rects: []geom.Rect{{Max: geom.Point{X: unit.Length(2 * w), Y: unit.Length(2 * h)}}}, Top: true}
		got, found := g.Spot(b, unit.Length(2*more)-hair, area.Grow(hair/2), nil)
		if found != ok || found && got.Distance(want) > hair {
			t.Fatalf("%d × %d: %v %v, want %v %v", w, h, got, found, want, ok)
		}
	}
}
