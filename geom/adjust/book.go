package adjust

import (
	"cmp"
	"fmt"
	"slices"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// What is adjusted at once. A point lies at least 1 mm from each other.
const (
	MostPoints       = 250
	MostMeasurements = 2000
	Shortest         = 1 * unit.Millimetre
	Longest          = 100000 * unit.Metre
)

// Book holds measurements whose words have been checked, the points that they name, and the observations made of them.
type Book struct {
	Measured []triangle.Measurement
	Tools    tape.Tools // give σ where no tolerance is stated
	Names    []geom.Name
	Number   map[geom.Name]int // where a name stands in Names
	Obs      []Observation
	Of       [][]int     // into Obs: those of each point
	Origin   geom.Vector // what the places are seen from, so that far-off coordinates cost no digits
}

// Add takes a point into the book, once.
func (b *Book) Add(n geom.Name) {
	if _, known := b.Number[n]; !known {
		b.Number[n] = 0
		b.Names = append(b.Names, n)
	}
}

// Check refuses what cannot be meant by one measurement alone, and takes its points
// into the book. Its errors are a *unit.Fault.
func (b *Book) Check(m triangle.Measurement) error {
	names := m.Points()
	want := 3
	if m.Kind == triangle.Distance {
		want = 2
	}
	alone := m.Kind == triangle.Angle && len(names) == 1 && m.At[1] != ""
	if len(names) != want && !alone {
		return Wrong(m, "AB is a length, A or BAC an angle, C-AB a height", "its points are not those of a length, an angle or a height")
	}
	for i, n := range names {
		if slices.Contains(names[:i], n) {
			return Wrong(m, "a measurement goes between points that differ", "%s is named twice", n)
		}
		b.Add(n)
	}
	r := m.Value
	switch {
	case r.Value == nil || r.Tolerance != nil && r.Tolerance.Sign() < 0:
		return Wrong(m, "write a number with its unit", "it has no value")
	case r.Stated && (r.Tolerance == nil || r.Tolerance.Sign() == 0):
		return Wrong(m, "write what it can be trusted to, or leave the tolerance out", "a tolerance of 0 says that it is never wrong")
	case m.Kind == triangle.Angle:
		if v := r.Angle(); v <= 0 || v >= unit.Turn/2 {
			return Wrong(m, "measure the angle on its inner side", "an angle lies between 0° and 180°")
		}
	case r.Value.Sign() <= 0:
		return Wrong(m, "measure it again", "a length is more than 0")
	case m.Kind == triangle.Distance && r.Length() < Shortest:
		return Wrong(m, "give two points so close to one another one name", "shorter than 1 mm")
	case r.Length() > Longest:
		return Wrong(m, "a net may be 100 km wide", "longer than 100 km")
	}
	return nil
}

// Observe makes an observation of measurement i.
func (b *Book) Observe(i int, m triangle.Measurement) error {
	o := Observation{Kind: m.Kind, Index: i, N: 3, sign: 1}
	if m.Kind == triangle.Distance {
		o.N = 2
	}
	names := m.At
	if m.Kind == triangle.Angle && names[0] == "" {
		arms, err := b.arms(m)
		if err != nil {
			return err
		}
		names[0], names[2] = arms[0], arms[1]
	}
	for k := range o.N {
		o.At[k] = b.Number[names[k]]
	}
	r := m.Value
	o.Value = ReadingOf(m)
	if r.Tolerance != nil {
		r.Value = r.Tolerance
		o.Half = ReadingOf(triangle.Measurement{Kind: m.Kind, Value: r})
	}
	if o.Stated = r.Stated; r.Stated {
		o.Sigma, o.Half = o.Half/tape.Expansion, 0
	}
	o.Sigma = o.SigmaBefore(b.Tools)
	b.enter(o)
	return nil
}

func (b *Book) enter(o Observation) {
	for _, q := range o.Points() {
		b.Of[q] = append(b.Of[q], len(b.Obs))
	}
	b.Obs = append(b.Obs, o)
}

// arms of an angle that is named by its corner alone: the two points that distances lead to, or the other two of three.
func (b *Book) arms(m triangle.Measurement) ([2]geom.Name, error) {
	corner := m.At[1]
	var arms []geom.Name
	for _, o := range b.Measured {
		if k := slices.Index(o.At[:2], corner); o.Kind == triangle.Distance && k >= 0 && !slices.Contains(arms, o.At[1-k]) {
			arms = append(arms, o.At[1-k])
		}
	}
	if len(b.Names) == 3 {
		arms = slices.DeleteFunc(slices.Clone(b.Names), func(n geom.Name) bool { return n == corner })
	}
	if len(arms) == 2 {
		return [2]geom.Name{arms[0], arms[1]}, nil
	}
	hint := "name both arms, such as B" + string(corner) + "C"
	if len(arms) > 2 {
		slices.SortFunc(arms, geom.Before)
		hint = "name both arms, such as " + geom.Joined([]geom.Name{arms[0], corner, arms[1]})
	}
	return [2]geom.Name{}, Wrong(m, hint, "%d measured lines meet at %s: between which two is the angle", len(arms), corner)
}

// Coincide refuses points that lie on one another.
func (b *Book) Coincide(at []geom.Vector) error {
	for i := range at {
		for j := range i {
			if d := at[i].To(at[j]); d < float64(Shortest) {
				return &unit.Fault{Subject: unit.Measured, Of: geom.List([]geom.Name{b.Names[j], b.Names[i]}), What: "they lie " + b.Amount(d, 2) + " apart",
					Hint: "give two points so close to one another one name, or measure again"}
			}
		}
	}
	return nil
}

// Taped says whether the distance between two points was measured.
func (b *Book) Taped(i, j int) bool {
	return slices.ContainsFunc(b.Of[i], func(k int) bool { return b.Obs[k].N == 2 && b.Obs[k].Has(j) })
}

// Without is the book without one of its observations.
func (b Book) Without(i int) Book {
	obs := slices.Delete(slices.Clone(b.Obs), i, i+1)
	b.Obs, b.Of = nil, make([][]int, len(b.Names))
	for _, o := range obs {
		b.enter(o)
	}
	return b
}

// LongestOf is the longest of some lines; of those equal but for rounding the first.
func LongestOf(at []geom.Vector, lines [][2]int) (ends [2]int) {
	longest := -1.0
	for _, l := range lines {
		if d := at[l[0]].To(at[l[1]]); d > longest*(1+1e-9) {
			longest, ends = d, l
		}
	}
	return ends
}

// Amount is a length with so many figures, in mm, or in inches where every length was measured in feet or inches.
func (b *Book) Amount(mm float64, figures int) string {
	for _, m := range b.Measured {
		if m.Kind != triangle.Angle && m.Value.Unit < unit.IN {
			return fmt.Sprintf("%.*g mm", figures, mm)
		}
	}
	return fmt.Sprintf("%.*g in", figures, mm/unit.Inch.MM())
}

// Wrong is the error of a measurement that cannot be meant: where it stands, what is wrong and what to do.
func Wrong(m triangle.Measurement, hint, what string, a ...any) error {
	return &unit.Fault{Where: m.Where, Subject: unit.Measured, Of: cmp.Or(m.Text, m.Subject()), What: fmt.Sprintf(what, a...), Hint: hint}
}
