package paging

import "slices"

// step is what it takes to be on each of the pages of a spot, and from where.
type step struct {
	cost [4]int32
	from [4]int8 // bit of the page before; +4 where it is of the same spot
}

const far = 1 << 30

// complete takes pages until one can walk round.
func (w *walker) complete() {
	for from := 0; ; {
		a, b := w.stuck(from)
		if a < 0 {
			return
		}
		for !w.spots[b%len(w.spots)].core() {
			b++
		}
		w.chain(a, b, 0)
		from = a - 1
	}
}

// strips takes pages where the outline meets no core.
func (w *walker) strips() {
	n := len(w.spots)
	var best []page
	for b, m := range w.spots[0].showing {
		w.taken.clear()
		w.taken.put(m)
		w.chain(1, n, b)
		if best == nil || len(w.taken.list) < len(best) {
			best = append(best[:0], w.taken.list...)
		}
	}
	w.taken.clear()
	for _, m := range best {
		w.taken.put(m)
	}
}

// onePage is the price of a page. One that may serve for other parts of the
// outline too costs a little less, so that it is taken among equals.
const onePage = 1 << 10

// reckon fills steps with the fewest new pages that lead from the page of spot
// a − 1 whose bit is given through to each page of each spot up to b.
func (w *walker) reckon(a, b, bit int, shared bool) {
	n := len(w.spots)
	w.cost += 8 * (b - a + 1)
	for len(w.steps) < b-a+2 {
		w.steps = append(w.steps, step{})
	}
	w.steps[0].cost = [4]int32{far, far, far, far}
	w.steps[0].cost[bit] = 0
	for k := a; k <= b; k++ {
		last, s := w.spots[(k-1)%n], w.spots[k%n]
		was, now := &w.steps[k-a], &w.steps[k-a+1]
		now.cost = [4]int32{far, far, far, far}
		ox, oy := int(last.x>>1)-int(s.x>>1), int(last.y>>1)-int(s.y>>1)
		_, _, ni, nj := s.pages()
		for c := range 4 {
			di, dj := c&1+ox, c>>1+oy
			if was.cost[c] < far && di >= 0 && dj >= 0 && di < ni && dj < nj {
				now.cost[di+2*dj], now.from[di+2*dj] = was.cost[c], int8(c)
			}
		}
		for range 2 {
			for c, m := range s.showing {
				price := int32(onePage)
				if w.has(m) {
					price = 0
				} else if at := w.pack.at(m); shared && at < len(w.uses) {
					price -= int32(min(w.uses[at], 8))
				}
				for _, d := range [2]int{c ^ 1, c ^ 2} {
					if now.cost[d] < far && now.cost[d]+price < now.cost[c] {
						now.cost[c], now.from[c] = now.cost[d]+price, int8(d)+4
					}
				}
			}
		}
	}
}

// chain takes the pages that lead to spot b: to the page of a core, else to the
// page that it began with.
func (w *walker) chain(a, b, bit int) {
	w.reckon(a, b, bit, true)
	n, at := len(w.spots), bit
	if w.spots[b%n].core() {
		at = 0
	}
	for k := b; k >= a; {
		i, j, _, _ := w.spots[k%n].pages()
		if m := (page{i + at&1, j + at>>1}); !w.must(m) {
			w.taken.put(m)
		}
		at = int(w.steps[k-a+1].from[at])
		if at < 4 {
			k--
		} else {
			at -= 4
		}
	}
}

func (w *walker) has(n page) bool {
	if w.must(n) || w.taken.has(n) {
		return true
	}
	w.cost += 1 + len(w.tried)/8
	return slices.Contains(w.tried, n)
}
