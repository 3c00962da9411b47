package app

import (
	"slices"
	"testing"
)

func TestAheadKeepsTheOrderAndStops(t *testing.T) {
	made := 0
	count := func(yield func(int) bool) {
		for made = 1; made <= 1000; made++ {
			if !yield(made) {
				return
			}
		}
	}
	all := slices.Collect(ahead(count, 4))
	if len(all) != 1000 || !slices.IsSorted(all) || all[0] != 1 {
		t.Errorf("%d values, from %d", len(all), all[0])
	}
	for v := range ahead(count, 4) {
		if v == 10 {
			break
		}
	}
	// Read without a lock: the maker has stopped, as the race detector can tell.
	if made < 10 || made > 10+4+2 {
		t.Errorf("stopped at 10, and %d were made", made)
	}
}

// What breaks while pages are made in advance breaks where they are taken: whoever answers
// others can go on.
func TestAheadBreaksWhereItIsTaken(t *testing.T) {
	defer func() {
		if broke := recover(); broke != "third" {
			t.Errorf("%v", broke)
		}
	}()
	for v := range ahead(func(yield func(int) bool) {
		for i := range 5 {
			if i == 3 {
				panic("third")
			}
			if !yield(i) {
				return
			}
		}
	}, 4) {
		if v > 2 {
			t.Errorf("%d was made", v)
		}
	}
	t.Error("nothing broke")
}
