package triangle

import (
	"fmt"
	"math/big"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// problem is a set of measurements whose corners are known.
type problem struct {
	names    [3]geom.Name // in the order of the alphabet, numbers behind a letter counted
	measured []Measurement
	of       []Quantity // of each measurement
}

// newProblem finds the three corners and what each measurement measures, and
// refuses words that cannot be meant: every error is a *unit.Fault.
func newProblem(ms []Measurement) (*problem, error) {
	p := &problem{measured: ms, of: make([]Quantity, len(ms))}
	names, err := cornersOf(ms)
	if err != nil {
		return nil, err
	}
	p.names = names
	first := map[Quantity]int{}
	for i, m := range ms {
		q, err := QuantityOf(m, names)
		if err != nil {
			return nil, err
		}
		if err := checkValue(m); err != nil {
			return nil, err
		}
		if j, twice := first[q]; twice {
			return nil, fault(m, "take one of the two out, or the mean of both", "measured twice: it is the same as %s", ms[j].Text)
		}
		first[q], p.of[i] = i, q
	}
	return p, nil
}

func fault(m Measurement, hint, what string, a ...any) *unit.Fault {
	return &unit.Fault{Where: m.Where, Subject: unit.Measured, Of: m.Text, What: fmt.Sprintf(what, a...), Hint: hint}
}

// cornersOf collects the names in the order of the alphabet. Where fewer than
// three are written, the next free letters after the last stand for the rest.
func cornersOf(ms []Measurement) (names [3]geom.Name, err error) {
	var all []geom.Name
	for _, m := range ms {
		for _, n := range m.At {
			if n == "" || slices.Contains(all, n) {
				continue
			}
			if len(all) == 3 {
				return names, fault(m, "give each triangle its own three corners",
					"%s is a fourth point beside %s, %s and %s: a triangle has three", n, all[0], all[1], all[2])
			}
			all = append(all, n)
		}
	}
	for len(all) < 3 {
		all = append(all, nextFree(all))
	}
	slices.SortFunc(all, geom.Before)
	return [3]geom.Name(all), nil
}

// nextFree is the next letter after the last of the names that none of them
// has, after Z again from A.
func nextFree(all []geom.Name) geom.Name {
	letter := byte('@') // before A
	if len(all) > 0 {
		if last := slices.MaxFunc(all, geom.Before); last[0] >= 'A' && last[0] <= 'Z' {
			letter = last[0]
		}
	}
	for {
		if letter++; letter > 'Z' {
			letter = 'A'
		}
		if n := geom.Name(letter); !slices.Contains(all, n) {
			return n
		}
	}
}

// QuantityOf says what m measures in the triangle of the names.
func QuantityOf(m Measurement, names [3]geom.Name) (Quantity, error) {
	index := func(n geom.Name) int { return slices.Index(names[:], n) }
	at := [3]int{index(m.At[0]), index(m.At[1]), index(m.At[2])}
	apart := at[0] >= 0 && at[1] >= 0 && at[2] >= 0 && at[0] != at[1] && at[1] != at[2] && at[2] != at[0]
	switch m.Kind {
	case Distance:
		if at[0] >= 0 && at[1] >= 0 && at[0] != at[1] && m.At[2] == "" {
			return Side(rest(at[0], at[1])), nil
		}
	case Angle:
		if apart || at[1] >= 0 && m.At[0] == "" && m.At[2] == "" {
			return AngleAt(at[1]), nil
		}
	case Height:
		if apart {
			return HeightOf(at[0]), nil
		}
	}
	return 0, fault(m, "AB is a length, A or BAC an angle, C-AB a height", "its points are not those of a length, an angle or a height")
}

func checkValue(m Measurement) error {
	v := m.Value.Value
	if v == nil || m.Value.Tolerance != nil && m.Value.Tolerance.Sign() < 0 {
		return fault(m, "write a number with its unit", "it has no value")
	}
	if m.Kind == Angle {
		if v.Sign() <= 0 || v.Cmp(straight) >= 0 {
			return fault(m, "measure the angle inside the triangle", "an angle of a triangle lies between 0° and 180°")
		}
		return nil
	}
	short, long := lengthLimits()
	switch {
	case v.Sign() <= 0:
		return fault(m, "measure it again", "a length is more than 0")
	case m.Kind == Distance && v.Cmp(short) < 0:
		return fault(m, "sides may be 1 mm to 1 km long", "shorter than 1 mm")
	case v.Cmp(long) > 0:
		return fault(m, "sides may be 1 mm to 1 km long", "longer than 1 km")
	}
	return nil
}

// lengthLimits of a side are those of what is read; a height may be shorter.
func lengthLimits() (short, long *big.Rat) {
	return new(big.Rat).SetFloat64(unit.Shortest.MM()), new(big.Rat).SetFloat64(unit.Longest.MM())
}

// values of the measurements numbered in which, for the solver.
func (p *problem) values(which ...int) *values {
	v := new(values)
	for _, i := range which {
		p.put(v, i, p.measured[i].Value.Value)
	}
	return v
}

func (p *problem) put(v *values, i int, r *big.Rat) {
	switch q := p.of[i]; q.Kind() {
	case Angle:
		v.angle[q.Corner()] = cornerOf(r)
	default:
		v.length[q] = exact(r)
	}
}

func (p *problem) words() words { return wordsOf(p.names, p.of, p.measured) }
