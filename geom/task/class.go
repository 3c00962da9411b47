package task

import (
	"fmt"
	"math"
)

// Pupil of a class.
type Pupil struct {
	Name   string
	Level  Level  // 0: the class's
	Demand Demand // 0: the class's
}

// Demand is how much a sheet helps, or asks.
type Demand uint8

const (
	Support  Demand = 1 + iota // the base is printed, steps have gaps, one box
	Standard                   // the usual one
	Stretch                    // how many triangles fit is asked
)

// Demands are all of them.
func Demands() []Demand { return []Demand{Support, Standard, Stretch} }

func (d Demand) String() string { return [...]string{"", "support", "standard", "stretch"}[d] }

// Class is who draws what.
type Class struct {
	Seed   int
	Level  Level
	Demand Demand
	Kinds  []Kind // of each pupil's tasks, in their order
	Pupils []Pupil
	Across int // seats in a row; 0: nobody sits beside another
	Limits
	Low bool // triangles so low that two tasks share a page
}

// lowest is how high a triangle may be where two tasks share a page.
const lowest = 68

// apart is by how much the first answers of neighbours differ, in mm or degrees.
const apart = 4

// Drawn is a task that a pupil got.
type Drawn struct {
	Task
	Level  Level
	Demand Demand
}

// Draw gives every pupil its tasks: of each kind and level the first, in an order that the
// seed alone decides, that nobody has yet and whose first answer is no neighbour's. Who comes
// later in the class changes nothing for those before.
//
// The error is a *Short where the rules leave too few.
func (c Class) Draw() ([][]Drawn, error) {
	limits := c.Limits
	if c.Low {
		limits.Height = lowest
	}
	stocks := map[string]Stock{}
	shuffled := map[string][]Task{}
	used := map[Task]bool{}
	set := make([][]Drawn, len(c.Pupils))
	first := make([][]float64, len(c.Pupils))
	for i, p := range c.Pupils {
		l := c.level(p)
		for n, k := range c.Kinds {
			of := fmt.Sprintf("%s/%d", k, l)
			stock, known := stocks[of]
			if !known {
				stock = StockOf(k, c.grid(k, l), limits)
				stocks[of] = stock
			}
			start := fmt.Sprintf("%d/%d/%s/%d", c.Seed, n+1, k, l)
			pile, known := shuffled[start]
			if !known {
				pile = append(pile, stock.Kept...)
				ChanceOf(start).Shuffle(len(pile), func(i, j int) { pile[i], pile[j] = pile[j], pile[i] })
				shuffled[start] = pile
			}
			t, value, ok := c.next(pile, used, func(x float64) bool { return c.clear(first, i, n, x) })
			if !ok {
				return nil, &Short{Pupil: i + 1, Number: n + 1, Stock: stock, Alone: c.Across == 0, Low: c.Low}
			}
			used[t] = true
			set[i], first[i] = append(set[i], Drawn{t, l, c.demand(p)}), append(first[i], value)
		}
	}
	return set, nil
}

func (c Class) level(p Pupil) Level {
	if p.Level != 0 {
		return p.Level
	}
	return c.Level
}

func (c Class) demand(p Pupil) Demand {
	if p.Demand != 0 {
		return p.Demand
	}
	return c.Demand
}

// grid of a kind: where the triangles have to be low, whole fives leave too few of some.
func (c Class) grid(k Kind, l Level) Level {
	if c.Low && (k == RHS || k == LEGS || k == ISO) {
		return Ones
	}
	return l
}

// next is the first task of a pile that is free and whose first answer is clear.
func (c Class) next(pile []Task, used map[Task]bool, clear func(float64) bool) (Task, float64, bool) {
	for _, t := range pile {
		if used[t] {
			continue
		}
		if x := t.Measured(Maths)[0].Value; clear(x) {
			return t, x, true
		}
	}
	return Task{}, 0, false
}

// clear says whether a first answer of task n is no neighbour's: of those that sit to the left,
// in front, and across both corners in front.
func (c Class) clear(first [][]float64, pupil, n int, x float64) bool {
	if c.Across == 0 {
		return true
	}
	row, seat := pupil/c.Across, pupil%c.Across
	for _, at := range [][2]int{{row, seat - 1}, {row - 1, seat - 1}, {row - 1, seat}, {row - 1, seat + 1}} {
		if at[0] < 0 || at[1] < 0 || at[1] >= c.Across {
			continue
		}
		if f := first[at[0]*c.Across+at[1]]; math.Abs(f[n]-x) < apart {
			return false
		}
	}
	return true
}
