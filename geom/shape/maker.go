package shape

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

type words struct{ style unit.Style }

func (w words) length(l unit.Length) string { return w.style.LengthUnit(l) }
func (w words) angle(a unit.Angle) string   { return w.style.Angle(a) }

// small is a difference: with more places where the style would show nothing.
func (w words) small(l unit.Length) string {
	if l >= 1 {
		return w.length(l)
	}
	return unit.Style{Decimals: min(9, max(1, -int(math.Floor(math.Log10(float64(l))))))}.LengthUnit(l)
}

// token is a length as a token may say it, not less than l.
func (w words) token(l unit.Length) string {
	if w.style.Unit >= unit.IN {
		const sixteenth = unit.Inch / 16
		return unit.Style{Unit: unit.IN}.Length(unit.Length(math.Ceil(float64(l/sixteenth))) * sixteenth)
	}
	return unit.Style{}.Length(unit.Length(math.Ceil(float64(l)))) + "mm"
}

// down is l in steps of 0.1 mm, not more than l: what a message says fits must fit.
func (w words) down(l unit.Length) string {
	const step unit.Length = 0.1
	return unit.Style{}.LengthUnit(unit.Length(math.Floor(float64(l/step))) * step)
}

// placed puts a token and its place in front of a fault.
func placed(f *unit.Fault, text, where string) *unit.Fault {
	if text != "" {
		f = f.In(text)
	}
	if where != "" {
		f = f.In(where)
	}
	return f
}

// blame gives a fault the place of the allowance of a side or of the one after it.
func (m *maker) blame(side int, f *unit.Fault) *unit.Fault {
	for _, i := range []int{side, m.Next(side)} {
		if a := m.allowances[i]; a != nil {
			return placed(f, a.Text, a.Where)
		}
	}
	return f
}

// blamePart gives a fault the place of what made one of two parts.
func (m *maker) blamePart(f *unit.Fault, parts ...part) *unit.Fault {
	for _, p := range parts {
		if p.of != nil {
			return placed(f, p.of.Text, p.of.Where)
		}
		if a := m.allowances[p.side]; a != nil {
			return placed(f, a.Text, a.Where)
		}
	}
	return f
}

// tooMuch is what corners take of side i that it does not have.
func (m *maker) tooMuch(i int, taken []unit.Length) *unit.Fault {
	j := m.Next(i)
	has := m.shape.Sides[i].Whole.Length()
	one, other := i, j
	if taken[j] > taken[i] {
		one, other = j, i
	}
	c := m.treated[one]
	f := &unit.Fault{}
	if taken[other] > 0 {
		f.What = fmt.Sprintf("corners %s and %s take %s and %s of edge %s, which has %s", m.Names[i], m.Names[j],
			m.words.length(taken[i]), m.words.length(taken[j]), m.Side(i), m.words.length(has))
	} else {
		f.What = fmt.Sprintf("the corner takes %s of edge %s, which has %s", m.words.length(taken[one]), m.Side(i), m.words.length(has))
	}
	switch room := has - taken[other]; {
	case room <= touching:
		f.Hint = fmt.Sprintf("%s takes all of it already", m.Names[other])
	case c.Do == Round:
		f.Hint = fmt.Sprintf("the largest radius that %s leaves room for is %s", m.Side(i), m.words.down(room/unit.Length(m.corners[one].setBack(1))-touching))
	default:
		f.Hint = "a set-back of less than " + m.words.length(room) + " leaves something of the edge"
	}
	return placed(f, c.Text, c.Where)
}

// eaten is side i of which its neighbours' cut lines leave less than nothing.
func (m *maker) eaten(i int, left unit.Length) *unit.Fault {
	e := m.shape.Sides[i]
	has := e.Finished.Length()
	f := &unit.Fault{
		What: fmt.Sprintf("the allowances eat edge %s: it has %s and they take %s of it", e.Name, m.words.length(has), m.words.length(has-left)),
		Hint: "bring the cut lines nearer to the finished edges",
	}
	if has-left < has+touching { // told apart by no figure
		f.What = fmt.Sprintf("the allowances eat edge %s: they take all of its %s", e.Name, m.words.length(has))
	}
	// The largest of the side's and its neighbours' is to blame.
	var worst *Allowance
	for _, k := range []int{i, m.Before(i), m.Next(i)} {
		if a := m.allowances[k]; a != nil && (worst == nil || max(a.By, -a.By) > max(worst.By, -worst.By)) {
			worst = a
		}
	}
	if worst != nil {
		return placed(f, worst.Text, worst.Where)
	}
	return f
}

type maker struct {
	geom.Outline // its names and points
	words        words
	corners      []corner

	allowances []*Allowance // of each side, nil where none is asked for
	treated    []*Corner    // of each corner, likewise

	finishedParts, cutParts []part // of each segment of the contours
	shape                   Shape
}

type part struct {
	Part
	side int
	of   *Corner // nil for a side
}

// name of a part in messages.
func (p Part) name() string {
	switch p.Do {
	case Sharp:
		return "edge " + p.Of
	case Round:
		return "the rounding at " + p.Of
	}
	return "the cut at " + p.Of
}

func (v Vertex) treatment() treatment { return treatment{v.Do, float64(v.By), float64(v.Allow)} }

func (m *maker) sideOf(edge [2]geom.Name) (int, *unit.Fault) {
	for i := range m.Names {
		a, b := m.Names[i], m.Names[m.Next(i)]
		if edge == [2]geom.Name{a, b} || edge == [2]geom.Name{b, a} {
			return i, nil
		}
	}
	for _, n := range edge {
		if _, f := m.cornerOf(n); f != nil {
			return 0, f
		}
	}
	var edges []string
	for i := range m.Names {
		edges = append(edges, m.Side(i))
	}
	return 0, &unit.Fault{What: fmt.Sprintf("%s%s is no edge of the piece", edge[0], edge[1]), Hint: "its edges are " + geom.Listed(edges)}
}

func (m *maker) cornerOf(name geom.Name) (int, *unit.Fault) {
	all := make([]string, len(m.Names))
	for i, n := range m.Names {
		if n == name {
			return i, nil
		}
		all[i] = string(n)
	}
	return 0, &unit.Fault{What: fmt.Sprintf("the piece has no corner %s", name), Hint: "its corners are " + geom.Listed(all)}
}
