package triangle

import (
	"slices"
)

// directSets are the triples from which a triangle can be constructed on its baseline
// just as it was measured, the best first, in the triangle's own numbering: corners 0
// and 1 are the ends of the baseline, side 0 runs from 1 to the apex.
var DirectSets = [][3]Quantity{
	{Side(2), Side(1), Side(0)},
	{Side(2), AngleAt(0), Side(1)},
	{Side(2), AngleAt(1), Side(0)},
	{Side(2), AngleAt(0), AngleAt(1)},
	{Side(2), AngleAt(0), Side(0)},
	{Side(2), AngleAt(1), Side(1)},
	{Side(2), HeightOf(2), Side(1)},
	{Side(2), HeightOf(2), Side(0)},
	{Side(2), HeightOf(2), AngleAt(0)},
	{Side(2), HeightOf(2), AngleAt(1)},
}

// directSet is the first of directSets that m has whole, the third angle counted as
// measured where two are.
func DirectSet(m [9]bool) (int, bool) {
	m = WithThird(m)
	i := slices.IndexFunc(DirectSets, func(set [3]Quantity) bool { return m[set[0]] && m[set[1]] && m[set[2]] })
	return i, i >= 0
}

// withThird adds the third angle where two are known.
func WithThird(m [9]bool) [9]bool {
	if m[3] && m[4] || m[4] && m[5] || m[5] && m[3] {
		m[3], m[4], m[5] = true, true, true
	}
	return m
}

// A quantity is one of the nine things measured in a triangle: kind·3 + corner.
// Sides are opposite the corner of their number, angles and heights at it.
type Quantity int

func (q Quantity) Kind() Kind  { return Kind(q / 3) }
func (q Quantity) Corner() int { return int(q % 3) }

func Side(i int) Quantity     { return Quantity(i) }
func AngleAt(i int) Quantity  { return Quantity(3 + i) }
func HeightOf(i int) Quantity { return Quantity(6 + i) }

// reason puts into words why there is no triangle.
type reason func(words) *NoTriangle

// triple is three quantities in rising order.
type triple [3]Quantity

// letters is the name of the case. Of the three with heights the letters stand
// in the order side, angle, height: SSH, SAH, SHH, AAH, AHH, HHH. Without
// heights they go round the triangle: SAS has the angle between the sides, ASA
// the side between the angles.
func (t triple) letters() string {
	p, q, r := t[0], t[1], t[2]
	switch shape := [3]Kind{p.Kind(), q.Kind(), r.Kind()}; shape {
	case [3]Kind{Distance, Distance, Angle}:
		if p.Corner() == r.Corner() || q.Corner() == r.Corner() {
			return "SSA"
		}
		return "SAS"
	case [3]Kind{Distance, Angle, Angle}:
		if p.Corner() == q.Corner() || p.Corner() == r.Corner() {
			return "AAS"
		}
		return "ASA"
	default:
		return string([]byte{"SAH"[shape[0]], "SAH"[shape[1]], "SAH"[shape[2]]})
	}
}

// determines is false of the seven triples of which one follows from the other
// two, whatever the triangle: the three angles, and a side, an angle at its end
// and the height from its other end (h = b·sin A).
func (t triple) determines() bool {
	switch [3]Kind{t[0].Kind(), t[1].Kind(), t[2].Kind()} {
	case [3]Kind{Angle, Angle, Angle}:
		return false
	case [3]Kind{Distance, Angle, Height}:
		s, a, h := t[0].Corner(), t[1].Corner(), t[2].Corner()
		return s == a || a == h || h == s
	}
	return true
}

// values of the quantities that were measured: numbers for lengths, corners for angles.
type values struct {
	length [9]number
	angle  [3]corner
}

// solve finds the sides of every triangle that has the three values, in the
// order of Solution.Answers; none comes with the reason. The triple is one that
// determines.
func (t triple) solve(v *values) ([]sides, reason) {
	c := [3]int{t[0].Corner(), t[1].Corner(), t[2].Corner()}
	found, why := t.candidates(v, c)
	var good []sides
	for _, s := range found {
		if l, over := s.reach(); over.sign() > 0 {
			good = append(good, s)
		} else if why == nil {
			why = shortReach(s, l, over)
		}
	}
	if len(good) > 0 {
		return good, nil
	}
	return nil, why
}

func (t triple) candidates(v *values, c [3]int) ([]sides, reason) {
	switch [3]Kind{t[0].Kind(), t[1].Kind(), t[2].Kind()} {
	case [3]Kind{Distance, Distance, Distance}:
		return []sides{{v.length[0], v.length[1], v.length[2]}}, nil
	case [3]Kind{Distance, Distance, Angle}:
		switch c[2] {
		case c[0]:
			return ssa(v, c[0], c[1])
		case c[1]:
			return ssa(v, c[1], c[0])
		}
		return one(sas(c[2], v.length[c[0]], c[0], v.length[c[1]], v.angle[c[2]]))
	case [3]Kind{Distance, Angle, Angle}:
		return saa(v, c[0], c[1], c[2])
	case [3]Kind{Distance, Distance, Height}:
		switch c[2] {
		case c[0]:
			return ssh(v, c[0], c[1])
		case c[1]:
			return ssh(v, c[1], c[0])
		}
		return sshBetween(v, c[0], c[1], c[2])
	case [3]Kind{Distance, Angle, Height}:
		switch s, a, h := c[0], c[1], c[2]; {
		case s == a && a == h:
			return sahApex(v, s)
		case s == a:
			return sahOpposite(v, s, h)
		case s == h:
			return sahOwn(v, s, a)
		default: // a == h
			return sahFoot(v, s, a)
		}
	case [3]Kind{Distance, Height, Height}:
		switch c[0] {
		case c[1]:
			return shhOwn(v, c[0], c[2])
		case c[2]:
			return shhOwn(v, c[0], c[1])
		}
		return shhOthers(v, c[0], c[1], c[2])
	case [3]Kind{Angle, Angle, Height}:
		return aah(v, c[0], c[1], c[2])
	case [3]Kind{Angle, Height, Height}:
		switch c[0] {
		case c[1]:
			return ahhOwn(v, c[0], c[2])
		case c[2]:
			return ahhOwn(v, c[0], c[1])
		}
		return ahhOthers(v, c[0], c[1], c[2])
	default: // three heights
		return hhh(v)
	}
}

// rest is the third of the three indices.
func rest(i, j int) int { return 3 - i - j }

func one(s sides) ([]sides, reason) { return []sides{s}, nil }
