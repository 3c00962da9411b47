package setout

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/survey"
)

// ranked is how many ways the ranking prints.
const ranked = 5

// alike is up to how much worse than the best a way still is as good: its figures
// stand on tolerances that are known no better. Of those the longest baseline is
// taken, and two arcs before an offset before an angle.
const alike = 1.05

// extended is up to how much worse than the best a way may be that needs no line
// extended beyond its ends, where the best does: that takes a longer string, a
// second look, and ground that may not be free.
const extended = 1.5

// extends says whether the feet of offsets lie beyond the ends of the baseline.
func (w *work) extends(x survey.Way) (of geom.Name, yes bool) {
	b := w.distance(x.Base[0], x.Base[1])
	for _, p := range x.Pegs {
		if x.Method == survey.OffsetSquare && (p.At.X < -sameMark || p.At.X > b+sameMark) {
			return p.Name, true
		}
	}
	return "", false
}

// rank compares all baselines and methods and settles which is used.
func (w *work) rank(in Input) (survey.Way, error) {
	methods := slices.Clone(in.Methods)
	if len(methods) == 0 {
		methods = []survey.Method{survey.TwoArcs, survey.OffsetSquare}
	}
	if in.Method != nil && !slices.Contains(methods, *in.Method) {
		methods = append(methods, *in.Method)
	}
	var pegs []survey.Peg
	for _, n := range w.order {
		pegs = append(pegs, survey.Peg{Name: n, At: w.at[n]})
	}
	all, err := w.Tools.Ways(pegs, methods, w.lines())
	if err != nil {
		return survey.Way{}, err
	}
	all = slices.DeleteFunc(all, func(x survey.Way) bool { return w.distance(x.Base[0], x.Base[1]) < Least-sameMark })
	for i, x := range all { // from which end a tape is pulled matters little: as the piece is walked round
		if b := x.Base; x.Method != survey.AngleDistance && !w.outline(b[0], b[1]) && (w.outline(b[1], b[0]) || slices.Index(w.order, b[0]) > slices.Index(w.order, b[1])) {
			all[i].Base = [2]geom.Name{b[1], b[0]}
		}
	}
	asked := in.Base != [2]geom.Name{}
	if asked { // from the end that was asked for, also where the lines of many pegs were not all tried
		more, err := w.Tools.Ways(pegs, methods, [][2]geom.Name{in.Base})
		if err != nil {
			return survey.Way{}, err
		}
		all = slices.DeleteFunc(all, func(x survey.Way) bool { return sameLine(x.Base, in.Base) })
		all = append(all, more...)
		slices.SortStableFunc(all, func(a, b survey.Way) int {
			switch {
			case a.Figure < b.Figure:
				return -1
			case a.Figure > b.Figure:
				return 1
			}
			return 0
		})
		for i := range all {
			all[i].Times = float64(all[i].Figure / all[0].Figure)
		}
	}
	if !asked { // a baseline and a method once, from its better end
		var once []survey.Way
		for _, x := range all {
			if !slices.ContainsFunc(once, func(y survey.Way) bool { return x.Method == y.Method && sameLine(x.Base, y.Base) }) {
				once = append(once, x)
			}
		}
		all = once
	}
	fits := func(x survey.Way) bool {
		return (in.Method == nil || x.Method == *in.Method) && (!asked || sameLine(x.Base, in.Base))
	}
	used := w.pick(all, fits)
	r := Ranking{Best: slices.Clone(all[:min(ranked, len(all))]), Used: used, Of: len(all), Why: w.why(all, used, in)}
	if used >= len(r.Best) {
		r.Used = len(r.Best) - 1
		r.Best[r.Used] = all[used]
	}
	w.Ranking = r
	return all[used], nil
}

// few is up to how many points every line between two of them is tried as a baseline.
const few = 30

// lines that are tried as baselines: none named, which is all, or of many points the
// edges of the outline and the lines between those that lie outermost.
func (w *work) lines() (all [][2]geom.Name) {
	if len(w.order) <= few {
		return nil
	}
	add := func(a, b geom.Name) {
		for _, l := range [][2]geom.Name{{a, b}, {b, a}} {
			if !slices.Contains(all, l) {
				all = append(all, l)
			}
		}
	}
	for i, a := range w.Outline {
		add(a, w.Outline[(i+1)%len(w.Outline)])
	}
	outer := w.hull()
	for i, a := range outer {
		for _, b := range outer[:i] {
			add(b, a)
		}
	}
	return all
}

// mostOuter is how many of the outermost points are tried with each other.
const mostOuter = 12

// hull is the points that a string round all of them touches; of many, those farthest
// in as many directions (mostOuter).
func (w *work) hull() (outer []geom.Name) {
	for i := range mostOuter {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / mostOuter)
		far := w.order[0]
		reach := func(n geom.Name) float64 { return float64(w.at[n].X)*cos + float64(w.at[n].Y)*sin }
		for _, n := range w.order {
			if reach(n) > reach(far) {
				far = n
			}
		}
		if !slices.Contains(outer, far) {
			outer = append(outer, far)
		}
	}
	return outer
}

// pick is the way that is used, of those that fit what was asked for.
func (w *work) pick(all []survey.Way, fits func(survey.Way) bool) int {
	best := slices.IndexFunc(all, fits)
	if _, longer := w.extends(all[best]); longer {
		plain := slices.IndexFunc(all, func(x survey.Way) bool {
			_, longer := w.extends(x)
			return fits(x) && !longer
		})
		if plain >= 0 && all[plain].Figure <= extended*all[best].Figure {
			best = plain
		}
	}
	better := func(x, y survey.Way) bool { // both as good
		_, p := w.extends(x)
		_, q := w.extends(y)
		a, b := w.distance(x.Base[0], x.Base[1]), w.distance(y.Base[0], y.Base[1])
		switch {
		case p != q:
			return q
		case math.Abs(float64(a-b)) > 1e-3*float64(b):
			return a > b
		}
		return x.Method < y.Method
	}
	used := best
	for i, x := range all {
		if fits(x) && x.Figure <= alike*all[best].Figure && better(x, all[used]) {
			used = i
		}
	}
	return used
}

func sameLine(a, b [2]geom.Name) bool { return a == b || a[0] == b[1] && a[1] == b[0] }

// why the way that is used, in a sentence: against the best where that is better,
// else against the best by another method, or from another baseline.
func (w *work) why(all []survey.Way, used int, in Input) string {
	u := all[used]
	say := func(best, other survey.Way) string {
		return sentence(survey.Why(best, other, inches(w.Style)))
	}
	asked := in.Method != nil || in.Base != [2]geom.Name{}
	if foot, longer := w.extends(all[0]); longer && u.Times > alike && !asked {
		return fmt.Sprintf("%s from %s is %.1f times surer, but the line has to be extended to the foot of %s.", upper(wayWords(all[0].Method)), edge(all[0].Base), u.Times, foot)
	}
	if u.Times > alike {
		return "As asked for. " + say(all[0], u)
	}
	for _, x := range all {
		if x.Method != u.Method && sameLine(x.Base, u.Base) {
			return say(u, x)
		}
	}
	for _, x := range all {
		if x.Method != u.Method || !sameLine(x.Base, u.Base) {
			return say(u, x)
		}
	}
	return ""
}
