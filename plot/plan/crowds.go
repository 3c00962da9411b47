package plan

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// cluster is where pegs crowd: a circle whose pegs are named in a detail.
type cluster struct {
	name   string // i, ii, iii …: no peg has a small letter
	names  []geom.Name
	centre geom.Point // on the plan's paper
	radius unit.Length
}

// Distances on the plan's paper that make clusters.
const (
	crowdedAt  unit.Length = 2.8 // pegs nearer than this run together
	aroundPegs unit.Length = 2.2 // of a circle round its pegs
	joinsAt    unit.Length = 6   // a name without a place joins the cluster this near,
	takesAt    unit.Length = 9   // or makes one with pegs this near,
	takesFrom  unit.Length = 20  // or with the next one, this near
	mostRadius unit.Length = 24  // a detail shows it at twice the scale at least
)

// crowded are the clusters of pegs that run together on paper. Marks on one peg
// do not make one: no scale of a plan would part them.
func (pic picture) crowded() []cluster {
	var all []cluster
	for i, p := range pic.shown {
		for _, q := range pic.shown[:i] {
			d := p.At.Distance(q.At)
			if p.Name == "" || q.Name == "" || pic.byRunning(p) || pic.byRunning(q) || d > crowdedAt || float64(d) <= float64(tape.OnePeg)*pic.k {
				continue
			}
			switch a, b := crowdOf(all, q.Name), crowdOf(all, p.Name); {
			case a < 0 && b < 0:
				all = append(all, cluster{names: []geom.Name{q.Name, p.Name}})
			case a < 0:
				all[b].names = append(all[b].names, q.Name)
			case b < 0:
				all[a].names = append(all[a].names, p.Name)
			case a != b:
				all[a].names, all[b].names = append(all[a].names, all[b].names...), nil
			}
		}
	}
	return pic.rounded(all)
}

// gather makes the clusters larger, or new ones, for the pegs that found no place
// for their names; alone are those that no cluster would help.
func (pic picture) gather(crowds []cluster, unnamed []geom.Name) (all []cluster, alone []geom.Name) {
	all = slices.Clone(crowds)
	for _, n := range unnamed {
		if crowdOf(all, n) >= 0 {
			continue
		}
		at := pic.at[n]
		best, gap := -1, joinsAt
		for i, c := range all {
			if d := at.Distance(c.centre) - c.radius; d < gap && pic.around(append(slices.Clone(c.names), n)).radius <= mostRadius {
				best, gap = i, d
			}
		}
		if best >= 0 {
			all[best].names = append(slices.Clone(all[best].names), n)
			continue
		}
		names := []geom.Name{n}
		next, far := geom.Name(""), takesFrom
		for _, peg := range pic.shown {
			d := peg.At.Distance(at)
			if peg.Name == "" || peg.Name == n || pic.byRunning(peg) || crowdOf(all, peg.Name) >= 0 || float64(d) <= float64(tape.OnePeg)*pic.k {
				continue
			}
			if d < takesAt {
				names = append(names, peg.Name)
			}
			if d < far {
				next, far = peg.Name, d
			}
		}
		if len(names) == 1 && next != "" {
			names = append(names, next)
		}
		if len(names) == 1 {
			alone = append(alone, n) // no peg is in the way: a detail would not help
			continue
		}
		all = append(all, pic.around(names))
	}
	return pic.rounded(all), alone
}

// around is the circle round pegs.
func (pic picture) around(names []geom.Name) cluster {
	p := make([]geom.Point, len(names))
	for i, n := range names {
		p[i] = pic.at[n]
	}
	c := cluster{names: names, centre: geom.RectOf(p[0], p...).Centre()}
	for _, q := range p {
		c.radius = max(c.radius, c.centre.Distance(q)+aroundPegs)
	}
	return c
}

// rounded are clusters with their circles: pegs within a circle belong to it, and
// circles that meet are one where that is not too large.
func (pic picture) rounded(all []cluster) []cluster {
	all = slices.DeleteFunc(all, func(c cluster) bool { return len(c.names) == 0 })
	for i := range all {
		all[i] = pic.around(all[i].names)
	}
	for changed := true; changed; {
		changed = false
		for i := range all {
			for _, peg := range pic.shown {
				if peg.Name == "" || pic.byRunning(peg) || crowdOf(all, peg.Name) >= 0 || peg.At.Distance(all[i].centre) > all[i].radius+cornerPeg {
					continue
				}
				if c := pic.around(append(slices.Clone(all[i].names), peg.Name)); c.radius <= mostRadius {
					all[i], changed = c, true
				}
			}
		}
		for i := 0; i < len(all) && !changed; i++ {
			for j := range i {
				if all[i].centre.Distance(all[j].centre) > all[i].radius+all[j].radius+1 {
					continue
				}
				if c := pic.around(append(slices.Clone(all[j].names), all[i].names...)); c.radius <= mostRadius {
					all[j] = c
					all = slices.Delete(all, i, i+1)
					changed = true
					break
				}
			}
		}
	}
	slices.SortStableFunc(all, func(a, b cluster) int {
		return cmp.Or(cmp.Compare(math.Round(float64(b.centre.Y)), math.Round(float64(a.centre.Y))), cmp.Compare(a.centre.X, b.centre.X))
	})
	for i := range all {
		all[i].name = roman(i + 1)
	}
	return all
}

// roman is a small Roman numeral.
func roman(n int) string {
	out := ""
	for _, d := range []struct {
		n int
		s string
	}{{100, "c"}, {90, "xc"}, {50, "l"}, {40, "xl"}, {10, "x"}, {9, "ix"}, {5, "v"}, {4, "iv"}, {1, "i"}} {
		for ; n >= d.n; n -= d.n {
			out += d.s
		}
	}
	return out
}

// crowdOf is in which of the details a peg stands; −1: in none.
func crowdOf(crowds []cluster, n geom.Name) int {
	return slices.IndexFunc(crowds, func(c cluster) bool { return slices.Contains(c.names, n) })
}

// ringCrowds draws the circles; no label stands inside.
func (v *view) ringCrowds() {
	if v.in != nil {
		v.circle(v.in.centre, v.in.radius, draw.Narrow, draw.Notes)
	}
	for _, c := range v.crowds {
		v.circle(c.centre, c.radius, draw.Narrow, draw.Notes)
		const n = 16
		ring := make(geom.Polygon, n)
		for i := range ring {
			ring[i] = c.centre.Toward(unit.Turn*unit.Angle(i)/n, c.radius-1)
		}
		v.Block(ring)
	}
}

// nameCrowds writes beside each circle which detail it is.
func (v *view) nameCrowds() {
	for _, c := range v.crowds {
		l := label{words: "detail " + c.name, height: draw.FigureHeight, on: draw.Notes, anchor: c.centre, clear: c.radius}
		w := l.width(v.r)
		var places []spot
		for _, d := range []unit.Length{1.6, 3, 5} {
			for _, deg := range []unit.Angle{35, 145, -35, -145, 0, 180, 60, 120, -60, -120, 90, -90, 15, 165, -15, -165} {
				sin, cos := math.Sincos(float64(deg * unit.Degree))
				far := c.radius + d
				// The corner of the box that is nearest to the circle lies that far out.
				at := geom.Point{
					X: c.centre.X + far*unit.Length(cos) + w/2*unit.Length(sign(cos)),
					Y: c.centre.Y + far*unit.Length(sin) + l.height*0.675*unit.Length(sign(sin)),
				}
				places = append(places, spot{at, 0})
			}
		}
		if !v.label(l, places, nil) && !v.lead(l, c.radius+longReach, true) {
			v.lead(l, v.bounds.Width()+v.bounds.Height()+longReach, true)
		}
	}
}

// sign is −1, 0 or 1; next to nothing counts as nothing.
func sign(x float64) float64 {
	switch {
	case x > 0.01:
		return 1
	case x < -0.01:
		return -1
	}
	return 0
}
