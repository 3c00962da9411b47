package triangle

import "fmt"

// The reasons why measurements make no triangle, in the words of the trade.

func no(hint, what string, a ...any) *NoTriangle {
	return &NoTriangle{What: fmt.Sprintf(what, a...), Hint: hint}
}

const again = "measure them again"

// shortReach: the two shorter sides do not reach across the longest.
func shortReach(s sides, l int, over number) reason {
	return func(w words) *NoTriangle {
		// named from one end of the longest to the other
		p, q := min((l+1)%3, (l+2)%3), max((l+1)%3, (l+2)%3)
		x, y := Side(q), Side(p)
		name := func(q Quantity) string {
			if w.value[q] != "" {
				return w.is(q)
			}
			return w.name(q) + " " + w.float(s[q.Corner()].float64())
		}
		if over.sign() == 0 {
			return no("a triangle needs its third corner off that line: "+again,
				"%s, %s and %s lie on one line: %s and %s together are exactly %s",
				w.names[0], w.names[1], w.names[2], name(x), name(y), name(Side(l)))
		}
		hint := "one of the three is wrong: " + again
		if tenth := s[l].float64() / 10; w.value[Side(l)] != "" && fits(tenth, s[p].float64(), s[q].float64()) {
			hint += fmt.Sprintf("; with a digit less, %s %s would fit", w.name(Side(l)), w.float(tenth))
		}
		return no(hint,
			"%s and %s together are %s short of reaching across %s",
			name(x), name(y), w.float(over.neg().float64()), name(Side(l)))
	}
}

// fits says whether three sides make a triangle, clear of a flat one by so much that
// the figures printed do too.
func fits(a, b, c float64) bool {
	const clear = 1.01
	return a+b > clear*c && b+c > clear*a && c+a > clear*b
}

// tooShort: side i cannot reach the line of side k.
func tooShort(i, k int, is, least number) reason {
	return func(w words) *NoTriangle {
		return no("measure it or the angle again", "%s is too short to reach %s: at least %s is needed",
			w.is(Side(i)), w.name(Side(k)), w.beside(least, is))
	}
}

// notLongest: the side facing a right or obtuse angle must be the longest.
func notLongest(i, j int, is, b number, computed bool) reason {
	return func(w words) *NoTriangle {
		other := w.is(Side(j))
		if computed {
			other = fmt.Sprintf("the %s that the height makes %s", w.beside(b, is), w.name(Side(j)))
		}
		return no("the side facing an angle of 90° or more is the longest of all: "+again,
			"%s must be longer than %s, since it faces %s", w.is(Side(i)), other, w.is(AngleAt(i)))
	}
}

func angleSum(j, k int) reason {
	return func(w words) *NoTriangle {
		return no("two angles of a triangle make less than 180°: "+again,
			"%s and %s together leave nothing for %s", w.is(AngleAt(j)), w.is(AngleAt(k)), w.name(AngleAt(rest(j, k))))
	}
}

// heightTooLong: the height from corner i is longer than side j, which starts there.
func heightTooLong(i, j int, is, b number, computed bool) reason {
	return func(w words) *NoTriangle {
		beside := w.is(Side(j)) + " from the same corner"
		if computed {
			beside = fmt.Sprintf("%s from the same corner, which the other two make %s", w.name(Side(j)), w.beside(b, is))
		}
		return no("a height is the shortest way from its corner: "+again, "%s is longer than %s", w.is(HeightOf(i)), beside)
	}
}

func sidesCoincide(i, j, k int) reason {
	return func(w words) *NoTriangle {
		return no("both sides would fall on the height: "+again,
			"%s, %s and %s are equal, which leaves nothing for %s",
			w.is(Side(i)), w.is(Side(j)), w.is(HeightOf(k)), w.name(Side(k)))
	}
}

func apexTooHigh(i int, is, most number) reason {
	return func(w words) *NoTriangle {
		return no("measure the height or the angle again", "%s is too long over %s for %s: at most %s fits",
			w.is(HeightOf(i)), w.is(Side(i)), w.is(AngleAt(i)), w.beside(most, is))
	}
}

// heightLeavesNothing: the height from corner i asks for an angle that is not
// left beside the one measured at corner j.
func heightLeavesNothing(i, j int, is, most number) reason {
	return func(w words) *NoTriangle {
		return no("measure the height or the angle again", "%s is too long beside %s: it must be less than %s",
			w.is(HeightOf(i)), w.is(AngleAt(j)), w.beside(most, is))
	}
}

func parallelSides(i, j, k int) reason {
	return func(w words) *NoTriangle {
		return no("a height as long as the side stands at a right angle, and only one can: "+again,
			"%s and %s are as long as %s, so the other two sides would be parallel",
			w.is(HeightOf(j)), w.is(HeightOf(k)), w.is(Side(i)))
	}
}

func heightsDoNotClose(i int, is, least number) reason {
	return func(w words) *NoTriangle {
		return no("one of the three is wrong: "+again,
			"%s is too short beside %s and %s: it must be more than %s",
			w.is(HeightOf(i)), w.is(HeightOf((i+1)%3)), w.is(HeightOf((i+2)%3)), w.beside(least, is))
	}
}
