package pegging

import (
	"slices"

	"trammel/geom/unit"
)

// Slip is an error of one pull that is looked for: a figure misread by a centimetre.
const Slip = 10 * unit.Millimetre

// Unseen are the pulls, by their index, of which a Slip puts no check outside its range.
func (l Layout) Unseen() (all []int) {
	for i, p := range l.Pulls {
		if slipping(p) && !slices.ContainsFunc(l.Checks, func(c Check) bool { return slices.Contains(c.Shows, i) }) {
			all = append(all, i)
		}
	}
	return all
}

// slipping says whether a pull sets a point out, and may slip so: an angle is turned, and a
// second way is a check of its own.
func slipping(p Pull) bool { return p.Use != ForAngle && p.Part != SecondWay }

// moved is where the marks come to with a slip of a pull, one way and the other.
func (n trace) moved(pull int) (at [2]places) {
	var all []int
	for i := range n.marks {
		all = append(all, i)
	}
	still := n.places(n.value, all)
	for k, slip := range []float64{Slip.MM(), -Slip.MM()} {
		v := slices.Clone(n.value)
		v[pull] += slip
		at[k] = slices.Clone(still)
		for i, m := range n.marks {
			if slices.Contains(m.by, pull) {
				at[k][i] = m.at(v, at[k])
			}
		}
	}
	return at
}

// margin is by how much a check comes out of its range at least, with the marks moved so.
func (c *checking) margin(x Check, moved [2]places) unit.Length {
	p, q := c.trace.of[x.From], c.trace.of[x.To]
	out := unit.Length(1e9)
	for _, at := range moved {
		by := at[p].Distance(at[q]) - x.Value
		out = min(out, max(by-(x.Greatest-x.Reads), -by-(x.Reads-x.Least)))
	}
	return out
}

// showing notes of each check which slips it shows.
func (c *checking) showing() {
	for i, p := range c.Pulls {
		if !slipping(p) {
			continue
		}
		moved := c.trace.moved(i)
		for k, x := range c.all {
			if c.margin(x, moved) > 0 {
				c.all[k].Shows = append(c.all[k].Shows, i)
			}
		}
	}
}

// unseen adds, for each pull of which no check shows a slip, the one that shows it best.
func (c *checking) unseen() {
	for i, p := range c.Pulls {
		if !slipping(p) {
			continue
		}
		moved := c.trace.moved(i)
		if slices.ContainsFunc(c.all, func(x Check) bool { return c.margin(x, moved) > 0 }) {
			continue
		}
		best, most, from := Check{}, unit.Length(0), c.trace.of[p.To]
		for _, end := range c.order {
			for _, far := range c.order {
				a, b := c.trace.of[end], c.trace.of[far]
				if end >= far || from != a && from != b && p.Use != ForBaseline && p.Use != ForRunning && p.Use != ForLine && p.Use != ForLeg || c.known(end, far) || !c.allowed(end, far) {
					continue
				}
				if x := c.reckoned(Check{Kind: CheckDiagonal, From: end, To: far, Along: c.along(end, far)}); c.margin(x, moved) > most {
					best, most = x, c.margin(x, moved)
				}
			}
		}
		if most > 0 {
			c.add(best)
		}
	}
}
