package compare

import (
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// leftOut is what a fit leaves out: a peg whose place is free, or a reading.
type leftOut struct {
	peg     int
	reading int // −1: the peg
}

// freed is the weight of a peg that is free: so little changes no figure that is
// ever printed, and keeps a peg that hardly anything was found of from running away.
const freed = 1e-4

// pegFit is where the pegs stand by a fit: the readings, and each wanted place as two
// observations more.
type pegFit struct{ *adjust.Fit }

// fit finds the places for which the sum of squares is least, with some pegs free
// and some readings left out.
func (l *layout) fit(out []leftOut) (*pegFit, error) {
	e := adjust.Equations{Obs: l.Obs, Weight: make([]float64, len(l.Obs)+2*len(l.Names))}
	e.Free = adjust.NewUnknowns(len(l.Names), func(int) (x, y bool) { return false, false })
	for i, w := range l.white {
		e.Priors = append(e.Priors, adjust.Prior{Point: i, At: l.wanted[i], White: w})
	}
	for i := range e.Weight {
		e.Weight[i] = 1
	}
	for _, o := range out {
		if o.reading >= 0 {
			e.Weight[o.reading] = 0
			continue
		}
		r := len(l.Obs) + 2*o.peg
		e.Weight[r], e.Weight[r+1] = freed, freed
	}
	f, ok := e.Solve(l.wanted)
	if !ok {
		return nil, &unit.Fault{What: "what was found does not go with what was wanted", Hint: "are the letters the same?"}
	}
	f.Invert()
	return &pegFit{f}, nil
}

// rowsOf a thing that may be left out.
func (f *pegFit) rowsOf(x leftOut) []int {
	if x.reading >= 0 {
		return []int{x.reading}
	}
	m := len(f.Obs) + 2*x.peg
	return []int{m, m + 1}
}

// fixed says whether the readings alone fix the shape of the pegs they go to, and
// where they do not, which length between two of the pegs tells the most.
func (l *layout) fixed(f *pegFit) (bool, [2]geom.Name) {
	var seen []int
	for i := range l.Names {
		if len(l.Of[i]) > 0 {
			seen = append(seen, i)
		}
	}
	if len(seen) < 2 {
		return true, [2]geom.Name{}
	}
	const nothing = 1e-9 // of the largest pivot
	alone := adjust.Equations{Obs: l.Obs, Free: f.Free}.Linear(f.At)
	if alone.Rank(nothing) >= 2*len(seen)-3 { // but for a shift and a turn
		return true, [2]geom.Name{}
	}
	// The length that is least known beside what it would be with nothing found.
	best, at := 0.0, [2]geom.Name{}
	for x, i := range seen {
		for _, j := range seen[:x] {
			if l.found(i, j) {
				continue
			}
			u := f.At[i].Minus(f.At[j]).Unit()
			r := f.Free.Row([]int{i, j}, u, u.Times(-1))
			before := 0.0
			for _, q := range []int{i, j} {
				before += l.spread[q].Through(u)
			}
			if share := f.Through(&r, &r) / before; share > best*(1+1e-6) {
				best, at = share, [2]geom.Name{l.Names[j], l.Names[i]}
			}
		}
	}
	return false, at
}

// found says whether the length between two pegs was.
func (l *layout) found(i, j int) bool {
	for _, k := range l.Of[i] {
		if o := &l.Obs[k]; o.N == 2 && o.Has(j) {
			return true
		}
	}
	return false
}
