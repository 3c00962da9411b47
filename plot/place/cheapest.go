package place

import (
	"container/heap"
	"math"
)

// Never is the cost at which nothing is tried.
var Never = math.Inf(1)

// Cheapest tries n things by their cost, of equal ones the first first, until one is
// taken or they cost more than most; it says whether one was. What was not taken is tried
// again at the higher cost that try returns; Never is not again.
func Cheapest(n int, most float64, cost func(i int) float64, try func(i int) (taken bool, again float64)) bool {
	all := make(queue, n)
	for i := range all {
		all[i] = entry{cost(i), int32(i)}
	}
	// Most often one of the first is free: a heap, since sorting them all took half
	// of the time that a piece takes.
	heap.Init(&all)
	for n > 0 && all[0].cost <= most && all[0].cost < Never {
		taken, again := try(int(all[0].at))
		if taken {
			return true
		}
		all[0].cost = again
		heap.Fix(&all, 0)
	}
	return false
}

type entry struct {
	cost float64
	at   int32
}

// queue is a heap, what is to be tried next on top.
type queue []entry

func (q queue) Len() int      { return len(q) }
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q queue) Less(i, j int) bool {
	if q[i].cost != q[j].cost {
		return q[i].cost < q[j].cost
	}
	return q[i].at < q[j].at // each is in the heap but once
}
func (q *queue) Push(x any) { *q = append(*q, x.(entry)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}
