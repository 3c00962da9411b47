package paging

// pageSet is a set of pages that remembers the order in which they came.
type pageSet struct {
	list []page
	came map[uint64]int // when, by column and row
}

func (p page) key() uint64 { return uint64(uint32(p.i))<<32 | uint64(uint32(p.j)) }

func (s *pageSet) clear() {
	if s.came == nil {
		s.came = make(map[uint64]int)
	}
	s.list = s.list[:0]
	clear(s.came)
}

func (s *pageSet) has(n page) bool {
	_, ok := s.came[n.key()]
	return ok
}

// at is when the page came, counted from 0; far where it is not in the set.
func (s *pageSet) at(n page) int {
	if at, ok := s.came[n.key()]; ok {
		return at
	}
	return far
}

func (s *pageSet) put(n page) {
	if !s.has(n) {
		s.came[n.key()] = len(s.list)
		s.list = append(s.list, n)
	}
}
