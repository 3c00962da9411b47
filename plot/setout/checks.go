package setout

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// checks lists what was not used to place the apex, the most telling first.
func (w *work) checks() {
	at := func(n geom.Name) geom.Point {
		peg, _ := w.Peg(n)
		return peg.At
	}
	add := func(k CheckKind, from, to geom.Name, measured bool, note string) {
		c := Check{Number: len(w.Checks) + 1, Kind: k, From: from, To: to, Value: at(from).Distance(at(to)), Measured: measured, Note: note}
		own := w.Tape.Limit(c.Value)
		c.Half = unit.Length(math.Hypot(float64(own), float64(w.net.carried(from, to))))
		c.Least, c.Greatest = w.outward(c.Value-c.Half, c.Value+c.Half)
		w.Checks = append(w.Checks, c)
	}
	foot := w.foot
	onEnd := foot == w.left || foot == w.right
	if w.Ways[0].Method == SwingArcs {
		if !onEnd {
			note := "height"
			if w.mid == foot {
				note = "height, median"
			}
			add(CheckHeight, w.apex, foot, w.heightMeasured(), note)
		}
	} else {
		for _, end := range []geom.Name{w.Baseline.From, w.Baseline.To} {
			if end != foot {
				add(CheckSide, end, w.apex, w.sideMeasured(end, w.apex), "side")
			}
		}
	}
	if !onEnd {
		add(CheckFoot, foot, w.Baseline.From, false, "foot")
		add(CheckFoot, foot, w.Baseline.To, false, "foot")
	}
	if w.mid != foot {
		add(CheckMedian, w.apex, w.mid, false, "median")
	}
	add(CheckMedian, w.left, w.midRight, false, "median")
	add(CheckMedian, w.right, w.midLeft, false, "median")
	add(CheckMiddles, w.mid, w.midRight, false, "half of "+string(w.left+w.apex))
	add(CheckMiddles, w.mid, w.midLeft, false, "half of "+string(w.right+w.apex))
	add(CheckMiddles, w.midRight, w.midLeft, false, "half of "+string(w.left+w.right))
}

// basis says how the ranges are reckoned, in the sheet's own unit where it is metric.
func (w *work) basis() []string {
	c := classes[w.Tape.Class]
	hook := ""
	if w.Tape.Hook {
		hook = fmt.Sprintf(" + %.1f for the hook", c.hook.MM())
	}
	say := []string{
		fmt.Sprintf("Accept ranges: one pull is good within t = %.1f + %.1f L%s + 1 mm, L in metres rounded up (tape of class %s, Directive 2014/32/EU annex X, OIML R 35; 1 mm for nail and reading, common practice); "+
			"a check within the root of the sum of squares of its own t and of what each pull before it brings along, moved outward to %s.",
			c.a.MM(), c.b.MM(), hook, w.Tape.Class, w.grainWords()),
	}
	const felt = reading / 2 // less is lost on a nail
	if max(w.Ways[0].Rounding, w.Ways[1].Rounding) < felt {
		return say
	}
	return append(say, fmt.Sprintf("Rounding the printed figures moves %s %s %s, %s %s.",
		w.apex, w.moved(w.Ways[0].Rounding), w.Ways[0].Method.by(), w.moved(w.Ways[1].Rounding), w.Ways[1].Method.by()))
}

// moved is a small distance to two decimals of a millimetre or three of an inch.
func (s Sheet) moved(l unit.Length) string {
	if inches(s.Style) {
		return fmt.Sprintf("%.3f in", float64(l/unit.Inch))
	}
	return fmt.Sprintf("%.2f mm", l.MM())
}

func (m Method) by() string {
	return [...]string{"by the arcs", "by the square"}[m]
}
