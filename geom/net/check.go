package net

import (
	"cmp"
	"fmt"
	"slices"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// problem is a net whose words have been checked.
type Problem struct {
	Net
	Names   []geom.Name // in the order of the alphabet, numbers behind a letter counted
	Number  map[geom.Name]int
	Obs     []Observation
	Of      [][]int // observations of each point
	round   []int   // the outline
	place   map[int]int
	sided   []bool              // points that Net.Sides speaks of
	control map[int]geom.Vector // seen from origin
	Origin  geom.Vector         // the first known point, so that far-off coordinates cost no digits
}

// newProblem refuses what cannot be meant; every error is a *unit.Fault.
func newProblem(n Net) (*Problem, error) {
	if len(n.Measured) == 0 {
		return nil, &unit.Fault{What: "nothing is measured", Hint: "give distances, angles and heights: AB=2400, BAC=35deg, C-AB=620"}
	}
	if len(n.Measured) > MostMeasurements {
		return nil, &unit.Fault{What: fmt.Sprintf("%d measurements: a net takes at most %d", len(n.Measured), MostMeasurements),
			Hint: "divide it, and set the parts out from two points that they share"}
	}
	p := &Problem{Net: n, Number: map[geom.Name]int{}, place: map[int]int{}, control: map[int]geom.Vector{}}
	p.Tools = n.Tools.Complete()
	for _, m := range n.Measured {
		if err := p.Check(m); err != nil {
			return nil, err
		}
	}
	for _, c := range n.Control {
		p.add(c.Name)
	}
	slices.SortFunc(p.Names, geom.Before)
	if len(p.Names) > MostPoints {
		return nil, &unit.Fault{What: fmt.Sprintf("%d points: a net takes at most %d", len(p.Names), MostPoints),
			Hint: "divide it, and set the parts out from two points that they share"}
	}
	for i, name := range p.Names {
		p.Number[name] = i
	}
	for _, f := range []func() error{p.readOutline, p.readSides, p.readControl, p.readBase} {
		if err := f(); err != nil {
			return nil, err
		}
	}
	p.Of = make([][]int, len(p.Names))
	for i, m := range n.Measured {
		if err := p.Observe(i, m); err != nil {
			return nil, err
		}
	}
	return p, nil
}

func (p *Problem) add(n geom.Name) {
	if _, known := p.Number[n]; !known {
		p.Number[n] = 0
		p.Names = append(p.Names, n)
	}
}

func Wrong(m triangle.Measurement, hint, what string, a ...any) error {
	return &unit.Fault{Where: m.Where, Subject: unit.Measured, Of: cmp.Or(m.Text, m.Subject()), What: fmt.Sprintf(what, a...), Hint: hint}
}

// check is what can be said of one measurement alone.
func (p *Problem) Check(m triangle.Measurement) error {
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
		p.add(n)
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

// find is the number of a point that is named in about of something.
func (p *Problem) find(n geom.Name, about unit.Subject, of string) (int, error) {
	if i, known := p.Number[n]; known {
		return i, nil
	}
	f := &unit.Fault{Subject: about, Of: of, What: fmt.Sprintf("no measurement goes to %s", n), Hint: "the points are " + geom.List(p.Names)}
	if n == "" {
		f.What = "a point has no name"
	}
	return 0, f
}

func (p *Problem) readOutline() error {
	outline := p.Outline
	if len(outline) == 0 && len(p.Names) == 3 {
		outline = p.Names
	}
	about, of := unit.Outline, geom.Joined(outline)
	for k, n := range outline {
		i, err := p.find(n, about, of)
		if err != nil {
			return err
		}
		if _, twice := p.place[i]; twice {
			return &unit.Fault{Subject: about, Of: of, What: fmt.Sprintf("%s stands there twice", n), Hint: "name each corner once, in the order of walking round"}
		}
		p.place[i] = k
		p.round = append(p.round, i)
	}
	if n := len(p.round); n == 1 || n == 2 {
		return &unit.Fault{Subject: about, Of: of, What: fmt.Sprintf("an edge of %d points encloses nothing", n), Hint: "name three corners or more"}
	}
	return nil
}

func (p *Problem) readSides() error {
	p.sided = make([]bool, len(p.Names))
	for _, s := range p.Sides {
		about, of := unit.SideOf, string(s.Point)
		all := []geom.Name{s.Point}
		if s.Of != ([2]geom.Name{}) {
			all = append(all, s.Of[:]...)
			if s.Of[0] == s.Of[1] || s.Of[0] == s.Point || s.Of[1] == s.Point {
				return &unit.Fault{Subject: about, Of: of, What: "its line needs two other points", Hint: "D lies left or right of AC, walked from A to C"}
			}
		}
		for _, n := range all {
			if _, err := p.find(n, about, of); err != nil {
				return err
			}
		}
		p.sided[p.Number[s.Point]] = true
	}
	return nil
}

func (p *Problem) readControl() error {
	if len(p.Control) == 1 {
		return &unit.Fault{Subject: unit.Control, Of: string(p.Control[0].Name), What: "one known point does not hold a net",
			Hint: "give two or more, or none"}
	}
	for _, c := range p.Control {
		about, of := unit.Control, string(c.Name)
		i, err := p.find(c.Name, about, of)
		if err != nil {
			return err
		}
		if len(p.control) == 0 {
			p.Origin = geom.VectorOf(c.At)
		}
		at := geom.VectorOf(c.At).Minus(p.Origin)
		for j, o := range p.control {
			if i == j {
				return &unit.Fault{Subject: about, Of: of, What: "it is given twice", Hint: "give each known point once"}
			}
			if at.To(o) < float64(Shortest) {
				return &unit.Fault{Subject: about, Of: of, What: fmt.Sprintf("it lies where %s lies", p.Names[j]), Hint: "give two points so close to one another one name"}
			}
		}
		p.control[i] = at
	}
	return nil
}

func (p *Problem) readBase() error {
	if p.Base == ([2]geom.Name{}) {
		return nil
	}
	about, of := unit.Base, geom.Joined(p.Base[:])
	for _, n := range p.Base {
		if _, err := p.find(n, about, of); err != nil {
			return err
		}
	}
	if p.Base[0] == p.Base[1] {
		return &unit.Fault{Subject: about, Of: of, What: "a baseline needs two points", Hint: "name two of " + geom.List(p.Names)}
	}
	return nil
}

// observe makes an observation of measurement i.
func (p *Problem) Observe(i int, m triangle.Measurement) error {
	o := Observation{Kind: m.Kind, index: i, N: 3, sign: 1}
	if m.Kind == triangle.Distance {
		o.N = 2
	}
	names := m.At
	if m.Kind == triangle.Angle && names[0] == "" {
		arms, err := p.arms(m)
		if err != nil {
			return err
		}
		names[0], names[2] = arms[0], arms[1]
	}
	for k := range o.N {
		o.At[k] = p.Number[names[k]]
	}
	r := m.Value
	var tolerance float64
	if r.Tolerance != nil {
		tolerance = figureOf(m, r.LengthTolerance(), r.AngleTolerance)
	}
	o.Value = figureOf(m, r.Length(), r.Angle)
	if o.Stated = r.Stated; r.Stated {
		o.Sigma = tolerance / tape.Expansion
	} else {
		o.Half = tolerance
	}
	o.Sigma = o.rough(p.Tools)
	for _, q := range o.Points() {
		p.Of[q] = append(p.Of[q], len(p.Obs))
	}
	p.Obs = append(p.Obs, o)
	return nil
}

func figureOf(m triangle.Measurement, l unit.Length, a func() unit.Angle) float64 {
	if m.Kind == triangle.Angle {
		return float64(a())
	}
	return float64(l)
}

// arms of an angle that is named by its corner alone: the two points that
// distances lead to, or the other two of three.
func (p *Problem) arms(m triangle.Measurement) ([2]geom.Name, error) {
	corner := m.At[1]
	var arms []geom.Name
	for _, o := range p.Measured {
		if o.Kind != triangle.Distance {
			continue
		}
		for k := range 2 {
			if o.At[k] == corner && !slices.Contains(arms, o.At[1-k]) {
				arms = append(arms, o.At[1-k])
			}
		}
	}
	if len(p.Names) == 3 {
		arms = nil
		for _, n := range p.Names {
			if n != corner {
				arms = append(arms, n)
			}
		}
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
