package triangle

import (
	"math"
	"math/big"
	"slices"

	"trammel/geom/unit"
)

// When an answer is called doubtful.
const (
	worstMove   = 5 * unit.Millimetre // a slip moves a corner further than this
	nearlyEqual = 0.02                // two answers differ by less than this share of the longest side
)

// nothing: what is smaller (millimetres, radians) is the rounding of what is zero.
const nothing = 1e-15

// slip that Move and the doubts speak of, in the measurement's own unit: 1 mm, 0.5°.
func (q Quantity) slip() *big.Rat {
	if q.Kind() == Angle {
		return big.NewRat(1, 2)
	}
	return big.NewRat(1, 1)
}

// moves solves again with each measurement 1 mm or 0.5° more and takes the
// answer on the branch of f, of several the nearest. Where there is none, it takes that much less, and
// failing this a smaller slip in proportion. Accuracy: that of the corners'
// coordinates, some 1e-9 mm; where four or more were adjusted, 1e-6 of the move.
func (p *problem) moves(f sides, t triple, apex int) (moves []Move, doubts []Doubt) {
	again := p.again(f, t)
	from := f.places(apex)
	for i := range p.of {
		m := Move{Measurement: i}
		found := false
		for _, share := range []int64{1, -1, 32, -32, 1024, -1024, 1 << 20, -1 << 20} {
			if found && share != -1 { // −1 is tried for the doubt alone
				break
			}
			all := again(i, big.NewRat(1, share))
			nearest, ok := nearest(p.onBranch(all, f, t), from, apex)
			if !ok {
				if share == 1 || share == -1 {
					d := Doubt{Code: SlipEnds, Measured: i, Less: share < 0, Other: len(all) > 0}
					if len(p.of) == 3 && f.hand(t) != 0 { // where the branches meet it ends at once
						d.End = p.end(again, f, t, d)
					}
					doubts = append(doubts, d)
				}
				continue
			}
			if !found {
				for k := range m.Corners {
					m.Corners[k] = nearest[k] * unit.Length(max(share, -share))
				}
			}
			found = true
		}
		moves = append(moves, m)
	}
	return moves, doubts
}

// again gives the answers with a share of the slip added to measurement i.
func (p *problem) again(f sides, t triple) func(i int, share *big.Rat) []sides {
	if len(p.of) == 3 {
		known := p.values(0, 1, 2)
		return func(i int, share *big.Rat) []sides {
			v := new(big.Rat).Mul(p.of[i].slip(), share)
			v.Add(v, p.measured[i].Value.Value)
			if v.Sign() <= 0 || p.of[i].Kind() == Angle && v.Cmp(straight) >= 0 {
				return nil
			}
			slipped := *known
			p.put(&slipped, i, v)
			s, _ := t.solve(&slipped)
			return s
		}
	}
	d := p.newDesk()
	all := make([]int, len(p.of))
	for i := range all {
		all[i] = i
	}
	start := f.plain()
	// what the triangle itself measures, so that the residuals move nothing
	target := make([]float64, len(p.of))
	for i := range target {
		target[i] = start.measure(p.of[i])
	}
	return func(i int, share *big.Rat) []sides {
		s, _ := new(big.Rat).Mul(p.of[i].slip(), share).Float64()
		keep := target[i]
		target[i] += s
		moved := d.adjust(all, target, start)
		target[i] = keep
		return []sides{moved.exact()}
	}
}

// places of corner 1 of the baseline and of the apex.
func (s sides) places(apex int) (at [3]number) {
	return [3]number{s[apex], s.foot(apex), s.twiceArea().over(s[apex])}
}

// nearest is how far each corner moves to the nearest of the triangles.
func nearest(found []sides, from [3]number, apex int) (best [3]unit.Length, ok bool) {
	for _, s := range found {
		to := s.places(apex)
		var d [3]float64
		for i := range d {
			if d[i] = to[i].minus(from[i]).float64(); math.Abs(d[i]) < nothing {
				d[i] = 0
			}
		}
		c := [3]unit.Length{0, unit.Length(math.Abs(d[0])), unit.Length(math.Hypot(d[1], d[2]))}
		if !ok || max(c[1], c[2]) < max(best[1], best[2]) {
			best, ok = c, true
		}
	}
	return best, ok
}

// doubts about an answer, after the slips that end it.
func (p *problem) doubts(a Answer, ends []Doubt, found []sides, apex int) (all []Doubt) {
	names := a.Triangle.Names
	for i, m := range a.Moves {
		if k := farthest(m.Corners); p.of[i].Kind() != Angle && m.Corners[k] > worstMove {
			all = append(all, Doubt{Code: SlipMoves, Measured: i, Corner: names[k], By: m.Corners[k]})
		}
	}
	all = append(all, ends[:min(1, len(ends))]...)
	if len(found) == 2 {
		apart, _ := nearest(found[1:], found[0].places(apex), apex)
		if k := farthest(apart); float64(apart[k]) < nearlyEqual*float64(slices.Max(a.Triangle.Sides[:])) {
			all = append(all, Doubt{Code: NearlySame, Corner: names[k], By: apart[k]})
		}
	}
	if sum, stated := p.leeway(a); stated && sum[farthest(sum)] > worstMove {
		all = append(all, Doubt{Code: Tolerances, Corner: names[farthest(sum)], By: sum[farthest(sum)]})
	}
	return all
}

func farthest(c [3]unit.Length) int {
	k := 0
	for i := range c {
		if c[i] > c[k] {
			k = i
		}
	}
	return k
}

// leeway is what the tolerances leave open, where somebody stated one: the moves of all
// measurements added up at the worst.
func (p *problem) leeway(a Answer) (sum [3]unit.Length, stated bool) {
	for i, m := range a.Moves {
		r := p.measured[i].Value
		stated = stated || r.Stated
		if r.Tolerance == nil {
			continue
		}
		share, _ := new(big.Rat).Quo(r.Tolerance, p.of[i].slip()).Float64()
		for k := range sum {
			sum[k] += m.Corners[k] * unit.Length(share)
		}
	}
	return sum, stated
}

// Two triangles that fit the same three measurements lie on two branches: change a
// measurement little by little and each changes with it, until the two meet and end.
// There the measurements no longer move with the sides: the determinant of their
// gradients is zero. It is positive on one branch and negative on the other.

// foldless is the share of its largest possible value below which the sign of the
// determinant is rounding: float64 over the sharpest triangles that are taken.
const foldless = 1e-9

// hand is the branch that a triangle lies on, for the three quantities of t: the
// sign of the determinant; 0 where the two branches meet.
func (s sides) hand(t triple) int {
	f := s.plain()
	var g [3][3]float64
	most := 1.0
	for i, q := range t {
		g[i] = f.gradient(q)
		most *= math.Hypot(math.Hypot(g[i][0], g[i][1]), g[i][2])
	}
	d := determinant(g[0], g[1], g[2])
	switch {
	case d > foldless*most:
		return 1
	case d < -foldless*most:
		return -1
	}
	return 0
}

// onBranch leaves those of the triangles that lie on the branch of f; all where f
// itself lies where the branches meet.
func (p *problem) onBranch(found []sides, f sides, t triple) []sides {
	h := f.hand(t)
	if h == 0 || len(p.of) > 3 {
		return found
	}
	var same []sides
	for _, s := range found {
		if k := s.hand(t); k == h || k == 0 {
			same = append(same, s)
		}
	}
	return same
}

// end is the value of measurement i at which the branch of f ends, between what was
// measured and a slip away from it (less: downward), to 2⁻⁴⁰ of the slip; nil where it
// ends at once.
func (p *problem) end(again func(int, *big.Rat) []sides, f sides, t triple, d Doubt) *big.Rat {
	fits, fails := new(big.Rat), big.NewRat(1, 1)
	if d.Less {
		fails.Neg(fails)
	}
	for range 40 {
		half := new(big.Rat).Add(fits, fails)
		half.Quo(half, big.NewRat(2, 1))
		if len(p.onBranch(again(d.Measured, half), f, t)) > 0 {
			fits = half
		} else {
			fails = half
		}
	}
	if fits.Sign() == 0 {
		return nil
	}
	v := new(big.Rat).Mul(p.of[d.Measured].slip(), fits)
	return v.Add(v, p.measured[d.Measured].Value.Value)
}
