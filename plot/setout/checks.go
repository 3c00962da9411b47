package setout

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// checks lists what was not used to set out, the most telling first.
func (w *work) checks() {
	if w.lone() {
		w.loneChecks()
		return
	}
	from, to := w.Baseline.From, w.Baseline.To
	for _, n := range w.around() { // what the method leaves of the triangle on the baseline
		if !slices.Contains(w.beside, n) {
			w.check(CheckFoot, n, to, "from the other end")
			continue
		}
		switch w.Method {
		case pegging.TwoArcs:
			w.check(CheckMedian, w.middle, n, "from the middle")
		case pegging.OffsetSquare:
			for _, end := range []geom.Name{from, to} {
				if end != w.feet[n] {
					w.check(CheckSide, end, n, w.lineNote(end, n))
				}
			}
		default:
			w.check(CheckSide, to, n, w.lineNote(to, n))
		}
	}
	for i, a := range w.Outline {
		w.check(CheckSide, a, w.Outline[(i+1)%len(w.Outline)], "side")
	}
	for _, r := range w.given {
		if m := r.Measurement; m.Kind == triangle.Distance {
			w.check(CheckDiagonal, m.At[0], m.At[1], w.lineNote(m.At[0], m.At[1]))
		}
	}
	for _, n := range w.beside { // each is held by two at least
		if w.checked(n) < 2 {
			if far := w.farthest(n); far != "" {
				w.check(CheckDiagonal, n, far, w.lineNote(n, far))
			}
		}
	}
}

func (w *work) lineNote(a, b geom.Name) string {
	switch {
	case w.edgeOf(a, b):
		return "side"
	case slices.Contains(w.Outline, a) && slices.Contains(w.Outline, b):
		return "diagonal"
	}
	return "line"
}

// checked is how many checks a point is held by.
func (w *work) checked(n geom.Name) (count int) {
	for _, c := range w.Checks {
		if c.From == n || c.To == n {
			count++
		}
	}
	return count
}

// farthest is the point beside the baseline that is farthest from n and makes a check
// that is not there yet.
func (w *work) farthest(n geom.Name) (far geom.Name) {
	best := unit.Length(0)
	for _, m := range w.beside {
		if d := w.distance(m, n); m != n && d > best && !w.known(m, n) {
			far, best = m, d
		}
	}
	return far
}

// known says whether a distance is pulled already, to set out or to check; the marks
// along the baseline are pulled from its zero end.
func (w *work) known(a, b geom.Name) bool {
	line := [2]geom.Name{a, b}
	for _, p := range w.Pulls {
		if p.Use != ForAngle && p.Part != SecondWay && sameLine([2]geom.Name{p.Hold, p.To}, line) {
			return true
		}
	}
	return slices.ContainsFunc(w.Checks, func(c Check) bool { return sameLine([2]geom.Name{c.From, c.To}, line) })
}

// check adds a check, unless the distance is pulled already.
func (w *work) check(k CheckKind, from, to geom.Name, note string) {
	if from == to || w.known(from, to) {
		return
	}
	p, _ := w.Peg(from)
	q, _ := w.Peg(to)
	c := Check{Number: len(w.Checks) + 1, Kind: k, From: from, To: to, Value: p.At.Distance(q.At), Note: note}
	if k == CheckHeight {
		c.Measured = w.offsetMeasured(from, c.Value)
	} else {
		c.Measured = w.measured(from, to, c.Value)
	}
	own := w.limit(c.Value)
	c.Half = unit.Length(math.Hypot(float64(own), float64(w.trace.carried(from, to))))
	c.Reads, _ = w.reads(c.Value, w.fall(from, to))
	c.Least, c.Greatest = w.Outward(c.Reads-c.Half, c.Reads+c.Half)
	w.Checks = append(w.Checks, c)
}

// loneChecks are those of a triangle: what the second way and the middles show.
func (w *work) loneChecks() {
	apex, foot := w.beside[0], w.feet[w.beside[0]]
	ends := w.ends()
	left, right := ends[0], ends[1]
	onEnd := foot == left || foot == right
	mid, midRight, midLeft := w.middle, w.mids[0].Name, w.mids[1].Name
	if w.Method != pegging.TwoArcs {
		for _, end := range []geom.Name{w.Baseline.From, w.Baseline.To} {
			if end != foot || w.Method != pegging.OffsetSquare {
				w.check(CheckSide, end, apex, "side")
			}
		}
	}
	if w.Method != pegging.OffsetSquare && !onEnd {
		note := "height"
		if mid == foot {
			note = "height, median"
		}
		w.check(CheckHeight, apex, foot, note)
	}
	if !onEnd {
		// The mark itself was run off from the zero end: both parts show a slip there.
		w.again(CheckFoot, foot, w.Baseline.From, "foot")
		w.again(CheckFoot, foot, w.Baseline.To, "foot")
	}
	if mid != foot {
		w.check(CheckMedian, apex, mid, "median")
	}
	w.check(CheckMedian, left, midRight, "median")
	w.check(CheckMedian, right, midLeft, "median")
	w.check(CheckMiddles, mid, midRight, "half of "+string(left+apex))
	w.check(CheckMiddles, mid, midLeft, "half of "+string(right+apex))
	w.check(CheckMiddles, midRight, midLeft, "half of "+string(left+right))
}

// again checks a distance though it was pulled once.
func (w *work) again(k CheckKind, from, to geom.Name, note string) {
	pulls := w.Pulls
	w.Pulls = nil
	w.check(k, from, to, note)
	w.Pulls = pulls
}

// basis says how the ranges are reckoned, in the sheet's own unit where it is metric.
func (w *work) basis() []string {
	tape := w.Tools.Tape
	a, b, off := tape.Terms()
	hook := ""
	if off > 0 {
		hook = fmt.Sprintf(" + %.1f for the hook", off.MM())
	}
	say := []string{
		fmt.Sprintf("Accept ranges: one pull is good within t = %.1f + %.1f L%s + %s mm, L in metres rounded up (tape of class %s, Directive 2014/32/EU annex X, OIML R 35; %s mm for nail and reading, common practice); "+
			"a check within the root of the sum of squares of its own t and of what each pull before it brings along, moved outward to %s.",
			a.MM(), b.MM(), hook, unit.Decimals(w.Tools.Reading.MM(), 2), tape.Class, unit.Decimals(w.Tools.Reading.MM(), 2), grainWords(w.Figures)),
	}
	if w.Method == pegging.AngleDistance {
		i := w.Instrument
		say = append(say, fmt.Sprintf("Angles: the %s keeps %s, and %s mm over a nail (common practice).", i.Name, keeps(i.Angle), unit.Decimals(i.Centring.MM(), 2)))
	}
	const felt = reading / 2 // less is lost on a nail
	if w.lone() {
		main, second := w.Main[0], w.Second[0]
		if max(main.Rounding, second.Rounding) >= felt {
			say = append(say, fmt.Sprintf("Rounding the printed figures moves %s %s %s, %s %s.",
				main.Peg, w.Tight(main.Rounding), by(main.Method), w.Tight(second.Rounding), by(second.Method)))
		}
		return say
	}
	worst := -1
	for i, p := range w.Main {
		if p.Rounding >= felt && (worst < 0 || p.Rounding > w.Main[worst].Rounding) {
			worst = i
		}
	}
	if worst >= 0 {
		say = append(say, fmt.Sprintf("Rounding the printed figures moves %s %s, no other peg more.", w.Main[worst].Peg, w.Tight(w.Main[worst].Rounding)))
	}
	return say
}

func by(m pegging.Method) string {
	return [...]string{"by the arcs", "by the square", "by the angle"}[m]
}
