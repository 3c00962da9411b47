package triangle

// The cases with heights. h(i) is the height from corner i, square to side i:
// h(i) = side(j)·sin angle(k) = side(k)·sin angle(j). So a height and a side
// from its corner give the sine of an angle, which may be acute or obtuse: that
// is where two answers come from. The acute one comes first.

// either calls with the acute and, where it is another, the obtuse angle of the sine h/x.
func either(h, x number, with func(corner) (sides, bool)) []sides {
	var found []sides
	s := h.over(x)
	if h.cmp(x) == 0 {
		s = whole(1)
	}
	for _, obtuse := range []bool{false, true} {
		if obtuse && s.cmp(whole(1)) == 0 {
			break
		}
		if t, ok := with(fromSine(s, obtuse)); ok {
			found = append(found, t)
		}
	}
	return found
}

// ssh: sides i and j, and the height onto side i.
func ssh(v *values, i, j int) ([]sides, reason) {
	a, b, h := v.length[i], v.length[j], v.length[HeightOf(i)]
	if h.cmp(b) > 0 {
		return nil, heightTooLong(i, j, h, b, false)
	}
	k := rest(i, j) // where a and b meet
	return either(h, b, func(c corner) (sides, bool) { return sas(k, a, i, b, c), true }), nil
}

// sshBetween: sides i and j and the height from corner k between them. The foot
// lies inside the third side (first) or beyond its end: p ± q.
func sshBetween(v *values, i, j, k int) ([]sides, reason) {
	a, b, h := v.length[i], v.length[j], v.length[HeightOf(k)]
	for _, n := range []int{i, j} {
		if h.cmp(v.length[n]) > 0 {
			return nil, heightTooLong(k, n, h, v.length[n], false)
		}
	}
	p := a.minus(h).times(a.plus(h)).root()
	q := b.minus(h).times(b.plus(h)).root()
	with := func(x number) sides { return sidesOf(i, a, j, b, x) }
	if a.cmp(b) == 0 {
		if h.cmp(a) == 0 {
			return nil, sidesCoincide(i, j, k)
		}
		return one(with(p.double()))
	}
	found := []sides{with(p.plus(q))}
	if p.sign() != 0 && q.sign() != 0 && a.cmp(h) != 0 && b.cmp(h) != 0 {
		// |p − q| = |a² − b²| / (p + q)
		x := a.minus(b).times(a.plus(b)).over(p.plus(q))
		if x.sign() < 0 {
			x = x.neg()
		}
		found = append(found, with(x))
	}
	return found, nil
}

// sahApex: side i, the angle facing it and the height onto it: two answers that
// mirror each other, first the one whose side of the larger index is longer
// (AB before CA). With the product p of the other two sides known,
// their sum is √(a²+2p(1+cos)) and their difference √(a²−2p(1−cos)).
func sahApex(v *values, i int) ([]sides, reason) {
	a, h, at := v.length[i], v.length[HeightOf(i)], v.angle[i]
	most := a.half().times(at.sin).over(at.lessCos()) // (a/2)/tan(½)
	order := h.cmp(most)
	if order > 0 {
		return nil, apexTooHigh(i, h, most)
	}
	p := a.times(h).over(at.sin)
	sum := a.square().plus(p.times(at.moreCos()).double()).root()
	low := min((i+1)%3, (i+2)%3)
	with := func(x, y number) sides { return sidesOf(i, a, low, x, y) }
	if order == 0 {
		return one(with(sum.half(), sum.half()))
	}
	difference := a.square().minus(p.times(at.lessCos()).double()).root()
	longer := sum.plus(difference).half()
	shorter := p.over(longer)
	return []sides{with(shorter, longer), with(longer, shorter)}, nil
}

// sahOpposite: side i, the angle facing it and the height from corner k at its
// end: k's height and the angle give side j, then it is SSA.
func sahOpposite(v *values, i, k int) ([]sides, reason) {
	a, h, at := v.length[i], v.length[HeightOf(k)], v.angle[i]
	if h.cmp(a) > 0 {
		return nil, heightTooLong(k, i, h, a, false)
	}
	return swing(i, rest(i, k), a, centre{h.over(at.sin), h, true}, at)
}

// sahOwn: side i, the height onto it and the angle at its end j.
func sahOwn(v *values, i, j int) ([]sides, reason) {
	at := v.angle[j]
	return one(sas(j, v.length[i], i, v.length[HeightOf(i)].over(at.sin), at))
}

// sahFoot: side i, the angle at its end j and the height from there: it gives
// the angle at the other end.
func sahFoot(v *values, i, j int) ([]sides, reason) {
	a, h := v.length[i], v.length[HeightOf(j)]
	if h.cmp(a) > 0 {
		return nil, heightTooLong(j, i, h, a, false)
	}
	k := rest(i, j)
	var at [3]corner
	at[j] = v.angle[j]
	found := either(h, a, func(c corner) (sides, bool) {
		at[k] = c
		return scaled(at, i, a)
	})
	if found == nil {
		return nil, heightLeavesNothing(j, j, h, a.times(at[j].sin))
	}
	return found, nil
}

// shhOwn: side i, the height onto it and the height from its end j. Twice the
// area gives side j, a rational; the angle between them may be acute or obtuse.
func shhOwn(v *values, i, j int) ([]sides, reason) {
	a, hj := v.length[i], v.length[HeightOf(j)]
	if hj.cmp(a) > 0 {
		return nil, heightTooLong(j, i, hj, a, false)
	}
	b := a.times(v.length[HeightOf(i)]).over(hj)
	k := rest(i, j)
	return either(hj, a, func(c corner) (sides, bool) { return sas(k, a, i, b, c), true }), nil
}

// shhOthers: side i and the heights from both its ends. The angles at the ends
// are both acute, or the one with the longer height's is: not both obtuse.
func shhOthers(v *values, i, j, k int) ([]sides, reason) {
	a, hj, hk := v.length[i], v.length[HeightOf(j)], v.length[HeightOf(k)]
	for _, n := range []int{j, k} {
		if h := v.length[HeightOf(n)]; h.cmp(a) > 0 {
			return nil, heightTooLong(n, i, h, a, false)
		}
	}
	var found []sides
	var at [3]corner
	either(hj, a, func(ck corner) (sides, bool) {
		at[k] = ck
		found = append(found, either(hk, a, func(cj corner) (sides, bool) {
			at[j] = cj
			return scaled(at, i, a)
		})...)
		return sides{}, false
	})
	if found == nil {
		return nil, parallelSides(i, j, k)
	}
	return found, nil
}

// aah: two angles give the shape, the height from corner i the size.
func aah(v *values, p, q, i int) ([]sides, reason) {
	at, why := v.threeAngles(p, q)
	if why != nil {
		return nil, why
	}
	h := v.length[HeightOf(i)]
	j, k := (i+1)%3, (i+2)%3
	return one(sineRule(at, k, h.over(at[j].sin)))
}

// ahhOwn: the angle at i, the height from there and the height from j. The
// latter gives side k, with the former the sine of the angle at j.
func ahhOwn(v *values, i, j int) ([]sides, reason) {
	k := rest(i, j)
	hi, hj := v.length[HeightOf(i)], v.length[HeightOf(j)]
	var at [3]corner
	at[i] = v.angle[i]
	c := hj.over(at[i].sin)
	if hi.cmp(c) > 0 {
		return nil, heightTooLong(i, k, hi, c, true)
	}
	found := either(hi, c, func(b corner) (sides, bool) {
		at[j] = b
		return scaled(at, k, c)
	})
	if found == nil {
		return nil, heightLeavesNothing(i, i, hi, hj)
	}
	return found, nil
}

// ahhOthers: the angle at i and the heights from the other two corners, which
// give the two sides that meet at i.
func ahhOthers(v *values, i, j, k int) ([]sides, reason) {
	at := v.angle[i]
	return one(sas(i, v.length[HeightOf(k)].over(at.sin), j, v.length[HeightOf(j)].over(at.sin), at))
}

// hhh: the sides are as the inverse heights; the triangle of those has twice
// the area T, and the sides are 1/(T·h).
func hhh(v *values) ([]sides, reason) {
	var x sides
	for i := range x {
		x[i] = whole(1).over(v.length[HeightOf(i)])
	}
	if l, over := x.reach(); over.sign() <= 0 {
		return nil, heightsDoNotClose(l, v.length[HeightOf(l)], whole(1).over(x[(l+1)%3].plus(x[(l+2)%3])))
	}
	twice := x.twiceArea()
	for i := range x {
		x[i] = x[i].over(twice)
	}
	return one(x)
}
