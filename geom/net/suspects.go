package net

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/slip"
)

// Suspect is a measurement that may hold a slip.
type Suspect struct {
	Index  int     // into Results
	W      float64 // its standardised residual
	Reads  adjust.Figure
	Others adjust.Figure // what the others make it, adjusted without it
	Sigma  adjust.Figure // σ of that
	// Without is the sum of (residual/σ)² of the others, Agree whether they then pass the global test.
	Without float64
	Agree   bool
	// Alike: nothing tells this one from the first of the list, or the first from the second.
	Alike bool
	Slips []slip.Slip // what would explain it, the nearest first
}

const (
	// mostSuspects that are tried by adjusting without them; of a large net fewer, since each costs an adjustment.
	mostSuspects  = 8
	mostOfMany    = 3
	manyPoints    = 60
	alike         = 4   // two removals whose sums differ by less (2 σ) cannot be told apart
	indifferent   = 0.5 // by less: the same, and what a known slip explains comes first
	suspectsShown = 1.645
)

// suspects finds the measurements that may hold a slip, where the residuals are more than chance. Each candidate is
// left out in turn and the rest adjusted anew, since a large slip bends the linear picture that W stands on.
func (a *Adjusted) suspects() {
	w := func(i int) float64 { return math.Abs(a.Results[i].W) }
	var all []int
	for i, r := range a.Results {
		if r.Redundancy >= Checked {
			all = append(all, i)
		}
	}
	slices.SortStableFunc(all, func(i, j int) int { return cmp.Compare(w(j), w(i)) })
	if a.Freedom == 0 || len(all) == 0 || a.Global.Passed && w(all[0]) <= Critical {
		return
	}
	most := mostSuspects
	if len(a.Names) > manyPoints {
		most = mostOfMany
	}
	all = slices.DeleteFunc(all[:min(len(all), most)], func(i int) bool { return i != all[0] && w(i) < suspectsShown })
	for _, again := range []bool{false, true} { // the slip may have led the start astray
		a.Suspects = nil
		for _, i := range all {
			if s, ok := a.without(i, again); ok {
				a.Suspects = append(a.Suspects, s)
			}
		}
		if len(a.Names) > manyPoints || slices.ContainsFunc(a.Suspects, func(s Suspect) bool { return s.Agree }) {
			break
		}
	}
	if len(a.Suspects) == 0 {
		return
	}
	slices.SortStableFunc(a.Suspects, func(s, t Suspect) int { return cmp.Compare(s.Without, t.Without) })
	least := a.Suspects[0].Without
	same := slices.IndexFunc(a.Suspects, func(s Suspect) bool { return s.Without > least+indifferent })
	if same < 0 {
		same = len(a.Suspects)
	}
	slices.SortStableFunc(a.Suspects[:same], func(s, t Suspect) int { return cmp.Compare(min(len(t.Slips), 1), min(len(s.Slips), 1)) })
	// Those that are held are no suspects, where a reading explains it as well.
	held := func(s Suspect) bool { return a.held(s.Index) }
	if slices.ContainsFunc(a.Suspects, func(s Suspect) bool { return s.Without < least+alike && !held(s) }) {
		a.Suspects = slices.DeleteFunc(a.Suspects, held)
	}
	for k := range a.Suspects {
		if k > 0 && a.Suspects[k].Without < least+alike {
			a.Suspects[k].Alike, a.Suspects[0].Alike = true, true
		}
	}
}

// heldShare: a length or an angle whose stated tolerance leaves it at most this share of what the tools would
// is no reading of theirs, but how somebody says that points are fixed.
const heldShare = 0.2

// held says whether a measurement was given so tightly that it fixes its points.
func (a *Adjusted) held(i int) bool {
	o := a.fit.Obs[i]
	if !o.Stated {
		return false
	}
	o.Stated, o.Half = false, 0
	return a.fit.Obs[i].Sigma <= heldShare*o.SigmaBefore(a.net.Tools)
}

// without adjusts the others alone, again from the beginning where that helps.
func (a *Adjusted) without(i int, again bool) (Suspect, bool) {
	p := a.net.less(i)
	obs := slices.Delete(slices.Clone(a.fit.Obs), i, i+1)
	f, err := p.settle(a.fit.At, obs, a.fit.Free)
	if err != nil {
		return Suspect{}, false
	}
	most := limit(a.Freedom-1, chanceOfSum)
	if again && f.Sum > most {
		if s, err := p.finder().start(); err == nil {
			if g, err := p.fit(s.at); err == nil && g.Sum < f.Sum {
				f = g.Fit
			}
		}
	}
	r := a.Results[i]
	o := a.fit.Obs[i]
	o.Orient(f.At)
	says, by := o.Computed(f.At)
	for k := range by {
		by[k] = geom.Vector{X: by[k].X / o.Sigma, Y: by[k].Y / o.Sigma}
	}
	sigma := f.Sigma(f.Free.Row(o.Points(), by[:]...)) * o.Sigma
	s := Suspect{Index: i, W: r.W, Reads: r.Measured, Others: adjust.AsFigure(o.Kind, says), Sigma: adjust.AsFigure(o.Kind, sigma), Without: f.Sum, Agree: f.Sum <= most}
	s.Slips = slip.Explain(r.Measurement, says, math.Hypot(o.Sigma, sigma))
	return s, true
}
