package tiling

import (
	"container/heap"
	"context"
	"math"
)

// found is a shift with its measures, and what the search has shown of it.
type found struct {
	shift    vec
	measures Measures
	score    score
	ok       bool // there is one
	proven   bool
	boxes    int
	bound    score // where it is not proven: no shift scores less
}

// span is a box of the lattice: from and to, both in it.
type span struct {
	u0, u1, v0, v1 int
	bound          score
}

type spans []span

func (s spans) Len() int           { return len(s) }
func (s spans) Less(i, j int) bool { return s[i].bound.less(s[j].bound) }
func (s spans) Swap(i, j int)      { s[i], s[j] = s[j], s[i] }
func (s *spans) Push(x any)        { *s = append(*s, x.(span)) }
func (s *spans) Pop() any {
	last := (*s)[len(*s)-1]
	*s = (*s)[:len(*s)-1]
	return last
}

// search finds the best shift in an order among the first ones and those of the
// lattice, by branch and bound, best bound first. It ends where no box can hold a
// better one, or where the effort is spent or ctx is done.
func (l *layer) search(ctx context.Context, o order, first []vec, effort int) found {
	best := found{}
	consider := func(s vec) {
		m := l.measure(s)
		if c := m.in(o, l.grid); !best.ok || c.less(best.score) {
			best.shift, best.measures, best.score, best.ok = s, m, c, true
		}
	}
	for _, s := range first {
		consider(s)
	}
	u, v := l.grid.domain()
	open := &spans{}
	push := func(s span) {
		at, half := s.middle()
		s.bound = l.bound(at, half).in(o, l.grid)
		if s.bound.less(best.score) {
			heap.Push(open, s)
		}
	}
	best.score = score{math.MaxInt}
	if best.ok {
		best.score = best.measures.in(o, l.grid)
	}
	push(span{0, steps(u), 0, steps(v), score{}})
	limit := l.effort() + effort
	for open.Len() > 0 {
		s := heap.Pop(open).(span)
		best.bound = s.bound
		if best.ok && !s.bound.less(best.score) {
			break
		}
		if ctx.Err() != nil || l.effort() > limit {
			return best
		}
		best.boxes++
		mu, mv := (s.u0+s.u1)/2, (s.v0+s.v1)/2
		consider(vec{X: float64(mu) * Slack, Y: float64(mv) * Slack})
		if s.u0 == s.u1 && s.v0 == s.v1 {
			continue
		}
		for _, part := range s.halves() {
			push(part)
		}
	}
	best.proven, best.bound = true, best.score
	return best
}

// steps of the lattice below a length, less one: the last one's number.
func steps(length float64) int { return int(math.Ceil(length/Slack-1e-9)) - 1 }

// middle of a box and half its sides, in mm.
func (s span) middle() (at, half vec) {
	return vec{X: float64(s.u0+s.u1) / 2 * Slack, Y: float64(s.v0+s.v1) / 2 * Slack},
		vec{X: float64(s.u1-s.u0) / 2 * Slack, Y: float64(s.v1-s.v0) / 2 * Slack}
}

// halves are the two parts of a box, across its longer side.
func (s span) halves() [2]span {
	a, b := s, s
	if s.u1-s.u0 >= s.v1-s.v0 {
		a.u1 = (s.u0 + s.u1) / 2
		b.u0 = a.u1 + 1
	} else {
		a.v1 = (s.v0 + s.v1) / 2
		b.v0 = a.v1 + 1
	}
	return [2]span{a, b}
}
