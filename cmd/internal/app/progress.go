package app

import (
	"fmt"

	"trammel/plot/paging"
)

// Progress hears now and then how far a piece of work is: what is being done, and how
// many parts of it are. It is called from one goroutine at a time and must not block.
type Progress func(doing string, done, of int)

func (p Progress) say(doing string, done, of int) {
	if p != nil {
		p(doing, done, of)
	}
}

// allSteps is what goes into looking for the fewest pages of all pieces of a job, some
// 15 s. The pieces take from it in their order, so that a job of a few hard pieces, or of
// many easy ones, has every proof; what is left for each at the end is leastSteps.
const (
	allSteps   = 1_000_000_000
	leastSteps = 1_000_000
)

// effortFor is what piece number i may take of the steps that are left.
func (w Work) effortFor(i, left int) paging.Effort {
	n := len(w.Pieces)
	e := paging.Effort{Most: min(paging.MostSteps, max(leastSteps, left-(n-1-i)*leastSteps))}
	if w.tell != nil {
		const parts = 100 // of each piece
		doing := "looking for the fewest pages"
		if n > 1 {
			doing += fmt.Sprintf(", piece %d of %d", i+1, n)
		}
		w.tell(doing, i*parts, n*parts)
		e.Tell = func(share float64) { w.tell(doing, i*parts+int(share*(parts-1)), n*parts) }
	}
	return e
}
