package net

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
)

// braced is a random net of n points round a site with many more distances (and
// some angles) than needed, scattered as their tolerances say.
type braced struct {
	at     []geom.Vector
	tokens []string
	net    Net
}

func (b *braced) distance(r *rand.Rand, i, j int) float64 {
	return b.at[i].To(b.at[j]) + r.NormFloat64()
}

func newBraced(r *rand.Rand) *braced {
	n := 4 + r.IntN(5)
	b := new(braced)
	size := 5000 + 25000*r.Float64()
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.5*(r.Float64()-0.5)) / float64(n))
		b.at = append(b.at, geom.Vector{X: size * c, Y: size * s * (0.5 + 0.5*r.Float64())})
		b.net.Outline = append(b.net.Outline, letter(i))
	}
	type pair struct{ i, j int }
	var all []pair
	for i := range n {
		for j := range i {
			all = append(all, pair{j, i})
		}
	}
	// All sides and most diagonals: a person who braces a net properly.
	spare := len(all) - 2*n
	for _, p := range all {
		if across := p.j - p.i; across > 1 && across < n-1 && spare > 0 && r.IntN(2) == 0 {
			spare--
			continue
		}
		b.tokens = append(b.tokens, fmt.Sprintf("%s%s=%.2f+-2", letter(p.i), letter(p.j), b.distance(r, p.i, p.j)))
	}
	for i := range n {
		o := adjust.Observation{Kind: triangle.Angle, At: [3]int{(i + 1) % n, i, (i + n - 1) % n}, N: 3}
		if v := o.Unsigned(b.at) * 180 / math.Pi; r.IntN(3) > 0 && v < 175 {
			b.tokens = append(b.tokens, fmt.Sprintf("%s%s%s=%.4fdeg+-0.02deg", letter(o.At[0]), letter(i), letter(o.At[2]), v+0.01*r.NormFloat64()))
		}
	}
	return b
}

// Nets with one slip of 5 σ to 50 σ planted in a measurement that others
// check: it is named first in 95 % of those above 8 σ and more. How surely it can
// be named depends on how well it is checked; a slip whose expected standardised
// residual is δ = slip·√redundancy/σ shows with the power that Baarda gives, and
// the table is printed by δ too.
//
// 500 nets in the gate, which has 2,000 others besides.
func TestPlantedSlipsAreNamed(t *testing.T) { plantedSlips(t, netsWithSlips, 4) }

func plantedSlips(t *testing.T, total int, seed uint64) {
	r := rand.New(rand.NewPCG(seed, 2026))
	type count struct{ named, of int }
	var over8, under8, strong count
	least, asked := 100, 0
	for nets := 0; nets < total; {
		b := newBraced(r)
		k := r.IntN(len(b.tokens))
		slips := 5 + 45*r.Float64()
		left, right, _ := strings.Cut(b.tokens[k], "=")
		var value, tol float64
		angle := strings.Contains(right, "deg")
		if angle {
			fmt.Sscanf(right, "%fdeg+-%fdeg", &value, &tol)
		} else {
			fmt.Sscanf(right, "%f+-%f", &value, &tol)
		}
		if r.IntN(2) == 0 {
			slips = -slips
		}
		value += slips * tol / 2
		if angle {
			if value < 1 || value > 179 {
				continue
			}
			b.tokens[k] = fmt.Sprintf("%s=%.4fdeg+-%gdeg", left, value, tol)
		} else {
			b.tokens[k] = fmt.Sprintf("%s=%.2f+-%g", left, value, tol)
		}
		b.net.Measured = measure(t, strings.Join(b.tokens, " "))
		a, err := Adjust(b.net)
		var several *Several
		if errors.As(err, &several) { // with the slip in it another placement fits as well
			asked++
			continue
		}
		if err != nil {
			t.Fatalf("%s: %v", strings.Join(b.tokens, " "), err)
		}
		if a.Freedom < 3 {
			continue
		}
		nets++
		least = min(least, a.Freedom)
		named := len(a.Suspects) > 0 && a.Suspects[0].Index == k
		add := func(c *count) {
			c.of++
			if named {
				c.named++
			}
		}
		if math.Abs(slips) > 8 {
			add(&over8)
		} else {
			add(&under8)
		}
		if math.Abs(slips)*math.Sqrt(a.Results[k].Redundancy) > 8 {
			add(&strong)
		}
	}
	if 200*asked > total {
		t.Errorf("asked which of several placements it is in %d of %d", asked, total)
	}
	rate := func(c count) float64 { return float64(c.named) / float64(c.of) }
	t.Logf("named first: %.1f %% of %d above 8 σ, %.1f %% of %d from 5 σ to 8 σ; %.1f %% of %d with δ above 8; redundancy %d and more",
		100*rate(over8), over8.of, 100*rate(under8), under8.of, 100*rate(strong), strong.of, least)
	if rate(over8) < 0.95 {
		t.Errorf("named first: %.1f %% of the slips above 8 σ", 100*rate(over8))
	}
}
