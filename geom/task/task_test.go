package task

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"trammel/geom/gate"
)

// FNV-1a of 64 bits: RFC 9923 (formerly draft-eastlake-fnv), appendix of test vectors.
// SplitMix64: the first numbers of 0 and of 1234567 of the reference code by Vigna, as
// published with many libraries; from memory.
func TestStreams(t *testing.T) {
	for text, want := range map[string]uint64{"": 0xcbf29ce484222325, "a": 0xaf63dc4c8601ec8c, "foobar": 0x85944171f73967e8} {
		if got := ChanceOf(text).state; got != want {
			t.Errorf("%q begins with %x, not %x", text, got, want)
		}
	}
	for seed, want := range map[uint64][]uint64{
		0:       {0xe220a8397b1dcdaf, 0x6e789e6aa1b965f4, 0x06c45d188009454f, 0xf88bb8a8724c81ec},
		1234567: {6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821},
	} {
		c := &Chance{seed}
		for i, w := range want {
			if got := c.Next(); got != w {
				t.Errorf("number %d of %d is %d, not %d", i, seed, got, w)
			}
		}
	}
}

// Below is even: of 7 each comes as often, within five times what chance leaves.
func TestBelow(t *testing.T) {
	c, n := ChanceOf("even"), 70_000
	var count [7]int
	for range n {
		count[c.Below(7)]++
	}
	for i, k := range count {
		if math.Abs(float64(k)-10_000) > 5*math.Sqrt(10_000) {
			t.Errorf("%d came %d times of %d", i, k, n)
		}
	}
	var order []int
	for i := range 10 {
		order = append(order, i)
	}
	ChanceOf("order").Shuffle(10, func(i, j int) { order[i], order[j] = order[j], order[i] })
	if want := []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}; slices.Equal(order, want) {
		t.Error("nothing was shuffled")
	} else if slices.Sort(order); !slices.Equal(order, want) {
		t.Errorf("%v was lost or doubled", order)
	}
}

// Counts of tasks that keep all rules, beside those of a generator of somebody else's, made
// from the same sentences. Where they differ it is said by how much, and why:
// a length or an angle that stands exactly on a limit is kept here and was now and then lost to
// rounding there (ASA, AAS, SSA2, BHA); at level 3 the last halves of what is accepted
// fall differently in one task in ten thousand (SAS, SSA1, BHA, ISO: rounding up of the hand's error).
// BHS has more here: no sentence of the rules leaves out those that it lacks there.
var counts = map[Kind][3][3]int{ // grid, kept, theirs
	SSS:  {{729, 200, 200}, {4913, 1464, 1464}, {262144, 76848, 76848}},
	SAS:  {{1053, 161, 161}, {7225, 1076, 1076}, {393216, 52262, 52275}},
	SASO: {{3757, 100, 100}, {7225, 248, 248}, {393216, 11071, 11071}},
	ASA:  {{1521, 158, 157}, {10625, 1146, 1145}, {589824, 58752, 58752}},
	AAS:  {{1521, 158, 157}, {10625, 1304, 1267}, {589824, 69062, 68550}},
	RHS:  {{289, 80, 80}, {289, 80, 80}, {4096, 1101, 1101}},
	LEGS: {{289, 166, 166}, {289, 166, 166}, {4096, 2467, 2467}},
	SSA2: {{7803, 52, 49}, {37859, 231, 228}, {425984, 2717, 2717}},
	SSA1: {{1053, 84, 84}, {7225, 708, 708}, {393216, 39973, 39980}},
	SSA0: {{3757, 68, 68}, {7225, 114, 114}, {393216, 4499, 4499}},
	BHA:  {{819, 78, 77}, {5525, 560, 554}, {374784, 40600, 40606}},
	BHS:  {{567, 95, 85}, {3757, 652, 590}, {249856, 45357, 40857}},
	ISO:  {{289, 103, 103}, {289, 103, 103}, {4096, 1456, 1461}},
}

func TestCounts(t *testing.T) {
	for _, k := range Kinds() {
		for l := Centimetres; l <= Level(gate.Of(2, 3)); l++ {
			s, want := StockOf(k, l, School), counts[k][l-1]
			all := 0
			for _, n := range s.Fell {
				all += n
			}
			if all != want[0] || len(s.Kept) != want[1] || s.Fell[Kept] != want[1] {
				t.Errorf("%s, level %d: %d of %d kept, not %v", k, l, len(s.Kept), all, want)
			}
			if far := math.Abs(float64(want[1]-want[2])) / float64(want[2]); far > 0.03 && !(k == BHS || k == SSA2) {
				t.Errorf("%s, level %d: %d and %d are no slip of rounding", k, l, want[1], want[2])
			}
		}
	}
}

// class of thirty with the eight kinds of the published counts.
func class(seed int, l Level) Class {
	c := Class{Seed: seed, Level: l, Kinds: []Kind{SSS, SAS, SASO, ASA, AAS, RHS, SSA2, BHA}, Across: 6, Limits: School}
	for i := range 30 {
		c.Pupils = append(c.Pupils, Pupil{Name: fmt.Sprint(i + 1)})
	}
	return c
}

// The set of seed 7 at level 2 stays what it is for ever: the first pupil's tasks, and the last's.
func TestSetStays(t *testing.T) {
	set, err := class(7, Fives).Draw()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range map[int]string{0: seven[0], 29: seven[1]} {
		var tasks []Task
		for _, d := range set[i] {
			tasks = append(tasks, d.Task)
		}
		if got := fmt.Sprint(tasks); got != want {
			t.Errorf("pupil %d has\n%s, not\n%s", i+1, got, want)
		}
	}
	few := class(7, Fives)
	few.Pupils = few.Pupils[:20]
	less, err := few.Draw()
	if err != nil {
		t.Fatal(err)
	}
	for i := range less {
		if !slices.Equal(less[i], set[i]) {
			t.Errorf("pupil %d has another sheet when more come", i+1)
		}
	}
}

// What a model sheet shows is nobody's task, at any level, low or not.
func TestShownIsNoTask(t *testing.T) {
	for _, k := range Kinds() {
		s := Shown(k)
		for l := Centimetres; l <= Ones; l++ {
			all := s.Kind == k
			for i, q := range k.Given() {
				if k != ISO || i < 2 {
					all = all && slices.Contains(k.axis(q, l), s.Given[i])
				}
			}
			if all {
				t.Errorf("%s %v stands in the grid of level %d", k, s.Given, l)
			}
		}
	}
}
