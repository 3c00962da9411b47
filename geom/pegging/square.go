package pegging

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Square is a 3-4-5 triangle at a foot: one leg along the baseline, one up.
type Square struct {
	Along, Up, Across unit.Length
	Back              bool // the leg along the baseline lies towards its first end
	// Aside is how far past the foot the peg lies, along the baseline, where its own foot
	// would stand too close to this one: the offset turns square aside by so much.
	Aside unit.Length
}

// SameMark is how close two marks are one and the same: half of the finest figure
// that a sheet prints, which no tape can tell apart. A peg that stands off the line of
// the baseline by no more stands on it.
const SameMark unit.Length = 0.05

// apart is how far two feet stand from each other at least: nearer ones share a square.
const apart unit.Length = 300

// crowd is how near, as a share of the baseline, the marks of a square come to other
// marks only where nothing else fits: nearer, pegs and letters run together.
const crowd = 0.05

// The units of a 3-4-5 triangle that a tape shows as round figures, the largest
// first. Above 15 m the tape sags more than the larger triangle gains.
var (
	metricUnits = []unit.Length{3000, 2500, 2000, 1500, 1000, 800, 600, 500, 400, 300, 200, 100, 50}
	feetUnits   = []unit.Length{10 * unit.Foot, 8 * unit.Foot, 5 * unit.Foot, 4 * unit.Foot, 3 * unit.Foot, 2 * unit.Foot, 1.5 * unit.Foot, unit.Foot, 9 * unit.Inch, 6 * unit.Inch, 3 * unit.Inch, 2 * unit.Inch}
)

// squares are the 3-4-5 triangles that a tape shows as round figures, the largest
// first, each lying on its longer leg and then on its shorter one: 9-12-15 m down to
// 150-200-250 mm, and 30-40-50 ft down to 6-8-10 in.
func squares(t tape.Tools) []Square {
	units := metricUnits
	if t.Feet {
		units = feetUnits
	}
	all := make([]Square, 0, 2*len(units))
	for _, u := range units {
		all = append(all, Square{Along: 4 * u, Up: 3 * u, Across: 5 * u}, Square{Along: 3 * u, Up: 4 * u, Across: 5 * u})
	}
	return all
}

// setting is a baseline with its pegs, while the squares at their feet are chosen.
type setting struct {
	b        float64
	all      []Square
	standing []geom.Vector // marks that those of a square keep clear of
}

// squaresAt are those by which the pegs are set off a baseline of length b, in whose
// axes they lie: one for each peg, zero where it stands on the line. Pegs over one
// foot on one side share theirs. The pegs are taken in the order given, from behind
// the second end and round.
//
// A square is the largest that lies along the baseline and within the offset (or a
// quarter of the baseline, where the offset is less: a leg much shorter than that
// would not hold a direction), and whose marks keep clear of the pegs and of the
// marks of the squares before it; of two alike the one whose leg lies along the longer
// part of the baseline. Where only one peg stands beside the baseline the middles of
// the three sides, which it is checked by, are kept clear of as well.
func squaresAt(t tape.Tools, pegs []geom.Vector, base [2]int, b float64) []Square {
	s := setting{b: b, all: squares(t), standing: append([]geom.Vector(nil), pegs...)}
	var beside []int
	for k := range pegs {
		i := (base[1] + k) % len(pegs)
		if i != base[0] && i != base[1] && !onTheLine(pegs[i], b) {
			beside = append(beside, i)
		}
	}
	if len(beside) == 1 {
		p := pegs[beside[0]]
		s.standing = append(s.standing, geom.Vector{X: b / 2, Y: 0}, p.Times(0.5), p.Plus(geom.Vector{X: b, Y: 0}).Times(0.5))
	}
	feet := feetOf(pegs, beside, b)
	chosen := make([]Square, len(pegs))
	for k, i := range beside {
		p := pegs[i]
		over := func(j int) bool { // one foot, one side
			return math.Abs(feet[i]-feet[j]) <= float64(SameMark) && (p.Y > 0) == (pegs[j].Y > 0)
		}
		if j := slices.IndexFunc(beside[:k], over); j >= 0 {
			chosen[i] = chosen[beside[j]].turnedAside(p.X - feet[i])
			continue
		}
		room := b / 4
		for _, j := range beside {
			if over(j) {
				room = max(room, math.Abs(pegs[j].Y))
			}
		}
		chosen[i] = s.choose(feet[i], room, p.Y > 0).turnedAside(p.X - feet[i])
		leg, top := chosen[i].marks(feet[i], p.Y > 0)
		s.standing = append(s.standing, leg, top)
	}
	return chosen
}

// feetOf is where along the baseline the foot of each peg beside it stands: at a corner on
// the line where one is near, on the foot of a taller peg where that is, otherwise its own.
// Of a single peg it is its own: that is what it is checked by.
func feetOf(pegs []geom.Vector, beside []int, b float64) map[int]float64 {
	feet := map[int]float64{}
	standing := []float64{0, b}
	for i, p := range pegs {
		if !slices.Contains(beside, i) {
			standing = append(standing, p.X)
		}
	}
	tallest := slices.Clone(beside)
	slices.SortStableFunc(tallest, func(i, j int) int { return cmp.Compare(math.Abs(pegs[j].Y), math.Abs(pegs[i].Y)) })
	for _, i := range tallest {
		x := footOf(pegs[i], b)
		nearest := slices.MinFunc(standing, func(p, q float64) int { return cmp.Compare(math.Abs(p-x), math.Abs(q-x)) })
		if len(beside) > 1 && math.Abs(nearest-x) < float64(apart) {
			x = nearest
		} else {
			standing = append(standing, x)
		}
		feet[i] = x
	}
	return feet
}

// turnedAside is the square for a peg that lies so far past its foot.
func (q Square) turnedAside(by float64) Square {
	if q.Aside = 0; math.Abs(by) > float64(SameMark) {
		q.Aside = unit.Length(by)
	}
	return q
}

// footOf is where the foot of a peg is marked: an end of the baseline where it lies there.
func footOf(p geom.Vector, b float64) float64 {
	switch {
	case math.Abs(p.X) <= float64(SameMark):
		return 0
	case math.Abs(p.X-b) <= float64(SameMark):
		return b
	}
	return p.X
}

func onTheLine(p geom.Vector, b float64) bool {
	return math.Abs(p.Y) <= max(float64(SameMark), onLine*b)
}

func (q Square) marks(foot float64, left bool) (leg, top geom.Vector) {
	leg, top = geom.Vector{X: foot + q.Along.MM(), Y: 0}, geom.Vector{X: foot, Y: q.Up.MM()}
	if q.Back {
		leg.X = foot - q.Along.MM()
	}
	if !left {
		top.Y = -top.Y
	}
	return leg, top
}

func (s setting) choose(foot, room float64, left bool) Square {
	if q, ok := s.fitting(foot, room, left, nil); ok {
		return q
	}
	q := s.all[len(s.all)-1] // the baseline is shorter than any sheet is made from
	q.Back = foot > s.b/2
	return q
}

// fitting is the largest square that fits at a foot, within the room over it, on the left
// or right; free says of its marks whether they may be pulled. None: there is no room.
func (s setting) fitting(foot, room float64, left bool, may func(leg, top geom.Vector) bool) (Square, bool) {
	back := foot > s.b/2 // the longer part of the baseline
	for _, clear := range []float64{crowd * s.b, crowd * s.b / 4, 0} {
		free := func(at geom.Vector) bool {
			return !slices.ContainsFunc(s.standing, func(m geom.Vector) bool { return at.To(m) < clear })
		}
		for i := 0; i < len(s.all); i += 2 { // of one unit, both ways round
			for _, towards := range []bool{back, !back} {
				for _, q := range s.all[i : i+2] {
					q.Back = towards
					leg, top := q.marks(foot, left)
					if q.Up.MM() <= room && leg.X >= min(0, foot) && leg.X <= max(s.b, foot) && free(leg) && free(top) && (may == nil || may(leg, top)) {
						return q, true
					}
				}
			}
		}
	}
	return Square{}, false
}

func near(a, b, d unit.Length) bool { return math.Abs(float64(a-b)) <= float64(d) }
