package net

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Adjusted is a net after the adjustment: the places that make the sum of (residual/σ)² least.
type Adjusted struct {
	Names   []geom.Name // in the order of the alphabet
	Points  []geom.Point
	Outline []geom.Name
	Base    [2]geom.Name // the line that is held: zero where known points are
	Placed  []Placed     // how the start was found, in this order
	Results []Result     // one for each measurement, in the order given
	Freedom int          // measurements more than needed
	Sum     float64      // of (residual/σ)²
	Global  Global
	// Suspects are the measurements that may hold a slip, the likeliest first; empty where all fit.
	Suspects []Suspect
	// Mine tells this placement of the points from Others, which fit as well and which Net.Sides excludes; where
	// Disputed, no placement agrees with all that was measured, and Others come as near. Both empty where only one fits.
	Mine     Placement
	Others   []Placement
	Disputed bool
	Doubts   []Doubt // what is doubtful in the net itself

	net *problem
	fit *fitted
}

// Result is one measurement beside its adjusted value.
type Result struct {
	Measurement triangle.Measurement
	Measured    adjust.Figure
	Adjusted    adjust.Figure
	Residual    adjust.Figure // adjusted less measured
	Sigma       adjust.Figure // of the measurement as it was taken
	After       adjust.Figure // σ of the adjusted value
	// Redundancy is the share of a slip that shows in this residual, from 0 (no
	// other measurement checks it) to 1. Over all measurements it sums to Freedom.
	Redundancy float64
	// W is the standardised residual, residual/(σ√redundancy); 0 where Redundancy is less than Checked. W.
	// Baarda, A testing procedure for use in geodetic networks, 1968 (from memory).
	W float64
	// Noticed is the slip that would be found four times in five: NoticedAt·σ/√redundancy; 0 where none would.
	Noticed adjust.Figure
}

const (
	// Checked is the redundancy below which nothing checks a measurement: what is less is rounding.
	Checked = 1e-6
	// Critical is the |W| above which a residual is not chance, but once in a
	// thousand: the normal distribution, two-sided.
	Critical = 3.2905
	// chanceOfSum is how seldom the sum of squares of a sound net is larger than Global.Limit.
	chanceOfSum = 0.05
	// NoticedAt is Baarda's δ₀ for that level and a power of 80 %: 3.2905 + 0.8416.
	NoticedAt = 4.1321
)

// CriticalOf is the |W| that the largest of n residuals passes by chance once in a thousand nets: Critical for one,
// more for many. The residuals are taken as independent, which asks rather too much of them than too little (Z. Šidák,
// Rectangular confidence regions for the means of multivariate normal distributions, 1967, from memory).
func CriticalOf(n int) float64 {
	each := -math.Expm1(math.Log1p(-0.001) / float64(max(n, 1)))
	return distuv.UnitNormal.Quantile(1 - each/2)
}

// Global is the test whether the residuals as a whole are what the σ allow.
type Global struct {
	Sigma0 float64 // √(Sum/Freedom): 1 where the σ are right; 0 without redundancy
	Limit  float64 // Sum is larger by chance once in twenty: χ², 95 %, one-sided
	Chance float64 // that Sum is as large as it is or larger
	Passed bool    // also where there is no redundancy and so nothing to test
}

// Adjust finds the points of a net triangle by triangle in closed form and then
// adjusts all measurements together by least squares, each with its own σ.
//
// Accuracy: the places are those of the least sum of squares within 1e-8 m and
// the σ within 1e-6 of themselves (tests against SciPy).
//
// Errors: a *unit.Fault where words or numbers cannot be meant, a
// *triangle.NoTriangle where the net is not fixed or not one, a *Several where more
// than one placement of its points fits; a measurement that
// contradicts the others is no error but a Suspect.
func Adjust(n Net) (Adjusted, error) {
	p, err := newProblem(n)
	if err != nil {
		return Adjusted{}, err
	}
	b, err := p.begin()
	if err != nil {
		return Adjusted{}, err
	}
	a, err := b.adjusted()
	if err == nil && len(b.others) > 0 {
		b.tellApart(&a)
	}
	return a, err
}

// adjusted is the net adjusted from a start.
func (s *state) adjusted() (Adjusted, error) {
	f, err := s.fit(s.at)
	if err != nil {
		return Adjusted{}, err
	}
	if f, err = s.mirrored(f); err != nil {
		return Adjusted{}, err
	}
	if len(s.control) == 0 && f.base != s.baseline(f.At) { // another line became the longest
		if f, err = s.fit(f.At); err != nil {
			return Adjusted{}, err
		}
	}
	if err := s.Coincide(f.At); err != nil {
		return Adjusted{}, err
	}
	a := Adjusted{Names: s.Names, Placed: s.found, net: s.problem, fit: f}
	for _, i := range s.round {
		a.Outline = append(a.Outline, s.Names[i])
	}
	if len(s.control) == 0 {
		a.Base = [2]geom.Name{s.Names[f.base[0]], s.Names[f.base[1]]}
	}
	a.take()
	a.suspects()
	a.warn()
	return a, nil
}

// mirrored turns a net over that came out as the mirror image of its outline
// while nothing but the alphabet said which it was.
func (p *problem) mirrored(f *fitted) (*fitted, error) {
	if len(p.control) > 0 || len(p.asked.Sides) > 0 || len(p.round) < 3 || p.area(f.At) >= 0 {
		return f, nil
	}
	return p.fit(overturned(f.At))
}

// take fills in everything that follows from the fit.
func (a *Adjusted) take() {
	f := a.fit
	for _, c := range f.At {
		a.Points = append(a.Points, c.Plus(a.net.Origin).Point())
	}
	f.Invert()
	a.Freedom = len(f.Obs) - f.Free.N
	a.Sum = f.Sum
	a.Global = Global{Passed: true, Chance: 1}
	if a.Freedom > 0 {
		chi := distuv.ChiSquared{K: float64(a.Freedom)}
		a.Global = Global{Sigma0: math.Sqrt(a.Sum / float64(a.Freedom)), Limit: limit(a.Freedom, chanceOfSum), Chance: chi.Survival(a.Sum)}
		a.Global.Passed = a.Sum <= a.Global.Limit
	}
	for i := range f.Obs {
		a.Results = append(a.Results, a.result(i))
	}
}

func (a *Adjusted) result(i int) Result {
	f, o := a.fit, &a.fit.Obs[i]
	v, _ := o.Computed(f.At)
	r := Result{Measurement: a.net.Measured[i]}
	share := f.Through(&f.Rows[i], &f.Rows[i]) // of the adjusted value, in σ²
	if a.Freedom > 0 {
		r.Redundancy = min(1, max(0, 1-share))
	}
	fig := func(x float64) adjust.Figure { return adjust.AsFigure(o.Kind, x) }
	residual := v - o.Value
	r.Measured, r.Adjusted, r.Residual = fig(o.Value), fig(v), fig(residual)
	r.Sigma, r.After = fig(o.Sigma), fig(o.Sigma*math.Sqrt(max(0, share)))
	if r.Redundancy >= Checked {
		r.W = residual / (o.Sigma * math.Sqrt(r.Redundancy))
		r.Noticed = fig(NoticedAt * o.Sigma / math.Sqrt(r.Redundancy))
	}
	return r
}

func (a Adjusted) index(n geom.Name) (i int, ok bool) {
	i = slices.Index(a.Names, n)
	return i, i >= 0
}

// Point is the place of a point; ok is false where there is none of the name.
func (a Adjusted) Point(n geom.Name) (at geom.Point, ok bool) {
	i, ok := a.index(n)
	if ok {
		at = a.Points[i]
	}
	return at, ok
}

// Corner is the σ of the angle at a point from one to another; 0 where one of them is not there or all are held.
func (a Adjusted) Corner(m, at, n geom.Name) unit.Angle {
	i, ok0 := a.index(m)
	j, ok1 := a.index(at)
	k, ok2 := a.index(n)
	if !ok0 || !ok1 || !ok2 {
		return 0
	}
	o := adjust.Observation{Kind: triangle.Angle, At: [3]int{i, j, k}, N: 3, Sigma: 1}
	o.Orient(a.fit.At)
	_, by := o.Computed(a.fit.At)
	return unit.Angle(a.fit.Sigma(a.fit.Free.Row(o.Points(), by[:]...)))
}

// Polygon is the outline; nil where there is none.
func (a Adjusted) Polygon() geom.Polygon {
	var all geom.Polygon
	for _, n := range a.Outline {
		at, _ := a.Point(n)
		all = append(all, at)
	}
	return all
}

// Covariance of a point, with the baseline's first end and direction (or the
// known points) held: zero for what is held and for a name that is not there.
func (a Adjusted) Covariance(n geom.Name) adjust.Covariance {
	i, ok := a.index(n)
	if !ok {
		return adjust.Covariance{}
	}
	return a.fit.Covariance(i)
}

// Seen is the place of a point and its covariance as seen from another baseline:
// its first end is the origin, its direction that of x, and both are without
// error. That is what a peg set out from that baseline has from the measurements.
func (a Adjusted) Seen(n geom.Name, base [2]geom.Name) (geom.Point, adjust.Covariance) {
	i, ok0 := a.index(n)
	p, ok1 := a.index(base[0])
	q, ok2 := a.index(base[1])
	if !ok0 || !ok1 || !ok2 || p == q {
		return geom.Point{}, adjust.Covariance{}
	}
	from := geom.VectorOf(a.Points[p])
	way, d := geom.VectorOf(a.Points[q]).Minus(from), geom.VectorOf(a.Points[i]).Minus(from)
	b := way.Size()
	along := way.Times(1 / b)
	across := along.Left()
	here := geom.Vector{X: along.Dot(d), Y: along.Cross(d)}
	// In the axes of the baseline: the point less the first end, less what the turn of the baseline moves it by.
	turn := across.Times(1 / b)
	of := []int{i, p, q}
	x := a.fit.Free.Row(of, along, along.Times(-1).Minus(turn.Times(here.Y)), turn.Times(here.Y))
	y := a.fit.Free.Row(of, across, across.Times(-1).Plus(turn.Times(here.X)), turn.Times(-here.X))
	through := func(r, t *adjust.Row) unit.Area { return unit.Area(a.fit.Through(r, t)) }
	return here.Point(), adjust.Covariance{XX: through(&x, &x), YY: through(&y, &y), XY: through(&x, &y)}
}

// Squareness is what four sides and two diagonals say of four corners.
type Squareness struct {
	Corners  [4]geom.Name
	Measured bool // all six are; else nothing below is said
	// Sides are opposite sides, AB and CD, BC and DA; Diagonals AC and BD.
	Sides     [2]Pair
	Diagonals Pair
	Square    bool // opposite sides alike, diagonals alike: a rectangle
}

// Pair is two lengths that a rectangle has alike.
type Pair struct {
	First, Second unit.Length
	Differ        unit.Length // first less second
	Allowed       unit.Length // what the two may differ by: Expansion·σ of the difference
	Alike         bool
}

// Rectangle says whether four corners in the order of walking round are a rectangle, from what was measured
// of them and not from what was adjusted. Equal diagonals alone do not make one: a trapezium has them too.
// Both pairs of opposite sides must be alike as well, and then they do.
func (a Adjusted) Rectangle(corners [4]geom.Name) Squareness {
	s := Squareness{Corners: corners, Measured: true}
	mean := func(i, j int) (length, sigma float64) {
		sum, weight := 0.0, 0.0
		line := triangle.Measurement{Kind: triangle.Distance, At: [3]geom.Name{corners[i], corners[j]}}
		for _, r := range a.Results {
			if r.Measurement.Same(line) {
				w := 1 / (r.Sigma.Length * r.Sigma.Length)
				sum, weight = sum+float64(w*r.Measured.Length), weight+float64(w)
			}
		}
		if weight == 0 {
			s.Measured = false
			return 0, 0
		}
		return sum / weight, 1 / math.Sqrt(weight)
	}
	pair := func(i, j, k, l int) Pair {
		first, sigma := mean(i, j)
		second, sigmaSecond := mean(k, l)
		p := Pair{First: unit.Length(first), Second: unit.Length(second), Differ: unit.Length(first - second), Allowed: unit.Length(tape.Expansion * math.Hypot(sigma, sigmaSecond))}
		p.Alike = math.Abs(first-second) <= float64(p.Allowed)
		return p
	}
	s.Sides = [2]Pair{pair(0, 1, 2, 3), pair(1, 2, 3, 0)}
	s.Diagonals = pair(0, 2, 1, 3)
	s.Square = s.Measured && s.Sides[0].Alike && s.Sides[1].Alike && s.Diagonals.Alike
	return s
}
