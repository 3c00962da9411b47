package paging

import (
	"slices"

	"trammel/geom"
)

// stuck goes round from the core at spot number from, by the pages there are.
// Where the walk cannot go on it returns the spots from the last core before
// (without it) to there: any set of pages that lets one walk has a further page
// of those. Otherwise a is −1.
func (w *walker) stuck(from int) (a, b int) {
	n := len(w.spots)
	last := w.spots[from]
	at := uint(1) // the pages of spot last that one may be on: bit di + 2·dj
	core := from
	for k := from + 1; k <= n; k++ {
		s := w.spots[k%n]
		at = w.reach(last, s, at)
		w.work++
		w.cost++
		if at == 0 {
			return core + 1, k
		}
		if s.core() {
			core = k
		}
		last = s
	}
	return -1, -1
}

// reach is the pages of spot s that one may be on after those of spot last.
func (w *walker) reach(last, s spot, at uint) uint {
	ox, oy := int(last.x>>1)-int(s.x>>1), int(last.y>>1)-int(s.y>>1)
	var to uint
	for b := range 4 {
		if at>>b&1 == 1 {
			di, dj := b&1+ox, b>>1+oy
			if di >= 0 && dj >= 0 && di <= int(s.x&1) && dj <= int(s.y&1) {
				to |= 1 << (di + 2*dj)
			}
		}
	}
	if s.core() || to == 0 {
		return to
	}
	var there uint
	for b, n := range s.showing {
		if to>>b&1 == 1 || w.has(n) {
			there |= 1 << b
		}
	}
	for range 2 { // two steps lead anywhere in a square of four
		to |= (to&0b0101)<<1 | (to&0b1010)>>1 | (to&0b0011)<<2 | (to&0b1100)>>2
		to &= there
	}
	return to
}

// lower is a number of pages that are needed besides, none being taken yet. Each
// part of the outline between two cores that one cannot walk asks for some of its
// own pages; what it may share with parts before it is not counted again.
func (w *walker) lower() int {
	w.pack.clear()
	w.uses = w.uses[:0]
	n := len(w.spots)
	if w.cores == 0 {
		return max(1, w.packed(0, n))
	}
	total := 0
	// The straight part looked at last, what is counted for it and when its pages came.
	begin, counted, since := 0, 0, 0
	for from := 0; from < n; {
		a, b := w.stuck(from)
		if a < 0 {
			break
		}
		for !w.spots[b%n].core() {
			b++
		}
		from = b
		have := len(w.pack.list)
		if !w.straight(a, b) {
			total += w.packed(a, b)
			begin, counted, since = b, 0, len(w.pack.list)
			continue
		}
		// No page need be left and come to again, so the cheapest chain is what it takes.
		before, with := w.pile(a, b, since, have)
		if with > 0 && w.straight(begin, b) {
			a = begin // one chain does for both parts what two cannot
		} else {
			begin, counted, since = a, 0, have
			before += with
		}
		w.reckon(a, b, 0, false)
		more := max(0, int(w.steps[b-a+1].cost[0]/onePage)-counted-before)
		total += more
		counted += more
	}
	return total
}

// pile puts the pages of spots a to b − 1 that are not needed at any rate into
// pack and counts those that came there before since and between since and now.
func (w *walker) pile(a, b, since, now int) (before, with int) {
	w.once.clear()
	w.cost += 8 * (b - a)
	for k := a; k < b; k++ {
		for _, m := range w.spots[k].showing {
			if !w.must(m) && w.once.put(m) {
				switch at := w.pack.at(m); {
				case at < since:
					before++
				case at < now:
					with++
				}
				w.pack.put(m)
				for len(w.uses) < len(w.pack.list) {
					w.uses = append(w.uses, 0)
				}
				w.uses[w.pack.at(m)]++
			}
		}
	}
	return before, with
}

// straight says whether each page to be added for spots a to b − 1 shows only
// ones that follow each other, as it is where the outline has no corner.
func (w *walker) straight(a, b int) bool {
	w.cost += len(w.corners)/8 + 2*(b-a)
	if !slices.ContainsFunc(w.corners, func(c int) bool { return a <= c && c < b }) {
		return true
	}
	w.once.clear()
	w.last = w.last[:0]
	for k := a; k < b; k++ {
		for _, m := range w.spots[k%len(w.spots)].showing {
			if w.must(m) {
				continue
			}
			if at := w.once.at(m); at == far {
				w.once.put(m)
				w.last = append(w.last, k)
			} else if w.last[at] < k-1 {
				return false
			} else {
				w.last[at] = k
			}
		}
	}
	return true
}

// packed is how many of the spots a to b − 1 no needed page and no two one page shows;
// where there are none it is one if none of the pages is counted already.
func (w *walker) packed(a, b int) int {
	n := 0
	have := len(w.pack.list)
	for k := a; k < b; k++ {
		alone := true
		for _, m := range w.spots[k].showing {
			alone = alone && !w.must(m) && !w.pack.has(m)
		}
		if alone {
			n++
			for _, m := range w.spots[k].showing {
				w.pack.put(m)
			}
		}
	}
	if n > 0 {
		return n
	}
	if before, _ := w.pile(a, b, have, have); before == 0 {
		return 1
	}
	return 0
}

// bound is a number of pages that the shape still needs when no point of it moves by
// more than (dx, dy). It looks no further than want.
func (w *walker) bound(p []geom.Vector, dx, dy float64, want int) int {
	if !w.trace(p, dx, dy) {
		return 1
	}
	w.taken.clear()
	base := len(w.needed.list) + w.inner
	if base >= want {
		return base
	}
	n := w.lower()
	if base+n >= want || w.cores == 0 {
		return base + n
	}
	n, _ = w.deepen(n, want-base, boundTries)
	return base + n
}

// How many walks are tried to see whether a few more pages are enough.
const (
	boundTries = 60
	layTries   = 2000
)

// deepen looks for the least number of further pages that let one walk round,
// from n on and below want. It leaves them in tried and says whether there are
// any. Where tries run out it returns what it has proven.
func (w *walker) deepen(n, want, tries int) (int, bool) {
	for ; n < want; n++ {
		w.tried = w.tried[:0]
		if w.try(0, n, &tries) {
			return n, true
		}
		if tries <= 0 {
			break
		}
	}
	w.tried = w.tried[:0]
	return n, false
}

func (w *walker) try(from, more int, tries *int) bool {
	*tries--
	a, b := w.stuck(from)
	if a < 0 {
		return true
	}
	if more == 0 {
		return false
	}
	depth := len(w.tried)
	for k := a; k <= b; k++ {
		for _, n := range w.spots[k%len(w.spots)].showing {
			if *tries <= 0 {
				return false
			}
			if w.has(n) {
				continue
			}
			w.tried = append(w.tried, n)
			if w.try(a-1, more-1, tries) {
				return true
			}
			w.tried = w.tried[:depth]
		}
	}
	return false
}

// lay is a list of few pages that covers and can be walked, every window shrunk
// by slack on each side; empty where strips are too narrow for that.
func (w *walker) lay(p []geom.Vector, slack float64) []page {
	if w.g.u < 2*slack || w.g.v < 2*slack || !w.trace(p, -slack, -slack) {
		return nil
	}
	w.taken.clear()
	w.tried = w.tried[:0]
	n := w.lower()
	if w.cores == 0 {
		w.strips()
	} else if w.complete(); n < len(w.taken.list) {
		some := slices.Clone(w.taken.list)
		w.taken.clear()
		if _, ok := w.deepen(n, len(some), layTries); ok {
			some = append(some[:0], w.tried...)
		}
		w.tried = w.tried[:0]
		for _, m := range some {
			w.taken.put(m)
		}
	}
	all := slices.Clone(w.needed.list)
	return append(w.innerPages(all), w.taken.list...)
}
