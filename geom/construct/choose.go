package construct

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Hand is who constructs a triangle: by which way, and with what.
type Hand struct {
	By         Method
	OnBase     bool        // somebody asked for the baseline, and it stays
	Reach      unit.Length // longest radius of the compasses; 0: it does not matter
	Protractor unit.Angle  // the step of its marks; 0: any angle has a mark
}

// Why says why a triangle is constructed as it is.
type Why struct {
	Reason
	Better  [2]geom.Name // OnAskedBase: the baseline that spares what is computed
	Side    [2]geom.Name // WithinReach: what the compasses do not span
	Length  unit.Length  // of it
	ByRuler bool         // it is the baseline, which the ruler measures; else it is not measured at all
	Half    bool         // it is the half circle over it that they do not span
}

// Reason tells them apart.
type Reason uint8

const (
	Usual       Reason = iota // nothing needs to be said
	AllGiven                  // on this baseline every step uses a given measure, on the usual one not
	MoreGiven                 // and here more of them do
	Sharper                   // lines cross more squarely
	WithinReach               // the compasses reach
	OnMarks                   // the protractor has a mark for each angle
	SetSquare                 // the set square draws the right angle
	SomeWorked                // on no baseline each step uses a given measure alone
	OnAskedBase               // on another baseline each would
	TooFlatly                 // given measures alone would cross where nobody can mark it
)

// Construct is the triangle of an answer (counted from 0) on its own baseline, as a
// person would construct it who has all tools: see Choose.
func Construct(s triangle.Solution, answer int, by Method) (Construction, error) {
	return Choose(s, answer, Hand{By: by, OnBase: true})
}

// Choose is the triangle of an answer (counted from 0) as a person would construct it by
// hand: on the baseline, and by the way, that sets most of what was measured as it is;
// then, in this order, where lines cross at 30° and more, where the compasses reach,
// where the protractor has marks, where no third angle is worked out. The rest is computed
// and marked as such; sides, an angle and the height that were not used are there to
// check. What would cross under geom.TooFlat is left for another way. A method other than
// AsMeasured leaves only the baseline to choose.
//
// The points are those of the triangle, within 1e-12 of its size, whatever baseline the
// steps begin with. The error is a *unit.Fault where the solution has no such answer.
func Choose(s triangle.Solution, answer int, h Hand) (Construction, error) {
	if answer < 0 || answer >= len(s.Answers) {
		return Construction{}, &unit.Fault{What: fmt.Sprintf("there is no answer %d", answer+1),
			Hint: fmt.Sprintf("answers: %d", len(s.Answers))}
	}
	if h.By > BySquare {
		return Construction{}, &unit.Fault{What: "there is no such way to construct", Hint: "as measured, by arcs, by angle, by square"}
	}
	t := s.Answers[answer].Triangle
	var all ways
	for apex := range 3 {
		w, err := waysOn(t, apex, s.Measured, h.By)
		if err != nil {
			return Construction{}, err
		}
		all = append(all, w...)
	}
	best := all.best(h)
	c := Construction{Outline: t.Outline(), Triangle: t, Steps: slices.Clone(best.steps), Why: all.why(best, h)}
	if best.apex != 2 {
		at := back(t, best.apex)
		for i, s := range c.Steps {
			c.Steps[i] = moved(s, at)
		}
	}
	return c, nil
}

// way is one way to construct a triangle.
type way struct {
	apex   int // opposite the baseline
	rank   int // among those on the same baseline
	side   string
	steps  []Step
	slopes []geom.Name // angles that were given as a slope, which the square sets
}

type ways []way

// waysOn are the ways on the baseline opposite a corner.
func waysOn(t triangle.Triangle, apex int, ms []triangle.Measurement, by Method) (all ways, err error) {
	from := bench{t: turned(t, apex)}
	var slopes []geom.Name
	for _, m := range ms {
		q, err := triangle.QuantityOf(m, from.t.Names)
		if err != nil {
			return nil, err
		}
		from.measured[q] = true
		if _, _, slope := m.Value.Slope(); slope {
			slopes = append(slopes, from.t.Names[q.Corner()])
		}
	}
	a, b := from.t.Names[0], from.t.Names[1]
	if geom.Before(b, a) < 0 {
		a, b = b, a
	}
	for i, p := range plansFor(by, &from) {
		on := from
		all = append(all, way{apex, i, string(a + b), on.follow(p), slopes})
	}
	return all, nil
}

// What a way costs, the gravest first.
const (
	nobodyMarks = iota // lines that cross under geom.TooFlat
	worked             // figures that are computed; an angle counts twice, since it is set more roughly
	flat               // lines that cross under geom.Flat
	beyond             // arcs beyond the compasses' reach
	between            // angles between the protractor's marks
	third              // angles worked out from two others
	halves             // half circles
	other              // a baseline that is not the triangle's own
	costs
)

func (w way) cost(h Hand) (c [costs]int) {
	for _, s := range w.steps {
		switch s := s.(type) {
		case DrawBase:
			c[worked] += bit(!s.Measured)
		case ThirdAngle:
			c[third]++
		case Swing:
			c[worked] += bit(!s.Measured)
			c[beyond] += bit(h.Reach > 0 && s.Radius > h.Reach)
		case HalfCircle:
			c[halves]++
			c[beyond] += bit(h.Reach > 0 && s.Radius > h.Reach)
		case SetAngle:
			if !s.Measured && !w.isThird(s.At) {
				c[worked] += 2
			}
			c[between] += bit(!h.marked(s.Angle) && !slices.Contains(w.slopes, s.At))
		case MarkOff:
			c[worked] += bit(!s.Measured)
		case Erect:
			c[worked] += bit(!s.Measured) + bit(s.Along > same || s.Along < -same)
		case Parallel:
			c[worked] += bit(!s.Measured)
		}
	}
	if m, ok := (Construction{Steps: w.steps}).Flattest(); ok {
		c[nobodyMarks], c[flat] = bit(m.Angle < geom.TooFlat), 1
	}
	c[other] = bit(w.apex != 2)
	return c
}

const same = 1e-9 // mm: the foot of a height is the corner

// isThird says whether the angle at a corner was worked out from the two others.
func (w way) isThird(at geom.Name) bool {
	return slices.ContainsFunc(w.steps, func(s Step) bool { a, ok := s.(ThirdAngle); return ok && a.At == at })
}

// marked says whether the protractor has a mark for an angle, of which a tenth of its
// step is judged by eye; a right angle is the set square's.
func (h Hand) marked(a unit.Angle) bool {
	if h.Protractor == 0 || math.Abs(float64(a-unit.Turn/4)) < 1e-12 {
		return true
	}
	marks := float64(a / h.Protractor)
	return math.Abs(marks-math.Round(marks)) <= 0.1
}

// best costs least; then it has the triangle's own baseline, then the first in the
// alphabet, which is the same of the other hand.
func (all ways) best(h Hand) way {
	if h.OnBase {
		all = all.own()
	}
	return slices.MinFunc(all, func(v, w way) int {
		a, b := v.cost(h), w.cost(h)
		return cmp.Or(slices.Compare(a[:], b[:]), cmp.Compare(v.side, w.side), cmp.Compare(v.rank, w.rank))
	})
}

// own are the ways on the triangle's own baseline.
func (all ways) own() ways {
	return slices.DeleteFunc(slices.Clone(all), func(w way) bool { return w.apex != 2 })
}

func (w way) like(v way) bool { return w.apex == v.apex && w.rank == v.rank }

// why the best is the best: first what is computed, then what decided.
func (all ways) why(best way, h Hand) Why {
	c := best.cost(h)
	if h.By == AsMeasured && c[worked] > 0 {
		return all.lacking(h)
	}
	far, fine, usual := h, h, h
	far.Reach, fine.Protractor, usual.OnBase = 0, 0, true
	if v := all.best(far); !v.like(best) && v.cost(h)[beyond] > c[beyond] {
		return best.reaching(v, h)
	}
	if v := all.best(fine); !v.like(best) && v.cost(h)[between] > c[between] {
		return Why{Reason: OnMarks}
	}
	u := all.best(usual).cost(h)
	switch {
	case best.apex == 2:
		return Why{}
	case u[nobodyMarks] > c[nobodyMarks] || u[worked] == c[worked] && u[flat] > c[flat]:
		return Why{Reason: Sharper}
	case c[worked] == 0 && (u[worked] > 0 || u[third] > c[third]):
		return Why{Reason: AllGiven}
	case u[worked] > c[worked]:
		return Why{Reason: MoreGiven}
	case u[halves] > c[halves]:
		return Why{Reason: SetSquare}
	}
	return Why{}
}

// reaching is what the compasses would not span if v were done.
func (w way) reaching(v way, h Hand) Why {
	why := Why{Reason: WithinReach}
	for _, s := range v.steps {
		switch s := s.(type) {
		case Swing:
			if s.Radius > max(h.Reach, why.Length) {
				why.Length, why.Side, why.Half = s.Radius, [2]geom.Name{min(s.Centre, s.To), max(s.Centre, s.To)}, false
			}
		case HalfCircle:
			if s.Radius > h.Reach && why.Length == 0 {
				why.Length, why.Side, why.Half = 2*s.Radius, s.Over, true
			}
		}
	}
	if why.Half {
		return why
	}
	b, _ := Construction{Steps: w.steps}.Base()
	why.ByRuler = why.Side == [2]geom.Name{min(b.From, b.To), max(b.From, b.To)}
	return why
}

// lacking is why some figures are computed.
func (all ways) lacking(h Hand) Why {
	free := h
	free.OnBase = false
	for _, w := range all {
		if c := w.cost(free); c[worked] == 0 && c[nobodyMarks] > 0 && (w.apex == 2 || !h.OnBase) {
			return Why{Reason: TooFlatly}
		}
	}
	if v := all.best(free); v.cost(free)[worked] == 0 {
		b, _ := Construction{Steps: v.steps}.Base()
		return Why{Reason: OnAskedBase, Better: [2]geom.Name{b.From, b.To}}
	}
	return Why{Reason: SomeWorked}
}
