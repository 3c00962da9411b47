package paging

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// Size of something that is put on a page whole.
type Size struct{ Width, Height unit.Length }

// Thing is put on a page whole. Where it lies above the notch it may have another size.
type Thing struct {
	Size
	Above Size // zero: the same
}

// Spot is where it lies: the page, counted from 0, its upper left corner, from the upper
// left corner of the area, y up, so that it is never above 0; and its size there.
type Spot struct {
	Page int
	At   geom.Point
	Size
}

// Shelving is an area that small things share, page after page, in rows from the
// top ("shelves"), each from the left.
type Shelving struct {
	Area  Size
	Gap   unit.Length // between two things
	Notch Size        // kept free in the area's lower left corner
}

// Fits says whether something has a place on an empty page.
func (s Shelving) Fits(b Size) bool {
	return b.Height <= s.Area.Height && b.Width <= s.Area.Width-s.start(b.Height)
}

// start is how far to the right a shelf begins whose foot is so far down.
func (s Shelving) start(foot unit.Length) unit.Length {
	if foot > s.Area.Height-s.Notch.Height {
		return s.Notch.Width
	}
	return 0
}

// shelf is one row: from its top down, filled up to x.
type shelf struct{ top, height, x unit.Length }

// lookBack is on how many pages before the last one a place is looked for at most:
// things stay near their neighbours, and the time in bounds.
const lookBack = 8

// Put gives each thing its spot, and says how many pages that takes. Each is put on
// the first shelf that has room, else on a new shelf of the first page that has
// room. They are taken in their order, page after page; where that saves a page
// they fill what earlier pages have left, and where that saves another the highest
// come first. Each must fit an empty page. What is with the one before it (nil: nothing is)
// stays with it, side by side or under each other, where a page has room for both. The
// same sizes always give the same spots.
func (s Shelving) Put(things []Thing, with func(i int) bool) ([]Spot, int) {
	all := s.kept(things, with)
	order := make([]int, len(all))
	for i := range all {
		order[i] = i
	}
	spots, pages := s.put(all, order, 0)
	try := func() {
		if other, fewer := s.put(all, order, lookBack); fewer < pages {
			spots, pages = other, fewer
		}
	}
	try()
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(all[j].height(), all[i].height()) })
	try()
	return slices.Concat(spots...), pages
}

// kept is things that stay together, side by side or under each other.
type kept struct {
	things []Thing
	beside bool
}

// height of them beside the notch.
func (k kept) height() (high unit.Length) {
	for _, t := range k.things {
		high = max(high, t.Height)
	}
	if k.beside {
		return high
	}
	high = 0
	for _, t := range k.things {
		high += t.Height
	}
	return high
}

// size of them where they begin so far down, at the left of a shelf or behind others, and where each
// lies from there. Of those under each other only what stands beside the notch makes room for it.
func (s Shelving) size(k kept, top unit.Length, left bool) (all Size, spots []Spot) {
	for i, t := range k.things {
		p := Spot{Size: t.Size}
		if i > 0 && k.beside {
			p.At.X = all.Width + s.Gap
		} else if i > 0 {
			p.At.Y = -all.Height - s.Gap
		}
		if t.Above != (Size{}) && s.start(top-p.At.Y+t.Above.Height) == 0 {
			p.Size = t.Above
		}
		all.Width = max(all.Width, p.At.X+p.Width)
		all.Height = max(all.Height, p.Height-p.At.Y)
		spots = append(spots, p)
	}
	if k.beside || !left {
		return all, spots
	}
	all.Width = 0
	for i, p := range spots {
		x := s.start(top-p.At.Y+p.Height) - s.start(top+all.Height)
		spots[i].At.X = x
		all.Width = max(all.Width, x+p.Width)
	}
	return all, spots
}

// fits says whether they have a place on an empty page.
func (s Shelving) fits(k kept) bool {
	b, _ := s.size(k, 0, true)
	return s.Fits(b)
}

func (s Shelving) kept(things []Thing, with func(i int) bool) (all []kept) {
	for i, t := range things {
		if i > 0 && with != nil && with(i) {
			last := &all[len(all)-1]
			more := append(slices.Clone(last.things), t)
			if beside := (kept{more, true}); (len(last.things) == 1 || last.beside) && s.narrow(beside) && s.fits(beside) {
				*last = beside
				continue
			}
			if under := (kept{more, false}); (len(last.things) == 1 || !last.beside) && s.fits(under) {
				*last = under
				continue
			}
		}
		all = append(all, kept{[]Thing{t}, true})
	}
	return all
}

// narrow says whether they go side by side beside the notch as well.
func (s Shelving) narrow(k kept) bool {
	wide := s.Notch.Width - s.Gap
	for _, t := range k.things {
		wide += s.Gap + t.Width
	}
	return wide <= s.Area.Width
}

// put gives the spots of each of them.
func (s Shelving) put(all []kept, order []int, back int) ([][]Spot, int) {
	spots := make([][]Spot, len(all))
	var pages [][]shelf
	for _, i := range order {
		page, row := s.room(pages, all[i], back)
		if page == len(pages) {
			pages = append(pages, nil)
		}
		if row == len(pages[page]) {
			top := unit.Length(0)
			if row > 0 {
				above := pages[page][row-1]
				top = above.top + above.height + s.Gap
			}
			high, _ := s.size(all[i], top, true)
			pages[page] = append(pages[page], shelf{top: top, x: s.start(top + high.Height)})
		}
		r := &pages[page][row]
		b, at := s.size(all[i], r.top, r.height == 0)
		for _, p := range at {
			p.Page, p.At = page, p.At.Plus(geom.Point{X: r.x, Y: -r.top})
			spots[i] = append(spots[i], p)
		}
		r.height = max(r.height, b.Height)
		r.x += b.Width + s.Gap
	}
	return spots, len(pages)
}

// room is the page and the shelf that something goes on, not further back than so
// many pages before the last; one more than there are means a new one.
func (s Shelving) room(pages [][]shelf, t kept, back int) (page, row int) {
	first := max(0, len(pages)-1-back)
	for p := first; p < len(pages); p++ {
		for k, r := range pages[p] {
			b, _ := s.size(t, r.top, false)
			last := k == len(pages[p])-1
			foot := r.top + max(r.height, b.Height)
			grows := b.Height > r.height
			if r.x+b.Width > s.Area.Width || grows && (!last || foot > s.Area.Height || s.start(foot) != s.start(r.top+r.height)) {
				continue
			}
			return p, k
		}
	}
	for p := first; p < len(pages); p++ {
		r := pages[p][len(pages[p])-1]
		top := r.top + r.height + s.Gap
		b, _ := s.size(t, top, true)
		foot := top + b.Height
		if foot <= s.Area.Height && s.start(foot)+b.Width <= s.Area.Width {
			return p, len(pages[p])
		}
	}
	return len(pages), 0
}
