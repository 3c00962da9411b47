package paging_test

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// things are as wide wherever they lie.
func things(sizes []paging.Size) (all []paging.Thing) {
	for _, b := range sizes {
		all = append(all, paging.Thing{Size: b})
	}
	return all
}

// unsized is the spots without their sizes.
func unsized(spots []paging.Spot) []paging.Spot {
	all := []paging.Spot{}
	for _, p := range spots {
		all = append(all, paging.Spot{Page: p.Page, At: p.At})
	}
	return all
}

// Small cases by hand.
func TestShelves(t *testing.T) {
	s := paging.Shelving{Area: paging.Size{Width: 100, Height: 100}, Gap: 5, Notch: paging.Size{Width: 20, Height: 30}}
	spot := func(page int, x, y unit.Length) paging.Spot {
		return paging.Spot{Page: page, At: geom.Point{X: x, Y: y}}
	}
	for _, c := range []struct {
		name  string
		sizes []paging.Size
		want  []paging.Spot
		pages int
	}{
		{"none", nil, []paging.Spot{}, 0},
		{"a row", []paging.Size{{40, 30}, {40, 20}}, []paging.Spot{spot(0, 0, 0), spot(0, 45, 0)}, 1},
		{"the last shelf grows", []paging.Size{{40, 20}, {40, 30}, {60, 10}}, []paging.Spot{spot(0, 0, 0), spot(0, 45, 0), spot(0, 0, -35)}, 1},
		{"beside the notch", []paging.Size{{90, 60}, {80, 35}}, []paging.Spot{spot(0, 0, 0), spot(0, 20, -65)}, 1},
		{"too wide beside the notch", []paging.Size{{90, 60}, {81, 30}}, []paging.Spot{spot(0, 0, 0), spot(1, 0, 0)}, 2},
		{"not grown into the notch", []paging.Size{{40, 60}, {40, 75}}, []paging.Spot{spot(0, 0, 0), spot(1, 20, 0)}, 2},
		{"the last page", []paging.Size{{90, 60}, {90, 60}, {70, 30}}, []paging.Spot{spot(0, 0, 0), spot(1, 0, 0), spot(1, 20, -65)}, 2},
		{"an earlier page where that saves one", []paging.Size{{90, 65}, {90, 65}, {70, 30}, {70, 30}}, []paging.Spot{spot(0, 0, 0), spot(1, 0, 0), spot(0, 20, -70), spot(1, 20, -70)}, 2},
		// In their order three pages: 30 and 30, 65, 65.
		{"the highest first saves a page", []paging.Size{{80, 30}, {80, 30}, {80, 65}, {80, 65}}, []paging.Spot{spot(0, 20, -70), spot(1, 20, -70), spot(0, 0, 0), spot(1, 0, 0)}, 2},
	} {
		got, pages := s.Put(things(c.sizes), nil)
		if got = unsized(got); !reflect.DeepEqual(got, c.want) || pages != c.pages {
			t.Errorf("%s: %v on %d pages, want %v on %d", c.name, got, pages, c.want, c.pages)
		}
	}
}

// Answers of one piece are not torn apart: by hand, on an area of 100 by 100.
func TestWhatBelongsTogetherStaysTogether(t *testing.T) {
	s := paging.Shelving{Area: paging.Size{Width: 100, Height: 100}, Gap: 5}
	spot := func(page int, x, y unit.Length) paging.Spot {
		return paging.Spot{Page: page, At: geom.Point{X: x, Y: y}}
	}
	for _, c := range []struct {
		name  string
		sizes []paging.Size
		with  int
		want  []paging.Spot
	}{
		{"under each other, on the next page", []paging.Size{{90, 40}, {90, 40}, {90, 40}}, 2, []paging.Spot{spot(0, 0, 0), spot(1, 0, 0), spot(1, 0, -45)}},
		{"side by side", []paging.Size{{90, 60}, {40, 20}, {40, 35}}, 2, []paging.Spot{spot(0, 0, 0), spot(0, 0, -65), spot(0, 45, -65)}},
		{"too high for one page", []paging.Size{{90, 40}, {90, 55}, {90, 55}}, 2, []paging.Spot{spot(0, 0, 0), spot(0, 0, -45), spot(1, 0, 0)}},
	} {
		got, _ := s.Put(things(c.sizes), func(i int) bool { return i == c.with })
		if got = unsized(got); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// Above the notch things are wider and lower: by hand, 100 by 100 with a notch of 20 by 50. The first two go
// above it, the third beside it.
func TestShelvesAboveTheNotch(t *testing.T) {
	s := paging.Shelving{Area: paging.Size{Width: 100, Height: 100}, Gap: 5, Notch: paging.Size{Width: 20, Height: 50}}
	narrow, wide := paging.Size{Width: 80, Height: 30}, paging.Size{Width: 100, Height: 20}
	one := paging.Thing{Size: narrow, Above: wide}
	for _, with := range []func(int) bool{nil, func(i int) bool { return i == 2 }} {
		got, pages := s.Put([]paging.Thing{one, one, one}, with)
		want := []paging.Spot{
			{Size: wide}, {At: geom.Point{Y: -25}, Size: wide}, {At: geom.Point{X: 20, Y: -50}, Size: narrow},
		}
		if !reflect.DeepEqual(got, want) || pages != 1 {
			t.Errorf("%v on %d pages, want %v on one", got, pages, want)
		}
	}
}

// Whatever the sizes, nothing lies over anything else, in the notch or off the
// area, the gap is kept, and no page is empty.
func TestShelvesKeepApart(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		s := paging.Shelving{Area: paging.Size{Width: 188, Height: 240}, Gap: 5, Notch: paging.Size{Width: 14, Height: 70}}
		var sizes []paging.Thing
		total := unit.Length(0)
		for range 1 + r.IntN(60) {
			b := paging.Size{Width: 10 + unit.Length(r.Float64())*165, Height: 10 + unit.Length(r.Float64())*170}
			if !s.Fits(b) {
				continue
			}
			thing := paging.Thing{Size: b}
			if r.IntN(3) == 0 {
				thing.Above = paging.Size{Width: min(s.Area.Width, b.Width*1.3), Height: b.Height * 0.8}
			}
			sizes = append(sizes, thing)
			total += b.Width * b.Height
		}
		spots, pages := s.Put(sizes, func(i int) bool { return i%3 == 1 })
		used := map[int]bool{}
		for i, p := range spots {
			b := p.Size
			if b != sizes[i].Size && b != sizes[i].Above {
				t.Fatalf("%v is as large as nothing that was put: %v", b, sizes[i])
			}
			used[p.Page] = true
			low := p.At.Y - b.Height
			if p.At.X < 0 || p.At.X+b.Width > s.Area.Width || p.At.Y > 0 || low < -s.Area.Height {
				t.Fatalf("%v at %v is off the area", b, p)
			}
			if p.At.X < s.Notch.Width && low < s.Notch.Height-s.Area.Height {
				t.Fatalf("%v at %v is in the notch", b, p)
			}
			for j := range i {
				q, c := spots[j], spots[j].Size
				if p.Page == q.Page && p.At.X < q.At.X+c.Width+s.Gap-1e-9 && q.At.X < p.At.X+b.Width+s.Gap-1e-9 && p.At.Y > q.At.Y-c.Height-s.Gap+1e-9 && q.At.Y > p.At.Y-b.Height-s.Gap+1e-9 {
					t.Fatalf("%v at %v and %v at %v", b, p, c, q)
				}
			}
		}
		if len(used) != pages || float64(pages) > 3*float64(total/(s.Area.Width*s.Area.Height))+1 {
			t.Fatalf("%d pages, %d used, for %.1f pages of boxes", pages, len(used), total/(s.Area.Width*s.Area.Height))
		}
	}
}
