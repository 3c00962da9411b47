package survey

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// problem is a net whose words have been checked.
type problem struct {
	Net
	names   []geom.Name // in the order of the alphabet, numbers behind a letter counted
	number  map[geom.Name]int
	obs     []observation
	of      [][]int // observations of each point
	round   []int   // the outline
	place   map[int]int
	sided   []bool     // points that Net.Sides speaks of
	control map[int]xy // seen from origin
	origin  xy         // the first known point, so that far-off coordinates cost no digits
}

// newProblem refuses what cannot be meant; every error is a *unit.Fault.
func newProblem(n Net) (*problem, error) {
	if len(n.Measured) == 0 {
		return nil, &unit.Fault{What: "nothing is measured", Hint: "give distances, angles and heights: AB=2400, BAC=35deg, C-AB=620"}
	}
	if len(n.Measured) > MostMeasurements {
		return nil, &unit.Fault{What: fmt.Sprintf("%d measurements: a net takes at most %d", len(n.Measured), MostMeasurements),
			Hint: "divide it, and set the parts out from two points that they share"}
	}
	p := &problem{Net: n, number: map[geom.Name]int{}, place: map[int]int{}, control: map[int]xy{}}
	p.Tools = n.Tools.complete()
	for _, m := range n.Measured {
		if err := p.check(m); err != nil {
			return nil, err
		}
	}
	for _, c := range n.Control {
		p.add(c.Name)
	}
	slices.SortFunc(p.names, before)
	if len(p.names) > MostPoints {
		return nil, &unit.Fault{What: fmt.Sprintf("%d points: a net takes at most %d", len(p.names), MostPoints),
			Hint: "divide it, and set the parts out from two points that they share"}
	}
	for i, name := range p.names {
		p.number[name] = i
	}
	for _, f := range []func() error{p.readOutline, p.readSides, p.readControl, p.readBase} {
		if err := f(); err != nil {
			return nil, err
		}
	}
	p.of = make([][]int, len(p.names))
	for i, m := range n.Measured {
		if err := p.observe(i, m); err != nil {
			return nil, err
		}
	}
	return p, nil
}

func (p *problem) add(n geom.Name) {
	if _, known := p.number[n]; !known {
		p.number[n] = 0
		p.names = append(p.names, n)
	}
}

func wrong(m geom.Measurement, hint, what string, a ...any) error {
	where := m.Text
	if where == "" {
		where = m.Subject()
	}
	if m.Where != "" {
		where = m.Where + ": " + where
	}
	return &unit.Fault{Where: where, What: fmt.Sprintf(what, a...), Hint: hint}
}

// check is what can be said of one measurement alone.
func (p *problem) check(m geom.Measurement) error {
	names := m.Points()
	want := 3
	if m.Kind == geom.Distance {
		want = 2
	}
	alone := m.Kind == geom.Angle && len(names) == 1 && m.At[1] != ""
	if len(names) != want && !alone {
		return wrong(m, "AB is a length, A or BAC an angle, C-AB a height", "its points are not those of a length, an angle or a height")
	}
	for i, n := range names {
		if slices.Contains(names[:i], n) {
			return wrong(m, "a measurement goes between points that differ", "%s is named twice", n)
		}
		p.add(n)
	}
	r := m.Value
	switch {
	case r.Value == nil || r.Tolerance != nil && r.Tolerance.Sign() < 0:
		return wrong(m, "write a number with its unit", "it has no value")
	case r.Stated && (r.Tolerance == nil || r.Tolerance.Sign() == 0):
		return wrong(m, "write what it can be trusted to, or leave the tolerance out", "a tolerance of 0 says that it is never wrong")
	case m.Kind == geom.Angle:
		if v := r.Angle(); v <= 0 || v >= unit.Turn/2 {
			return wrong(m, "measure the angle on its inner side", "an angle lies between 0° and 180°")
		}
	case r.Value.Sign() <= 0:
		return wrong(m, "measure it again", "a length is more than 0")
	case m.Kind == geom.Distance && r.Length() < Shortest:
		return wrong(m, "give two points so close to one another one name", "shorter than 1 mm")
	case r.Length() > Longest:
		return wrong(m, "a net may be 100 km wide", "longer than 100 km")
	}
	return nil
}

func (p *problem) find(n geom.Name, where string) (int, error) {
	if i, known := p.number[n]; known {
		return i, nil
	}
	f := &unit.Fault{Where: where, What: fmt.Sprintf("no measurement goes to %s", n), Hint: "the points are " + list(p.names)}
	if n == "" {
		f.What = "a point has no name"
	}
	return 0, f
}

func (p *problem) readOutline() error {
	outline := p.Outline
	if len(outline) == 0 && len(p.names) == 3 {
		outline = p.names
	}
	where := "outline " + joined(outline)
	for k, n := range outline {
		i, err := p.find(n, where)
		if err != nil {
			return err
		}
		if _, twice := p.place[i]; twice {
			return &unit.Fault{Where: where, What: fmt.Sprintf("%s stands there twice", n), Hint: "name each corner once, in the order of walking round"}
		}
		p.place[i] = k
		p.round = append(p.round, i)
	}
	if n := len(p.round); n == 1 || n == 2 {
		return &unit.Fault{Where: where, What: fmt.Sprintf("an edge of %d points encloses nothing", n), Hint: "name three corners or more"}
	}
	return nil
}

func (p *problem) readSides() error {
	p.sided = make([]bool, len(p.names))
	for _, s := range p.Sides {
		where := "side of " + string(s.Point)
		all := []geom.Name{s.Point}
		if s.Of != ([2]geom.Name{}) {
			all = append(all, s.Of[:]...)
			if s.Of[0] == s.Of[1] || s.Of[0] == s.Point || s.Of[1] == s.Point {
				return &unit.Fault{Where: where, What: "its line needs two other points", Hint: "D lies left or right of AC, walked from A to C"}
			}
		}
		for _, n := range all {
			if _, err := p.find(n, where); err != nil {
				return err
			}
		}
		p.sided[p.number[s.Point]] = true
	}
	return nil
}

func (p *problem) readControl() error {
	if len(p.Control) == 1 {
		return &unit.Fault{Where: "control " + string(p.Control[0].Name), What: "one known point does not hold a net",
			Hint: "give two or more, or none"}
	}
	for _, c := range p.Control {
		where := "control " + string(c.Name)
		i, err := p.find(c.Name, where)
		if err != nil {
			return err
		}
		if len(p.control) == 0 {
			p.origin = plain(c.At)
		}
		at := plain(c.At).minus(p.origin)
		for j, o := range p.control {
			if i == j {
				return &unit.Fault{Where: where, What: "it is given twice", Hint: "give each known point once"}
			}
			if at.to(o) < float64(Shortest) {
				return &unit.Fault{Where: where, What: fmt.Sprintf("it lies where %s lies", p.names[j]), Hint: "give two points so close to one another one name"}
			}
		}
		p.control[i] = at
	}
	return nil
}

func (p *problem) readBase() error {
	if p.Base == ([2]geom.Name{}) {
		return nil
	}
	where := "base " + joined(p.Base[:])
	for _, n := range p.Base {
		if _, err := p.find(n, where); err != nil {
			return err
		}
	}
	if p.Base[0] == p.Base[1] {
		return &unit.Fault{Where: where, What: "a baseline needs two points", Hint: "name two of " + list(p.names)}
	}
	return nil
}

// observe makes an observation of measurement i.
func (p *problem) observe(i int, m geom.Measurement) error {
	o := observation{kind: m.Kind, index: i, n: 3, sign: 1}
	if m.Kind == geom.Distance {
		o.n = 2
	}
	names := m.At
	if m.Kind == geom.Angle && names[0] == "" {
		arms, err := p.arms(m)
		if err != nil {
			return err
		}
		names[0], names[2] = arms[0], arms[1]
	}
	for k := range o.n {
		o.at[k] = p.number[names[k]]
	}
	r := m.Value
	var tolerance float64
	if r.Tolerance != nil {
		tolerance = figureOf(m, r.LengthTolerance(), r.AngleTolerance)
	}
	o.value = figureOf(m, r.Length(), r.Angle)
	if o.stated = r.Stated; r.Stated {
		o.sigma = tolerance / Expansion
	} else {
		o.half = tolerance
	}
	o.sigma = o.rough(p.Tools)
	for _, q := range o.points() {
		p.of[q] = append(p.of[q], len(p.obs))
	}
	p.obs = append(p.obs, o)
	return nil
}

func figureOf(m geom.Measurement, l unit.Length, a func() unit.Angle) float64 {
	if m.Kind == geom.Angle {
		return float64(a())
	}
	return float64(l)
}

// arms of an angle that is named by its corner alone: the two points that
// distances lead to, or the other two of three.
func (p *problem) arms(m geom.Measurement) ([2]geom.Name, error) {
	corner := m.At[1]
	var arms []geom.Name
	for _, o := range p.Measured {
		if o.Kind != geom.Distance {
			continue
		}
		for k := range 2 {
			if o.At[k] == corner && !slices.Contains(arms, o.At[1-k]) {
				arms = append(arms, o.At[1-k])
			}
		}
	}
	if len(p.names) == 3 {
		arms = nil
		for _, n := range p.names {
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
		slices.SortFunc(arms, before)
		hint = "name both arms, such as " + joined([]geom.Name{arms[0], corner, arms[1]})
	}
	return [2]geom.Name{}, wrong(m, hint, "%d measured lines meet at %s: between which two is the angle", len(arms), corner)
}

// before orders by letter, then by the number behind it: A, B, K2, K10.
func before(m, n geom.Name) int {
	ml, mn := split(m)
	nl, nn := split(n)
	return cmp.Or(cmp.Compare(ml, nl), cmp.Compare(mn, nn), cmp.Compare(m, n))
}

func split(n geom.Name) (letters string, number int) {
	letters = strings.TrimRight(string(n), "0123456789")
	number, _ = strconv.Atoi(string(n)[len(letters):])
	return letters, number
}

func joined(names []geom.Name) string {
	var b strings.Builder
	for _, n := range names {
		b.WriteString(string(n))
	}
	return b.String()
}

// list is "A", "A and B", "A, B and C"; of many only the first.
func list(names []geom.Name) string {
	const most = 12
	all := make([]string, 0, most)
	for _, n := range names {
		if len(all) == most && len(names) > most+1 {
			return strings.Join(all, ", ") + fmt.Sprintf(" and %d more", len(names)-most)
		}
		all = append(all, string(n))
	}
	return listed(all)
}

func listed(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " and " + all[len(all)-1]
}
