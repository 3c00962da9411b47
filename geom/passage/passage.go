// Package passage answers which lines may be pulled, where walls, what stands about or the
// length of the tape bar some. Whatever keeps a tape away is asked here.
//
// Files, from the top floor to the ground: passage.go, wall.go.
package passage

import (
	"fmt"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// Bars are what keeps a line from being pulled.
type Bars struct {
	Walls   [][2]geom.Name // between two points
	Around  bool           // every edge of the outline is a wall: nothing leaves the piece
	Blocked [][2]geom.Name // lines that something stands on; no part of one is pulled
	Reach   unit.Length    // of the tape; 0: it reaches everywhere
}

// Any says whether there is anything.
func (b Bars) Any() bool { return b.Around || len(b.Walls)+len(b.Blocked) > 0 || b.Reach > 0 }

// Bar is why a line is not pulled. The zero value: nothing bars it.
type Bar struct {
	Code Code
	By   [2]geom.Name // the wall, or the blocked line
}

// Code is what bars a line.
type Code uint8

const (
	Open    Code = iota
	AtWall       // a wall stands between
	AtBlock      // something stands on it
	TooLong      // the tape does not reach
)

// Grazed is how far a line may run into a wall and still pass: a tape at a corner gives
// way by so much, and no corner is measured better (judgement, no source).
const Grazed unit.Length = 2

// Passage answers which lines may be pulled. The zero value: all.
type Passage struct {
	bars   Bars
	walls  []wall
	blocks []wall
}

// Points are those that bars speak of, in a plane in which the outline runs
// counter-clockwise.
type Points struct {
	Names   []geom.Name
	Outline []geom.Name // none: the points have no edge
	At      map[geom.Name]geom.Point
}

// runs says whether an edge of the outline runs from a to b.
func (p Points) runs(a, b geom.Name) bool {
	i := slices.Index(p.Outline, a)
	return i >= 0 && p.Outline[(i+1)%len(p.Outline)] == b
}

// line between two points; it is a *unit.Fault where there are none.
func (p Points) line(of unit.Subject, n [2]geom.Name) (wall, error) {
	from, first := p.At[n[0]]
	to, second := p.At[n[1]]
	if !first || !second || n[0] == n[1] {
		return wall{}, &unit.Fault{Subject: of, What: fmt.Sprintf("there are no two points %s", n[0]+n[1]), Hint: "the points are " + geom.List(p.Names)}
	}
	return wall{line: geom.Line{From: from, To: to}, by: n}, nil
}

// Of finds the walls. It is a *unit.Fault where a wall or a line has no such points, or
// the outline is meant and there is none.
func Of(b Bars, p Points) (Passage, error) {
	w := Passage{bars: b}
	asked := slices.Clone(b.Walls)
	if b.Around {
		if len(p.Outline) == 0 {
			return w, &unit.Fault{Subject: unit.Walls, What: "outline: the points have no outline", Hint: "say it, outline: [A, B, C, D], or name each wall: walls: [AB, BC]"}
		}
		for i, a := range p.Outline {
			asked = append(asked, [2]geom.Name{a, p.Outline[(i+1)%len(p.Outline)]})
		}
	}
	for _, n := range asked {
		if p.runs(n[1], n[0]) {
			n[0], n[1] = n[1], n[0]
		}
		if slices.ContainsFunc(w.walls, func(x wall) bool { return x.by == n || x.by == [2]geom.Name{n[1], n[0]} }) {
			continue
		}
		x, err := p.line(unit.Walls, n)
		if err != nil {
			return w, err
		}
		x.edge = p.runs(n[0], n[1])
		w.walls = append(w.walls, x)
	}
	for i := range w.walls {
		for _, y := range w.walls {
			if x := &w.walls[i]; x.edge && y.edge && x.by[1] == y.by[0] {
				x.next, x.turns = y.line.To, true
			}
		}
	}
	for _, n := range b.Blocked {
		x, err := p.line(unit.Blocked, n)
		if err != nil {
			return w, err
		}
		w.blocks = append(w.blocks, x)
	}
	return w, nil
}

// May says whether a line may be pulled, and if not, why.
func (w Passage) May(l geom.Line) Bar {
	if w.bars.Reach > 0 && l.Length() > w.bars.Reach {
		return Bar{Code: TooLong}
	}
	for _, x := range w.blocks {
		if x.along(l) {
			return Bar{AtBlock, x.by}
		}
	}
	for _, x := range w.walls {
		if x.stops(l) {
			return Bar{AtWall, x.by}
		}
	}
	return Bar{}
}

// Placed is the same seen from another plane.
func (w Passage) Placed(m geom.Placement) Passage {
	for _, of := range []*[]wall{&w.walls, &w.blocks} {
		*of = slices.Clone(*of)
		for i, x := range *of {
			x.line, x.next = m.Line(x.line), m.Apply(x.next)
			(*of)[i] = x
		}
	}
	return w
}

// Free says whether a line may be pulled.
func (w Passage) Free(a, b geom.Point) bool { return w.May(geom.Line{From: a, To: b}) == Bar{} }
