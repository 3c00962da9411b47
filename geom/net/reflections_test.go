package net

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// Nets held against brute force: every point of a net of lengths is put left and
// right of the line between the two it was measured from, every such placement is
// adjusted by a Gauss–Newton of its own with differences for derivatives, and those
// that fit and whose outline does not cross itself are what the net may be. Nothing
// of the program takes part in it.

// reflected is a random net, and all it may be.
type reflected struct {
	at      [][2]float64
	hung    [][2]int // of each point from the third on: the two it is hung on
	lines   [][2]int
	reads   []float64
	outline []int
	fit     [][][2]float64 // the placements that fit
}

// chi999 is χ² at 99.9 % for 1 to 3 degrees of freedom (NIST/SEMATECH e-Handbook of
// Statistical Methods, 1.3.6.7.4, upper critical values); without any the lines
// meet exactly.
var chi999 = [...]float64{1e-6, 10.828, 13.816, 16.266}

func apartOf(a, b [2]float64) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }

func turnOf(a, b, c [2]float64) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}

// newReflected is a net of n points with some lengths more than needed, read exactly
// or with a scatter of 1 mm.
func newReflected(r *rand.Rand, n, spare int, noisy, outlined bool) *reflected {
	q := &reflected{}
	for len(q.at) < n {
		p := [2]float64{8000 * r.Float64(), 6000 * r.Float64()}
		k := len(q.at)
		if slices.ContainsFunc(q.at, func(o [2]float64) bool { return apartOf(o, p) < 400 }) {
			continue
		}
		if k >= 2 {
			a, b := r.IntN(k), r.IntN(k)
			if a == b || math.Abs(turnOf(q.at[a], q.at[b], p)) < 250*apartOf(q.at[a], q.at[b]) {
				continue
			}
			q.hung = append(q.hung, [2]int{a, b})
			q.lines = append(q.lines, [2]int{a, k}, [2]int{b, k})
		} else if k == 1 {
			q.lines = append(q.lines, [2]int{0, 1})
		}
		q.at = append(q.at, p)
	}
	for tries := 0; spare > 0 && tries < 200; tries++ {
		a, b := r.IntN(n), r.IntN(n)
		same := func(l [2]int) bool { return l == [2]int{min(a, b), max(a, b)} || l == [2]int{max(a, b), min(a, b)} }
		if a != b && !slices.ContainsFunc(q.lines, same) {
			q.lines = append(q.lines, [2]int{a, b})
			spare--
		}
	}
	for _, l := range q.lines {
		d := apartOf(q.at[l[0]], q.at[l[1]])
		if noisy {
			d += r.NormFloat64()
		}
		q.reads = append(q.reads, d)
	}
	if outlined {
		q.walk(r)
	}
	return q
}

// walk finds an outline through all points: any order, two edges that cross undone
// until none do; counter-clockwise.
func (q *reflected) walk(r *rand.Rand) {
	o := r.Perm(len(q.at))
	n := len(o)
	for again := true; again; {
		again = false
		for i := range n {
			for j := i + 2; j < n && !again; j++ {
				if i == 0 && j == n-1 {
					continue
				}
				if cross(q.at[o[i]], q.at[o[i+1]], q.at[o[j]], q.at[o[(j+1)%n]]) {
					slices.Reverse(o[i+1 : j+1])
					again = true
				}
			}
		}
	}
	area := 0.0
	for i := range n {
		a, b := q.at[o[i]], q.at[o[(i+1)%n]]
		area += a[0]*b[1] - a[1]*b[0]
	}
	if area < 0 {
		slices.Reverse(o)
	}
	q.outline = o
}

func cross(a, b, c, d [2]float64) bool {
	return turnOf(a, b, c)*turnOf(a, b, d) <= 0 && turnOf(c, d, a)*turnOf(c, d, b) <= 0
}

func (q *reflected) simple(at [][2]float64) bool {
	n := len(q.outline)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			o := q.outline
			if cross(at[o[i]], at[o[i+1]], at[o[j]], at[o[(j+1)%n]]) {
				return false
			}
		}
	}
	return true
}

func (q *reflected) read(a, b int) float64 {
	i := slices.IndexFunc(q.lines, func(l [2]int) bool { return l == [2]int{a, b} || l == [2]int{b, a} })
	return q.reads[i]
}

// all finds every placement by trying each.
func (q *reflected) all() {
	n := len(q.at)
	for choice := range 1 << max(0, n-3) {
		at := [][2]float64{{0, 0}, {q.reads[0], 0}}
		for k := 2; k < n; k++ {
			a, b := q.hung[k-2][0], q.hung[k-2][1]
			d, ra, rb := apartOf(at[a], at[b]), q.read(a, k), q.read(b, k)
			x := (d*d + ra*ra - rb*rb) / (2 * d)
			h2 := ra*ra - x*x
			if short := math.Abs(x) - ra; short > 0 && short < 100 { // scatter kept the two from meeting: begin close by
				h2 = 2 * ra
			}
			h := math.Sqrt(h2)
			if k > 2 && choice>>(k-3)&1 == 1 {
				h = -h
			}
			ux, uy := (at[b][0]-at[a][0])/d, (at[b][1]-at[a][1])/d
			at = append(at, [2]float64{at[a][0] + x*ux - h*uy, at[a][1] + x*uy + h*ux})
		}
		if !math.IsNaN(at[n-1][0]) && !slices.ContainsFunc(at, func(p [2]float64) bool { return math.IsNaN(p[0]) }) {
			q.keep(at)
		}
	}
}

func (q *reflected) keep(at [][2]float64) {
	spare := len(q.lines) - 2*len(at) + 3
	end, sum := q.settled(at)
	if !(sum <= chi999[spare]) || !q.simple(end) {
		return
	}
	for i := range end {
		for j := range i {
			if apartOf(end[i], end[j]) < 1 {
				return
			}
		}
	}
	if !slices.ContainsFunc(q.fit, func(f [][2]float64) bool { return congruent(f, end) }) {
		q.fit = append(q.fit, end)
	}
}

// congruent says whether two placements are one within 1 mm, turned over or not.
func congruent(a, b [][2]float64) bool {
	for i := range a {
		for j := range i {
			if math.Abs(apartOf(a[i], a[j])-apartOf(b[i], b[j])) > 1 {
				return false
			}
		}
	}
	return true
}

func (q *reflected) misfits(at [][2]float64) (v []float64, sum float64) {
	for i, l := range q.lines {
		d := q.reads[i] - apartOf(at[l[0]], at[l[1]])
		v, sum = append(v, d), sum+d*d
	}
	return v, sum
}

// settled adjusts a placement: σ is 1 mm.
func (q *reflected) settled(at [][2]float64) ([][2]float64, float64) {
	v, sum := q.misfits(at)
	n := 2*len(at) - 3 // all but the first point and the second's y
	slot := func(at [][2]float64, k int) *float64 {
		if k == 0 {
			return &at[1][0]
		}
		return &at[2+(k-1)/2][(k-1)%2]
	}
	for range 40 {
		// Normal equations from differences, solved by elimination.
		rows := make([][]float64, len(v))
		for i := range rows {
			rows[i] = make([]float64, n)
		}
		for k := range n {
			moved := slices.Clone(at)
			*slot(moved, k) += 1e-3
			w, _ := q.misfits(moved)
			for i := range w {
				rows[i][k] = (v[i] - w[i]) / 1e-3
			}
		}
		m := make([][]float64, n)
		for i := range n {
			m[i] = make([]float64, n+1)
			for k, row := range rows {
				for j := range n {
					m[i][j] += row[i] * row[j]
				}
				m[i][n] += row[i] * v[k]
			}
		}
		step := eliminated(m)
		took := false
		for scale := 1.0; scale > 1e-3; scale /= 2 {
			next := slices.Clone(at)
			for k := range n {
				*slot(next, k) += scale * step[k]
			}
			if w, s := q.misfits(next); s < sum {
				took = sum-s > 1e-9*(1+s)
				at, v, sum = next, w, s
				break
			}
		}
		if !took {
			break
		}
	}
	return at, sum
}

func eliminated(m [][]float64) []float64 {
	n := len(m)
	for c := range n {
		best := c
		for i := c; i < n; i++ {
			if math.Abs(m[i][c]) > math.Abs(m[best][c]) {
				best = i
			}
		}
		m[c], m[best] = m[best], m[c]
		for i := range n {
			if i != c {
				k := m[i][c] / m[c][c]
				for j := c; j <= n; j++ {
					m[i][j] -= k * m[c][j]
				}
			}
		}
	}
	x := make([]float64, n)
	for i := range n {
		x[i] = m[i][n] / m[i][i]
	}
	return x
}

// net is the same for the program.
func (q *reflected) net(t *testing.T) Net {
	var tokens []string
	for i, l := range q.lines {
		tokens = append(tokens, fmt.Sprintf("%s%s=%.4f+-2", letter(l[0]), letter(l[1]), q.reads[i]))
	}
	n := Net{Measured: measure(t, strings.Join(tokens, " "))}
	for _, i := range q.outline {
		n.Outline = append(n.Outline, letter(i))
	}
	return n
}

func placesOf(a Adjusted) (at [][2]float64) {
	for _, p := range a.Points {
		at = append(at, [2]float64{p.X.MM(), p.Y.MM()})
	}
	return at
}

// 200 nets in the gate, which has 2,000 others besides.
func TestEveryReflection(t *testing.T) { everyReflection(t, netsReflected) }

func everyReflection(t *testing.T, total int) {
	r := rand.New(rand.NewPCG(8, 1))
	var one, several, silent, impossible, asked, none, settled int
	for k := range total {
		q := newReflected(r, 4+r.IntN(6), r.IntN(4), k%2 == 1, k%4 < 3)
		q.all()
		net := q.net(t)
		a, err := Adjust(net)
		var many *Several
		if errors.As(err, &many) {
			// From where scatter keeps two arcs from meeting, an adjustment may not get to
			// every placement. One that the program names counts where its own lengths say so.
			for _, b := range many.Answers {
				q.keep(placesOf(b))
			}
		}
		say := func(what string) {
			t.Logf("net %d: %s: %d fit, %v\n%v %v", k, what, len(q.fit), err, net.Outline, net.Measured)
		}
		switch {
		case len(q.fit) == 0:
			none++
			if err == nil && a.Global.Passed {
				say("none fits, and one was taken")
				silent++
			}
		case errors.As(err, &many) && len(q.fit) == 1:
			say("asked")
			asked++
		case errors.As(err, &many):
			several++
			if !many.More && len(many.Answers) != len(q.fit) {
				say(fmt.Sprintf("%d answers", len(many.Answers)))
				t.Error("an answer is missing, or one too many")
			}
			for i, b := range many.Answers[:min(len(many.Answers), 4)] {
				if !slices.ContainsFunc(q.fit, func(f [][2]float64) bool { return congruent(f, placesOf(b)) }) {
					t.Errorf("net %d: answer %d does not fit", k, i+1)
				}
				if many.More {
					continue
				}
				settledNet := net
				settledNet.Sides = b.Mine.Sides
				c, err := Adjust(settledNet)
				if err != nil || !congruent(placesOf(c), placesOf(b)) {
					say(fmt.Sprintf("%s does not settle it: %v", b.Mine.String(), err))
					t.Error("sides that do not settle")
				}
				settled++
			}
		case err != nil:
			say("called impossible")
			impossible++
		case len(q.fit) > 1 || !congruent(q.fit[0], placesOf(a)):
			say("taken without a word")
			silent++
		default:
			one++
		}
	}
	t.Logf("%d nets: one fits and is used %d, several fit and are told apart %d (%d settled by their sides), none fits %d; another shape without a word %d, called impossible %d, asked though one fits %d",
		total, one, several, settled, none, silent, impossible, asked)
	if silent > 0 || impossible > 0 || 100*asked > total {
		t.Error("want none, none, and 1 in 100 asked")
	}
}
