package paging_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// randomPolygon is a shape of one of six kinds, most of them hollow, 100 mm to 2 m
// across and turned at random.
func randomPolygon(r *rand.Rand, kind int) geom.Polygon {
	size := math.Exp(math.Log(150) + r.Float64()*math.Log(2000.0/150))
	var p geom.Polygon
	w, h := size, size*(0.3+0.7*r.Float64())
	arm := func(of float64) float64 { return of * (0.1 + 0.35*r.Float64()) }
	switch kind % 6 {
	case 0: // a star-shaped one of 5 to 12 corners
		n := 5 + r.IntN(8)
		for k := range n {
			d := size / 2 * (0.3 + 0.7*r.Float64())
			a := (float64(k) + 0.8*r.Float64()) / float64(n) * 2 * math.Pi
			p = append(p, pt(d*math.Cos(a), d*math.Sin(a)))
		}
	case 1: // L
		a, b := arm(w), arm(h)
		p = geom.Polygon{pt(0, 0), pt(w, 0), pt(w, b), pt(a, b), pt(a, h), pt(0, h)}
	case 2: // U
		a, b, c := arm(w), arm(h), arm(w)
		p = geom.Polygon{pt(0, 0), pt(w, 0), pt(w, h), pt(w-c, h), pt(w-c, b), pt(a, b), pt(a, h), pt(0, h)}
	case 3: // a frame that is open at one place
		a, gap := arm(min(w, h)), 5+20*r.Float64()
		p = geom.Polygon{pt(0, 0), pt(w, 0), pt(w, h), pt(w/2+gap, h), pt(w/2+gap, h-a), pt(w-a, h-a), pt(w-a, a), pt(a, a), pt(a, h-a), pt(w/2, h-a), pt(w/2, h), pt(0, h)}
	case 4: // four corners
		p = geom.Polygon{pt(0, 0), pt(w, h*0.2*r.Float64()), pt(w*(0.7+0.3*r.Float64()), h), pt(w*0.3*r.Float64(), h*(0.6+0.4*r.Float64()))}
	case 5: // a wedge with a notch
		p = geom.Polygon{pt(0, 0), pt(w, 0), pt(w*0.6, h*0.5), pt(w*(0.3+0.2*r.Float64()), h*0.2), pt(w*0.2, h)}
	}
	return geom.Placement{Turn: unit.Angle(r.Float64() * 2 * math.Pi)}.Polygon(p)
}

func TestPolygons(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	proven := 0
	for k := range paging.ManyPolygons {
		name := fmt.Sprintf("polygon %d", k)
		p := check(t, name, randomPolygon(r, k), a4Sheet, paging.Cover(k/6%2), nil)
		if p.Proven {
			proven++
		} else {
			t.Logf("%s: %d pages, proven only that %d are needed", name, p.Least, p.Bound)
		}
	}
	if proven < paging.ManyPolygons {
		t.Errorf("%d of %d are proven", proven, paging.ManyPolygons)
	}
}

// Where the inside of a notch is on a page of its own, outline needs that page.
func TestNotchNeedsItsPage(t *testing.T) {
	// A plate 1300 × 1000 with a slot 4 mm wide to its middle.
	slotted := geom.Polygon{pt(0, 0), pt(648, 0), pt(648, 500), pt(652, 500), pt(652, 0), pt(1300, 0), pt(1300, 1000), pt(0, 1000)}
	plate := geom.Polygon{pt(0, 0), pt(1300, 0), pt(1300, 1000), pt(0, 1000)}
	with := check(t, "slotted", slotted, a4Sheet, paging.OutlineOnly, nil)
	without := check(t, "plate", plate, a4Sheet, paging.OutlineOnly, nil)
	if len(with.Cells) <= len(without.Cells) || !with.Proven || !without.Proven {
		t.Errorf("slotted %d pages (proven %t), plain %d (%t)", len(with.Cells), with.Proven, len(without.Cells), without.Proven)
	}
}

func BenchmarkPolygons(b *testing.B) {
	r := rand.New(rand.NewPCG(15, 16))
	for k := 0; b.Loop(); k++ {
		if _, err := paging.Lay(randomPolygon(r, k), a4Sheet, paging.Cover(k/6%2), nil, paging.Effort{}); err != nil {
			b.Fatal(err)
		}
	}
}
