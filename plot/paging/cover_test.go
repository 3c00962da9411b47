package paging

import (
	"math/rand/v2"
	"slices"
	"testing"

	"trammel/geom"
)

func TestConfirmAddsWhatIsMissing(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	g, _ := newGrid(a4)
	tried := 0
	for k := range 300 {
		c := Cover(k % 2)
		s := newSearch(someTriangle(r, k), g, c, 0)
		p := s.moved(s.base, r.Float64()*g.p, r.Float64()*g.q)
		pages := slices.Clone(s.w.lay(p, 0))
		if all, added := confirm(p, pages, g, c, 0); added != 0 || len(all) != len(pages) {
			t.Fatalf("piece %d: %d pages added to what serves", k, added)
		}
		n := r.IntN(len(pages))
		all, added := confirm(p, slices.Delete(slices.Clone(pages), n, n+1), g, c, 0)
		if added < 1 || len(all) < len(pages)-1+added {
			t.Fatalf("piece %d, %v: page %v taken away, %d added", k, c, pages[n], added)
		}
		if _, more := confirm(p, all, g, c, 0); more != 0 {
			t.Fatalf("piece %d: the repaired list needs %d more", k, more)
		}
		tried++
	}
	if tried != 300 {
		t.Errorf("only %d tried", tried)
	}
}

// A sliver through the square where four pages overlap: each of its points is on
// one of two pages, but these touch only there and cannot be joined.
func TestCornersDoNotJoin(t *testing.T) {
	g, _ := newGrid(a4)
	x, y := g.p+g.u/2, g.q+g.v/2
	p := []geom.Vector{{X: x - 100, Y: y - 100}, {X: x + 100, Y: y + 100}, {X: x - 1, Y: y + 1}}
	for _, c := range []Cover{Full, OutlineOnly} {
		s := newSheets([]page{{0, 0}, {1, 1}}, g, 0)
		if n, lacks := s.missing(p); lacks {
			t.Errorf("%v is said to be missing", n)
		}
		if at, ok := s.walk(p); ok {
			t.Error("one walks over a corner")
		} else if at.X < g.p-0.001 || at.X > g.p+g.u+0.001 || at.Y < g.q-0.001 || at.Y > g.q+g.v+0.001 {
			t.Errorf("stuck at %v, not in the square", at)
		}
		if all, added := confirm(p, []page{{0, 0}, {1, 1}}, g, c, 0); added < 1 || len(all) != 2+added {
			t.Errorf("%d added", added)
		}
		w := newSearch(p, g, c, 0).w
		if n := len(w.lay(p, 0)); n != 3 {
			t.Errorf("%d pages, want 3", n)
		}
	}
}
