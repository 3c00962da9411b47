package triangle

// The cases of sides and angles. Each function takes the corners that the
// quantities belong to, so that one formula serves every naming.

// sas: sides x (opposite corner i) and y meet at corner k under the angle c.
// The third is √((x−y)² + 4xy sin²(c/2)).
func sas(k int, x number, i int, y number, c corner) sides {
	return sidesOf(i, x, k, x.minus(y).square().plus(x.times(y).times(c.lessCos()).double()).root(), y)
}

// sidesOf are x opposite corner i, y opposite corner j, and z.
func sidesOf(i int, x number, j int, y, z number) (s sides) {
	s[i], s[j], s[rest(i, j)] = x, y, z
	return s
}

// saa: the side opposite corner i and the angles at j and k. Sine rule, with
// the third angle exact in degrees where both are.
func saa(v *values, i, j, k int) ([]sides, reason) {
	at, why := v.threeAngles(j, k)
	if why != nil {
		return nil, why
	}
	return one(sineRule(at, i, v.length[i]))
}

// threeAngles are all three, of two that are known.
func (v *values) threeAngles(j, k int) (at [3]corner, why reason) {
	r, ok := third(v.angle[j], v.angle[k])
	if !ok {
		return at, angleSum(j, k)
	}
	at[j], at[k], at[rest(j, k)] = v.angle[j], v.angle[k], r
	return at, nil
}

// sineRule scales the angles to a side.
func sineRule(at [3]corner, i int, x number) sides {
	var s sides
	for n := range s {
		if n == i {
			s[n] = x
		} else {
			s[n] = x.times(at[n].sin).over(at[i].sin)
		}
	}
	return s
}

// scaled is the triangle of the other two angles and side i, false where they leave nothing for the third.
func scaled(at [3]corner, i int, x number) (s sides, ok bool) {
	if at[i], ok = third(at[(i+1)%3], at[(i+2)%3]); ok {
		s = sineRule(at, i, x)
	}
	return s, ok
}

// ssa: side i opposite the known angle i, and side j beside it.
func ssa(v *values, i, j int) ([]sides, reason) {
	b, at := v.length[j], v.angle[i]
	return swing(i, j, v.length[i], centre{b, b.times(at.sin), false}, at)
}

// centre of an arc as the corner sees it whose ray the arc is to meet.
type centre struct {
	b, h     number // how far off: by side j, and at least from the ray, b sin(at)
	computed bool   // b was not measured
}

// swing is the arc of radius a (side i) about corner rest(i, j) that meets the
// ray from corner i under the angle at. The two answers of an acute angle are
// x = b cos(at) ± √(a²−h²), whose product is b²−a²: the longer comes first.
func swing(i, j int, a number, c centre, at corner) ([]sides, reason) {
	b, h := c.b, c.h
	k := rest(i, j)
	with := func(x number) sides { return sidesOf(i, a, j, b, x) }
	product := b.minus(a).times(b.plus(a))
	if a.cmp(b) == 0 {
		product = whole(0)
	}
	along := b.times(at.cos)
	half := a.minus(h).times(a.plus(h)).root()
	if at.cos.sign() <= 0 { // the side opposite a right or obtuse angle is the longest
		if product.sign() >= 0 {
			return nil, notLongest(i, j, a, b, c.computed)
		}
		return one(with(product.over(along.minus(half))))
	}
	switch touch := a.cmp(h); {
	case touch < 0:
		return nil, tooShort(i, k, a, h)
	case touch == 0:
		return one(with(along))
	}
	far := along.plus(half)
	if product.sign() <= 0 {
		return one(with(far))
	}
	return []sides{with(far), with(product.over(far))}, nil
}
