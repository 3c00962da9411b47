package paging

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
