package task

// Level is how fine the numbers are that are given.
type Level uint8

const (
	Centimetres Level = 1 + iota // whole cm and 10°; where that leaves too few, 5 mm
	Fives                        // 5 mm and 5°
	Ones                         // 1 mm and 1°, no multiples of 5
)

// steps from a number to another; odd: without the multiples of 5.
func steps(from, to, by int, odd bool) (all []int) {
	for x := from; x <= to; x += by {
		if !odd || x%5 != 0 {
			all = append(all, x)
		}
	}
	return all
}

// axis are the numbers that a quantity of a kind may have at a level.
func (k Kind) axis(q Quantity, l Level) []int {
	length, degrees := 10, 10
	switch {
	case l == Ones:
		length, degrees = 1, 1
	case l == Fives:
		length, degrees = 5, 5
	}
	if l == Centimetres && (k == SASO || k == RHS || k == LEGS || k == SSA0 || k == ISO || k == SSA2) {
		length = 5
	}
	switch {
	case q == A && k.BySquare():
		return []int{90}
	case q == Height:
		return steps(30, 90, length, false)
	case q.IsAngle() && k == SSA2:
		if l < Ones {
			degrees = map[Level]int{Centimetres: 5, Fives: 1}[l]
		}
		return steps(20, 150, degrees, l == Ones)
	case q.IsAngle():
		return steps(30, 150, degrees, l == Ones)
	}
	return steps(40, 120, length, l == Ones)
}

// Stock is the tasks of a kind and a level that keep all rules, in the order of the grid,
// and how many break each rule.
type Stock struct {
	Kind  Kind
	Level Level
	Kept  []Task
	Fell  [rules]int
}

// Size of the grid.
func (s Stock) Size() (n int) {
	for _, fell := range s.Fell {
		n += fell
	}
	return n
}

// StockOf goes through the whole grid.
func StockOf(k Kind, l Level, limits Limits) Stock {
	s := Stock{Kind: k, Level: l}
	given := k.Given()
	first, second, third := k.axis(given[0], l), k.axis(given[1], l), k.axis(given[2], l)
	if k == ISO {
		third = []int{0}
	}
	for _, x := range first {
		for _, y := range second {
			for _, z := range third {
				t := Task{k, [3]int{x, y, z}}
				if k == ISO {
					t.Given[2] = y
				}
				r := t.Broken(limits)
				if s.Fell[r]++; r == Kept {
					s.Kept = append(s.Kept, t)
				}
			}
		}
	}
	return s
}
