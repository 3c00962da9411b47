package triangle

import (
	"math"
	"math/big"
)

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
