// Package side tells placements of the same points apart by the sides of lines that
// points lie on.
//
// Files, from the top floor to the ground: side.go.
package side

import (
	"math"
	"math/bits"
	"slices"

	"trammel/geom"
)

// Line is a point and a line that it lies on one side of, by their numbers.
type Line struct{ Point, From, To int }

// Side is the side on which the point lies, walked along the line.
type Side struct {
	Line
	Right bool
}

// Tell finds for each of the placements, the places of all points, the fewest sides that
// no other has, from lines given in the order of preference; none where none part them.
func Tell(ends [][]geom.Vector, lines []Line) [][]Side {
	var clear []Line
	for _, share := range []float64{0.05, 0.01, 0} { // of the line: a side that a hand can see
		for _, x := range lines {
			ok := true
			for _, at := range ends {
				l := at[x.From].To(at[x.To])
				ok = ok && math.Abs(geom.Side(at[x.From], at[x.To], at[x.Point]))/l > share*l
			}
			if ok && !slices.Contains(clear, x) {
				clear = append(clear, x)
			}
		}
	}
	told := make([][]Side, len(ends))
	for k := range ends {
		told[k] = fewest(k, ends, clear)
	}
	return told
}

// fewest sides that only placement k has.
func fewest(k int, ends [][]geom.Vector, lines []Line) []Side {
	left := func(x Line, at []geom.Vector) bool { return geom.IsLeft(at[x.From], at[x.To], at[x.Point]) }
	var out []uint64 // placements that a side excludes
	for _, x := range lines {
		var set uint64
		for j, at := range ends {
			if j != k && left(x, at) != left(x, ends[k]) {
				set |= 1 << j
			}
		}
		out = append(out, set)
	}
	all := uint64(1)<<len(ends) - 1&^(1<<k)
	say := func(of ...int) (list []Side) {
		for _, i := range of {
			x := lines[i]
			list = append(list, Side{x, !left(x, ends[k])})
		}
		return list
	}
	for i := range out {
		if out[i] == all {
			return say(i)
		}
	}
	for i := range out {
		for j := range i {
			if out[i]|out[j] == all {
				return say(j, i)
			}
		}
	}
	var of []int
	for done := uint64(0); done != all; {
		best, most := -1, 0
		for i := range out {
			if n := bits.OnesCount64(out[i] &^ done); n > most {
				best, most = i, n
			}
		}
		if best < 0 {
			break
		}
		of, done = append(of, best), done|out[best]
	}
	return say(of...)
}
