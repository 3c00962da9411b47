package pegging

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Ranking of the ways of setting out, the surest first.
type Ranking struct {
	Best []Way // the best few, the one that is used among them
	Used int   // index into Best
	Of   int   // how many were compared
	Why  Reason
}

// Way is the one that is used.
func (r Ranking) Way() Way { return r.Best[r.Used] }

// Reason why a way is used.
type Reason struct {
	Code  ReasonCode
	Other Way       // that the way in use is held against
	Foot  geom.Name // of Extends: where the line would have to be extended to
}

// ReasonCode says what speaks for a way.
type ReasonCode uint8

const (
	Alone      ReasonCode = iota // there is no other
	Surest                       // Other is not as sure
	AsAsked                      // asked for; Other is surer
	AskedAlike                   // asked for; Other is hardly surer
	Extends                      // Other is surer and wants the line extended
	Longest                      // Other is hardly surer, and its baseline shorter
	Simplest                     // Other is hardly surer
)

// ranked is how many ways the ranking prints.
const ranked = 5

// alike is up to how much worse than the best a way still is as good: its figures
// stand on tolerances that are known no better. Of those the longest baseline is
// taken, of offsets that with the fewest feet, and two arcs before an offset before an angle.
const alike = 1.05

// extended is up to how much worse than the best a way may be that needs no line
// extended beyond its ends, where the best does: that takes a longer string, a
// second look, and ground that may not be free.
const extended = 1.5

// extends is the first peg whose offset has its foot beyond an end of the baseline; empty:
// there is none.
func (p Points) extends(x Way) geom.Name {
	b := p.distance(x.Base[0], x.Base[1])
	for _, q := range x.Pegs {
		foot := q.At.X - q.Square.Aside
		if x.Method == OffsetSquare && (foot < -SameMark || foot > b+SameMark) {
			return q.Name
		}
	}
	return ""
}

// feet is how many feet a way marks that stand at no corner.
func (p Points) feet(x Way) int {
	b, all := p.distance(x.Base[0], x.Base[1]), []unit.Length{0, p.distance(x.Base[0], x.Base[1])}
	for _, q := range x.Pegs {
		if onTheLine(geom.VectorOf(q.At), b.MM()) {
			all = append(all, q.At.X)
		}
	}
	corners := len(all)
	for _, q := range x.Pegs {
		foot := q.At.X - q.Square.Aside
		if !slices.ContainsFunc(all, func(at unit.Length) bool { return near(at, foot, SameMark) }) {
			all = append(all, foot)
		}
	}
	return len(all) - corners
}

// rank compares all baselines and methods and settles which is used.
func (p Points) rank(in Asked) (Ranking, error) {
	for i, a := range p.order {
		for _, b := range p.order[:i] {
			if p.distance(a, b) < adjust.Shortest {
				return Ranking{}, &unit.Fault{Subject: unit.Measured, Of: string(a), What: "it lies where " + string(b) + " lies"}
			}
		}
	}
	methods := in.methods()
	lines := slices.DeleteFunc(p.lines(in.Base), func(l [2]geom.Name) bool { return p.distance(l[0], l[1]) < Least-SameMark })
	all := p.framed(waysOf(in.Tools, p.pegs(), methods, lines), in.Base)
	var flat []Way
	all = slices.DeleteFunc(all, func(x Way) bool {
		at, crossing := x.flattest()
		if at == "" || crossing >= geom.TooFlat {
			return false
		}
		flat = append(flat, x)
		return true
	})
	fits := func(x Way) bool {
		return (in.Method == nil || x.Method == *in.Method) && (in.Base == [2]geom.Name{} || SameLine(x.Base, in.Base))
	}
	if !slices.ContainsFunc(all, fits) {
		return Ranking{}, p.tooFlat(flat[slices.IndexFunc(flat, fits)], all)
	}
	return p.ranking(all, fits, in), nil
}

// methods that the tools allow, and the one asked for.
func (a Asked) methods() []Method {
	methods := slices.Clone(a.Methods)
	if len(methods) == 0 {
		methods = []Method{TwoArcs, OffsetSquare}
	}
	if a.Method != nil && !slices.Contains(methods, *a.Method) {
		methods = append(methods, *a.Method)
	}
	return methods
}

// ranking of ways, the surest first.
func (p Points) ranking(all []Way, fits func(Way) bool, in Asked) Ranking {
	for i := range all {
		all[i].Times = float64(all[i].Figure / all[0].Figure)
	}
	used := p.pick(all, fits)
	r := Ranking{Best: slices.Clone(all[:min(ranked, len(all))]), Used: used, Of: len(all), Why: p.why(all, used, in)}
	if used >= len(r.Best) {
		r.Used = len(r.Best) - 1
		r.Best[r.Used] = all[used]
	}
	return r
}

// framed leaves of the two ways from either end of a line the one that would be set
// out: from the end that was named first; else of an instrument from where its sights
// are surest, and of a tape as the piece is walked round, unless the other end leaves
// fewer pegs behind the tape's zero.
func (p Points) framed(all []Way, named [2]geom.Name) []Way {
	behind := func(x Way) (n int) {
		b := p.distance(x.Base[0], x.Base[1])
		for _, q := range x.Pegs {
			if q.At.X < -SameMark {
				n++
			} else if q.At.X > b+SameMark {
				n--
			}
		}
		return n
	}
	seen := map[[2]geom.Name]bool{}
	return slices.DeleteFunc(all, func(x Way) bool { // the surest first
		switch {
		case SameLine(x.Base, named):
			return x.Base != named
		case x.Method == AngleDistance:
			seen[x.Base] = true
			return seen[[2]geom.Name{x.Base[1], x.Base[0]}]
		}
		n := behind(x)
		return n > 0 || n == 0 && !p.walked(x.Base)
	})
}

// tooFlat refuses arcs that nobody can mark the crossing of, and says what would do.
func (p Points) tooFlat(x Way, all []Way) error {
	at, crossing := x.flattest()
	f := &triangle.NoTriangle{What: fmt.Sprintf("arcs swung from %s and %s cross at only %s at %s: under %s nobody can mark where", x.Base[0], x.Base[1],
		p.Style.Angle(crossing), at, p.Style.Angle(geom.TooFlat))}
	f.Subject, f.Code = unit.Pegs, unit.TooFlat
	if i := slices.IndexFunc(all, func(y Way) bool { return y.Method == TwoArcs }); i >= 0 {
		_, least := all[i].flattest()
		f.Code, f.Hint = unit.TooFlatBase, fmt.Sprintf("base %s would do, whose arcs cross at %s or more", all[i].Base[0]+all[i].Base[1], p.Style.Angle(least))
	}
	return f
}

// pick is the way that is used, of those that fit what was asked for.
func (p Points) pick(all []Way, fits func(Way) bool) int {
	best := slices.IndexFunc(all, fits)
	if p.extends(all[best]) != "" {
		plain := slices.IndexFunc(all, func(x Way) bool { return fits(x) && p.extends(x) == "" })
		if plain >= 0 && all[plain].Figure <= extended*all[best].Figure {
			best = plain
		}
	}
	better := func(x, y Way) bool { // both as good
		longX, longY := p.extends(x) != "", p.extends(y) != ""
		a, b := p.distance(x.Base[0], x.Base[1]), p.distance(y.Base[0], y.Base[1])
		switch {
		case longX != longY:
			return longY
		case x.Method == OffsetSquare && y.Method == OffsetSquare && p.feet(x) != p.feet(y):
			return p.feet(x) < p.feet(y)
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

// why the way that is used: where it is not the surest, what speaks against that one;
// else how it stands to the best by another method, or from another baseline.
func (p Points) why(all []Way, used int, in Asked) Reason {
	u, best := all[used], all[0]
	asked := in.Method != nil && best.Method != Mixed && best.Method != *in.Method || in.Base != [2]geom.Name{} && !SameLine(best.Base, in.Base)
	foot := p.extends(best)
	switch {
	case used == 0:
	case asked && u.Times > alike:
		return Reason{Code: AsAsked, Other: best}
	case asked:
		return Reason{Code: AskedAlike, Other: best}
	case foot != "" && p.extends(u) == "":
		return Reason{Code: Extends, Other: best, Foot: foot}
	case p.distance(u.Base[0], u.Base[1]) > p.distance(best.Base[0], best.Base[1])*(1+1e-3):
		return Reason{Code: Longest, Other: best}
	default:
		return Reason{Code: Simplest, Other: best}
	}
	for _, sameLine := range []bool{true, false} {
		for i, x := range all {
			if i != used && SameLine(x.Base, u.Base) == sameLine {
				return Reason{Code: Surest, Other: x}
			}
		}
	}
	return Reason{}
}
