package triangle

import (
	"math/big"

	"trammel/geom"
	"trammel/geom/unit"
)

// touching is the corner at which the triangle of two lengths and an angle or a
// height is right-angled where it is about to end: the arc only just touches the
// line, or the height is as long as the side. ok is false of other triples.
func (t triple) touching() (corner int, ok bool) {
	i, j, last := t[0].Corner(), t[1].Corner(), t[2].Corner()
	if t[0].Kind() != Distance || t[1].Kind() != Distance || t[2].Kind() == Distance || last != i && last != j {
		return 0, false
	}
	beside := i + j - last // the side that ends at the corner of the angle, or of the height
	if t[2].Kind() == Angle {
		return beside, true
	}
	return rest(last, beside), true
}

// nearlySquare says whether three measurements that fix no triangle fix a
// right-angled one within their tolerances, and at which corner: a right triangle
// of which all was rounded may fall short of itself.
func (p *problem) nearlySquare(t triple) (corner int, ok bool) {
	if corner, ok = t.touching(); !ok || !p.within(t) {
		return 0, false
	}
	square, err := ParseMeasurement(string(p.names[corner])+"=90deg", unit.MM)
	if err != nil {
		return 0, false
	}
	_, err = Solve(append(append([]Measurement{}, p.measured...), square), [2]geom.Name{})
	return corner, err == nil
}

// within says whether there is a triangle with every value at one end or the other of
// what its tolerance allows.
func (p *problem) within(t triple) bool {
	for ends := range 1 << len(p.of) {
		v := *p.values(0, 1, 2)
		for i := range p.of {
			r := p.measured[i].Value
			if r.Tolerance == nil {
				continue
			}
			x := new(big.Rat).Add(r.Value, r.Tolerance)
			if ends>>i&1 == 1 {
				x.Sub(r.Value, r.Tolerance)
			}
			if x.Sign() <= 0 || p.of[i].Kind() == Angle && x.Cmp(straight) >= 0 {
				continue
			}
			p.put(&v, i, x)
		}
		if found, _ := t.solve(&v); len(found) > 0 {
			return true
		}
	}
	return false
}
