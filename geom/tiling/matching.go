package tiling

// matching is a largest set of pairs of a graph in which nobody stands twice: for each
// its partner, −1 for none. J. Edmonds, Paths, Trees, and Flowers, 1965: a way that
// takes turns between pairs and other edges and ends at two that have no partner is
// sought; an odd ring on it (a blossom) is drawn together to its base.
func matching(n int, edge func(i, j int) bool) []int {
	next := make([][]int, n)
	for i := range n {
		for j := range n {
			if i != j && edge(i, j) {
				next[i] = append(next[i], j)
			}
		}
	}
	f := forest{next: next, mate: make([]int, n), parent: make([]int, n), base: make([]int, n), seen: make([]bool, n)}
	for i := range f.mate {
		f.mate[i] = -1
	}
	for i := range n {
		for _, j := range next[i] {
			if f.mate[i] < 0 && f.mate[j] < 0 {
				f.mate[i], f.mate[j] = j, i
			}
		}
	}
	for i := range n {
		if f.mate[i] < 0 {
			f.flip(f.grow(i))
		}
	}
	return f.mate
}

type forest struct {
	next               [][]int
	mate, parent, base []int
	seen               []bool
}

// grow seeks a way from a root to another that has no partner; −1 where there is none.
func (f *forest) grow(root int) int {
	for i := range f.base {
		f.base[i], f.parent[i], f.seen[i] = i, -1, false
	}
	f.seen[root] = true
	for queue := []int{root}; len(queue) > 0; queue = queue[1:] {
		v := queue[0]
		for _, to := range f.next[v] {
			switch {
			case f.base[v] == f.base[to] || f.mate[v] == to:
			case to == root || f.mate[to] >= 0 && f.parent[f.mate[to]] >= 0:
				queue = append(queue, f.drawTogether(v, to)...)
			case f.parent[to] < 0:
				f.parent[to] = v
				if f.mate[to] < 0 {
					return to
				}
				f.seen[f.mate[to]] = true
				queue = append(queue, f.mate[to])
			}
		}
	}
	return -1
}

// drawTogether makes one of a blossom; it returns who can now be gone on from.
func (f *forest) drawTogether(v, to int) (more []int) {
	base := f.common(v, to)
	in := make([]bool, len(f.base))
	f.mark(v, base, to, in)
	f.mark(to, base, v, in)
	for i := range f.base {
		if in[f.base[i]] {
			f.base[i] = base
			if !f.seen[i] {
				f.seen[i] = true
				more = append(more, i)
			}
		}
	}
	return more
}

// common is the base at which the ways back from two of the tree meet.
func (f *forest) common(a, b int) int {
	on := make([]bool, len(f.base))
	for {
		a = f.base[a]
		on[a] = true
		if f.mate[a] < 0 {
			break
		}
		a = f.parent[f.mate[a]]
	}
	for {
		b = f.base[b]
		if on[b] {
			return b
		}
		b = f.parent[f.mate[b]]
	}
}

// mark notes who lies on the way back to the base, and turns the way round.
func (f *forest) mark(v, base, child int, in []bool) {
	for f.base[v] != base {
		in[f.base[v]], in[f.base[f.mate[v]]] = true, true
		f.parent[v] = child
		child = f.mate[v]
		v = f.parent[f.mate[v]]
	}
}

// flip pairs along the way that was found.
func (f *forest) flip(v int) {
	for v >= 0 {
		p := f.parent[v]
		after := f.mate[p]
		f.mate[v], f.mate[p] = p, v
		v = after
	}
}
