package compare

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom/adjust"

	"gonum.org/v1/gonum/stat/distuv"
)

const (
	// clearer: a cause rules out another where it is a hundred thousand times as likely:
	// 2 ln 10⁵. So it does that nothing is wrong.
	clearer = 23.03
	// another thing that is wrong as well is so much less likely than one alone.
	another = 23.03
	// agrees: what is left is larger once in a million by chance. Well: once in a thousand.
	agrees = 1 - 1e-6
	well   = 1 - 1e-3
	// mostNear explanations are told; where there are more it is too little to tell.
	mostNear = 5
	// fewThings is up to how many pegs and readings every two of them are tried together; beyond, only pegs are.
	fewThings = 150
	// mostThings are tried together: of three, pegs alone.
	mostThings = 3
	// fewPegs of the likeliest are tried by three.
	fewPegs = 14
	// refined is how many of the likeliest are fitted in full: the first look takes
	// the net as linear, and a peg that is far off is not. Of a small net it is more.
	refined      = 12
	refinedSmall = 40
	smallNet     = 60 // readings
)

type suspect struct {
	out          []leftOut // what is left out; nil: common
	common       commonly  // what all have in common
	fit          *adjust.Fit
	rank         int
	left         float64 // the sum that is left
	weight       float64 // −2 ln of the chance of so large a drop, less what its kind costs
	agrees, well bool
}

// trial looks for what explains that a layout does not fit: it fits what is guessed, one kind after the other.
type trial struct {
	*layout
	f    *adjust.Fit // of the layout as it was wanted
	cost float64     // of the kind that is tried
	all  []suspect
	best float64 // of those that agree
}

// lighter orders the likelier first.
func lighter(s, t suspect) int { return descending(s.weight, t.weight) }

// blame looks for what explains the disagreement.
func (l *layout) blame(c *Comparison, f *adjust.Fit) {
	t := trial{layout: l, f: f}
	t.suspects()
	all := t.all
	slices.SortStableFunc(all, lighter)
	if len(all) == 0 || all[0].weight < clearer {
		return
	}
	x := teller{l, c.Readings}
	agreeing := slices.DeleteFunc(slices.Clone(all), func(s suspect) bool { return !s.agrees })
	if len(agreeing) == 0 {
		e := x.explanation(all[0])
		c.Nearest = &e
		return
	}
	near := t.near(agreeing)
	if len(near) > mostNear {
		return
	}
	for _, s := range near {
		c.Explanations = append(c.Explanations, x.explanation(s))
	}
	if len(near) > 1 {
		c.Tell = l.telling(c.Explanations)
	}
}

// near are the causes that come near the likeliest, without those that say the same
// and more. Where the likeliest leaves more than it should, those come near too that
// leave no more than they should and are less likely for what they are alone.
func (l *trial) near(all []suspect) (out []suspect) {
	if all[0].weight < clearer {
		return nil
	}
	for _, s := range all {
		least := all[0].weight - clearer
		if !all[0].well && s.well {
			least -= another * float64(max(0, len(s.out)-1))
		}
		if s.weight >= least && s.weight > 0 {
			out = append(out, s)
		}
	}
	out = oneWhole(out, all)
	return slices.DeleteFunc(slices.Clone(out), func(s suspect) bool {
		return slices.ContainsFunc(out, func(t suspect) bool { return l.holds(s, t) })
	})
}

// oneWhole makes one of the ways in which the whole may stand wrong, where several come
// near: what is shifted and turned freely serves all of them.
func oneWhole(near, all []suspect) []suspect {
	free := slices.IndexFunc(all, func(s suspect) bool { return s.common.cause == ShiftedAndTurned })
	whole := func(s suspect) bool { return s.common.cause.OfWhole() && s.common.cause != ShiftedAndTurned }
	first := slices.IndexFunc(near, whole)
	if free < 0 || first < 0 || !slices.ContainsFunc(near[first+1:], whole) {
		return near
	}
	one := all[free]
	one.common.cause = ShiftedOrTurned
	out := slices.DeleteFunc(slices.Clone(near), func(s suspect) bool { return s.common.cause.OfWhole() })
	return slices.Insert(out, min(first, len(out)), one)
}

// agrees says whether what is left is no more than the tools allow, in so many of all cases.
func (l *trial) agrees(s suspect, share float64) bool {
	free := len(l.Obs) - s.rank
	if free < 1 {
		return len(s.out) == 1 // two things need something that confirms them
	}
	return s.left <= distuv.ChiSquared{K: float64(free)}.Quantile(share)
}

// holds says whether a cause says all that another does, and more.
func (l *trial) holds(s, t suspect) bool {
	has := func(x leftOut) bool { return slices.Contains(s.out, x) }
	switch {
	case t.out != nil:
		return len(s.out) > len(t.out) && !slices.ContainsFunc(t.out, func(x leftOut) bool { return !has(x) })
	case t.common.cause == Racked: // two pegs side by side
		for k, p := range t.common.round {
			if has(leftOut{p, -1}) && has(leftOut{t.common.round[(k+1)%4], -1}) {
				return true
			}
		}
	case t.common.cause.OfWhole():
		if s.out == nil {
			return s.common.cause == ShiftedAndTurned && t.common.cause < ShiftedAndTurned
		}
		for i := range l.Names {
			if !l.fast[i] && len(l.Of[i]) > 0 && !has(leftOut{i, -1}) {
				return false
			}
		}
		return true
	}
	return false
}

// things that may be wrong: pegs that something was found of, and readings.
func (l *layout) things() (pegs, readings []leftOut) {
	for i := range l.Names {
		if len(l.Of[i]) > 0 && !l.fast[i] {
			pegs = append(pegs, leftOut{i, -1})
		}
	}
	for k := range l.Obs {
		readings = append(readings, leftOut{-1, k})
	}
	return pegs, readings
}

// suspects are what may be the cause, each fitted in full: one thing, what all have in common, two things,
// three pegs. Where what is simple leaves nothing to be gained the rest is not tried.
func (t *trial) suspects() {
	pegs, readings := t.things()
	things := slices.Concat(pegs, readings)
	n, k := float64(len(things)), float64(len(pegs))
	together := things
	if len(things) > fewThings {
		together = pegs
	}
	g := linearly(t.f, together...)

	t.cost = 2 * math.Log(n)
	var single []suspect
	for _, x := range things {
		single = append(single, t.guesses(linearly(t.f, x), []leftOut{x}, 1)...)
	}
	chosen := likelyPegs(single[:len(pegs)])
	t.fit(single)
	for _, c := range t.commons() {
		if h, ok := t.fitted(c, t.f); ok {
			t.add(suspect{common: h, fit: h.fit, rank: len(h.by), left: h.fit.Sum})
		}
	}
	if t.cost = 2*math.Log(max(1, n*(n-1)/2)) + another; t.promises() {
		t.fit(t.guesses(g, together, 2))
	}
	if t.cost = 2*math.Log(max(1, k*(k-1)*(k-2)/6)) + 2*another; t.promises() {
		t.fit(t.guesses(g, chosen, mostThings))
	}
}

func (t *trial) add(s suspect) {
	s.weight = weigh(t.f.Sum-s.left, s.rank) - t.cost
	s.agrees, s.well = t.agrees(s, agrees), t.agrees(s, well)
	t.all = append(t.all, s)
	if s.agrees {
		t.best = max(t.best, s.weight)
	}
}

// promises says whether the kind can come near the best, whatever it leaves.
func (t *trial) promises() bool { return weigh(t.f.Sum, 2)-t.cost > t.best-clearer }

// fit fits the best guesses in full.
func (t *trial) fit(guesses []suspect) {
	slices.SortStableFunc(guesses, lighter)
	most := refined
	if len(t.Obs) <= smallNet {
		most = refinedSmall
	}
	for _, g := range guesses {
		if g.rank == 0 || g.weight < max(guesses[0].weight, t.best)/2-slack || t.idle(g) {
			continue
		}
		if h, err := t.layout.fit(g.out); err == nil {
			t.add(suspect{out: g.out, fit: h, rank: g.rank, left: leftBy(h, g.out)})
		}
		if most--; most == 0 {
			return
		}
	}
}

// idle says whether a guess can say nothing but what one before it says with less.
func (t *trial) idle(g suspect) bool {
	most := weigh(t.f.Sum, g.rank) - t.cost
	return slices.ContainsFunc(t.all, func(s suspect) bool { return s.agrees && s.weight >= most && t.holds(g, s) })
}

// slack is by how much the first look may be less likely than the fit in full, beside half of it.
const slack = 30

// likelyPegs are those that are tried by three.
func likelyPegs(single []suspect) (out []leftOut) {
	for _, g := range slices.SortedStableFunc(slices.Values(single), lighter)[:min(fewPegs, len(single))] {
		out = append(out, g.out[0])
	}
	slices.SortFunc(out, func(x, y leftOut) int { return cmp.Compare(x.peg, y.peg) })
	return out
}

// guesses are every so many of the things, with how likely that looks.
func (t *trial) guesses(g linear, things []leftOut, many int) (all []suspect) {
	var add func(from, out []leftOut)
	add = func(from, out []leftOut) {
		if len(out) == many {
			drop, rank := g.drop(out)
			all = append(all, suspect{out: out, rank: rank, weight: weigh(drop, rank) - t.cost})
			return
		}
		for i, x := range from {
			add(from[:i], append([]leftOut{x}, out...))
		}
	}
	add(things, nil)
	return all
}

// leftBy is the sum of what takes part.
func leftBy(f *adjust.Fit, out []leftOut) float64 {
	sum := f.Sum
	for _, x := range out {
		for _, k := range rowsOf(f, x) {
			sum -= f.Off[k] * f.Off[k]
		}
	}
	return max(0, sum)
}
