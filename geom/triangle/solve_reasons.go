package triangle

import (
	"fmt"

	"trammel/geom/unit"
)

// The reasons why measurements make no triangle, in the words of the trade.

func no(hint, what string, a ...any) *NoTriangle {
	return &NoTriangle{What: fmt.Sprintf(what, a...), Hint: hint}
}

// more is no, where nothing contradicts: more has to be measured.
func more(hint, what string, a ...any) *NoTriangle {
	n := no(hint, what, a...)
	n.Code = unit.Wanting
	return n
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

// because is a reason in which a quantity stands with its value as written, named only
// by its name, and a pair as its first with enough figures to tell it from the second.
func because(hint, what string, args ...any) reason {
	return func(w words) *NoTriangle {
		said := make([]any, len(args))
		for i, a := range args {
			switch a := a.(type) {
			case Quantity:
				said[i] = w.is(a)
			case named:
				said[i] = w.name(Quantity(a))
			case [2]number:
				said[i] = w.beside(a[0], a[1])
			}
		}
		return no(hint, what, said...)
	}
}

// named is a quantity of which only the name is said.
type named Quantity

// tooShort: side i cannot reach the line of side k.
func tooShort(i, k int, is, least number) reason {
	return because("measure it or the angle again", "%s is too short to reach %s: at least %s is needed",
		Side(i), named(Side(k)), [2]number{least, is})
}

// notLongest: the side facing a right or obtuse angle must be the longest.
func notLongest(i, j int, is, b number, computed bool) reason {
	const hint = "the side facing an angle of 90° or more is the longest of all: " + again
	if computed {
		return because(hint, "%s must be longer than the %s that the height makes %s, since it faces %s",
			Side(i), [2]number{b, is}, named(Side(j)), AngleAt(i))
	}
	return because(hint, "%s must be longer than %s, since it faces %s", Side(i), Side(j), AngleAt(i))
}

func angleSum(j, k int) reason {
	return because("two angles of a triangle make less than 180°: "+again,
		"%s and %s together leave nothing for %s", AngleAt(j), AngleAt(k), named(AngleAt(rest(j, k))))
}

// heightTooLong: the height from corner i is longer than side j, which starts there.
func heightTooLong(i, j int, is, b number, computed bool) reason {
	const hint = "a height is the shortest way from its corner: " + again
	if computed {
		return because(hint, "%s is longer than %s from the same corner, which the other two make %s",
			HeightOf(i), named(Side(j)), [2]number{b, is})
	}
	return because(hint, "%s is longer than %s from the same corner", HeightOf(i), Side(j))
}

func sidesCoincide(i, j, k int) reason {
	return because("both sides would fall on the height: "+again, "%s, %s and %s are equal, which leaves nothing for %s",
		Side(i), Side(j), HeightOf(k), named(Side(k)))
}

func apexTooHigh(i int, is, most number) reason {
	return because("measure the height or the angle again", "%s is too long over %s for %s: at most %s fits",
		HeightOf(i), Side(i), AngleAt(i), [2]number{most, is})
}

// heightLeavesNothing: the height from corner i asks for an angle that is not
// left beside the one measured at corner j.
func heightLeavesNothing(i, j int, is, most number) reason {
	return because("measure the height or the angle again", "%s is too long beside %s: it must be less than %s",
		HeightOf(i), AngleAt(j), [2]number{most, is})
}

func parallelSides(i, j, k int) reason {
	return because("a height as long as the side stands at a right angle, and only one can: "+again,
		"%s and %s are as long as %s, so the other two sides would be parallel", HeightOf(j), HeightOf(k), Side(i))
}

func heightsDoNotClose(i int, is, least number) reason {
	return because("one of the three is wrong: "+again, "%s is too short beside %s and %s: it must be more than %s",
		HeightOf(i), HeightOf((i+1)%3), HeightOf((i+2)%3), [2]number{least, is})
}
