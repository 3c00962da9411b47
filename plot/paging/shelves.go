package paging

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// Size of something that is put on a page whole.
type Size struct{ Width, Height unit.Length }

// Spot is where it lies: the page, counted from 0, and its upper left corner, from
// the upper left corner of the area, y up, so that it is never above 0.
type Spot struct {
	Page int
	At   geom.Point
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
func (s Shelving) Put(sizes []Size, with func(i int) bool) ([]Spot, int) {
	all := s.kept(sizes, with)
	whole := make([]Size, len(all))
	order := make([]int, len(all))
	for i, k := range all {
		order[i], whole[i] = i, k.Size
	}
	spots, pages := s.put(whole, order, 0)
	try := func() {
		if other, fewer := s.put(whole, order, lookBack); fewer < pages {
			spots, pages = other, fewer
		}
	}
	try()
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(whole[j].Height, whole[i].Height) })
	try()
	each := make([]Spot, 0, len(sizes))
	for i, k := range all {
		for _, at := range k.at {
			p := Spot{spots[i].Page, spots[i].At.Plus(at)}
			// Of those under each other only what stands beside the notch makes room for it.
			if first := s.start(k.Height - spots[i].At.Y); at.X == 0 && p.At.X == first {
				p.At.X = s.start(sizes[len(each)].Height - p.At.Y)
			}
			each = append(each, p)
		}
	}
	return each, pages
}

// kept is things that stay together, and where each lies from its upper left corner.
type kept struct {
	Size
	at []geom.Point
}

func (s Shelving) kept(sizes []Size, with func(i int) bool) (all []kept) {
	for i, b := range sizes {
		if i > 0 && with != nil && with(i) {
			last := &all[len(all)-1]
			beside := Size{last.Width + s.Gap + b.Width, max(last.Height, b.Height)}
			under := Size{max(last.Width, b.Width), last.Height + s.Gap + b.Height}
			switch {
			case s.Fits(beside) && beside.Width <= s.Area.Width-s.Notch.Width:
				last.at = append(last.at, geom.Point{X: last.Width + s.Gap})
				last.Size = beside
				continue
			case s.Fits(under):
				last.at = append(last.at, geom.Point{Y: -last.Height - s.Gap})
				last.Size = under
				continue
			}
		}
		all = append(all, kept{b, []geom.Point{{}}})
	}
	return all
}

func (s Shelving) put(sizes []Size, order []int, back int) ([]Spot, int) {
	spots := make([]Spot, len(sizes))
	var pages [][]shelf
	for _, i := range order {
		b := sizes[i]
		page, row := s.room(pages, b, back)
		if page == len(pages) {
			pages = append(pages, nil)
		}
		if row == len(pages[page]) {
			top := unit.Length(0)
			if row > 0 {
				above := pages[page][row-1]
				top = above.top + above.height + s.Gap
			}
			pages[page] = append(pages[page], shelf{top, b.Height, s.start(top + b.Height)})
		}
		r := &pages[page][row]
		r.height = max(r.height, b.Height)
		spots[i] = Spot{page, geom.Point{X: r.x, Y: -r.top}}
		r.x += b.Width + s.Gap
	}
	return spots, len(pages)
}

// room is the page and the shelf that something goes on, not further back than so
// many pages before the last; one more than there are means a new one.
func (s Shelving) room(pages [][]shelf, b Size, back int) (page, row int) {
	first := max(0, len(pages)-1-back)
	for p := first; p < len(pages); p++ {
		for k, r := range pages[p] {
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
		foot := r.top + r.height + s.Gap + b.Height
		if foot <= s.Area.Height && s.start(foot)+b.Width <= s.Area.Width {
			return p, len(pages[p])
		}
	}
	return len(pages), 0
}
