package setout

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
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
func (w *work) extends(x pegging.Way) (of geom.Name, yes bool) {
	b := w.distance(x.Base[0], x.Base[1])
	for _, p := range x.Pegs {
		if x.Method == pegging.OffsetSquare && (p.At.X < -sameMark || p.At.X > b+sameMark) {
			return p.Name, true
		}
	}
	return "", false
}

// tooFlat: arcs that cross more sharply are no way to place a peg: a millimetre in a
// pull moves it by six and more (common practice, no source).
const tooFlat = 10 * unit.Degree

// rank compares all baselines and methods, each as it would be set out, and settles
// which is used.
func (w *work) rank(in Input) (pegging.Way, error) {
	methods := slices.Clone(in.Methods)
	if len(methods) == 0 {
		methods = []pegging.Method{pegging.TwoArcs, pegging.OffsetSquare}
	}
	if in.Method != nil && !slices.Contains(methods, *in.Method) {
		methods = append(methods, *in.Method)
	}
	all, err := pegging.Ways(w.Tools, w.pegsOf(), methods, w.lines(in.Base))
	if err != nil {
		return pegging.Way{}, err
	}
	all = slices.DeleteFunc(all, func(x pegging.Way) bool { return w.distance(x.Base[0], x.Base[1]) < Least-sameMark })
	all = w.framed(all, in.Base)
	var flat []pegging.Way
	all = slices.DeleteFunc(all, func(x pegging.Way) bool {
		at, crossing := x.Flattest()
		if at != "" && crossing < tooFlat {
			flat = append(flat, x)
			return true
		}
		return false
	})
	asked := in.Base != [2]geom.Name{}
	fits := func(x pegging.Way) bool {
		return (in.Method == nil || x.Method == *in.Method) && (!asked || sameLine(x.Base, in.Base))
	}
	if !slices.ContainsFunc(all, fits) {
		return pegging.Way{}, w.tooFlat(flat[slices.IndexFunc(flat, fits)], all)
	}
	for i := range all {
		all[i].Times = float64(all[i].Figure / all[0].Figure)
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

// framed leaves of the two ways from either end of a line the one that would be set
// out: from the end that was named first; else of an instrument from where its sights
// are surest, and of a tape as the piece is walked round, unless the other end leaves
// fewer pegs behind the tape's zero.
func (w *work) framed(all []pegging.Way, named [2]geom.Name) []pegging.Way {
	behind := func(x pegging.Way) (n int) {
		b := w.distance(x.Base[0], x.Base[1])
		for _, p := range x.Pegs {
			if p.At.X < -sameMark {
				n++
			} else if p.At.X > b+sameMark {
				n--
			}
		}
		return n
	}
	walked := func(b [2]geom.Name) bool {
		return w.outline(b[0], b[1]) || !w.outline(b[1], b[0]) && slices.Index(w.order, b[0]) < slices.Index(w.order, b[1])
	}
	seen := map[[2]geom.Name]bool{}
	return slices.DeleteFunc(all, func(x pegging.Way) bool { // the surest first
		switch {
		case sameLine(x.Base, named):
			return x.Base != named
		case x.Method == pegging.AngleDistance:
			seen[x.Base] = true
			return seen[[2]geom.Name{x.Base[1], x.Base[0]}]
		}
		n := behind(x)
		return n > 0 || n == 0 && !walked(x.Base)
	})
}

// tooFlat refuses arcs that nobody can mark the crossing of, and says what would do.
func (w *work) tooFlat(x pegging.Way, all []pegging.Way) error {
	at, crossing := x.Flattest()
	f := &triangle.NoTriangle{What: fmt.Sprintf("arcs swung from %s and %s cross at only %s at %s: under %s nobody can mark where", x.Base[0], x.Base[1],
		w.Style.Angle(crossing), at, w.Style.Angle(tooFlat))}
	f.Subject, f.Code = unit.Pegs, unit.TooFlat
	if i := slices.IndexFunc(all, func(y pegging.Way) bool { return y.Method == pegging.TwoArcs }); i >= 0 {
		_, least := all[i].Flattest()
		f.Code, f.Hint = unit.TooFlatBase, fmt.Sprintf("base %s would do, whose arcs cross at %s or more", edge(all[i].Base), w.Style.Angle(least))
	}
	return f
}

// few is up to how many points every line between two of them is tried as a baseline.
const few = 30

// lines that are tried as baselines, from either end: all, or of many points the one
// that was named, the edges of the outline and the lines between those that lie
// outermost.
func (w *work) lines(named [2]geom.Name) (all [][2]geom.Name) {
	add := func(a, b geom.Name) {
		for _, l := range [][2]geom.Name{{a, b}, {b, a}} {
			if !slices.Contains(all, l) {
				all = append(all, l)
			}
		}
	}
	if len(w.order) <= few {
		for i, a := range w.order {
			for _, b := range w.order[:i] {
				all = append(all, [2]geom.Name{b, a}, [2]geom.Name{a, b})
			}
		}
		return all
	}
	if named != ([2]geom.Name{}) {
		add(named[0], named[1])
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
func (w *work) pick(all []pegging.Way, fits func(pegging.Way) bool) int {
	best := slices.IndexFunc(all, fits)
	if _, longer := w.extends(all[best]); longer {
		plain := slices.IndexFunc(all, func(x pegging.Way) bool {
			_, longer := w.extends(x)
			return fits(x) && !longer
		})
		if plain >= 0 && all[plain].Figure <= extended*all[best].Figure {
			best = plain
		}
	}
	better := func(x, y pegging.Way) bool { // both as good
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

// why the way that is used, in a sentence: where it is not the surest, what speaks
// against that one; else how it stands to the best by another method, or from another
// baseline.
func (w *work) why(all []pegging.Way, used int, in Input) string {
	u, best := all[used], all[0]
	say := func(best, other pegging.Way) string {
		return words.In(w.Language).Pegs().Why(best, other, w.Inches()).Sentence()
	}
	name := func(x pegging.Way) string { return wayWords(x.Method) + " from " + edge(x.Base) }
	asked := in.Method != nil && best.Method != *in.Method || in.Base != [2]geom.Name{} && !sameLine(best.Base, in.Base)
	foot, longer := w.extends(best)
	if _, too := w.extends(u); too {
		longer = false
	}
	switch {
	case used == 0:
	case asked && u.Times > alike:
		return "As asked for. " + say(best, u)
	case asked:
		return fmt.Sprintf("As asked for; the surest, %s, is hardly better (%.2f times).", name(best), u.Times)
	case longer:
		return fmt.Sprintf("%s is %.2f times surer, but the line has to be extended to the foot of %s.", upper(name(best)), u.Times, foot)
	case w.distance(u.Base[0], u.Base[1]) > w.distance(best.Base[0], best.Base[1])*(1+1e-3):
		return fmt.Sprintf("%s is hardly surer (%.2f times); of those that are as good the longest baseline is used.", upper(name(best)), u.Times)
	default:
		return fmt.Sprintf("%s is hardly surer (%.2f times); of those that are as good the simplest is used.", upper(name(best)), u.Times)
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
