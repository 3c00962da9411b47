package net

import (
	"fmt"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// problem is a net whose words have been checked.
type problem struct {
	adjust.Book // its names in the order of the alphabet, numbers behind a letter counted; its origin is the first known point
	outline
	asked   Net
	sided   []bool              // points that Net.Sides speaks of
	control map[int]geom.Vector // seen from the origin
}

// newProblem refuses what cannot be meant; every error is a *unit.Fault.
func newProblem(n Net) (*problem, error) {
	if len(n.Measured) == 0 {
		return nil, &unit.Fault{What: "nothing is measured", Hint: "give distances, angles and heights: AB=2400, BAC=35deg, C-AB=620"}
	}
	if len(n.Measured) > adjust.MostMeasurements {
		return nil, &unit.Fault{What: fmt.Sprintf("%d measurements: a net takes at most %d", len(n.Measured), adjust.MostMeasurements),
			Hint: "divide it, and set the parts out from two points that they share"}
	}
	p := &problem{asked: n, outline: outline{place: map[int]int{}}, control: map[int]geom.Vector{}}
	p.Book = adjust.Book{Measured: n.Measured, Tools: n.Tools.Complete(), Number: map[geom.Name]int{}}
	for _, m := range n.Measured {
		if err := p.Check(m); err != nil {
			return nil, err
		}
	}
	for _, c := range n.Control {
		p.Add(c.Name)
	}
	slices.SortFunc(p.Names, geom.Before)
	if len(p.Names) > adjust.MostPoints {
		return nil, &unit.Fault{What: fmt.Sprintf("%d points: a net takes at most %d", len(p.Names), adjust.MostPoints),
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

// find is the number of a point that is named in about of something.
func (p *problem) find(n geom.Name, about unit.Subject, of string) (int, error) {
	if i, known := p.Number[n]; known {
		return i, nil
	}
	f := &unit.Fault{Subject: about, Of: of, What: fmt.Sprintf("no measurement goes to %s", n), Hint: "the points are " + geom.List(p.Names), Advice: unit.Advice{Code: unit.Wanting}}
	if n == "" {
		f.What, f.Code = "a point has no name", ""
	}
	return 0, f
}

func (p *problem) readOutline() error {
	outline := p.asked.Outline
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

func (p *problem) readSides() error {
	p.sided = make([]bool, len(p.Names))
	for _, s := range p.asked.Sides {
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

func (p *problem) readControl() error {
	if len(p.asked.Control) == 1 {
		return &unit.Fault{Subject: unit.Control, Of: string(p.asked.Control[0].Name), What: "one known point does not hold a net",
			Hint: "give two or more, or none"}
	}
	for _, c := range p.asked.Control {
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
			if at.To(o) < float64(adjust.Shortest) {
				return &unit.Fault{Subject: about, Of: of, What: fmt.Sprintf("it lies where %s lies", p.Names[j]), Hint: "give two points so close to one another one name"}
			}
		}
		p.control[i] = at
	}
	return nil
}

func (p *problem) readBase() error {
	if p.asked.Base == ([2]geom.Name{}) {
		return nil
	}
	about, of := unit.Base, geom.Joined(p.asked.Base[:])
	for _, n := range p.asked.Base {
		if _, err := p.find(n, about, of); err != nil {
			return err
		}
	}
	if p.asked.Base[0] == p.asked.Base[1] {
		return &unit.Fault{Subject: about, Of: of, What: "a baseline needs two points", Hint: "name two of " + geom.List(p.Names)}
	}
	return nil
}

// less is the problem without one observation.
func (p *problem) less(i int) *problem {
	q := *p
	q.Book = p.Without(i)
	return &q
}

// outline is the edge of the piece, walked counter-clockwise; empty where nobody named it.
type outline struct {
	round []int       // its corners
	place map[int]int // where each stands in round
}

// corner that stands so many places on, or back, from the first.
func (o outline) corner(i int) int {
	n := len(o.round)
	return o.round[(i+n)%n]
}

func (o outline) polygon(at []geom.Vector) (all geom.Polygon) {
	for _, i := range o.round {
		all = append(all, at[i].Point())
	}
	return all
}

// area that it encloses, negative where it runs clockwise.
func (o outline) area(at []geom.Vector) float64 { return float64(o.polygon(at).Contour().Area()) }

// follows says whether a corner comes next after another.
func (o outline) follows(a, b int) bool {
	i, atI := o.place[a]
	j, atJ := o.place[b]
	return atI && atJ && (j-i+len(o.round))%len(o.round) == 1
}

// handOf says on which side of its base a corner lies when the outline is walked counter-clockwise: left of
// QR where the walk meets Q, R and it in this order. It holds where the outline is not hollow; elsewhere
// measurements or Net.Sides must say. A point off the outline lies inside its edges.
func (o outline) handOf(u int, base []int) (right, said bool) {
	if len(base) < 2 {
		return false, false
	}
	n := len(o.round)
	q, atQ := o.place[base[0]]
	r, atR := o.place[base[1]]
	c, atC := o.place[u]
	switch {
	case !atQ || !atR:
		return false, false
	case atC:
		return (r-q+n)%n > (c-q+n)%n, true
	}
	right = o.follows(base[1], base[0])
	return right, right || o.follows(base[0], base[1])
}
