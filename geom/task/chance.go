package task

import "hash/fnv"

// Chance is a stream of numbers that a text starts, the same for ever: FNV-1a of 64 bits
// (Fowler, Noll, Vo; RFC 9923) starts SplitMix64 (Steele, Lea, Flood 2014).
type Chance struct{ state uint64 }

// ChanceOf is the stream of a text.
func ChanceOf(text string) *Chance {
	h := fnv.New64a()
	h.Write([]byte(text))
	return &Chance{h.Sum64()}
}

// Next is the next number of 64 bits.
func (c *Chance) Next() uint64 {
	c.state += 0x9e3779b97f4a7c15
	z := c.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Below is the next number below n, each as likely as the others: what lies beyond the last
// whole n is drawn again.
func (c *Chance) Below(n int) int {
	m := uint64(n)
	beyond := -m % m // 2^64 mod n
	for {
		if x := c.Next(); beyond == 0 || x < -beyond {
			return int(x % m)
		}
	}
}

// Shuffle brings n things into another order, from the last down (Fisher and Yates; Knuth,
// The Art of Computer Programming, volume 2, algorithm 3.4.2P).
func (c *Chance) Shuffle(n int, swap func(i, j int)) {
	for i := n - 1; i > 0; i-- {
		swap(i, c.Below(i+1))
	}
}
