package net

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

func chiLimit(freedom int) float64 {
	if freedom <= 0 {
		return 1e-6 // nothing is left over: the others fit exactly
	}
	return distuv.ChiSquared{K: float64(freedom)}.Quantile(0.95)
}

// angleSums finds triangles whose three measured angles do not make 180° within
// the sum of what they allow.
func (p *problem) angleSums() (all []Doubt) {
	order, in := byThree(p.Obs, func(o *adjust.Observation) bool { return o.Kind == triangle.Angle })
	for _, key := range order {
		at := map[int]int{}
		for _, i := range in[key] {
			if _, twice := at[p.Obs[i].At[1]]; !twice {
				at[p.Obs[i].At[1]] = i
			}
		}
		if len(at) < 3 {
			continue
		}
		sum, allow := 0.0, 0.0
		var of []int
		for _, q := range key {
			o := &p.Obs[at[q]]
			sum, allow = sum+o.Value, allow+tape.Expansion*o.Sigma
			of = append(of, o.Index)
		}
		if off := sum - math.Pi; math.Abs(off) > allow*(1+1e-9) {
			all = append(all, Doubt{Kind: AngleSum, Angles: of, Sum: unit.Angle(sum), Allowed: unit.Angle(allow)})
		}
	}
	return all
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

// Rectangle says whether four corners in the order of walking round are a
// rectangle, from what was measured of them and not from what was adjusted. Equal
// diagonals alone do not make one: a trapezium has them too. Both pairs of
// opposite sides must be alike as well, and then they do.
func (a Adjusted) Rectangle(corners [4]geom.Name) Squareness {
	s := Squareness{Corners: corners, Measured: true}
	get := func(i, j int) (length, sigma float64) {
		sum, weight := 0.0, 0.0
		for k := range a.Results {
			m := a.Results[k].Measurement
			if m.Kind == triangle.Distance && (m.At[0] == corners[i] && m.At[1] == corners[j] || m.At[1] == corners[i] && m.At[0] == corners[j]) {
				w := 1 / (a.Results[k].Sigma.Length * a.Results[k].Sigma.Length)
				sum, weight = sum+float64(w*a.Results[k].Measured.Length), weight+float64(w)
			}
		}
		if weight == 0 {
			s.Measured = false
			return 0, 0
		}
		return sum / weight, 1 / math.Sqrt(weight)
	}
	pair := func(i, j, k, l int) Pair {
		a, sa := get(i, j)
		b, sb := get(k, l)
		p := Pair{First: unit.Length(a), Second: unit.Length(b), Differ: unit.Length(a - b), Allowed: unit.Length(tape.Expansion * math.Hypot(sa, sb))}
		p.Alike = math.Abs(a-b) <= float64(p.Allowed)
		return p
	}
	s.Sides = [2]Pair{pair(0, 1, 2, 3), pair(1, 2, 3, 0)}
	s.Diagonals = pair(0, 2, 1, 3)
	s.Square = s.Measured && s.Sides[0].Alike && s.Sides[1].Alike && s.Diagonals.Alike
	return s
}
