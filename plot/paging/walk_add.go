package paging

// Which further pages let one walk round: the cheapest chain for each part of the
// outline between two cores, one after the other.

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
	i, j, ni, nj := w.spots[0].pages()
	var best []page
	for b := 0; b < 4; b++ {
		if b&1 >= ni || b>>1 >= nj {
			continue
		}
		w.taken.clear()
		w.taken.put(page{i + b&1, j + b>>1})
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
		i, j, ni, nj := s.pages()
		for c := 0; c < 4; c++ {
			di, dj := c&1+ox, c>>1+oy
			if was.cost[c] < far && di >= 0 && dj >= 0 && di < ni && dj < nj {
				now.cost[di+2*dj], now.from[di+2*dj] = was.cost[c], int8(c)
			}
		}
		for range 2 {
			for c := 0; c < 4; c++ {
				if c&1 >= ni || c>>1 >= nj {
					continue
				}
				price := int32(onePage)
				if m := (page{i + c&1, j + c>>1}); w.has(m) {
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

// pageSet is a set of pages that remembers the order in which they came.
type pageSet struct {
	list  []page
	slots []int32 // 1 + index into list of this generation, found by open addressing
	mark  []uint32
	gen   uint32
}

func (s *pageSet) clear() {
	s.list = s.list[:0]
	s.gen++
	if s.gen == 0 || s.slots == nil {
		s.slots, s.mark, s.gen = make([]int32, max(64, len(s.slots))), make([]uint32, max(64, len(s.slots))), 1
	}
}

func (s *pageSet) find(n page) (slot uint32, ok bool) {
	m := uint32(len(s.slots) - 1)
	h := uint32(n.i)*0x9E3779B1 ^ uint32(n.j)*0x85EBCA77
	h ^= h >> 15
	for k := h & m; ; k = (k + 1) & m {
		if s.mark[k] != s.gen {
			return k, false
		}
		if s.list[s.slots[k]] == n {
			return k, true
		}
	}
}

func (s *pageSet) has(n page) bool {
	if len(s.list) == 0 {
		return false
	}
	_, ok := s.find(n)
	return ok
}

// at is when the page came, counted from 0; far where it is not in the set.
func (s *pageSet) at(n page) int {
	if len(s.list) > 0 {
		if k, ok := s.find(n); ok {
			return int(s.slots[k])
		}
	}
	return far
}

func (s *pageSet) put(n page) {
	k, ok := s.find(n)
	if ok {
		return
	}
	s.slots[k], s.mark[k] = int32(len(s.list)), s.gen
	s.list = append(s.list, n)
	if 2*len(s.list) > len(s.slots) {
		old := append([]page(nil), s.list...)
		s.slots, s.mark, s.gen = make([]int32, 2*len(s.slots)), make([]uint32, 2*len(s.slots)), 1
		s.list = s.list[:0]
		for _, m := range old {
			s.put(m)
		}
	}
}
