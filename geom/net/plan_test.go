package net

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// plan is a net with the places that its figures were taken from.
type plan struct {
	at    []geom.Vector
	lines [][2]int
	net   Net
}

const scatter = 1.5 // mm, the σ of each length of a plan

func peg(i int) geom.Name { return geom.Name(fmt.Sprintf("P%d", i+1)) }

// measured fills in the lengths with scatter.
func (n *plan) measured(r *rand.Rand) {
	slices.SortFunc(n.lines, func(a, b [2]int) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	for _, l := range n.lines {
		token := fmt.Sprintf("%s%s=%.1f+-%g", peg(l[0]), peg(l[1]), n.at[l[0]].To(n.at[l[1]])+scatter*r.NormFloat64(), tape.Expansion*scatter)
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			panic(err)
		}
		n.net.Measured = append(n.net.Measured, m)
	}
}

func (n *plan) has(i, j int) bool {
	return slices.Contains(n.lines, [2]int{min(i, j), max(i, j)})
}

// nearest are all pairs of points, the nearest to each other first.
func (n *plan) nearest() (all [][2]int) {
	for j := range n.at {
		for i := range j {
			all = append(all, [2]int{i, j})
		}
	}
	slices.SortFunc(all, func(a, b [2]int) int {
		return cmp.Compare(n.at[a[0]].To(n.at[a[1]]), n.at[b[0]].To(n.at[b[1]]))
	})
	return all
}

// triangulated is a random field of points, joined by every line that crosses no
// shorter one, and by as many lines more as no two points need to part it: what
// hangs on two points alone could be turned over. Some more lines are thrown in.
func triangulated(r *rand.Rand, points int) *plan {
	n := &plan{}
	wide := 5000 * math.Sqrt(float64(points))
	for len(n.at) < points {
		c := geom.Vector{X: wide * r.Float64(), Y: wide * r.Float64()}
		if !slices.ContainsFunc(n.at, func(o geom.Vector) bool { return o.To(c) < 1500 }) {
			n.at = append(n.at, c)
		}
	}
	pairs := n.nearest()
	for _, l := range pairs {
		a, b := n.at[l[0]], n.at[l[1]]
		if !slices.ContainsFunc(n.lines, func(o [2]int) bool {
			c, d := n.at[o[0]], n.at[o[1]]
			return o[0] != l[0] && o[0] != l[1] && o[1] != l[0] && o[1] != l[1] &&
				geom.IsLeft(a, b, c) != geom.IsLeft(a, b, d) && geom.IsLeft(c, d, a) != geom.IsLeft(c, d, b)
		}) {
			n.lines = append(n.lines, l)
		}
	}
	for _, l := range pairs { // across each two points that part the net
		part := n.parts(l[0], l[1], n.lines)
		for _, m := range pairs {
			if m[0] != l[0] && m[0] != l[1] && m[1] != l[0] && m[1] != l[1] && part[m[0]] != part[m[1]] {
				n.lines = append(n.lines, m)
				part = n.parts(l[0], l[1], n.lines)
			}
		}
	}
	for k := 0; k < points/5; k++ {
		l := pairs[r.IntN(min(len(pairs), 5*points))]
		if !slices.Contains(n.lines, l) {
			n.lines = append(n.lines, l)
		}
	}
	n.measured(r)
	return n
}

// parts numbers the parts that the net falls into without two points.
func (n *plan) parts(a, b int, lines [][2]int) []int {
	part := make([]int, len(n.at))
	for i := range part {
		part[i] = i
	}
	for changed := true; changed; {
		changed = false
		for _, l := range lines {
			i, j := l[0], l[1]
			if i == a || i == b || j == a || j == b || part[i] == part[j] {
				continue
			}
			part[i], part[j] = min(part[i], part[j]), min(part[i], part[j])
			changed = true
		}
	}
	return part
}

// toNearest is a random field of points each measured to the nearest few.
func toNearest(r *rand.Rand, points, few int) *plan {
	n := &plan{}
	for range points {
		n.at = append(n.at, geom.Vector{X: 50000 * r.Float64(), Y: 50000 * r.Float64()})
	}
	for i := range n.at {
		order := make([]int, 0, points)
		for j := range n.at {
			if j != i {
				order = append(order, j)
			}
		}
		slices.SortFunc(order, func(j, k int) int { return cmp.Compare(n.at[i].To(n.at[j]), n.at[i].To(n.at[k])) })
		for _, j := range order[:few] {
			if !n.has(i, j) {
				n.lines = append(n.lines, [2]int{min(i, j), max(i, j)})
			}
		}
	}
	n.measured(r)
	return n
}

// hang hangs more points on lines there are, by two lines each, which leaves open
// on which side they lie; some hang on others.
func (n *plan) hang(r *rand.Rand, more int) {
	for range more {
		l := n.lines[r.IntN(len(n.lines))]
		a, b := n.at[l[0]], n.at[l[1]]
		way := b.Minus(a)
		n.at = append(n.at, a.Plus(way.Times(0.2+0.6*r.Float64())).Plus(way.Left().Times(0.5+r.Float64())))
		n.lines = append(n.lines, [2]int{l[0], len(n.at) - 1}, [2]int{l[1], len(n.at) - 1})
	}
	n.net.Measured = nil
	n.measured(r)
}

// misfit is the sum of (residual/σ)² at some places.
func (n *plan) misfit(at []geom.Vector) (sum float64) {
	for i, l := range n.lines {
		v := (at[l[0]].To(at[l[1]]) - float64(n.net.Measured[i].Value.Length())) / scatter
		sum += v * v
	}
	return sum
}

// relaxed moves places to where the lengths fit best, each point in turn by its
// own lines: slow, but with nothing of what it is there to check.
func (n *plan) relaxed(at []geom.Vector) []geom.Vector {
	at = slices.Clone(at)
	of := make([][]int, len(at))
	for i, l := range n.lines {
		of[l[0]], of[l[1]] = append(of[l[0]], i), append(of[l[1]], i)
	}
	for range 400 {
		for u := range at {
			var xx, xyy, yy, gx, gy float64
			for _, i := range of[u] {
				v := n.lines[i][0] + n.lines[i][1] - u
				way := at[u].Minus(at[v])
				d := way.Size()
				off, e := float64(n.net.Measured[i].Value.Length())-d, way.Times(1/d)
				xx, xyy, yy, gx, gy = xx+e.X*e.X, xyy+e.X*e.Y, yy+e.Y*e.Y, gx+e.X*off, gy+e.Y*off
			}
			if det := xx*yy - xyy*xyy; det > 1e-9 {
				at[u] = at[u].Plus(geom.Vector{X: (gx*yy - gy*xyy) / det, Y: (gy*xx - gx*xyy) / det})
			}
		}
	}
	return at
}

// twofold looks without the package's search for another net of the same
// lengths: whatever two points part is turned over the line through them, and so
// is what would be parted but for lines that the turn hardly changes. It returns
// the points that can be turned, and by how much the sum of squares is then more.
func (n *plan) twofold() (turned []int, more float64) {
	least := n.misfit(n.relaxed(n.at))
	more = math.Inf(1)
	for b := range n.at {
		for a := range b {
			mirror := func(c geom.Vector) geom.Vector {
				e := n.at[b].Minus(n.at[a]).Unit()
				d := c.Minus(n.at[a])
				return n.at[a].Plus(e.Times(2 * e.Dot(d))).Minus(d)
			}
			for _, slack := range []float64{0, 3, 10, 30} {
				var held [][2]int
				for _, l := range n.lines {
					p, q := n.at[l[0]], n.at[l[1]]
					if math.Abs(mirror(p).To(q)-p.To(q)) > slack*scatter {
						held = append(held, l)
					}
				}
				part := n.parts(a, b, held)
				for root := range part {
					at := slices.Clone(n.at)
					var those []int
					moved := 0.0
					for i := range at {
						if i != a && i != b && part[i] == root && part[root] == root {
							at[i] = mirror(at[i])
							moved = max(moved, at[i].To(n.at[i]))
							those = append(those, i)
						}
					}
					if len(those) == 0 || len(those) > (len(at)-2)/2 || moved < 20*scatter {
						continue
					}
					if n.misfit(at)-least > 1e5 {
						continue
					}
					end := n.relaxed(at)
					far := 0.0
					for _, i := range those {
						far = max(far, n.apart(end, i))
					}
					if m := n.misfit(end) - least; m < more && far > 10*scatter {
						more, turned = m, those
					}
				}
			}
		}
	}
	return turned, more
}

// apart is how differently a point lies to the others at these places and truly.
func (n *plan) apart(at []geom.Vector, i int) (most float64) {
	for j := range at {
		most = max(most, math.Abs(at[i].To(at[j])-n.at[i].To(n.at[j])))
	}
	return most
}

// off is by how much the distance of any two adjusted points is wrong at most, in
// its σ and in mm: so no net need be laid onto the other.
func (n *plan) off(a Adjusted) (sigmas, mm float64) {
	for i := range n.at {
		for j := range i {
			d, s := distance(a, peg(i), peg(j))
			v := math.Abs(float64(d) - n.at[i].To(n.at[j]))
			sigmas, mm = max(sigmas, v/float64(s)), max(mm, v)
		}
	}
	return sigmas, mm
}
