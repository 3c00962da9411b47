package app

import "iter"

// ahead makes up to n values in advance of who takes them, so that pages are laid
// while those before them are written. The order stays; when the taker stops,
// the maker has stopped too. What the maker panics with, the taker does, who may know
// what to do about it.
func ahead[T any](made iter.Seq[T], n int) iter.Seq[T] {
	return func(yield func(T) bool) {
		values, stop := make(chan T, n), make(chan struct{})
		var broke any
		go func() {
			defer close(values)
			defer func() { broke = recover() }()
			for v := range made {
				select {
				case <-stop: // first: while the taker empties the channel, both are ready
					return
				default:
				}
				select {
				case values <- v:
				case <-stop:
					return
				}
			}
		}()
		defer func() {
			close(stop)
			for range values { // until the maker has closed it
			}
		}()
		for v := range values {
			if !yield(v) {
				return
			}
		}
		if broke != nil {
			panic(broke)
		}
	}
}
