package net

import (
	"math"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

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
