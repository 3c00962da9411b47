package triangle

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// Solve finds the triangle that the measurements fix, or both where two fit;
// more measurements than needed are all used. Base names the side that is to
// be the baseline, in either order; zero leaves the choice (see baseline).
//
// What is rational is decided exactly and the rest at 256 bits, agreement to
// 50 digits counting as equal (sameBits), so that flat and tangent cases are
// found as written. From three measurements every figure is within 1 ulp; the
// tests hold 1e-12 relative against mpmath. Four or more are adjusted by least
// squares, weights 1/tolerance², converged to 1e-12 of the longest side; where
// they agree exactly they come out exactly.
//
// Of two answers the first has the acute angle where it may be acute or obtuse,
// the longer unknown side where it is a sum or a difference, and where the two
// are mirror images, the longer of the two unknown sides first in the alphabet.
//
// Errors: *unit.Fault where words or numbers cannot be meant (four points, a
// thing measured twice, no length between 1 mm and 1 km), *NoTriangle where they
// fix no triangle.
func Solve(measured []Measurement, base [2]geom.Name) (Solution, error) {
	p, err := newProblem(measured)
	if err != nil {
		return Solution{}, err
	}
	apex, err := p.baseGiven(base)
	if err != nil {
		return Solution{}, err
	}
	if len(measured) < 3 {
		return Solution{}, p.tooFew()
	}
	found, t, err := p.find()
	if err != nil {
		return Solution{}, err
	}
	found, lost, err := p.withinLimits(found)
	if err != nil {
		return Solution{}, err
	}
	if apex < 0 {
		apex = p.baseline()
	}
	s := Solution{Case: t.letters(), Measured: measured}
	for _, f := range found {
		fig := figuresOf(f)
		a := Answer{Triangle: fig.triangle(p.names, apex), Residuals: p.residuals(fig)}
		var ends []Doubt
		a.Moves, ends = p.moves(f, t, apex)
		a.Doubts = append(p.doubts(a, ends, found, apex), lost...)
		s.Answers = append(s.Answers, a)
	}
	return s, nil
}

// find is the sides of every triangle that fits, and the triple they come from.
func (p *problem) find() ([]sides, triple, error) {
	if len(p.of) > 3 {
		return p.findAdjusted()
	}
	t := tripleOf(p.of[0], p.of[1], p.of[2])
	if !t.determines() {
		return nil, t, p.dependent(t)
	}
	found, why := t.solve(p.values(0, 1, 2))
	if len(found) == 0 {
		none := why(p.words())
		if c, ok := p.nearlySquare(t); ok {
			none.Hint = fmt.Sprintf("within what was read, %s is 90°: add %s=90deg", p.names[c], p.names[c])
		}
		return nil, t, none
	}
	return found, t, nil
}

func tripleOf(a, b, c Quantity) triple {
	t := triple{a, b, c}
	slices.Sort(t[:])
	return t
}

// withinLimits leaves out answers with a computed side that is too short or too
// long, and says so.
func (p *problem) withinLimits(found []sides) (good []sides, lost []Doubt, err error) {
	short, long := lengthLimits()
	for _, s := range found {
		bad := -1
		for i := range s {
			if !p.has(Side(i)) && (s[i].cmp(exact(short)) < 0 || s[i].cmp(exact(long)) > 0) {
				bad = i
			}
		}
		if bad < 0 {
			good = append(good, s)
			continue
		}
		lost = []Doubt{{Code: LeftOut, Side: [2]geom.Name{p.names[(bad+1)%3], p.names[(bad+2)%3]}, By: unit.Length(s[bad].float64())}}
	}
	if len(good) == 0 {
		d := lost[0]
		return nil, nil, no("measure the longer sides, and angles that are not so sharp",
			"%s would be %s: sides may be 1 mm to 1 km long", d.Side[0]+d.Side[1], FiguresOf(p.measured).Length(d.By))
	}
	return good, lost, nil
}

func (p *problem) has(q Quantity) bool { return slices.Contains(p.of, q) }

func (p *problem) residuals(f figures) []Residual {
	r := make([]Residual, len(p.of))
	for i, q := range p.of {
		d := f.less(q, p.measured[i].Value.Value).float64()
		if math.Abs(d) < nothing {
			continue
		}
		if q.Kind() == Angle {
			r[i].Angle = unit.Angle(d)
		} else {
			r[i].Length = unit.Length(d)
		}
	}
	return r
}

// baseGiven is the corner opposite the side that was asked for, −1 for none.
func (p *problem) baseGiven(base [2]geom.Name) (int, error) {
	if base == ([2]geom.Name{}) {
		return -1, nil
	}
	wrong := func(what, hint string) (int, error) {
		return 0, &unit.Fault{Subject: unit.Base, Of: string(base[0] + base[1]), What: what, Hint: hint}
	}
	var at [2]int
	for i, b := range base {
		if at[i] = slices.Index(p.names[:], b); at[i] < 0 {
			return wrong(fmt.Sprintf("there is no point %q", string(b)), fmt.Sprintf("the points are %s, %s and %s", p.names[0], p.names[1], p.names[2]))
		}
	}
	if at[0] == at[1] {
		return wrong("a baseline runs between two points", fmt.Sprintf("for instance %s%s", p.names[0], p.names[1]))
	}
	return rest(at[0], at[1]), nil
}

// baseline chooses the side to start from, by the corner opposite it: the side
// of the first two names where it was measured, else a measured one from which
// the measurements can be constructed as they are, else a measured one, else
// that of the first two names. Corners stay in the order of the alphabet,
// counter-clockwise.
func (p *problem) baseline() int {
	if p.has(Side(2)) {
		return 2
	}
	choice := -1
	for i := range 2 {
		if !p.has(Side(i)) {
			continue
		}
		var m [9]bool
		for _, q := range p.of {
			m[q.turned(i)] = true
		}
		if _, ok := DirectSet(m); ok {
			return i
		}
		if choice < 0 {
			choice = i
		}
	}
	if choice < 0 {
		return 2
	}
	return choice
}

// turned is the same quantity in the triangle's own numbering, in which the
// apex is corner 2.
func (q Quantity) turned(apex int) Quantity {
	return Quantity(int(q)/3*3 + (q.Corner()-apex+5)%3)
}

// tooFew says what two measurements or fewer lack.
func (p *problem) tooFew() error {
	var n [3]int
	for _, q := range p.of {
		n[q.Kind()]++
	}
	w := p.words()
	switch n {
	case [3]int{Distance: 2}:
		q := Side(rest(p.of[0].Corner(), p.of[1].Corner()))
		return more(fmt.Sprintf("for instance %s, or the angle at %s", w.name(q), w.names[q.Corner()]),
			"two lengths and no angle: measure the third side or an angle")
	case [3]int{}:
		return more("for instance AB=640 CA=455 A=52deg", "nothing was measured")
	}
	what, two := map[[3]int]string{
		{Angle: 2}:               "two angles and no length give the shape but not the size: measure a side",
		{Distance: 1, Angle: 1}:  "one length and one angle: measure another side or another angle",
		{Distance: 1, Height: 1}: "one length and one height: measure another side or an angle",
		{Angle: 1, Height: 1}:    "one angle and one height: measure two sides, or a side and another angle",
		{Height: 2}:              "two heights: measure a side, an angle or the third height",
	}[n]
	if !two {
		what = "one measurement, " + p.measured[0].Text + ": two more are needed"
	}
	return more("a triangle needs three measurements, at least one of them a length", "%s", what)
}

// dependent explains a triple of which one follows from the other two.
func (p *problem) dependent(t triple) error {
	w := p.words()
	if t[0].Kind() == Angle {
		return more("for instance "+w.spelt[2], "three angles give the shape but not the size: measure a side")
	}
	s, a, h := t[0].Corner(), t[1].Corner(), t[2].Corner()
	return more(fmt.Sprintf("measure %s, %s or another angle", w.name(Side(a)), w.name(Side(h))),
		"%s follows from %s and %s, so that only two things are known", w.name(HeightOf(h)), w.name(Side(s)), w.name(AngleAt(a)))
}
